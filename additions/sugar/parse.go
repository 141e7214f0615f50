package sugar

import (
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

var dextroseHydrate, honey = DextroseHydrate, HoneyAtLegalLimits

// sweetenerNames are the words for a sweetener of fixed composition; longer names
// stand before those they hold.
var sweetenerNames = []struct {
	name string
	is   *Sweetener
}{
	{"brown sugar", &sucrose}, {"white sugar", &sucrose}, {"grape sugar", &dextroseHydrate}, {"sugar", &sucrose}, {"sucrose", &sucrose},
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
// sugar", "1 tbsp honey", "1 kg syrup of 65 Bx". Sugar and honey may be measured
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
	m, err := weighed(s, amount)
	return s, m, err
}

func weighed(s Sweetener, amount string) (units.Mass, error) {
	switch s.Name {
	case sucrose.Name:
		return additions.ParseSugar(amount)
	case honey.Name:
		if v, err := units.ParseVolume(amount); err == nil {
			return additions.Weigh(additions.HoneyJar, v)
		}
	}
	return units.ParseMass(amount)
}
