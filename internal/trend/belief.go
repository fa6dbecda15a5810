package trend

// matrix is a small square matrix, by rows.
type matrix [][]float64

func newMatrix(n int) matrix {
	cells := make([]float64, n*n)
	m := make(matrix, n)
	for i := range m {
		m[i], cells = cells[:n:n], cells[n:]
	}
	return m
}

// spread is the variance of x·c, where m is the covariance of c.
func (m matrix) spread(x []float64) float64 {
	var v float64
	for i, row := range m {
		v += x[i] * dot(row, x)
	}
	return v
}

// invert turns a positive definite matrix into its inverse, in place, by Gauss
// and Jordan. Such a matrix needs no change of rows.
func (m matrix) invert() {
	for k, pivot := range m {
		d := 1 / pivot[k]
		pivot[k] = 1
		for j := range pivot {
			pivot[j] *= d
		}
		for i, row := range m {
			if i == k {
				continue
			}
			f := row[k]
			row[k] = 0
			for j := range row {
				row[j] -= f * pivot[j]
			}
		}
	}
}

func dot(a, b []float64) float64 {
	var s float64
	for i, x := range a {
		s += x * b[i]
	}
	return s
}

// belief is a normal distribution of coefficients, as observations add to it:
// its precision, and its precision times its mean.
type belief struct {
	k  matrix
	km []float64
}

func newBelief(n int) belief { return belief{newMatrix(n), make([]float64, n)} }

// set makes b a copy of a belief of the same size.
func (b belief) set(of belief) {
	for i := range b.k {
		copy(b.k[i], of.k[i])
	}
	copy(b.km, of.km)
}

// see adds an observation y of x·c, made with a precision.
func (b belief) see(x []float64, y, precision float64) {
	for i, xi := range x {
		if xi == 0 {
			continue
		}
		b.km[i] += precision * xi * y
		for j, xj := range x {
			b.k[i][j] += precision * xi * xj
		}
	}
}

// settle writes the mean and returns the covariance, in the place of the
// precision: b is of no more use.
func (b belief) settle(mean []float64) matrix {
	b.k.invert()
	for i, row := range b.k {
		mean[i] = dot(row, b.km)
	}
	return b.k
}
