package stability

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/units"
)

const mg = units.MilligramPerLitre

// exactly is a sugar that is known.
func exactly(x units.Concentration) abv.Sugars { return abv.Sugars{Low: x, Likely: x, High: x} }

func added(x units.Concentration) additions.SO2 { return additions.SO2{Added: x * mg} }

func measured(x units.Concentration) additions.SO2 {
	return additions.SO2{Free: x * mg, FreeMeasured: true}
}

// The wines that version 0.1 judged on the unsafe side, each with the safe word
// and the barrier that decides, and the wines it judged right.
func TestJudgeSaysTheSafeWord(t *testing.T) {
	grapes, err := abv.NotSugarOf("")
	if err != nil {
		t.Fatal(err)
	}
	juice, _ := abv.NotSugarOf("juice")
	sugars := func(n abv.NotSugar, extract units.Concentration, share float64) abv.Sugars {
		s, err := n.Sugars(extract, share)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, x := range []struct {
		name string
		w    Wine
		want Outlook
		key  string
		hold Hold
	}{
		// A stated yeast limit alone.
		{"9.1 % vol with 150 g/L, limit 8", Wine{Strength: 9.1, Sugar: exactly(150), YeastLimit: 8}, Doubtful, "alcohol", Weak},
		{"13.1 % vol with 120 g/L, limit 12", Wine{Strength: 13.1, Sugar: exactly(120), YeastLimit: 12}, Doubtful, "alcohol", Weak},
		{"14 % vol with 30 g/L, limit 12", Wine{Strength: 14, Sugar: exactly(30), YeastLimit: 12}, Doubtful, "alcohol", Weak},
		{"17 % vol ± 0.27, limit 16: half the time less", Wine{Strength: 17, StrengthUncertainty: 0.27, Sugar: exactly(20), YeastLimit: 16}, Doubtful, "alcohol", Weak},
		{"18.5 % vol, hardy yeast of 21", Wine{Strength: 18.5, Sugar: exactly(30), YeastLimit: 21}, Ferments, "alcohol", None},
		// Extract is not sugar.
		{"17 % vol, 96.1 g/L of extract, 79.8 of sugar", Wine{Strength: 17, Sugar: exactly(79.8), Extract: 96.1, YeastLimit: 18}, Doubtful, "alcohol_and_sugar", Weak},
		{"the same from the extract", Wine{Strength: 17, Sugar: sugars(juice, 96.1, 0.858), Extract: 96.1, YeastLimit: 18}, Doubtful, "alcohol_and_sugar", Weak},
		{"20 L with 1.00 kg of sugar", Wine{Strength: 18, Sugar: exactly(32.6), Extract: 49.2}, Doubtful, "alcohol_and_sugar", None},
		{"20 g more sugar in 20 L", Wine{Strength: 18, Sugar: exactly(33.3), Extract: 50}, Doubtful, "alcohol_and_sugar", None},
		{"1.20 kg", Wine{Strength: 18, Sugar: exactly(40.3), Extract: 57}, Doubtful, "alcohol_and_sugar", None},
		{"the same, limit 20", Wine{Strength: 18, Sugar: exactly(40.3), Extract: 57, YeastLimit: 20}, Ferments, "alcohol_and_sugar", None},
		// SO2 added is not free.
		{"12 % vol, sorbate, 29 mg/L added", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: added(29), Sorbate: 162 * mg}, Doubtful, "sorbate_with_sulfite", Weak},
		{"the same with 29 mg/L measured free", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: measured(29), Sorbate: 162 * mg}, Still, "sorbate_with_sulfite", Holds},
		{"a finished wine of 90 mg/L in all", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: additions.SO2{Total: 90 * mg}, Sorbate: 162 * mg}, Doubtful, "sorbate_with_sulfite", Weak},
		// Not the last bit.
		{"19.999999999999996 % vol", Wine{Strength: 19.999999999999996, Sugar: exactly(20)}, Still, "alcohol", Holds},
		// No cliffs.
		{"9.95 % vol, pH 3.5, 200 mg/L", Wine{Strength: 9.95, Sugar: exactly(100), PH: 3.5, SO2: added(50), Sorbate: 200 * mg}, Doubtful, "sorbate_with_sulfite", Weak},
		{"10.00 % vol, pH 3.5, 200 mg/L", Wine{Strength: 10, Sugar: exactly(100), PH: 3.5, SO2: added(50), Sorbate: 200 * mg}, Doubtful, "sorbate_with_sulfite", Weak},
		{"200 mg/L diluted to 197 by spirit", Wine{Strength: 6, Sugar: exactly(140), PH: 3.4, SO2: added(49), Sorbate: 197 * mg}, Doubtful, "sorbate_with_sulfite", Weak},
		// Planned and kept.
		{"the planned blend of 12.4 % vol, no sorbate", Wine{Strength: 12.4, Sugar: exactly(130), YeastLimit: 16}, Ferments, "alcohol_and_sugar", None},
		{"kept at 5.5 % vol with 200 mg/L", Wine{Strength: 5.5, Sugar: exactly(145), PH: 3.4, SO2: added(50), Sorbate: 200 * mg, YeastLimit: 16}, Doubtful, "sorbate_with_sulfite", Weak},
		{"kept at 5.5 % vol", Wine{Strength: 5.5, Sugar: exactly(145), PH: 3.4, YeastLimit: 16}, Ferments, "sorbate_with_sulfite", None},
		{"fortified cherry of 20 % vol", Wine{Strength: 20.3, StrengthUncertainty: 0.15, Sugar: sugars(grapes, 95.9, 0.58), Extract: 95.9, YeastLimit: 16}, Still, "alcohol", Holds},
		// Right before, right now.
		{"the published stable one", Wine{Strength: 19.28, Sugar: exactly(59)}, Still, "alcohol_and_sugar", Holds},
		{"stopped with sorbate alone", Wine{Strength: 6.1, Sugar: exactly(142), PH: 3.4, Sorbate: 200 * mg}, Ferments, "sorbate_with_sulfite", None},
		{"sulfite alone", Wine{Strength: 6.1, Sugar: exactly(142), PH: 3.4, SO2: measured(40)}, Ferments, "sulfite", Helps},
		{"table wine by the table", Wine{Strength: 12, Sugar: exactly(20), PH: 3.3, SO2: measured(30), Sorbate: 90 * mg}, Still, "sorbate_with_sulfite", Holds},
		{"table wine, too little sorbate", Wine{Strength: 12, Sugar: exactly(20), PH: 3.3, SO2: measured(30), Sorbate: 80 * mg}, Ferments, "sorbate_with_sulfite", None},
		{"table wine, too little sulfite", Wine{Strength: 12, Sugar: exactly(20), PH: 3.3, SO2: measured(10), Sorbate: 90 * mg}, Doubtful, "sorbate_with_sulfite", Weak},
		{"dry", Wine{Strength: 12, Sugar: exactly(1.5)}, Still, "no_sugar", Holds},
		{"dry perhaps, and the reading has held", Wine{Strength: 12, Sugar: abv.Sugars{High: 9}, Held: true}, Doubtful, "no_sugar", Weak},
		{"dry perhaps", Wine{Strength: 12, Sugar: abv.Sugars{High: 9}}, Ferments, "no_sugar", None},
		{"the same reading without the pH", Wine{Strength: 12, Sugar: exactly(20), SO2: added(50), Sorbate: 180 * mg}, Doubtful, "sulfite", NotKnown},
		{"in the freezer", Wine{Strength: 6, Sugar: exactly(142), Temperature: units.Celsius(-2)}, Doubtful, "cold", Weak},
		{"in the cellar", Wine{Strength: 6, Sugar: exactly(142), Temperature: units.Celsius(8)}, Ferments, "cold", Helps},
	} {
		v, err := Judge(x.w)
		if err != nil || v.Outlook != x.want || v.Barrier(x.key).Hold != x.hold {
			t.Errorf("%s: it %v, want it %v; %s %v, want %v; %v", x.name, v.Outlook, x.want, x.key, v.Barrier(x.key).Hold, x.hold, err)
		}
		for _, b := range v.Barriers {
			if b.Source == "" || b.Because == "" || b.Unit == "" || b.Name == "" || math.IsNaN(b.Value) {
				t.Errorf("%s: no reason or no source: %+v", x.name, b)
			}
			if strings.Contains(b.Because, "safe") {
				t.Errorf("%s: %s claims to be safe", x.name, b.Name)
			}
		}
		if len(v.NotLookedAt) == 0 || v.BacteriaBecause == "" || v.BacteriaSource == "" {
			t.Errorf("%s: nothing is left unlooked at", x.name)
		}
	}
}

