package uncertainty

import (
	"math"
	"math/rand/v2"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// sampler draws inputs.
type sampler struct {
	in     []Input
	linked []bool
	src    rand.Source
	spread []distuv.Rander // deviation from Value; nil for an exact input
	// For correlated inputs:
	root   *mat.Dense    // root times its transpose is the correlation matrix
	normal *mat.VecDense // independent standard normal
	score  *mat.VecDense // joint standard normal
	widen  []float64     // sqrt(v/chi-squared), which makes a normal score a t score
	leader []int         // the input whose widen serves
}

func newSampler(in []Input, d *dependence, seed uint64) (*sampler, error) {
	n := len(in)
	s := &sampler{in: in, linked: d.linked, src: rand.NewPCG(seed, 0), spread: make([]distuv.Rander, n)}
	for i, x := range in {
		if err := x.checkSpread(d.linked[i]); err != nil {
			err.Of = label(in, i)
			return nil, err
		}
		s.spread[i] = x.spread(s.src)
	}
	if d.matrix == nil {
		return s, nil
	}
	s.root = d.root()
	s.normal, s.score = mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	s.widen, s.leader = make([]float64, n), make([]int, n)
	for i := range in {
		s.leader[i] = i
		for j := range i {
			if d.group[j] == d.group[i] && in[j].Standard > 0 &&
				in[j].Distribution == Normal && in[j].DegreesOfFreedom == in[i].DegreesOfFreedom {
				s.leader[i] = j
				break
			}
		}
	}
	return s, nil
}

// checkSpread says whether JCGM 101 gives a distribution for the input.
func (x Input) checkSpread(linked bool) *units.RangeError {
	const quantity = "degrees of freedom"
	v := x.DegreesOfFreedom
	kind := x.Distribution.String()
	switch {
	case x.Standard == 0 || v == 0:
		return nil
	case x.Distribution == Normal && v < 3:
		return units.OutOfRange("", quantity, v, 3, math.Inf(1), "", "JCGM 101:2008, 6.4.9.4; 0 is infinitely many")
	case x.Distribution == Rectangular && linked:
		kind = "rectangular and correlated"
	case x.Distribution != Triangular && x.Distribution != Arcsine:
		return nil
	}
	e := units.OutOfRange("", quantity, v, 0, 0, "", "JCGM 101:2008, 6.4; 0 is infinitely many")
	e.Cause = "degrees of freedom of a " + kind + " input have no distribution"
	return e
}

// spread is the distribution of the deviation from Value. All are symmetric.
func (x Input) spread(src rand.Source) distuv.Rander {
	half, v := x.Standard*x.Distribution.halfWidth(), x.DegreesOfFreedom
	switch {
	case x.Standard == 0:
		return nil
	case x.Distribution == Arcsine:
		return arcsine{half: half, phase: distuv.Uniform{Max: 1, Src: src}}
	case x.Distribution == Triangular:
		return distuv.NewTriangle(-half, half, 0, src)
	case x.Distribution == Rectangular && v > 0:
		return trapezoid{half: half, inexact: half / math.Sqrt(2*v), unit: distuv.Uniform{Min: -1, Max: 1, Src: src}}
	case x.Distribution == Rectangular:
		return distuv.Uniform{Min: -half, Max: half, Src: src}
	case v > 0:
		return distuv.StudentsT{Sigma: x.Standard, Nu: v, Src: src}
	}
	return distuv.Normal{Sigma: x.Standard, Src: src}
}

// draw fills x.
func (s *sampler) draw(x []float64) {
	if s.root != nil {
		for i := range s.in {
			s.normal.SetVec(i, distuv.Normal{Sigma: 1, Src: s.src}.Rand())
		}
		s.score.MulVec(s.root, s.normal)
	}
	for i, in := range s.in {
		x[i] = in.Value
		switch {
		case s.spread[i] == nil:
		case s.linked[i]:
			x[i] += s.joint(i)
		default:
			x[i] += s.spread[i].Rand()
		}
	}
}

// joint is the deviation of a correlated input, from its normal score.
func (s *sampler) joint(i int) float64 {
	score, v := s.score.AtVec(i), s.in[i].DegreesOfFreedom
	switch d := s.spread[i].(type) {
	case distuv.Normal:
		return score * d.Sigma
	case distuv.StudentsT:
		if s.leader[i] == i {
			s.widen[i] = math.Sqrt(v / distuv.ChiSquared{K: v, Src: s.src}.Rand())
		}
		return score * s.widen[s.leader[i]] * d.Sigma
	case distuv.Quantiler:
		// The lower half serves both, where the tail keeps its digits.
		return math.Copysign(d.Quantile(distuv.UnitNormal.CDF(-math.Abs(score))), score)
	}
	return 0
}

// arcsine is U-shaped between -half and half, JCGM 101:2008, 6.4.6.
type arcsine struct {
	half  float64
	phase distuv.Uniform
}

func (a arcsine) Quantile(p float64) float64 { return -a.half * math.Cos(math.Pi*p) }
func (a arcsine) Rand() float64              { return a.Quantile(a.phase.Rand()) }

// trapezoid, with curved flanks, is rectangular between bounds that are known
// within inexact only, JCGM 101:2008, 6.4.3.
type trapezoid struct {
	half, inexact float64
	unit          distuv.Uniform
}

func (t trapezoid) Rand() float64 {
	return (t.half + t.inexact*t.unit.Rand()) * t.unit.Rand()
}
