package law

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/units"
)

const mg = units.MilligramPerLitre

func so2(total float64) Levels { return Levels{TotalSO2: units.Concentration(total) * mg} }

// outcomes are those of a report by key, "not_known" ones with the rest.
func outcomes(r Report) map[string]Outcome {
	out := map[string]Outcome{}
	for _, f := range r.Findings {
		out[f.Key] = f.Outcome
	}
	return out
}

// Every triple has one of the three answers, and each answer brings what it
// promises: a limit its rows, "none in this text" the text.
func TestEveryAnswerIsALimitOrNoneInThisTextOrNotKnown(t *testing.T) {
	counts := map[Status]int{}
	for _, j := range []string{"US", "EU", "UK", "Canada", "Australia/New Zealand", "Codex", "OIV"} {
		if !slices.Contains(Jurisdictions(), j) {
			t.Errorf("%s is not walked", j)
		}
	}
	for _, j := range Jurisdictions() {
		for _, c := range Categories() {
			for _, p := range Parameters() {
				a, err := Find(j, c, p)
				if err != nil {
					t.Fatal(err)
				}
				counts[a.Status]++
				for _, l := range a.Limits {
					if l.Source == "" || l.Article == "" || l.Date == "" || l.Evidence == "" || l.Jurisdiction != j || l.Parameter != p {
						t.Errorf("%s, %s, %s: %+v", j, c, p, l)
					}
				}
				switch a.Status {
				case Limited, NoneStated:
					if len(a.Limits) == 0 || a.Nearest != "" || (a.Limits[0].Comparison == NoneInText) != (a.Status == NoneStated) {
						t.Errorf("%s, %s, %s: %+v", j, c, p, a)
					}
				case NotKnown:
					if (len(a.Limits) > 0) != (a.Nearest != "") {
						t.Errorf("%s, %s, %s: %+v", j, c, p, a)
					}
				default:
					t.Errorf("%s, %s, %s: the answer is %q", j, c, p, a.Status)
				}
			}
		}
	}
	for _, s := range []Status{Limited, NoneStated, NotKnown} {
		if counts[s] == 0 {
			t.Errorf("nothing is %s", s)
		}
	}
}

// Where only free SO2 is stated, that is the least of the total, and the value
// stands between its ends.
func TestTheLeastTotalLiesBetweenItsEnds(t *testing.T) {
	r, err := Check("US", Product{Category: FruitWine, Levels: Levels{FreeSO2: 400 * mg}, Uncertainty: Levels{FreeSO2: 10 * mg}})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Findings {
		if f.Parameter == TotalSO2 && (f.Outcome != Exceeded || f.Value != 400 || f.Low > 380.5 || f.Low < 380.3 || f.High != 400) {
			t.Errorf("%+v", f)
		}
	}
}

