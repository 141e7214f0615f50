package abv_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/refraction"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
	"gonum.org/v1/gonum/stat"
)

// pairOf is what hydrometer and refractometer show in alcohol, sugar and water.
func pairOf(t testing.TB, strength, extract float64) (gravity.SG, gravity.Brix) {
	t.Helper()
	litre, impossible := liquid.PerLitre(units.Strength(strength), units.Concentration(extract))
	m := refraction.Solution{Ethanol: litre.Ethanol, Sucrose: litre.Sucrose, Water: litre.Water}
	b, err := gravity.OfIndex(m.Index20())
	if impossible != nil || err != nil {
		t.Fatalf("%g %% vol with %g g/L: %v, %v", strength, extract, impossible, err)
	}
	return gravity.SG(m.Mass() / density.Water20), b
}

// portRelation reads the coefficients of Rogerson & Symington.
func portRelation(t testing.TB) func(hydrometer gravity.SG, refractometer gravity.Brix) float64 {
	t.Helper()
	for _, r := range handbook.Load(t, "testdata/fortified_wine_checks.csv").Rows {
		var bx, be, constant float64
		if n, _ := fmt.Sscanf(r.Text("value"), "%f Bx - %f Be - %f", &bx, &be, &constant); n == 3 {
			return func(hydrometer gravity.SG, refractometer gravity.Brix) float64 {
				return bx*float64(refractometer) - be*float64(145-145/hydrometer) - constant
			}
		}
	}
	t.Fatal("the relation for port is not in the table")
	return nil
}

// portScatter is what the relation for port says of its own error: its true Baume
// and true Brix go together with r2 0.997, so that a wine scatters by sqrt(0.003)
// of the standard deviation of true Brix, here that of the extracts compared, and
// 1.646 % vol for a Brix, 19 times in 20.
func portScatter(t *testing.T, extracts []float64) float64 {
	t.Helper()
	var brix []float64
	for _, x := range extracts {
		c, err := abv.Compose(0, units.Concentration(x))
		if err != nil {
			t.Fatal(err)
		}
		b, err := c.Gravity.Brix()
		if err != nil {
			t.Fatal(err)
		}
		brix = append(brix, float64(b))
	}
	return 1.96 * 1.646 * math.Sqrt(1-0.997) * stat.PopStdDev(brix, nil)
}

// The published relation was fitted to 35 young ports; the model does not know
// it. The abstract leaves open whether its Baume is at 20/20 or at 15/15 C, which
// the trade has long used (common practice, no source): at 20/20 the relation's own
// difference between the two is allowed too. The solutes of a wine bring the two a
// little nearer. What TwoInstruments states is to cover the distance.
func TestPortRelation(t *testing.T) {
	relation, at15 := portRelation(t), gravity.Basis15C.Hydrometer()
	extracts := []float64{40, 57, 74, 91, 108, 125, 142}
	scatter := portScatter(t, extracts)
	for _, c := range []struct {
		name string
		in   abv.Solutes
		cold bool
	}{
		{"as sucrose", abv.Solutes{}, false},
		{"inverted, 6 g/L glycerol, 6 g/L acid", abv.Solutes{Invert: 1, Glycerol: 6, Acid: 6}, false},
		{"as sucrose, Baume 15/15 C", abv.Solutes{}, true},
	} {
		check := handbook.NewCheck(t, "Two instruments, relation for 35 ports, "+c.name, "% vol")
		squares, n, stated := 0.0, 0.0, 0.0
		for strength := 15.0; strength <= 22; strength++ {
			for _, extract := range extracts {
				h, r := pairOf(t, strength, extract)
				d, err := abv.TwoInstrumentsIn(h, r, c.in)
				if err != nil {
					t.Fatal(err)
				}
				cold, err := at15.Shows(units.Strength(strength), units.Concentration(extract), units.Celsius(15))
				if err != nil {
					t.Fatal(err)
				}
				want, bound, why := relation(cold, r), scatter, "the relation's own scatter, r2 0.997, 19 times in 20"
				if !c.cold {
					want = relation(h, r)
					bound, why = bound+math.Abs(relation(cold, r)-want), why+"; the abstract leaves the basis of its Baume open"
				}
				check.Differs(float64(d.Strength), want, bound, why, fmt.Sprintf("%g %% vol, %g g/L", strength, extract))
				stated = float64(d.Model)
				squares += math.Pow(float64(d.Strength)-want, 2)
				n++
			}
		}
		rms := math.Sqrt(squares / n)
		t.Logf("%s: root mean square %.3f %% vol", c.name, rms)
		if rms > stated {
			t.Errorf("%s: root mean square %.3f, stated %.2f", c.name, rms, stated)
		}
	}
	for _, c := range [][2]float64{{6, 142}, {15, 40}, {20, 100}, {22, 142}, {40, 0}} {
		h, r := pairOf(t, c[0], c[1])
		t.Logf("%g %% vol with %g g/L: the relation gives %+.2f %% vol more", c[0], c[1], relation(h, r)-c[0])
	}
}

