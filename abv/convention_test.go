package abv_test

import (
	"fmt"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestPotentialFrance2011(t *testing.T) {
	now := handbook.NewCheck(t, "French order of 2011, Annex IV, potential alcohol at 16.83 g/L", "% vol")
	old := handbook.NewCheck(t, "French order of 2011, Annex IV, potential alcohol at 17.5 g/L", "% vol")
	for _, r := range handbook.Load(t, "testdata/must_potential_alcohol_fr_2011.csv").Rows {
		sugar, at := units.Concentration(r.Number("sugar_g_per_L")), r.Text("sugar_g_per_L")+" g/L"
		s, err := abv.ConventionEU.Potential(sugar)
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
			s, err := abv.ConventionFrance.Potential(sugar)
			if err != nil {
				t.Fatal(err)
			}
			old.Rounded(float64(s), r.Number("potential_alcohol_percent_vol_17.5_old"), 0.05+0.05/17.5, at)
		}
	}
}

// Portaria 379/75: 204 g/L count as 12 % vol.
func ExampleConvention_Potential() {
	s, _ := abv.ConventionPortugal.Potential(204)
	fmt.Println(s.Decimal(units.PercentVol, 1))
	// Output: 12
}

// The total alcohol that the definitions of liqueur wine speak of.
func ExampleConvention_Total() {
	s, _ := abv.ConventionEU.Total(6.235, 142.4)
	fmt.Println(s.Decimal(units.PercentVol, 1))
	// Output: 14.7
}
