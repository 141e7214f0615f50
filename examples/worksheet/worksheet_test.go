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

// figures reads the JSON form back: the figures of the steps by key, and those of
// liquids behind the key of the liquid.
func figures(t *testing.T, args ...string) map[string]float64 {
	t.Helper()
	type figure struct {
		Key, Name, Method, Source string
		Value                     json.Number
	}
	var p struct {
		Answer  []string
		Liquids []struct {
			Key     string
			Figures []figure
		}
		Sections, Steps []struct{ Figures []figure }
	}
	if err := json.Unmarshal([]byte(page80JSON(t, args...)), &p); err != nil {
		t.Fatal(err)
	}
	found := map[string]float64{}
	add := func(key string, g figure) {
		x, err := g.Value.Float64()
		if _, twice := found[key]; err != nil || twice {
			t.Errorf("%s: %v, twice: %v", key, err, twice)
		}
		found[key] = x
	}
	for _, l := range p.Liquids {
		for _, g := range l.Figures {
			add(l.Key+"_"+g.Key, g)
		}
	}
	for _, s := range append(p.Sections, p.Steps...) {
		for _, g := range s.Figures {
			add(g.Key, g)
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
	order := []string{"Pour 2.20 L of neutral spirit on 3.05 L of wine", "makes 12.4 % vol", "SUGAR", "STOP", "DOSE", "POUR", "WOOD", "BOTTLE", "WILL YEAST STAY STILL?", "BEFORE YOU DRINK"}
	at := 0
	for _, part := range order {
		i := strings.Index(text[at:], part)
		if i < 0 {
			t.Fatalf("%q is missing or out of order:\n%s", part, text)
		}
		at += i
	}
	for _, args := range [][]string{{"-show", "details"}, {"-units", "us"}, {"-units", "imperial", "-places", "2"}, {"-scale", "2.5"}, {"-scale-to", "5 gal"}} {
		page80(t, append([]string{"plan"}, args...)...)
	}
}

// The figures belong together, whatever they are.
func TestPlanFigures(t *testing.T) {
	f := figures(t, "plan")
	if got := f["wine_to_pour"] + f["spirit_to_pour"] - f["volume_measured"]; got < -0.01 || got > 0.03 {
		t.Errorf("contraction %v L", got)
	}
	if math.Abs(f["strength"]-20) > 0.005 || f["spirit_to_be_sure"] <= f["spirit_to_pour"] || f["reachable_strength"] != f["strength"] {
		t.Errorf("%v", f)
	}
	if !(f["original_reading"] > f["stop_from_reading"] && f["stop_from_reading"] > f["stop_reading"] && f["stop_reading"] > f["stop_to_reading"] && f["stop_to_reading"] > f["blend_reading"]) {
		t.Errorf("readings out of order: %v", f)
	}
	doubled := figures(t, "plan", "-scale", "2")
	for _, name := range []string{"wine_volume", "spirit_to_pour", "sugar", "potassium_sorbate"} {
		if math.Abs(doubled[name]/f[name]-2) > 0.01 {
			t.Errorf("%s: %v doubled is %v", name, f[name], doubled[name])
		}
	}
}

func TestTemplateIsABatch(t *testing.T) {
	file := filepath.Join(t.TempDir(), "b.json")
	if err := os.WriteFile(file, []byte(template(t)), 0o600); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(page80(t, "plan"), page80(t, "plan", "-batch", file)); diff != "" {
		t.Error(diff)
	}
}

func TestOtherCommands(t *testing.T) {
	for _, c := range []struct {
		args []string
		part string
	}{
		{[]string{"blend", "cherry: 1 L at 6.094 % vol with 141.88 g/L", "spirit: 150 mL at 40 % vol", "-show", "working"}, "with contraction: 10.517 % vol"},
		{[]string{"fortify", "-to", "20 % vol", "1 L at 6.094 % vol with 141.88 g/L", "at 75 % vol", "-show", "working"}, "249 mL"},
		{[]string{"fortify", "3 L at 6.1 % vol with 142 g/L", "vodka: 0.5 L at 40 % vol", "-vessel", "4 L"}, "jar too small"},
		{[]string{"gravity", "1.057", "-at", "26 C"}, "1.059"},
		{[]string{"gravity", "17 P"}, "Oechsle"},
		{[]string{"strength", "-og", "1.092", "-fg", "1.046"}, "6.2 % vol"},
		{[]string{"strength", "-hydrometer", "1.0196", "-refractometer", "15.9"}, "It has 16"},
		{[]string{"strength", "-wine", "1.01", "-residue", "1.03"}, "Tabarie"},
		{[]string{"strength", "-alcoholometer", "40 % vol"}, "US proof"},
		{[]string{"dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-ph", "3.4", "-from", "1.05", "-to", "1.09", "-raise-acid", "1 g/L"}, "asthma"},
	} {
		if text := page80(t, c.args...); !strings.Contains(strings.Join(strings.Fields(text), " "), c.part) {
			t.Errorf("%q: no %q in\n%s", c.args, c.part, text)
		}
		var plain []string
		for i := 0; i < len(c.args); i++ {
			if c.args[i] == "-show" {
				i++
				continue
			}
			plain = append(plain, c.args[i])
		}
		if len(figures(t, plain...)) == 0 {
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
		{[]string{"plan", "-show", "all"}, "expected details"},
		{[]string{"fortify", "3 L at 6 % vol"}, "fortify -to"},
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
		if err := run([]string{c.name, "-h"}, &out); err == nil || !strings.Contains(out.String(), c.examples[0]) {
			t.Errorf("%s -h: %v\n%s", c.name, err, out.String())
		}
	}
}

func template(t *testing.T) string {
	t.Helper()
	var out bytes.Buffer
	if err := run([]string{"plan", "-template"}, &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}
