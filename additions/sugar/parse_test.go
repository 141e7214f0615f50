package sugar_test

import (
	"testing"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/units"
)

func TestSweetenersByNameAndAmount(t *testing.T) {
	for text, want := range map[string]struct {
		name string
		mass units.Mass
	}{
		"500 g sugar":            {"sucrose", 500},
		"2 cups of sugar":        {"sucrose", 400}, // level: NDB no. 19335
		"2 1/2 cups sugar":       {"sucrose", 500},
		"1 lb sugar":             {"sucrose", units.Pound},
		"1 cup brown sugar":      {"brown sugar", 220}, // packed: USDA National Nutrient Database, NDB no. 19334
		"1 kg Honey":             {"honey", 1000},
		"300 g of dextrose":      {"dextrose monohydrate", 300},
		"1 kg syrup of 65 Bx":    {"sucrose syrup of 65 Bx", 1000},
		"1 kg concentrate of 65": {"invert syrup or concentrate of 65 Bx", 1000},
	} {
		s, m, err := sugar.ParseAmount(text)
		if err != nil || s.Name != want.name || m != want.mass {
			t.Errorf("%q: %v of %q, %v; want %v", text, m, s.Name, err, want)
		}
	}
	for _, text := range []string{"", "500 g", "much sugar", "5 C sugar", "-1 cup sugar", "sugar", "500 g salt", "1 kg syrup", "some honey", "1 L dextrose"} {
		if s, m, err := sugar.ParseAmount(text); err == nil {
			t.Errorf("%q: %v of %q", text, m, s.Name)
		}
	}
	for text, name := range map[string]string{"": "sucrose", "Brown sugar": "brown sugar", "honey": "honey", "glucose": "dextrose monohydrate"} {
		if s, err := sugar.ParseSweetener(text); err != nil || s.Name != name {
			t.Errorf("%q: %q, %v", text, s.Name, err)
		}
	}
}

// Sugar, brown sugar (packed) and honey have published weights by the cup (USDA
// National Nutrient Database, NDB no. 19335, 19334 and 19296); the others are
// weighed.
func TestWhatIsMeasuredByTheCup(t *testing.T) {
	for _, c := range []struct {
		of  sugar.Sweetener
		cup units.Mass
	}{{sugar.Sucrose, 200}, {sugar.BrownSugar, 220}, {sugar.HoneyAtLegalLimits, 339}} {
		if _, known := c.of.Household(); !known {
			t.Errorf("%s has no household weight", c.of.Name)
		}
		if m, err := c.of.ParseMass("1 cup"); err != nil || m != c.cup {
			t.Errorf("a cup of %s: %v, %v; want %v", c.of.Name, m, err, c.cup)
		}
	}
	if _, known := sugar.DextroseHydrate.Household(); known {
		t.Error("dextrose has a household weight")
	}
	if m, err := sugar.DextroseHydrate.ParseMass("1 cup"); err == nil {
		t.Errorf("a cup of dextrose weighs %v", m)
	}
}
