package label_test

import (
	"fmt"
	"testing"

	"example.org/mutage/abv/label"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestPotentialFrance2011(t *testing.T) {
	now := handbook.NewCheck(t, "French order of 2011, Annex IV, potential alcohol at 16.83 g/L", "% vol")
	old := handbook.NewCheck(t, "French order of 2011, Annex IV, potential alcohol at 17.5 g/L", "% vol")
	for _, r := range handbook.Load(t, "testdata/must_potential_alcohol_fr_2011.csv").Rows {
		sugar, at := units.Concentration(r.Number("sugar_g_per_L")), r.Text("sugar_g_per_L")+" g/L"
		s, err := label.ConventionEU.Potential(sugar)
		if err != nil {
			t.Fatal(err)
		}
		// Half a digit of the strength and of the sugar it was computed from. The
		// print multiplies by 0.0594, which is 1/16.835.
		switch printed := r.Text("potential_alcohol_percent_vol_16.83"); printed {
		case "15.16", "16.92":
			now.Except(float64(s), printed, at, "the print multiplies by 0.0594")
			now.Rounded(0.0594*float64(sugar), r.Number("potential_alcohol_percent_vol_16.83"), 0.005+0.05/16.83, at+" by 0.0594")
		default:
			now.Rounded(float64(s), r.Number("potential_alcohol_percent_vol_16.83"), 0.005+0.05/16.83, at)
		}
		if printed := r.Text("potential_alcohol_percent_vol_17.5_old"); printed != "" {
			s, err := label.ConventionFrance.Potential(sugar)
			if err != nil {
				t.Fatal(err)
			}
			old.Rounded(float64(s), r.Number("potential_alcohol_percent_vol_17.5_old"), 0.05+0.05/17.5, at)
		}
	}
}

// Portaria 379/75: 204 g/L count as 12 % vol.
func ExampleConvention_Potential() {
	s, _ := label.ConventionPortugal.Potential(204)
	fmt.Println(s.Decimal(units.PercentVol, 1))
	// Output: 12
}

// The total alcohol that the definitions of liqueur wine speak of.
func ExampleConvention_Total() {
	s, _ := label.ConventionEU.Total(6.235, 142.4)
	fmt.Println(s.Decimal(units.PercentVol, 1))
	// Output: 14.7
}

// Each end of a domain is taken, what lies beyond is refused.
func TestConventionDomains(t *testing.T) {
	strength := func(s units.Strength, err error) (float64, error) { return float64(s), err }
	handbook.Domains(t, []handbook.Domain{
		{Name: "grams", Of: func(x float64) (float64, error) {
			return strength(label.Convention{Grams: units.Concentration(x)}.Potential(100))
		}, Good: []float64{10, 25}, Bad: []float64{9.99, 25.1}},
		{Name: "sugar", Of: func(x float64) (float64, error) {
			return strength(label.ConventionEU.Potential(units.Concentration(x)))
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "total, strength", Of: func(x float64) (float64, error) {
			return strength(label.ConventionEU.Total(units.Strength(x), 100))
		}, Good: []float64{0, 100}, Bad: []float64{-1, 101}},
		{Name: "total, sugar", Of: func(x float64) (float64, error) {
			return strength(label.ConventionEU.Total(10, units.Concentration(x)))
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
	})
}
