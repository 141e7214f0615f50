package batch

import (
	"strings"
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// reread is a blend of 3 L of sweet wine and 3 L of spirit that should be still, whose
// doses hold yeast of 12 % vol undiluted and not when they are halved.
func reread(t *testing.T) *job {
	t.Helper()
	j := jobOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "fruit": "juice", "ph": "3.3", "sulfite": "150 mg/L", "sorbate": "150 mg/L",
		"spirit_strength": "40 % vol", "spirit_poured": "3 L"}`)
	j.plan.Liquids = []Liquid{{Key: "reachable", Verdict: stability.Verdict{Outlook: stability.Still}}}
	return j
}

// What would explain a reading is judged with the doses in it: as much wine as the
// error leaves in the litre.
func TestAnExplanationIsJudgedWithItsOwnWine(t *testing.T) {
	weak := blend.Mixture{Volume: 6, Strength: 12, Extract: 60}
	for _, c := range []struct {
		quantity, component string
		from, to            float64
		result              blend.Mixture
		want                stability.Outlook
	}{
		{"strength", "spirit", 40, 160, weak, stability.Doubtful}, // 3 of 6 L are wine
		{"volume", "spirit", 3, 12, weak, stability.Doubtful},
		{"extract", "wine", 30, 120, weak, stability.Doubtful},
		{"volume", "wine", 3, 1.5, weak, stability.Doubtful}, // 1.5 of 6 L
		{"volume", "wine", 3, 6, weak, stability.Still},      // 6 of 6 L
		{"strength", "spirit", 40, 50, blend.Mixture{Volume: 6, Strength: 25, Extract: 60}, stability.Still},
	} {
		j := reread(t)
		e := blend.Finding{Reading: 1.000, Explanations: []blend.Explanation{{Component: c.component, Quantity: c.quantity, From: c.from, To: c.to, Result: c.result}}}
		if err := j.doubted(e); err != nil {
			t.Fatal(err)
		}
		l := j.plan.Liquids[0]
		if l.Verdict.Outlook != c.want || (l.Remedy != "") != (c.want != stability.Still) || (l.Closed.Overpressure > 0) != (c.want != stability.Still) {
			t.Errorf("%s of %s %v instead of %v: yeast %s, %q, %v", c.quantity, c.component, c.to, c.from, l.Verdict.Outlook, l.Remedy, l.Closed.Overpressure)
		}
	}
}

// The word is taken back where nothing explains the reading, or where it lies above the
// wine, which no spirit without sugar brings about; not by the room of two careful
// readings, and never twice.
func TestTheWordIsTakenBackWhereNothingExplainsTheReading(t *testing.T) {
	j := reread(t)
	wine := handbook.Must(blend.Mix(j.c.poured)).Gravity
	strong := []blend.Explanation{{Component: "spirit", Quantity: "strength", From: 40, To: 50, Result: blend.Mixture{Volume: 6, Strength: 25, Extract: 60}}}
	for _, c := range []struct {
		e     blend.Finding
		sweet units.Concentration
		want  stability.Outlook
	}{
		{blend.Finding{Agrees: true}, 0, stability.Still},
		{blend.Finding{Reading: 1.000}, 0, stability.Doubtful},
		{blend.Finding{Reading: wine + 0.00198, Explanations: strong}, 0, stability.Still},
		{blend.Finding{Reading: wine + 0.00202, Explanations: strong}, 0, stability.Doubtful},
		{blend.Finding{Reading: wine + 0.01, Explanations: strong}, 100, stability.Still},
		{blend.Finding{Reading: wine - 0.01, Explanations: strong}, 0, stability.Still},
	} {
		j := reread(t)
		j.c.spirit.Extract = c.sweet
		if err := j.doubted(c.e); err != nil {
			t.Fatal(err)
		}
		l := j.plan.Liquids[0]
		if l.Verdict.Outlook != c.want || strings.Contains(l.Remedy, "no single error") != (c.want != stability.Still) {
			t.Errorf("reads %v over %v, %d explanations: yeast %s, %q", c.e.Reading, wine, len(c.e.Explanations), l.Verdict.Outlook, l.Remedy)
		}
	}
	j.plan.Liquids[0] = Liquid{Key: "reachable", Verdict: stability.Verdict{Outlook: stability.Ferments}, Remedy: "its own"}
	if err := j.doubted(blend.Finding{}); err != nil || j.plan.Liquids[0].Remedy != "its own" || j.plan.Liquids[0].Verdict.Outlook != stability.Ferments {
		t.Errorf("%+v, %v", j.plan.Liquids[0], err)
	}
	// The liquid that is looked at is the one that was poured.
	j.plan.Liquids = []Liquid{{Key: "wine", Verdict: stability.Verdict{Outlook: stability.Still}}, {Key: "reachable", Verdict: stability.Verdict{Outlook: stability.Still}}}
	if err := j.doubted(blend.Finding{}); err != nil || j.plan.Liquids[0].Verdict.Outlook != stability.Still || j.plan.Liquids[1].Verdict.Outlook != stability.Doubtful {
		t.Errorf("%+v, %v", j.plan.Liquids, err)
	}
}

// What mends a blend is said from a thousandth of it on: spirit where it is too weak,
// wine where it is too strong. 40 of 20 % vol: a thousandth raises it by 0.02.
func TestWhatMendsABlendIsSaidFromAThousandthOn(t *testing.T) {
	for strength, want := range map[units.Strength]string{
		20 - 0.0202: " of spirit mend it", 20 - 0.0197: "", 18: " of spirit mend it", 22: " of wine mend it", 20 + 0.0200: " of wine mend it",
	} {
		j := reread(t)
		j.b.Target = Is(units.Strength(20))
		result := blend.Mixture{Volume: 6, Strength: strength, Extract: 60}
		text := j.explain(blend.Explanation{Component: "spirit", Quantity: "strength", From: 40, To: 39, Result: result})
		if !strings.HasPrefix(text, "strength of spirit 39.0 % vol instead of 40.0 % vol: the blend would have ") || strings.Contains(text, "mend") != (want != "") || !strings.Contains(text, want) {
			t.Errorf("%v: %q, want %q", strength, text, want)
		}
		if strength > 19.97 && strength < 20 {
			f := handbook.Must(blend.Repair(result, blend.Component{Name: "spirit", Strength: 40}, j.c.base, 20))
			if share := float64(f.Spirit / 6); (share > 0.001 && share < 0.00102) != (want != "") || share < 0.00098 || share > 0.00102 {
				t.Errorf("%v: %v of the blend is at no threshold", strength, share)
			}
		}
	}
}

// A reading that nothing explains says so, one that something explains says what.
func TestTheCheckSaysWhatExplainsTheReading(t *testing.T) {
	for reading, want := range map[string]string{"1.0145": "The reading agrees with what was poured", "1.045": "Any one of these alone would explain the reading", "1.240": "No single error of what was poured"} {
		s := planOf(t, poured+`"`+reading+`"}`).stepOf("check")
		if len(s.Lines) == 0 || !strings.HasPrefix(s.Lines[0], want) {
			t.Errorf("reads %s: %q, want %q", reading, s.Lines, want)
		}
		if any := strings.HasPrefix(want, "Any"); any != (len(s.Lines) > 2) {
			t.Errorf("reads %s: %q", reading, s.Lines)
		}
	}
}

// A spirit that is known well makes a small difference matter, one that is not does not.
func TestTheReadingIsHeldAgainstWhatIsKnownOfTheSpirit(t *testing.T) {
	for limits, agrees := range map[string]bool{"± 0.001 L": false, "± 0.3 L": true} {
		j := jobOf(t, `{"wine": "3 L ± 0.001 L", "wine_strength": "6 % vol ± 0.01 % vol", "wine_reading": "1.046 ± 0.0001", "spirit_strength": "40 % vol ± 0.01 % vol", "spirit_poured": "1 L `+limits+`", "blend_reading": "1.0193 ± 0.0002"}`)
		got, err := j.explained()
		if err != nil || got != agrees {
			t.Errorf("spirit %s: agrees %v, %v", limits, got, err)
		}
	}
	j := jobOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`)
	if got, err := j.explained(); !got || err != nil || len(j.plan.Steps) != 0 {
		t.Errorf("nothing was read: %v, %v", got, err)
	}
	if capital("") != "" || capital("pour") != "Pour" || ferment(stability.Doubtful) != "yeast may ferment" || ferment(stability.Ferments) != "yeast will ferment" {
		t.Error(capital("pour"), ferment(stability.Doubtful))
	}
}
