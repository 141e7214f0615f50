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
)

// Balling's printed attenuations: 18 % to 3 %; the full beer test, 15.784 to
// 5.650; and fermented below water, 21.066 to -1.575.
func TestBallingAttenuations(t *testing.T) {
	c := handbook.NewCheck(t, "Apparent attenuation, Balling's worked examples", "1")
	for _, row := range []struct {
		original, apparent gravity.Plato
		printed            string
	}{{18, 3, "0.833"}, {15.784, 5.650, "0.642"}} {
		got, err := abv.ApparentAttenuation(row.original, row.apparent)
		if err != nil {
			t.Fatal(err)
		}
		c.Printed(got, row.printed, fmt.Sprint(row.original, " to ", row.apparent))
	}
	// He cuts 22.641/21.066 = 1.07476 to 1.074.
	got, err := abv.ApparentAttenuation(21.066, -1.575)
	if err != nil || math.Floor(1000*got)/1000 != 1.074 {
		t.Errorf("21.066 to -1.575: %v, %v", got, err)
	}
}

// USDA Bulletin 493 prints 100 2A/(2A+E): a yield of 2 g extract per g alcohol.
func TestDegreeOfFermentationUSDA(t *testing.T) {
	two := abv.Yield{CarbonDioxide: 0.9565, Yeast: 0.0435}
	c := handbook.NewCheck(t, "Degree of fermentation, USDA Bulletin 493", "%")
	for _, r := range handbook.Load(t, "testdata/usda493_wort_and_beer_analyses.csv").Rows {
		a, e := 10*r.Number("beer_alcohol_g_per_100ml"), 10*r.Number("beer_extract_g_per_100ml")
		got, err := abv.DegreeOfFermentation(abv.Composition{Strength: units.Strength(100 * a / density.PureEthanol), Extract: units.Concentration(e)}, two)
		if err != nil {
			t.Fatal(err)
		}
		printed := fmt.Sprintf("%.2f", r.Number("degree_of_fermentation_percent"))
		if r.Text("beer_sample") == "22043-D" {
			c.Except(100*got, printed, "22043-D", "the print cuts 63.6951 off")
			continue
		}
		c.Printed(100*got, printed, r.Text("beer_sample"))
	}
}

// Balling's full test of a beer: m 5.650, n 7.585, printed p 15.784 and A 4.320.
// He takes the quotient and the alcohol factor of his row of 16 %, 1.236 and
// 0.527; by his equations, q = 1.22 + 0.001 p and A = (p-n)/(2.0665-0.010665 p),
// they are 1.235784 and 0.526826 at 15.784 %.
func TestBallingFullTest(t *testing.T) {
	p, a, err := abv.BallingBoilOff(5.650, 7.585)
	if err != nil {
		t.Fatal(err)
	}
	c := handbook.NewCheck(t, "Balling's full beer test", "% mass")
	// p = (n q - m)/(q - 1), so dp = (n - p)/(q - 1) dq; A = (p - n) b.
	dq, db := 1.236-1.235784, 0.527-0.526826
	dp := (15.784 - 7.585) / 0.236 * dq
	c.Differs(float64(p), 15.784, dp+0.0005, "he takes the quotient of the row of 16 %", "original extract")
	c.Differs(float64(a), 4.320, dp*0.527+(15.784-7.585)*db+0.001, "he takes the factors of the row of 16 %, and cuts", "alcohol")
	// With his own alcohol, the original extract of the finished beer. Its 4.320
	// is printed to 0.0005, twice that in extract.
	beer := massComposition(t, 4.320, 7.585)
	got, err := abv.OriginalExtract(beer, abv.Wort)
	if err != nil {
		t.Fatal(err)
	}
	c.Rounded(float64(got), 15.784, 0.0005+2*0.0005, "original extract of the finished beer")
	// And the attenuation back to the real extract.
	n, err := abv.BallingRealExtract(p, 5.650)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(float64(n), "7.585", "real extract")
}

