package abv_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// A made wine, boiled and made up: its extract in water is the residue.
func TestBoilOffComesBack(t *testing.T) {
	for strength := units.Strength(0); strength <= 58; strength += 4 {
		for _, extract := range []units.Concentration{0, 5, 25, 140, 350} {
			wine, err := abv.Compose(strength, extract)
			if err != nil {
				t.Fatal(err)
			}
			residue, err := gravity.OfExtract(extract)
			if err != nil {
				t.Fatal(err)
			}
			got, err := abv.BoilOff(wine.Gravity, residue)
			if err != nil || math.Abs(float64(got.Strength-strength)) > 1e-6 || math.Abs(float64(got.Extract-extract)) > 1e-6 || got.Gravity != wine.Gravity {
				t.Errorf("%v with %v: %v, %v", strength, extract, got, err)
			}
		}
	}
}

// A residue that is the wine itself, but for rounding, has lost no alcohol.
func TestBoilOffWithoutAlcohol(t *testing.T) {
	for _, wine := range []gravity.SG{1.05, 1.05 + 1e-10, 1.05 - 1e-10} {
		got, err := abv.BoilOffInFull(wine, 1.05, abv.Must)
		if err != nil || got.Strength > 1e-6 || got.Tabarie != 0 || math.Abs(float64(got.OriginalGravity-1.05)) > 1e-8 {
			t.Errorf("%.12g: %+v, %v", float64(wine), got, err)
		}
	}
}

// Tabarie's rule stands apart from the model by what the density room measures:
// 0.16 kg/m3 up to 20 % vol and 100 g/L, where 1 % vol is 1.05 kg/m3.
func TestBoilOffBesideTabarie(t *testing.T) {
	worst := 0.0
	for strength := units.Strength(0); strength <= 20; strength++ {
		for extract := units.Concentration(0); extract <= 100; extract += 10 {
			wine, err := abv.Compose(strength, extract)
			if err != nil {
				t.Fatal(err)
			}
			residue, err := gravity.OfExtract(extract)
			if err != nil {
				t.Fatal(err)
			}
			b, err := abv.BoilOffInFull(wine.Gravity, residue, abv.Must)
			if err != nil {
				t.Fatalf("%v with %v: %v", strength, extract, err)
			}
			if extract == 0 && math.Abs(float64(b.Tabarie-strength)) > 1e-6 {
				t.Errorf("%v without extract: %v", strength, b.Tabarie)
			}
			if d := math.Abs(float64(b.Tabarie - b.Strength)); math.Abs(d-float64(b.Model)) > 1e-12 {
				t.Errorf("model %v, apart %v", b.Model, d)
			}
			worst = max(worst, float64(b.Model))
			og, err := b.Original.SG()
			if err != nil || og != b.OriginalGravity {
				t.Errorf("original %v, %v, %v", b.Original, b.OriginalGravity, err)
			}
		}
	}
	t.Logf("the two rules part by up to %.3f %% vol", worst)
	if worst > 0.16 || worst < 0.05 {
		t.Errorf("the two rules part by %.3f %% vol", worst)
	}
}

// Of a fermented must the boil-off finds the strength and the must again.
func TestBoilOffFindsTheMust(t *testing.T) {
	for _, og := range []gravity.SG{1.05, 1.08, 1.12} {
		for _, y := range []abv.Yield{abv.Must, abv.Wort} {
			f, err := abv.MassBalance(og, 1.01, y)
			if err != nil {
				t.Fatal(err)
			}
			residue, err := gravity.OfExtract(f.Extract)
			if err != nil {
				t.Fatal(err)
			}
			b, err := abv.BoilOffInFull(f.Gravity, residue, y)
			if err != nil || math.Abs(float64(b.OriginalGravity-og)) > 1e-6 || math.Abs(float64(b.Strength-f.Strength)) > 1e-4 {
				t.Errorf("%v: %+v, %v; want %v", float64(og), b, err, f.Strength)
			}
		}
	}
}

func TestBoilOffRefuses(t *testing.T) {
	nan, inf := gravity.SG(math.NaN()), gravity.SG(math.Inf(1))
	for _, c := range []struct{ wine, residue gravity.SG }{
		{1.0101, 1.01}, {-0.33841, 1.295125}, {0.96, 1.3333}, {0.99, 0.9999}, {1, 1.36}, {0.85, 1.01}, {0, 1.01},
		{nan, 1.01}, {inf, 1.01}, {-inf, 1.01}, {1, nan}, {1, inf}, {1, -inf},
	} {
		if got, err := abv.BoilOff(c.wine, c.residue); !handbook.IsRange(err) || got != (abv.Composition{}) {
			t.Errorf("%+v: %v, %v", c, got, err)
		}
		if got, err := abv.BoilOffInFull(c.wine, c.residue, abv.Must); !handbook.IsRange(err) || got != (abv.Evaporation{}) {
			t.Errorf("%+v: %v, %v", c, got, err)
		}
	}
	if got, err := abv.BoilOffInFull(0.99, 1.01, abv.Yield{}); !handbook.IsRange(err) || got != (abv.Evaporation{}) {
		t.Errorf("no yield: %v, %v", got, err)
	}
	if got, err := abv.BoilOffInFull(0.95, 1.05, abv.Must); !handbook.IsRange(err) || got != (abv.Evaporation{}) {
		t.Errorf("a liqueur comes from no must: %v, %v", got, err)
	}
	for _, c := range []struct{ apparent, real float64 }{
		{5, -0.1}, {5, 70.1}, {7.6, 7.5}, {-5.1, 2}, {-5, 65}, {math.NaN(), 7}, {5, math.NaN()}, {math.Inf(-1), 7}, {5, math.Inf(1)},
	} {
		p, a, err := abv.BallingBoilOff(gravity.Plato(c.apparent), gravity.Plato(c.real))
		if !handbook.IsRange(err) || p != 0 || a != 0 {
			t.Errorf("%+v: %v, %v, %v", c, p, a, err)
		}
	}
	last := units.MassPercent(-1)
	for m := gravity.Plato(7.5); m >= 3; m -= 0.5 {
		p, a, err := abv.BallingBoilOff(m, 7.5)
		if err != nil || a <= last || p < 7.5-1e-12 {
			t.Errorf("%v: %v, %v after %v, %v", m, p, a, last, err)
		}
		last = a
	}
}

