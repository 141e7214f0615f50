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
		{"KC4H5O6 of atomic weights 39.098, 12.011, 1.008, 15.999", PotassiumBitartrate, 39.098 + 4*12.011 + 5*1.008 + 6*15.999, 0.01},
		{"C6H12O6.H2O: 180.156 of 198.171", HexoseInHydrate, 180.156 / 198.171, 1e-6},
		{"gas constant, exact since 2019", Gas, 6.02214076e23 * 1.380649e-23, 1e-8},
		// 1.8246e6 / (eps T)^1.5 with the permittivity 78.30 of water at 298.15 K, root of its 0.997 kg/L
		{"Debye and Hueckel in water at 25 C", DebyeHueckel, 1.8246e6 / math.Pow(78.30*298.15, 1.5) * math.Sqrt(0.99705), 0.002},
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
	if n, err := Titrated(0.005, 0.1, 0.02); err != nil || math.Abs(n-0.1*5/20) > 1e-15 {
		t.Errorf("5 mL of 0.1 N for 20 mL: %v mol/L, %v", n, err)
	}
	for _, x := range []struct{ titrant, normality, sample float64 }{
		{-1, 0.1, 1}, {10.1, 0.1, 1}, {math.NaN(), 0.1, 1}, {1, 0.00099, 1}, {1, 2.01, 1}, {1, 0.1, 0.99e-4}, {1, 0.1, 10.1},
	} {
		if _, err := Titrated(units.Volume(x.titrant), x.normality, units.Volume(x.sample)); err == nil {
			t.Errorf("%+v is taken", x)
		}
	}
	for _, x := range []struct{ titrant, normality, sample float64 }{{10, 0.1, 1}, {1, 0.001, 1}, {1, 2, 1}, {1, 0.1, 1e-4}, {1, 0.1, 10}} {
		if _, err := Titrated(units.Volume(x.titrant), x.normality, units.Volume(x.sample)); err != nil {
			t.Errorf("%+v: %v", x, err)
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
