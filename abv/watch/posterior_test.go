package watch

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"
)

// seen are sights of a curve, known to so much, without noise.
func seen(c curve, uncertainty float64, days ...float64) (out []sight) {
	for _, d := range days {
		out = append(out, sight{d, c.fitted(d), uncertainty, uncertainty})
	}
	return out
}

// From exact readings of a curve the fit finds the curve, its curvature is that of the
// misfit, and no neighbour is better.
func TestTheFitFindsTheCurveThatWasRead(t *testing.T) {
	for i := range shapes {
		truth := vector{math.Log(0.9), math.Log(3), -3.2}
		c := newCurve(&shapes[i], truth, 0.8, 1, 9)
		f := fit{&shapes[i], seen(c, 1e-3, 0.5, 1, 2, 3, 4, 5, 6, 7.5, 9), 1}
		// The mark lies by the last reading, which is the curve's own.
		last := f.sights[len(f.sights)-1].used
		truth[1] = math.Log((c.shape.inverse(c.q0+(1-c.q0)*(1-math.Exp(-last/c.end))) - c.z0) / c.rate)
		best, readings, known := f.best(vector{end.mean, math.Log(0.8 * 9), f.shape.prior[2].mean})
		for k := range best {
			if math.Abs(best[k]-truth[k]) > 2e-3 {
				t.Errorf("%v: parameter %d is %v, read was %v", shapes[i].method, k, best[k], truth[k])
			}
		}
		residuals := func(p vector) []float64 {
			dst := make([]float64, len(f.sights)+len(p))
			f.residuals(dst, p)
			return dst
		}
		const h = 1e-4
		n := len(f.sights)
		slopes := mat.NewDense(n+len(best), len(best), nil) // by central differences
		for k := range best {
			up, down := best, best
			up[k], down[k] = up[k]+h, down[k]-h
			for j, a := range residuals(up) {
				slopes.Set(j, k, (a-residuals(down)[j])/(2*h))
			}
		}
		for _, m := range []struct {
			got      *mat.SymDense
			from, to int
		}{{readings, 0, n}, {known, n, n + len(best)}} {
			var want mat.SymDense
			want.SymOuterK(1, slopes.Slice(m.from, m.to, 0, len(best)).T())
			if !mat.EqualApprox(m.got, &want, 2e-3*mat.Max(&want)) {
				t.Errorf("%v: curvature\n%v\nby differences\n%v", shapes[i].method, mat.Formatted(m.got), mat.Formatted(&want))
			}
		}
	}
}

// The misfit is the sum of squares of what lies off in standard uncertainties, of the
// readings and of the prior; the best curve has no better neighbour.
func TestTheBestCurveHasNoBetterNeighbour(t *testing.T) {
	for i := range shapes {
		f := fit{&shapes[i], []sight{{1, 0.1, 0.01, 0.03}, {2, 0.3, 0.01, 0.02}, {3, 0.42, 0.01, 0.02}}, 1}
		scratch := make([]float64, 6)
		total := func(p vector) float64 {
			readings, known := f.misfit(scratch, p)
			c := f.curve(p)
			a, b := 0.0, 0.0
			for _, s := range f.sights {
				a += math.Pow((s.used-c.fitted(s.day))/s.uncertainty, 2)
			}
			for k, x := range c.known(p) {
				b += math.Pow((f.shape.prior[k].mean-x)/f.shape.prior[k].standard, 2)
			}
			if !near(readings, a, 1e-9) || !near(known, b, 1e-9) {
				t.Errorf("%v: misfit %v and %v, by hand %v and %v", shapes[i].method, readings, known, a, b)
			}
			return a + b
		}
		best, _, _ := f.best(vector{end.mean, math.Log(2), f.shape.prior[2].mean})
		least := total(best)
		for k := range best {
			for _, step := range []float64{-0.03, 0.03} {
				if p := best; true {
					p[k] += step
					if got := total(p); got < least {
						t.Errorf("%v: %v at the best, %v beside it", shapes[i].method, least, got)
					}
				}
			}
		}
	}
}

// integrated is the logarithm of the likelihood of readings that lie off by this sum of
// squares, the factor of their precision summed over its distribution: gamma with trust/2
// and trust/2, as trust readings of the stated uncertainty leave it.
func integrated(scatter, n float64) float64 {
	precision := distuv.Gamma{Alpha: trust / 2, Beta: trust / 2}
	sum := 0.0
	const step = 0.01
	for w := step / 2; w < 12; w += step {
		sum += step * math.Exp(precision.LogProb(w)+n/2*math.Log(w)-w*scatter/2)
	}
	return math.Log(sum)
}

