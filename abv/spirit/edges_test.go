package spirit_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/abv/spirit"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
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
// one less than 1 % beyond it.
func TestStatedDomains(t *testing.T) {
	strength := func(s units.Strength, err error) (float64, error) { return float64(s), err }
	reduced := func(r spirit.Reduction, err error) (float64, error) { return float64(r.Water), err }
	handbook.Domains(t, []handbook.Domain{
		{Name: "TrueStrength", Of: func(x float64) (float64, error) {
			return strength(spirit.TrueStrength(units.Strength(x), units.Celsius(20)))
		}, Good: []float64{0, 100}, Bad: []float64{-0.1, 100.1}},
		{Name: "WeightInAir", Of: func(x float64) (float64, error) {
			m, err := spirit.WeightInAir(1, units.Density(x))
			return float64(m), err
		}, Good: []float64{700, 1400}, Bad: []float64{699, 1401}},
		{Name: "USObscuration", Of: func(x float64) (float64, error) { return spirit.USObscuration(units.Concentration(x)) }, Good: []float64{4, 6}, Bad: []float64{3.99, 6.01}},
		{Name: "FromUSProof", Of: func(x float64) (float64, error) { return strength(spirit.FromUSProof(x)) }, Good: []float64{0, 200}, Bad: []float64{-0.1, 200.1}},
		{Name: "FromBritishProof", Of: func(x float64) (float64, error) { return strength(spirit.FromBritishProof(x)) }, Good: []float64{0, 175.1}, Bad: []float64{-0.1, 175.3}},
		{Name: "Reduce, from", Of: func(x float64) (float64, error) { return reduced(spirit.Reduce(1, units.Strength(x), 0.01)) }, Good: []float64{0.01, 100}, Bad: []float64{0.0099, 100.1}},
		{Name: "Reduce, to", Of: func(x float64) (float64, error) { return reduced(spirit.Reduce(1, 40, units.Strength(x))) }, Good: []float64{0.01, 40}, Bad: []float64{0.0099, 40.1}},
	})
	if r := refusal(t, func() error { _, err := spirit.Unobscured(0, 901); return err }()); r.Max != 900 || !strings.Contains(r.Quantity, "extract") {
		t.Errorf("901 g/L of extract: %+v", r)
	}
	if r := refusal(t, func() error { _, err := spirit.Obscured(20, 84); return err }()); math.Abs(r.Min-0.78924/0.99820) > 1e-5 || math.Abs(r.Max-1) > 1e-5 {
		t.Errorf("the scale of an alcoholometer, from ethanol of 789.24 kg/m3 to water of 998.20: %+v", r)
	}
}

// Water without anything in it shows nothing, by either formula for water.
func TestWaterShowsNothing(t *testing.T) {
	if s, err := spirit.Obscured(0, 0); s != 0 || err != nil {
		t.Errorf("water shows %v, %v", s, err)
	}
}

// A range error states the bounds that are in force: what lies a little inside
// is taken, what lies a little outside is not.
func TestTheBoundsOfARefusalAreTheBounds(t *testing.T) {
	const little = 1e-3
	for _, x := range []struct {
		name  string
		wrong float64
		of    func(x float64) error
	}{
		{"US proof read at 40 C", 1, func(x float64) error { _, err := spirit.TrueUSProof(x, units.Celsius(40)); return err }},
		{"US proof read at 0 C", 199.9, func(x float64) error { _, err := spirit.TrueUSProof(x, units.Celsius(0)); return err }},
		{"strength read at 4 C", 99.9, func(x float64) error {
			_, err := spirit.TrueStrength(units.Strength(x), units.Celsius(4))
			return err
		}},
		{"reading in a spirit of 4 C", 0, func(x float64) error {
			_, err := spirit.ApparentStrength(units.Strength(x), units.Celsius(4))
			return err
		}},
		{"reading in a spirit of 40 C", 100, func(x float64) error {
			_, err := spirit.ApparentStrength(units.Strength(x), units.Celsius(40))
			return err
		}},
		{"strength shown with 30 g/L", 99, func(x float64) error { _, err := spirit.Unobscured(units.Strength(x), 30); return err }},
	} {
		r := refusal(t, x.of(x.wrong))
		full := map[bool]float64{false: 100, true: 200}[strings.Contains(x.name, "proof")]
		if r.Min < 0 || r.Max > full || r.Min >= r.Max {
			t.Fatalf("%s: %+v", x.name, r)
		}
		for _, inside := range []float64{r.Min + little, r.Max - little} {
			if err := x.of(inside); err != nil {
				t.Errorf("%s: %v is not taken, between %v and %v: %v", x.name, inside, r.Min, r.Max, err)
			}
		}
		for _, outside := range []float64{r.Min - little, r.Max + little} {
			if err := x.of(outside); err == nil {
				t.Errorf("%s: %v is taken, outside %v to %v", x.name, outside, r.Min, r.Max)
			}
		}
	}
}

// The specific gravity in air is the weight of a gallon over that of a gallon of
// water, 1/0.120074 lb as Table 4 prints.
func TestSpecificGravityInAir(t *testing.T) {
	c := handbook.NewCheck(t, "US Gauging Table 4, gallons per lb of water from the gravity in air", "gal/lb")
	for proof := 0.0; proof <= 200; proof += 20 {
		g, err := spirit.Gauge(proof)
		if err != nil {
			t.Fatal(err)
		}
		c.Printed(g.SpecificGravity*g.WineGallonsPerPound, "0.120074", units.Strength(proof/2).String())
		// Weighed by a scale: the same.
		rho := density.Ethanol(density.ByMassAt(proof/2, density.SixtyF), density.SixtyF)
		air, err := spirit.WeightInAir(units.Mass(rho), units.Density(rho))
		if want := 1 / g.WineGallonsPerPound; err != nil || !handbook.Near(air.In(units.Pound)*units.USGallon.In(units.Litre)/1000, want/1000, 1e-9) {
			t.Errorf("%g proof: a gallon weighs %v lb, by the scale %v", proof, want, air.In(units.Pound)*units.USGallon.In(units.Litre)/1000)
		}
	}
}

// A refusal says what went wrong: sugar that makes a spirit heavier than water, and
// two strengths in each other's place; not where something else is out of range.
func TestRefusalsSayWhy(t *testing.T) {
	for _, c := range []struct {
		of    func() error
		cause string
	}{
		{func() error { _, err := spirit.Obscured(20, 200); return err }, "heavier than water"},
		{func() error { _, err := spirit.Reduce(1, 40, 60); return err }, "swapped"},
		{func() error { _, err := spirit.Reduce(1, 40, 0.001); return err }, ""},
	} {
		if got := refusal(t, c.of()).Cause; (got != "") != (c.cause != "") || !strings.Contains(got, c.cause) {
			t.Errorf("%q, expected %q", got, c.cause)
		}
	}
}
