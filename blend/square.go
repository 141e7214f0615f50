package blend

import "math"

// mostSquare is the size and one want a quantity.
const mostSquare = 4

// A basis is the amounts that the equations of a programme determine, the others
// being held. Equations beyond their number repeat the others.
type basis struct {
	of      [mostSquare]int
	amounts int
	tied    amounts // by component: how much there is to one of the whole
}

// correct moves the amounts of the basis so that the equations hold with these
// partial volumes, or as nearly as can be where there are more equations; ok is
// false where these do not determine them.
func (p *problem) correct(t *task, v, x *amounts) (ok bool) {
	b := &p.basis
	n, m := b.amounts, t.equations()
	if n == 0 || n > m {
		return false
	}
	var s square
	var row amounts
	for k := range m {
		right := p.equation(t, k, v, row[:])
		for i := range p.cs {
			right -= row[i] * x[i]
		}
		for j, i := range b.of[:n] {
			s[k][j] = row[i]
			if i == p.whole {
				for l := range p.cs {
					s[k][j] += b.tied[l] * row[l]
				}
			}
		}
		s[k][n] = right
	}
	if n < m {
		s = s.normal(m, n)
	}
	if !s.eliminate(n) {
		return false
	}
	for j, i := range b.of[:n] {
		x[i] += s[j][n]
		if i == p.whole {
			for l := range p.cs {
				x[l] += b.tied[l] * s[j][n]
			}
		}
	}
	return true
}

// normal are the equations of the least squares of m equations in n unknowns.
func (s *square) normal(m, n int) (to square) {
	for i := range n {
		for j := range n + 1 {
			for k := range m {
				to[i][j] += s[k][i] * s[k][j]
			}
		}
	}
	return to
}

// A square is a few equations with as many unknowns and the right side beside.
type square [mostSquare][mostSquare + 1]float64

// singular is how small a pivot may be beside the rows, which are about 1: what
// is left of it holds six digits, which renewing corrects.
const singular = 1e-9

// eliminate leaves the unknowns in place of the right side; false where the
// equations do not determine them. Gauss and Jordan, the largest pivot of the column.
func (s *square) eliminate(n int) bool {
	for k := range n {
		best := k
		for i := k + 1; i < n; i++ {
			if math.Abs(s[i][k]) > math.Abs(s[best][k]) {
				best = i
			}
		}
		s[k], s[best] = s[best], s[k]
		if !(math.Abs(s[k][k]) > singular) {
			return false
		}
		by := 1 / s[k][k]
		for j := k + 1; j <= n; j++ {
			s[k][j] *= by
		}
		for i := range n {
			if f := s[i][k]; i != k && f != 0 {
				for j := k + 1; j <= n; j++ {
					s[i][j] -= f * s[k][j]
				}
			}
		}
	}
	return true
}