// A curve's weight is prior and likelihood over the density that it was drawn from, but
// for one constant for all shapes. The densities are gonum's, the noise is integrated by
// steps.
func TestWeightsArePosteriorOverProposal(t *testing.T) {
	sights := []sight{{1, 0.10, 0.01, 0.03}, {2, 0.33, 0.01, 0.02}, {3, 0.40, 0.01, 0.02}, {4, 0.55, 0.01, 0.02}}
	var offsets, squares []float64
	for k := range shapes {
		f := fit{&shapes[k], sights, 1}
		scratch := make([]float64, len(sights)+3)
		best, curvature, prior := f.best(vector{end.mean, math.Log(0.8 * 4), f.shape.prior[2].mean})
		// About the best the logarithm of the likelihood above falls by (trust + n)/(trust +
		// scatter) half squares.
		scatter, _ := f.misfit(scratch, best)
		n := float64(len(sights))
		curvature.ScaleSym((trust+n)/(trust+scatter), curvature)
		curvature.AddSym(curvature, prior)
		var inverse mat.Dense
		if err := inverse.Inverse(curvature); err != nil {
			t.Fatal(err)
		}
		sigma := mat.NewSymDense(3, nil)
		for i := range 3 {
			for j := range 3 {
				sigma.SetSym(i, j, inverse.At(i, j))
			}
		}
		proposal, ok := distmv.NewStudentsT(best[:], sigma, tails, nil)
		if !ok {
			t.Fatal("no density")
		}
		for _, c := range f.propose(nil, rand.NewPCG(1, uint64(k)))[:40] {
			p := vector{math.Log(c.end), 0, math.Log(c.q0 / (1 - c.q0))}
			mark := 1 - math.Exp(-0.55/c.end)
			p[1] = math.Log((c.shape.inverse(c.q0+(1-c.q0)*mark) - c.z0) / c.rate)
			off, _ := f.misfit(scratch, p)
			posterior := integrated(off, n)
			for i, x := range c.known(p) {
				posterior += distuv.Normal{Mu: f.shape.prior[i].mean, Sigma: f.shape.prior[i].standard}.LogProb(x)
			}
			offsets = append(offsets, c.weight-posterior+proposal.LogProb(p[:]))
			d := mat.NewVecDense(3, []float64{p[0] - best[0], p[1] - best[1], p[2] - best[2]})
			squares = append(squares, mat.Inner(d, curvature, d))
		}
	}
	if off := slices.Max(offsets) - slices.Min(offsets); off > 2e-3 {
		t.Errorf("weights lie off prior and likelihood over proposal by up to %v", off)
	}
	// Of a t distribution the square over 3 has the F distribution.
	slices.Sort(squares)
	for part, tolerance := range map[float64]float64{0.25: 0.3, 0.5: 0.3, 0.75: 0.3} {
		want := 3 * distuv.F{D1: 3, D2: tails}.Quantile(part)
		if got := squares[int(part*float64(len(squares)))]; math.Abs(math.Log(got/want)) > tolerance {
			t.Errorf("%v of the proposals lie within %v, want %v", part, got, want)
		}
	}
}

// Curves are kept as often as their weights say, to less than one; no weight counts more
// than the mean times the root of their number. Readings that no sigmoid passes leave few
// curves likely, and all very unlikely.
func TestCurvesAreKeptByTheirWeights(t *testing.T) {
	type key struct{ end, rate, z0, q0 float64 }
	var zigzag []sight
	for i := range mostSights {
		zigzag = append(zigzag, sight{float64(i + 1), 0.05 + 0.8*float64(i%2), 0.001, 0.001})
	}
	for name, c := range map[string]struct {
		sights []sight
		capped bool
	}{
		"a fall":   {[]sight{{1, 0.10, 0.01, 0.03}, {2, 0.33, 0.01, 0.02}, {3, 0.40, 0.01, 0.02}, {4, 0.55, 0.01, 0.02}}, false},
		"a zigzag": {zigzag, true},
	} {
		e := newEnsemble(c.sights, 1, 0)
		if len(e.curves) != draws {
			t.Fatalf("%s: %d curves", name, len(e.curves))
		}
		kept := map[key]float64{}
		for _, c := range e.curves {
			kept[key{c.end, c.rate, c.z0, c.q0}]++
		}
		var all []candidate
		for k := range shapes {
			f := fit{&shapes[k], c.sights, 1}
			all = f.propose(all, rand.NewPCG(1, uint64(k)))
		}
		whole, most := 0.0, math.Inf(-1)
		for _, c := range all {
			most = max(most, c.weight)
		}
		for _, c := range all {
			whole += math.Exp(c.weight - most)
		}
		limit := whole / float64(len(all)) * math.Sqrt(float64(len(all)))
		capped := func(c candidate) float64 { return min(math.Exp(c.weight-most), limit) }
		if (limit < 1) != c.capped || c.capped != (most < -360) {
			t.Fatalf("%s: the greatest weight is exp(%v), %v times the limit", name, most, 1/limit)
		}
		sum, favour := 0.0, map[Method]float64{}
		for _, c := range all {
			sum += capped(c)
			favour[c.shape.method] += capped(c)
		}
		for _, c := range all {
			if got, want := kept[key{c.end, c.rate, c.z0, c.q0}], draws*capped(c)/sum; math.Abs(got-want) > 1 {
				t.Errorf("%s: %v times, by its weight %v", name, got, want)
			}
		}
		for m, x := range favour {
			if x > favour[e.likely] {
				t.Errorf("%s: %v is said to be likely, with %v; %v has %v", name, e.likely, favour[e.likely], m, x)
			}
		}
	}
}