// What the texts say, at the numbers where they turn.
func TestCheckGoesByTheTexts(t *testing.T) {
	for _, x := range []struct {
		name, jurisdiction string
		p                  Product
		want               map[string]Outcome
	}{
		{"US, at the limit", "us", Product{Category: FruitWine, Levels: so2(350)}, map[string]Outcome{"limit_so2_total": Kept}},
		{"US, above it", "US", Product{Category: FortifiedFruitWine, Levels: so2(351)}, map[string]Outcome{"limit_so2_total": Exceeded}},
		{"US, for sale, at 10", "US", Product{Category: FruitWine, ForSale: true, Levels: so2(10)}, map[string]Outcome{"limit_declare_sulfites": Due}},
		{"US, for sale, below 10", "US", Product{Category: FruitWine, ForSale: true, Levels: so2(9.9)}, map[string]Outcome{"limit_declare_sulfites": NotDue}},
		{"US, at home", "US", Product{Category: FruitWine, Levels: so2(50)}, map[string]Outcome{"limit_declare_sulfites": NoneInThisText}},
		{"EU, for sale, at 10", "EU", Product{Category: FruitWine, ForSale: true, Levels: so2(10)}, map[string]Outcome{"limit_declare_sulfites": NotDue}},
		{"EU, for sale, above 10", "EU", Product{Category: FruitWine, ForSale: true, Levels: so2(10.1)}, map[string]Outcome{"limit_declare_sulfites": Due}},
		{"EU, at home", "EU", Product{Category: FruitWine, Levels: so2(50)}, map[string]Outcome{"limit_declare_sulfites": DueIfSold}},
		{"US sorbate", "US", Product{Category: FruitWine, Levels: Levels{SorbicAcid: 310 * mg}}, map[string]Outcome{"limit_sorbic_acid": Exceeded}},
		{"dry red", "EU", Product{Category: GrapeWine, Levels: so2(160), SugarLow: 2, SugarHigh: 2, Colour: "red"}, map[string]Outcome{"limit_so2_total": Exceeded}},
		{"dry white", "EU", Product{Category: GrapeWine, Levels: so2(160), SugarLow: 2, SugarHigh: 2, Colour: "white"}, map[string]Outcome{"limit_so2_total": Kept}},
		{"dry, colour not said", "EU", Product{Category: GrapeWine, Levels: so2(160), SugarLow: 2, SugarHigh: 2}, map[string]Outcome{"limit_so2_total": MayExceed}},
		{"red, 3 to 8 g/L of sugar", "EU", Product{Category: GrapeWine, Levels: so2(160), SugarLow: 3, SugarHigh: 8, Colour: "red"}, map[string]Outcome{"limit_so2_total": MayExceed}},
		{"red of 5 g/L", "UK", Product{Category: GrapeWine, Levels: so2(200), SugarLow: 5, SugarHigh: 5, Colour: "red"}, map[string]Outcome{"limit_so2_total": Kept}},
		{"OIV, 4 g/L belong to the lower limit", "OIV", Product{Category: GrapeWine, Levels: so2(200), SugarLow: 4, SugarHigh: 4, Colour: "red"}, map[string]Outcome{"limit_so2_total": Exceeded}},
		{"liqueur wine", "EU", Product{Category: LiqueurWine, Levels: so2(201), SugarLow: 84, SugarHigh: 84}, map[string]Outcome{"limit_so2_total": Exceeded}},
		{"fortified cherry, above the nearest", "EU", Product{Category: FortifiedFruitWine, Levels: so2(201), SugarHigh: 84}, map[string]Outcome{"limit_so2_total": MayExceed}},
		{"fortified cherry, below the nearest", "EU", Product{Category: FortifiedFruitWine, Levels: so2(100), SugarHigh: 84}, map[string]Outcome{"limit_so2_total": NotKnownHere}},
		{"cherry, Codex, by mass", "codex", Product{Category: FruitWine, Density: 1000, Levels: Levels{SorbicAcid: 501 * mg, TotalSO2: 200 * mg}},
			map[string]Outcome{"limit_sorbic_acid": Exceeded, "limit_so2_total": Kept}},
		{"cherry, Codex, density not stated", "Codex", Product{Category: FruitWine, Levels: so2(200)}, map[string]Outcome{"limit_so2_total": MayExceed}},
		{"Canada: free above, combined below", "Canada", Product{Category: FruitWine, Density: 1000, Levels: Levels{FreeSO2: 80 * mg, TotalSO2: 200 * mg}},
			map[string]Outcome{"limit_so2_free": Kept, "limit_so2_total": NoneInThisText}},
		{"Canada: combined above, free below, more than both limits", "Canada", Product{Category: FruitWine, Density: 1000, Levels: Levels{FreeSO2: 40 * mg, TotalSO2: 460 * mg}}, map[string]Outcome{"limit_so2_free": Kept}},
		{"Canada: free above, combined below, more than both limits", "Canada", Product{Category: FruitWine, Density: 1000, Levels: Levels{FreeSO2: 120 * mg, TotalSO2: 460 * mg}}, map[string]Outcome{"limit_so2_free": Kept}},
		{"Canada: both above", "Canada", Product{Category: FruitWine, Density: 1000, Levels: Levels{FreeSO2: 80 * mg, TotalSO2: 440 * mg}}, map[string]Outcome{"limit_so2_free": Exceeded}},
		{"Canada: total alone, however it divides", "Canada", Product{Category: FruitWine, Density: 1000, Levels: so2(420)}, map[string]Outcome{"limit_so2_free": Kept}},
		{"Canada: total alone, just above both together", "Canada", Product{Category: FruitWine, Density: 1000, Levels: so2(420.05)}, map[string]Outcome{"limit_so2_free": MayExceed}},
		{"Canada: total alone, it depends", "Canada", Product{Category: FruitWine, Density: 1000, Levels: so2(430)}, map[string]Outcome{"limit_so2_free": MayExceed}},
		{"free SO2 alone says nothing of the total", "US", Product{Category: FruitWine, Levels: Levels{FreeSO2: 30 * mg}},
			map[string]Outcome{"limit_so2_total": NotStated, "limit_so2_free": NoneInThisText}},
		{"free SO2 alone is above the total's limit", "US", Product{Category: FruitWine, Levels: Levels{FreeSO2: 400 * mg}}, map[string]Outcome{"limit_so2_total": Exceeded}},
		{"Canada, sorbic acid", "Canada", Product{Category: FruitWine, Density: 1000, Levels: Levels{SorbicAcid: 600 * mg}}, map[string]Outcome{"limit_sorbic_acid": Exceeded}},
		{"Australia, sorbic acid", "australia", Product{Category: FruitWine, Density: 1000, Levels: Levels{SorbicAcid: 500 * mg}}, map[string]Outcome{"limit_sorbic_acid": Exceeded}},
		{"deacidified too far", "US", Product{Category: FruitWine, Levels: Levels{FixedAcidLowered: 4.5}}, map[string]Outcome{"limit_fixed_acid_after_deacidifying": Exceeded}},
		{"pH of cherry", "US", Product{Category: FruitWine, PH: 2.9}, map[string]Outcome{}},
		{"acid", "OIV", Product{Category: GrapeWine, Levels: Levels{AcidAdded: 4.1}}, map[string]Outcome{"limit_acid_added": Exceeded}},
		{"sweet fruit wine, acid", "US", Product{Category: FruitWine, Levels: Levels{FixedAcidRaised: 10}, SugarLow: 90, SugarHigh: 95}, map[string]Outcome{"limit_fixed_acid_after_acidifying": Kept}},
		{"dry fruit wine, acid", "US", Product{Category: FruitWine, Levels: Levels{FixedAcidRaised: 10}}, map[string]Outcome{"limit_fixed_acid_after_acidifying": Exceeded}},
		{"fruit wine with spirit", "US", Product{Category: FortifiedFruitWine, Levels: Levels{VolatileAcidity: 1.3}}, map[string]Outcome{"limit_volatile_acidity": Exceeded}},
		{"fruit wine without", "US", Product{Category: FruitWine, Levels: Levels{VolatileAcidity: 1.3}}, map[string]Outcome{"limit_volatile_acidity": Kept}},
		{"what no text speaks of", "US", Product{Category: FruitWine, Levels: Levels{"moonlight": 1}}, map[string]Outcome{"limit_moonlight": NotKnownHere}},
	} {
		r, err := Check(x.jurisdiction, x.p)
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
			continue
		}
		got := outcomes(r)
		for key, want := range x.want {
			if got[key] != want {
				t.Errorf("%s: %s is %q, want %q: %v", x.name, key, got[key], want, r.Findings)
			}
		}
		if len(x.want) == 0 && len(got) > 0 {
			t.Errorf("%s: %v", x.name, r.Findings)
		}
	}
}

