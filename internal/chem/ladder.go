package chem

// ladder is an acid that gives up its hydrogen rung by rung, from a first
// species without charge: one -1 more at each rung.
type ladder struct {
	first, last Species
	total       float64 // mol/kg in all rungs
	open        float64 // activity of the first that the air keeps; 0 closed
}

// ladders are those of a mix, absent ones with them.
func (m Mix) ladders() [4]ladder {
	return [4]ladder{
		{first: CO2, last: CO3, total: m.Carbon},
		{first: H4SiO4, last: H2SiO4, total: m.Silicon},
		{first: H3BO3, last: H2BO3, total: m.Boron},
		{first: H3PO4, last: PO4, total: m.Phosphorus},
	}
}

func (l *ladder) absent() bool { return l.total == 0 && l.open == 0 }

// rungs shares a ladder among its rungs. Each step down multiplies by perH, 1/h.
func (b *balance) rungs(l *ladder, perH float64) {
	molal, step := b.molal[l.first:l.last+1], b.step[l.first:l.last+1]
	sum, power := 0.0, 1.0
	for i := range molal {
		molal[i] = step[i] * power
		sum += molal[i]
		power *= perH
	}
	share := l.total / sum
	if l.open > 0 {
		share = l.open / b.gamma[l.first]
	}
	for i := range molal {
		molal[i] *= share
	}
}

// spread is how fast a ladder loses charge as ln h falls: the variance of the
// charge of its molecules, times their number. An open one draws more of them
// from the air.
func (b *balance) spread(l *ladder) float64 {
	q, qq := 0.0, 0.0
	for s := l.first; s <= l.last; s++ {
		z := traits[s].z
		q += z * b.molal[s]
		qq += z * z * b.molal[s]
	}
	if l.open > 0 {
		return qq
	}
	return qq - q*q/l.total
}
