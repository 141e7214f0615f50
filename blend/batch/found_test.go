package batch

import (
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// found are the keys of what a part of the plan finds in a job.
func found(look func(j *job), j *job) string {
	look(j)
	return j.keys()
}

// A blend that fills its vessel to a millionth does not overflow.
func TestWhatDoesNotFitOverflows(t *testing.T) {
	for _, c := range []struct {
		blend, planned, base, fits units.Volume
		b                          Batch
		want                       string
	}{
		{5, 5, 4, 5, Batch{}, ""},
		{5.000004, 4, 4, 5, Batch{}, ""},
		{5.000006, 4, 4, 5, Batch{}, "overflow"},
		{4, 5.1, 4, 5, Batch{}, "overflow_planned"},
		{9, 9, 9, 0, Batch{}, ""}, // no vessel
		{5, 5, 5, 5, Batch{}, ""},
		{5, 5, 5.1, 5, Batch{}, "vessel"},
		{5, 5, 5.1, 5, Batch{Fortify: fillVessel}, ""},
		{5, 5, 5.1, 5, Batch{BlendVolume: Is(units.Volume(5))}, ""},
		{5, 5, 5.1, 5, Batch{PouredSpirit: Litres(1)}, ""},
		{4.96, 4, 4, 5, Batch{Fortify: fillVessel}, ""},
		{4.94, 4, 4, 5, Batch{Fortify: fillVessel}, "vessel_not_full"}, // less than 4.95
		{4.94, 4, 4, 5, Batch{}, ""},
		{4.94, 4, 4, 5, Batch{Fortify: fillVessel, PouredSpirit: Litres(1)}, ""},
		{4.96, 4, 4, 0, Batch{BlendVolume: Is(units.Volume(5))}, ""},
		{4.94, 4, 4, 0, Batch{BlendVolume: Is(units.Volume(5))}, "blend_volume"},
		{4.94, 4, 4, 0, Batch{BlendVolume: Is(units.Volume(5)), PouredSpirit: Litres(1)}, ""},
	} {
		j := &job{b: &c.b, d: decision{room: c.fits, fits: c.fits}}
		j.c.blend.Volume, j.c.planned.Volume, j.c.base.Volume = c.blend, c.planned, c.base
		if got := found((*job).vessel, j); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
	j := &job{b: &Batch{Fortify: fillVessel}, d: decision{room: 5, fits: 5, limit: &blend.UnreachableError{}}}
	j.c.blend.Volume = 4
	if got := found((*job).vessel, j); got != "" {
		t.Errorf("a target that is not reached: %q", got)
	}
}

// Sugar that raises the gravity by less than 0.0005 is a slip, and so is a wine
// stronger than yeast makes.
func TestSlipsAreFoundOnBothSides(t *testing.T) {
	sugared := Batch{Must: Litres(3), Sugar: []Portion{{}}}
	known := sugared
	known.OriginalReading.Known = true
	wine := Batch{Wine: Litres(3)}
	for _, c := range []struct {
		b    Batch
		rise float64
		wine units.Strength
		want string
	}{
		{sugared, 0.000495, 0, "sugar"}, {sugared, 0.000505, 0, ""}, {known, 0, 0, ""}, {Batch{Must: Litres(3)}, 0, 0, ""},
		{wine, 0, abv.MostByYeast - 0.01, ""}, {wine, 0, abv.MostByYeast, ""}, {wine, 0, abv.MostByYeast + 0.01, "wine_strength"}, {Batch{}, 0, 30, ""},
		{Batch{JuiceLabel: Label{Sugar: 120, In: 2}}, 0, 0, ""}, {Batch{JuiceLabel: Label{Sugar: 90, In: 2}}, 0, 0, "juice_label"}, // 60 and 45 g/L, raspberry has 49
	} {
		j := &job{b: &c.b}
		j.c.before, j.c.og, j.c.wine.Strength = 1.05, gravity.SG(1.05+c.rise), c.wine
		if got := found((*job).slips, j); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// What is wanted and what is still, each beside what is not.
func TestWhatIsNotStillIsFound(t *testing.T) {
	liquid := func(key string, o stability.Outlook, low units.Concentration) Liquid {
		l := Liquid{Key: key, Strength: 18, Verdict: stability.Verdict{Outlook: o}}
		l.Sugar.Low = low
		return l
	}
	for _, c := range []struct {
		least   float64
		liquids []Liquid
		want    string
	}{
		{100, []Liquid{liquid("reachable", stability.Still, 100)}, ""},
		{100, []Liquid{liquid("reachable", stability.Still, 99.99999)}, "least_sugar"},
		{0, []Liquid{liquid("reachable", stability.Doubtful, 0)}, "not_still"},
		{0, []Liquid{liquid("reachable", stability.Still, 0), liquid("planned", stability.Still, 0), liquid("kept", stability.Still, 0)}, ""},
		{0, []Liquid{liquid("reachable", stability.Still, 0), liquid("planned", stability.Ferments, 0)}, "planned_not_still"},
		{0, []Liquid{liquid("reachable", stability.Still, 0), liquid("kept", stability.Ferments, 0)}, "kept_not_still"},
	} {
		b := Batch{}
		if c.least > 0 {
			b.LeastSugar = Is(units.Concentration(c.least))
		}
		if got := found((*job).notStill, &job{b: &b, plan: Plan{Liquids: c.liquids}}); got != c.want {
			t.Errorf("%v, %v: %q", c.least, c.liquids, got)
		}
	}
}

// The limit of a yeast, the end of the sugar, the window, and the reading after racking.
func TestTheStopIsHeldAgainstWhatCanBe(t *testing.T) {
	const must = `{"must": "3 L", "original_reading": "1.085", "must_temperature": "20 C", "cellar_temperature": "20 C", "fruit": "juice", `
	severity := func(text, key string) Severity {
		j := jobOf(t, must+text+`}`)
		if err := j.looks(); err != nil {
			t.Fatal(err)
		}
		for _, f := range j.findings {
			if f.Key == key {
				return f.Severity
			}
		}
		return ""
	}
	for text, want := range map[string]Severity{
		`"yeast_limit": "5 % vol", "stop_at": "5 % vol"`: "", `"yeast_limit": "5 % vol", "stop_at": "5.01 % vol"`: Warn,
		`"yeast_limit": "5 % vol", "stop_at": "5.99 % vol"`: Warn, `"yeast_limit": "5 % vol", "stop_at": "6.01 % vol"`: Stop,
	} {
		if got := severity(text, "yeast_limit"); got != want {
			t.Errorf("%s: %q", text, got)
		}
	}
	for text, want := range map[string]Severity{
		`"stop_reading": "1.050", "racked_reading": "1.05198"`: "", `"stop_reading": "1.050", "racked_reading": "1.05202"`: Warn, `"stop_reading": "1.050", "racked_reading": "1.049"`: "",
	} {
		if got := severity(text, "reading_order"); got != want {
			t.Errorf("%s: %q", text, got)
		}
	}
	j := jobOf(t, must+`"stop_at": "5 % vol", "stop_from": "4 % vol", "stop_to": "6 % vol"}`)
	from, to := j.d.window.From.Gravity, j.d.window.To.Gravity
	for _, c := range []struct {
		gravity float64
		want    string
	}{{float64(from), ""}, {float64(from) + 1e-5, "stop_outside_window"}, {float64(to), ""}, {float64(to) - 1e-5, "stop_outside_window"}} {
		j.findings, j.c.wine.Gravity = nil, gravity.SG(c.gravity)
		if err := j.order(); err != nil || j.keys() != c.want {
			t.Errorf("stops at %v of %v to %v: %q, %v", c.gravity, from, to, j.keys(), err)
		}
	}
	_, _, high, err := abv.PotentialRange(1.085, abv.Must, abv.End{NotSugar: handbook.Must(abv.NotSugarOf("juice"))})
	if err != nil {
		t.Fatal(err)
	}
	for more, want := range map[units.Strength]string{0: "", 1e-5: "stop_beyond_sugar", -1: ""} {
		j.findings, j.c.wine.Strength = nil, high.Strength+more
		if err := j.beyond(); err != nil || j.keys() != want {
			t.Errorf("%v beyond what the sugar gives: %q, %v", more, j.keys(), err)
		}
	}
}

// A liquid below 30 % vol of which no sugar is stated may be a liqueur.
func TestAWeakSpiritMayHoldSugar(t *testing.T) {
	for text, want := range map[string]bool{
		`"spirit_strength": "29.9 % vol", "spirit_poured": "1 L"`: true, `"spirit_strength": "30 % vol", "spirit_poured": "1 L"`: false, `"spirit_strength": "30.3 % vol", "spirit_poured": "1 L"`: false,
		`"spirit_strength": "29.9 % vol", "spirit_poured": "0 L"`: false, `"spirit_strength": "29.9 % vol", "spirit_sugar": "0 g/L", "spirit_poured": "1 L"`: false,
	} {
		j := jobOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", `+text+`}`)
		if err := j.looks(); err != nil || strings.Contains(j.keys(), "spirit_extract") != want {
			t.Errorf("%s: %q, %v", text, j.keys(), err)
		}
	}
}

// A blend misses its target from 0.05 % vol on.
func TestATargetIsMissedFromATwentiethOn(t *testing.T) {
	for strength, want := range map[units.Strength]string{19.9495: "target_missed", 19.9505: "", 20: "", 21: "", 19: "target_missed"} {
		j := &job{b: &Batch{PouredSpirit: Litres(1), Target: Is(units.Strength(20))}, c: course{blend: blend.Mixture{Strength: strength}}}
		if got := found(func(j *job) { j.missed(false) }, j); got != want {
			t.Errorf("%v poured for 20 %% vol: %q", strength, got)
		}
	}
	for _, b := range []Batch{{Target: Is(units.Strength(20))}, {PouredSpirit: Litres(1)}} {
		if got := found(func(j *job) { j.missed(false) }, &job{b: &b}); got != "" {
			t.Errorf("%+v: %q", b, got)
		}
	}
}

// What keeps a target from being reached is named, and every change that would do;
// what there is next to nothing of is not "instead of" anything, and next to none of
// something is no change.
func TestWhatWouldReachTheTargetIsSaid(t *testing.T) {
	const start = "20.0 % vol cannot be reached: "
	more := func(from, to float64) []blend.Change {
		return []blend.Change{{Component: "spirit", Quantity: "volume", From: from, To: to}}
	}
	for _, c := range []struct {
		base    units.Strength
		limit   blend.Limit
		changes []blend.Change
		want    string
	}{
		{6, blend.LimitContent, nil, start + "no amount of this spirit makes it; it comes to 14.0 % vol."},
		{20, blend.LimitContent, nil, start + "no amount of this spirit makes it; it comes to 14.0 % vol."},
		{20.1, blend.LimitContent, nil, start + "the wine is stronger than that without spirit; it comes to 14.0 % vol."},
		{6, blend.LimitStock, more(1, 2), start + "there is not enough spirit; it comes to 14.0 % vol. It would do with 2.00 L of spirit instead of 1.00 L."},
		{6, blend.LimitStock, more(0.00201, 2), start + "there is not enough spirit; it comes to 14.0 % vol. It would do with 2.00 L of spirit instead of 2.0 mL."},
		{6, blend.LimitStock, more(0.00199, 2), start + "there is not enough spirit; it comes to 14.0 % vol. It would do with 2.00 L of spirit."},
		{6, blend.LimitStock, more(2, 0.00202), start + "there is not enough spirit; it comes to 14.0 % vol. It would do with 2.0 mL of spirit instead of 2.00 L."},
		{6, blend.LimitStock, more(2, 0.00199), start + "there is not enough spirit; it comes to 14.0 % vol."},
		{6, blend.LimitVessel, []blend.Change{{Quantity: "vessel", To: 7}, {Component: "spirit", Quantity: "strength", To: 60}},
			start + `the vessel is too small for all of the wine and its spirit; it comes to 14.0 % vol. It would do with a vessel with room for 7.00 L, or spirit of 60.0 % vol. Or fill the vessel and keep the rest: "fortify": "fill the vessel".`},
	} {
		j := &job{b: &Batch{Target: Is(units.Strength(20))}, c: course{base: blend.Component{Name: "wine", Strength: c.base}, blend: blend.Mixture{Strength: 14}}}
		j.limited(&blend.UnreachableError{Limit: c.limit, Changes: c.changes})
		if got := j.findings[0].Text; got != c.want {
			t.Errorf("%v:\n%s\nwant\n%s", c, got, c.want)
		}
	}
}
