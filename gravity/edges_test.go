package gravity_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// refusal is the range error that err has to be.
func refusal(t *testing.T, err error) units.RangeError {
	t.Helper()
	var r *units.RangeError
	if !errors.As(err, &r) {
		t.Fatalf("want a range error, have %v", err)
	}
	return *r
}

// The domains that the documentation states: the last value that is taken and
// one a little beyond it.
func TestStatedDomains(t *testing.T) {
	sg := func(g gravity.SG, err error) (float64, error) { return float64(g), err }
	with := func(h gravity.Hydrometer) (float64, error) { return sg(h.Correct(1.05, units.Celsius(20))) }
	common, c20 := gravity.Hydrometer{}, units.Celsius(20)
	handbook.Domains(t, []handbook.Domain{
		{Name: "Basis of the liquid", Of: func(x float64) (float64, error) {
			return sg(gravity.Basis{Liquid: units.Celsius(x), Water: c20}.SG(1.05))
		}, Good: []float64{0, 40}, Bad: []float64{-0.1, 40.1}},
		{Name: "Basis of the water", Of: func(x float64) (float64, error) {
			return sg(gravity.Basis{Liquid: c20, Water: units.Celsius(x)}.SG(1.05))
		}, Good: []float64{0, 40}, Bad: []float64{-0.1, 40.1}},
		{Name: "WithGlass", Of: func(x float64) (float64, error) { return with(common.WithGlass(x)) }, Good: []float64{0, 300e-6}, Bad: []float64{-1e-6, 301e-6}},
		{Name: "WithMeniscus", Of: func(x float64) (float64, error) { return with(common.WithMeniscus(gravity.SG(x))) }, Good: []float64{0, 0.005}, Bad: []float64{-1e-4, 0.00505}},
		{Name: "WithTests, shown", Of: func(x float64) (float64, error) {
			really := gravity.SG(max(min(x, 1.4), 0.9))
			return with(common.WithTests(gravity.TestReading{Shown: gravity.SG(x), True: really}))
		}, Good: []float64{0.9, 1.4}, Bad: []float64{0.899, 1.401}},
		{Name: "WithTests, true", Of: func(x float64) (float64, error) {
			shown := gravity.SG(max(min(x, 1.4), 0.9))
			return with(common.WithTests(gravity.TestReading{Shown: shown, True: gravity.SG(x)}))
		}, Good: []float64{0.9, 1.4}, Bad: []float64{0.899, 1.401}},
		{Name: "WithTests, at most 0.02 off", Of: func(x float64) (float64, error) {
			return with(common.WithTests(gravity.TestReading{Shown: 1, True: gravity.SG(1 + x)}))
		}, Good: []float64{0.01999, -0.01999}, Bad: []float64{0.0201, -0.0201}},
		{Name: "WithTests, at most 10 % in slope", Of: func(x float64) (float64, error) {
			return with(common.WithTests(gravity.TestReading{Shown: 1, True: 1}, gravity.TestReading{Shown: 1.1, True: gravity.SG(1.1 + 0.1*x)}))
		}, Good: []float64{0.0999, -0.0999}, Bad: []float64{0.101, -0.101}},
		{Name: "WithTests, 0.01 apart", Of: func(x float64) (float64, error) {
			return with(common.WithTests(gravity.TestReading{Shown: 0.9, True: 0.9}, gravity.TestReading{Shown: gravity.SG(0.9 + x), True: gravity.SG(0.9 + x)}))
		}, Good: []float64{0.010001}, Bad: []float64{0.00999, 0}},
		{Name: "WithZero", Of: func(x float64) (float64, error) {
			b, err := gravity.NewRefractometer().WithZero(gravity.Brix(x)).Correct(20, c20)
			return float64(b), err
		}, Good: []float64{-2, 2}, Bad: []float64{-2.01, 2.01}},
		{Name: "factor of a refractometer", Of: func(x float64) (float64, error) {
			b, err := gravity.NewRefractometer().Extract(20, c20, x)
			return float64(b), err
		}, Good: []float64{0.9, 1.15}, Bad: []float64{0.899, 1.151}},
		{Name: "Points", Of: func(x float64) (float64, error) { return sg(gravity.Points(x).SG()) }, Good: []float64{-18.95, 349.9}, Bad: []float64{-18.97, 350}},
		{Name: "Of", Of: func(x float64) (float64, error) { return sg(gravity.Of(units.Density(x))) }, Good: []float64{698.8, 1347.4}, Bad: []float64{698.6, 1347.6}},
		{Name: "strength in CorrectIn", Of: func(x float64) (float64, error) {
			return sg(common.CorrectIn(units.Strength(x), gravity.SG(1-0.0021*x), c20))
		}, Good: []float64{0}, Bad: []float64{-0.1, 100.1}},
	})
	if _, err := common.CorrectIn(100.1, 0.79, c20); refusal(t, err).Max != 100 {
		t.Errorf("100.1 %% vol: %v", err)
	}
	for text, taken := range map[string]bool{"0.7": true, "0.699": false, "700": true, "699": false} {
		if _, err := gravity.Parse(text); (err == nil) != taken {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// A range error states the bounds that are in force: what lies a little inside
// is taken, what lies a little outside is not.
func TestTheBoundsOfARefusalAreTheBounds(t *testing.T) {
	const little = 1e-5
	old := gravity.NewHydrometer(units.Celsius(15)).WithWater(units.Celsius(4))
	for name, of := range map[string]func(x float64) error{
		"15/15":              func(x float64) error { _, err := gravity.Basis15C.SG(x); return err },
		"20/4":               func(x float64) error { _, err := gravity.Basis20C4C.SG(x); return err },
		"extract on 15/15":   func(x float64) error { _, err := gravity.Basis15C.Extract(x); return err },
		"hydrometer at 30 C": func(x float64) error { _, err := old.Correct(gravity.SG(x), units.Celsius(30)); return err },
		"in 12 % vol at 30 C": func(x float64) error {
			_, err := old.CorrectIn(12, gravity.SG(x), units.Celsius(30))
			return err
		},
	} {
		r := refusal(t, of(0.5))
		if !(r.Min < 1.01) || !(r.Max > 1.2) {
			t.Fatalf("%s: %+v", name, r)
		}
		for _, inside := range []float64{r.Min + little, r.Max - little} {
			if err := of(inside); err != nil {
				t.Errorf("%s: %v is not taken, between %v and %v: %v", name, inside, r.Min, r.Max, err)
			}
		}
		for _, outside := range []float64{r.Min - little, r.Max + little} {
			if err := of(outside); err == nil {
				t.Errorf("%s: %v is taken, outside %v to %v", name, outside, r.Min, r.Max)
			}
		}
	}
	// "readings whose extract is -5 to 70 % mass (SG 0.98104 to 1.3499 at 20 C)"
	r := refusal(t, func() error { _, err := gravity.Basis20C.SG(0.5); return err }())
	if math.Abs(r.Min-0.98104) > 5e-6 || math.Abs(r.Max-1.3499) > 5e-5 {
		t.Errorf("20/20: %+v", r)
	}
}

// 20/4 is the liquid at 20 C over water at 4 C, its densest: 0.999975 kg/L.
func TestBasis20C4CIsTheDensity(t *testing.T) {
	if gravity.Basis20C4C.Liquid != units.Celsius(20) || gravity.Basis20C4C.Water != units.Celsius(4) || gravity.Basis20C4C.String() != "20/4 C" {
		t.Errorf("20/4 is %v", gravity.Basis20C4C)
	}
	for b := gravity.Brix(0); b <= 60; b += 20 {
		g := must[gravity.SG](t)(b.SG())
		if d := must[float64](t)(gravity.Basis20C4C.Of(g)) * 0.999975; math.Abs(d-float64(g)*0.998207) > 1e-5*d {
			t.Errorf("%v: %.6f kg/L on the scale 20/4, %.6f by its gravity", b, d, float64(g)*0.998207)
		}
	}
}

// A Brix hydrometer of 15 C in the solution it was drawn for, at 15 C, is right,
// whatever glass it is of.
func TestABrixHydrometerIsRightWhereItWasMade(t *testing.T) {
	for _, made := range []float64{5, 15, 17.5, 27} {
		for _, glass := range []float64{0, 25e-6, 200e-6} {
			h := gravity.NewHydrometer(units.Celsius(made)).WithGlass(glass)
			b, err := h.CorrectBrix(20, units.Celsius(made))
			if err != nil || math.Abs(float64(b)-20) > 1e-9 {
				t.Errorf("made for %g C, read there: %v, %v", made, float64(b), err)
			}
			// A warm glass is larger and floats higher: it shows too little by its
			// expansion, 25e-6 per C of 1.08.
			g, err := h.Correct(1.08, units.Celsius(made+10))
			stiff, err2 := gravity.NewHydrometer(units.Celsius(made)).WithGlass(0).Correct(1.08, units.Celsius(made+10))
			if err != nil || err2 != nil || math.Abs(float64(stiff-g)-1.08*10*glass) > 0.02*1.08*10*glass+1e-12 {
				t.Errorf("glass of %g per C: %.6f, %.6f without expansion, %v, %v", glass, float64(g), float64(stiff), err, err2)
			}
		}
	}
}

// What a hydrometer says of itself is what it was made with.
func TestAHydrometerSaysHowItIsRead(t *testing.T) {
	h := gravity.NewHydrometer(units.Celsius(15)).WithGlass(10e-6).WithMeniscus(0.002).WithTests(gravity.TestReading{Shown: 1.003, True: 1})
	if want := "hydrometer made for 15 C, glass 1e-05 per C, scale error -0.0030+0.0000(SG - 1), meniscus +0.0020"; h.String() != want {
		t.Errorf("%q; want %q", h, want)
	}
	if want := "hydrometer made for 20 C, glass 2.5e-05 per C"; !strings.HasPrefix((gravity.Hydrometer{}).String(), want) {
		t.Errorf("%q; want %q", gravity.Hydrometer{}, want)
	}
}

// An unknown unit is pointed at.
func TestParseErrorPointsAtTheUnit(t *testing.T) {
	_, err := gravity.Parse("17.1 smoots")
	var p *units.ParseError
	if !errors.As(err, &p) || p.Text[p.Offset:] != "smoots" {
		t.Errorf("%v", err)
	}
}

// The models' own shares, as their documentation states them.
func TestStatedModelUncertainties(t *testing.T) {
	exactly := func(x float64) uncertainty.Input { return uncertainty.Input{Value: x} }
	h, err := gravity.Hydrometer{}.CorrectWithin(exactly(1.05), exactly(20))
	if err != nil || math.Abs(h.Standard-0.00005) > 1e-9 {
		t.Errorf("hydrometer: %v, %v", h.Standard, err)
	}
	r, err := gravity.NewRefractometer().CorrectWithin(exactly(20), exactly(20))
	if err != nil || math.Abs(r.Standard-0.01) > 1e-9 {
		t.Errorf("refractometer: %v, %v", r.Standard, err)
	}
}
