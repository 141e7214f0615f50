package uncertainty

import (
	"errors"
	"math"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
)

// ErrCorrelation is returned when a correlation matrix has no eigenvalues that
// can be computed.
var ErrCorrelation = errors.New("uncertainty: the correlation matrix cannot be factorized")

// slack is what rounding may do to a correlation coefficient or an eigenvalue
// computed from observations.
const slack = 1e-9

// dependence is a checked correlation matrix.
type dependence struct {
	matrix mat.Symmetric // nil when no two inputs are correlated
	eigen  mat.EigenSym
	// group holds, for each input, the first of the inputs it hangs together
	// with, directly or through others.
	group  []int
	linked []bool // correlated with some other input
}

// newDependence checks that c has the size of in, is symmetric with ones on its
// diagonal and coefficients from -1 to 1, and has no negative eigenvalue: no
// quantities whatever could have other correlations. vectors asks for what
// drawing needs.
func newDependence(in []Input, c mat.Symmetric, vectors bool) (*dependence, error) {
	n := len(in)
	d := &dependence{group: make([]int, n), linked: make([]bool, n)}
	for i := range d.group {
		d.group[i] = i
	}
	if s, ok := c.(*mat.SymDense); c == nil || ok && s == nil {
		return d, nil
	}
	if err := units.Check("rows of the correlation matrix", float64(c.SymmetricDim()), float64(n), float64(n), "", ""); err != nil {
		return nil, err
	}
	for i := range n {
		if err := checkCoefficient(in, i, i, c.At(i, i), 1, 1); err != nil {
			return nil, err
		}
		for j := range i {
			r := c.At(i, j)
			if err := checkCoefficient(in, i, j, r, -1, 1); err != nil {
				return nil, err
			}
			if err := checkCoefficient(in, j, i, c.At(j, i), r, r); err != nil {
				return nil, err
			}
			if r != 0 {
				d.link(i, j)
				d.matrix = c
			}
		}
	}
	if d.matrix == nil {
		return d, nil
	}
	if !d.eigen.Factorize(c, vectors) {
		return nil, ErrCorrelation
	}
	if lowest := d.eigen.RawValues()[0]; lowest < -slack {
		return nil, units.Check("lowest eigenvalue of the correlation matrix", lowest, 0, math.Inf(1), "", "positive semidefinite")
	}
	return d, nil
}

func checkCoefficient(in []Input, i, j int, r, lo, hi float64) error {
	if r >= lo-slack && r <= hi+slack {
		return nil
	}
	return units.CheckOf(label(in, i)+" with "+label(in, j), "correlation", r, lo, hi, "", "JCGM 100:2008, 5.2.2")
}

func (d *dependence) link(i, j int) {
	d.linked[i], d.linked[j] = true, true
	from, to := max(d.group[i], d.group[j]), min(d.group[i], d.group[j])
	for k, g := range d.group {
		if g == from {
			d.group[k] = to
		}
	}
}

// coefficient returns r(i, j).
func (d *dependence) coefficient(i, j int) float64 {
	switch {
	case i == j:
		return 1
	case d.matrix == nil:
		return 0
	}
	return d.matrix.At(i, j)
}

// root returns A with A A' = the correlation matrix, which may be singular.
func (d *dependence) root() *mat.Dense {
	var a mat.Dense
	d.eigen.VectorsTo(&a)
	a.Apply(func(_, j int, v float64) float64 {
		return v * math.Sqrt(max(0, d.eigen.RawValues()[j]))
	}, &a)
	return &a
}
