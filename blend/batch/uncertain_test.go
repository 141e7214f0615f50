package batch

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// drawn is what plain draws of the whole course gave, figure by figure.
type drawn map[string][]float64

// propagated is what was stated for the same figures.
func statedFor(f *figured) map[string]uncertainty.Result {
	return map[string]uncertainty.Result{
		"original gravity": f.og, "must": f.must,
		"wine, strength": f.wineStrength, "wine, extract": f.wineExtract, "wine, volume": f.wineVolume,
		"strength": f.strength, "extract": f.extract, "volume": f.volume, "gravity": f.gravity,
		"planned, strength": f.plannedStrength, "planned, extract": f.plannedExtract, "planned, volume": f.plannedVolume,
		"kept, volume": f.keptVolume,
	}
}

// draw is one set of quantities, each from its own distribution.
func draw(r *rand.Rand, v values, knows []knowledge) values {
	for _, k := range knows {
		switch {
		case k.q == qYeast: // whatever is computed with, it grows as it does
			v[k.q] = max(0, abv.YeastLikely+abv.YeastUncertainty/1.96*r.NormFloat64())
		case k.flat:
			v[k.q] += k.standard * math.Sqrt(3) * (2*r.Float64() - 1)
		default:
			v[k.q] += k.standard * r.NormFloat64()
		}
	}
	return v
}

// trials draws the whole course plainly, each input from its own distribution,
// with as much spirit as is given. What is kept has the strength and the extract
// of the wine.
func trials(t *testing.T, b *Batch, v values, knows []knowledge, n int, seed uint64) drawn {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, seed))
	out := drawn{}
	add := func(name string, x float64) { out[name] = append(out[name], x) }
	for range n {
		w := draw(r, v, knows)
		c, err := b.run(&w)
		if err != nil {
			continue
		}
		off := 1 + w[qModel]
		if b.Must.Known() {
			add("original gravity", float64(c.og))
			add("must", float64(c.must))
		}
		add("wine, strength", float64(c.base.Strength))
		add("wine, extract", float64(c.base.Extract))
		add("wine, volume", float64(c.base.Volume))
		add("strength", float64(c.blend.Strength)*off)
		add("extract", float64(c.blend.Extract)*off)
		add("volume", float64(c.blend.Volume)/off)
		add("gravity", float64(c.blend.Gravity)*off)
		if v[qPlanned] > 0 {
			add("planned, strength", float64(c.planned.Strength)*off)
			add("planned, extract", float64(c.planned.Extract)*off)
			add("planned, volume", float64(c.planned.Volume)/off)
		}
		if b.PouredWine.Known() {
			add("kept, volume", float64(c.base.Volume-c.unsweet))
		}
	}
	if len(out["strength"]) < n*99/100 {
		t.Fatalf("only %d of %d courses can be", len(out["strength"]), n)
	}
	return out
}

// few are the first of the scenarios in a short run, and else all of them.
func few(names ...string) []string {
	if testing.Short() {
		return names[:2]
	}
	return names
}

// worked is the decision and the propagated uncertainties of a batch.
func worked(t *testing.T, b *Batch) (decision, course, figured) {
	t.Helper()
	d, err := b.decide()
	if err != nil {
		t.Fatal(err)
	}
	c, err := b.run(&d.v)
	if err != nil {
		t.Fatal(err)
	}
	f, err := b.within(&d.v, &c)
	if err != nil {
		t.Fatal(err)
	}
	return d, c, f
}

