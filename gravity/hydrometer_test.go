package gravity_test

import (
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// hydrometers of every kind.
func hydrometers() map[string]gravity.Hydrometer {
	return map[string]gravity.Hydrometer{
		"zero value":   {},
		"60 F":         gravity.NewHydrometer(units.Fahrenheit(60)),
		"20/4":         gravity.Basis20C4C.Hydrometer(),
		"17.5 C":       gravity.NewHydrometer(units.Celsius(17.5)),
		"plastic":      gravity.NewHydrometer(units.Celsius(20)).WithGlass(200e-6),
		"read at top":  gravity.NewHydrometer(units.Celsius(15)).WithMeniscus(0.0015),
		"one test":     gravity.NewHydrometer(units.Celsius(20)).WithTests(gravity.TestReading{Shown: 1.002, True: 1}),
		"two tests":    gravity.NewHydrometer(units.Celsius(20)).WithTests(gravity.TestReading{Shown: 1.002, True: 1}, gravity.TestReading{Shown: 1.080, True: 1.083}),
		"all together": gravity.NewHydrometer(units.Celsius(17.5)).WithWater(units.Celsius(4)).WithGlass(10e-6).WithMeniscus(0.002).WithTests(gravity.TestReading{Shown: 0.999, True: 1.001}),
	}
}

func TestHydrometerRoundTrip(t *testing.T) {
	for name, h := range hydrometers() {
		for _, at := range []units.Temperature{units.Celsius(0), units.Celsius(10), units.Celsius(20), units.Celsius(27), units.Celsius(40), units.Celsius(100)} {
			last := 0.0
			for g := gravity.SG(0.982); g < 1.345; g += 0.0121 {
				shown, err := h.ReadingInMust(g, at)
				if err != nil || float64(shown) <= last {
					t.Fatalf("%s, %v at %v: shows %v after %v, %v", name, float64(g), at, float64(shown), last, err)
				}
				last = float64(shown)
				back, err := h.Correct(shown, at)
				if err != nil || math.Abs(float64(back-g)) > 1e-10 {
					t.Errorf("%s at %v: %v comes back as %v, %v", name, at, float64(g), float64(back), err)
				}
			}
		}
	}
}

func TestHydrometerAtItsOwnTemperature(t *testing.T) {
	// The zero value is the common hydrometer: nothing to correct at 20 C.
	for _, h := range []gravity.Hydrometer{{}, gravity.NewHydrometer(units.Celsius(20)), gravity.Basis20C.Hydrometer()} {
		for g := gravity.SG(0.99); g < 1.3; g += 0.017 {
			if got, err := h.Correct(g, units.Celsius(20)); err != nil || math.Abs(float64(got-g)) > 1e-12 {
				t.Errorf("%v at 20 C: %v, %v", float64(g), float64(got), err)
			}
		}
	}
	if h := (gravity.Hydrometer{}); h != gravity.NewHydrometer(units.Celsius(20)) {
		t.Errorf("zero value is %v", h)
	}
	// Water shows 1.000 at the temperature of a hydrometer, whatever that is.
	for _, at := range []units.Temperature{units.Celsius(0), units.Celsius(4), units.Celsius(15), units.Fahrenheit(60), units.Celsius(30)} {
		if got, err := gravity.NewHydrometer(at).Correct(1, at); err != nil || math.Abs(float64(got)-1) > 1e-12 {
			t.Errorf("water at %v: %v, %v", at, float64(got), err)
		}
	}
	// On 20/4 it shows its density in g/mL.
	if got, err := gravity.Basis20C4C.Hydrometer().ReadingInMust(1, units.Celsius(20)); err != nil || math.Abs(float64(got)-0.99823) > 1e-5 {
		t.Errorf("water on 20/4: %v, %v", float64(got), err)
	}
}

// Warm must reads low, so the correction is up; the other way round when cold.
func TestHydrometerDirection(t *testing.T) {
	h := gravity.NewHydrometer(units.Celsius(20))
	last := gravity.SG(0)
	for at := units.Celsius(0); at <= units.Celsius(60); at++ {
		got, err := h.Correct(1.070, at)
		if err != nil || at > units.Celsius(4) && got <= last { // water is densest at 4 C
			t.Errorf("at %v: %v after %v, %v", at, float64(got), float64(last), err)
		}
		last = got
	}
}

func TestScaleError(t *testing.T) {
	low, high := gravity.TestReading{Shown: 1.002, True: 1.000}, gravity.TestReading{Shown: 1.083, True: 1.086}
	h := gravity.NewHydrometer(units.Celsius(20)).WithTests(low, high)
	for _, test := range []gravity.TestReading{low, high, {Shown: 1.0425, True: 1.0430}} { // the third lies between
		if got, err := h.Correct(test.Shown, units.Celsius(20)); err != nil || math.Abs(float64(got-test.True)) > 1e-9 {
			t.Errorf("%v: %v, %v; want %v", float64(test.Shown), float64(got), err, float64(test.True))
		}
	}
	// A third test on the same line changes nothing.
	if g := gravity.NewHydrometer(units.Celsius(20)).WithTests(low, high, gravity.TestReading{Shown: 1.0425, True: 1.0430}); !sameScale(t, g, h) {
		t.Errorf("%v, want %v", g, h)
	}
	// Read at the top of the meniscus, the scale number is too low.
	if got, err := gravity.NewHydrometer(units.Celsius(20)).WithMeniscus(0.0015).Correct(1.0685, units.Celsius(20)); err != nil || math.Abs(float64(got)-1.07) > 1e-9 {
		t.Errorf("at the top of the meniscus: %v, %v", float64(got), err)
	}
}

func sameScale(t *testing.T, a, b gravity.Hydrometer) bool {
	t.Helper()
	for g := gravity.SG(1); g < 1.2; g += 0.05 {
		x, err := a.Correct(g, units.Celsius(20))
		y, err2 := b.Correct(g, units.Celsius(20))
		if err != nil || err2 != nil || math.Abs(float64(x-y)) > 1e-12 {
			return false
		}
	}
	return true
}

func TestCorrectIn(t *testing.T) {
	for name, h := range hydrometers() {
		for strength := units.Strength(0); strength <= 100; strength += 12.5 {
			for _, extract := range []units.Concentration{0, 20, 140} {
				if strength > 75 && extract > 0 {
					continue
				}
				for _, at := range []units.Temperature{units.Celsius(0), units.Celsius(12), units.Celsius(20), units.Celsius(40)} {
					shown, err := h.Shows(strength, extract, at)
					if err != nil {
						t.Fatal(err)
					}
					got, err := h.CorrectIn(strength, shown, at)
					litre, _ := liquid.PerLitre(strength, extract)
					if want := litre.Mass() / density.Water20; err != nil || math.Abs(float64(got)-want) > 1e-9 {
						t.Errorf("%s, %v with %v at %v shows %v: %v, %v; want %v", name, strength, extract, at, float64(shown), float64(got), err, want)
					}
				}
			}
		}
	}
}

// Without alcohol the liquid is a sugar solution, with it the sugar correction
// errs by as much as the comment of Correct states.
func TestAlcoholMatters(t *testing.T) {
	h := gravity.NewHydrometer(units.Celsius(20))
	for at := units.Celsius(5); at <= units.Celsius(35); at += units.Celsius(5) {
		shown, err := h.Shows(0, 100, at)
		if err != nil {
			t.Fatal(err)
		}
		g, err := gravity.OfExtract(100)
		if err != nil {
			t.Fatal(err)
		}
		if want, err := h.ReadingInMust(g, at); err != nil || math.Abs(float64(shown-want)) > 1e-9 {
			t.Errorf("at %v: %v, as sugar solution %v, %v", at, float64(shown), float64(want), err)
		}
	}
	for _, c := range []struct {
		strength units.Strength
		extract  units.Concentration
		from, to float64 // as the doc of Correct states them, to half a digit
	}{{12, 60, 0.000065, 0.000085}, {18, 100, 0.000155, 0.000175}} {
		for _, at := range []units.Temperature{units.Celsius(10), units.Celsius(30)} {
			shown, err := h.Shows(c.strength, c.extract, at)
			if err != nil {
				t.Fatal(err)
			}
			right, err := h.CorrectIn(c.strength, shown, at)
			if err != nil {
				t.Fatal(err)
			}
			plain, err := h.Correct(shown, at)
			if err != nil {
				t.Fatal(err)
			}
			got := float64(right-plain) / (at.Celsius() - 20)
			t.Logf("%v at %v: the sugar correction is %.5f off, %.6f per C", c.strength, at, float64(plain-right), got)
			if got < c.from || got > c.to {
				t.Errorf("%v at %v: %.6f per C, stated from %.6f to %.6f", c.strength, at, got, c.from, c.to)
			}
		}
	}
}

func TestCorrectWithin(t *testing.T) {
	h := gravity.NewHydrometer(units.Celsius(20))
	reading, at := uncertainty.RectangularInput("reading", 1.070, 0.001), uncertainty.Input{Name: "temperature", Value: 27, Standard: 0.5}
	r, err := h.CorrectWithin(reading, at)
	if err != nil {
		t.Fatal(err)
	}
	if want, _ := h.Correct(1.070, units.Celsius(27)); math.Abs(r.Value-float64(want)) > 1e-15 {
		t.Errorf("value %v, corrected %v", r.Value, float64(want))
	}
	// By hand: 0.001/sqrt(3) for the reading, 0.5 C of about 0.00025 per C, 0.00005.
	if want := math.Sqrt(0.001*0.001/3 + 0.5*0.5*0.00026*0.00026 + 0.00005*0.00005); math.Abs(r.Standard-want) > 0.05*want {
		t.Errorf("standard uncertainty %v, by hand %v", r.Standard, want)
	}
	if len(r.Budget) != 3 || r.Budget[2].Name != "model" {
		t.Errorf("budget %v", r.Budget)
	}
	for _, bad := range []uncertainty.Input{{Value: 2}, {Value: math.NaN()}, {Value: 1.07, Standard: -1}, {Value: 1.07, Standard: math.Inf(1)}} {
		if _, err := h.CorrectWithin(bad, at); !handbook.IsRange(err) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// Water with a strength of nothing is must; with a strength, that counts too.
func TestCorrectInWithin(t *testing.T) {
	h := gravity.NewHydrometer(units.Celsius(20))
	reading, at := uncertainty.RectangularInput("reading", 1.020, 0.001), uncertainty.Input{Name: "temperature", Value: 27, Standard: 0.5}
	for _, strength := range []uncertainty.Input{{}, {Value: 12}, {Value: 12, Standard: 1}} {
		r, err := h.CorrectInWithin(strength, reading, at)
		if err != nil {
			t.Fatal(err)
		}
		if want, _ := h.CorrectIn(units.Strength(strength.Value), 1.020, units.Celsius(27)); math.Abs(r.Value-float64(want)) > 1e-15 {
			t.Errorf("value %v, corrected %v", r.Value, float64(want))
		}
		least, _ := h.CorrectWithin(reading, at)
		if r.Standard < 0.99*least.Standard || r.Standard > 1.2*least.Standard || len(r.Budget) != 4 {
			t.Errorf("%+v: %v, as must %v", strength, r, least)
		}
		// 1 % vol changes the result by less than 0.0002, as CorrectIn says.
		if c := r.Budget[2]; c.Uncertainty > 0.0002 || (c.Uncertainty > 0) != (strength.Standard > 0) {
			t.Errorf("%+v: strength brings %v", strength, c.Uncertainty)
		}
	}
	if _, err := h.CorrectInWithin(uncertainty.Input{Value: 101}, reading, at); !handbook.IsRange(err) {
		t.Error(err)
	}
}

// The cane-sugar table goes from 10 to 30 C.
func TestCorrectionsAreComparedWhereTheTableGoes(t *testing.T) {
	for at, want := range map[float64]bool{9.9: false, 10: true, 20: true, 30: true, 30.1: false, 90: false} {
		if got := gravity.NewHydrometer(units.Celsius(20)).Compared(units.Celsius(at)); got != want {
			t.Errorf("%v C: %v", at, got)
		}
	}
}
