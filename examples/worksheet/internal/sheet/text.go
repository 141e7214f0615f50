package sheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/mutage/units"
)

// Width is that of a sheet, in characters.
const Width = 80

// At is the column, from 0, at which notes and the cautions of headings stand.
const At = 47

// Heading writes a title in capitals, and a note at its right.
func Heading(b *strings.Builder, title, note string) { Dated(b, title, "", note) }

// Dated is a heading with a date behind the title.
func Dated(b *strings.Builder, title, date, note string) {
	line := strings.ToUpper(title)
	if date != "" {
		line += ", " + date
	}
	if at := max(At, utf8.RuneCountInString(line)+2); note != "" && at+utf8.RuneCountInString(note) <= Width {
		line = fmt.Sprintf("%-*s%s", at, line, note)
		note = ""
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
	if note != "" {
		Wrap(b, note, "  ", "  ")
	}
}

// Shown is a figure as the cellar reads it: its value, unit and the limits that
// hold 19 times in 20, in the units and to the digits of the instruments.
func (f *Form) Shown(g units.Figure) (value, unit, limit string) {
	x, u := g.Value.InexactFloat64(), g.Limit()
	places := int32(-1)
	switch g.Unit {
	case "L":
		value, unit = f.System.VolumeIn(units.Volume(x))
		limit = f.System.VolumeLimit(units.Volume(x), units.Volume(u))
	case "mL":
		value, unit = f.System.VolumeIn(units.Volume(x) * units.Millilitre)
	case "g":
		value, unit = f.System.MassIn(units.Mass(x))
		limit = f.System.MassLimit(units.Mass(x), units.Mass(u))
	case "SG":
		places = 3
	case "% vol":
		places, unit = 1, "% vol"
	case "g/L":
		places, unit = 0, "g/L"
		switch {
		case x > 0 && x < 1: // a dose
			x, u, unit = units.Concentration(x).In(units.MilligramPerLitre), units.Concentration(u).In(units.MilligramPerLitre), "mg/L"
		case x < 10:
			places = 1
		}
	default:
		places, unit = max(0, -g.Value.Exponent()), g.Unit
	}
	if places >= 0 {
		places = max(places, min(int32(f.places), -g.Value.Exponent()))
		value = units.Round(x, places).StringFixed(places)
		limit = units.Round(u, places).StringFixed(places)
	} else if f.places >= 0 {
		value, limit = f.finer(g, value, unit, limit)
	}
	if !g.Uncertainty.Valid || strings.Trim(limit, "0.") == "" {
		limit = ""
	}
	return value, unit, limit
}

// Figures writes figures under each other.
func (f *Form) Figures(b *strings.Builder, figures []units.Figure) {
	for _, g := range figures {
		value, unit, limit := f.Shown(g)
		row(b, f.at20(g.Name), value, unit, noted(g, limit))
	}
}

// noted is what stands behind a figure.
func noted(g units.Figure, limit string) string {
	switch {
	case limit == "":
		return g.Note
	case g.Note == "":
		return "± " + limit
	}
	return "± " + limit + "; " + g.Note
}

// row writes a name, a value with its unit and notes, each in its column.
func row(b *strings.Builder, name, value, unit, note string) {
	labels := broken(name, 28)
	for _, l := range labels[:len(labels)-1] {
		b.WriteString("  " + l + "\n")
	}
	line := strings.TrimRight(fmt.Sprintf("  %-29s%8s %s", labels[len(labels)-1], value, unit), " ")
	if note == "" {
		b.WriteString(line + "\n")
		return
	}
	width := utf8.RuneCountInString(line)
	rest := broken(note, Width-max(At, width+2))
	if len(rest) > 1 { // a narrower note on more lines stays in its column
		rest = broken(note, Width-At)
		if width+2+utf8.RuneCountInString(rest[0]) > Width {
			rest = append([]string{""}, rest...)
		}
	}
	b.WriteString(strings.TrimRight(line+strings.Repeat(" ", max(2, At-width))+rest[0], " ") + "\n")
	for _, r := range rest[1:] {
		b.WriteString(strings.Repeat(" ", At) + r + "\n")
	}
}

// Line is row, for what is no figure: a barrier.
func Line(b *strings.Builder, name, value, unit, note string) { row(b, name, value, unit, note) }

// Lines writes advice under a step; one that begins with a space is set as it
// stands.
func (f *Form) Lines(b *strings.Builder, lines []string) {
	for _, l := range lines {
		if strings.HasPrefix(l, " ") {
			b.WriteString("  " + l + "\n")
			continue
		}
		Wrap(b, l, "  ", "  ")
	}
}

// Sources writes what the figures rest on: each method once, and each source once
// under a number.
func Sources(b *strings.Builder, figures []units.Figure) {
	var methods, sources []string
	cited := map[string][]string{}
	for _, g := range figures {
		if g.Method == "" {
			continue
		}
		if !slices.Contains(methods, g.Method) {
			methods = append(methods, g.Method)
		}
		for source := range strings.SplitSeq(g.Source, "; ") {
			i := slices.Index(sources, source)
			if i < 0 {
				i = len(sources)
				sources = append(sources, source)
			}
			if number := fmt.Sprint(i + 1); !slices.Contains(cited[g.Method], number) {
				cited[g.Method] = append(cited[g.Method], number)
			}
		}
	}
	if len(methods) == 0 {
		return
	}
	Heading(b, "Methods and sources", "")
	for _, m := range methods {
		Wrap(b, m+" ["+strings.Join(cited[m], "] [")+"]", "  ", "    ")
	}
	for i, source := range sources {
		Wrap(b, source, fmt.Sprintf("  [%d] ", i+1), "      ")
	}
}

// units that stay on the line of their number.
var glued = []string{"%", "vol", "L", "mL", "g", "kg", "C", "F", "fl", "oz", "lb", "gal", "imp", "g/L", "mg/L", "SG", "Bx", "units"}

// words are the words of a text; a number and its unit are one.
func words(text string) []string {
	var out []string
	for _, w := range strings.Fields(text) {
		bare := strings.TrimRight(w, ".,;:)")
		if n := len(out); n > 0 && slices.Contains(glued, bare) && numeral(out[n-1]) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// numeral says whether a word begins with a digit: "20.0", "20.0 %".
func numeral(word string) bool {
	word = strings.TrimLeft(word, "(-±")
	return word != "" && word[0] >= '0' && word[0] <= '9' && !strings.ContainsAny(word[len(word)-1:], ".,;:)")
}

// broken is a text in lines of at most so many characters.
func broken(text string, width int) []string {
	out := []string{""}
	for _, word := range words(text) {
		last := &out[len(out)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) <= width:
			*last += " " + word
		default:
			out = append(out, word)
		}
	}
	return out
}

// Wrap writes a text in lines of Width.
func Wrap(b *strings.Builder, text, first, rest string) {
	for i, line := range broken(text, Width-max(len(first), len(rest))) {
		if i == 0 {
			b.WriteString(first + line + "\n")
		} else {
			b.WriteString(rest + line + "\n")
		}
	}
}

// finer is a volume or a mass with more places than the jug or the scale shows,
// where -places asks for more.
func (f *Form) finer(g units.Figure, value, unit, limit string) (string, string) {
	_, shown, _ := strings.Cut(value, ".")
	if f.places <= len(shown) {
		return value, limit
	}
	one := 1.0
	if g.Unit == "g" {
		if m, err := units.ParseMass("1 " + unit); err == nil {
			one = float64(m)
		}
	} else if v, err := units.ParseVolume("1 " + unit); err == nil {
		one = float64(v)
	}
	if g.Unit == "mL" {
		one /= float64(units.Millilitre)
	}
	in := func(x float64) string { return units.Round(x/one, int32(f.places)).StringFixed(int32(f.places)) }
	value = in(g.Value.InexactFloat64())
	if g.Uncertainty.Valid && limit != "" {
		limit = in(g.Limit())
	}
	return value, limit
}

// at20 is a text with the temperature of all results in the units of the cellar.
func (f *Form) at20(text string) string {
	return strings.ReplaceAll(text, "at 20 C", "at "+f.System.Temperature(units.Celsius(20)))
}