// 345 mg/L measured to 5 may be above 350; the page must not say that it is kept.
func TestAnUncertaintyAcrossTheLimitMayExceed(t *testing.T) {
	for u, want := range map[float64]Outcome{0: Kept, 2: Kept, 5: MayExceed} {
		r, err := Check("US", Product{Category: FruitWine, Levels: so2(345), Uncertainty: so2(u)})
		if err != nil || outcomes(r)["limit_so2_total"] != want {
			t.Errorf("345 mg/L with standard uncertainty %v: %v, %v, want %s", u, r.Findings, err, want)
		}
	}
	sum := 0.0 // seventy doses of 5 mg/L are 350, though the sum of their binary fractions is not
	for range 70 {
		sum += 0.005
	}
	if r, err := Check("US", Product{Category: FruitWine, Levels: Levels{TotalSO2: units.Concentration(sum)}}); err != nil || outcomes(r)["limit_so2_total"] != Kept {
		t.Errorf("%.17g g/L: %v, %v", sum, r.Findings, err)
	}
}

func TestASevereFindingRestsOnAReadTextInForce(t *testing.T) {
	read, err := Check("US", Product{Category: FruitWine, Levels: Levels{TotalSO2: 400 * mg, SorbicAcid: 400 * mg}})
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]Severity{"limit_so2_total": Stop, "limit_sorbic_acid": Warn} { // the second was amended since
		i := slices.IndexFunc(read.Findings, func(f Finding) bool { return f.Key == key })
		if got := read.Findings[i].Severity(); got != want {
			t.Errorf("%v: %s, want %s", read.Findings[i], got, want)
		}
	}
	exceeded := read.Having(Exceeded)
	if s := exceeded[len(exceeded)-1].String(); !strings.Contains(s, "as of 2015-04-01, amended since") {
		t.Errorf("the page would not say that the text was amended: %s", s)
	}
}

