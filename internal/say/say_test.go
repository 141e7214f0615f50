package say

import (
	"strings"
	"testing"

	"example.org/mutage/units"
)

// Both sides of every size at which another unit, or another place, is read.
func TestVolumesAsACellarReadsThem(t *testing.T) {
	gallon, ounce := units.USGallon, units.USFluidOunce
	imperial, imperialOunce := units.ImperialGallon, units.ImperialFluidOunce
	for _, c := range []struct {
		system System
		volume units.Volume
		want   string
	}{
		{Metric, 1234.4, "1,234 L"}, {Metric, 123456.7, "123,457 L"}, {Metric, 1234567.8, "1,234,568 L"}, {Metric, 100.2, "100 L"}, {Metric, 99.94, "99.9 L"},
		{Metric, 10.04, "10.0 L"}, {Metric, 9.994, "9.99 L"}, {Metric, 0.996, "1.00 L"}, {Metric, 0.994, "994 mL"},
		{Metric, 0.0096, "10 mL"}, {Metric, 0.0094, "9.4 mL"}, {Metric, 0, "0.0 mL"}, {Metric, -1234.4, "-1,234 L"}, {Metric, -0.994, "-994 mL"},
		{US, 10.01 * gallon, "10.0 gal"}, {US, 9.99 * gallon, "9.99 gal"}, {US, 1.001 * gallon, "1.00 gal"}, {US, gallon, "1.00 gal"}, {US, 0.999 * gallon, "127.9 fl oz"},
		{US, 3.01 * ounce, "3.0 fl oz"}, {US, 2.99 * ounce, "2.99 fl oz"},
		{Imperial, 10.01 * imperial, "10.0 imp gal"}, {Imperial, 9.99 * imperial, "9.99 imp gal"}, {Imperial, 1.001 * imperial, "1.00 imp gal"},
		{Imperial, 0.999 * imperial, "159.8 imp fl oz"}, {Imperial, 3.01 * imperialOunce, "3.0 imp fl oz"}, {Imperial, 2.99 * imperialOunce, "2.99 imp fl oz"},
		{System(9), 0.994, "994 mL"}, {System(-1), 0.994, "994 mL"},
	} {
		if got := c.system.Volume(c.volume); got != c.want {
			t.Errorf("%v, %v: %q, expected %q", c.system, float64(c.volume), got, c.want)
		}
	}
}

// A pound is 453.59237 g, an ounce its sixteenth.
func TestMassesAsACellarReadsThem(t *testing.T) {
	for _, c := range []struct {
		system System
		mass   units.Mass
		want   string
	}{
		{Metric, 9996, "10.00 kg"}, {Metric, 9994, "9,994 g"}, {Metric, 9.96, "10 g"}, {Metric, 9.94, "9.94 g"},
		{US, 454, "1.00 lb"}, {US, 907.18474, "2.00 lb"}, {US, 453, "16.0 oz"}, {US, 101, "3.6 oz"}, {US, 99, "3.49 oz"}, {US, 9.96, "0.35 oz"}, {US, 9.94, "9.94 g"},
		{Imperial, 454, "1.00 lb"}, {Imperial, 453, "16.0 oz"}, {Imperial, 101, "3.6 oz"}, {Imperial, 99, "3.49 oz"}, {Imperial, 9.96, "0.35 oz"}, {Imperial, 9.94, "9.94 g"},
	} {
		if got := c.system.Mass(c.mass); got != c.want {
			t.Errorf("%v, %v: %q, expected %q", c.system, float64(c.mass), got, c.want)
		}
	}
}

// Limits stand in the unit of the value and to its places.
func TestLimitsAsTheirValues(t *testing.T) {
	if got := Metric.VolumeLimit(3, 0.05); got != "0.05" {
		t.Errorf("3 L ± %q", got)
	}
	if got := Metric.VolumeLimit(0.5, 0.02); got != "20" {
		t.Errorf("500 mL ± %q", got)
	}
	if got := Metric.MassLimit(12000, 500); got != "0.50" {
		t.Errorf("12 kg ± %q", got)
	}
	if got := US.MassLimit(200, 10); got != "0.4" { // 10 g of 28.35
		t.Errorf("7.1 oz ± %q", got)
	}
}

// What is enough is not rounded below it, and what is not too much not above it.
func TestWhatIsEnoughIsRoundedOutward(t *testing.T) {
	for got, want := range map[string]string{
		Metric.VolumeFrom(0.7761, true): "777 mL", Metric.VolumeFrom(0.7769, false): "776 mL",
		Metric.VolumeFrom(1.741, true): "1.75 L", US.VolumeFrom(0.1, true): "3.4 fl oz", US.VolumeFrom(0.1, false): "3.3 fl oz", // 3.38
		StrengthFrom(18.01, true): "18.1 % vol", StrengthFrom(18.09, false): "18.0 % vol", StrengthFrom(18.4, true): "18.4 % vol", StrengthFrom(18.6, false): "18.6 % vol",
	} {
		if got != want {
			t.Errorf("%q, expected %q", got, want)
		}
	}
}

func TestTheRestAsACellarReadsIt(t *testing.T) {
	for got, want := range map[string]string{
		Metric.Temperature(units.Celsius(18)): "18 C", US.Temperature(units.Celsius(18)): "64 F", Imperial.Temperature(units.Celsius(20)): "68 F", System(9).Temperature(units.Celsius(21)): "21 C",
		Concentration(0.9994): "999 mg/L", Concentration(0.9996): "1 g/L", Concentration(0): "0 g/L", Concentration(1234): "1,234 g/L",
		System(9).String(): "system 9", System(-1).String(): "system -1", US.String(): "us", Imperial.String(): "imperial", Strength(20.04): "20.0 % vol", Gravity(1.0564): "1.056",
	} {
		if got != want {
			t.Errorf("%q, expected %q", got, want)
		}
	}
}

func TestNamesOf60Characters(t *testing.T) {
	for text, ok := range map[string]bool{
		"": false, " ": false, "m": true, strings.Repeat("ö", 60): true, strings.Repeat("ö", 61): false, "two\nlines": false, "turned \u202e": false, "\xff": false,
	} {
		if got, err := Name(text); (err == nil) != ok || ok && got != strings.TrimSpace(text) {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
}

// Letters inserted, removed, changed and swapped, counted by hand; the word nearest by
// that, and none where more than half of the letters would change.
func TestNearestWord(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"must", "", 4}, {"", "must", 4}, {"must", "must", 0}, {"mst", "must", 1}, {"musts", "must", 1}, {"mist", "must", 1}, {"msut", "must", 1},
		{"umts", "must", 2}, {"kitten", "sitting", 3}, {"racked", "packet", 2}, {"ab", "cdab", 2}, {"cdab", "ab", 2}, {"abcd", "badc", 2}, {"volume", "emulov", 5}, {"ca", "abc", 3},
	} {
		if got := distance(c.a, c.b); got != c.want {
			t.Errorf("from %q to %q: %d, expected %d", c.a, c.b, got, c.want)
		}
	}
	words := []string{"must_reading", "stop_reading", "must"}
	for text, want := range map[string]string{"must_redaing": "must_reading", "STOP_READNG": "stop_reading", "mu": "must", "m": "", "xyz": ""} {
		if got, ok := Nearest(text, words); ok != (want != "") || ok && got != want {
			t.Errorf("%q: %q, %v", text, got, ok)
		}
	}
}
