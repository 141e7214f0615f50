package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/mutage/units/uncertainty"
)

func page80(t *testing.T, args ...string) string {
	t.Helper()
	var out bytes.Buffer
	if err := run(args, &out); err != nil {
		t.Fatalf("%q: %v", args, err)
	}
	for i, line := range strings.Split(out.String(), "\n") {
		if n := len([]rune(line)); n > 80 {
			t.Errorf("%q line %d is %d wide: %q", args, i+1, n, line)
		}
	}
	return out.String()
}

// figures reads the JSON form back.
func figures(t *testing.T, args ...string) map[string]float64 {
	t.Helper()
	var p struct {
		Answer   []string
		Sections []struct {
			Title   string
			Figures []struct {
				Name, Unit  string
				Value       json.Number
				Uncertainty json.Number
				Method      string
			}
		}
	}
	if err := json.Unmarshal([]byte(page80JSON(t, args...)), &p); err != nil {
		t.Fatal(err)
	}
	found := map[string]float64{}
	for _, s := range p.Sections {
		for _, g := range s.Figures {
			x, err := g.Value.Float64()
			if _, twice := found[g.Name]; err != nil || twice {
				t.Errorf("%s: %v, twice: %v", g.Name, err, twice)
			}
			found[g.Name] = x
		}
	}
	return found
}

