package batch

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Stated limits are 1.96 standard uncertainties; a tolerance is a rectangle, of which
// the standard uncertainty is the half-width over the root of 3 (JCGM 100, 4.3.7).
func TestATolerancesUncertaintyIsOverTheRootOfThree(t *testing.T) {
	tolerance := uncertainty.Tolerance{Name: "jug", HalfWidth: 0.03, Source: "its maker"}
	if k := known(qMust, "must", 2, 0, tolerance, ""); math.Abs(k.standard-0.06/1.7320508) > 1e-9 || !k.flat || k.assumed != "must: jug (its maker)" {
		t.Errorf("%+v", k)
	}
	if k := known(qMust, "must", 2, 0.098, tolerance, ""); math.Abs(k.standard-0.05) > 1e-12 || k.flat || k.assumed != "" {
		t.Errorf("%+v", k)
	}
	// 0.5 % of a kilogram, 10 % of the sugar on a label, 0.5 % vol of a wine.
	for text, want := range map[string]map[quantity]float64{
		`{"must": "1000 g", "juice_label": "26 g per 200 mL", "stop_at": "0 % vol"}`: {qMust: 5, qLabel: 13},
		`{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`:       {qWineStrength: 0.5},
	} {
		b := batchOf(t, text)
		v := b.values()
		seen := 0
		for _, k := range b.knows(&v) {
			if half, is := want[k.q]; is {
				seen++
				if math.Abs(k.standard-half/math.Sqrt(3)) > 1e-9 {
					t.Errorf("%s: %s is known to %v, half-width %v", text, k.name, k.standard, half)
				}
			}
		}
		if seen != len(want) {
			t.Errorf("%s: %d of %d are known", text, seen, len(want))
		}
	}
}

// What a strength can rest on: all that is stated, and nothing that is not.
func TestWhatIsKnownIsWhatIsStated(t *testing.T) {
	const ferment = "reading at the stop, yield of the yeast, fermentation balance"
	for text, want := range map[string]string{
		`{"must": "3 L", "must_reading": "1.085", "stop_at": "5 % vol"}`:                                                  "volume of must, reading of the must, temperature of the must, " + ferment,
		`{"must": "3 L", "must_reading": "1.050", "sugar": "100 g", "stop_at": "5 % vol", "lees": "100 mL"}`:              "volume of must, reading of the must, temperature of the must, amount of sugar, " + ferment + ", volume of lees",
		`{"must": "3 L", "must_reading": "1.050", "original_reading": "1.07", "sugar": "100 g", "stop_at": "5 % vol"}`:    "volume of must, reading of the must, temperature of the must, original reading, " + ferment,
		`{"must": "3 L", "juice_label": "26 g per 240 mL", "stop_at": "0 % vol"}`:                                         "volume of must, sugar on the label",
		`{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`:                                            "volume of wine, strength of the wine, reading of the wine",
		`{"wine": "3 L", "wine_boiled": "1.05", "wine_reading": "1.046"}`:                                                 "volume of wine, reading of the wine, reading after boiling off",
		`{"wine": "3 L", "wine_refractometer": "7 Bx", "wine_reading": "0.994"}`:                                          "volume of wine, reading of the wine, refractometer in the wine",
		dryWine + `"spirit_strength": "60 % vol", "spirit_planned": "1 L"}`:                                               "volume of wine, strength of the wine, reading of the wine, volume of spirit, volume of spirit meant, strength of the spirit",
		dryWine + `"spirit_strength": "60 % vol", "target": "18 % vol", "target_sugar": "60 g/L", "blend_volume": "2 L"}`: "volume of wine, strength of the wine, reading of the wine, volume of wine poured, volume of spirit, strength of the spirit, amount of sweetener",
	} {
		b := batchOf(t, text)
		d, err := b.decide()
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, k := range b.knows(&d.v) {
			names = append(names, k.name)
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("%s: %s\nwant %s", text, got, want)
		}
	}
}

