package chem

// Carry is b for another bath of the same soap, by the first reading of that:
// what was learned of type and strength holds from fill to fill. Soaps that
// cannot give the reading are left out.
func (b Belief) Carry(first Sample) (Belief, error) {
	if err := first.check(); err != nil {
		return b, err
	}
	var cells []cell
	var plain Mix
	var of string
	var err error
	for _, c := range b.cells {
		if c.family.Name != of {
			of = c.family.Name
			plain, err = c.family.fresh(first)
		}
		if err != nil {
			continue
		}
		m, err := plain.stronger(c.factor, first)
		if err != nil {
			continue
		}
		c.fresh = m
		cells = append(cells, c)
	}
	if len(cells) == 0 {
		return b, errNothing
	}
	return Belief{b.known, levelled(cells)}, nil
}
