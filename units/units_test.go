package units_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/mutage/units"
)

func TestParseVolume(t *testing.T) {
	for text, want := range map[string]units.Volume{
		"1 1/2 cups":     1.5 * units.USCup,
		"1½ cups":        1.5 * units.USCup,
		"3/4 gal":        0.75 * units.USGallon,
		"¾ gal":          0.75 * units.USGallon,
		"26 fl oz":       26 * units.USFluidOunce,
		"26 fl. oz.":     26 * units.USFluidOunce,
		"2 fluid ounces": 2 * units.USFluidOunce,
		"750ml":          0.75, "750 mL": 0.75,
		"1,5 L": 1.5, "0,75L": 0.75, "1.500 L": 1.5,
		"1,234.5 mL": 1.2345, "1.234,5 ml": 1.2345, "1,234,567 ml": 1234.567,
		"1e-1 hL":           10,
		"+ 2 quarts":        2 * units.USQuart,
		"5 imperial pints":  5 * units.ImperialPint,
		"1 imperial gallon": units.ImperialGallon,
		"2 label teaspoons": 2 * units.LabelTeaspoon,
		"1 tsp":             units.USTeaspoon,
		"3 tbsp":            3 * units.USTablespoon,
		"0 L":               0,
	} {
		got, err := units.ParseVolume(text)
		if err != nil || math.Abs(float64(got-want)) > 1e-15*float64(want) {
			t.Errorf("%q: %v, %v; want %v", text, float64(got), err, float64(want))
		}
	}
}