// The amount that is 95 % sure covers 95 % of plain draws of the whole chain, in
// which the volume of the must enters once.
func TestTheSureAmountIsSure(t *testing.T) {
	for _, name := range few("", "dry", "metric20", "scale", "liqueur") {
		b := Demo()
		if name != "" {
			b = scenario(t, name)
		}
		d, _, f := worked(t, &b)
		sure, ok := b.sure(&d.v, &f)
		if !ok {
			t.Errorf("%s: no amount is sure", name)
			continue
		}
		// The error of the volume poured grows with it.
		v, knows := d.v, slices.Clone(f.knows)
		for i, k := range knows {
			if k.q == qSpirit {
				knows[i].standard *= float64(sure) / v[qSpirit]
			}
		}
		v[qSpirit] = float64(sure)
		strength := trials(t, &b, v, knows, 40000, 11)["strength"]
		reached := 0
		for _, s := range strength {
			if s >= float64(b.Target.Value) {
				reached++
			}
		}
		share := float64(reached) / float64(len(strength))
		t.Logf("%s: %.3f L, %.2f %% of %d courses reach %v", name, float64(sure), 100*share, len(strength), b.Target.Value)
		// 40,000 courses scatter by 0.11 %.
		if math.Abs(share-0.95) > 0.005 {
			t.Errorf("%s: %.2f %% of the courses reach the target, 95 ± 0.5 was promised", name, 100*share)
		}
	}
}

// The propagated uncertainties are those of plain draws within 5 %, and what is
// printed covers 94 to 96 in 100, a normal input leading or a rectangular one.
func TestUncertaintiesAreThoseOfDraws(t *testing.T) {
	for _, name := range few("", "dry", "quart", "metric20", "scale", "label", "liqueur", "short", "back2_racked") {
		b := Demo()
		if name != "" {
			b = scenario(t, name)
		}
		d, _, f := worked(t, &b)
		of := statedFor(&f)
		for what, drawn := range trials(t, &b, d.v, f.knows, 20000, 5) {
			u, share := spread(of[what], drawn)
			if math.Abs(of[what].Standard/u-1) > 0.05 && u > 1e-12 {
				t.Errorf("%s, %s: standard uncertainty %.4g, draws give %.4g", name, what, of[what].Standard, u)
			}
			if (share < 0.94 || share > 0.96) && u > 1e-12 {
				t.Errorf("%s, %s: ± holds %.1f %% of the draws", name, what, 100*share)
			}
		}
	}
}

// The must with the sugar of the first day, and what it makes if it is left alone:
// there the rest of the extract lies on either side of the likely half of the time,
// its 5 and 95 % points being low and high.
func TestTheFirstReadingAndTheEndAreAsSureAsDraws(t *testing.T) {
	inside, of := map[string]float64{}, map[string]float64{}
	batches := 30
	if testing.Short() {
		batches = 8
	}
	for k := range batches {
		r := rand.New(rand.NewPCG(uint64(k), 1917))
		b := someBatch(r)
		b.YeastLimit = Stated[units.Strength]{}
		if k%2 == 0 {
			b.Sugar[0].Mass.Value /= 2
			b.Sugar[0].Mass.Limit /= 2
			later := b.Sugar[0]
			later.Days = 3
			b.Sugar = append(b.Sugar, later)
		}
		d, _, f := worked(t, &b)
		p := work(t, b)
		first := b
		first.Sugar = slices.DeleteFunc(slices.Clone(b.Sugar), func(p Portion) bool { return p.Days > 0 })
		var begun, ended []float64
		for range 6000 {
			w := draw(r, d.v, f.knows)
			s, err := first.begins(&w)
			low, likely, high, err2 := b.leftAlone(&w)
			if err != nil || err2 != nil {
				t.Fatal(err, err2)
			}
			end := likely
			if x := r.NormFloat64() / 1.645; x > 0 {
				end += x * (high - likely)
			} else {
				end += x * (likely - low)
			}
			begun, ended = append(begun, s), append(ended, end)
		}
		_, likely, _, _ := b.leftAlone(&d.v)
		begins, _ := first.begins(&d.v)
		values := map[string]float64{"first_reading": begins, "left_alone": likely}
		for key, drawn := range map[string][]float64{"first_reading": begun, "left_alone": ended} {
			for _, s := range p.Steps {
				for _, g := range s.Figures {
					if g.Key != key {
						continue
					}
					at, u := values[key], g.Uncertainty.Decimal.InexactFloat64() // the figure is rounded
					rms, share := spread(uncertainty.Result{Value: at, Standard: u, Low: at - g.Limit(), High: at + g.Limit()}, drawn)
					if math.Abs(u/rms-1) > 0.05 || share < 0.93 {
						t.Errorf("batch %d: %s %.4g states a standard uncertainty of %.4g, draws give %.4g; ± holds %.1f %%", k, key, at, u, rms, 100*share)
					}
					inside[key] += share
					of[key]++
				}
			}
		}
	}
	for key, n := range of {
		t.Logf("coverage | %s | %g | %.2f %%", key, n, 100*inside[key]/n)
	}
	if of["first_reading"] == 0 || of["left_alone"] == 0 {
		t.Errorf("%v", of)
	}
}

