package batch

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

const dryWine = `{"wine": "5 L", "wine_strength": "13 % vol", "wine_reading": "0.994", "fruit": "juice", `

// A salt by the spoon where one holds it within a fifth (341 g of metabisulfite to a
// cup of 48 teaspoons), else from 10 g made up to 100 mL: to a tenth of a millilitre,
// from ten on to a whole one. 0.5763 of the salt is SO2.
func TestASaltIsMeasuredFromASolution(t *testing.T) {
	for grams, want := range map[float64]string{
		0.46:  "4.6 mL of 10 g made up to 100 mL; ",
		1.23:  "12 mL of 10 g made up to 100 mL; ",
		1.776: "1/4 tsp; ",
	} {
		f := handbook.Must(metabisulfite.dose("potassium_metabisulfite", units.Concentration(grams*0.5763/10), 10))
		if !strings.HasPrefix(f.Note, want) || !strings.Contains(f.Note, "of SO2, most of it bound") || math.Abs(f.Value.InexactFloat64()-grams) > 0.006 {
			t.Errorf("%v g: %v, %q, by hand %q", grams, f.Value, f.Note, want)
		}
	}
}

// Acid above what is dosed at once (2 g/L) is warned of, ten times it stops; of sulfite
// and sorbate it takes ten times the usual dose.
func TestADoseAboveTheUsualIsFound(t *testing.T) {
	for dose, want := range map[string]Severity{
		`"acid": "1.99 g/L"`: "", `"acid": "2.01 g/L"`: Warn, `"acid": "20 g/L"`: Stop,
		`"sulfite": "60 mg/L"`: "", `"sulfite": "499 mg/L"`: "", `"sulfite": "500 mg/L"`: Stop,
		`"sorbate": "300 mg/L"`: "", `"sorbate": "2 g/L"`: Stop,
	} {
		j := jobOf(t, dryWine+dose+`}`)
		s := handbook.Must(j.doseStep())
		got := Severity("")
		for _, f := range j.findings {
			got = f.Severity
		}
		if got != want || s == nil || len(s.Figures) != 1 {
			t.Errorf("%s: %q, want %q; %+v", dose, got, want, s)
		}
	}
	if s := handbook.Must(jobOf(t, dryWine+`"name": "nothing goes in"}`).doseStep()); s != nil {
		t.Errorf("nothing is dosed: %+v", s)
	}
}

// The amount to be 95 % sure is said where an amount is asked for, and only there.
func TestTheSureAmountIsSaidWhereSpiritIsAskedFor(t *testing.T) {
	const start = dryWine + `"spirit_strength": "40 % vol", "target": "18 % vol"`
	for more, said := range map[string]bool{``: true, `, "vessel": "3 L", "fortify": "fill the vessel"`: false, `, "blend_volume": "2 L"`: false, `, "spirit_poured": "1 L"`: false, `, "spirit_stock": "0.5 L"`: false} {
		s := planOf(t, start+more+`}`).stepOf("pour")
		sure, pour := s.given("spirit_to_be_sure").Value.InexactFloat64(), s.given("spirit_to_pour").Value.InexactFloat64()
		if (sure > 0) != said || said && sure <= pour {
			t.Errorf("%s: pour %v, %v to be sure", more, pour, sure)
		}
	}
}

// A target below the wine takes no spirit: what is sweetened is still poured, and
// nothing where nothing goes in.
func TestAWineThatTakesNoSpiritIsOnlySweetened(t *testing.T) {
	const start = dryWine + `"spirit_strength": "40 % vol", "target": "10 % vol"`
	// 29 g/L of extract less 19 are 10 g/L of sugar: 40 g to each of 5.1 L.
	if s := planOf(t, start+`, "target_sugar": "50 g/L"}`).stepOf("pour"); len(s.Figures) != 1 || math.Abs(s.given("sweetener").Value.InexactFloat64()-204) > 10 {
		t.Errorf("sweetened only: %+v", s)
	}
	if s := planOf(t, start+`}`).stepOf("pour"); s.Key != "" {
		t.Errorf("nothing goes in: %+v", s)
	}
	if s := planOf(t, dryWine+`"spirit_strength": "40 % vol", "target": "18 % vol"}`).stepOf("pour"); s.given("sweetener").Key != "" || s.given("spirit_to_pour").Key == "" {
		t.Errorf("not sweetened: %+v", s)
	}
}