func TestParseOthers(t *testing.T) {
	check := func(text string, got, want float64, err error) {
		t.Helper()
		if err != nil || math.Abs(got-want) > 1e-12*max(1, math.Abs(want)) {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	m, err := units.ParseMass("2 1/2 lbs")
	check("2 1/2 lbs", float64(m), 2.5*453.59237, err)
	for text, want := range map[string]float64{"100 proof": 50, "40 % vol": 40, "40%": 40, "40.5 % ABV": 40.5, "12,5 %vol": 12.5} {
		s, err := units.ParseStrength(text)
		check(text, float64(s), want, err)
	}
	for text, want := range map[string]float64{"68 F": 20, "20°C": 20, "-4 °F": -20, "−5 C": -5, "293.15 K": 20} {
		c, err := units.ParseTemperature(text)
		check(text, c.Celsius(), want, err)
	}
	p, err := units.ParsePressure("30 psi")
	check("30 psi", p.In(units.Bar), 2.0684271879504, err) // 30 x 6.894757293168 kPa
	c, err := units.ParseConcentration("50 mg/l")
	check("50 mg/l", float64(c), 0.05, err)
	c, err = units.ParseConcentration("14.2 g/100 mL")
	check("14.2 g/100 mL", float64(c), 142, err)
	d, err := units.ParseDensity("1.046 g/mL")
	check("1.046 g/mL", float64(d), 1046, err)
	w, err := units.ParseMassPercent("33.3 % mass")
	check("33.3 % mass", float64(w), 33.3, err)
}

func TestParseRefuses(t *testing.T) {
	for text, part := range map[string]string{
		"1,500 L":                           "1500 (thousands) or 1.500 (decimal)",
		"12 kg":                             "expected l, ml",
		"5 oz":                              "fl oz",
		"5":                                 "expected l, ml",
		"":                                  "a number such as",
		"L":                                 "a number such as",
		"1/0 L":                             "a fraction",
		"1 1/0 L":                           "a fraction",
		"1.5 1/2 L":                         "a fraction",
		"-1 L":                              "at least 0 L",
		"NaN L":                             "a number such as",
		"Inf L":                             "a number such as",
		"1e400 L":                           "a number such as",
		"1e99 L":                            "a number such as",
		"1..5 L":                            "groups of three",
		"1,23,4 L":                          "groups of three",
		"1. L":                              "a digit behind",
		"1,2345 L":                          "one or two digits",
		"\xff L":                            "UTF-8",
		"1 L of wine":                       "expected l, ml",
		"1 / 2 L":                           "a fraction",
		"40 % vol":                          "expected l, ml",
		"1 2 L":                             "a fraction",
		"1234567890123456789012345678901 L": "at most 30 digits",
	} {
		v, err := units.ParseVolume(text)
		var parse *units.ParseError
		var outside *units.RangeError
		if !errors.As(err, &parse) && !errors.As(err, &outside) || v != 0 || !strings.Contains(err.Error(), part) {
			t.Errorf("%q: %v, %v; want an error with %q", text, v, err, part)
		}
	}
	if _, err := units.ParseStrength("202 proof"); err == nil || !strings.Contains(err.Error(), "0 to 100 % vol") {
		t.Errorf("202 proof: %v", err)
	}
	if _, err := units.ParseTemperature("-300 C"); err == nil {
		t.Error("-300 C was read")
	}
	if _, err := units.ParseVolume(strings.Repeat("1", 1<<20)); err == nil || len(err.Error()) > 300 {
		t.Error("a very long text: no error, or one as long")
	}
}

// The constants against the factors of the unit table, and each other.
func TestExactFactors(t *testing.T) {
	for text, want := range map[string]units.Volume{
		"1 gal": units.USGallon, "1 qt": units.USQuart, "1 pt": units.USPint, "1 cup": units.USCup,
		"1 fl oz": units.USFluidOunce, "1 tbsp": units.USTablespoon, "1 tsp": units.USTeaspoon,
		"1 imperial gal": units.ImperialGallon, "1 imperial pt": units.ImperialPint, "1 imperial fl oz": units.ImperialFluidOunce,
		"1 label tbsp": units.LabelTablespoon, "1 label tsp": units.LabelTeaspoon,
		"1 ml": units.Millilitre, "1 hl": units.Hectolitre,
	} {
		if got, err := units.ParseVolume(text); err != nil || math.Abs(float64(got/want)-1) > 1e-15 {
			t.Errorf("%s: %v, constant %v, %v", text, float64(got), float64(want), err)
		}
	}
	for text, want := range map[string]units.Mass{"1 oz": units.Ounce, "1 lb": units.Pound, "1 mg": units.Milligram, "1 kg": units.Kilogram} {
		if got, err := units.ParseMass(text); err != nil || math.Abs(float64(got/want)-1) > 1e-15 {
			t.Errorf("%s: %v, constant %v, %v", text, float64(got), float64(want), err)
		}
	}
	for text, want := range map[string]units.Pressure{"1 psi": units.PSI, "1 atm": units.Atmosphere, "1 bar": units.Bar} {
		if got, err := units.ParsePressure(text); err != nil || math.Abs(float64(got/want)-1) > 1e-15 {
			t.Errorf("%s: %v, constant %v, %v", text, float64(got), float64(want), err)
		}
	}
	if got := units.Fahrenheit(68).Celsius(); math.Abs(got-20) > 1e-13 {
		t.Errorf("68 F is %v C", got)
	}
	if got := units.Celsius(20).Fahrenheit(); math.Abs(got-68) > 1e-13 {
		t.Errorf("20 C is %v F", got)
	}
}

func TestRoundTrip(t *testing.T) {
	for _, x := range []float64{0, 1e-5, 0.001234567891, 0.3, 1.0 / 3, 26.5, 1234.5678, 99999999} {
		v := units.Volume(x)
		read, err := units.ParseVolume(v.String())
		if err != nil || read.String() != v.String() {
			t.Errorf("%v printed as %q reads %v, %v", x, v, float64(read), err)
		}
		text, err := v.MarshalText()
		if err != nil {
			t.Error(err)
		}
		if err := read.UnmarshalText(text); err != nil || read != v {
			t.Errorf("%v written as %q reads %v, %v", x, text, float64(read), err)
		}
	}
	type cellar struct {
		Volume      units.Volume
		Strength    units.Strength
		Temperature units.Temperature
	}
	in := cellar{1.0 / 3, 40.1, units.Celsius(-5.25)}
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	var out cellar
	if err := json.Unmarshal(text, &out); err != nil || in != out {
		t.Errorf("%s reads %v, %v", text, out, err)
	}
	if _, err := units.Volume(math.NaN()).MarshalText(); err == nil {
		t.Error("NaN was written")
	}
	kept := 3 * units.Litre
	if err := kept.Set("much"); err == nil || kept != 3 {
		t.Errorf("Set after an error: %v, %v", kept, err)
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		v      units.Volume
		unit   units.Volume
		places int32
		want   string
	}{
		{1.005, units.Litre, 2, "1.01"}, // half away from zero on the decimal as written
		{0.75, units.Millilitre, 0, "750"},
		{units.USGallon, units.Litre, 3, "3.785"},
		{12345, units.Litre, -2, "12300"},
		{units.Volume(math.NaN()), units.Litre, 2, "0"},
	} {
		if got := c.v.Decimal(c.unit, c.places).String(); got != c.want {
			t.Errorf("%v in %v to %d places: %s, want %s", float64(c.v), float64(c.unit), c.places, got, c.want)
		}
	}
}

func FuzzScan(f *testing.F) {
	for _, s := range []string{"1 1/2 cups", "¾ gal", "1,5 L", "1,500 L", "1.234,5 ml", "1e3 g", "-5 °C", "½", "1/2/3", "100 proof", "1\u00a0000 L"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := units.ParseVolume(text)
		if err != nil {
			if v != 0 || len(err.Error()) > 4000 {
				t.Errorf("%q: %v with an error of %d bytes", text, v, len(err.Error()))
			}
			return
		}
		if !(v >= 0) || math.IsInf(float64(v), 0) {
			t.Errorf("%q reads %v", text, float64(v))
		}
		if back, err := units.ParseVolume(v.String()); v > 1e-15 && v < 1e15 && (err != nil || back.String() != v.String()) {
			t.Errorf("%q reads %s, which reads %v, %v", text, v, back, err)
		}
	})
}

func ExampleParseVolume() {
	jar, _ := units.ParseVolume("1 1/2 gal")
	fmt.Println(jar, "or", jar.Decimal(units.USCup, 1), "cups")
	_, err := units.ParseVolume("1,500 L")
	fmt.Println(err)
	_, err = units.ParseVolume("2 kg")
	fmt.Println(errors.As(err, new(*units.ParseError)))
	// Output:
	// 5.67812 L or 24 cups
	// volume "1,500 L": expected 1500 (thousands) or 1.500 (decimal) written without the comma
	// true
}

func TestScanAndCheck(t *testing.T) {
	n, unit, err := units.Scan("amount", "1 1/2  Fluid   Ounces")
	if err != nil || n.String() != "1.5" || unit != "fluid ounces" {
		t.Errorf("%v, %q, %v", n, unit, err)
	}
	if err := units.Check("x", 1, 0, 2, "", ""); err != nil {
		t.Error(err)
	}
	for _, x := range []float64{-1, 3, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if err := units.Check("x", x, 0, 2, "L", "here"); err == nil || !strings.Contains(err.Error(), "0 to 2 L (here)") {
			t.Errorf("%v: %v", x, err)
		}
		if err := units.Check("x", x, math.Inf(-1), math.Inf(1), "", ""); (err == nil) != (math.Abs(x) < 9) {
			t.Errorf("%v without bounds: %v", x, err)
		}
	}
}

// A label states sugar by the serving, a tasting trial a weight in a glass.
func TestAMassInAVolumeIsAConcentration(t *testing.T) {
	for text, want := range map[string]units.Concentration{
		"26 g per 240 mL":    26 / 0.24,
		"0.2 g in 100 mL":    2,
		"36 g per label cup": 150,
		"500 mg / 1 L":       0.5,
		"5 oz/gal":           5 * 28.349523125 / 3.785411784,
	} {
		got, err := units.ParseConcentration(text)
		if err != nil || math.Abs(float64(got/want)-1) > 1e-12 {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"26 g per", "26 g per 0 mL", "26 L per 240 mL", "26 g per 240 g", "g per L"} {
		if got, err := units.ParseConcentration(text); err == nil {
			t.Errorf("%q: %v, want an error", text, got)
		}
	}
	if c, err := (26 * units.Gram).Per(240 * units.Millilitre); err != nil || c.Mass(240*units.Millilitre) != 26 {
		t.Errorf("%v, %v", c, err)
	}
	if _, err := units.Mass(1).Per(0); err == nil {
		t.Error("a mass in no volume has a concentration")
	}
}
