package check

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

func TestEveryCheckHasTwoSides(t *testing.T) {
	for name, c := range map[string]struct {
		of        func(x float64) error
		good, bad []float64
	}{
		"Volume":     {func(x float64) error { return Volume("v", units.Volume(x)) }, []float64{0, 1e12}, []float64{-1, 1.01e12}},
		"Must":       {func(x float64) error { return Must(units.Volume(x)) }, []float64{1e-6, 1e12}, []float64{0, 0.99e-6, 1.01e12}},
		"Mass":       {func(x float64) error { return Mass("m", units.Mass(x)) }, []float64{0, 1e15}, []float64{-1, 1.01e15}},
		"Treated":    {func(x float64) error { return Treated(units.Volume(x)) }, []float64{0, 1e7}, []float64{-1, 1.01e7}},
		"Vessel":     {func(x float64) error { return Vessel(units.Volume(x)) }, []float64{1e-6, 1e7}, []float64{0, 0.99e-6, 1.01e7}},
		"Weighed":    {func(x float64) error { return Weighed(units.Mass(x)) }, []float64{0, 1e10}, []float64{-1, 1.01e10}},
		"Level":      {func(x float64) error { return Level("c", units.Concentration(x), 3) }, []float64{0, 3}, []float64{-1, 3.1}},
		"Strength":   {func(x float64) error { return Strength("s", units.Strength(x)) }, []float64{0, 100}, []float64{-1, 101}},
		"Equivalent": {Equivalent, []float64{1, 1000}, []float64{0.9, 1001}},
		"Weakest":    {func(x float64) error { _, err := Weakest(units.Celsius(x)); return err }, []float64{-20, 40}, []float64{-21, 41}},
		"Unfrozen":   {func(x float64) error { return Unfrozen(x, units.Celsius(-4.5)) }, []float64{0.1, 1}, []float64{0, 0.099}},
	} {
		for _, x := range c.good {
			if err := c.of(x); err != nil {
				t.Errorf("%s(%v): %v", name, x, err)
			}
		}
		for _, x := range c.bad {
			var outside *units.RangeError
			if err := c.of(x); !errors.As(err, &outside) {
				t.Errorf("%s(%v): %v", name, x, err)
			}
		}
	}
	if lo, err := Weakest(units.Celsius(20)); lo != 0 || err != nil {
		t.Errorf("at 20 C: %v, %v", lo, err)
	}
	if err := Unfrozen(density.ByMass(40), units.Celsius(math.NaN())); err == nil {
		t.Error("no temperature is taken")
	}
	var frozen *units.RangeError
	if err := Unfrozen(density.ByMass(5), units.Celsius(-15)); !errors.As(err, &frozen) || frozen.Max != 100 || math.Abs(frozen.Value-5) > 1e-9 {
		t.Errorf("5 %% vol at -15 C: %v", err)
	}
	if MostSO2 != 10 || MostSorbicAcid != 3 { // bounds of ours, twenty times the highest limits
		t.Errorf("at most %v of SO2 and %v of sorbic acid", MostSO2, MostSorbicAcid)
	}
	one, two := errors.New("one"), errors.New("two")
	if First(nil, one, two) != one || First(nil, nil) != nil {
		t.Error("First")
	}
}

// Below water it has fermented; far below it is no gravity at all.
func TestNotFermentedBetween(t *testing.T) {
	for x, said := range map[float64]bool{0.91: true, 0.999: true, 0.905: true, 0.9: false, 0.85: false, 1.5: false} {
		var outside *units.RangeError
		if err := NotFermented(units.Check("gravity", x, 1, 1.35, "", "")); !errors.As(err, &outside) || (outside.Cause != "") != said {
			t.Errorf("%v: %v", x, err)
		}
	}
}