func page80JSON(t *testing.T, args ...string) string {
	t.Helper()
	var out bytes.Buffer
	if err := run(append(args, "-json"), &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestPlanPage(t *testing.T) {
	text := page80(t, "plan")
	order := []string{"as planned, makes 12.4 % vol, not 20.0 % vol", "POUR", "ON THE HYDROMETER", "WEIGH", "WILL IT STAY STILL?", "HOW SURE", "HAND RULE", "CAUTIONS"}
	at := 0
	for _, part := range order {
		i := strings.Index(text[at:], part)
		if i < 0 {
			t.Fatalf("%q is missing or out of order:\n%s", part, text)
		}
		at += i
	}
	if first, _, _ := strings.Cut(text, "\n"); !strings.Contains(first, "12.4 % vol, not 20.0") {
		t.Errorf("first line: %q", first)
	}
	for _, args := range [][]string{{"-show", "details"}, {"-show", "working"}, {"-units", "us"}, {"-units", "imperial", "-places", "2"}, {"-scale", "2.5"}, {"-scale-to", "5 gal"}} {
		page80(t, append([]string{"plan"}, args...)...)
	}
}

// The figures belong together, whatever they are.
func TestPlanFigures(t *testing.T) {
	f := figures(t, "plan")
	if got := f["base_volume"] + f["spirit"] - f["volume"]; got < 0 || got > 0.03 {
		t.Errorf("contraction %v L", got)
	}
	if math.Abs(f["strength"]-20) > 0.005 || math.Abs(f["chance_of_target"]-50) > 1 || f["spirit_to_be_sure"] <= f["spirit_to_pour"] {
		t.Errorf("%v", f)
	}
	if !(f["original_reading"] > f["stop_from_reading"] && f["stop_from_reading"] > f["stop_reading"] && f["stop_reading"] > f["stop_to_reading"] && f["stop_to_reading"] > f["blend_reading"]) {
		t.Errorf("readings out of order: %v", f)
	}
	doubled := figures(t, "plan", "-scale", "2")
	for _, name := range []string{"base_volume", "spirit", "sugar", "potassium_sorbate"} {
		if math.Abs(doubled[name]/f[name]-2) > 0.01 {
			t.Errorf("%s: %v doubled is %v", name, f[name], doubled[name])
		}
	}
}

// JCGM 101 section 8: the Monte Carlo check of every figure of the demo page.
func TestPlanAgreesWithMonteCarlo(t *testing.T) {
	b, err := loadBatch("")
	if err != nil {
		t.Fatal(err)
	}
	j, err := b.work()
	if err != nil {
		t.Fatal(err)
	}
	trials, err := j.arrest.WithinByTrials(j.doubt, 200000, 7)
	if err != nil {
		t.Fatal(err)
	}
	for name, pair := range map[string][2]uncertainty.Result{
		"base strength": {j.within.BaseStrength, trials.BaseStrength}, "base extract": {j.within.BaseExtract, trials.BaseExtract},
		"base volume": {j.within.BaseVolume, trials.BaseVolume}, "blend strength": {j.within.BlendStrength, trials.BlendStrength},
		"blend extract": {j.within.BlendExtract, trials.BlendExtract}, "blend volume": {j.within.BlendVolume, trials.BlendVolume},
		"blend sugar": {j.within.BlendSugar, trials.BlendSugar}, "blend gravity": {j.within.BlendGravity, trials.BlendGravity},
	} {
		c, err := uncertainty.Compare(pair[0], pair[1], 1) // 200,000 trials leave noise in the second digit
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: propagated %v, trials %v, ends apart %.2g and %.2g, tolerance %.2g", name, pair[0], pair[1], c.Low, c.High, c.Tolerance)
		if !c.Adequate {
			t.Errorf("%s: propagation is not adequate: %+v", name, c)
		}
	}
}

func TestTemplateIsABatch(t *testing.T) {
	file := filepath.Join(t.TempDir(), "b.json")
	if err := os.WriteFile(file, []byte(page80(t, "plan", "-template")), 0o600); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(page80(t, "plan"), page80(t, "plan", "-batch", file)); diff != "" {
		t.Error(diff)
	}
}

func TestBatchFaults(t *testing.T) {
	good := string(demo)
	for name, c := range map[string]struct {
		content string
		parts   []string
	}{
		"misspelt":     {strings.Replace(good, `"target"`, `"targt"`, 1), []string{`no field "targt"; did you mean "target"`, `field "target" is missing`}},
		"wrong unit":   {strings.Replace(good, `"3 L"`, `"3 kg"`, 1), []string{`b.json:3:11: field "must"`, "expected l", `"3 L"`}},
		"a number":     {strings.Replace(good, `"3.4"`, `3.4`, 1), []string{"found 3.4, expected text in quotation marks"}},
		"twice":        {strings.Replace(good, `"ph": "3.4"`, `"ph": "3.4", "ph": "3.5"`, 1), []string{"stands twice"}},
		"not JSON":     {"must 3 L", []string{"expected a JSON object"}},
		"cut off":      {good[:100], []string{"b.json:"}},
		"more behind":  {good + "x", []string{"something follows"}},
		"two at once":  {strings.NewReplacer(`"3 L"`, `"much"`, `"20 % vol"`, `"200 % vol"`).Replace(good), []string{`"must"`, "0 to 100 % vol"}},
		"both sugars":  {strings.Replace(good, `"sugar"`, `"original_gravity": "1.09", "sugar"`, 1), []string{"one of them"}},
		"empty":        {"", []string{"expected a JSON object"}},
		"list in text": {strings.Replace(good, `["750 mL", "375 mL"]`, `["750 mL", "small"]`, 1), []string{`"small"`}},
	} {
		_, err := readBatch("b.json", []byte(c.content))
		for _, part := range c.parts {
			if err == nil || !strings.Contains(err.Error(), part) {
				t.Errorf("%s: %v\nwant %q in it", name, err, part)
			}
		}
	}
}

// What a batch holds may be read well and still not be so.
func TestBatchThatCannotBe(t *testing.T) {
	for change, part := range map[[2]string]string{
		{`"40 % vol"`, `"18 % vol"`}:                           "these components reach",
		{`"stop_at": "5.5 % vol"`, `"stop_at": "25 % vol"`}:    "stop_at: must of",
		{`"1.057 ± 0.001"`, `"0.8"`}:                           "must_reading",
		{`"150 mL"`, `"9 L"`}:                                  "lees",
		{`"jurisdiction": "US"`, `"jurisdiction": "Atlantis"`}: "jurisdiction",
		{`"1 1/2 gal"`, `"2 L"`}:                               "vessel",
	} {
		b, err := readBatch("b.json", []byte(strings.Replace(string(demo), change[0], change[1], 1)))
		if err == nil {
			_, err = b.work()
		}
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%s: %v; want %q", change[1], err, part)
		}
	}
	// A jar that is too small for the whole is an answer, not an error.
	b, err := readBatch("b.json", []byte(strings.Replace(string(demo), `"1 1/2 gal"`, `"4 L"`, 1)))
	if err != nil {
		t.Fatal(err)
	}
	j, err := b.work()
	if err != nil || j.limit == nil {
		t.Errorf("a jar of 4 L: %v, %v", j.limit, err)
	}
}

func TestOtherCommands(t *testing.T) {
	for _, c := range []struct {
		args []string
		part string
	}{
		{[]string{"blend", "cherry: 1 L at 6.094 % vol with 141.88 g/L", "spirit: 150 mL at 40 % vol", "-show", "working"}, "with contraction: 10.517 % vol"},
		{[]string{"fortify", "-to", "20 % vol", "1 L at 6.094 % vol with 141.88 g/L", "at 75 % vol", "-show", "working"}, "0.249 L"},
		{[]string{"fortify", "3 L at 6.1 % vol with 142 g/L", "vodka: 0.5 L at 40 % vol", "-vessel", "4 L"}, "does not fit the jar"},
		{[]string{"gravity", "1.057", "-at", "26 C"}, "1.0586"},
		{[]string{"gravity", "17 P"}, "Oechsle"},
		{[]string{"strength", "-og", "1.092", "-fg", "1.046"}, "6.2 % vol"},
		{[]string{"strength", "-hydrometer", "1.0196", "-refractometer", "15.9"}, "It has 16"},
		{[]string{"strength", "-wine", "1.01", "-residue", "1.03"}, "Tabarie"},
		{[]string{"strength", "-alcoholometer", "40 % vol"}, "US proof"},
		{[]string{"dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-ph", "3.4", "-from", "1.05", "-to", "1.09", "-raise-acid", "1 g/L", "-lower-acid", "1 g/L"}, "asthma"},
	} {
		if text := page80(t, c.args...); !strings.Contains(text, c.part) {
			t.Errorf("%q: no %q in\n%s", c.args, c.part, text)
		}
		if len(figures(t, c.args...)) == 0 {
			t.Errorf("%q -json: no figure", c.args)
		}
	}
}

func TestUsage(t *testing.T) {
	for _, c := range []struct {
		args []string
		part string
	}{
		{nil, "one of: plan"},
		{[]string{"plam"}, `did you mean "plan"`},
		{[]string{"plan", "-bach", "x"}, "did you mean -batch?"},
		{[]string{"plan", "more"}, "no arguments"},
		{[]string{"plan", "-units", "old"}, "metric, us or imperial"},
		{[]string{"plan", "-json", "-csv"}, "one of them"},
		{[]string{"plan", "-places", "99"}, "0 to 9"},
		{[]string{"plan", "-show", "all"}, "working or details"},
		{[]string{"fortify", "3 L"}, "fortify -to"},
		{[]string{"blend"}, "blend"},
		{[]string{"strength"}, "strength wants"},
		{[]string{"gravity"}, "READING"},
		{[]string{"dose"}, "dose -volume"},
		{[]string{"column"}, "FUNCTION"},
		{[]string{"column", "fortfy"}, `did you mean "fortify"`},
	} {
		var out bytes.Buffer
		err := run(c.args, &out)
		if !errors.Is(err, errUsage) || !strings.Contains(err.Error(), c.part) || out.Len() > 0 {
			t.Errorf("%q: %v, printed %q; want a usage error with %q", c.args, err, out.String(), c.part)
		}
	}
	for _, args := range [][]string{{"blend", "much wine"}, {"fortify", "-to", "20 % vol", "3 L at 6 % vol", "at 18 % vol"}, {"gravity", "12"}, {"plan", "-batch", "no such file"}} {
		var out bytes.Buffer
		if err := run(args, &out); err == nil || errors.Is(err, errUsage) || out.Len() > 0 {
			t.Errorf("%q: %v, printed %q", args, err, out.String())
		}
	}
	for _, c := range commands {
		var out bytes.Buffer
		if err := run([]string{c.name, "-h"}, &out); err == nil || !strings.Contains(out.String(), c.example) {
			t.Errorf("%s -h: %v\n%s", c.name, err, out.String())
		}
	}
}

// A batch of another size is as sure, in its strength, as the batch.
func TestScaleKeepsTheLimits(t *testing.T) {
	b, err := readBatch("demo.json", bytes.Replace(demo, []byte(`"3 L"`), []byte(`"3 L ± 0.3 L"`), 1))
	if err != nil {
		t.Fatal(err)
	}
	one, err := b.work()
	if err != nil {
		t.Fatal(err)
	}
	if err := b.scale(2); err != nil {
		t.Fatal(err)
	}
	two, err := b.work()
	if err != nil {
		t.Fatal(err)
	}
	if a, b := one.within.BlendStrength.Standard, two.within.BlendStrength.Standard; math.Abs(a-b) > 1e-9*a {
		t.Errorf("standard uncertainty of the strength %v, of twice the batch %v", a, b)
	}
	if a, b := one.within.BaseVolume.Standard, two.within.BaseVolume.Standard; math.Abs(2*a-b) > 1e-9*b {
		t.Errorf("standard uncertainty of the volume %v, of twice the batch %v", a, b)
	}
}
