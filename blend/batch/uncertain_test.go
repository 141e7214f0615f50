package batch

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/units"
)

// trials draws the whole course plainly, each input from its own distribution,
// with as much spirit as is given.
func trials(t *testing.T, b *Batch, v values, knows []knowledge, n int, seed uint64) (strength, extract, volume []float64) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, seed))
	for range n {
		w := v
		for _, k := range knows {
			if k.flat {
				w[k.q] += k.standard * math.Sqrt(3) * (2*r.Float64() - 1)
			} else {
				w[k.q] += k.standard * r.NormFloat64()
			}
		}
		w[qYeast] = max(0, w[qYeast])
		c, err := b.run(&w)
		if err != nil {
			continue
		}
		strength = append(strength, float64(c.blend.Strength)*(1+w[qModel]))
		extract = append(extract, float64(c.blend.Extract)*(1+w[qModel]))
		volume = append(volume, float64(c.blend.Volume)/(1+w[qModel]))
	}
	if len(strength) < n*99/100 {
		t.Fatalf("only %d of %d courses can be", len(strength), n)
	}
	return strength, extract, volume
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

func standard(x []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(x)-1))
}

// The amount that is 95 % sure covers 95 % of plain draws of the whole chain, in
// which the volume of the must enters once.
func TestTheSureAmountIsSure(t *testing.T) {
	for _, name := range []string{"", "metric20", "scale", "liqueur", "dry"} {
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
		strength, _, _ := trials(t, &b, v, knows, 40000, 11)
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
// printed covers 94 to 96 in 100.
func TestUncertaintiesAreThoseOfDraws(t *testing.T) {
	for _, name := range []string{"", "quart", "metric20", "dry", "scale", "label", "liqueur", "short", "back2_racked"} {
		b := Demo()
		if name != "" {
			b = scenario(t, name)
		}
		d, c, f := worked(t, &b)
		// The yield cannot be below zero, so that its draws are not normal: here
		// they lie on both sides alike.
		knows := slices.Clone(f.knows)
		for i, k := range knows {
			if k.q == qYeast {
				knows[i].standard = min(k.standard, d.v[qYeast]/3)
			}
		}
		strength, extract, volume := trials(t, &b, d.v, knows, 20000, 5)
		for _, x := range []struct {
			what  string
			of    []float64
			at, u float64
		}{{"strength", strength, float64(c.blend.Strength), again(t, &b, &d.v, &c, knows, func(f figured) float64 { return f.strength.Standard })},
			{"extract", extract, float64(c.blend.Extract), again(t, &b, &d.v, &c, knows, func(f figured) float64 { return f.extract.Standard })},
			{"volume", volume, float64(c.blend.Volume), again(t, &b, &d.v, &c, knows, func(f figured) float64 { return f.volume.Standard })}} {
			u := standard(x.of)
			inside := 0
			for _, y := range x.of {
				if math.Abs(y-x.at) <= 1.96*u {
					inside++
				}
			}
			if math.Abs(x.u/u-1) > 0.05 {
				t.Errorf("%s, %s: standard uncertainty %.4g, draws give %.4g", name, x.what, x.u, u)
			}
			// One rectangular input that leads covers more: up to all of it.
			if share := float64(inside) / float64(len(x.of)); share < 0.94 || share > 1 {
				t.Errorf("%s, %s: ± holds %.1f %% of the draws", name, x.what, 100*share)
			}
		}
	}
}

// again propagates with other knowledge.
func again(t *testing.T, b *Batch, v *values, c *course, knows []knowledge, of func(figured) float64) float64 {
	t.Helper()
	f, err := b.propagate(v, c, knows)
	if err != nil {
		t.Fatal(err)
	}
	return of(f)
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
