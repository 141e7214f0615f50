package main

import (
	"strings"

	"example.org/mutage/units"
)

// A measure is what goes in, as somebody says it: the level wanted, or what was
// put in by weight, by the spoon or jug, or in tablets.
type measure struct {
	text   string
	level  units.Concentration // of what counts: SO2, sorbic acid, acid as tartaric
	mass   units.Mass
	volume units.Volume
	count  float64 // tablets
}

// Set reads it.
func (m *measure) Set(text string) error {
	out := measure{text: text}
	switch {
	case reads(&out.level, units.ParseConcentration, text), reads(&out.mass, units.ParseMass, text), reads(&out.volume, units.ParseVolume, text):
	default:
		x, unit, err := units.Scan("amount", text)
		if err != nil || strings.TrimSuffix(unit, "s") != "tablet" {
			return &units.ParseError{Text: text, Quantity: "level or amount", Expected: []string{"a level (50 mg/L, 1 g/L)", "a weight (0.5 g)", "a spoon (1/2 tsp)", "a measured solution (5 mL)", "2 tablets"}}
		}
		out.count = x.InexactFloat64()
	}
	if !(float64(out.level) > 0 || out.mass > 0 || out.volume > 0 || out.count > 0) {
		return &units.ParseError{Text: text, Quantity: "level or amount", Expected: []string{"more than nothing"}}
	}
	*m = out
	return nil
}

func reads[T any](into *T, parse func(string) (T, error), text string) bool {
	x, err := parse(text)
	if err == nil {
		*into = x
	}
	return err == nil
}

// String prints it.
func (m *measure) String() string {
	if m == nil {
		return ""
	}
	return m.text
}

// wanted says whether a level is asked for, not what an amount comes to.
func (m *measure) wanted() bool { return m.level > 0 }

// leading divides "0.2 g tartaric acid" into the amount and what it is of.
func leading(text string) (amount, of string) {
	words := strings.Fields(text)
	for n := len(words); n > 0; n-- {
		part := strings.Join(words[:n], " ")
		_, noMass := units.ParseMass(part)
		_, noVolume := units.ParseVolume(part)
		if noMass == nil || noVolume == nil {
			return part, strings.TrimPrefix(strings.Join(words[n:], " "), "of ")
		}
	}
	return "", text
}
