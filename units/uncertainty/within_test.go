package uncertainty_test

import (
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Limits are read as people write them, in whatever unit of the quantity.
func TestLimitsAreReadInAnyUnitOfTheQuantity(t *testing.T) {
	limits(t, units.ParseVolume, map[string][2]float64{
		"3 L": {3, 0}, "3 L ± 50": {3, 50}, "3 L ± 0.05 L": {3, 0.05}, "3 ± 0.05 L": {3, 0.05}, "3 L +/- 2 %": {3, 0.06},
		"3 L ± 50 mL": {3, 0.05}, "3,5 L ± 0,005": {3.5, 0.005}, "3 L ± 0,050 L": {3, 0.05}, "1 1/2 cups ± 5%": {1.5 * float64(units.USCup), 0.075 * float64(units.USCup)},
		"750 mL +- 1/2 fl oz": {0.75, 0.5 * float64(units.USFluidOunce)}, "3 L ± 0 mL": {3, 0},
	}, "3 L ± -1", "± 1", "3 L ±", "3 L ± much", "3 L ± 50 g", "3 ± 2 %", "1,500 L ± 1", "3 L ± -5 mL")
	limits(t, units.ParseStrength, map[string][2]float64{"40 % vol ± 0.3": {40, 0.3}, "40 % vol ± 0.3%": {40, 0.3}, "80 proof ± 1 %": {40, 0.4}, "40 % vol ± 1 proof": {40, 0.5}})
	limits(t, gravity.Parse, map[string][2]float64{"1.092 ± 0.001": {1.092, 0.001}, "1,057 ± 0,001": {1.057, 0.001}, "1057 ± 1": {1.057, 0.001}, "1.057 ± 1 Oe": {1.057, 0.001}, "92 Oe ± 1": {1.092, 0.001}},
		"1.057 ± 1 Be", "1.057 ± 1 L")
	limits(t, units.ParseTemperature, map[string][2]float64{"20 C ± 1 K": {293.15, 1}, "68 F ± 1 F": {293.15, 5. / 9}, "68 F ± 1": {293.15, 5. / 9}, "20 C ± 1.8 F": {293.15, 1}, "68 F ± 0.1 K": {293.15, 0.1}, "293.15 K ± 1 C": {293.15, 1}, "293.15 K ± 1": {293.15, 1}})
}

func limits[T ~float64](t *testing.T, parse func(string) (T, error), read map[string][2]float64, refused ...string) {
	t.Helper()
	for text, want := range read {
		value, limit, err := uncertainty.Within(parse, "amount", text)
		if err != nil || math.Abs(float64(value)-want[0]) > 1e-12*want[0] || math.Abs(limit-want[1]) > 1e-10*(1+want[1]) {
			t.Errorf("%q: %v ± %v, %v; want %v", text, float64(value), limit, err, want)
		}
	}
	for _, text := range refused {
		if value, limit, err := uncertainty.Within(parse, "amount", text); err == nil {
			t.Errorf("%q: %v ± %v", text, float64(value), limit)
		}
	}
}

// The value lies within its limits 19 times in 20.
func TestLimitsAreNineteenInTwenty(t *testing.T) {
	in := uncertainty.LimitInput("gravity", 1.092, 0.001)
	r := uncertainty.Result{Value: in.Value, Standard: in.Standard}
	low, high, err := r.Interval(0.95)
	if err != nil || math.Abs(low-1.091) > 1e-7 || math.Abs(high-1.093) > 1e-7 {
		t.Errorf("%v to %v, %v", low, high, err)
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
