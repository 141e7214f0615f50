package batch

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

func parseBrix(text string) (gravity.Brix, error) {
	x, unit, err := units.Scan("refractometer", text)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "", "bx", "brix", "°bx", "% mass", "%":
		return gravity.Brix(x.InexactFloat64()), nil
	}
	return 0, &units.ParseError{Text: text, Quantity: "refractometer", Offset: max(0, len(text)-len(unit)), Expected: []string{"Brix: 7.2 Bx"}}
}

// parseLabel reads "26 g per 240 mL".
func parseLabel(text string) (Label, error) {
	for _, word := range []string{" per ", " in ", "/"} {
		so, in, found := strings.Cut(text, word)
		if !found {
			continue
		}
		m, err := units.ParseMass(so)
		if err != nil {
			return Label{}, err
		}
		if in = strings.TrimSpace(in); in == "" || in[0] < '0' || in[0] > '9' {
			in = "1 " + in
		}
		v, err := units.ParseVolume(in)
		if err != nil {
			return Label{}, err
		}
		return Label{m, v}, units.Check("serving of a label", float64(v), 1e-3, 10, "L", check.Bound)
	}
	return Label{}, &units.ParseError{Text: text, Quantity: "juice label", Offset: len(text), Expected: []string{"26 g per 240 mL"}}
}

// parsePortion reads "1.5 kg honey after 4 days": an amount, a sweetener (sugar
// where none is named) and when.
func parsePortion(text string) (Portion, error) {
	rest, when, late := strings.Cut(text, " after ")
	p := Portion{}
	if late {
		x, unit, err := units.Scan("days", when)
		if err != nil {
			return p, err
		}
		if unit != "day" && unit != "days" && unit != "d" {
			return p, &units.ParseError{Text: text, Quantity: "sugar", Offset: len(text) - len(unit), Expected: []string{"1 kg after 4 days"}}
		}
		p.Days = x.InexactFloat64()
	}
	what := "sugar"
	number, limits, stated := strings.Cut(rest, "±")
	for _, name := range []string{"brown sugar", "white sugar", "sugar", "honey", "dextrose", "glucose", "invert syrup", "syrup", "concentrate"} {
		if i := strings.Index(strings.ToLower(number), name); i >= 0 {
			what, number = strings.TrimSpace(number[i:]), strings.TrimSuffix(strings.TrimSpace(number[:i]), " of")
			break
		}
		if i := strings.Index(strings.ToLower(limits), name); i >= 0 {
			what, limits = strings.TrimSpace(limits[i:]), strings.TrimSpace(limits[:i])
			break
		}
	}
	var err error
	if p.Sweetener, err = sugar.ParseSweetener(what); err != nil {
		return p, err
	}
	if stated {
		number += " ± " + limits
	}
	m, half, err := uncertainty.Within(p.Sweetener.ParseMass, "sugar", number)
	p.Mass = Within(m, half)
	return p, err
}

// String is the portion as parsePortion reads it.
func (p Portion) String() string {
	out := statedText(p.Mass, massText, "g")
	switch p.Sweetener.Name {
	case sucrose.Name, "":
	case honey.Name, brownSugar.Name:
		out += " " + p.Sweetener.Name
	case dextrose.Name:
		out += " dextrose"
	default:
		kind := "syrup"
		if strings.HasPrefix(p.Sweetener.Name, "invert") {
			kind = "concentrate"
		}
		out += fmt.Sprintf(" %s of %s Bx", kind, digits(100*p.Sweetener.Extract))
	}
	if p.Days > 0 {
		out += fmt.Sprintf(" after %s days", digits(p.Days))
	}
	return out
}

var sucrose, honey, dextrose, brownSugar = sugar.Sucrose, sugar.HoneyAtLegalLimits, sugar.DextroseHydrate, sugar.BrownSugar

var layouts = []string{time.RFC3339, "2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02"}

func parseTime(text string) (time.Time, error) {
	for _, l := range layouts {
		if t, err := time.Parse(l, strings.TrimSpace(text)); err == nil {
			return t, nil
		}
	}
	return time.Time{}, &units.ParseError{Text: text, Quantity: "time", Expected: []string{"2026-11-25 18:00", "2026-11-25"}}
}

// parseNoted reads "2026-11-25 18:00 1.092 22 C".
func parseNoted(text string) (Noted, error) {
	fail := func() (Noted, error) {
		return Noted{}, &units.ParseError{Text: text, Quantity: "reading", Expected: []string{"2026-11-25 18:00 1.092 22 C"}}
	}
	words := strings.Fields(text)
	for n := min(2, len(words)); n > 0; n-- {
		t, err := parseTime(strings.Join(words[:n], " "))
		if err != nil || n == len(words) {
			continue
		}
		g, err := gravity.Parse(words[n])
		if err != nil {
			return Noted{}, err
		}
		out := Noted{Time: t, Reading: g}
		if rest := strings.Join(words[n+1:], " "); rest != "" {
			if out.Temperature, err = units.ParseTemperature(rest); err != nil {
				return Noted{}, err
			}
		}
		return out, nil
	}
	return fail()
}

// String is the reading as parseNoted reads it.
func (n Noted) String() string {
	out := n.Time.Format(time.RFC3339) + " " + strconv.FormatFloat(float64(n.Reading), 'g', -1, 64)
	if n.Temperature.Stated() {
		out += " " + temperatureText(n.Temperature)
	}
	return out
}