// Limits of what was poured are as it was measured, by weight or in a cold cellar, and
// the course has it at 20 C: 2 kg of 40 % vol (948.05 kg/m3) are 2.1096 L.
func TestLimitsOfTheSpiritArePutToTwentyDegrees(t *testing.T) {
	for poured, want := range map[string]float64{"2000 g ± 20 g": 0.021096, "2 L ± 20 mL": 0.02, "2.1 L": 0} {
		b := batchOf(t, dryWine+`"spirit_strength": "40 % vol", "spirit_poured": "`+poured+`"}`)
		d, err := b.decide()
		if err != nil {
			t.Fatal(err)
		}
		a := b.spiritPoured(&d.v)
		if got := a.Mass.Limit + a.Volume.Limit; math.Abs(got-want) > 1e-5 {
			t.Errorf("%s: ± %v L at 20 C, by hand %v", poured, got, want)
		}
	}
	// In the cold 1 % is 1 %.
	cold := batchOf(t, dryWine+`"cellar_temperature": "0 C", "spirit_strength": "40 % vol", "spirit_poured": "2 L ± 1 %"}`)
	d, err := cold.decide()
	if got := cold.spiritPoured(&d.v).Volume.Limit / d.v[qSpirit]; err != nil || math.Abs(got-0.01) > 1e-9 || d.v[qSpirit] < 2.01 {
		t.Errorf("%v of %v, %v", got, d.v[qSpirit], err)
	}
	b := Batch{Sugar: []Portion{{Mass: Within(units.Mass(300), 10)}, {Mass: Within(units.Mass(100), 5)}}}
	if got := b.sugarLimit(); math.Abs(got-15./400) > 1e-12 {
		t.Errorf("15 g of 400 g are %v", got)
	}
}

// The model is as good as Tabarie's rule is near to it, and exact without alcohol or
// without extract.
func TestTheModelIsAsGoodAsItsDifferenceFromTabarie(t *testing.T) {
	g := gravity.SG(density.Tabarie20(20, 100) / density.Water20 * 1.001)
	if got := modelError(20, 100, g); math.Abs(got-0.000999) > 1e-6 {
		t.Errorf("a thousandth off: %v", got)
	}
	if a, b := modelError(0, 100, g), modelError(20, 0, g); a != 0 || b != 0 {
		t.Errorf("%v and %v", a, b)
	}
}

// Draws have the middle and the spread of what they are drawn from: a hundred thousand
// of them to 0.8 %.
func TestDrawsAreThoseOfTheirDistribution(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const n = 100000
	for _, c := range []struct {
		k            knowledge
		middle, from float64
	}{
		{knowledge{q: qMust, standard: 2, flat: true}, 5, 5 - 2*math.Sqrt(3)}, {knowledge{q: qMust, standard: 2}, 5, math.Inf(-1)},
		{knowledge{q: qYeast, standard: 9}, abv.YeastLikely, 0},
	} {
		var sum, squares float64
		least := math.Inf(1)
		for range n {
			x := c.k.drawn(5, r)
			sum, squares, least = sum+x-c.middle, squares+(x-c.middle)*(x-c.middle), min(least, x)
		}
		u := 2.0
		if c.k.q == qYeast {
			u = abv.YeastUncertainty / 1.96
		}
		if got := math.Sqrt(squares / n); math.Abs(got/u-1) > 0.008 && c.k.q != qYeast || c.k.q == qYeast && math.Abs(got/u-1) > 0.03 {
			t.Errorf("%+v: spread %v, want %v", c.k, got, u)
		}
		if math.Abs(sum/n) > 0.02*u || least < c.from {
			t.Errorf("%+v: %v off the middle, from %v on", c.k, sum/n, least)
		}
	}
}

// Of 2000 sorted numbers the one that 95 in 100 do not pass is the 1901st.
func TestTheNinetyFifthIsPassedByFiveInAHundred(t *testing.T) {
	x := make([]float64, 2000)
	for i := range x {
		x[i] = float64(2000 - i)
	}
	if got := ninetyFifth(x); got != 1901 {
		t.Errorf("%v", got)
	}
}

