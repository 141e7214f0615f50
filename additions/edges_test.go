package additions

import (
	"encoding/csv"
	"math"
	"strings"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// The domains of yeast and nutrient as stated, the last value that is taken and
// one a little beyond it.
func TestStatedDomains(t *testing.T) {
	of := func(share float64) Nutrient { return Nutrient{Name: "other", Nitrogen: share} }
	handbook.Domains(t, []handbook.Domain{
		{Name: "NutrientDose", Of: func(x float64) (float64, error) {
			m, err := NutrientDose(units.Concentration(x), 1, DiammoniumPhosphate)
			return float64(m), err
		}, Good: []float64{0, 2}, Bad: []float64{-0.1, 2.01}},
		{Name: "NitrogenAdded", Of: func(x float64) (float64, error) {
			c, err := NitrogenAdded(units.Mass(x/0.5), 1, of(0.5))
			return float64(c), err
		}, Good: []float64{0, 2}, Bad: []float64{-0.1, 2.01}},
		{Name: "share of nitrogen", Of: func(x float64) (float64, error) {
			m, err := NutrientDose(0.1, 1, of(x))
			return float64(m), err
		}, Good: []float64{0.001, 0.83}, Bad: []float64{0.00099, 0.831}},
		{Name: "YeastNeed", Of: func(x float64) (float64, error) {
			c, err := NitrogenWanted(200, YeastNeed(x))
			return float64(c), err
		}, Good: []float64{0, 0.003}, Bad: []float64{-1e-4, 0.00301}},
	})
}

// 100 mg/L of nitrogen from diammonium phosphate of 21.2 % (OIV Codex) are 0.47
// g/L, in 20 L 9.4 g, and add what was wanted.
func TestNutrientByVolume(t *testing.T) {
	c := handbook.NewCheck(t, "Nutrient doses by nitrogen, OIV Codex and molar masses", "g")
	m, err := NutrientDose(100*units.MilligramPerLitre, 20, DiammoniumPhosphate)
	if err != nil {
		t.Fatal(err)
	}
	c.Rounded(float64(m), 2/0.212, 2/0.212*0.0005/0.212, "diammonium phosphate for 20 L, from 21.2 %")
	if n, err := NitrogenAdded(m, 20, DiammoniumPhosphate); err != nil || !handbook.Near(n.In(units.MilligramPerLitre), 100, 1e-12) {
		t.Errorf("%v g in 20 L: %v, %v", m, n, err)
	}
	// (NH4)2SO4: two of N in 28.014 + 8 x 1.008 + 32.06 + 4 x 15.999.
	if m, err = NutrientDose(1, 1, AmmoniumSulfate); err != nil {
		t.Fatal(err)
	}
	c.Rounded(float64(m), 132.134/28.014, 0.0003*132.134/28.014, "ammonium sulfate for 1 g of nitrogen, atomic masses to 0.03 %")
}

// What no table prints, as it is stated: needs of yeasts in mg of nitrogen per g
// of sugar (from memory), water to wake yeast in (common practice).
func TestStatedNeeds(t *testing.T) {
	for need, mg := range map[YeastNeed]float64{LowNeed: 0.75, MediumNeed: 0.90, HighNeed: 1.25} {
		c, err := NitrogenWanted(200, need)
		if err != nil || !handbook.Near(c.In(units.MilligramPerLitre), 200*mg, 1e-9) {
			t.Errorf("200 g/L of sugar at %g mg/g: %v, %v", mg, c, err)
		}
	}
	// 25 g for a hectolitre, in 10 mL of water a gram; the law allows 2 US gallons
	// per pound, 0.42 L, and 0.5 % of the volume (27 CFR 24.176(a)).
	p, err := Pitch(1.090, 0, units.Hectolitre)
	if err != nil || !handbook.Near(float64(p.Water), 0.25, 1e-9) || !handbook.Near(float64(p.MostWater), 2*3.785411784*25/453.59237, 1e-9) {
		t.Errorf("25 g of yeast: %+v, %v", p, err)
	}
	// In a difficult must the 50 g of a hectolitre may take 0.5 L, not 0.83.
	hard, err := Pitch(1.130, 0, units.Hectolitre)
	if err != nil || !handbook.Near(float64(hard.MostWater), 0.5, 1e-9) || !handbook.Near(float64(hard.Water), 0.5, 1e-9) {
		t.Errorf("50 g of yeast: %+v, %v", hard, err)
	}
}

// AWRI: twice the rate for high Brix, taken as 25 Brix, and from 10 mg/L of free
// SO2; 2e10 cells in a gram of yeast.
func TestDifficultJuice(t *testing.T) {
	at25 := handbook.Must(gravity.Brix(25).SG())
	for _, x := range []struct {
		og   gravity.SG
		free float64 // mg/L
		hard bool
	}{{at25 - 0.001, 0, false}, {at25 + 0.001, 0, true}, {1.09, 9.9, false}, {1.09, 10, true}} {
		p, err := Pitch(x.og, units.Concentration(x.free)*units.MilligramPerLitre, 1)
		if err != nil || p.Difficult != x.hard {
			t.Errorf("%v, %g mg/L: difficult %v, %v", x.og, x.free, p.Difficult, err)
		}
		if want := float64(p.Yeast) * 2e10 / 1000; !handbook.Near(p.Cells, want, 1e-12) {
			t.Errorf("%v g/L: %g cells per mL, want %g", p.Yeast, p.Cells, want)
		}
	}
}

// The embedded table holds the printed grams and nothing else, and what a spoon
// may hold: 20 % either way for powders, 5 % for syrups (common practice, from
// memory).
func TestHouseholdTableIsTheSource(t *testing.T) {
	printed := map[string]string{}
	for _, r := range handbook.Load(t, "testdata/household_weights.csv").Rows {
		m := strings.Fields(r.Text("measure"))
		name := r.Text("food_or_substance")
		if m[len(m)-1] == "sifted" {
			name += ", sifted"
		}
		if m[1] == "level" {
			m = append(m[:1], m[2:]...)
		}
		printed[name+", "+m[0]+" "+m[1]] = r.Text("grams")
	}
	in := csv.NewReader(strings.NewReader(householdCSV))
	in.Comment = '#'
	rows, err := in.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	syrup := map[string]bool{"honey": true, "molasses": true, "corn syrup, light": true, "maple syrup": true}
	for _, row := range rows[1:] {
		at, spread := row[0]+", "+row[1], "20"
		if syrup[row[0]] {
			spread = "5"
		}
		if row[2] != printed[at] || row[3] != spread {
			t.Errorf("%s: %s g within %s %%, printed %q, within %s %%", at, row[2], row[3], printed[at], spread)
		}
	}
	for s, part := range map[Substance]float64{"sugar, powdered": 0.20, "honey": 0.05} {
		if got, err := Spoons(s, 3); err != nil || math.Abs(float64((got.High-got.Low)/(got.High+got.Low))-part) > 1e-12 {
			t.Errorf("3 g of %s: %v to %v, %v", s, got.Low, got.High, err)
		}
	}
}

// Of two parts the second goes in last, of three the second a day after the first.
func TestStagesSayWhen(t *testing.T) {
	for n, second := range map[int]string{2: "when a third of the sugar is gone, not after", 3: "a day later"} {
		parts, err := Staged(9, n)
		if err != nil || parts[0].When != "when fermentation shows" || parts[1].When != second || !handbook.Near(float64(parts[1].Mass), 9/float64(n), 1e-12) {
			t.Errorf("%d stages: %+v, %v", n, parts, err)
		}
	}
}

// 25 g/hL at 2e10 cells a gram are 5 million in a millilitre.
func TestCellsAreAFigure(t *testing.T) {
	p, err := Pitch(1.09, 0, 1)
	if err != nil || p.Figures()[1].Fixed() != "5000000" {
		t.Errorf("%v, %v", p.Figures(), err)
	}
}
