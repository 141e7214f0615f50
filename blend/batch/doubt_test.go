package batch

import (
	"strings"
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/internal/handbook"
)

// poured is a sweet wine of 5.5 % vol with a litre of spirit in it, which makes
// 23.1 % vol and should read 1.015.
const poured = `{"must": "3 L", "must_reading": "1.057", "fruit": "juice", "sugar": "300 g", "stop_at": "5.5 % vol",
	"spirit_strength": "75 % vol", "target": "20 % vol", "bottles": ["750 mL"], "wine_poured": "3 L", "spirit_poured": "1 L", "blend_reading": `

// A blend that reads as if hardly any spirit were in it is not called still by what
// was said to be poured.
func TestAReadingThatSpeaksForLessSpiritTakesTheWordBack(t *testing.T) {
	for _, c := range []struct {
		reading string
		outlook stability.Outlook
		remedy  string
	}{
		{"1.015", stability.Still, ""},
		{"1.020", stability.Still, ""},        // 21 % vol, were it the spirit
		{"1.045", stability.Doubtful, "7.4 "}, // 3 L at 5.5 and 84 mL at 75: 22.8 / 3.084 L
		{"1.130", stability.Doubtful, "no single error"},
	} {
		p := work(t, handbook.Must(Read("poured", strings.NewReader(poured+`"`+c.reading+`"}`))))
		l, _ := p.Liquid("reachable")
		if l.Verdict.Outlook != c.outlook || !strings.Contains(l.Remedy, c.remedy) {
			t.Errorf("reads %s: yeast %s, %q", c.reading, l.Verdict.Outlook, l.Remedy)
		}
		for _, s := range p.Steps {
			if s.Key == "bottle" && (s.Title == "Bottle") != (c.outlook == stability.Still) {
				t.Errorf("reads %s: step %q", c.reading, s.Title)
			}
		}
	}
}

// What is added to a dry wine is sugar, whatever its fruit had beside sugar: the
// blend has at least as much as was weighed.
func TestSugarAddedToADryWineIsSugar(t *testing.T) {
	b := handbook.Must(Read("dry", strings.NewReader(`{"wine": "5 L", "wine_strength": "13 % vol", "wine_reading": "0.994", "fruit": "morello cherry",
		"spirit_strength": "60 % vol", "target": "18 % vol", "target_sugar": "90 g/L"}`)))
	p := work(t, b)
	l, _ := p.Liquid("reachable")
	added := float64(p.pourOf("reachable", "sweetener").Mass) / float64(l.Volume)
	if added > 90.01 {
		t.Errorf("%.1f g/L added for 90 g/L wanted", added)
	}
	if float64(l.Sugar.Likely) < added-0.01 {
		t.Errorf("%v g/L of sugar, and %.1f g/L were added", l.Sugar.Likely, added)
	}
}

// The window alone says where to stop: in its middle.
func TestAWindowAloneSaysWhereToStop(t *testing.T) {
	read := func(stop string) Plan {
		return work(t, handbook.Must(Read("window", strings.NewReader(`{"must": "3 L", "original_reading": "1.092", "spirit_strength": "75 % vol", "target": "20 % vol", `+stop+`}`))))
	}
	window, aim := read(`"stop_from": "5 % vol", "stop_to": "6 % vol"`), read(`"stop_at": "5.5 % vol"`)
	a, _ := window.Liquid("wine")
	b, _ := aim.Liquid("wine")
	if a.Gravity != b.Gravity {
		t.Errorf("window stops at %v, aim at %v", a.Gravity, b.Gravity)
	}
}

func TestMoreBlendThanThereIsIsSaid(t *testing.T) {
	p := work(t, handbook.Must(Read("much", strings.NewReader(`{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.045", "spirit_strength": "75 % vol", "target": "20 % vol", "blend_volume": "100 L"}`))))
	if f, ok := p.found("blend_volume"); !ok || f.Severity != Warn {
		t.Errorf("findings %+v", p.Findings)
	}
}

// No sentence of a step stands there twice.
func TestTheLogIsSaidOnce(t *testing.T) {
	p := work(t, handbook.Must(Read("log", strings.NewReader(`{"must": "3 L", "must_reading": "1.057", "sugar": "300 g", "stop_at": "5.5 % vol", "spirit_strength": "75 % vol", "target": "20 % vol",
		"readings": ["2026-11-25 18:00 1.092 22 C", "2026-11-26 18:00 1.080 22 C"]}`))))
	for _, s := range p.Steps {
		seen := map[string]bool{}
		for _, l := range s.Lines {
			if seen[l] {
				t.Errorf("step %s says twice: %s", s.Key, l)
			}
			seen[l] = true
		}
	}
}

func TestSlipsOfTheDigitsAreSaid(t *testing.T) {
	for text, key := range map[string]string{
		`{"wine": "5 L", "wine_strength": "31 % vol", "wine_reading": "0.994"}`:               "wine_strength",
		`{"must": "3 L", "must_reading": "1.057", "sugar": "300 mg", "stop_at": "5.5 % vol"}`: "sugar",
		`{"wine": "5 L", "wine_strength": "13 % vol", "wine_reading": "0.994"}`:               "",
		`{"must": "3 L", "must_reading": "1.057", "sugar": "300 g", "stop_at": "5.5 % vol"}`:  "",
	} {
		p := work(t, handbook.Must(Read("slip", strings.NewReader(text))))
		for _, k := range []string{"wine_strength", "sugar"} {
			if _, ok := p.found(k); ok != (k == key) {
				t.Errorf("%s: finding %s: %v", text, k, ok)
			}
		}
	}
}
