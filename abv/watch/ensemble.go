package watch

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	draws = 256 // curves of each shape, and curves kept
	// tails of the t distribution that proposes curves: wider than the posterior,
	// which the weights then make of it.
	tails = 5.0
	// trust is how many readings the stated uncertainty is worth against what the
	// readings show of it themselves.
	trust = 4.0
)

// ensemble is a sample of the courses that the readings leave possible, all
// equally likely: the uncertainty of the parameters, the noise of the readings,
// the shapes and the spread of the model together.
type ensemble struct {
	curves []curve
	likely Method // of the shape that the readings favour
	sorted []float64
	order  []int // of the curves, as they were sorted last
}

// A candidate is a curve with the logarithm of its weight.
type candidate struct {
	curve
	weight float64
}

// newEnsemble samples the posterior of all shapes by importance: draws about the
// best fit, weighted by prior and likelihood over the density they were drawn
// from, and drawn again by those weights. The draws are always the same. The yeast
// gives up at the share limit, known to its standard uncertainty.
func newEnsemble(sights []sight, limit, known float64) ensemble {
	var all []candidate
	for k := range shapes {
		f := fit{&shapes[k], sights, limit}
		all = f.propose(all, rand.NewPCG(1, uint64(k)))
	}
	if len(all) == 0 {
		return ensemble{}
	}
	most := math.Inf(-1)
	for _, c := range all {
		most = max(most, c.weight)
	}
	var whole, sum float64
	for i := range all {
		all[i].weight = math.Exp(all[i].weight - most)
		whole += all[i].weight
	}
	// No curve stands for all: weights end at so many times the mean (E. L. Ionides, J.
	// Comput. Graph. Stat. 17:295 (2008), from memory).
	heaviest := whole / math.Sqrt(float64(len(all)))
	favour := map[Method]float64{}
	for i := range all {
		all[i].weight = min(all[i].weight, heaviest)
		sum += all[i].weight
		favour[all[i].shape.method] += all[i].weight
	}
	e := ensemble{likely: ByLogistic, sorted: make([]float64, draws)}
	for _, s := range shapes {
		if favour[s.method] > favour[e.likely] {
			e.likely = s.method
		}
	}
	// Systematic resampling: a comb of equal steps through the weights.
	reached, tooth := 0.0, sum/(2*draws)
	for _, c := range all {
		for reached += c.weight; tooth < reached && len(e.curves) < draws; tooth += sum / draws {
			e.curves = append(e.curves, c.curve)
		}
	}
	for len(e.curves) < draws { // rounding of the sum
		e.curves = append(e.curves, all[len(all)-1].curve)
	}
	// A factor, a true last reading and a limit of its own for each, drawn evenly through
	// their distributions.
	stretches, readings, limits := evenly(99), evenly(98), evenly(97)
	last := sights[len(sights)-1]
	for i := range e.curves {
		c := &e.curves[i]
		c.from(last.used + last.noise*distuv.UnitNormal.Quantile(readings[i]))
		c.stretch = stretch(stretches[i])
		c.limit = min(1, limit+known*distuv.UnitNormal.Quantile(limits[i]))
		e.order = append(e.order, i)
	}
	return e
}

// evenly are chances in a random order, drawn evenly: the same for the same seed.
func evenly(seed uint64) []float64 {
	out := make([]float64, draws)
	for i, k := range rand.New(rand.NewPCG(1, seed)).Perm(draws) {
		out[i] = (float64(k) + 0.5) / draws
	}
	return out
}

// stretch is the factor of the time left below which it stays with this chance.
func stretch(chance float64) float64 {
	z := distuv.UnitNormal.Quantile(chance)
	if z < 0 {
		return math.Exp(delay + sooner*z)
	}
	return math.Exp(delay + later*z)
}

// propose appends curves about the best fit, with the logarithms of their
// weights. The noise is integrated out, so that readings that scatter more than
// they should widen the sample.
func (f *fit) propose(all []candidate, src rand.Source) []candidate {
	n, last := float64(len(f.sights)), f.sights[len(f.sights)-1]
	scratch := make([]float64, len(f.sights)+len(vector{}))
	best, curvature, known := f.best(vector{end.mean, math.Log(0.8 * last.day), f.shape.prior[2].mean})
	scatter, _ := f.misfit(scratch, best)
	curvature.ScaleSym((trust+n)/(trust+scatter), curvature)
	curvature.AddSym(curvature, known)
	var factors mat.Cholesky
	if !factors.Factorize(curvature) {
		return all
	}
	var root, inverse mat.TriDense
	factors.UTo(&root)
	if inverse.InverseTri(&root) != nil {
		return all
	}
	normal, spread := rand.New(src), distuv.ChiSquared{K: tails, Src: src}
	z, move := mat.NewVecDense(len(best), nil), mat.NewVecDense(len(best), nil)
	for range draws {
		wide, square := math.Sqrt(tails/spread.Rand()), 0.0
		for i := range best {
			x := wide * normal.NormFloat64()
			z.SetVec(i, x)
			square += x * x
		}
		move.MulVec(&inverse, z)
		p := best
		for i := range p {
			p[i] += move.AtVec(i)
		}
		scatter, known := f.misfit(scratch, p)
		weight := -(trust+n)/2*math.Log1p(scatter/trust) - known/2 - math.Log(f.shape.prior[2].standard) - factors.LogDet()/2 +
			(tails+float64(len(p)))/2*math.Log1p(square/tails)
		if !(known < 100) || math.IsNaN(weight) {
			continue // of no weight, and near what numbers do not hold
		}
		all = append(all, candidate{f.curve(p), weight})
	}
	return all
}

// sort evaluates the curves and puts the values in order, in a buffer that the
// next call overwrites. From one time to the next the order hardly changes, so that
// it is kept and mended.
func (e *ensemble) sort(f func(*curve) float64) []float64 {
	x, order := e.sorted, e.order
	for i, k := range order {
		v, j := f(&e.curves[k]), i
		for ; j > 0 && x[j-1] > v; j-- {
			x[j], order[j] = x[j-1], order[j-1]
		}
		x[j], order[j] = v, k
	}
	return x
}

// quantiles of what f gives for the curves: at 10, 50 and 90 of 100.
func (e *ensemble) quantiles(f func(*curve) float64) (low, middle, high float64) {
	x := e.sort(f)
	return quantile(x, 0.1), quantile(x, 0.5), quantile(x, 0.9)
}

// quantile of sorted values.
func quantile(x []float64, p float64) float64 {
	at := p*float64(len(x)) - 0.5
	i := int(at)
	return x[i] + (at-float64(i))*(x[i+1]-x[i])
}

// mean of what f gives for the curves.
func (e *ensemble) mean(f func(*curve) float64) float64 {
	sum := 0.0
	for i := range e.curves {
		sum += f(&e.curves[i])
	}
	return sum / float64(len(e.curves))
}
