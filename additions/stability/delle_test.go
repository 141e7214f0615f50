package stability

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestDelle(t *testing.T) {
	c := handbook.NewCheck(t, "Delle units, British Columbia trade magazine and derived rows", "DU")
	for _, r := range handbook.Load(t, "testdata/delle_units.csv").Rows {
		if r.Text("sugar_g_per_100mL") == "" {
			continue
		}
		du, err := DelleUnits(units.Strength(r.Number("alcohol_pct_vol")), 10*units.Concentration(r.Number("sugar_g_per_100mL")))
		if err != nil {
			t.Fatal(err)
		}
		// The strengths of the derived rows are rounded to 0.01: 0.0225 DU.
		if r.Text("kind") == "computed" {
			c.Rounded(du, r.Number("delle_units"), 0.0225+handbook.HalfDigit(r.Text("delle_units")), r.Text("item"))
		} else {
			c.Printed(du, r.Text("delle_units"), r.Text("item"))
		}
	}
}