// The cross: 18 - 13 parts of spirit to 40 - 18 of wine, 5 x 5 / 22 L; there is none
// for a wine that is sweetened too, that was poured, or where nothing is poured.
func TestTheCrossIsDrawnForOnePour(t *testing.T) {
	const start = dryWine + `"spirit_strength": "40 % vol", "target": "18 % vol"`
	if got := planOf(t, start+`}`).stepOf("hand").given("spirit_by_hand").Value.InexactFloat64(); math.Abs(got-25./22) > 0.0005 {
		t.Errorf("%v L by the cross", got)
	}
	for _, more := range []string{`, "target_sugar": "50 g/L"`, `, "spirit_poured": "1 L"`, `, "spirit_stock": "0 L"`} {
		if s := planOf(t, start+more+`}`).stepOf("hand"); s.Key != "" {
			t.Errorf("%s: %+v", more, s)
		}
	}
}

func TestSugarIsSaidWithBothEnds(t *testing.T) {
	for _, c := range []struct {
		low, high units.Concentration
		want      string
	}{{0, 0.4, "no sugar left"}, {89.8, 90.3, "sugar: 90 g/L"}, {0.2, 12, "sugar: 12 g/L at most"}, {80, 90, "sugar: 80 to 90 g/L"}} {
		var l Liquid
		l.Sugar.Low, l.Sugar.High = c.low, c.high
		if got := sugarWords(l); got != c.want {
			t.Errorf("%v to %v g/L: %q, want %q", c.low, c.high, got, c.want)
		}
	}
}

// What is kept and should stay still is kept without a word; what may ferment is not
// bottled and has its remedy.
func TestOnlyWhatMayFermentIsKeptWithCare(t *testing.T) {
	const more = `"start": "2026-11-25", "spirit_strength": "40 % vol", "target": "18 % vol", "blend_volume": "1 L"}`
	still := planOf(t, `{"wine": "5 L", "wine_strength": "13 % vol ± 0.1 % vol", "wine_reading": "0.989 ± 0.0002", "fruit": "juice", `+more)
	if s := still.stepOf("keep"); s.Key != "keep" || s.Mind != "" || len(s.Lines) != 0 {
		l, _ := still.Liquid("kept")
		t.Errorf("a dry wine, %s: %q, %q", l.Verdict.Outlook, s.Mind, s.Lines)
	}
	sweet := planOf(t, `{"wine": "5 L", "wine_strength": "8 % vol", "wine_reading": "1.030", "fruit": "juice", `+more)
	if s := sweet.stepOf("keep"); s.Mind != "yeast will ferment it: no bottle" || len(s.Lines) != 2 || !strings.Contains(s.Lines[0], "make it") {
		t.Errorf("a sweet one: %q, %q", s.Mind, s.Lines)
	}
}

// An input is named from one hundredth of the variance on, in per cent; what was
// assumed is said where something was; ± is the factor that the figure carries.
func TestWhereTheUncertaintyComesFrom(t *testing.T) {
	r := uncertainty.Result{Value: 18, Standard: 0.2, Low: 18 - 0.392, High: 18 + 0.392,
		Budget: []uncertainty.Contribution{{Name: "wine", Share: 0.65}, {Name: "jug", Share: 0.3301}, {Name: "spirit", Share: 0.0101}, {Name: "must", Share: 0.0099}}}
	j := &job{b: &Batch{}, f: figured{strength: r, knows: []knowledge{{name: "wine"}, {name: "jug", assumed: "jug: 3 %"}}}}
	s := handbook.Must(j.sureStep())
	want := "The strength is good to ± 0.4 % vol, 19 times in 20. Of that (its square) come from: wine 65 %, jug 33 %, spirit 1 %."
	if len(s.Lines) != 2 || s.Lines[0] != want || s.Lines[1] != "Assumed, where no limits were stated: jug: 3 %." {
		t.Errorf("%q, want %q", s.Lines, want)
	}
	j.f.knows = nil
	if s := handbook.Must(j.sureStep()); len(s.Lines) != 1 {
		t.Errorf("nothing was assumed: %q", s.Lines)
	}
	if s := handbook.Must((&job{b: &Batch{}}).sureStep()); s != nil {
		t.Errorf("all of it is exact: %+v", s)
	}
}

