package watch

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// A sight is what the fit sees: a reading, or the mean of several, with the noise of
// reading and the uncertainty of all.
type sight struct{ day, used, noise, uncertainty float64 }

// mostSights is the most that a fit sees, so that its cost does not grow with the
// log. A sigmoid has three parameters: more sights add nothing to it.
const mostSights = 48

// sights are the readings since the fermentation began, in groups of equal size
// where they are many. The mean of a group counts as four readings at the most:
// gas, temperature and the instrument err alike in readings taken together. To their
// uncertainty comes that of the model.
func sights(reads []read, day func(read) float64) []sight {
	size := (len(reads) + mostSights - 1) / mostSights
	var out []sight
	for len(reads) > 0 {
		n := min(size, len(reads))
		var s sight
		for _, r := range reads[:n] {
			s.day, s.used, s.uncertainty = s.day+day(r)/float64(n), s.used+r.used/float64(n), s.uncertainty+r.uncertainty/float64(n)
		}
		s.noise = s.uncertainty / math.Sqrt(float64(min(n, 4)))
		s.uncertainty = math.Hypot(s.noise, off)
		out, reads = append(out, s), reads[n:]
	}
	return out
}

// fit is the search for the curve nearest to the readings and the prior.
type fit struct {
	shape  *shape
	sights []sight
	limit  float64
}

func (f *fit) curve(p vector) curve {
	last := f.sights[len(f.sights)-1]
	return newCurve(f.shape, p, last.used, f.limit, last.day)
}

// residuals in standard uncertainties: of the readings, then of the prior.
func (f *fit) residuals(dst []float64, p vector) {
	c := f.curve(p)
	for i, s := range f.sights {
		dst[i] = (c.fitted(s.day) - s.used) / s.uncertainty
	}
	for i, x := range c.known(p) {
		dst[len(f.sights)+i] = (x - f.shape.prior[i].mean) / f.shape.prior[i].standard
	}
}

// misfit is the sum of the squared residuals of the readings and of the prior.
func (f *fit) misfit(scratch []float64, p vector) (readings, known float64) {
	f.residuals(scratch, p)
	for i, x := range scratch {
		if i < len(f.sights) {
			readings += x * x
		} else {
			known += x * x
		}
	}
	return readings, known
}

// best is the least-squares curve, by Newton's method with the curvature J'J of
// the residuals, with that curvature there of the readings and of the prior.
func (f *fit) best(start vector) (p vector, readings, known *mat.SymDense) {
	const parameters = len(vector{})
	n := len(f.sights) + parameters
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
			readings, known := f.misfit(there, vector(x))
			return (readings + known) / 2
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
	readings, known = mat.NewSymDense(parameters, nil), mat.NewSymDense(parameters, nil)
	readings.SymOuterK(1, slopes.Slice(0, len(f.sights), 0, parameters).T())
	known.SymOuterK(1, slopes.Slice(len(f.sights), n, 0, parameters).T())
	return p, readings, known
}