func FuzzBoilOff(f *testing.F) {
	f.Add(1.0123, 1.0361)
	f.Add(0.99, 1.0)
	f.Add(math.NaN(), math.Inf(1))
	f.Add(-0.3384105555555555, 1.295125)
	f.Fuzz(func(t *testing.T, wine, residue float64) {
		c, err := abv.BoilOff(gravity.SG(wine), gravity.SG(residue))
		if err != nil {
			if !handbook.IsRange(err) || c != (abv.Composition{}) {
				t.Errorf("%v, %v: %v, %v", wine, residue, c, err)
			}
			return
		}
		e, s := float64(c.Strength)/100*density.PureEthanol, float64(c.Extract)
		if got := (e + s + density.WaterIn(e, s)) / density.Water20; math.Abs(got-wine) > 1e-8 || c.Strength < 0 {
			t.Errorf("%v, %v: %v has the gravity %v", wine, residue, c, got)
		}
	})
}

// Balling's full test of a beer that shows 5.650 and, boiled off, 7.585: printed
// 15.784 % original extract and 4.320 % mass of alcohol with the quotient rounded
// to that of 16 %.
func ExampleBallingBoilOff() {
	original, alcohol, err := abv.BallingBoilOff(5.650, 7.585)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f %%, %.2f %% mass", float64(original), float64(alcohol))
	// Output: 15.79 %, 4.32 % mass
}

// The morello wine reads 1.0225; boiled down to half and made up again, 1.0355.
func ExampleBoilOffInFull() {
	b, err := abv.BoilOffInFull(1.0225, 1.0355, abv.Must)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% vol (by Tabarie %.1f), %.0f g/L, once %.3f",
		float64(b.Strength), float64(b.Tabarie), float64(b.Extract), float64(b.OriginalGravity))
	// Output: 9.6 % vol (by Tabarie 9.6), 92 g/L, once 1.093
}

func TestBoilOffWithin(t *testing.T) {
	wine := uncertainty.Input{Name: "wine", Value: 1.010, Standard: 0.0005}
	residue := uncertainty.Input{Name: "residue", Value: 1.035, Standard: 0.0005}
	full, err := abv.BoilOffInFull(1.010, 1.035, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	r, err := abv.BoilOffWithin(wine, residue)
	if err != nil {
		t.Fatal(err)
	}
	// By hand with what BoilOff states: 0.4 to 0.5 % vol for 0.0005 of either.
	lo, hi := math.Hypot(0.4*math.Sqrt2, float64(full.Model)), math.Hypot(0.5*math.Sqrt2, float64(full.Model))
	if r.Value != float64(full.Strength) || r.Standard < lo || r.Standard > hi {
		t.Errorf("%v, by hand %.2f to %.2f", r, lo, hi)
	}
	// Exact readings leave the model.
	wine.Standard, residue.Standard = 0, 0
	if r, err = abv.BoilOffWithin(wine, residue); err != nil || math.Abs(r.Standard-float64(full.Model)) > 1e-9 {
		t.Errorf("%v, %v; the model alone %v", r, err, full.Model)
	}
	for _, bad := range []uncertainty.Input{{Value: 1.2}, {Value: math.NaN()}, {Value: 1.01, Standard: -1}} {
		if _, err := abv.BoilOffWithin(bad, residue); !handbook.IsRange(err) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// Found by fuzzing: residues too heavy for the wine gave no error and no strength.
func TestBoilOffRefusesWhatCannotBe(t *testing.T) {
	for _, c := range [][2]gravity.SG{{1.1940823688271607, 1.3464871279761905}, {1.084788933167361, 1.2566702394437508}, {1.0, 1.34}, {1.1, 1.3}} {
		if got, err := abv.BoilOff(c[0], c[1]); !handbook.IsRange(err) {
			t.Errorf("wine %v, residue %v: %+v, %v", float64(c[0]), float64(c[1]), got, err)
		}
		if got, err := abv.BoilOffInFull(c[0], c[1], abv.Must); !handbook.IsRange(err) {
			t.Errorf("wine %v, residue %v in full: %+v, %v", float64(c[0]), float64(c[1]), got, err)
		}
	}
	// Every liquid with up to 60 % vol comes back, the fullest too.
	for strength := units.Strength(0); strength <= 60; strength += 2.5 {
		for _, part := range []float64{0, 0.3, 0.9, 0.999, 1} {
			c, err := abv.Compose(strength, units.Concentration(part*density.MostExtract(float64(strength))))
			if err != nil {
				t.Fatal(err)
			}
			residue, err := gravity.OfExtract(c.Extract)
			if err != nil {
				t.Fatal(err)
			}
			got, err := abv.BoilOff(c.Gravity, residue)
			if err != nil || math.Abs(float64(got.Strength-strength)) > 1e-6 || math.Abs(float64(got.Extract-c.Extract)) > 1e-6 {
				t.Errorf("%v with %v g/L: %+v, %v", strength, float64(c.Extract), got, err)
			}
		}
	}
}