// Whatever is found is said in whole sentences that name the text, survives JSON
// and has figures with keys of their own.
func TestEveryFindingSpeaks(t *testing.T) {
	all := Levels{}
	for _, p := range Parameters() {
		if (Product{Category: GrapeWine, Levels: Levels{p: 0}}).check() == nil {
			all[p] = 0.3
		}
	}
	all[FreeSO2], all[CombinedSO2] = 0.1, 0.2
	for _, j := range Jurisdictions() {
		for _, c := range []Category{GrapeWine, LiqueurWine, FruitWine, FortifiedFruitWine} {
			for _, sold := range []bool{false, true} {
				for _, levels := range []Levels{all, {FreeSO2: 0.03}, {TotalSO2: 0.2}} {
					r, err := Check(j, Product{Category: c, ForSale: sold, Levels: levels, SugarHigh: 90, PH: 3.2})
					if err != nil || len(r.Findings) == 0 || r.Advice == "" {
						t.Fatalf("%s, %s: %+v, %v", j, c, r, err)
					}
					keys := map[string]bool{}
					for _, f := range r.Findings {
						s := f.String()
						if !strings.HasSuffix(s, ".") || strings.Contains(s, "%!") || strings.Contains(s, "  ") || f.Key == "" || f.Outcome == "" || keys[f.Key] {
							t.Errorf("%s, %s: %+v: %q", j, c, f, s)
						}
						if f.Status != NotKnown && !strings.Contains(s, f.Limit.Article) {
							t.Errorf("%q does not name the article", s)
						}
						keys[f.Key] = true
					}
					if _, err := json.Marshal(r); err != nil {
						t.Errorf("%s, %s: %v", j, c, err)
					}
				}
			}
		}
	}
}