func TestBacteriaHaveTheirOwnWord(t *testing.T) {
	for _, x := range []struct {
		name string
		w    Wine
		want Bacteria
	}{
		{"20 % vol, no sulfite", Wine{Strength: 20, Sugar: exactly(84), PH: 3.4}, BacteriaOpen},
		{"20 % vol with sorbate, no sulfite", Wine{Strength: 20, Sugar: exactly(84), PH: 3.4, Sorbate: 200 * mg}, BacteriaOpen},
		{"50 mg/L added, 29 in the blend: 10 free", Wine{Strength: 20, Sugar: exactly(84), PH: 3.8, SO2: added(29)}, BacteriaOpen},
		{"60 mg/L added: 21 free", Wine{Strength: 20, Sugar: exactly(84), PH: 3.8, SO2: added(60)}, BacteriaSlowed},
		{"45 mg/L measured", Wine{Strength: 20, Sugar: exactly(84), PH: 3.7, SO2: measured(45)}, BacteriaHeld},
		{"45 mg/L measured, pH 3.9", Wine{Strength: 20, Sugar: exactly(84), PH: 3.9, SO2: measured(45)}, BacteriaSlowed},
		{"45 mg/L measured, weak wine of pH 3.7", Wine{Strength: 8, Sugar: exactly(84), PH: 3.7, SO2: measured(45)}, BacteriaSlowed},
		{"45 mg/L measured, weak wine of pH 3.2", Wine{Strength: 8, Sugar: exactly(84), PH: 3.2, SO2: measured(45)}, BacteriaHeld},
		{"30 mg/L added, pH not stated", Wine{Strength: 8, Sugar: exactly(84), SO2: added(30)}, BacteriaNotKnown},
	} {
		if v, err := Judge(x.w); err != nil || v.Bacteria != x.want {
			t.Errorf("%s: %v, want %v (%v)", x.name, v.Bacteria, x.want, err)
		}
	}
}

