package additions

import (
	"fmt"
	"strconv"
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

func TestSorbateTable(t *testing.T) {
	c := handbook.NewCheck(t, "Sorbate by strength and pH, Underhill, mL of 30 g/L salt per litre", "mL")
	for _, r := range handbook.Load(t, "testdata/sorbate_dose_by_alcohol_and_ph.csv").Rows {
		for _, pH := range []string{"3.1", "3.2", "3.3", "3.4", "3.5"} {
			var p float64
			fmt.Sscan(pH, &p)
			acid, err := SorbicAcidNeeded(units.Strength(r.Number("alcohol_percent_vol")), p)
			if err != nil {
				t.Fatal(err)
			}
			salt, err := Sorbate(acid, 1)
			if err != nil {
				t.Fatal(err)
			}
			at := r.Text("alcohol_percent_vol") + " % vol, pH " + pH
			c.Printed(float64(salt)/30*1000, r.Text("pH_"+pH), at)
			if printed := r.Number("pH_" + pH); !handbook.Near(float64(salt)/30*1000, printed, 1e-9) {
				t.Errorf("%s: %v mL, where the table itself has %v", at, float64(salt)/30*1000, printed)
			}
		}
	}
	// More alcohol never asks for more, more pH never for less.
	for s := 10.0; s < 13.9; s += 0.13 {
		for pH := 3.1; pH < 3.49; pH += 0.017 {
			here, _ := SorbicAcidNeeded(units.Strength(s), pH)
			stronger, _ := SorbicAcidNeeded(units.Strength(s+0.1), pH)
			higher, err := SorbicAcidNeeded(units.Strength(s), pH+0.01)
			if err != nil || stronger >= here || higher <= here {
				t.Errorf("%v %% vol, pH %v: %v, then %v and %v, %v", s, pH, here, stronger, higher, err)
			}
		}
	}
}

func TestSorbateWorkedExamples(t *testing.T) {
	c := handbook.NewCheck(t, "Sorbate, worked examples D2 to D4", handbook.Mixed)
	salt, err := Sorbate(UsualSorbicAcid, 1)
	if err != nil {
		t.Fatal(err)
	}
	c.Except(1000*float64(salt), "275", "IFV, mg/L of salt for 200 mg/L", "stoichiometry, 74.64 %, gives 268")
	gal, err := Sorbate(UsualSorbicAcid, units.USGallon)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(float64(gal), "1", "Purdue, g/gal")
	c.Printed(100*molar.SorbicOfSorbate, "74.64", "OIV Codex, % sorbic acid in the salt")
	for _, x := range []struct {
		s       units.Strength
		printed string
	}{{0, "1.5"}, {5, "1.6"}, {20, "2.9"}} {
		g, err := SorbicAcidSoluble(x.s, 3.1)
		if err != nil {
			t.Fatal(err)
		}
		c.Printed(float64(g), x.printed, fmt.Sprintf("solubility at %v, g/L", x.s))
		if row, err := strconv.ParseFloat(x.printed, 64); err != nil || !handbook.Near(float64(g), row, 1e-9) {
			t.Errorf("solubility at %v: %v g/L, where the table itself has %v", x.s, float64(g), x.printed)
		}
		if g < UsualSorbicAcid {
			t.Errorf("the usual dose does not dissolve at %v", x.s)
		}
	}
	back, err := SorbicAcid(salt, 1)
	if err != nil || !handbook.Near(float64(back), float64(UsualSorbicAcid), 1e-12) {
		t.Errorf("%v, %v", back, err)
	}
	if len(SorbateCautions(0)) != len(SorbateCautions(50*units.MilligramPerLitre))+1 {
		t.Error("sorbate without sulfite is not cautioned")
	}
}

// At pH 4 the share that is salt, 10^(4 - 4.76) to 1, dissolves beside the acid:
// (1 + 0.17378)/(1 + 0.02188) times what dissolves at pH 3.1.
func TestMoreSorbicAcidDissolvesAtAHigherPH(t *testing.T) {
	g, err := SorbicAcidSoluble(0, 4)
	if want := 1.5 * 1.17378 / 1.02188; err != nil || !handbook.Near(float64(g), want, 1e-5) {
		t.Errorf("%v g/L, %v; by hand %v", float64(g), err, want)
	}
}