func TestWhatCannotBeCheckedIsRefused(t *testing.T) {
	for name, x := range map[string]struct {
		where string
		p     Product
		says  string
	}{
		"jurisdiction":      {"Atlantis", Product{Category: FruitWine}, "Australia"},
		"no category":       {"US", Product{}, "fruit_wine"},
		"colour":            {"US", Product{Category: GrapeWine, Colour: "green"}, "colour"},
		"swapped":           {"US", Product{Category: FruitWine, Levels: Levels{FreeSO2: 2, TotalSO2: 1}}, "total SO2 of 1 g/L"},
		"no level":          {"US", Product{Category: FruitWine, Levels: Levels{"label_tolerance": 1}}, "label_tolerance"},
		"uncertainty alone": {"US", Product{Category: FruitWine, Uncertainty: so2(1)}, "stated"},
		"sugar swapped":     {"US", Product{Category: FruitWine, SugarLow: 80, SugarHigh: 60}, "sugar"},
		"density":           {"US", Product{Category: FruitWine, Density: 1.01}, "density"},
	} {
		_, err := Check(x.where, x.p)
		var parse *units.ParseError
		var bounds *units.RangeError
		if err == nil || !strings.Contains(err.Error(), x.says) || !errors.As(err, &parse) && !errors.As(err, &bounds) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, bad := range [][3]string{{"Atlantis", "fruit_wine", "so2_total"}, {"US", "moonshine", "so2_total"}, {"US", "fruit_wine", "moonlight"}} {
		if a, err := Find(bad[0], Category(bad[1]), Parameter(bad[2])); err == nil {
			t.Errorf("%v: %+v", bad, a)
		}
	}
	for _, p := range []Parameter{TotalSO2, FreeSO2, CombinedSO2, SulfiteStatement, SorbicAcid, AcidAdded, CitricAcidAdded, FixedAcidRaised, FixedAcidLowered,
		PHAfterAcid, DiammoniumPhosphateAdded, AmmoniumSulfateAdded, VolatileAcidity} {
		if !slices.Contains(Parameters(), p) {
			t.Errorf("%s is limited nowhere", p)
		}
	}
	for _, c := range []Category{GrapeWine, LiqueurWine, FruitWine, FortifiedFruitWine, HomeMade} {
		if !slices.Contains(Categories(), c) {
			t.Errorf("%s is no category of the table", c)
		}
	}
}

// A key means one thing wherever it comes from: one name, one unit.
func TestAFigureMeansOneThing(t *testing.T) {
	type meaning struct{ name, unit string }
	means := map[string]meaning{}
	look := func(figures []units.Figure) {
		here := map[string]bool{}
		for _, f := range figures {
			if was, ok := means[f.Key]; ok && was != (meaning{f.Name, f.Unit}) {
				t.Errorf("%s is %v and %q in %q", f.Key, was, f.Name, f.Unit)
			}
			if means[f.Key] = (meaning{f.Name, f.Unit}); here[f.Key] || f.Method == "" || f.Source == "" || f.Name == "" {
				t.Errorf("%+v", f)
			}
			here[f.Key] = true
		}
	}
	us, err := Check("US", Product{Category: FruitWine, Levels: so2(400)})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range us.Figures() {
		if want, ok := map[string]string{"so2_total": "400", "limit_so2_total": "350", "limits_exceeded": "1"}[f.Key]; ok && f.Value.String() != want {
			t.Errorf("%s is %v, want %s", f.Key, f.Value, want)
		}
	}
	if len(us.Figures()) != 4 {
		t.Errorf("%v", us.Figures())
	}
	look(Report{}.Figures())
	look(Answer{}.Figures())
	look(Additive{}.Figures())
	for _, j := range Jurisdictions() {
		for _, c := range Categories() {
			for _, p := range Parameters() {
				a, err := Find(j, c, p)
				if err != nil {
					t.Fatal(err)
				}
				look(a.Figures())
			}
		}
		for _, c := range []Category{GrapeWine, LiqueurWine, FruitWine, FortifiedFruitWine} {
			r, err := Check(j, Product{Category: c, ForSale: true, Levels: Levels{TotalSO2: 0.2, SorbicAcid: 0.2, AcidAdded: 2, VolatileAcidity: 1, "metatartaric_acid": 0.1}})
			if err != nil {
				t.Fatal(err)
			}
			look(r.Figures())
		}
	}
}

// A law that has never been read is not known, and nobody is told otherwise.
func ExampleFind() {
	for _, p := range []Parameter{TotalSO2, FreeSO2, VolatileAcidity} {
		a, _ := Find("EU", FortifiedFruitWine, p)
		fmt.Printf("%s: %s (%d of another category)\n", p, a.Status, len(a.Limits))
	}
	us, _ := Find("US", FortifiedFruitWine, VolatileAcidity)
	fmt.Println(us.Limits[0], "-", us.Limits[0].Citation())
	// Output:
	// total SO2: not known here (1 of another category)
	// free SO2: not known here (0 of another category)
	// volatile acidity: not known here (0 of another category)
	// at most 1.2 g/L - US Code of Federal Regulations, title 27, 4.21(e)(3), text of 2022
}

// A level is shown with three digits, but never so that it seems to be on the
// other side of its limit.
func TestARoundedLevelStaysOnItsSide(t *testing.T) {
	for level, want := range map[float64]string{29.0551: "of 29.1 mg/L keeps", 349.96: "of 349.96 mg/L keeps", 350.04: "of 350.04 mg/L does not keep", 350: "of 350 mg/L keeps", 1234.5: "of 1230 mg/L does not"} {
		r, err := Check("US", Product{Category: FruitWine, Levels: so2(level)})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Findings, func(f Finding) bool { return f.Parameter == TotalSO2 })
		if s := r.Findings[i].String(); !strings.Contains(s, want) {
			t.Errorf("%v mg/L: %q, want %q", level, s, want)
		}
	}
}

