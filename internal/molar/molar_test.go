package molar

import (
	"math"
	"testing"

	"example.org/mutage/units"
)

// What the sources print of the shares that follow from the molar masses.
func TestSharesAreAsPrinted(t *testing.T) {
	for _, c := range []struct {
		name            string
		got, want, half float64
	}{
		{"sorbic acid in potassium sorbate: OIV Codex COEI-1-POTSOR, %", 100 * SorbicOfSorbate, 74.64, 0.005},
		{"SO2 in potassium metabisulfite, %", 100 * SO2OfMetabisulfite, 57.6, 0.05},
		{"invert sugar from sucrose, glucose and fructose of 342.296 g", Sucrose * Inversion, 2 * 180.156, 1e-9},
		{"1 g/L as sulfuric is 1.53 g/L as tartaric acid", TartaricEquivalent / SulfuricEquivalent, 1.53, 0.005},
		{"mass is conserved: ethanol and carbon dioxide of a gram of hexose", EthanolOfHexose + CarbonDioxideOfHexose, 1, 1e-5},
		{"sucrose and water make two hexoses", Sucrose + Water, 2 * Hexose, 0.002},
		{"potassium in bitartrate: 0.52 g in 2.5 g", 2.5 * Potassium / PotassiumBitartrate, 0.52, 0.005},
	} {
		if math.Abs(c.got-c.want) > c.half {
			t.Errorf("%s: %.6g, printed %g", c.name, c.got, c.want)
		}
	}
}

// 1 mL of 0.1 N iodine is 5.558 mg K2S2O5 (JECFA).
func TestTitrated(t *testing.T) {
	n, err := Titrated(units.Millilitre, 0.1, 1)
	if got := 1000 * n * SO2Equivalent / SO2OfMetabisulfite; err != nil || math.Abs(got-5.558) > 0.0005 {
		t.Errorf("%.5g mg, %v", got, err)
	}
	for _, x := range []float64{-1, 11, math.NaN()} {
		if _, err := Titrated(units.Volume(x), 0.1, 1); err == nil {
			t.Errorf("titrant of %v L is taken", x)
		}
	}
	if _, err := Titrated(1, 0, 1); err == nil {
		t.Error("normality 0 is taken")
	}
	if _, err := Titrated(1, 0.1, 0); err == nil {
		t.Error("no sample is taken")
	}
	if got := Pow10(-3.4); math.Abs(got/math.Pow(10, -3.4)-1) > 1e-14 {
		t.Errorf("10^-3.4 = %v", got)
	}
}
