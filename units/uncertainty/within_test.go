package uncertainty_test

import (
	"math"
	"testing"

	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

func TestSplitWithin(t *testing.T) {
	for text, want := range map[string][2]string{
		"3 L":             {"3 L", ""},
		"3 L ± 50":        {"3 L", "53 l"},
		"3 L ± 0.05 L":    {"3 L", "3.05 l"},
		"3 ± 0.05 L":      {"3 l", "3.05 l"},
		"3 L +/- 2 %":     {"3 L", "3.06 l"},
		"40 % vol ± 0.3":  {"40 % vol", "40.3 % vol"},
		"40 % vol ± 0.3%": {"40 % vol", "40.3 % vol"},
		"1.092 ± 0.001":   {"1.092", "1.093"},
		"68 F ± 2":        {"68 F", "70 f"},
		"1 1/2 cups ± 5%": {"1 1/2 cups", "1.575 cups"},
	} {
		value, upper, err := uncertainty.SplitWithin("amount", text)
		if err != nil || value != want[0] || upper != want[1] {
			t.Errorf("%q: %q, %q, %v; want %q", text, value, upper, err, want)
		}
	}
	for _, text := range []string{"3 L ± 50 mL", "3 L ± -1", "± 1", "3 L ±", "3 L ± much"} {
		if value, upper, err := uncertainty.SplitWithin("amount", text); err == nil {
			t.Errorf("%q: %q, %q", text, value, upper)
		}
	}
}

func TestTolerances(t *testing.T) {
	for _, tolerance := range uncertainty.Tolerances() {
		if tolerance.Name == "" || tolerance.Source == "" || !(tolerance.HalfWidth > 0) {
			t.Errorf("%+v", tolerance)
		}
	}
	if got := uncertainty.ToleranceJug.Of(-2); math.Abs(got-0.06) > 1e-15 {
		t.Errorf("a jug of 2 L: %v", got)
	}
	if got := uncertainty.ToleranceSpirit.Of(40); got != 0.3 {
		t.Errorf("a label: %v", got)
	}
}

func TestScale(t *testing.T) {
	a, b := 2.0, 3.0
	if err := units.Scale(2.5, &a, &b); err != nil || a != 5 || b != 7.5 {
		t.Errorf("%v, %v, %v", a, b, err)
	}
	for _, by := range []float64{0, -1, math.NaN(), math.Inf(1), 1e6} {
		if err := units.Scale(by, &a); err == nil || a != 5 {
			t.Errorf("by %v: %v, %v", by, a, err)
		}
	}
}

func TestWithin(t *testing.T) {
	v, half, err := uncertainty.Within(units.ParseVolume, "volume", "26 fl oz ± 2 %")
	if err != nil || v != 26*units.USFluidOunce || math.Abs(half-0.52*float64(units.USFluidOunce)) > 1e-12 {
		t.Errorf("%v, %v, %v", v, half, err)
	}
	if c, half, err := uncertainty.Within(units.ParseTemperature, "temperature", "68 F ± 9"); err != nil || math.Abs(c.Celsius()-20) > 1e-12 || math.Abs(half-5) > 1e-12 {
		t.Errorf("%v, %v, %v", c, half, err)
	}
	if s, half, err := uncertainty.Within(units.ParseStrength, "strength", "80 proof"); err != nil || s != 40 || half != 0 {
		t.Errorf("%v, %v, %v", s, half, err)
	}
	for _, text := range []string{"", "99 % vol ± 5", "40 % vol ± much"} {
		if s, half, err := uncertainty.Within(units.ParseStrength, "strength", text); err == nil {
			t.Errorf("%q: %v, %v", text, s, half)
		}
	}
}
