// Package page sets results as a page for the cellar, or as JSON or CSV: the
// answer first, figures with their decimal points under each other, 80 columns.
package page

import (
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
	"github.com/shopspring/decimal"
)

// A Page is what a command prints, in any form: the answer first.
type Page struct {
	Title    string    `json:"title"`
	Answer   []string  `json:"answer"`
	Sections []Section `json:"sections"`
}

// A Section is a part of the page under its title.
type Section struct {
	Title   string         `json:"title"`
	Figures []units.Figure `json:"figures,omitempty"` // under stable names
	Lines   []string       `json:"lines,omitempty"`
	labels  []string       // what the cellar hand reads beside each figure
	notes   []string       // and behind it
}

// Add puts a figure down, with its label for the page and a note behind it. The
// method and source of its name are filled in.
func (s *Section) Add(label string, f units.Figure, note ...string) {
	if m, ok := methods[f.Name]; ok && f.Method == "" {
		f.Method, f.Source = m.method, m.source
	}
	s.Figures, s.labels, s.notes = append(s.Figures, f), append(s.labels, label), append(s.notes, strings.Join(note, ", "))
}

// AddSure puts a result down with its uncertainty, and below it what that assumes
// of the instruments and where most of it comes from.
func (s *Section) AddSure(f *Form, label, name, unit string, r uncertainty.Result, assumed ...uncertainty.Tolerance) {
	s.Add(label, f.Within(name, r, unit))
	var names []string
	for _, t := range assumed {
		names = append(names, t.Name)
	}
	s.Say("Assumed: %s. Most of the uncertainty comes from: %s.", strings.Join(names, "; "), r.Ranked()[0].Name)
}

// Say puts a line down; one that begins with a space is set as it stands.
func (s *Section) Say(format string, args ...any) {
	s.Lines = append(s.Lines, fmt.Sprintf(format, args...))
}

// Form is how a page is wanted: its layout, its units and places.
type Form struct {
	json, csv bool
	units     string
	places    int
	Show      string
}

// Flags registers the flags of the form.
func (f *Form) Flags(set *flag.FlagSet) {
	set.BoolVar(&f.json, "json", false, "print the figures as JSON")
	set.BoolVar(&f.csv, "csv", false, "print the figures as CSV")
	set.StringVar(&f.units, "units", "metric", "metric, us or imperial")
	set.StringVar(&f.Show, "show", "", "working: the hand check as lines for paper; details: all there is to say")
	set.IntVar(&f.places, "places", -1, "decimal places, 0 to 9, of figures without ±")
}

// Check says whether the form can be; its error is of usage.
func (f *Form) Check() error {
	if f.units != "metric" && f.units != "us" && f.units != "imperial" {
		return fmt.Errorf("%w: -units %q: expected metric, us or imperial", ErrUsage, f.units)
	}
	if f.places < -1 || f.places > 9 {
		return fmt.Errorf("%w: -places %d: expected 0 to 9", ErrUsage, f.places)
	}
	if !slices.Contains([]string{"", "working", "details"}, f.Show) {
		return fmt.Errorf("%w: -show %q: expected working or details", ErrUsage, f.Show)
	}
	if f.json && f.csv {
		return fmt.Errorf("%w: -json and -csv: expected one of them", ErrUsage)
	}
	return nil
}

// ErrUsage marks an error of the command line.
var ErrUsage = sheet.ErrUsage

// Said is a figure in a sentence.
func Said(g units.Figure) string { return g.Fixed() + " " + g.Unit }