// The thresholds of the word on bacteria, two per cent to either side.
func TestBacteriaThresholds(t *testing.T) {
	type conc = units.Concentration
	// 20 % vol and pH 3.75: 40 mg/L are 0.45 molecular. 3.2 at 8 % vol: 0.039 of the free.
	share := 1 + math.Pow(10, 3.2-1.81)
	for _, x := range []struct {
		name      string
		of        func(x float64) Wine
		at        float64
		less, by  Bacteria
		fromAbove bool
	}{
		{"40 mg/L hold", func(x float64) Wine {
			return Wine{Strength: 20, Sugar: exactly(80), PH: 3.75, SO2: added(conc(x) / 0.35)}
		}, 40, BacteriaSlowed, BacteriaHeld, false},
		{"20 mg/L delay", func(x float64) Wine {
			return Wine{Strength: 20, Sugar: exactly(80), PH: 3.75, SO2: added(conc(x) / 0.35)}
		}, 20, BacteriaOpen, BacteriaSlowed, false},
		{"fortified", func(x float64) Wine {
			return Wine{Strength: units.Strength(x), Sugar: exactly(80), PH: 3.75, SO2: added(45 / 0.35)}
		}, 15, BacteriaSlowed, BacteriaHeld, false},
		{"pH", func(x float64) Wine { return Wine{Strength: 20, Sugar: exactly(80), PH: x, SO2: added(45 / 0.35)} }, 3.8, BacteriaSlowed, BacteriaHeld, true},
		{"0.8 mg/L molecular", func(x float64) Wine {
			return Wine{Strength: 8, Sugar: exactly(80), PH: 3.2, SO2: added(conc(x * share / 0.35))}
		}, 0.8, BacteriaSlowed, BacteriaHeld, false},
		{"0.5 mg/L molecular", func(x float64) Wine {
			return Wine{Strength: 8, Sugar: exactly(80), PH: 3.2, SO2: added(conc(x * share / 0.35))}
		}, 0.5, BacteriaOpen, BacteriaSlowed, false},
	} {
		side := 1.0
		if x.fromAbove {
			side = -1
		}
		for _, p := range []struct {
			by   float64
			want Bacteria
		}{{-0.02, x.less}, {-1e-10, x.by}, {0, x.by}, {0.02, x.by}} {
			if v, err := Judge(x.of(x.at * (1 + side*p.by))); err != nil || v.Bacteria != p.want {
				t.Errorf("%s, %g of it: %v, want %v; %v", x.name, 1+side*p.by, v.Bacteria, p.want, err)
			}
		}
	}
}

