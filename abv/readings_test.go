package abv_test

import (
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// What the instruments show in a known wine at 28 C leads back to that wine.
func TestReadingsAwayFrom20CLeadBackToTheWine(t *testing.T) {
	h, warm := gravity.NewHydrometer(units.Celsius(15)), units.Celsius(28)
	f, err := abv.StopAt(1.092, 8, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	reading, err := h.Shows(f.Strength, f.Extract, warm)
	if err != nil {
		t.Fatal(err)
	}
	got, err := abv.Must.TrueFinal(h, 1.092, reading, warm)
	if err != nil || math.Abs(float64(got-f.Gravity)) > 1e-7 {
		t.Errorf("true gravity %v, %v; want %v", got, err, f.Gravity)
	}

	r := gravity.NewRefractometer()
	const brix = 15.9
	at20, err := r.Correct(brix, warm)
	if err != nil {
		t.Fatal(err)
	}
	want, err := abv.TwoInstruments(1.0196, at20)
	if err != nil {
		t.Fatal(err)
	}
	if reading, err = h.Shows(want.Strength, want.Extract, warm); err != nil {
		t.Fatal(err)
	}
	g, b, err := abv.Solutes{}.TrueReadings(h, reading, r, brix, warm)
	if err != nil || math.Abs(float64(g-1.0196)) > 1e-6 || b != at20 {
		t.Errorf("%v, %v, %v; want 1.0196 and %v", g, b, err, at20)
	}

	const residue gravity.SG = 1.03
	if want, err = abv.BoilOff(1.01, residue); err != nil {
		t.Fatal(err)
	}
	wine, err := h.Shows(want.Strength, want.Extract, warm)
	if err != nil {
		t.Fatal(err)
	}
	left, err := h.ReadingInMust(residue, warm)
	if err != nil {
		t.Fatal(err)
	}
	a, c, err := abv.TrueBoilOff(h, wine, left, warm)
	if err != nil || math.Abs(float64(a-1.01)) > 1e-6 || math.Abs(float64(c-residue)) > 1e-6 {
		t.Errorf("%v, %v, %v; want 1.01 and %v", a, c, err, residue)
	}
	if _, _, err := abv.TrueBoilOff(h, wine, left, units.Celsius(160)); err == nil {
		t.Error("160 C")
	}
	if _, err := abv.Must.TrueFinal(h, 1.092, reading, units.Celsius(60)); err == nil {
		t.Error("60 C")
	}
	if _, _, err := (abv.Solutes{}).TrueReadings(h, reading, r, brix, units.Celsius(60)); err == nil {
		t.Error("60 C")
	}
}

// A juice label states its sugar; its gravity is higher by what else is dissolved.
func TestAJuiceLabelLeavesOutWhatIsNotSugar(t *testing.T) {
	n, err := abv.NotSugarOf("juice")
	if err != nil {
		t.Fatal(err)
	}
	low, likely, high, err := n.Must(108)
	if err != nil {
		t.Fatal(err)
	}
	for g, rest := range map[gravity.SG]units.Concentration{low: n.Low, likely: n.Likely, high: n.High} {
		if e, err := g.Extract(); err != nil || math.Abs(float64(e-108-rest)) > 1e-6 {
			t.Errorf("%v: extract %v, %v; want %v", g, e, err, 108+rest)
		}
	}
	if _, _, _, err := n.Must(901); err == nil {
		t.Error("901 g/L")
	}
}