// bottled is the step of a still blend of so much, known to u.
func bottled(t *testing.T, b *Batch, v units.Volume, u float64) *Step {
	t.Helper()
	j := &job{b: b, f: figured{volume: uncertainty.Result{Standard: u}}, c: course{blend: blend.Mixture{Volume: v, Strength: 18}},
		plan: Plan{Liquids: []Liquid{{Key: "reachable", Verdict: stability.Verdict{Outlook: stability.Still}}}}}
	return handbook.Must(j.bottleStep())
}

// How many bottles it fills surely and perhaps: 1.96 standard uncertainties less and
// more, and what the wood keeps, 0.5 to 1.2 mL a gram.
func TestBottlesAreCountedAtTheLowEnd(t *testing.T) {
	for _, c := range []struct {
		volume      units.Volume
		u, wood     float64
		sizes       []units.Volume
		want, notes string
	}{
		{4.698, 0.1, 0, []units.Volume{0.75}, "bottles 6", ""},                                                                  // 4.502 to 4.894, six are 4.5
		{4.694, 0.1, 0, []units.Volume{0.75}, "bottles 5", "perhaps 6"},                                                         // 4.498
		{5.056, 0.1, 0, []units.Volume{0.75}, "bottles 6", "perhaps 7"},                                                         // 5.252, seven are 5.25
		{5.052, 0.1, 0, []units.Volume{0.75}, "bottles 6", ""},                                                                  // 5.248
		{4.5, 0, 0, []units.Volume{0.75}, "bottles 6", ""},                                                                      // as often as not: rounding
		{4.623, 0, 100, []units.Volume{0.75}, "bottles 6", ""},                                                                  // 120 mL kept at most
		{4.617, 0, 100, []units.Volume{0.75}, "bottles 5", "perhaps 6"},                                                         // 50 mL at least
		{4.552, 0, 100, []units.Volume{0.75}, "bottles 5", "perhaps 6"},                                                         // 4.502
		{4.548, 0, 100, []units.Volume{0.75}, "bottles 5", ""},                                                                  // 4.498
		{5.078, 0.1, 0, []units.Volume{0.375, 0.75}, "bottles 6, bottles_of_375_ml 1", "perhaps 7, where the large ones are 6"}, // 4.882 - 4.5 = 0.382
		{5.068, 0.1, 0, []units.Volume{0.375, 0.75}, "bottles 6", "perhaps 7"},                                                  // 0.372
		{4.9, 0.001, 0, []units.Volume{0.375, 0.75}, "bottles 6, bottles_of_375_ml 1", ", "},
		{0.9, 0.1, 0, []units.Volume{0.75}, "bottles 0", "perhaps 1"}, // 0.704 to 1.096
		{0.5, 0.1, 0, []units.Volume{0.75}, "", ""},
	} {
		s := bottled(t, &Batch{Bottles: c.sizes, Wood: Is(units.Mass(c.wood))}, c.volume, c.u)
		var counts, notes []string
		for _, f := range s.Figures {
			counts, notes = append(counts, f.Key+" "+f.Value.String()), append(notes, f.Note)
		}
		if got := strings.Join(counts, ", "); got != c.want || strings.Join(notes, ", ") != c.notes {
			t.Errorf("%v L ± %v with %v g of wood: %s, %q; by hand %s, %q", c.volume, 1.96*c.u, c.wood, got, notes, c.want, c.notes)
		}
		if none := strings.Contains(strings.Join(s.Lines, " "), "does not fill one bottle"); none != (c.want == "") {
			t.Errorf("%v L: %q", c.volume, s.Lines)
		}
	}
	if s := bottled(t, &Batch{}, 3, 0.1); s != nil {
		t.Errorf("no bottles: %+v", s)
	}
}

// said is the answer of a blend that is still at 20 % vol, of wine of 6, with changes.
func said(change func(j *job)) string {
	still := stability.Verdict{Outlook: stability.Still, Bacteria: stability.BacteriaHeld}
	j := &job{b: &Batch{}, c: course{base: blend.Component{Name: "wine", Volume: 3, Strength: 6}, spirit: blend.Component{Name: "spirit"}, blend: blend.Mixture{Strength: 20}},
		plan: Plan{Liquids: []Liquid{{Key: "reachable", Strength: 20, Verdict: still}}, Pours: []Pour{{Into: "reachable", Key: "wine", Volume: 3, Measured: 3}, {Into: "reachable", Key: "spirit", Volume: 1, Measured: 1}}}}
	change(j)
	return strings.Join(j.answer(), "\n")
}