func TestTwoInstrumentsComesBack(t *testing.T) {
	for strength := 0.0; strength <= 56; strength += 4 {
		for _, extract := range []float64{0, 5, 40, 140, 300} {
			if m, _ := liquid.PerLitre(units.Strength(strength), units.Concentration(extract)); m.Ethanol > refraction.MaxEthanol*(m.Ethanol+m.Water) {
				continue
			}
			h, r := pairOf(t, strength, extract)
			c, err := abv.TwoInstruments(h, r)
			if err != nil || math.Abs(float64(c.Strength)-strength) > 1e-5 || math.Abs(float64(c.Extract)-extract) > 1e-4 || c.Gravity != h {
				t.Errorf("%g %% vol with %g g/L comes back as %v, %v", strength, extract, c, err)
			}
			// What it says has the hydrometer's gravity; next to water the two
			// formulas' own waters, 2e-6 apart, weigh in by what is left to chance.
			tolerance := 1e-8
			if strength == 0 && extract == 0 {
				tolerance = 2e-6
			}
			if made, err := abv.Compose(c.Strength, c.Extract); err != nil || math.Abs(float64(made.Gravity-h)) > tolerance {
				t.Errorf("%v has the gravity %v, %v", c, float64(made.Gravity), err)
			}
		}
	}
}

// A higher refractometer or a lower hydrometer means more alcohol.
func TestTwoInstrumentsDirection(t *testing.T) {
	last := units.Strength(-1)
	for b := gravity.Brix(8); b <= 25; b += 0.5 {
		c, err := abv.TwoInstruments(1.02, b)
		if err != nil || c.Strength <= last {
			t.Errorf("%v Brix: %v after %v, %v", b, c.Strength, last, err)
		}
		last = c.Strength
	}
	last = 100
	for h := gravity.SG(0.99); h <= 1.06; h += 0.005 {
		c, err := abv.TwoInstruments(h, 18)
		if err != nil || c.Strength >= last {
			t.Errorf("SG %v: %v after %v, %v", h, c.Strength, last, err)
		}
		last = c.Strength
	}
}

func TestTwoInstrumentsSolutes(t *testing.T) {
	// A litre with everything in it, whose readings are known, comes back.
	for _, in := range []abv.Solutes{{Invert: 1}, {Invert: 0.4, Glycerol: 8, Acid: 12}, {Acid: 7}} {
		half := 45 * in.Invert
		m := refraction.Solution{Ethanol: 150, Sucrose: 90 - 2*half, Glucose: half, Fructose: half, Glycerol: float64(in.Glycerol), Citric: float64(in.Acid)}
		lo, hi := 500.0, 1000.0
		for range 100 {
			if m.Water = (lo + hi) / 2; m.Volume20() > 1 {
				hi = m.Water
			} else {
				lo = m.Water
			}
		}
		b, err := gravity.OfIndex(m.Index20())
		if err != nil {
			t.Fatal(err)
		}
		d, err := abv.TwoInstrumentsIn(gravity.SG(m.Mass()/density.Water20), b, in)
		if err != nil || math.Abs(float64(d.Strength)-15000/density.PureEthanol) > 1e-5 || math.Abs(float64(d.Sugar)-90) > 1e-4 {
			t.Errorf("%+v: %+v, %v", in, d, err)
		}
		if made, err := abv.Compose(d.Strength, d.Extract); err != nil || math.Abs(float64(made.Gravity-d.Gravity)) > 1e-8 {
			t.Errorf("%+v has the gravity %v, %v", d, float64(made.Gravity), err)
		}
		if d.Model < 0.45 || d.Model > 0.6 {
			t.Errorf("%+v: model %v", in, d.Model)
		}
	}
}

func TestTwoInstrumentsRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	must, _ := gravity.SG(1.08).Brix()
	for _, c := range []struct{ h, r float64 }{
		{1.08, float64(must) - 0.01}, {1.08, 60}, {0.95, 10}, {0.99, 0}, {1, 40},
		{0.91, 18}, {1.36, 60}, {1.02, -1}, {1.02, 71},
		{nan, 10}, {inf, 10}, {-inf, 10}, {1.02, nan}, {1.02, inf}, {1.02, -inf}, {0, 0}, {-1, 5},
	} {
		if got, err := abv.TwoInstruments(gravity.SG(c.h), gravity.Brix(c.r)); !handbook.IsRange(err) || got != (abv.Composition{}) {
			t.Errorf("%+v: %v, %v", c, got, err)
		}
		if c.h == 1.08 && c.r > 19 && c.r < 20 {
			continue // in inverted sugar this is a wine of 0.4 % vol
		}
		if got, err := abv.TwoInstrumentsIn(gravity.SG(c.h), gravity.Brix(c.r), abv.Solutes{Invert: 1, Acid: 6}); !handbook.IsRange(err) || got != (abv.Determination{}) {
			t.Errorf("%+v: %v, %v", c, got, err)
		}
	}
	for _, in := range []abv.Solutes{{Invert: -0.1}, {Invert: 1.1}, {Invert: nan}, {Glycerol: -1}, {Glycerol: 31}, {Glycerol: units.Concentration(inf)}, {Acid: -1}, {Acid: 41}, {Acid: units.Concentration(nan)}} {
		if got, err := abv.TwoInstrumentsIn(1.02, 17, in); !handbook.IsRange(err) {
			t.Errorf("%+v: %v, %v", in, got, err)
		}
	}
	// Above 57 % vol the index of ethanol-water belongs to two liquids: those of
	// 60 % vol and more are refused.
	for strength := 58.0; strength <= 96; strength += 2 {
		m, _ := liquid.PerLitre(units.Strength(strength), 0)
		h := gravity.SG(m.Mass() / density.Water20)
		for _, b := range []gravity.Brix{16, 18, 20, 22} {
			if got, err := abv.TwoInstruments(h, b); !handbook.IsRange(err) {
				t.Errorf("%g %% vol, %v: %v, %v", strength, b, got, err)
			}
		}
	}
	// The bounds that an error states are the bounds.
	_, err := abv.TwoInstruments(1.08, 19)
	var r *units.RangeError
	if !errors.As(err, &r) || math.Abs(r.Min-float64(must)) > 1e-6 {
		t.Fatalf("%v, must %v", err, must)
	}
	for _, b := range []float64{r.Min + 1e-4, r.Max - 1e-4} {
		if _, err := abv.TwoInstruments(1.08, gravity.Brix(b)); err != nil {
			t.Error(err)
		}
	}
	for _, b := range []float64{r.Min - 1e-4, r.Max + 1e-4} {
		if _, err := abv.TwoInstruments(1.08, gravity.Brix(b)); err == nil {
			t.Errorf("%v Brix is taken", b)
		}
	}
}

