package uncertainty

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// ErrNoModel is returned when the function to be evaluated is nil.
var ErrNoModel = errors.New("uncertainty: no function given")

// Contribution is one line of an uncertainty budget.
type Contribution struct {
	Name, Key       string
	Value, Standard float64
	// Sensitivity is the change of the result per unit of the input. It is not
	// evaluated, and 0, when Standard is 0.
	Sensitivity float64
	// Uncertainty is |Sensitivity| Standard, in the unit of the result.
	Uncertainty float64
	// Share is this input's part of the variance of the result. The shares add
	// up to 1. What a pair of correlated inputs has in common is halved between
	// them: Share_i = c_i u_i sum_j r_ij c_j u_j / u^2, which is negative when
	// the correlation lets the input cancel more variance than it brings.
	Share float64
}

// Propagate evaluates f at the values of the inputs and propagates their
// standard uncertainties to it, JCGM 100:2008, 5.1.2 and 5.2.2. correlation
// holds the coefficients r in the order of the inputs; nil means independent.
//
// Sensitivities are central differences over one standard uncertainty to
// either side (5.1.3, note 2), exact for f up to the second degree; where f
// gives an error or no finite number on one side, a three-point difference on
// the other side serves. f is called 2n+1 times.
//
// The effective degrees of freedom follow Welch-Satterthwaite (G.4.1).
// Correlated inputs enter it together, with the fewest degrees of freedom
// among them: exact for quantities observed at the same time and for the
// parameters of a fitted line, cautious otherwise.
//
// Bad inputs and correlations, and a result that is no finite number, give a
// *[units.RangeError]; an error of f comes back wrapped with the values at which
// it arose; [ErrNoModel] for a nil f.
func Propagate(f func(x []float64) (float64, error), in []Input, correlation mat.Symmetric) (Result, error) {
	m, d, err := prepare(f, in, correlation, false)
	if err != nil {
		return Result{}, err
	}
	m.reset()
	y, err := m.evaluate()
	if err != nil {
		return Result{}, err
	}
	r := Result{Value: y, Budget: make([]Contribution, len(in))}
	parts := make([]float64, len(in)) // c_i u_i
	along := m.along
	for i, x := range in {
		var c float64
		if x.Standard > 0 {
			if c, err = m.sensitivity(i, y, along); err != nil {
				return Result{}, err
			}
		}
		parts[i] = c * x.Standard
		r.Budget[i] = Contribution{Name: x.Name, Key: x.Key, Value: x.Value, Standard: x.Standard, Sensitivity: c, Uncertainty: math.Abs(parts[i])}
	}
	r.combine(parts, in, d)
	if err := units.Check("standard uncertainty of the result", r.Standard, 0, math.MaxFloat64, "", ""); err != nil {
		return Result{}, err
	}
	r.Low, r.High, err = r.Interval(0.95)
	return r, err
}

// combine sums the contributions, JCGM 100 equations (13) and (G.2b).
func (r *Result) combine(parts []float64, in []Input, d *dependence) {
	scale := floats.Norm(parts, math.Inf(1))
	if scale == 0 {
		return
	}
	floats.Scale(1/scale, parts)
	total := 0.0
	for i := range parts {
		row := parts[i]
		if d.linked[i] {
			row = 0
			for j := range parts {
				row += d.coefficient(i, j) * parts[j]
			}
		}
		r.Budget[i].Share = parts[i] * row
		total += r.Budget[i].Share
	}
	if total < 0x1p-52 { // all cancelled but for rounding
		for i := range r.Budget {
			r.Budget[i].Share = 0
		}
		return
	}
	r.Standard = scale * math.Sqrt(total)
	for i := range in {
		if in[i].Distribution == Rectangular && !d.linked[i] {
			r.flat = max(r.flat, math.Abs(parts[i])/math.Sqrt(total))
		}
	}
	reciprocal := 0.0
	for i := range r.Budget {
		r.Budget[i].Share /= total
	}
	for i := range in {
		if d.group[i] != i {
			continue
		}
		share, fewest := 0.0, math.Inf(1)
		for j := i; j < len(in); j++ {
			if d.group[j] != i || parts[j] == 0 {
				continue
			}
			share += r.Budget[j].Share
			if in[j].DegreesOfFreedom > 0 {
				fewest = min(fewest, in[j].DegreesOfFreedom)
			}
		}
		reciprocal += share * share / fewest
	}
	if reciprocal > 0 {
		r.DegreesOfFreedom = 1 / reciprocal
	}
}

// model evaluates f and remembers what went wrong on either side of a value.
type model struct {
	f            func(x []float64) (float64, error)
	in           []Input
	x            []float64
	varied       int
	below, above error
}

func prepare(f func(x []float64) (float64, error), in []Input, correlation mat.Symmetric, vectors bool) (*model, *dependence, error) {
	if f == nil {
		return nil, nil, ErrNoModel
	}
	if err := checkInputs(in); err != nil {
		return nil, nil, err
	}
	d, err := newDependence(in, correlation, vectors)
	return &model{f: f, in: in, x: make([]float64, len(in))}, d, err
}

func (m *model) reset() {
	for i := range m.in {
		m.x[i] = m.in[i].Value
	}
}

func (m *model) evaluate() (float64, error) {
	y, err := m.f(m.x)
	if err == nil {
		err = units.Check("result", y, -math.MaxFloat64, math.MaxFloat64, "", "")
	}
	if err == nil {
		return y, nil
	}
	at := make([]string, len(m.x))
	for i, x := range m.x {
		at[i] = fmt.Sprintf("%s = %.9g", label(m.in, i), x)
	}
	return 0, fmt.Errorf("at %s: %w", strings.Join(at, ", "), err)
}

// along evaluates f with the varied input at t and the others at their values.
func (m *model) along(t float64) float64 {
	m.reset()
	m.x[m.varied] = t
	y, err := m.evaluate()
	switch {
	case err == nil:
	case t < m.in[m.varied].Value:
		m.below = err
	default:
		m.above = err
	}
	return y
}

// One-sided differences of second order, error step^2 f”'/3.
var (
	upward   = fd.Formula{Stencil: []fd.Point{{Loc: 0, Coeff: -1.5}, {Loc: 1, Coeff: 2}, {Loc: 2, Coeff: -0.5}}, Derivative: 1, Step: 1}
	downward = fd.Formula{Stencil: []fd.Point{{Loc: 0, Coeff: 1.5}, {Loc: -1, Coeff: -2}, {Loc: -2, Coeff: 0.5}}, Derivative: 1, Step: 1}
)

// sensitivity returns the derivative of f by input i, y being f at the values.
func (m *model) sensitivity(i int, y float64, along func(float64) float64) (float64, error) {
	value := m.in[i].Value
	// A step lost in the rounding of the value would show no change at all.
	step := max(m.in[i].Standard, 1e-8*math.Abs(value))
	m.varied, m.below, m.above = i, nil, nil
	s := fd.Settings{Formula: fd.Central, Step: step, OriginKnown: true, OriginValue: y}
	c := fd.Derivative(along, value, &s)
	if (m.below == nil) != (m.above == nil) {
		s.Step, s.Formula = step/2, upward
		if m.above != nil {
			s.Formula = downward
		}
		m.below, m.above = nil, nil
		c = fd.Derivative(along, value, &s)
	}
	err := m.below
	if err == nil {
		err = m.above
	}
	if err == nil {
		err = units.Check("sensitivity", c, -math.MaxFloat64, math.MaxFloat64, "", "")
	}
	if err != nil {
		return 0, fmt.Errorf("sensitivity to %s: %w", label(m.in, i), err)
	}
	return c, nil
}
