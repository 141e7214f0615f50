package liquid

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// mostByHalving is the largest extract of a liquid of this strength, by halving
// on the published densities: the litre that has 70 % sucrose in its sucrose and
// water.
func mostByHalving(strength float64) float64 {
	e := strength / 100 * density.PureEthanol
	lo, hi := 0.0, 1000.0
	for range 100 {
		s := (lo + hi) / 2
		if density.Volume20(e, s, s*(1/0.70-1)) < 1 {
			lo = s
		} else {
			hi = s
		}
	}
	return lo
}

// waterByHalving is the water that fills the litre.
func waterByHalving(e, s float64) float64 {
	lo, hi := s*(1/0.70-1), 1000.0
	for range 100 {
		w := (lo + hi) / 2
		if density.Volume20(e, s, w) < 1 {
			lo = w
		} else {
			hi = w
		}
	}
	return lo
}

func TestALiquidIsTakenExactlyWhereItCanExist(t *testing.T) {
	taken, refused := 0, 0
	for i := range 401 {
		strength := float64(i) / 4
		most := mostByHalving(strength)
		for j := range 250 {
			extract := float64(j) * 3.999
			if math.Abs(extract-most) < 1e-6 {
				continue
			}
			m, err := PerLitre(units.Strength(strength), units.Concentration(extract))
			if extract > most {
				var outside *units.RangeError
				if refused++; !errors.As(err, &outside) || math.Abs(outside.Max-most) > 1e-6 {
					t.Fatalf("%g %% vol with %g g/L cannot exist (%g at most): %+v, %v", strength, extract, most, m, err)
				}
				continue
			}
			if taken++; err != nil {
				t.Fatalf("%g %% vol with %g g/L can exist (%g at most): %v", strength, extract, most, err)
			}
			// WaterIn ends with a step of 1e-6 g at most, along the slope of its
			// first guess, which is off by less than a tenth.
			if want := waterByHalving(m.Ethanol, m.Sucrose); math.Abs(m.Water-want) > 1e-7 || math.Abs(m.Volume()-1) > 1e-10 {
				t.Fatalf("%g %% vol with %g g/L: %.12g g of water in %.15g L, by halving %.12g", strength, extract, m.Water, m.Volume(), want)
			}
		}
	}
	t.Logf("%d pairs taken, %d refused", taken, refused)
}

// Close to the end the answer turns within a milligram.
func TestTheLargestExtractIsTheEnd(t *testing.T) {
	for strength := 0.0; strength < 100; strength += 0.05 {
		most := density.MostExtract(strength)
		for _, extract := range []float64{most, most * (1 - 1e-9), most - 1e-6} {
			if m, err := PerLitre(units.Strength(strength), units.Concentration(extract)); extract >= 0 && (err != nil || m.Check() != nil) {
				t.Errorf("%g %% vol with %.12g of %.12g g/L: %v, %v", strength, extract, most, err, m.Check())
			}
		}
		if m, err := PerLitre(units.Strength(strength), units.Concentration(most+1e-5)); err == nil {
			t.Errorf("%g %% vol with 1e-5 g/L more than %.12g: %+v", strength, most, m)
		}
		if e := density.MostEthanol(most); math.Abs(100*e/density.PureEthanol-strength) > 1e-6 {
			t.Errorf("with %.12g g/L %g %% vol at most, back %g", most, strength, 100*e/density.PureEthanol)
		}
	}
}