// Where more than a tenth of the courses never come to the target no amount is sure. A
// spirit of 40 ± 0.49 % vol (u 0.25) has less than 39.725 with a chance of 14 %, less
// than 39.6 with one of 5.5 %.
func TestNearTheEndOfTheSpiritNoAmountIsSure(t *testing.T) {
	for target, sure := range map[string]bool{"39.6 % vol": true, "39.725 % vol": false} {
		b := batchOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "spirit_strength": "40 % vol ± 0.49 % vol", "target": "`+target+`"}`)
		d, _, f := worked(t, &b)
		if v, ok := b.sure(&d.v, &f); ok != sure {
			t.Errorf("%s: %v, %v", target, v, ok)
		}
	}
	b := batchOf(t, dryWine+`"spirit_strength": "40 % vol", "target": "10 % vol"}`)
	d, _, f := worked(t, &b)
	if v, ok := b.sure(&d.v, &f); ok {
		t.Errorf("no spirit is needed: %v is sure", v)
	}
}

// What is kept is what was not poured: 5 L known to 0.05 less 2 L known to 0.01.
func TestWhatIsKeptIsKnownAsWellAsBoth(t *testing.T) {
	b := batchOf(t, `{"wine": "5 L ± 0.098 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "wine_poured": "2 L ± 0.0196 L", "spirit_strength": "40 % vol", "spirit_planned": "1 L ± 0.0196 L", "spirit_poured": "1 L ± 0.0196 L"}`)
	_, c, f := worked(t, &b)
	if u := math.Hypot(0.05, 0.01); math.Abs(f.keptVolume.Standard-u) > 1e-6 || math.Abs(f.keptVolume.Value-3) > 1e-6 {
		t.Errorf("%v ± %v, by hand 3 ± %v", f.keptVolume.Value, f.keptVolume.Standard, u)
	}
	// The amount that is meant is figured as the same amount that is poured.
	for _, x := range []struct {
		meant, poured uncertainty.Result
		value         float64
	}{{f.plannedStrength, f.strength, float64(c.planned.Strength)}, {f.plannedExtract, f.extract, float64(c.planned.Extract)}, {f.plannedVolume, f.volume, float64(c.planned.Volume)}} {
		if x.meant.Value != x.value || math.Abs(x.meant.Value/x.poured.Value-1) > 1e-9 || math.Abs(x.meant.Standard/x.poured.Standard-1) > 1e-6 {
			t.Errorf("meant %v ± %v, poured %v ± %v", x.meant.Value, x.meant.Standard, x.poured.Value, x.poured.Standard)
		}
	}
	plain := batchOf(t, `{"wine": "5 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`)
	if _, _, f := worked(t, &plain); f.plannedStrength.Standard != 0 || f.plannedExtract.Standard != 0 || f.plannedVolume.Standard != 0 || f.keptVolume.Standard != 0 {
		t.Errorf("nothing is meant or kept: %+v", f)
	}
}

// Where the jug alone leads, the amount that is 95 % sure follows from its tolerance: of
// an amount anywhere within h of what it shows, 95 in 100 are above 1 - 0.9 h of it. The
// courses that are drawn find that to a hundredth of h, as the straight line corrects
// what chance drew.
func TestTheSureAmountOfAJugIsThatOfItsTolerance(t *testing.T) {
	b := batchOf(t, `{"wine": "3 L ± 0.0001 L", "wine_strength": "6 % vol ± 0.0001 % vol", "wine_reading": "1.046 ± 0.000001", "spirit_strength": "75 % vol ± 0.0001 % vol", "target": "20 % vol"}`)
	d, _, f := worked(t, &b)
	sure, ok := b.sure(&d.v, &f)
	h := ofJug.Of(d.v[qSpirit]) / d.v[qSpirit]
	want := d.v[qSpirit] / (1 - 0.9*h)
	if off := (float64(sure)/want - 1) / h; !ok || math.Abs(off) > 0.01 {
		t.Errorf("%v L, by the tolerance of %v %v L: off by %v of it", sure, h, want, off)
	}
}
