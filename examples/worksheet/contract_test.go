package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// sheetJSON is what -json of a command other than plan promises.
type sheetJSON struct {
	Schema int      `json:"schema"`
	Title  string   `json:"title"`
	Answer []string `json:"answer"`
	Steps  []struct {
		Key     string `json:"key"`
		Title   string `json:"title"`
		Figures []struct {
			Key         string      `json:"key"`
			Name        string      `json:"name"`
			Value       json.Number `json:"value"`
			Unit        string      `json:"unit"`
			Uncertainty json.Number `json:"uncertainty"`
			Coverage    float64     `json:"coverage_factor"`
			Method      string      `json:"method"`
			Source      string      `json:"source"`
			Note        string      `json:"note"`
			Formula     string      `json:"formula"`
		} `json:"figures"`
		Lines []string `json:"lines"`
	} `json:"steps"`
	Findings []struct {
		Key      string `json:"key"`
		Severity string `json:"severity"`
		Text     string `json:"text"`
	} `json:"findings"`
}

var snakeCase = regexp.MustCompile(`^[a-z0-9]+(_[a-z0-9]+)*$`)

// Every way of asking gives JSON of the one form, whose figures say how they were
// found, under keys that stand once in it.
func TestJSONOfEveryCommandHasOneForm(t *testing.T) {
	for _, c := range flagSets {
		if c.command[0] == "plan" || c.command[0] == "watch" { // which have more than this form
			continue
		}
		text, err := output(append(append([]string{}, c.command...), "-json")...)
		if err != nil {
			t.Errorf("%q: %v", c.command, err)
			continue
		}
		in := json.NewDecoder(strings.NewReader(text))
		in.DisallowUnknownFields()
		var s sheetJSON
		if err := in.Decode(&s); err != nil || s.Schema != 1 || s.Title == "" || len(s.Answer) == 0 || len(s.Steps) == 0 || s.Findings == nil {
			t.Errorf("%q: %v: %s", c.command, err, text)
		}
		seen := map[string]bool{}
		for _, step := range s.Steps {
			if step.Key == "" || step.Title == "" || step.Figures == nil || step.Lines == nil {
				t.Errorf("%q: step %+v", c.command, step)
			}
			for _, g := range step.Figures {
				if !snakeCase.MatchString(g.Key) || g.Name == "" || g.Value == "" || g.Method == "" || g.Source == "" || seen[g.Key] || g.Formula != "" {
					t.Errorf("%q: figure %+v, twice: %v", c.command, g, seen[g.Key])
				}
				seen[g.Key] = true
			}
		}
		for _, f := range s.Findings {
			if f.Key == "" || f.Text == "" || !slices.Contains([]string{"stop", "warn", "note"}, f.Severity) {
				t.Errorf("%q: finding %+v", c.command, f)
			}
		}
		for _, key := range []string{`"schema": 1`, `"title"`, `"answer"`, `"steps"`, `"findings"`} {
			if !strings.Contains(text, key) {
				t.Errorf("%q: no %s", c.command, key)
			}
		}
	}
}

// The pages fit 80 columns in every system of units and with all details.
func TestPagesFit80Columns(t *testing.T) {
	for _, c := range flagSets {
		if c.command[0] == "watch" {
			c.command = []string{"watch", logFile(t, cherryLog)}
		}
		for _, more := range [][]string{nil, {"-units", "us"}, {"-units", "imperial", "-show", "details"}, {"-places", "5"}} {
			if slices.Contains(more, "-show") && slices.Contains(c.command, "-show") {
				continue
			}
			page80(t, append(append([]string{}, c.command...), more...)...)
		}
	}
}

// The batches of testdata make their pages; the broken ones say what is wrong.
func TestDemonstrationFiles(t *testing.T) {
	good, err := filepath.Glob("testdata/*.json")
	if err != nil || len(good) < 10 {
		t.Fatalf("%d files, %v", len(good), err)
	}
	for _, file := range good {
		page80(t, "plan", "-batch", file)
		if text, err := output("plan", "-batch", file, "-json"); err != nil || !json.Valid([]byte(text)) {
			t.Errorf("%s: %v", file, err)
		}
	}
	bad, err := filepath.Glob("testdata/bad/*.json")
	if err != nil || len(bad) < 20 {
		t.Fatalf("%d files, %v", len(bad), err)
	}
	for _, file := range bad {
		content, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		first, _, _ := strings.Cut(string(content), "\n")
		var out, errs bytes.Buffer
		code := execute([]string{"plan", "-batch", file}, &out, &errs)
		for _, says := range append(strings.Split(strings.TrimPrefix(first, "// error: "), "; "), "see: worksheet plan") {
			if code != 1 || out.Len() > 0 || !strings.Contains(errs.String(), says) {
				t.Errorf("%s: exit %d, %s; want %q", file, code, errs.String(), says)
			}
		}
	}
}