// Rows of the table in mL, straight between them, at the low end of the strength
// and the high end of the pH.
func TestSorbateNeededIsThatOfTheWineItWorksIn(t *testing.T) {
	perML := 30 * 112.13 / 150.22 // mg/L
	for _, x := range []struct {
		name   string
		w      Wine
		mL     float64
		listed bool
	}{
		{"a row", Wine{Strength: 12, PH: 3.3}, 4, true},
		{"at the low end", Wine{Strength: 12, StrengthUncertainty: 0.5 / 1.645, PH: 3.3}, 5, true}, // of 11 and 12: 6.0 and 4.0
		{"at the high pH", Wine{Strength: 12, PH: 3.3, PHUncertainty: 0.1 / 1.645}, 4.5, true},
		{"stronger than the table", Wine{Strength: 18, PH: 3.3}, 2.4, true},
		{"sourer than the table", Wine{Strength: 10, PH: 2.9}, 5.5, true},
		{"weaker", Wine{Strength: 9, PH: 3.3}, 200 / perML, false},
		{"tamer", Wine{Strength: 12, PH: 3.6}, 200 / perML, false},
		{"pH not stated", Wine{Strength: 12}, 200 / perML, false},
	} {
		need, listed, err := SorbateNeeded(x.w)
		if err != nil || listed != x.listed || math.Abs(need.In(mg)-x.mL*perML) > 1e-6 {
			t.Errorf("%s: %v mg/L, %v, %v; want %v", x.name, need.In(mg), listed, err, x.mL*perML)
		}
	}
	if _, _, err := SorbateNeeded(Wine{PH: 9}); err == nil {
		t.Error("pH 9 passes")
	}
}

// By hand: pK 1.798 - 0.083 - 1.645 x 0.02 = 1.682 in juice, 1.81 from 6 % vol on;
// of 100 mg/L measured, 90 at the low end.
func TestMolecularSO2IsTakenAtTheLeastPK(t *testing.T) {
	for _, x := range []struct {
		strength units.Strength
		pK       float64
	}{{0, 1.682}, {2.5, 1.682 + 0.0495}, {10, 1.81}, {14.9, 1.81}, {15, 1.81}, {20, 1.81}, {60, 1.81}} {
		v, err := Judge(Wine{Strength: x.strength, Sugar: exactly(50), PH: 3.3, SO2: measured(100)})
		want := 90 / (1 + math.Pow(10, 3.3-x.pK))
		if got := v.MolecularSO2Low.In(mg); err != nil || math.Abs(got/want-1) > 0.002 { // pK to 0.0005
			t.Errorf("%v: %v mg/L, %v; want %v", x.strength, got, err, want)
		}
	}
}