// A batch of another size is as sure, in its strength, as the batch, and its
// volumes are as sure in proportion.
func TestScalingScalesTheLimits(t *testing.T) {
	text := strings.NewReplacer(`"150 mL"`, `"150 mL ± 20 mL"`, `"26 fl oz"`, `"26 fl oz ± 2 %"`).Replace(string(demo))
	one, err := read(t, text)
	if err != nil {
		t.Fatal(err)
	}
	p := work(t, one)
	small, _ := p.Liquid("reachable")
	for _, by := range []float64{0.1, 10} {
		b, err := one.Scale(by)
		if err != nil {
			t.Fatal(err)
		}
		large, _ := work(t, b).Liquid("reachable")
		for _, x := range [][2]float64{{float64(small.Volume), float64(large.Volume) / by}, {float64(small.VolumeUncertainty), float64(large.VolumeUncertainty) / by},
			{float64(small.StrengthUncertainty), float64(large.StrengthUncertainty)}, {float64(small.Strength), float64(large.Strength)}} {
			if math.Abs(x[1]/x[0]-1) > 1e-6 {
				t.Errorf("times %v: %v is %v", by, x[0], x[1])
			}
		}
	}
	huge := one
	huge.Must.Volume.Value = 1e308
	if b, err := huge.Scale(1000); err == nil {
		t.Errorf("a must of 1e308 L, a thousand times as large, is %v", b.Must.Volume.Value)
	}
	if _, err := one.Scale(0); err == nil {
		t.Error("a batch of nothing")
	}
}

// A limit stated for the amount that was meant is not one of the amount to pour.
func TestTheLimitOfThePlannedAmountIsItsOwn(t *testing.T) {
	last := units.Strength(0)
	for _, planned := range []string{"26 fl oz", "26 fl oz ± 3 %", "75 fl oz ± 3 %", "100 mL ± 1 mL"} {
		b, err := read(t, strings.Replace(string(demo), `"26 fl oz"`, `"`+planned+`"`, 1))
		if err != nil {
			t.Fatal(err)
		}
		l, _ := work(t, b).Liquid("reachable")
		if last != 0 && math.Abs(float64(l.StrengthUncertainty/last)-1) > 1e-9 {
			t.Errorf("planned %s: ± %v, before %v", planned, l.StrengthUncertainty, last)
		}
		last = l.StrengthUncertainty
	}
}

// Limits are 19 times in 20: 3 L ± 2 % is a standard uncertainty of 0.0306 L, and
// the wine of the demonstration then 3.054 ± 0.03 L.
func TestLimitsAreRead19TimesIn20(t *testing.T) {
	b, err := read(t, strings.Replace(string(demo), "3 L ± 3 %", "3 L ± 2 %", 1))
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range b.knows(&values{qMust: 3}) {
		if k.q == qMust && math.Abs(k.standard-0.06/1.96) > 1e-9 {
			t.Errorf("3 L ± 2 %% is taken as ± %v standard", k.standard)
		}
	}
	l, _ := work(t, b).Liquid("wine")
	if math.Abs(float64(l.Volume)-3.054) > 0.001 || math.Abs(float64(l.VolumeUncertainty)-0.031) > 0.003 {
		t.Errorf("wine %v ± %v", l.Volume, l.VolumeUncertainty)
	}
}
