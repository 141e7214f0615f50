package stability

import (
	"testing"

	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Every result gives its figures, whole and with their source.
func TestFiguresCarryTheirSource(t *testing.T) {
	w := Wine{Strength: 12, StrengthUncertainty: 0.2, Sugar: exactly(20), PH: 3.3, SO2: added(29), Sorbate: 162 * mg}
	v, err := Judge(w)
	if err != nil {
		t.Fatal(err)
	}
	bottle := Closed{Volume: 0.775, Headspace: 0.025, Rated: 15 * units.Bar}
	s, err := SealedPressure(w, bottle, units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	p, err := Prime(Wine{Strength: 10.5}, 8, bottle)
	if err != nil {
		t.Fatal(err)
	}
	remedies, err := Remedies(w)
	if err != nil || len(remedies) == 0 {
		t.Fatal(remedies, err)
	}
	sets := map[string][]units.Figure{"verdict": v.Figures(), "sealed": s.Figures(), "priming": p.Figures()}
	for _, r := range remedies {
		sets[r.Key] = r.Figures()
	}
	for _, b := range v.Barriers {
		sets[b.Key] = []units.Figure{b.Figure()}
	}
	for name, figures := range sets {
		if err := formula.Check(figures); err != nil || len(figures) == 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
	// By hand: 12 - 1.645 x 0.2 is 11.671 % vol, 52.52 and 2 units; 0.35 x 29 mg/L.
	for i, want := range []string{"11.67", "54.5", "10", "22", "0.32"} {
		if f := v.Figures()[i]; f.Fixed() != want {
			t.Errorf("%s: %s, want %s", f.Key, f.Fixed(), want)
		}
	}
}