func (f *Form) at(usual int32) int32 {
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

// Volume is a figure in the unit of the form that suits its size.
func (f *Form) Volume(name string, v units.Volume) units.Figure {
	for _, s := range volumeScales[f.units] {
		if v >= s.from || s.from == 0 {
			return units.Figure{Key: name, Name: name, Value: v.Decimal(s.unit, f.at(s.places)), Unit: s.name}
		}
	}
	return units.Figure{}
}

// Mass likewise; below 10 g in grams, for nobody weighs a gram in ounces.
func (f *Form) Mass(name string, m units.Mass) units.Figure {
	switch {
	case f.units == "metric" && m >= units.Kilogram:
		return units.Figure{Key: name, Name: name, Value: m.Decimal(units.Kilogram, f.at(3)), Unit: "kg"}
	case f.units == "metric" || m < 10*units.Gram:
		return units.Figure{Key: name, Name: name, Value: m.Decimal(units.Gram, f.at(2)), Unit: "g"}
	case m >= units.Pound:
		return units.Figure{Key: name, Name: name, Value: m.Decimal(units.Pound, f.at(3)), Unit: "lb"}
	}
	return units.Figure{Key: name, Name: name, Value: m.Decimal(units.Ounce, f.at(2)), Unit: "oz"}
}

// Strength in % vol to a tenth.
func (f *Form) Strength(name string, s units.Strength) units.Figure {
	return units.Figure{Key: name, Name: name, Value: s.Decimal(units.PercentVol, f.at(1)), Unit: "% vol"}
}

// Concentration in g/L, or mg/L below 1 g/L.
func (f *Form) Concentration(name string, c units.Concentration) units.Figure {
	if c < 1 && c > 0 {
		return units.Figure{Key: name, Name: name, Value: c.Decimal(units.MilligramPerLitre, f.at(0)), Unit: "mg/L"}
	}
	return units.Figure{Key: name, Name: name, Value: c.Decimal(units.GramPerLitre, f.at(0)), Unit: "g/L"}
}

// Plain is a number with its usual places.
func (f *Form) Plain(name string, x float64, places int32, unit string) units.Figure {
	return units.Figure{Key: name, Name: name, Value: units.Round(x, f.at(places)), Unit: unit}
}

// Percent is a share of one, in per cent.
func (f *Form) Percent(name string, share float64, places int32) units.Figure {
	return f.Plain(name, 100*share, places, "%")
}

// Gravity is a specific gravity to four places.
func (f *Form) Gravity(name string, sg float64) units.Figure { return f.Plain(name, sg, 4, "SG") }

// Temperature is a temperature in words.
func (f *Form) Temperature(t units.Temperature) string {
	if f.units == "metric" {
		return units.Round(t.Celsius(), 1).String() + " C"
	}
	return units.Round(t.Fahrenheit(), 0).String() + " F"
}

// Within is a result with its standard uncertainty, both to two digits of that.
func (f *Form) Within(name string, r uncertainty.Result, unit string) units.Figure {
	v, u, err := uncertainty.Round(r.Value, r.Standard)
	if err != nil || u.IsZero() {
		return f.Plain(name, r.Value, 2, unit)
	}
	return units.Figure{Key: name, Name: name, Value: v, Unit: unit, Uncertainty: decimal.NullDecimal{Decimal: u, Valid: true}}
}

// VolumeWithin is Within for a volume.
func (f *Form) VolumeWithin(name string, r uncertainty.Result) units.Figure {
	g := f.Volume(name, units.Volume(r.Value))
	for _, s := range volumeScales[f.units] {
		if s.name == g.Unit {
			r.Value, r.Standard = units.Volume(r.Value).In(s.unit), units.Volume(r.Standard).In(s.unit)
			return f.Within(name, r, s.name)
		}
	}
	return g
}

// Most is how many of a list to say: usual, or all for -show details.
func (f *Form) Most(usual int) int {
	if f.Details() {
		return math.MaxInt
	}
	return usual
}

// Details says whether the page may be long.
func (f *Form) Details() bool { return f.Show == "details" }

// Print writes the page in the wanted form.
func (f *Form) Print(p Page, out io.Writer) error {
	switch {
	case f.json:
		enc := json.NewEncoder(out)
		enc.SetIndent("", "  ")
		return enc.Encode(p)
	case f.csv:
		w := csv.NewWriter(out)
		_ = w.Write(append([]string{"section"}, units.FigureHeader()...))
		for _, s := range p.Sections {
			for _, g := range s.Figures {
				_ = w.Write(append([]string{s.Title}, g.Cells()...))
			}
		}
		w.Flush()
		return w.Error()
	}
	_, err := io.WriteString(out, p.Text())
	return err
}

const width = 80

// Text is the page for the cellar.
func (p Page) Text() string {
	var b strings.Builder
	label := 0
	for _, s := range p.Sections {
		for _, l := range s.labels {
			label = max(label, len([]rune(l))+1)
		}
	}
	for _, line := range p.Answer {
		wrap(&b, line, "", "")
	}
	for _, s := range p.Sections {
		fmt.Fprintf(&b, "\n%s\n", strings.ToUpper(s.Title))
		for i, g := range s.Figures {
			line := strings.TrimRight(fmt.Sprintf("  %-*s%s %s", label, s.labels[i], onPoint(g), g.Unit), " ")
			switch note := s.notes[i]; {
			case note == "":
				b.WriteString(line + "\n")
			case len([]rune(line))+2+len([]rune(note)) <= width:
				b.WriteString(line + "  " + note + "\n")
			default:
				b.WriteString(line + "\n")
				wrap(&b, note, "      ", "      ")
			}
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
	if g.Uncertainty.Valid {
		fraction += " ± " + g.FixedUncertainty()
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
