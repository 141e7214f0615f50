package main

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func scenarios(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", "*.json"))
	if err != nil || len(files) < 13 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	return files
}

// The page fits a screen and a sheet: the demonstration has 60 lines at most, no
// page says anything absurd, and no unit is left alone on a line.
func TestPagesOfTheScenarios(t *testing.T) {
	if n := strings.Count(page80(t, "plan"), "\n"); n > 60 {
		t.Errorf("the page of the demonstration has %d lines", n)
	}
	alone := regexp.MustCompile(`(?m)^ *(%|vol|% vol|mL|L|g|g/L|oz|fl oz|C|F)[.,;:]?$`)
	for _, file := range scenarios(t) {
		for _, args := range [][]string{nil, {"-units", "us"}, {"-show", "details"}, {"-units", "imperial", "-scale", "20"}} {
			text := page80(t, append([]string{"plan", "-batch", file}, args...)...)
			if found := absurd.FindString(text); found != "" {
				t.Errorf("%s %q says %q:\n%s", file, args, found, text)
			}
			if found := alone.FindString(text); found != "" {
				t.Errorf("%s %q: a unit stands alone, %q:\n%s", file, args, found, text)
			}
		}
	}
}

// What has a caution has it on the page, at its step.
func TestThePageKeepsItsCautions(t *testing.T) {
	text := strings.Join(strings.Fields(page80(t, "plan")), " ")
	at := 0
	for _, part := range []string{"CO2 kills", "dust off eyes", "only together with SO2", "no flame", "stir until it is even", "Bacteria", "Not looked at", "asthma", "None for children", "Local law", "-show details"} {
		i := strings.Index(text[at:], part)
		if i < 0 {
			t.Fatalf("%q is missing or out of order:\n%s", part, text)
		}
		at += i
	}
	if sources := page80(t, "plan", "-show", "details"); strings.Count(sources, "C. J. N. Balling") != 1 || strings.Count(sources, "excess volumes of OIML R 22") != 1 {
		t.Errorf("a source stands more than once:\n%s", sources)
	}
}

// The print is one page of HTML with nothing from outside: no script, no file; tags
// are closed, and what people wrote is text.
func TestThePrintStandsAlone(t *testing.T) {
	evil := filepath.Join(t.TempDir(), "evil.json")
	if err := os.WriteFile(evil, []byte(`{"name": "<script>alert(1)</script>", "wine": "2 L", "wine_strength": "12 % vol", "wine_reading": "1.000", "spirit": "\"<b>spirit", "spirit_strength": "40 % vol", "target": "18 % vol"}`), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, file := range append(scenarios(t), evil) {
		out := filepath.Join(t.TempDir(), "print.html")
		page80(t, "plan", "-batch", file, "-html", out)
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range []string{"<script", "<b>", "src=", "href=", "url(", "@import", "NaN"} {
			if strings.Contains(string(text), part) {
				t.Errorf("%s: %s in the print", file, part)
			}
		}
		if i := strings.Index(string(text), "http"); i >= 0 && !strings.HasPrefix(string(text[i:]), "http://www.w3.org/2000/svg") {
			t.Errorf("%s: an address in the print", file)
		}
		for _, part := range []string{`<!DOCTYPE html>`, `<html lang="en">`, `<meta charset="utf-8">`, `class="box"`, `class="answer"`, "</html>"} {
			if !strings.Contains(string(text), part) {
				t.Errorf("%s: no %s in the print", file, part)
			}
		}
		closed(t, file, string(text))
	}
	var text strings.Builder
	out := filepath.Join(t.TempDir(), "print.html")
	if err := run([]string{"plan", "-html", out}, &text); err != nil {
		t.Fatal(err)
	}
	demo, err := os.ReadFile(out)
	if err != nil || strings.Count(string(demo), "<svg") != 2 {
		t.Errorf("%v, %d drawings", err, strings.Count(string(demo), "<svg"))
	}
}

// closed walks the elements: each that opens is closed, inside the one it is in.
func closed(t *testing.T, file, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	d.Strict, d.AutoClose, d.Entity = false, []string{"meta"}, xml.HTMLEntity
	var open []string
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			open = append(open, e.Name.Local)
			if e.Name.Local == "p" && slices.Contains(open[:len(open)-1], "p") {
				t.Errorf("%s: a paragraph in a paragraph", file)
			}
		case xml.EndElement:
			if len(open) == 0 || open[len(open)-1] != e.Name.Local {
				t.Fatalf("%s: </%s> closes %q", file, e.Name.Local, open)
			}
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		t.Errorf("%s: never closed: %q", file, open)
	}
}
