package blend_test

import (
	"math"
	"strings"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// shown is the figures by their keys; no key comes twice.
func shown(t *testing.T, figures []units.Figure) map[string]units.Figure {
	t.Helper()
	out := map[string]units.Figure{}
	for _, f := range figures {
		if _, twice := out[f.Key]; twice {
			t.Errorf("%s comes twice", f.Key)
		}
		out[f.Key] = f
	}
	return out
}

// shows tests that a figure stands there, of this value to half of its last place.
func shows(t *testing.T, figures map[string]units.Figure, key string, want float64) {
	t.Helper()
	f, ok := figures[key]
	if half := 0.5 * math.Pow10(int(f.Value.Exponent())); !ok || math.Abs(f.Value.InexactFloat64()-want) > half+1e-12 {
		t.Errorf("%s: %v, %v; want %v", key, f.Value, ok, want)
	}
}

// A component of all that can be known shows all of it, with its name beside each
// figure; solutes but for the acid in mg/L.
func TestEveryContentIsAFigureOfItsOwn(t *testing.T) {
	c := blend.Component{Name: "jar 3", Volume: 2.5, Strength: 12.5, Extract: 30, Acid: 6.5, Sulfite: 0.05, Sorbate: 0.2, Potassium: 0.9}
	m, err := blend.Mix(c)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]float64{"volume": 2.5, "strength": 12.5, "extract": 30, "acid": 6.5, "total_so2": 50, "sorbic_acid": 200, "potassium": 900}
	of, mixed := shown(t, c.Figures()), shown(t, m.Figures())
	for key, x := range want {
		shows(t, of, key, x)
		shows(t, mixed, key, x)
	}
	if len(of) != len(want) || len(mixed) != len(want)+3 { // mass, gravity, contraction
		t.Errorf("%d and %d figures", len(of), len(mixed))
	}
	for _, f := range c.Figures() {
		if f.Note != "jar 3" {
			t.Errorf("%s is of %q", f.Key, f.Note)
		}
	}
	c.Name = ""
	for _, f := range c.Figures() {
		if f.Note != "" {
			t.Errorf("%s is of %q", f.Key, f.Note)
		}
	}
}

// What to pour is counted from 1, in the order of the components; the share of the
// spirit is in per cent of the blend.
func TestWhatToPourIsCountedFromOne(t *testing.T) {
	r := done[blend.Recipe](t)(blend.Solve(2, []blend.Component{figureWine, figureSpirit, figureJuice}, blend.WantStrength(18)))
	figures := shown(t, r.Figures())
	for i, key := range []string{"pour_1", "pour_2", "pour_3"} {
		shows(t, figures, key, float64(r.Volumes[i]))
		if name := figures[key].Name; !strings.Contains(name, "component "+key[len("pour_"):]) {
			t.Errorf("%s is called %q", key, name)
		}
	}
	shows(t, figures, "choices", 1) // three amounts, a size and a want
	f := done[blend.Fortification](t)(blend.Fortify(figureWine, figureSpirit, 20))
	figures = shown(t, f.Figures())
	shows(t, figures, "base", 3.05)
	shows(t, figures, "spirit", float64(f.Spirit))
	shows(t, figures, "spirit_share", float64(f.Spirit/f.Result.Volume)*100)
	if share := (blend.Fortification{}).Share(); share != 0 {
		t.Errorf("nothing mixed has %v of spirit", share)
	}
}

// The hand check shows what was poured by number, and each mean with the formula
// that is done on paper; without anything poured there is none.
func TestTheHandCheckIsAFormulaOfWhatWasPoured(t *testing.T) {
	a, b := blend.Component{Name: "a", Volume: 1, Strength: 10, Extract: 30, Acid: 4}, blend.Component{Name: "b", Volume: 3, Strength: 40, Extract: 10, Acid: 8}
	figures := shown(t, done[blend.HandCheck](t)(blend.Additive(a, b)).Figures())
	for key, want := range map[string]float64{"volume_1": 1, "strength_1": 10, "extract_1": 30, "acid_1": 4, "volume_2": 3, "strength_2": 40, "extract_2": 10, "acid_2": 8,
		"volume_by_hand": 4, "strength_by_hand": 130. / 4, "extract_by_hand": 60. / 4, "acid_by_hand": 28. / 4} {
		shows(t, figures, key, want)
	}
	for _, of := range []string{"strength", "extract", "acid"} {
		if got, want := figures[of+"_by_hand"].Formula, "({volume_1}*{"+of+"_1}+{volume_2}*{"+of+"_2})/{volume_by_hand}"; got != want {
			t.Errorf("%s: %q, want %q", of, got, want)
		}
	}
	if got := figures["volume_by_hand"].Formula; got != "{volume_1}+{volume_2}" {
		t.Errorf("volume: %q", got)
	}
	for _, f := range (blend.HandCheck{}).Figures() {
		if f.Formula != "" {
			t.Errorf("%s of nothing: %q", f.Key, f.Formula)
		}
	}
}

// A finding shows the reading, what was expected, the one less the other with its
// uncertainty, and the explanations from 1 on; figures with uncertainty take the
// place of those without.
func TestAFindingShowsItsDifference(t *testing.T) {
	poured := figureSpirit
	poured.Volume = 1.2
	f := done[blend.Finding](t)(blend.Explain(figureWine, poured, 1.03, blend.Uncertainty{Volume: 0.1, Strength: 0.2}, blend.Uncertainty{Volume: 0.1}, 0.001))
	figures := shown(t, f.Figures())
	shows(t, figures, "reading", 1.03)
	shows(t, figures, "gravity", float64(f.Expected.Gravity))
	shows(t, figures, "difference", 1.03-float64(f.Expected.Gravity))
	if u := figures["difference"].Uncertainty.Decimal.InexactFloat64(); math.Abs(u-float64(f.Standard)) > 1e-6 {
		t.Errorf("uncertain by %v, want %v", u, f.Standard)
	}
	if len(f.Explanations) < 2 {
		t.Fatal(f.Explanations)
	}
	for i, key := range []string{"explanation_1", "explanation_2"} {
		e := f.Explanations[i]
		shows(t, figures, key+"_suspect_"+e.Quantity, e.To)
		shows(t, figures, key+"_deviations", e.Deviations)
		if name := figures[key+"_deviations"].Name; !strings.HasPrefix(name, "explanation "+key[len("explanation_"):]) {
			t.Errorf("%s is called %q", key, name)
		}
	}
	if first := (blend.Explanation{}).Figures()[0]; first.Key != "suspect" {
		t.Errorf("of nothing: %q", first.Key)
	}
	u := done[blend.Uncertain](t)(blend.MixWithin([]blend.Component{figureWine, poured}, []blend.Uncertainty{{Volume: 0.1}, {}}))
	figures = shown(t, u.Figures())
	for key, want := range map[string]float64{"volume": u.Volume.Standard, "strength": u.Strength.Standard, "extract": u.Extract.Standard, "gravity": u.Gravity.Standard} {
		if got := figures[key].Uncertainty; !got.Valid || math.Abs(got.Decimal.InexactFloat64()-want) > 0.01*want+1e-6 {
			t.Errorf("%s is uncertain by %v, want %v", key, got, want)
		}
	}
	if figures["mass"].Uncertainty.Valid {
		t.Error("the mass is shown with an uncertainty")
	}
	shows(t, figures, "mass", float64(u.Mixture.Mass))
}