func TestCodesReadBack(t *testing.T) {
	for _, o := range []Outlook{Still, Doubtful, Ferments} {
		text, err := json.Marshal(o)
		var back Outlook
		if err != nil || json.Unmarshal(text, &back) != nil || back != o {
			t.Errorf("%v: %s, %v", o, text, err)
		}
	}
	if text, _ := Still.MarshalText(); string(text) != "still" {
		t.Errorf("%s", text)
	}
	if text, _ := Holds.MarshalText(); string(text) != "holds" {
		t.Errorf("%s", text)
	}
	if text, _ := BacteriaHeld.MarshalText(); string(text) != "held" {
		t.Errorf("%s", text)
	}
	var o Outlook
	var p *units.ParseError
	if err := o.UnmarshalText([]byte("should stay still")); !errors.As(err, &p) {
		t.Errorf("a sentence is no code: %v", err)
	}
	if _, err := Outlook(9).MarshalText(); err == nil {
		t.Error("an outlook of 9 has a code")
	}
	v, err := Judge(Wine{Strength: 20, Sugar: exactly(84), PH: 3.4})
	if text, err2 := json.Marshal(v); err != nil || err2 != nil || !strings.Contains(string(text), `"Outlook":"still"`) {
		t.Errorf("%s, %v, %v", text, err, err2)
	}
}

func TestJudgeRefusesAndNamesBoth(t *testing.T) {
	nan := math.NaN()
	for _, x := range []struct {
		name  string
		w     Wine
		words []string
	}{
		{"nothing stated", Wine{}, []string{"nothing is stated", "strength", "sugar"}},
		{"sugar, no number", Wine{Strength: 12, Sugar: abv.Sugars{High: units.Concentration(nan)}}, []string{"sugar"}},
		{"likely sugar, no number", Wine{Strength: 12, Sugar: abv.Sugars{Likely: units.Concentration(nan), High: 9}}, []string{"sugar"}},
		{"extract, no number", Wine{Strength: 12, Extract: units.Concentration(nan)}, []string{"extract"}},
		{"sorbate, no number", Wine{Strength: 12, Sorbate: units.Concentration(nan)}, []string{"sorbic"}},
		{"limit, no number", Wine{Strength: 12, YeastLimit: units.Strength(nan)}, []string{"yeast"}},
		{"uncertainty, no number", Wine{Strength: 12, StrengthUncertainty: units.Strength(nan)}, []string{"uncertainty"}},
		{"SO2, no number", Wine{Strength: 12, SO2: additions.SO2{Total: units.Concentration(nan)}}, []string{"SO2"}},
		{"sugar without end", Wine{Strength: 12, Sugar: abv.Sugars{High: units.Concentration(math.Inf(1))}}, []string{"sugar"}},
		{"sugar above extract", Wine{Strength: 12, Sugar: exactly(120), Extract: 95}, []string{"120", "95", "extract"}},
		{"free above total", Wine{Strength: 12, SO2: additions.SO2{Total: 30 * mg, Free: 50 * mg, FreeMeasured: true}}, []string{"50", "30", "free", "total"}},
		{"free, not measured", Wine{Strength: 12, SO2: additions.SO2{Free: 50 * mg}}, []string{"50", "measured"}},
		{"strength", Wine{Strength: 101}, []string{"strength"}},
		{"strength, no number", Wine{Strength: units.Strength(nan)}, []string{"strength"}},
		{"uncertainty", Wine{StrengthUncertainty: -1}, []string{"uncertainty"}},
		{"pH", Wine{PH: 4.6}, []string{"pH"}},
		{"pH, no number", Wine{PH: nan}, []string{"pH"}},
		{"uncertainty of the pH", Wine{PH: 3, PHUncertainty: 2}, []string{"uncertainty of the pH"}},
		{"limit", Wine{YeastLimit: 31}, []string{"yeast"}},
		{"sorbate", Wine{Sorbate: 4}, []string{"sorbic"}},
		{"temperature", Wine{Temperature: units.Celsius(99)}, []string{"temperature"}},
		{"temperature in degrees", Wine{Temperature: 18}, []string{"temperature"}},
		{"sugar upside down", Wine{Sugar: abv.Sugars{Low: 5, Likely: 4, High: 3}}, []string{"sugar"}},
	} {
		v, err := Judge(x.w)
		var r *units.RangeError
		if !errors.As(err, &r) || v.Outlook != Ferments || v.Barriers != nil {
			t.Errorf("%s: %v, %v", x.name, v.Outlook, err)
			continue
		}
		for _, word := range x.words {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%s: %q does not say %q", x.name, err, word)
			}
		}
	}
}

