package watch

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// watchShape is a sigmoid from 0 to 1 and its inverse.
type shape struct {
	method  Method
	rise    func(z float64) float64
	inverse func(y float64) float64
}

// The two sigmoids: fermentation slowed by what is left (logistic), and one
// whose growth itself dies away (B. Gompertz, Phil. Trans. 115 (1825) 513).
var shapes = [...]shape{
	{ByLogistic,
		func(z float64) float64 { return 1 / (1 + math.Exp(-z)) },
		func(y float64) float64 { return math.Log(y / (1 - y)) }},
	{ByGompertz,
		func(z float64) float64 { return math.Exp(-math.Exp(-z)) },
		func(y float64) float64 { return -math.Log(-math.Log(y)) }},
}

// watchPrior is what is known of a course before it is read: mean and standard
// deviation of three properties. Few readings lean on it, many do not. It was set
// once, in round numbers, against the measured and the simulated fermentations of
// the tests together.
var known = [3]struct{ mean, standard float64 }{
	{math.Log(0.95), 0.15}, // log of the share where the sigmoid ends: wines keep a little extract, or stop early
	{math.Log(4), 1},       // log of the days to half of that: 1 to 14 days in 80 of 100 musts
	{-3, 1.5},              // logit of the part of the sigmoid that lies before the start: from a long lag to none
}

// watchVector holds the parameters by which a curve is sought: as watchPrior, but
// the days to a mark below the last reading instead of those to half, because the
// last reading fixes them whatever the others are. At given others the two
// logarithms differ by a constant, so that the prior needs no correction for it.
type vector = [len(known)]float64

// watchCurve is one possible course: the share of the extract used against days
// since the fermentation began, a sigmoid moved so that it begins with nothing.
// It ends at the share that the yeast bears.
type curve struct {
	shape             *shape
	end, rate, z0, q0 float64
	limit             float64
	last, stretch     float64 // beyond the last reading time is stretched
}

func newWatchCurve(s *shape, p vector, reading, limit, last float64) curve {
	c := curve{shape: s, end: math.Exp(p[0]), q0: 1 / (1 + math.Exp(-p[2])), limit: limit, last: last, stretch: 1}
	c.z0 = s.inverse(c.q0)
	mark := 1 - math.Exp(-reading/c.end) // of the end: near the reading while that is far from it
	c.rate = (s.inverse(c.q0+(1-c.q0)*mark) - c.z0) / math.Exp(p[1])
	return c
}

// known are the properties of which watchPrior speaks.
func (c *curve) known(p vector) vector {
	return vector{p[0], math.Log((c.shape.inverse((1+c.q0)/2) - c.z0) / c.rate), p[2]}
}

// fitted is the sigmoid itself, without limit and stretch.
func (c *curve) fitted(day float64) float64 {
	return c.end * (c.shape.rise(c.rate*day+c.z0) - c.q0) / (1 - c.q0)
}

// at is the share used on a day, zero or later.
func (c *curve) at(day float64) float64 {
	if day > c.last {
		day = c.last + (day-c.last)/c.stretch
	}
	return min(c.fitted(day), c.limit)
}

// when is the day on which this share is used, +Inf where it never is.
func (c *curve) when(used float64) float64 {
	y := c.q0 + (1-c.q0)*used/c.end
	if y >= 1 || used > c.limit {
		return math.Inf(1)
	}
	day := (c.shape.inverse(y) - c.z0) / c.rate
	if day > c.last {
		day = c.last + (day-c.last)*c.stretch
	}
	return day
}

// fit is the search for the curve nearest to the readings and the prior.
type fit struct {
	shape *shape
	days  []float64
	reads []read
	limit float64
}

func (f *fit) curve(p vector) curve {
	last := len(f.reads) - 1
	return newWatchCurve(f.shape, p, f.reads[last].used, f.limit, f.days[last])
}

// residuals in standard uncertainties: of the readings, then of the prior.
func (f *fit) residuals(dst []float64, p vector) {
	c := f.curve(p)
	for i, r := range f.reads {
		dst[i] = (c.fitted(f.days[i]) - r.used) / r.doubt
	}
	for i, x := range c.known(p) {
		dst[len(f.reads)+i] = (x - known[i].mean) / known[i].standard
	}
}

// misfit is the sum of the squared residuals of the readings and of the prior.
func (f *fit) misfit(scratch []float64, p vector) (readings, prior float64) {
	f.residuals(scratch, p)
	for i, x := range scratch {
		if i < len(f.reads) {
			readings += x * x
		} else {
			prior += x * x
		}
	}
	return readings, prior
}

// best is the least-squares curve, by Newton's method with the curvature J'J of
// the residuals, with that curvature there of the readings and of the prior.
func (f *fit) best(start vector) (p vector, readings, prior *mat.SymDense) {
	const parameters = len(known)
	n := len(f.reads) + parameters
	here, there := make([]float64, n), make([]float64, n)
	slopes := mat.NewDense(n, parameters, nil)
	linearize := func(p vector) {
		const step = 1e-5
		f.residuals(here, p)
		for k := range p {
			moved := p
			moved[k] += step
			f.residuals(there, moved)
			for i := range there {
				slopes.Set(i, k, (there[i]-here[i])/step)
			}
		}
	}
	// Rounding lets many a search end with a failed line search, at the minimum:
	// the error says no more than that.
	found, _ := optimize.Minimize(optimize.Problem{
		Func: func(x []float64) float64 {
			readings, prior := f.misfit(there, vector(x))
			return (readings + prior) / 2
		},
		Grad: func(gradient, x []float64) {
			linearize(vector(x))
			mat.NewVecDense(parameters, gradient).MulVec(slopes.T(), mat.NewVecDense(n, here))
		},
		Hess: func(curvature *mat.SymDense, x []float64) {
			linearize(vector(x))
			curvature.SymOuterK(1, slopes.T())
		},
	}, start[:], &optimize.Settings{MajorIterations: 100}, &optimize.Newton{})
	p = start
	if found != nil && !math.IsNaN(found.F) {
		p = vector(found.X)
	}
	linearize(p)
	readings, prior = mat.NewSymDense(parameters, nil), mat.NewSymDense(parameters, nil)
	readings.SymOuterK(1, slopes.Slice(0, len(f.reads), 0, parameters).T())
	prior.SymOuterK(1, slopes.Slice(len(f.reads), n, 0, parameters).T())
	return p, readings, prior
}
