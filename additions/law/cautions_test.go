package law

import (
	"slices"
	"strings"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func keys(all []Caution) (out []string) {
	for _, c := range all {
		out = append(out, c.Key)
	}
	return out
}

// everything is a batch that does all there is a caution for.
var everything = What{Jurisdiction: "us", Must: true, StoneFruit: true, Fermenting: true, Sulfite: true, Sorbate: true, Acid: true, Wood: true,
	Fortified: true, Bottled: true, SugarLeft: 85, Spirit: 60}

// Each hazard row is a whole sentence with its source, said once, and nothing is
// left to be filled in.
func TestEveryCautionIsAWholeSentence(t *testing.T) {
	said := map[string]bool{}
	steps := []Step{StepMust, StepFerment, StepStop, StepDose, StepPour, StepRest, StepWood, StepBottle, StepDrink, StepGive, StepDistil, StepAny}
	for _, where := range []string{"US", "UK", "EU", ""} {
		for _, w := range []What{everything, {}} {
			w.Jurisdiction = where
			texts := map[string]bool{}
			for _, c := range Cautions(w) {
				if texts[c.Text] {
					t.Errorf("said twice: %s", c.Text)
				}
				texts[c.Text], said[c.Key] = true, true
				if !strings.HasSuffix(c.Text, ".") || strings.ContainsAny(c.Text, "{}") || len(strings.Fields(c.Text)) < 8 || strings.ToUpper(c.Text[:1]) != c.Text[:1] {
					t.Errorf("%s is no whole sentence: %q", c.Key, c.Text)
				}
				if c.Source == "" || c.Date == "" || !slices.Contains(steps, c.Step) {
					t.Errorf("%+v", c)
				}
				if !slices.Contains([]additions.Evidence{additions.Published, additions.CommonPractice, additions.FromMemory}, c.Evidence) {
					t.Errorf("%s: evidence %q", c.Key, c.Evidence)
				}
			}
		}
	}
	for _, r := range hazards() {
		if !said[r["key"]] {
			t.Errorf("%s is never said", r["key"])
		}
		for _, word := range strings.FieldsFunc(r["condition"], func(c rune) bool { return c == ' ' || c == '|' }) {
			if everything.is(word, false) == (What{Sulfite: true}).is(word, true) && word != "sulfite" && word != "no_sulfite" {
				t.Errorf("%s: condition %q makes no difference", r["key"], word)
			}
		}
	}
}

// Nobody reads of sulfite who has none, of flames without spirit, of bursting
// bottles without a bottle, of a US law in the EU.
func TestACautionComesOnlyWhereItApplies(t *testing.T) {
	without := func(change func(*What)) []string {
		w := everything
		change(&w)
		return keys(Cautions(w))
	}
	for name, x := range map[string]struct {
		got  []string
		gone []string
		here []string
	}{
		"everything": {keys(Cautions(everything)), []string{"sulfite_own", "unknown_law", "sell_uk"},
			[]string{"flame_pour", "flash_point", "strong_spirit", "sulfite_tell", "medicines", "children_jar", "suspect_spirit", "sell_us", "distil_us", "pressure", "carbon_dioxide"}},
		"no sulfite":    {without(func(w *What) { w.Sulfite = false }), []string{"sulfite_tell", "sulfite_dust", "sulfite_acid", "sulfite_must"}, []string{"sulfite_own", "weigh"}},
		"no spirit":     {without(func(w *What) { w.Spirit = 0 }), []string{"flame_pour", "flash_point", "suspect_spirit", "distil_us", "strong_spirit", "spirit_stops"}, []string{"pressure"}},
		"40 % vol":      {without(func(w *What) { w.Spirit = 40 }), []string{"strong_spirit"}, []string{"flash_point"}},
		"50 % vol":      {without(func(w *What) { w.Spirit = 50 }), nil, []string{"strong_spirit"}},
		"spirit of 97":  {without(func(w *What) { w.Spirit = 97 }), []string{"flash_point"}, []string{"strong_spirit", "flame_pour"}},
		"dry":           {without(func(w *What) { w.SugarLeft = 2 }), []string{"pressure", "bottle_kind", "glass_face"}, []string{"medicines"}},
		"kept in a jar": {without(func(w *What) { w.Bottled = false }), []string{"pressure", "bottle_kind"}, []string{"half_full_jar"}},
		"finished wine": {without(func(w *What) { w.Fermenting, w.Must = false, false }), []string{"carbon_dioxide", "sorbate_no_stop", "stones", "pectin_haze"}, []string{"children_jar"}},
		"EU":            {without(func(w *What) { w.Jurisdiction = "EU" }), []string{"sell_us", "distil_us", "sell_uk"}, []string{"unknown_law"}},
		"UK":            {without(func(w *What) { w.Jurisdiction = "uk" }), []string{"sell_us", "distil_us", "unknown_law"}, []string{"sell_uk"}},
		"not stated":    {without(func(w *What) { w.Jurisdiction = "" }), []string{"sell_us", "distil_us"}, []string{"unknown_law", "local_law"}},
	} {
		for _, k := range x.gone {
			if slices.Contains(x.got, k) {
				t.Errorf("%s: %s is said", name, k)
			}
		}
		for _, k := range x.here {
			if !slices.Contains(x.got, k) {
				t.Errorf("%s: %s is missing", name, k)
			}
		}
	}
}

// A short page has the flame, the burst bottle, the gas, the asthma and the law.
func TestAShortPageHasWhatCanKill(t *testing.T) {
	var short []string
	for _, c := range Cautions(everything) {
		if c.Lead {
			short = append(short, c.Key)
		}
	}
	for _, k := range []string{"carbon_dioxide", "ferment_closed", "flame_pour", "flash_point", "suspect_spirit", "pressure", "never_for", "medicines", "sulfite_tell", "sulfite_dust", "children_jar", "distil_us", "local_law"} {
		if !slices.Contains(short, k) {
			t.Errorf("%s is on no short page", k)
		}
	}
}

func TestAtPicksTheSteps(t *testing.T) {
	dose := At(Cautions(everything), StepDose)
	if len(dose) < 4 || slices.ContainsFunc(dose, func(c Caution) bool { return c.Step != StepDose }) {
		t.Errorf("%v", keys(dose))
	}
}

// The safe reading is the printed table, its figures taken for % vol. The other
// is the table as its heading says, by mass, and never lower.
func TestFlashPoint(t *testing.T) {
	c := handbook.NewCheck(t, sourceFlash, "C")
	for _, r := range handbook.Load(t, "testdata/ethanol_water_flash_points.csv").Rows {
		printed := r.Number("ethanol_pct_as_labelled")
		if printed < 10 {
			continue // 5 % vol is less than 5 % by mass: outside one of the readings
		}
		got, other, err := FlashPoint(units.Strength(printed))
		if err != nil {
			t.Fatal(err)
		}
		if other < got {
			t.Errorf("%v %%: the reading called safe, %v, is above the other, %v", printed, got, other)
		}
		if r.Text("flash_point_C") == "17" && printed == 96 {
			c.Except(got.Celsius(), "17", "96 %", "printed twice, 17 and 13 C; the lower stands")
			continue
		}
		c.Printed(got.Celsius(), r.Text("flash_point_C"), r.Text("ethanol_pct_as_labelled")+" %")
		// 63 F beside 17 C: the Fahrenheit column is rounded from elsewhere by up to 1 F.
		c.Differs(got.Fahrenheit(), r.Number("flash_point_F"), 1, "the Fahrenheit column was rounded on its own", r.Text("ethanol_pct_as_labelled")+" %, F")
	}
	last := 100.0
	for s := units.Strength(7); s <= 96; s++ {
		f, other, err := FlashPoint(s)
		if err != nil || f.Celsius() > last || other.Celsius()-f.Celsius() > 8 {
			t.Errorf("%v: %v after %v, %v, %v", s, f, last, other, err)
		}
		last = f.Celsius()
	}
}
