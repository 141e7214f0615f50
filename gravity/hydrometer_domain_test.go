package gravity_test

import (
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestHydrometerRefusesSettings(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	h := gravity.NewHydrometer(units.Celsius(20))
	ok := gravity.TestReading{Shown: 1, True: 1}
	for name, bad := range map[string]gravity.Hydrometer{
		"cold":            gravity.NewHydrometer(units.Celsius(-1)),
		"warm":            gravity.NewHydrometer(units.Celsius(41)),
		"calibration NaN": gravity.NewHydrometer(units.Celsius(nan)),
		"water":           h.WithWater(units.Celsius(-0.1)),
		"water Inf":       h.WithWater(units.Celsius(inf)),
		"glass":           h.WithGlass(-1e-6),
		"glass too much":  h.WithGlass(1e-3),
		"glass NaN":       h.WithGlass(nan),
		"meniscus":        h.WithMeniscus(-0.001),
		"meniscus high":   h.WithMeniscus(0.006),
		"meniscus NaN":    h.WithMeniscus(gravity.SG(nan)),
		"test NaN":        h.WithTests(gravity.TestReading{Shown: gravity.SG(nan), True: 1}),
		"test Inf":        h.WithTests(ok, gravity.TestReading{Shown: 1.05, True: gravity.SG(inf)}),
		"tests alike":     h.WithTests(ok, gravity.TestReading{Shown: 1.001, True: 1}),
		"offset":          h.WithTests(gravity.TestReading{Shown: 1.021, True: 1}),
		"slope":           h.WithTests(ok, gravity.TestReading{Shown: 1.05, True: 1.056}),
	} {
		for _, call := range []func() (gravity.SG, error){
			func() (gravity.SG, error) { return bad.Correct(1.05, units.Celsius(20)) },
			func() (gravity.SG, error) { return bad.ReadingInMust(1.05, units.Celsius(20)) },
			func() (gravity.SG, error) { return bad.Shows(10, 50, units.Celsius(20)) },
			func() (gravity.SG, error) { return bad.CorrectIn(10, 1.02, units.Celsius(20)) },
			func() (gravity.SG, error) {
				b, err := bad.CorrectBrix(10, units.Celsius(20))
				return gravity.SG(b), err
			},
		} {
			if got, err := call(); !handbook.IsRange(err) || got != 0 {
				t.Errorf("%s: %v, %v", name, float64(got), err)
			}
		}
		if bad.String() == h.String() {
			t.Errorf("%s: the error is not shown", name)
		}
	}
}

func TestHydrometerRefusesReadings(t *testing.T) {
	h, nan, inf := gravity.NewHydrometer(units.Celsius(20)), math.NaN(), math.Inf(1)
	for _, x := range []float64{0.9810, 1.3500, 0, -1, nan, inf, -inf} {
		if got, err := h.Correct(gravity.SG(x), units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("reading %v: %v, %v", x, float64(got), err)
		}
		if got, err := h.ReadingInMust(gravity.SG(x), units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("gravity %v: %v, %v", x, float64(got), err)
		}
	}
	for _, x := range []float64{-0.01, 70.01, nan, inf, -inf} {
		if got, err := h.CorrectBrix(gravity.Brix(x), units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("%v Brix: %v, %v", x, float64(got), err)
		}
	}
	for _, at := range []float64{-0.1, 100.1, nan, inf, -inf} {
		at := units.Celsius(at)
		for _, call := range []func() (float64, error){
			func() (float64, error) { g, err := h.Correct(1.05, at); return float64(g), err },
			func() (float64, error) { g, err := h.ReadingInMust(1.05, at); return float64(g), err },
			func() (float64, error) { b, err := h.CorrectBrix(12, at); return float64(b), err },
			func() (float64, error) { g, err := h.Shows(12, 50, at); return float64(g), err },
			func() (float64, error) { g, err := h.CorrectIn(12, 1.01, at); return float64(g), err },
		} {
			if got, err := call(); !handbook.IsRange(err) || got != 0 {
				t.Errorf("at %v: %v, %v", at, got, err)
			}
		}
	}
	if got, err := h.Shows(12, 50, units.Celsius(40.1)); !handbook.IsRange(err) || got != 0 {
		t.Errorf("a wine at 40.1 C: %v, %v", float64(got), err)
	}
	for _, x := range []float64{-0.1, 100.1, nan, inf, -inf} {
		if got, err := h.Shows(units.Strength(x), 0, units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("%v %% vol: %v, %v", x, float64(got), err)
		}
		if got, err := h.CorrectIn(units.Strength(x), 1, units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("%v %% vol: %v, %v", x, float64(got), err)
		}
	}
	for _, x := range []float64{-0.1, 900, nan, inf, -inf} {
		if got, err := h.Shows(12, units.Concentration(x), units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("%v g/L: %v, %v", x, float64(got), err)
		}
	}
	// A reading below that of the dry wine means that the strength is higher.
	for _, x := range []float64{0.9840, 1.4, nan, inf, -inf} {
		if got, err := h.CorrectIn(12, gravity.SG(x), units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("reading %v at 12 %% vol: %v, %v", x, float64(got), err)
		}
	}
}

// Whatever comes in, what comes out is an error and zero, or finite and reversible.
func FuzzCorrect(f *testing.F) {
	f.Add(1.07, 27.0, 15.0, 12.0)
	f.Add(0.99, 0.0, 40.0, 100.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, math.Copysign(0, -1))
	f.Fuzz(func(t *testing.T, reading, at, calibration, strength float64) {
		h := gravity.NewHydrometer(units.Celsius(calibration))
		if g, err := h.Correct(gravity.SG(reading), units.Celsius(at)); err == nil {
			if back, err := h.ReadingInMust(g, units.Celsius(at)); err != nil || math.Abs(float64(back)-reading) > 1e-9 {
				t.Errorf("%v at %v: %v shows %v, %v", reading, at, float64(g), float64(back), err)
			}
		} else if !handbook.IsRange(err) || g != 0 {
			t.Errorf("%v at %v: %v, %v", reading, at, float64(g), err)
		}
		if g, err := h.CorrectIn(units.Strength(strength), gravity.SG(reading), units.Celsius(at)); err == nil {
			if !(g > 0.78 && g < 1.36) {
				t.Errorf("%v at %v in %v %% vol: %v", reading, at, strength, float64(g))
			}
		} else if !handbook.IsRange(err) || g != 0 {
			t.Errorf("%v at %v in %v %% vol: %v, %v", reading, at, strength, float64(g), err)
		}
	})
}
