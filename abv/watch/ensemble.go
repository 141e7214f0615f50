package watch

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	draws = 200 // curves of each shape
	// watchTails of the t distribution that proposes curves: wider than the
	// posterior, which the weights then make of it.
	tails = 5.0
	// watchTrust is how many readings the stated doubt is worth against what the
	// readings show of it themselves.
	trust = 4.0
	// modelSpread is the model's own spread: standard deviation of the log of
	// the time that a fitted sigmoid says is left. Fermentations slow down for
	// reasons that no early reading shows. Found with watchPrior.
	modelSpread = 0.25
)

// watchEnsemble is a sample of the courses that the readings leave possible,
// with their weights: parameter doubt, reading noise, both shapes and the spread
// of the model together.
type ensemble struct {
	curves  []curve
	weights []float64
	likely  Method // of the shape with the greater weight
}

// newWatchEnsemble samples the posterior of both shapes by importance: draws
// about the best fit, weighted by prior and likelihood over the density they
// were drawn from. The noise is integrated out, so that readings that scatter
// more than they should widen the sample. The draws are always the same.
func newWatchEnsemble(days []float64, reads []read, limit float64) ensemble {
	var e ensemble
	n, last := float64(len(reads)), len(reads)-1
	scratch := make([]float64, len(reads)+len(known))
	start := vector{known[0].mean, math.Log(0.8 * days[last]), known[2].mean}
	var shares [len(shapes)]float64
	most := math.Inf(-1)
	for k := range shapes {
		f := fit{&shapes[k], days, reads, limit}
		best, curvature, prior := f.best(start)
		scatter, _ := f.misfit(scratch, best)
		curvature.ScaleSym((trust+n)/(trust+scatter), curvature)
		curvature.AddSym(curvature, prior)
		var factors mat.Cholesky
		if !factors.Factorize(curvature) {
			continue
		}
		var root, inverse mat.TriDense
		factors.UTo(&root)
		if inverse.InverseTri(&root) != nil {
			continue
		}
		src := rand.NewPCG(1, uint64(k))
		normal, spread := rand.New(src), distuv.ChiSquared{K: tails, Src: src}
		z, move := mat.NewVecDense(len(best), nil), mat.NewVecDense(len(best), nil)
		for range draws {
			wide, square := math.Sqrt(tails/spread.Rand()), 0.0
			for i := range best {
				x := wide * normal.NormFloat64()
				z.SetVec(i, x)
				square += x * x
			}
			stretch := math.Exp(modelSpread * normal.NormFloat64())
			move.MulVec(&inverse, z)
			p := best
			for i := range p {
				p[i] += move.AtVec(i)
			}
			scatter, prior := f.misfit(scratch, p)
			weight := -(trust+n)/2*math.Log1p(scatter/trust) - prior/2 - factors.LogDet()/2 +
				(tails+float64(len(p)))/2*math.Log1p(square/tails)
			if !(prior < 100) || math.IsNaN(weight) {
				continue // of no weight, and near what numbers do not hold
			}
			c := f.curve(p)
			c.stretch = stretch
			e.curves, e.weights = append(e.curves, c), append(e.weights, weight)
			most = max(most, weight)
		}
	}
	for i, w := range e.weights {
		e.weights[i] = math.Exp(w - most)
		for k := range shapes {
			if e.curves[i].shape == &shapes[k] {
				shares[k] += e.weights[i]
			}
		}
	}
	e.likely = shapes[0].method
	if shares[1] > shares[0] {
		e.likely = shapes[1].method
	}
	return e
}

// quantiles of what f gives for the curves: at 10, 50 and 90 of 100.
func (e *ensemble) quantiles(f func(*curve) float64) (low, middle, high float64) {
	x, w := make([]float64, len(e.curves)), make([]float64, len(e.curves))
	copy(w, e.weights)
	for i := range e.curves {
		x[i] = f(&e.curves[i])
	}
	stat.SortWeighted(x, w)
	q := func(p float64) float64 { return stat.Quantile(p, stat.Empirical, x, w) }
	return q(0.1), q(0.5), q(0.9)
}

// share of the weight of the curves for which f holds.
func (e *ensemble) share(f func(*curve) bool) float64 {
	holds, all := 0.0, 0.0
	for i := range e.curves {
		all += e.weights[i]
		if f(&e.curves[i]) {
			holds += e.weights[i]
		}
	}
	return holds / all
}

// mean of what f gives for the curves.
func (e *ensemble) mean(f func(*curve) float64) float64 {
	sum, all := 0.0, 0.0
	for i := range e.curves {
		sum, all = sum+e.weights[i]*f(&e.curves[i]), all+e.weights[i]
	}
	return sum / all
}
