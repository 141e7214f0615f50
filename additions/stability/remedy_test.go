package stability

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/units"
)

func TestLeastStrengthIsWhereItTurnsStill(t *testing.T) {
	for _, x := range []struct {
		name string
		w    Wine
		want float64
	}{
		{"no limit stated, 20 g/L: 88.3 - 20/15 - 2 units", Wine{Strength: 6, Sugar: exactly(20)}, (88.3 - 20.0/15 - 2) / 4.5},
		{"limit 14", Wine{Strength: 6, Sugar: exactly(20), YeastLimit: 14}, 17.5},
		{"limit 14, u 0.2", Wine{Strength: 6, StrengthUncertainty: 0.2, Sugar: exactly(20), YeastLimit: 14}, 17.5 + 0.329},
		{"120 g/L: 85 - 12 units", Wine{Strength: 6, Sugar: exactly(120)}, 73 / 4.5},
	} {
		s, ok, err := LeastStrength(x.w)
		if err != nil || !ok || math.Abs(float64(s)-x.want) > 1e-6 {
			t.Errorf("%s: %v, %v, %v; want %v", x.name, s, ok, err, x.want)
		}
		v, err := Judge(x.w.withStrength(float64(s)))
		below, err2 := Judge(x.w.withStrength(float64(s) - 1e-5))
		if err != nil || err2 != nil || v.Outlook != Still || below.Outlook == Still {
			t.Errorf("%s: at %v it %v, just below it %v", x.name, s, v.Outlook, below.Outlook)
		}
	}
	if _, ok, err := LeastStrength(Wine{Strength: 12, Sugar: exactly(100), YeastLimit: 26}); ok || err != nil {
		t.Errorf("a yeast of 26 %% vol is held by 25: %v", err)
	}
	if s, ok, err := LeastStrength(Wine{Strength: 30, Sugar: exactly(100)}); !ok || err != nil || s != 30 {
		t.Errorf("a liqueur: %v, %v, %v", s, ok, err)
	}
	if _, _, err := LeastStrength(Wine{Strength: -1}); err == nil {
		t.Error("a strength below nothing passes")
	}
}

// A litre of 5.5 % vol and 160 g/L of sugar takes spirit of 40 % vol until it is
// still: by hand (40 x + 5.5)/(1+x) x 4.5 + 16/(1+x) = 85, x = 0.4653.
func TestLeastCountsWhatSpiritDilutes(t *testing.T) {
	blend := func(x float64) (Wine, error) {
		return Wine{Strength: units.Strength((5.5 + 40*x) / (1 + x)), Sugar: exactly(160).Times(1 / (1 + x))}, nil
	}
	x, ok, err := Least(blend, 0, 3)
	if want := (85 - 24.75 - 16) / (180 - 85.0); err != nil || !ok || math.Abs(x-want) > 1e-6 {
		t.Errorf("%v, %v, %v; want %v", x, ok, err, want)
	}
	broken := errors.New("no spirit")
	if _, _, err := Least(func(float64) (Wine, error) { return Wine{}, broken }, 0, 1); !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
	for _, ends := range [][2]float64{{1, 0}, {math.NaN(), 1}, {0, math.Inf(1)}} {
		if _, _, err := Least(blend, ends[0], ends[1]); err == nil {
			t.Errorf("%v is no interval", ends)
		}
	}
}