// The sentence says what was found: a limit and what else would do, a text that
// sets none, a level that is not stated, a category that is only the nearest.
func TestTheSentenceSaysWhatWasFound(t *testing.T) {
	for _, x := range []struct {
		where string
		p     Product
		key   string
		says  []string
		not   string
	}{
		{"Canada", Product{Category: FruitWine, Density: 1000, Levels: Levels{FreeSO2: 80 * mg, TotalSO2: 440 * mg}}, "limit_so2_free",
			[]string{"Free SO2 of 80 mg/kg does not keep the limit, free SO2 at most 70 mg/kg or combined SO2 at most 350 mg/kg ("}, "total"},
		{"Canada", Product{Category: FruitWine, Density: 1000, Levels: so2(100)}, "limit_so2_total", []string{"Total SO2: none in this text (Food and Drug Regulations"}, "keep"},
		{"US", Product{Category: FruitWine, Levels: Levels{FreeSO2: 30 * mg}}, "limit_so2_total", []string{"Total SO2 is not stated; the limit is at most 350 mg/L ("}, "keep"},
		{"US", Product{Category: FruitWine, Levels: so2(50)}, "limit_declare_sulfites", []string{"Sulfite statement: none in this text for this wine ("}, "due"},
		{"US", Product{Category: FruitWine, ForSale: true, Levels: so2(5)}, "limit_declare_sulfites", []string{"No sulfite statement is due: SO2 of 5 mg/L, and it is due from 10 mg/L or more ("}, "none in"},
		{"EU", Product{Category: FortifiedFruitWine, Levels: so2(100)}, "limit_so2_total",
			[]string{"Total SO2: not known here. The nearest is that of fruit wine, at most 200 mg/L", "; this wine has 100 mg/L ("}, "keep"},
		{"US", Product{Category: FruitWine, Levels: Levels{"moonlight": 1}}, "limit_moonlight", []string{"Moonlight: not known here."}, "nearest"},
		{"OIV", Product{Category: GrapeWine, Levels: Levels{AcidAdded: 4.1}}, "limit_acid_added", []string{"Acid added of 4.1 g/L does not keep the limit, at most 4.052 g/L ("}, " or "}, // 54 meq/L of 75.04 g
		{"US", Product{Category: FruitWine, Levels: so2(345), Uncertainty: so2(5)}, "limit_so2_total", []string{"Total SO2 of 345 (335 to 355) mg/L may not keep the limit"}, ""},
	} {
		r, err := Check(x.where, x.p)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Findings, func(f Finding) bool { return f.Key == x.key })
		if i < 0 {
			t.Errorf("%s: no %s in %v", x.where, x.key, r.Findings)
			continue
		}
		s := r.Findings[i].String()
		for _, want := range x.says {
			if !strings.Contains(s, want) {
				t.Errorf("%s: %q does not say %q", x.where, s, want)
			}
		}
		if x.not != "" && strings.Contains(s, x.not) {
			t.Errorf("%s: %q says %q", x.where, s, x.not)
		}
	}
	if s := (Finding{Parameter: PHAfterAcid, Outcome: Kept, Limit: Limit{Parameter: PHAfterAcid}}).String(); !strings.HasPrefix(s, "pH after acidifying of ") {
		t.Errorf("a pH is written %q", s)
	}
}

// Rows that share a parameter have letters behind the key, from a onwards.
func TestRowsOfOneParameterAreToldApart(t *testing.T) {
	a, err := Find("Canada", FruitWine, FreeSO2)
	if err != nil || len(a.Limits) != 1 {
		t.Fatalf("%v, %v", a, err)
	}
	if f := a.Figures(); len(f) != 2 || f[1].Key != "limit_so2_free_by_mass" {
		t.Errorf("%v", f)
	}
	red, err := Find("EU", GrapeWine, TotalSO2)
	if err != nil || len(red.Limits) < 3 {
		t.Fatalf("%v, %v", red, err)
	}
	for i, f := range red.Figures()[1:] {
		if want := "limit_so2_total_" + string("abcdefgh"[i]); f.Key != want {
			t.Errorf("row %d is %s, want %s", i, f.Key, want)
		}
	}
}

// 1.2 g/L of 27 CFR 4.21(e)(3) are 1200 mg/L, the unit of the key.
func TestALimitInGramsIsAFigureInMilligrams(t *testing.T) {
	a, err := Find("US", FortifiedFruitWine, VolatileAcidity)
	if err != nil {
		t.Fatal(err)
	}
	if f := a.Figures()[1]; f.Key != "limit_volatile_acidity" || f.Value.String() != "1200" || f.Unit != "mg/L" {
		t.Errorf("%+v", f)
	}
}