// massComposition is a liquid of so much alcohol and extract in % mass.
func massComposition(t *testing.T, alcohol, extract float64) abv.Composition {
	t.Helper()
	v := density.Volume20(alcohol, extract, 100-alcohol-extract)
	c, err := abv.Compose(units.Strength(100*alcohol/v/density.PureEthanol), units.Concentration(extract/v))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Balling ferments 12 % wort to nothing: 6.190 % alcohol, and 106.601 parts of
// wort with 12.792 of extract made 100 of beer.
func TestBallingOriginalOfDryBeer(t *testing.T) {
	c := handbook.NewCheck(t, "Original extract of a finished beer, Balling 1865", "% mass")
	p, err := abv.OriginalExtract(massComposition(t, 6.190, 0), abv.Wort)
	if err != nil {
		t.Fatal(err)
	}
	c.Rounded(float64(p), 12, 2*0.0005, "6.190 % alcohol, no extract") // half a digit of 6.190, twice that in extract
}

func TestOriginalExtractComesBack(t *testing.T) {
	for _, y := range []abv.Yield{abv.Wort, abv.Must} {
		for p := gravity.Plato(2); p < 35; p += 3 {
			og, err := p.SG()
			if err != nil {
				t.Fatal(err)
			}
			dry, err := abv.Potential(og, y, abv.End{NotSugar: allSugar()})
			if err != nil {
				t.Fatal(err)
			}
			last := -1.0
			for fg := og; fg > dry.Gravity; fg -= (og - dry.Gravity) / 5 {
				f, err := abv.MassBalance(og, fg, y)
				if err != nil {
					t.Fatal(err)
				}
				wine := abv.Composition{Strength: f.Strength, Extract: f.Extract}
				got, err := abv.OriginalExtract(wine, y)
				if err != nil || math.Abs(float64(got-p)) > 1e-6 {
					t.Errorf("%v to %v: %v, %v", p, float64(fg), got, err)
				}
				degree, err := abv.DegreeOfFermentation(wine, y)
				if err != nil || degree <= last || degree > 1 {
					t.Errorf("%v to %v: degree %v after %v, %v", p, float64(fg), degree, last, err)
				}
				last = degree
				// Real extract from the strength and the hydrometer.
				c, err := abv.RealExtract(f.Strength, f.Gravity)
				if err != nil || math.Abs(float64(c.Extract-f.Extract)) > 1e-4 {
					t.Errorf("%v at %v: %v, %v; want %v", f.Strength, float64(f.Gravity), c.Extract, err, f.Extract)
				}
			}
		}
	}
}

func TestRealExtractComesBack(t *testing.T) {
	for strength := units.Strength(0); strength <= 100; strength += 5 {
		for extract := units.Concentration(0); extract <= 400; extract += 20 {
			if strength >= 60 && extract > 0 {
				continue
			}
			want, err := abv.Compose(strength, extract)
			if err != nil {
				t.Fatal(err)
			}
			got, err := abv.RealExtract(strength, want.Gravity)
			if err != nil || math.Abs(float64(got.Extract-extract)) > 1e-6 {
				t.Errorf("%v with %v: %v, %v", strength, extract, got, err)
			}
		}
	}
}

func TestAttenuationRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, x := range []float64{0, 0.05, -1, 70.1, nan, inf, -inf} {
		for name, f := range map[string]func(a, b gravity.Plato) (float64, error){
			"apparent": abv.ApparentAttenuation, "real": abv.RealAttenuation,
			"Balling": func(a, b gravity.Plato) (float64, error) {
				n, err := abv.BallingRealExtract(a, b)
				return float64(n), err
			},
		} {
			if got, err := f(gravity.Plato(x), 0); !handbook.IsRange(err) || got != 0 {
				t.Errorf("%s, original %v: %v, %v", name, x, got, err)
			}
		}
	}
	for _, x := range []float64{-5.01, 12.01, nan, inf, -inf} {
		if got, err := abv.ApparentAttenuation(12, gravity.Plato(x)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("apparent %v: %v, %v", x, got, err)
		}
		if got, err := abv.BallingRealExtract(12, gravity.Plato(x)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("apparent %v: %v, %v", x, got, err)
		}
	}
	for _, x := range []float64{-0.01, 12.01, nan, inf, -inf} {
		if got, err := abv.RealAttenuation(12, gravity.Plato(x)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("real %v: %v, %v", x, got, err)
		}
	}
	if got, err := abv.BallingRealExtract(12, -4.9); !handbook.IsRange(err) || got != 0 {
		t.Errorf("drier than dry: %v, %v", got, err)
	}
	for _, wine := range []abv.Composition{
		{Strength: -1}, {Strength: 101}, {Strength: units.Strength(nan)}, {Strength: units.Strength(inf)},
		{Strength: 12, Extract: -1}, {Strength: 12, Extract: 900}, {Strength: 12, Extract: units.Concentration(nan)}, {Strength: 12, Extract: units.Concentration(inf)},
		{Strength: 60, Extract: 100},
	} {
		if got, err := abv.OriginalExtract(wine, abv.Must); !handbook.IsRange(err) || got != 0 {
			t.Errorf("original of %+v: %v, %v", wine, got, err)
		}
		if wine.Strength == 60 {
			continue // a liqueur has a degree, but no must
		}
		if got, err := abv.DegreeOfFermentation(wine, abv.Must); !handbook.IsRange(err) || got != 0 {
			t.Errorf("degree of %+v: %v, %v", wine, got, err)
		}
	}
	if got, err := abv.DegreeOfFermentation(abv.Composition{}, abv.Must); !handbook.IsRange(err) || got != 0 {
		t.Errorf("degree of water: %v, %v", got, err)
	}
	wine := abv.Composition{Strength: 12, Extract: 20}
	if got, err := abv.OriginalExtract(wine, abv.Yield{}); !handbook.IsRange(err) || got != 0 {
		t.Errorf("no yield: %v, %v", got, err)
	}
	if got, err := abv.DegreeOfFermentation(wine, abv.Yield{CarbonDioxide: nan}); !handbook.IsRange(err) || got != 0 {
		t.Errorf("no yield: %v, %v", got, err)
	}
	for _, c := range []struct{ strength, sg float64 }{{-1, 1}, {101, 1}, {nan, 1}, {inf, 1}, {12, 0.98}, {12, 1.4}, {12, nan}, {12, inf}, {12, -inf}} {
		if got, err := abv.RealExtract(units.Strength(c.strength), gravity.SG(c.sg)); !handbook.IsRange(err) || got != (abv.Composition{}) {
			t.Errorf("%+v: %v, %v", c, got, err)
		}
	}
}

// Balling prints the degree 0.833 for a wort of 18 % that shows 3 %.
func ExampleApparentAttenuation() {
	degree, err := abv.ApparentAttenuation(18, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f", degree)
	// Output: 0.833
}

// USDA Bulletin 493 prints 59.88 % for a beer of 3.85 g alcohol and 5.16 g extract
// in 100 mL, counting two grams of extract to the gram of alcohol.
func ExampleDegreeOfFermentation() {
	beer := abv.Composition{Strength: 38.5 / 7.8924, Extract: 51.6}
	degree, err := abv.DegreeOfFermentation(beer, abv.Yield{CarbonDioxide: 0.9565, Yeast: 0.0435})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f %%", 100*degree)
	// Output: 59.88 %
}