// Pairs that were taken before, with volumes from 2 to 143,510 L for a litre.
func TestImpossibleSpiritsAreRefused(t *testing.T) {
	for _, c := range []struct{ strength, extract, most float64 }{
		{95, 250, 51.7}, {96, 118, mostByHalving(96)}, {75, 500, mostByHalving(75)}, {85.2, 371, mostByHalving(85.2)},
	} {
		_, err := PerLitre(units.Strength(c.strength), units.Concentration(c.extract))
		var outside *units.RangeError
		if !errors.As(err, &outside) || math.Abs(outside.Max-c.most) > 0.05 {
			t.Errorf("%g %% vol with %g g/L: %v", c.strength, c.extract, err)
		}
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range [][2]float64{{nan, 0}, {0, nan}, {-1, 0}, {0, -1}, {101, 0}, {20, 1001}, {inf, 0}, {20, inf}} {
		if m, err := PerLitre(units.Strength(c[0]), units.Concentration(c[1])); err == nil {
			t.Errorf("%v: %+v", c, m)
		}
	}
}

func TestPropertiesComeBack(t *testing.T) {
	for _, c := range [][2]float64{{0, 0}, {0, 943}, {100, 0}, {20, 142}, {6, 100}, {40, 300}, {77, 10}} {
		m, err := PerLitre(units.Strength(c[0]), units.Concentration(c[1]))
		if err != nil {
			t.Fatal(err)
		}
		p := m.Plus(m, 2.5).Properties() // three and a half litres
		if math.Abs(p.Volume-3.5) > 1e-10 || math.Abs(float64(p.Strength)-c[0]) > 1e-9 || p.Strength > 100 ||
			math.Abs(float64(p.Extract)-c[1]) > 1e-8 || math.Abs(p.Gravity-m.Gravity()) > 1e-12 || math.Abs(p.Gravity*density.Water20-m.Mass()) > 1e-8 {
			t.Errorf("%v: %+v", c, p)
		}
		if m.Strength() != StrengthOf(m.Ethanol, m.Volume()) || float64(m.Extract()) != m.Sucrose/m.Volume() || m.VolumeAt(20) != m.Partials().V && math.Abs(m.VolumeAt(20)-m.Partials().V) > 1e-15 {
			t.Errorf("%v: %v, %v", c, m.Strength(), m.Extract())
		}
	}
	if err := (Masses{Sucrose: 71, Water: 29}).Check(); err == nil {
		t.Error("71 % sucrose is taken")
	}
}

var sink Masses

func BenchmarkPerLitre(b *testing.B) {
	b.ReportAllocs()
	x := units.Concentration(140)
	for b.Loop() {
		x += 1e-9
		sink, _ = PerLitre(20, x)
	}
}

// By hand: 300 g of a solution of 20 % is 60 g of sucrose and 240 of water; 0.5 L
// of 1.08 weighs 0.54 kg less 0.18 %; the partial volumes of all parts are the
// volume (Euler), and the density is the mass over it.
func TestMassesByHand(t *testing.T) {
	m := OfSucrose(1.08, 0.20, 0.5)
	if total := 1.08 * 998.203 * 0.5; math.Abs(m.Sucrose-0.2*total) > 1e-3 || math.Abs(m.Water-0.8*total) > 1e-3 || m.Ethanol != 0 {
		t.Errorf("0.5 L of 1.08 with 20 %%: %+v", m)
	}
	m = Masses{Ethanol: 150, Sucrose: 90, Water: 740}
	if m.Mass() != 980 {
		t.Errorf("mass %v", m.Mass())
	}
	if got, want := m.In(m.Partials()), m.Volume(); math.Abs(got-want) > 1e-12 {
		t.Errorf("the parts take %v L, the liquid %v", got, want)
	}
	if got := m.Density() * m.Volume(); math.Abs(got-980) > 1e-9 {
		t.Errorf("density %v of a volume %v", m.Density(), m.Volume())
	}
	if got := float64(m.Strength()) / 100 * 789.24 * m.Volume(); math.Abs(got-150) > 1e-2 {
		t.Errorf("%v of %v L is %v g of ethanol", m.Strength(), m.Volume(), got)
	}
	if s := StrengthOf(1.5*789.24, 1); s != 100 {
		t.Errorf("more than pure ethanol: %v", s)
	}
	for strength, taken := range map[units.Strength]bool{100: true, 100.5: false} {
		var outside *units.RangeError
		if _, err := PerLitre(strength, 0); (err == nil) != taken || err != nil && (!errors.As(err, &outside) || outside.Max != 100) {
			t.Errorf("%v: %v", strength, err)
		}
	}
}
