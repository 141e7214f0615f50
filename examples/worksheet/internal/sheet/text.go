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
func Heading(b *strings.Builder, title, note string) {
	line := strings.ToUpper(title)
	// Units are not capitals: "3.05 L", "mL".
	for _, u := range []string{" ML", " FL OZ", " GAL", " IMP FL OZ", " IMP GAL"} {
		line = strings.ReplaceAll(line, u, map[string]string{" ML": " mL"}[u]+map[bool]string{true: strings.ToLower(u)}[u != " ML"])
	}
	if note != "" && utf8.RuneCountInString(line) < At-1 && At+utf8.RuneCountInString(note) <= Width {
		line = fmt.Sprintf("%-*s%s", At, line, note)
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
	x, u := g.Value.InexactFloat64(), 1.96*g.Uncertainty.Decimal.InexactFloat64()
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
		var notes []string
		if limit != "" {
			notes = append(notes, "± "+limit)
		}
		if g.Note != "" {
			notes = append(notes, g.Note)
		}
		labels := broken(g.Name, 30)
		for _, l := range labels[:len(labels)-1] {
			b.WriteString("  " + l + "\n")
		}
		line := strings.TrimRight(fmt.Sprintf("  %-31s%8s %-5s", labels[len(labels)-1], value, unit), " ")
		note := strings.Join(notes, "; ")
		if note == "" {
			b.WriteString(line + "\n")
			continue
		}
		line += strings.Repeat(" ", max(2, At-utf8.RuneCountInString(line)))
		rest := broken(note, Width-max(At, utf8.RuneCountInString(line)))
		b.WriteString(line + rest[0] + "\n")
		for _, r := range rest[1:] {
			b.WriteString(strings.Repeat(" ", At) + r + "\n")
		}
	}
}

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

// Sources writes what the figures rest on, each once.
func Sources(b *strings.Builder, figures []units.Figure) {
	var seen []string
	for _, g := range figures {
		text := g.Method + " (" + g.Source + ")"
		if g.Method != "" && !slices.Contains(seen, text) {
			seen = append(seen, text)
		}
	}
	for _, text := range seen {
		Wrap(b, "Found by: "+text+".", "  ", "    ")
	}
}

// broken is a text in lines of at most so many characters.
func broken(text string, width int) []string {
	out := []string{""}
	for _, word := range strings.Fields(text) {
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
		limit = in(1.96 * g.Uncertainty.Decimal.InexactFloat64())
	}
	return value, limit
}