// What a barrier that does not hold lacks, and how much of it there is.
func TestABarrierShowsWhatLacks(t *testing.T) {
	for _, x := range []struct {
		name          string
		w             Wine
		key           string
		value, needed float64
		unit          string
	}{
		{"sorbate enough, SO2 not", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: added(29), Sorbate: 162 * mg}, "sorbate_with_sulfite",
			29 * 0.35 / (1 + math.Pow(10, 3.3-1.81)), 0.5, "mg/L molecular SO2"},
		{"sorbate enough, no SO2", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, Sorbate: 162 * mg}, "sorbate_with_sulfite", 0, 0.5, "mg/L molecular SO2"},
		{"too little sorbate", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: added(29), Sorbate: 62 * mg}, "sorbate_with_sulfite", 62, 4 * 30 * 112.13 / 150.22, "mg/L sorbic acid"},
		{"197 mg/L, too weak for the table", Wine{Strength: 6, Sugar: exactly(70), PH: 3.3, SO2: added(50), Sorbate: 197 * mg}, "sorbate_with_sulfite", 6, 10, "% vol"},
		{"100 mg/L, too weak for the table", Wine{Strength: 6, Sugar: exactly(70), PH: 3.3, SO2: added(50), Sorbate: 100 * mg}, "sorbate_with_sulfite", 100, 200, "mg/L sorbic acid"},
		{"too high a pH", Wine{Strength: 12, Sugar: exactly(70), PH: 3.7, SO2: added(50), Sorbate: 200 * mg}, "sorbate_with_sulfite", 3.7, 3.5, "pH, at most"},
		{"pH not stated", Wine{Strength: 12, Sugar: exactly(70), SO2: added(50), Sorbate: 200 * mg}, "sorbate_with_sulfite", 0, 3.5, "pH, at most"},
		{"enough Delle units, a hardier yeast", Wine{Strength: 15, Sugar: exactly(200), YeastLimit: 16}, "alcohol_and_sugar", 15, 16, "% vol"},
		{"enough Delle units, too weak", Wine{Strength: 9, Sugar: exactly(500)}, "alcohol_and_sugar", 9, 10, "% vol"},
		{"too few Delle units", Wine{Strength: 15, Sugar: exactly(30)}, "alcohol_and_sugar", 70.5, 86.3, "Delle units"},
	} {
		v, err := Judge(x.w)
		b := v.Barrier(x.key)
		if err != nil || b.Hold == Holds || math.Abs(b.Value-x.value) > 1e-9 || math.Abs(b.Needed-x.needed) > 1e-9 || b.Unit != x.unit {
			t.Errorf("%s: %v with %v, needs %v %s, %v; want %v, %v %s", x.name, b.Hold, b.Value, b.Needed, b.Unit, err, x.value, x.needed, x.unit)
		}
	}
}

// Not stated is not zero: a wine without sugar is said to be one.
func TestSugarThatIsNotStatedIsSaid(t *testing.T) {
	for _, x := range []struct {
		w    Wine
		want bool
	}{{Wine{Strength: 12}, true}, {Wine{Strength: 12, Extract: 15}, false}, {Wine{Strength: 12, Extract: 36}, false}, {Wine{Strength: 12, Extract: 100}, true}, {Wine{Strength: 12, Sugar: exactly(1)}, false}} {
		v, err := Judge(x.w)
		said := slices.ContainsFunc(v.Notes, func(n additions.Note) bool { return strings.Contains(n.Text, "No sugar is stated") })
		if err != nil || said != x.want {
			t.Errorf("%+v: said %v, %v", x.w, said, err)
		}
	}
}

func TestEveryWordOnBacteriaIsASentence(t *testing.T) {
	seen := map[string]bool{}
	for _, b := range []Bacteria{BacteriaHeld, BacteriaSlowed, BacteriaOpen, BacteriaNotKnown} {
		if s := b.String(); s == "" || seen[s] {
			t.Errorf("%d: %q", b, s)
		}
		seen[b.String()] = true
	}
}