func TestTwoInstrumentsWithin(t *testing.T) {
	h, r := pairOf(t, 20, 100)
	hydrometer := uncertainty.Input{Name: "hydrometer", Value: float64(h), Standard: 0.0005}
	refractometer := uncertainty.Input{Name: "refractometer", Value: float64(r), Standard: 0.1}
	got, err := abv.TwoInstrumentsWithin(hydrometer, refractometer, abv.Solutes{})
	if err != nil {
		t.Fatal(err)
	}
	// By hand with the sensitivities stated: 0.36 per 0.001 SG, 0.16 per 0.1 Brix.
	want := math.Sqrt(0.18*0.18 + 0.16*0.16 + 0.454*0.454)
	if math.Abs(got.Value-20) > 1e-5 || math.Abs(got.Standard-want) > 0.02 || got.Ranked()[0].Name != "model" {
		t.Errorf("%v, %v; by hand %.3f", got, got.Ranked(), want)
	}
	for _, bad := range []uncertainty.Input{{Value: 2}, {Value: math.NaN()}, {Value: float64(h), Standard: -1}, {Value: float64(h), Standard: math.Inf(1)}} {
		if _, err := abv.TwoInstrumentsWithin(bad, refractometer, abv.Solutes{}); !handbook.IsRange(err) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// Both instruments tell the same story of a fermentation that only loses carbon
// dioxide: the refractometer alone finds what the mass balance finds.
func TestFromRefractometer(t *testing.T) {
	for _, y := range []abv.Yield{abv.Wort, abv.Must} {
		for original := gravity.Brix(5); original <= 35; original += 5 {
			og, err := original.SG()
			if err != nil {
				t.Fatal(err)
			}
			start, err := abv.Potential(og, y, abv.End{NotSugar: allSugar()})
			if err != nil {
				t.Fatal(err)
			}
			for fg := start.Gravity; fg <= og; fg += (og - start.Gravity) / 7 {
				want, err := abv.MassBalance(og, fg, y)
				if err != nil {
					t.Fatal(err)
				}
				_, shown := pairOf(t, float64(want.Strength), float64(want.Extract))
				for _, factor := range []float64{0.95, 1, 1.04} {
					// The factor lifts the extract's part of either reading.
					m, _ := liquid.PerLitre(want.Strength, want.Extract)
					lift := gravity.Brix((factor - 1) * 100 * m.Sucrose / m.Mass())
					got, err := abv.FromRefractometer(original*gravity.Brix(factor), shown+lift, factor, y)
					if err != nil || math.Abs(float64(got.Strength-want.Strength)) > 2e-4 || math.Abs(float64(got.Gravity-want.Gravity)) > 1e-6 {
						t.Errorf("%v Brix to %v, factor %v: %v, %v, %v; want %v, %v", original, float64(shown), factor, got.Strength, float64(got.Gravity), err, want.Strength, float64(want.Gravity))
					}
				}
			}
		}
	}
}

func TestFromRefractometerRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct{ original, current, factor float64 }{
		{-1, 0, 1}, {71, 20, 1}, {20, 20.1, 1}, {20, 5, 1}, {20, 10, 0.89}, {20, 10, 1.16}, {20, 10, 0},
		{nan, 10, 1}, {inf, 10, 1}, {20, nan, 1}, {20, inf, 1}, {20, -inf, 1}, {20, 10, nan}, {20, 10, inf},
	} {
		if got, err := abv.FromRefractometer(gravity.Brix(c.original), gravity.Brix(c.current), c.factor, abv.Must); !handbook.IsRange(err) || got != (abv.Fermented{}) {
			t.Errorf("%+v: %v, %v", c, got, err)
		}
	}
	if got, err := abv.FromRefractometer(20, 10, 1, abv.Yield{}); !handbook.IsRange(err) {
		t.Errorf("no yield: %v, %v", got, err)
	}
	last := units.Strength(100)
	for current := gravity.Brix(8.5); current <= 20; current += 0.5 {
		got, err := abv.FromRefractometer(20, current, 1, abv.Must)
		if err != nil || got.Strength >= last {
			t.Errorf("%v: %v after %v, %v", current, got.Strength, last, err)
		}
		last = got.Strength
	}
}