func TestRemediesAreJudgedAgainAndSmallest(t *testing.T) {
	for _, x := range []struct {
		name string
		w    Wine
		want map[string]float64
		none []string
	}{
		{"the planned blend", Wine{Strength: 12.4, StrengthUncertainty: 0.2, Sugar: abv.Sugars{Low: 110, Likely: 120, High: 125}, YeastLimit: 16},
			map[string]float64{"strength": 16.8}, // 74/4.5 + 0.329, up to a tenth; below the limit no sugar helps
			[]string{"sugar", "measure_strength", "measure_free_so2"}},
		{"just short", Wine{Strength: 17, StrengthUncertainty: 0.6, Sugar: exactly(90)},
			// 76/4.5 = 16.889 % vol: + 0.987; (17 - 16.889)/1.645 = 0.067, down to 0.06; 16.013 % vol takes 129.4 g/L.
			map[string]float64{"strength": 17.9, "measure_strength": 1.96 * 0.06, "sugar": 40}, []string{"measure_sugar"}},
		{"with sorbate, the SO2 not measured", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: added(29), Sorbate: 162 * mg},
			map[string]float64{"strength": 17.4, "measure_free_so2": 19}, []string{"measure_strength", "measure_sugar", "sorbate"}},
		{"the pH not stated", Wine{Strength: 12, Sugar: exactly(70), SO2: measured(40), Sorbate: 162 * mg},
			map[string]float64{"measure_ph": 3.5}, []string{"measure_free_so2"}},
		{"perhaps dry", Wine{Strength: 12, Sugar: abv.Sugars{High: 9, Likely: 2}, Held: true},
			map[string]float64{"measure_sugar": 2}, []string{"sugar"}},
		{"dry or nearly", Wine{Strength: 12, Sugar: abv.Sugars{Low: 1, Likely: 2, High: 9}}, map[string]float64{"measure_sugar": 2}, nil},
		{"not dry", Wine{Strength: 12, Sugar: abv.Sugars{Low: 3, Likely: 4, High: 9}}, nil, []string{"measure_sugar"}},
		{"199 g/L of sugar short", Wine{Strength: 13, Sugar: exactly(66)}, map[string]float64{"sugar": 199}, nil},
		{"201 g/L of sugar short", Wine{Strength: 13, Sugar: exactly(64)}, nil, []string{"sugar"}},
		// 0.5 mg/L molecular at pH 3.3 are 15.95 free, and 3 for the method.
		{"no sulfite", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, Sorbate: 162 * mg}, map[string]float64{"so2": 19}, []string{"measure_free_so2", "measure_ph"}},
		{"too little sorbate", Wine{Strength: 12, Sugar: exactly(70), PH: 3.3, SO2: measured(30), Sorbate: 50 * mg}, map[string]float64{"sorbate": 90}, []string{"so2"}},
		{"a pH of 3.6 ± 0.2", Wine{Strength: 12, Sugar: exactly(70), PH: 3.6, PHUncertainty: 0.1, SO2: measured(60), Sorbate: 162 * mg}, map[string]float64{"measure_ph": 3.5}, nil},
		{"a pH of 3.8 ± 0.2", Wine{Strength: 12, Sugar: exactly(70), PH: 3.8, PHUncertainty: 0.1, SO2: measured(60), Sorbate: 162 * mg}, nil, []string{"measure_ph"}},
	} {
		remedies, err := Remedies(x.w)
		if err != nil {
			t.Fatal(err)
		}
		found := map[string]float64{}
		for _, r := range remedies {
			found[r.Key] = r.Value
			if v, err := Judge(r.Wine); err != nil || v.Outlook != Still {
				t.Errorf("%s, %s: judged again it %v, %v", x.name, r.Text, v.Outlook, err)
			}
			if strings.Contains(r.Text, "%!") || r.Wine.YeastLimit != x.w.YeastLimit {
				t.Errorf("%s: %q, limit %v", x.name, r.Text, r.Wine.YeastLimit)
			}
		}
		for key, value := range x.want {
			if got, ok := found[key]; !ok || math.Abs(got-value) > 1e-6 {
				t.Errorf("%s: %s %v, want %v (of %v)", x.name, key, got, value, found)
			}
		}
		for _, key := range x.none {
			if got, ok := found[key]; ok {
				t.Errorf("%s: %s of %v is none", x.name, key, got)
			}
		}
	}
	if r, err := Remedies(Wine{Strength: 20, Sugar: exactly(80)}); err != nil || r != nil {
		t.Errorf("a still wine needs %+v, %v", r, err)
	}
	if _, err := Remedies(Wine{SO2: additions.SO2{Free: 1}}); err == nil {
		t.Error("a free SO2 that was not measured passes")
	}
}

func BenchmarkJudge(b *testing.B) {
	w := Wine{Strength: 12, StrengthUncertainty: 0.2, Sugar: exactly(70), PH: 3.3, SO2: added(29), Sorbate: 162 * mg, YeastLimit: 16}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Judge(w); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRemedies(b *testing.B) {
	w := Wine{Strength: 12, StrengthUncertainty: 0.2, Sugar: exactly(70), PH: 3.3, SO2: added(29), Sorbate: 162 * mg, YeastLimit: 16}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Remedies(w); err != nil {
			b.Fatal(err)
		}
	}
}