// The answer says what to pour, what to keep, what the amount planned would make where
// that is another by 0.05 % vol, and what cannot be bottled; what stops comes first.
func TestTheAnswerSaysWhatItMust(t *testing.T) {
	const pour, stays = "Pour 1.00 L of spirit on 3.00 L of wine: it makes 20.0 % vol.", "At 20.0 % vol yeast should stay still."
	planned := func(s units.Strength, o stability.Outlook) func(j *job) {
		return func(j *job) {
			j.plan.Liquids = append(j.plan.Liquids, Liquid{Key: "planned", Strength: s, Verdict: stability.Verdict{Outlook: o}})
			j.plan.Pours = append(j.plan.Pours, Pour{Into: "planned", Key: "spirit", Volume: 0.9, Measured: 0.9})
		}
	}
	kept := func(o stability.Outlook) func(j *job) {
		return func(j *job) {
			j.keeps = 2
			j.plan.Liquids = append(j.plan.Liquids, Liquid{Key: "kept", Strength: 6, Verdict: stability.Verdict{Outlook: o}})
		}
	}
	verdict := func(o stability.Outlook, b stability.Bacteria) func(j *job) {
		return func(j *job) { j.plan.Liquids[0].Verdict = stability.Verdict{Outlook: o, Bacteria: b} }
	}
	none := func(j *job) { j.plan.Pours = j.plan.Pours[:1] }
	for i, c := range []struct {
		change func(j *job)
		want   string
	}{
		{func(*job) {}, pour + "\n" + stays},
		{func(j *job) { j.findings = []Finding{{"a", Warn, "Not said."}, {"b", Stop, "Said."}} }, "Said.\n" + pour + "\n" + stays},
		{func(j *job) { j.b.PouredSpirit = Litres(1) }, strings.Replace(pour, "Pour", "You poured", 1) + "\n" + stays},
		{func(j *job) { j.c.sweetenG = 100 }, strings.Replace(pour, ":", " with 100 g of sugar in it:", 1) + "\n" + stays},
		{none, "There is 3.00 L of wine, of 6.0 % vol.\n" + stays},
		{func(j *job) { none(j); j.b.Target = Is(units.Strength(5)) }, "Pour no spirit: the wine has 6.0 % vol.\n" + stays},
		{kept(stability.Still), pour + "\nKeep 2.00 L of the wine without spirit, at 6.0 % vol.\n" + stays},
		{kept(stability.Doubtful), pour + "\nKeep 2.00 L of the wine without spirit, at 6.0 % vol, which yeast may ferment: cold, under an airlock, for two weeks at most.\n" + stays},
		{planned(20.0495, stability.Still), pour + "\n" + stays},
		{planned(19.9505, stability.Still), pour + "\n" + stays},
		{planned(20.0505, stability.Still), pour + "\nThe 900 mL you planned makes 20.1 % vol, at which yeast should stay still.\n" + stays},
		{planned(19, stability.Ferments), pour + "\nThe 900 mL you planned makes 19.0 % vol, which yeast will ferment: do not bottle that.\n" + stays},
		{verdict(stability.Doubtful, stability.BacteriaHeld), pour + "\nAt 20.0 % vol yeast may ferment it: do not bottle it."},
		{verdict(stability.Still, stability.BacteriaSlowed), pour + "\n" + stays + " Bacteria can still spoil it."},
		{verdict(stability.Ferments, stability.BacteriaOpen), pour + "\nAt 20.0 % vol yeast will ferment it: do not bottle it. Bacteria can spoil it."},
	} {
		if got := said(c.change); got != c.want {
			t.Errorf("%d: %s\nwant %s", i, got, c.want)
		}
	}
}

// What the plan asks to pour is poured: to its weights and to its money.
func TestThePriceIsThatOfTheSpiritMeasured(t *testing.T) {
	p := planOf(t, dryWine+`"cellar_temperature": "10 C", "spirit_strength": "40 % vol", "spirit_poured": "2.000 L", "spirit_price": "20"}`)
	if got := p.stepOf("pour").given("spirit_cost").Value.String(); got != "40" {
		t.Errorf("2 L at 20 a litre cost %s", got)
	}
	if note := p.stepOf("pour").given("blend_reading").Note; note != fmt.Sprintf("at %s", Metric.Temperature(units.Celsius(10))) {
		t.Errorf("%q", note)
	}
}
