package batch

import (
	"math"
	"strings"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Where the spirit at hand does not make the part kept stay still, its remedy says
// how much is left: 850 mL less the 835 mL or so that fill 2 L.
func TestARemedyCountsTheSpiritAtHand(t *testing.T) {
	b := Demo()
	b.SpiritPlanned, b.Fortify, b.Headspace = Amount{}, fillVessel, Stated[units.Volume]{}
	b.Vessel = Is(2 * units.Litre)
	for stock, want := range map[units.Volume]bool{850 * units.Millilitre: true, 5 * units.Litre: false} {
		b.SpiritStock = Amount{Volume: Is(stock)}
		p, err := b.Work()
		if err != nil {
			t.Fatal(err)
		}
		kept, ok := p.Liquid("kept")
		if !ok {
			t.Fatal("nothing is kept")
		}
		if got := strings.Contains(kept.Remedy, "of it is left"); got != want {
			t.Errorf("stock of %v: %q", stock, kept.Remedy)
		}
	}
}

// What would do for a liquid is said for its own place: more of the spirit that is in
// it already, where the jar has no room, where the planned amount is too little.
func TestARemedyIsOfItsOwnLiquid(t *testing.T) {
	const wine = `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "spirit_strength": "75 % vol", `
	remedy := func(text, key string) string {
		l, ok := planOf(t, wine+text+`}`).Liquid(key)
		if !ok {
			t.Fatalf("%s: no %s", text, key)
		}
		return l.Remedy
	}
	for _, c := range []struct{ text, key, says, never string }{
		{`"spirit_poured": "0.3 L"`, "wine", " of spirit make it", "more of spirit"},
		{`"spirit_poured": "0.3 L"`, "reachable", " more of spirit make it", "no room"},
		{`"spirit_poured": "0 L"`, "reachable", " of spirit make it", "more of spirit"},
		{`"spirit_planned": "0.3 L"`, "planned", " more of spirit make it", ""},
		{`"spirit_planned": "0.3 L", "target": "20 % vol"`, "planned", "pour the amount that makes 20.0 % vol instead; otherwise keep it cold (below 5 C)", "make it"},
		{`"spirit_planned": "0.3 L", "target": "20 % vol"`, "wine", " of spirit make it", "pour the amount"},
		{`"spirit_poured": "0.3 L", "vessel": "3.5 L"`, "reachable", "(the jar has no room for it)", ""},
		{`"spirit_poured": "0.3 L", "vessel": "3.1 L"`, "wine", "(the jar has no room for it)", ""},
		{`"spirit_poured": "0.3 L", "vessel": "9 L"`, "reachable", " more of spirit", "no room"},
		{`"target": "20 % vol", "blend_volume": "1 L", "vessel": "1.5 L"`, "kept", " of spirit make it", "no room"},
		{`"spirit_poured": "1.2 L"`, "reachable", "", "make"},
	} {
		got := remedy(c.text, c.key)
		if !strings.Contains(got, c.says) || c.never != "" && strings.Contains(got, c.never) || c.says == "" && got != "" {
			t.Errorf("%s, %s: %q, want %q, never %q", c.text, c.key, got, c.says, c.never)
		}
	}
}

// A hundred times the wine takes a hundred times the spirit, which makes it as strong
// as the spirit found says: the least that does, found by trying.
func TestARemedyIsTheLeastThatDoes(t *testing.T) {
	const batch = `"wine_strength": "6 % vol", "wine_reading": "1.046", "sulfite": "50 mg/L", "sorbate": "250 mg/L", "ph": "3.3", "spirit_strength": "75 % vol"}`
	small, large := jobOf(t, `{"wine": "5 L", `+batch), jobOf(t, `{"wine": "500 L", `+batch)
	least := func(j *job) float64 {
		v, made, ok := j.spiritToStill(&j.plan.Liquids[0], j.c.spirit)
		if !ok {
			t.Fatal("nothing does")
		}
		there := blend.Component{Volume: j.plan.Liquids[0].Volume, Strength: 6, Extract: j.plan.Liquids[0].Extract}
		if m := handbook.Must(blend.Mix(there, blend.Component{Volume: v, Strength: 75})); math.Abs(float64(m.Strength-made)) > 1e-6 {
			t.Errorf("%v L make %v, said %v", v, m.Strength, made)
		}
		return float64(v)
	}
	one, hundred := least(small), least(large)
	if math.Abs(hundred/one-100) > 1e-4 {
		t.Errorf("5 L take %v L, 500 L %v", one, hundred)
	}
	// By trying: what is there is thinned as the blend grows, sugar, SO2 and sorbate.
	l := small.plan.Liquids[0]
	still := func(v float64) bool {
		m := handbook.Must(blend.Mix(blend.Component{Volume: 5, Strength: 6, Extract: l.Extract}, blend.Component{Volume: units.Volume(v), Strength: 75}))
		left := 5 / float64(m.Volume)
		return handbook.Must(stability.Judge(stability.Wine{Strength: m.Strength, StrengthUncertainty: l.StrengthUncertainty, Sugar: l.Sugar.Times(left), Extract: m.Extract + 1.645*l.ExtractUncertainty,
			PH: 3.3, SO2: additions.SO2{Added: units.Concentration(0.05 * left)}, Sorbate: units.Concentration(0.25 * left), Held: true})).Outlook == stability.Still
	}
	if still(one*(1-1e-4)) || !still(one*(1+1e-4)) {
		t.Errorf("%v L are not the least that does: a little less %v, a little more %v", one, still(one*(1-1e-4)), still(one*(1+1e-4)))
	}
}

// What was dosed is thinned by what was poured: by the wine in each liquid.
func TestADoseIsThinnedByTheSpirit(t *testing.T) {
	j := &job{b: &Batch{Sulfite: Is(units.Concentration(0.06)), Sorbate: Is(units.Concentration(0.2)), KeptSulfite: Is(units.Concentration(0.09)), KeptSorbate: Is(units.Concentration(0.3))}}
	j.c.unsweet, j.c.planned.Volume, j.c.blend.Volume = 3, 4, 5
	j.wanted = &course{unsweet: 3, blend: blend.Mixture{Volume: 6}}
	for key, want := range map[string][2]float64{"wine": {0.06, 0.2}, "planned": {0.045, 0.15}, "fortified": {0.03, 0.1}, "reachable": {0.036, 0.12}, "kept": {0.09, 0.3}} {
		for _, left := range []float64{1, 0.5} {
			so2, sorbate := j.dosed(&Liquid{Key: key}, left)
			if math.Abs(float64(so2.Added)-want[0]*left) > 1e-12 || math.Abs(float64(sorbate)-want[1]*left) > 1e-12 {
				t.Errorf("%s, %v of it: %v and %v g/L, by hand %v times %v", key, left, so2.Added, sorbate, want, left)
			}
		}
	}
}

// What is left is said where more is asked for by a millionth, and below a millilitre
// it is none.
func TestMoreThanIsLeftIsSaid(t *testing.T) {
	j := &job{b: &Batch{}}
	for _, c := range []struct {
		more, left units.Volume
		want       string
	}{
		{1, 1, ""}, {1.0000005, 1, ""}, {1.0000015, 1, " (1.00 L of it is left)"}, {0.5, 1, ""}, {3, 2, " (2.00 L of it is left)"}, {1000, 999, " (999 L of it is left)"},
		{1, 0.00101, " (1.0 mL of it is left)"}, {1, 0.00099, " (none of it is left)"}, {1, 0, " (none of it is left)"},
	} {
		if got := j.beyondLeft(c.more, c.left); got != c.want {
			t.Errorf("%v of %v: %q, want %q", c.more, c.left, got, c.want)
		}
	}
}

// Where no spirit does, one change of the wine itself may, never its strength alone;
// or none.
func TestOtherChangesAreTheLastWay(t *testing.T) {
	j := jobOf(t, `{"wine": "3 L", "wine_strength": "12 % vol ± 0.1 % vol", "wine_reading": "1.010", "ph": "3.3", "sulfite": "150 mg/L", "sorbate": "50 mg/L"}`)
	got := handbook.Must(j.otherwise(&j.plan.Liquids[0]))
	if strings.HasPrefix(got, "none") || strings.Contains(got, "strength") || strings.Contains(got, "% vol") || !strings.Contains(got, "sorbic acid") {
		t.Errorf("%q", got)
	}
	j = jobOf(t, `{"wine": "3 L", "wine_strength": "3 % vol ± 0.1 % vol", "wine_reading": "1.040"}`)
	if got := handbook.Must(j.otherwise(&j.plan.Liquids[0])); !strings.HasPrefix(got, "none: keep it cold") {
		t.Errorf("%q", got)
	}
}

// What would be still if it were measured exactly is told to measure what weighs most.
func TestABetterMeasurementMayDo(t *testing.T) {
	l, _ := planOf(t, `{"wine": "3 L", "wine_strength": "17.6 % vol ± 0.9 % vol", "wine_reading": "1.010", "yeast_limit": "14 % vol", "spirit_strength": "40 % vol"}`).Liquid("wine")
	if l.Remedy != "measured exactly, 17.6 % vol would do: the strength of the wine; "+twoWays {
		t.Errorf("%q", l.Remedy)
	}
	j := &job{b: &Batch{}}
	if got := j.weakest(); got != "measure it" {
		t.Errorf("nothing is uncertain: %q", got)
	}
	j.f.knows = []knowledge{{name: "jug", better: "weigh it"}, {name: "wine", better: "boil it off"}}
	j.f.strength = uncertainty.Result{Budget: []uncertainty.Contribution{{Name: "jug", Uncertainty: 0.1, Share: 0.2}, {Name: "wine", Uncertainty: 0.2, Share: 0.8}}}
	if got := j.weakest(); got != "the wine; boil it off" {
		t.Errorf("%q", got)
	}
}
