package gravity_test

import (
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

func TestRefractometer(t *testing.T) {
	r := gravity.NewRefractometer()
	if r != (gravity.Refractometer{}) {
		t.Error("the zero value is not the common instrument")
	}
	for b := gravity.Brix(0); b <= 75; b += 2.5 {
		if got, err := r.Correct(b, units.Celsius(20)); err != nil || got != b {
			t.Errorf("%v at 20 C: %v, %v", b, got, err)
		}
	}
	// It rises with the reading and with temperature.
	for at := units.Celsius(5); at <= units.Celsius(30); at++ {
		last := gravity.Brix(-1)
		for b := gravity.Brix(1); b <= 75; b++ {
			got, err := r.Correct(b, at)
			if err != nil || got <= last {
				t.Fatalf("%v at %v: %v after %v, %v", b, at, got, last, err)
			}
			last = got
			if at > units.Celsius(5) {
				if colder, err := r.Correct(b, at-1); err != nil || colder >= got {
					t.Errorf("%v at %v: %v, a degree colder %v, %v", b, at, got, colder, err)
				}
			}
		}
	}
	if got, err := r.WithZero(0.4).Correct(17.4, units.Celsius(20)); err != nil || math.Abs(float64(got)-17) > 1e-12 {
		t.Errorf("17.4 with 0.4 in water: %v, %v", got, err)
	}
	if got, err := r.Extract(20.8, units.Celsius(20), 1.04); err != nil || math.Abs(float64(got)-20) > 1e-12 {
		t.Errorf("20.8 over 1.04: %v, %v", got, err)
	}
}

func TestRefractometerRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	r := gravity.NewRefractometer()
	for _, x := range []float64{-0.1, 75.1, nan, inf, -inf} {
		if got, err := r.Correct(gravity.Brix(x), units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("%v: %v, %v", x, got, err)
		}
	}
	for _, at := range []float64{4.9, 30.1, nan, inf, -inf} {
		if got, err := r.Correct(17, units.Celsius(at)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("at %v: %v, %v", at, got, err)
		}
	}
	if got, err := r.Correct(0.3, units.Celsius(10)); !handbook.IsRange(err) || got != 0 {
		t.Errorf("less than water at 10 C: %v, %v", got, err)
	}
	for _, factor := range []float64{0, 0.89, 1.16, nan, inf, -inf} {
		if got, err := r.Extract(17, units.Celsius(20), factor); !handbook.IsRange(err) || got != 0 {
			t.Errorf("factor %v: %v, %v", factor, got, err)
		}
		if err := gravity.CheckFactor(factor); !handbook.IsRange(err) {
			t.Errorf("factor %v: %v", factor, err)
		}
	}
	if got, err := r.Extract(17, units.Celsius(99), 1); !handbook.IsRange(err) || got != 0 {
		t.Errorf("extract at 99 C: %v, %v", got, err)
	}
	for _, zero := range []float64{-2.1, 2.1, nan, inf} {
		if got, err := r.WithZero(gravity.Brix(zero)).Correct(17, units.Celsius(20)); !handbook.IsRange(err) || got != 0 {
			t.Errorf("zero %v: %v, %v", zero, got, err)
		}
	}
	for _, b := range []float64{-0.1, 70.1, nan, inf, -inf} {
		if got, err := gravity.Brix(b).Index(); !handbook.IsRange(err) || got != 0 {
			t.Errorf("index of %v: %v, %v", b, got, err)
		}
	}
	for _, n := range []float64{0, 1.3329, 1.4655, 2, nan, inf, -inf} {
		if got, err := gravity.OfIndex(n); !handbook.IsRange(err) || got != 0 {
			t.Errorf("Brix of %v: %v, %v", n, got, err)
		}
	}
}

func TestIndexRoundTrip(t *testing.T) {
	last := 0.0
	for i := 0; i <= 700; i++ {
		b := gravity.Brix(i) / 10
		n, err := b.Index()
		if err != nil || n <= last {
			t.Fatalf("%v: %v after %v, %v", b, n, last, err)
		}
		last = n
		if back, err := gravity.OfIndex(n); err != nil || math.Abs(float64(back-b)) > 1e-7 {
			t.Errorf("%v comes back as %v, %v", b, float64(back), err)
		}
	}
}

func TestRefractometerCorrectWithin(t *testing.T) {
	r := gravity.NewRefractometer()
	got, err := r.CorrectWithin(uncertainty.RectangularInput("reading", 17, 0.1), uncertainty.Input{Name: "temperature", Value: 26, Standard: 1})
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 0.1/sqrt(3), a degree of 0.075 per C, 0.01.
	if want := math.Sqrt(0.01/3 + 0.075*0.075 + 0.0001); math.Abs(got.Standard-want) > 0.05*want {
		t.Errorf("standard uncertainty %v, by hand %v", got.Standard, want)
	}
	if _, err := r.CorrectWithin(uncertainty.Input{Value: 99}, uncertainty.Input{Value: 20}); !handbook.IsRange(err) {
		t.Error(err)
	}
}

func FuzzOfIndex(f *testing.F) {
	f.Add(1.36)
	f.Add(1.33299)
	f.Add(math.NaN())
	f.Fuzz(func(t *testing.T, n float64) {
		b, err := gravity.OfIndex(n)
		if err != nil {
			if !handbook.IsRange(err) || b != 0 {
				t.Errorf("%v: %v, %v", n, b, err)
			}
			return
		}
		if back, err := b.Index(); err != nil || math.Abs(back-n) > 1e-9 {
			t.Errorf("%v: %v Brix has %v, %v", n, float64(b), back, err)
		}
	})
}

// The domain is that of the reading less what the instrument shows in water.
func TestDomainOfAnInstrumentThatIsOff(t *testing.T) {
	at20 := units.Celsius(20)
	for reading, good := range map[gravity.Brix]bool{76: true, 76.1: false} {
		if b, err := gravity.NewRefractometer().WithZero(1).Correct(reading, at20); (err == nil) != good {
			t.Errorf("%v with 1 in water: %v, %v", float64(reading), float64(b), err)
		}
	}
	if b, err := gravity.NewRefractometer().WithZero(-1).Correct(74.5, at20); err == nil {
		t.Errorf("74.5 with -1 in water: %v", float64(b))
	}
}
