package main

import (
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// flagSets are command lines in which each flag of a command does something, one
// value a flag. A flag is never dropped in silence: with it, the page is another
// one, or it is a usage error that names it.
var flagSets = []struct {
	command []string
	flags   map[string]string
}{
	{[]string{"gravity", "1.057"}, map[string]string{"at": "26 C", "hydrometer": "60 F", "strength": "6 % vol", "yeast-limit": "5 % vol", "fruit": "morello cherry"}},
	{[]string{"gravity", "26 g per 240 mL"}, map[string]string{"at": "26 C", "hydrometer": "60 F", "strength": "6 % vol", "yeast-limit": "5 % vol", "fruit": "morello cherry"}},
	{[]string{"gravity", "1.020", "-strength", "20 % vol"}, map[string]string{"at": "26 C", "hydrometer": "60 F", "yeast-limit": "5 % vol", "fruit": "morello cherry"}},
	{[]string{"gravity", "0.994"}, map[string]string{"at": "26 C", "hydrometer": "60 F", "strength": "12 % vol", "yeast-limit": "5 % vol"}},
	{[]string{"strength", "-og", "1.092", "-fg", "1.046"}, strengthFlags},
	{[]string{"strength", "-hydrometer", "1.0196", "-refractometer", "15.9"}, strengthFlags},
	{[]string{"strength", "-wine", "1.01", "-residue", "1.03"}, strengthFlags},
	{[]string{"strength", "-alcoholometer", "40 % vol"}, strengthFlags},
	{[]string{"strength", "-label", "70 degrees UK proof"}, strengthFlags},
	{[]string{"blend", "3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"}, map[string]string{"at": "26 C", "hydrometer": "60 F", "show": "working"}},
	{[]string{"blend", "3 L at 6.1 % vol", "0.7 L at 75 % vol"}, map[string]string{"at": "26 C", "hydrometer": "60 F"}},
	{[]string{"fortify", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"}, map[string]string{"to": "20 % vol", "vessel": "3.6 L", "headspace": "0.1 L", "fruit": "morello cherry", "show": "working", "extract": "100 g/L"}},
	{[]string{"fortify", "-to", "20 % vol", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"}, map[string]string{"vessel": "3.6 L", "headspace": "0.1 L", "fruit": "morello cherry", "show": "working", "extract": "100 g/L"}},
	{[]string{"fortify", "-to", "20 % vol", "fill 1 quart", "at 6.1 % vol with 142 g/L", "at 75 % vol"}, map[string]string{"vessel": "3.6 L", "headspace": "0.1 L", "fruit": "morello cherry", "show": "working", "extract": "100 g/L"}},
	{[]string{"fortify", "-to", "20 % vol", "-extract", "100 g/L", "3 L at 13 % vol with 22 g/L", "at 75 % vol", "syrup: with 850 g/L"}, map[string]string{"vessel": "3.6 L", "headspace": "0.1 L", "fruit": "morello cherry", "show": "working"}},
	{[]string{"fortify", "-to", "20 % vol", "3 L at 6.1 % vol", "at 75 % vol"}, map[string]string{"vessel": "3.6 L", "headspace": "0.1 L", "fruit": "morello cherry", "show": "working", "extract": "100 g/L"}},
	{[]string{"explain", "-reads", "1.030", "3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"}, map[string]string{"at": "26 C", "hydrometer": "60 F", "to": "20 % vol"}},
	{[]string{"explain", "-reads", "1.021", "3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"}, map[string]string{"at": "21 C", "hydrometer": "60 F", "to": "20 % vol"}},
	{[]string{"dose", "-volume", "3 L", "-sulfite", "50 mg/L"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-sulfite", "1/2 tsp"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-sulfite", "0.5 g"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-free-to", "30 mg/L", "-free", "5 mg/L"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-molecular", "0.6 mg/L", "-ph", "3.4"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-sorbate", "200 mg/L"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-sorbate", "1/4 tsp"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-raise-acid", "1 g/L"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-raise-acid", "3 g", "-acid", "tartaric"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-lower-acid", "1 g/L"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-lower-acid", "3 g", "-carbonate", "potassium bicarbonate"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-from", "1.05", "-to", "1.09"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-from", "1.05", "-sugar", "2 cups"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-wine", "at 13 % vol with 20 g/L", "-extract-to", "100 g/L"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-tasted", "0.2 g malic acid in 100 mL"}, doseFlags},
	{[]string{"dose", "-volume", "3 L", "-tasted", "2 g sugar in 100 mL"}, doseFlags},
	{[]string{"watch", "@log"}, map[string]string{"from": "4 % vol", "to": "7 % vol", "least-sugar": "150 g/L", "og": "1.095", "started": "2026-09-30 08:00", "must": "5 L", "yeast-limit": "5 % vol",
		"hydrometer": "60 F", "refractometer": "", "factor": "1.04", "sensor": "", "zone": "Asia/Tokyo", "dates": "day", "degrees": "F", "now": "2026-10-05 08:00", "cooling": "12h", "arrested": "2026-10-03 10:00"}},
	{[]string{"plan"}, map[string]string{"scale": "2", "scale-to": "10 L", "fields": "", "template": "", "batch": "testdata/quart.json"}},
}

// drawingFlags write a file beside the page, which stays as it is.
var drawingFlags = []struct {
	command []string
	flag    string
}{{[]string{"plan"}, "html"}, {[]string{"watch", "@log"}, "svg"}}

// columnFlags are the flags of column, each with the output that it changes to.
var columnFlags = []struct{ flag, value, in, out string }{
	{"sep", ":", "strength:extract\n20:84.5\n", "strength:extract:delle_units:error\n20:84.5:98.45:\n"},
	{"decimal", "point", "strength;extract\n20,5;84.5\n", "strength;extract;delle_units;error\n20,5;84.5;;\"strength: \"\"20,5\"\" has a comma, and the decimal mark of this file is the point (-decimal comma, if it is not)\"\n"},
	{"bom", "", "strength,extract\n20,84\n", "\ufeffstrength,extract,delle_units,error\n20,84,98.40,\n"},
	{"guard", "", "strength,extract,note\n20,84,=1+1\n", "strength,extract,note,delle_units,error\n20,84,'=1+1,98.40,\n"},
}

var strengthFlags = map[string]string{"og": "1.09", "fg": "1.04", "hydrometer": "1.02", "refractometer": "15 Bx", "wine": "1.011", "residue": "1.031", "alcoholometer": "41 % vol",
	"extract": "100 g/L", "label": "80 proof", "at": "26 C", "og-at": "26 C", "made-for": "60 F", "fruit": "morello cherry"}

var doseFlags = map[string]string{"wine": "at 12 % vol with 30 g/L", "sulfite": "60 mg/L", "salt": "sodium metabisulfite", "purity": "0.9", "tablet": "0.44 g", "solution": "50 g/L",
	"free-to": "40 mg/L", "free": "10 mg/L", "molecular": "0.8 mg/L", "ph": "3.3", "so2-in": "400 mg/L", "sorbate": "150 mg/L", "sorbic-in": "400 mg/L", "raise-acid": "2 g/L", "acid": "50 % malic, 50 % citric",
	"lower-acid": "2 g/L", "carbonate": "potassium carbonate", "from": "1.04", "to": "1.08", "extract-to": "120 g/L", "sugar": "300 g", "sweetener": "honey",
	"tasted": "0.1 g citric acid in 100 mL", "jurisdiction": "eu", "category": "fortified fruit wine"}

var formFlags = map[string]string{"units": "us", "show": "details", "places": "4", "json": "", "csv": ""}

func TestNoFlagIsDroppedInSilence(t *testing.T) {
	log := logFile(t, cherryLog)
	for _, c := range flagSets {
		if c.command[1%len(c.command)] == "@log" {
			c.command = []string{c.command[0], log}
		}
		plain, err := output(c.command...)
		if err != nil {
			t.Errorf("%q: %v", c.command, err)
			continue
		}
		for _, flags := range []map[string]string{c.flags, formFlags} {
			for name, value := range flags {
				if slices.Contains(c.command, "-"+name) {
					continue
				}
				args := append(append([]string{}, c.command...), "-"+name)
				if value != "" {
					args = append(args, value)
				}
				text, err := output(args...)
				switch {
				case err == nil && text == plain:
					t.Errorf("%q: the flag -%s changes nothing", args, name)
				case err != nil && errors.Is(err, errUsage) && !strings.Contains(err.Error(), "-"+name) && !strings.Contains(err.Error(), "fortify -extract"):
					t.Errorf("%q: %v: does not name -%s", args, err, name)
				case errors.Is(err, flag.ErrHelp):
					t.Errorf("%q: help", args)
				}
			}
		}
	}
}

// A flag that writes a drawing writes one, and the page stays.
func TestFlagsThatDrawWriteAFile(t *testing.T) {
	for _, c := range drawingFlags {
		command := slices.Clone(c.command)
		if i := slices.Index(command, "@log"); i >= 0 {
			command[i] = logFile(t, cherryLog)
		}
		plain, err := output(command...)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "drawn")
		text, err := output(append(command, "-"+c.flag, file)...)
		drawn, missing := os.ReadFile(file)
		if err != nil || missing != nil || text != plain || !strings.Contains(string(drawn), "<svg") {
			t.Errorf("%q -%s: %v, %v, %d bytes", c.command, c.flag, err, missing, len(drawn))
		}
		if _, err := output(append(command, "-"+c.flag, filepath.Join(t.TempDir(), "none", "drawn"))...); err == nil {
			t.Errorf("%q -%s: a folder that is not there is no error", c.command, c.flag)
		}
	}
}

// Each flag of column changes what comes out.
func TestFlagsOfColumn(t *testing.T) {
	for _, c := range columnFlags {
		file := filepath.Join(t.TempDir(), "in.csv")
		if err := os.WriteFile(file, []byte(c.in), 0o600); err != nil {
			t.Fatal(err)
		}
		plain, _ := output("column", "stability", file)
		args := []string{"column", "-" + c.flag}
		if c.value != "" {
			args = append(args, c.value)
		}
		got, _ := output(append(args, "stability", file)...)
		if got != c.out || got == plain {
			t.Errorf("%q: %q, want %q; without the flag %q", args, got, c.out, plain)
		}
	}
}

// The tables above have every flag of every command.
func TestTheTableOfFlagsIsComplete(t *testing.T) {
	for _, c := range commands {
		seen := map[string]bool{"volume": c.name == "dose", "reads": c.name == "explain"}
		for _, d := range drawingFlags {
			seen[d.flag] = seen[d.flag] || d.command[0] == c.name
		}
		for _, f := range columnFlags {
			seen[f.flag] = seen[f.flag] || c.name == "column"
		}
		if c.name == "column" { // which refuses these, each with its reason
			for name := range notOfColumn {
				seen[name] = true
			}
		}
		for _, s := range flagSets {
			for name := range s.flags {
				seen[name] = seen[name] || s.command[0] == c.name
			}
		}
		set := flag.NewFlagSet(c.name, flag.ContinueOnError)
		set.SetOutput(io.Discard)
		set.Usage = func() {}
		_ = c.run(set, []string{"-h"}, io.Discard)
		set.VisitAll(func(f *flag.Flag) {
			if _, form := formFlags[f.Name]; !form && !seen[f.Name] {
				t.Errorf("%s -%s is not tried", c.name, f.Name)
			}
		})
	}
}

// Each flag can be given once.
func TestAFlagGivenTwiceIsAnError(t *testing.T) {
	for _, args := range [][]string{{"plan", "-json", "-json"}, {"gravity", "1.05", "-at", "20 C", "-at", "21 C"}, {"dose", "-to", "1.08", "-to", "1.09"}, {"watch", "-zone", "UTC", "-zone", "UTC"}, {"column", "-bom", "-bom", "fortify"}} {
		if _, err := output(args...); !errors.Is(err, errUsage) || !strings.Contains(err.Error(), "twice") {
			t.Errorf("%q: %v", args, err)
		}
	}
}

func output(args ...string) (string, error) {
	var out strings.Builder
	err := run(args, &out)
	return out.String(), err
}
