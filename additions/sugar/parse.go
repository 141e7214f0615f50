package sugar

import (
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

var dextroseHydrate, honey, brownSugar = DextroseHydrate, HoneyAtLegalLimits, BrownSugar

// sweetenerNames are the words for a sweetener of fixed composition; longer names
// stand before those they hold.
var sweetenerNames = []struct {
	name string
	is   *Sweetener
}{
	{"brown sugar", &brownSugar}, {"white sugar", &sucrose}, {"grape sugar", &dextroseHydrate}, {"sugar", &sucrose}, {"sucrose", &sucrose},
	{"honey", &honey}, {"dextrose", &dextroseHydrate}, {"glucose", &dextroseHydrate},
}

// syrups are the words for what says its Brix.
var syrups = []struct {
	name string
	of   func(gravity.Brix) (Sweetener, error)
}{{"invert syrup", InvertSyrup}, {"concentrate", InvertSyrup}, {"syrup", Syrup}}

var sweetenersExpected = []string{"sugar", "brown sugar", "honey", "dextrose", "syrup of 65 Bx", "concentrate of 65 Bx"}

// ParseSweetener reads a sweetener by name: "sugar", "brown sugar" (counted as
// sucrose), "honey" (at its legal limits), "dextrose" (with its water), "syrup of
// 65 Bx", "concentrate of 65 Bx"; sugar where the text is empty. Errors:
// *units.ParseError, *units.RangeError.
func ParseSweetener(text string) (Sweetener, error) {
	t := strings.ToLower(strings.TrimSpace(text))
	if t == "" {
		return sucrose, nil
	}
	for _, s := range sweetenerNames {
		if t == s.name {
			return *s.is, nil
		}
	}
	for _, s := range syrups {
		if rest, found := strings.CutPrefix(t, s.name+" of "); found {
			b, err := units.ParseIn(rest, gravity.Brix(1))
			if err != nil {
				return Sweetener{}, err
			}
			return s.of(b)
		}
	}
	return Sweetener{}, &units.ParseError{Text: text, Quantity: "sweetener", Expected: sweetenersExpected}
}

// ParseAmount reads an amount of a named sweetener: "500 g sugar", "2 cups of
// sugar", "1 tbsp honey", "1 kg syrup of 65 Bx". Sugar, brown sugar (packed) and honey may be measured
// by the cup (published weights), the others are weighed. Errors:
// *units.ParseError, *units.RangeError.
func ParseAmount(text string) (Sweetener, units.Mass, error) {
	t := strings.ToLower(text)
	at, name := len(text), ""
	for _, s := range sweetenerNames {
		if i := strings.Index(t, s.name); i > 0 && name == "" {
			at, name = i, s.name
		}
	}
	for _, s := range syrups {
		if i := strings.Index(t, s.name); i > 0 && name == "" {
			at, name = i, s.name
		}
	}
	if name == "" {
		return Sweetener{}, 0, &units.ParseError{Text: text, Quantity: "amount of a sweetener", Offset: len(text), Expected: []string{"500 g sugar", "1 kg honey", "1 kg syrup of 65 Bx"}}
	}
	s, err := ParseSweetener(text[at:])
	if err != nil {
		return Sweetener{}, 0, err
	}
	amount := strings.TrimSuffix(strings.TrimSpace(text[:at]), " of")
	m, err := s.ParseMass(amount)
	return s, m, err
}

// Household is the substance by whose published weight a cup or spoon of the
// sweetener counts; ok is false for what is only weighed (dextrose, syrups).
func (s Sweetener) Household() (of additions.Substance, ok bool) {
	switch s.Name {
	case sucrose.Name:
		return additions.GranulatedSugar, true
	case brownSugar.Name:
		return "sugar, brown, packed", true
	case honey.Name:
		return additions.HoneyJar, true
	}
	return "", false
}

// ParseMass reads an amount of the sweetener as it is measured: a weight, or where
// Household knows it a cup or spoon. Errors: *units.ParseError, *units.RangeError.
func (s Sweetener) ParseMass(text string) (units.Mass, error) {
	m, err := units.ParseMass(text)
	if err == nil {
		return m, nil
	}
	of, known := s.Household()
	if !known {
		return 0, err
	}
	v, err := units.ParseVolume(text)
	if err != nil {
		return 0, &units.ParseError{Text: text, Quantity: "amount of " + s.Name, Expected: []string{"a weight (500 g, 1 lb)", "a measure (2 1/2 cups)"}}
	}
	return additions.Weigh(of, v)
}
