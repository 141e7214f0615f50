package main

import (
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// A page is what a command prints, in any form: the answer first.
type page struct {
	Title    string    `json:"title"`
	Answer   []string  `json:"answer"`
	Sections []section `json:"sections"`
}

type section struct {
	Title   string         `json:"title"`
	Figures []units.Figure `json:"figures,omitempty"` // under stable names
	Lines   []string       `json:"lines,omitempty"`
	labels  []string       // what the cellar hand reads beside each figure
}

// add puts a figure down, with its label for the page.
func (s *section) add(label string, f units.Figure) {
	s.Figures, s.labels = append(s.Figures, f), append(s.labels, label)
}

func (s *section) say(format string, args ...any) {
	s.Lines = append(s.Lines, fmt.Sprintf(format, args...))
}

// form is how a page is wanted: its layout, its units and places.
type form struct {
	json, csv bool
	units     string
	places    int
}

func (f *form) flags(set *flag.FlagSet) {
	set.BoolVar(&f.json, "json", false, "print the figures as JSON")
	set.BoolVar(&f.csv, "csv", false, "print the figures as CSV")
	set.StringVar(&f.units, "units", "metric", "metric, us or imperial")
	set.IntVar(&f.places, "places", -1, "decimal places of every figure, 0 to 9 (default: as the quantity deserves)")
}

func (f *form) check() error {
	if f.units != "metric" && f.units != "us" && f.units != "imperial" {
		return fmt.Errorf("%w: -units %q: expected metric, us or imperial", errUsage, f.units)
	}
	if f.places < -1 || f.places > 9 {
		return fmt.Errorf("%w: -places %d: expected 0 to 9", errUsage, f.places)
	}
	if f.json && f.csv {
		return fmt.Errorf("%w: -json and -csv: expected one of them", errUsage)
	}
	return nil
}

func (f *form) at(usual int32) int32 {
	if f.places >= 0 {
		return int32(f.places)
	}
	return usual
}

// A scale is a unit to print in, from a size upward.
type scale struct {
	from, unit units.Volume
	name       string
	places     int32
}

var volumeScales = map[string][]scale{
	"metric":   {{0.1, units.Litre, "L", 3}, {0, units.Millilitre, "mL", 1}},
	"us":       {{units.USGallon, units.USGallon, "gal", 3}, {0, units.USFluidOunce, "fl oz", 1}},
	"imperial": {{units.ImperialGallon, units.ImperialGallon, "imperial gal", 3}, {0, units.ImperialFluidOunce, "imperial fl oz", 1}},
}

func (f *form) volume(name string, v units.Volume) units.Figure {
	for _, s := range volumeScales[f.units] {
		if v >= s.from || s.from == 0 {
			return units.Figure{Name: name, Value: v.Decimal(s.unit, f.at(s.places)), Unit: s.name}
		}
	}
	return units.Figure{}
}

func (f *form) mass(name string, m units.Mass) units.Figure {
	switch {
	case f.units == "metric" && m >= units.Kilogram:
		return units.Figure{Name: name, Value: m.Decimal(units.Kilogram, f.at(3)), Unit: "kg"}
	case f.units == "metric" || m < 10*units.Gram: // nobody weighs a gram in ounces
		return units.Figure{Name: name, Value: m.Decimal(units.Gram, f.at(2)), Unit: "g"}
	case m >= units.Pound:
		return units.Figure{Name: name, Value: m.Decimal(units.Pound, f.at(3)), Unit: "lb"}
	}
	return units.Figure{Name: name, Value: m.Decimal(units.Ounce, f.at(2)), Unit: "oz"}
}

func (f *form) strength(name string, s units.Strength) units.Figure {
	return units.Figure{Name: name, Value: s.Decimal(units.PercentVol, f.at(1)), Unit: "% vol"}
}

func (f *form) concentration(name string, c units.Concentration) units.Figure {
	if c < 1 && c > 0 {
		return units.Figure{Name: name, Value: c.Decimal(units.MilligramPerLitre, f.at(0)), Unit: "mg/L"}
	}
	return units.Figure{Name: name, Value: c.Decimal(units.GramPerLitre, f.at(0)), Unit: "g/L"}
}

func (f *form) gravity(name string, g gravity.SG) units.Figure {
	return f.plain(name, float64(g), 4, "SG")
}

func (f *form) plain(name string, x float64, places int32, unit string) units.Figure {
	return units.Figure{Name: name, Value: units.Round(x, f.at(places)), Unit: unit}
}

func (f *form) temperature(t units.Temperature) string {
	if f.units == "metric" {
		return t.Decimal(units.DegreeCelsius, 1).String() + " C"
	}
	return units.Round(t.Fahrenheit(), 0).String() + " F"
}

// print writes the page in the wanted form.
func (f *form) print(p page, out io.Writer) error {
	switch {
	case f.json:
		enc := json.NewEncoder(out)
		enc.SetIndent("", "  ")
		return enc.Encode(p)
	case f.csv:
		w := csv.NewWriter(out)
		_ = w.Write([]string{"section", "name", "value", "unit", "uncertainty", "method", "source"})
		for _, s := range p.Sections {
			for _, g := range s.Figures {
				_ = w.Write(append([]string{s.Title}, g.Cells()...))
			}
		}
		w.Flush()
		return w.Error()
	}
	_, err := io.WriteString(out, p.text())
	return err
}

const width = 80

func (p page) text() string {
	var b strings.Builder
	for _, line := range p.Answer {
		wrap(&b, line, "", "")
	}
	for _, s := range p.Sections {
		fmt.Fprintf(&b, "\n%s\n", strings.ToUpper(s.Title))
		for i, g := range s.Figures {
			fmt.Fprintf(&b, "  %-42s%s %s\n", s.labels[i], onPoint(g), strings.TrimSpace(g.Unit+"  "+g.Method))
		}
		for _, line := range s.Lines {
			if strings.HasPrefix(line, " ") { // set as it stands
				b.WriteString(line + "\n")
				continue
			}
			wrap(&b, line, "  ", "  ")
		}
	}
	return b.String()
}

// onPoint pads a figure so that decimal points stand under each other.
func onPoint(g units.Figure) string {
	whole, fraction, found := strings.Cut(g.Fixed(), ".")
	if found {
		fraction = "." + fraction
	}
	if !g.Uncertainty.IsZero() {
		fraction += " ± " + g.Uncertainty.String()
	}
	return fmt.Sprintf("%7s%-5s", whole, fraction)
}

func wrap(b *strings.Builder, text, first, rest string) {
	line, blank := first, true
	for _, word := range strings.Fields(text) {
		if !blank && len([]rune(line))+1+len([]rune(word)) > width {
			b.WriteString(line + "\n")
			line, blank = rest, true
		}
		if !blank {
			line += " "
		}
		line, blank = line+word, false
	}
	b.WriteString(line + "\n")
}
