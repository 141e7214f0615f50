package batch

import (
	"strings"
	"testing"

	"example.org/mutage/additions/law"
	"example.org/mutage/internal/handbook"
)

func finding(p Plan, key string) (Finding, bool) {
	for _, f := range p.Findings {
		if f.Key == key {
			return f, true
		}
	}
	return Finding{}, false
}

// A dose is a mass: how well the volume is known, and what was stated beside the
// level, decide whether it keeps a limit (350 mg/L, 27 CFR 4.22(b)(1)).
func TestALevelWithinItsUncertaintyOfALimitIsNotSaidToKeepIt(t *testing.T) {
	const wine = `{"wine_strength": "12 % vol", "wine_reading": "0.996", "fruit": "juice", "jurisdiction": "US", `
	for more, severity := range map[string]Severity{
		`"wine": "5 L ± 0.1 %", "sulfite": "345 mg/L"`:                                   "",
		`"wine": "5 L ± 5 %", "sulfite": "345 mg/L"`:                                     Warn, // 328 to 362
		`"wine": "5 L ± 0.1 %", "sulfite": "345 mg/L ± 10 mg/L"`:                         Warn,
		`"wine": "5 L ± 0.1 %", "sulfite": "45 mg/L", "sulfite_total": "300 mg/L"`:       "",
		`"wine": "5 L ± 0.1 %", "sulfite": "45 mg/L", "sulfite_total": "300 mg/L ± 4 %"`: Warn,
		`"wine": "5 L ± 0.1 %", "sulfite": "360 mg/L"`:                                   Stop,
	} {
		p := work(t, handbook.Must(Read("wine", strings.NewReader(wine+more+`}`))))
		if f, _ := finding(p, "limit_so2_total"); f.Severity != severity {
			t.Errorf("%s: %+v, want %q", more, f, severity)
		}
	}
}

// The texts divide fruit wine by the spirit in it (27 CFR 4.21(e)(3)), not by 15 % vol,
// which is a limit of liqueur wine, of grapes.
func TestSpiritMakesAFruitWineFortified(t *testing.T) {
	for text, want := range map[string]law.Category{
		`{"wine": "5 L", "wine_strength": "16 % vol", "wine_reading": "0.996", "fruit": "juice"}`:                                                        law.FruitWine,
		`{"wine": "5 L", "wine_strength": "12 % vol", "wine_reading": "0.996", "fruit": "juice", "spirit_strength": "40 % vol", "target": "14 % vol"}`:   law.FortifiedFruitWine,
		`{"wine": "5 L", "wine_strength": "12 % vol", "wine_reading": "0.996", "fruit": "juice", "spirit_strength": "40 % vol", "target": "18.5 % vol"}`: law.FortifiedFruitWine,
	} {
		b := handbook.Must(Read("wine", strings.NewReader(text)))
		j := &job{b: &b}
		var err error
		if j.d, err = b.decide(); err != nil {
			t.Fatal(err)
		}
		if j.c, err = b.run(&j.d.v); err != nil {
			t.Fatal(err)
		}
		for key, want := range map[string]law.Category{"reachable": want, "kept": law.FruitWine} {
			if got := j.product(&Liquid{Key: key, Volume: 5, Mass: 5000}).Category; got != want {
				t.Errorf("%s, %s: %s", text, key, got)
			}
		}
	}
}

// Above the limit of the nearest product, where none of its own is known, is said.
func TestAboveTheNearestLimitIsSaid(t *testing.T) {
	p := work(t, handbook.Must(Read("wine", strings.NewReader(`{"wine": "5 L", "wine_strength": "12 % vol", "wine_reading": "0.996", "fruit": "juice", "sulfite": "400 mg/L",
		"spirit_strength": "40 % vol", "target": "18 % vol", "jurisdiction": "EU"}`))))
	if f, ok := finding(p, "limit_so2_total"); !ok || f.Severity != Warn || !strings.Contains(f.Text, "The nearest is that of fruit wine") {
		t.Errorf("%+v", p.Findings)
	}
}