// Of the curves kept the last reading is true to its noise, the factor of the time left
// and the yeast's limit are spread as their distributions are, and no two agree in all.
func TestCurvesDifferInWhatIsNotFitted(t *testing.T) {
	sights := []sight{{1, 0.10, 0.01, 0.03}, {2, 0.33, 0.01, 0.02}, {3, 0.40, 0.01, 0.02}, {4, 0.55, 0.02, 0.03}}
	e := newEnsemble(sights, 0.8, 0.05)
	var limits, stretches, reads []float64
	together := 0.0
	for _, c := range e.curves {
		limits, stretches = append(limits, c.limit), append(stretches, c.stretch)
		if c.left > 0 {
			reads = append(reads, c.end-c.left*max(c.end-c.fitted(4), 1e-6))
		}
		together += (c.limit - 0.8) * math.Log(c.stretch) / draws
	}
	slices.Sort(limits)
	slices.Sort(stretches)
	for i := range limits {
		chance := (float64(i) + 0.5) / draws
		normal := distuv.UnitNormal.Quantile(chance)
		if want := min(1, 0.8+0.05*normal); math.Abs(limits[i]-want) > 1e-9 {
			t.Fatalf("limit %d is %v, want %v", i, limits[i], want)
		}
		if want := stretch(chance); math.Abs(stretches[i]-want) > 1e-9 {
			t.Fatalf("factor %d is %v, want %v", i, stretches[i], want)
		}
	}
	mean, square := 0.0, 0.0
	for _, x := range reads {
		mean += x / float64(len(reads))
	}
	for _, x := range reads {
		square += (x - mean) * (x - mean) / float64(len(reads))
	}
	if len(reads) < draws*9/10 || math.Abs(mean-0.55) > 0.003 || math.Abs(math.Sqrt(square)/0.02-1) > 0.1 {
		t.Errorf("%d go on from %v ± %v, read 0.55 ± 0.02", len(reads), mean, math.Sqrt(square))
	}
	if limit := 4 * 0.05 * 0.3 / math.Sqrt(draws); math.Abs(together) > limit {
		t.Errorf("limit and factor go together: %v, within %v by chance", together, limit)
	}
	if free := newEnsemble(sights, 1, 0); slices.ContainsFunc(free.curves, func(c curve) bool { return c.limit != 1 }) {
		t.Error("a yeast without a limit has one")
	}
}

// The quantile of n values: the i-th lies at (i + 1/2)/n, between them by straight lines.
func TestQuantiles(t *testing.T) {
	e := ensemble{curves: make([]curve, 10), sorted: make([]float64, 10)}
	for i := range e.curves {
		e.curves[i].end = float64(7*i%10) + 1 // 1 to 10 in some order
		e.order = append(e.order, i)
	}
	square := func(c *curve) float64 { return c.end * c.end }
	for range 2 { // the order is kept
		low, middle, high := e.quantiles(func(c *curve) float64 { return c.end })
		if !near(low, 1.5, 1e-12) || !near(middle, 5.5, 1e-12) || !near(high, 9.5, 1e-12) {
			t.Errorf("of 1 to 10: %v, %v, %v", low, middle, high)
		}
		low, middle, high = e.quantiles(square)
		if !near(low, 2.5, 1e-12) || !near(middle, 30.5, 1e-12) || !near(high, 90.5, 1e-12) {
			t.Errorf("of their squares: %v, %v, %v", low, middle, high)
		}
		if low, _, _ = e.quantiles(func(c *curve) float64 { return -c.end }); !near(low, -9.5, 1e-12) {
			t.Errorf("of -1 to -10: %v", low)
		}
	}
	if got := e.mean(square); !near(got, 38.5, 1e-12) { // 385/10
		t.Errorf("mean of the squares of 1 to 10: %v", got)
	}
	x := []float64{1, 2, 4, 8}
	for p, want := range map[float64]float64{0.125: 1, 0.25: 1.5, 0.3125: 1.75, 0.375: 2, 0.625: 4, 0.8125: 7} {
		if got := quantile(x, p); !near(got, want, 1e-12) {
			t.Errorf("%v of 1, 2, 4, 8: %v, want %v", p, got, want)
		}
	}
}
