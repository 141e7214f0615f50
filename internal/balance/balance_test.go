package balance

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

var must = Yield{CarbonDioxide: 0.9565, Yeast: 0.0444} // Balling's

// The three ways back lead to the alcohol that was made, from none to all.
func TestAlcoholComesBack(t *testing.T) {
	for gravity := 1.0; gravity < density.HeaviestGravity; gravity += 0.0037 {
		m, err := Of(gravity, must)
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range []float64{0, 1e-7, 0.01, 0.3, 0.8, 0.999, 1} {
			a := part * m.Most()
			w := Ferment[float64](&m, a)
			for name, back := range map[string]func() (float64, error){
				"gravity":  func() (float64, error) { return m.ForGravity(w.Gravity) },
				"strength": func() (float64, error) { return m.ForStrength(w.Strength) },
				"extract":  func() (float64, error) { return m.ForExtract(w.Extract) },
			} {
				if got, err := back(); err != nil || math.Abs(got-a) > 1e-6 {
					t.Errorf("%.4f, %g of it fermented, by its %s: %.9g g, %v; made %.9g", gravity, part, name, got, err, a)
				}
			}
		}
	}
}

func TestMassIsConserved(t *testing.T) {
	m, err := Of(1.092, must)
	if err != nil {
		t.Fatal(err)
	}
	for a := 0.0; a <= m.Most(); a += 0.25 {
		w := Ferment[float64](&m, a)
		left := m.After(a).Mass()
		gone := float64(w.CarbonDioxide+w.Yeast) * m.Litres()
		if math.Abs(left+gone-100) > 1e-12 {
			t.Errorf("%g g of alcohol: %.15g g are left and %.15g g have gone", a, left, gone)
		}
	}
}

func TestWhatNoMustBecomesIsRefused(t *testing.T) {
	m, err := Of(1.092, must)
	if err != nil {
		t.Fatal(err)
	}
	nan := math.NaN()
	for _, g := range []float64{1.0921, m.Dry() - 1e-6, 0, -1, nan, math.Inf(1)} {
		if a, err := m.ForGravity(g); !errors.Is(err, solve.ErrNoRoot) {
			t.Errorf("gravity %v: %v, %v", g, a, err)
		}
	}
	for _, s := range []units.Strength{Ferment[float64](&m, m.Most()).Strength + 1e-6, -1e-6, 101, units.Strength(nan)} {
		if a, err := m.ForStrength(s); !errors.Is(err, solve.ErrNoRoot) {
			t.Errorf("strength %v: %v, %v", s, a, err)
		}
	}
	for _, x := range []units.Concentration{units.Concentration(m.ExtractPerLitre()) + 1e-4, -1e-6, units.Concentration(nan)} {
		if a, err := m.ForExtract(x); !errors.Is(err, solve.ErrNoRoot) {
			t.Errorf("extract %v: %v, %v", float64(x), a, err)
		}
	}
	for _, g := range []float64{0.9999, 1.36, nan} {
		if _, err := Of(g, must); err == nil {
			t.Errorf("a must of %v is taken", g)
		}
	}
	for _, y := range []Yield{{}, {0.7, 0}, {1, 0.6}, {nan, 0.1}, {1, -0.1}} {
		if _, err := Of(1.09, y); err == nil {
			t.Errorf("%v is taken", y)
		}
	}
}

// What is stated of yields and of the must, by hand: a litre of a must of 1.092
// weighs 1.092 x 998.2 g.
func TestAMustIsWhatItWeighs(t *testing.T) {
	for _, y := range []Yield{{0.8, 0}, {1.2, 0.5}} {
		if err := y.Check(); err != nil {
			t.Errorf("%+v: %v", y, err)
		}
	}
	for _, y := range []Yield{{0.799, 0}, {1.201, 0}, {1, -0.001}, {1, 0.501}} {
		if err := y.Check(); err == nil {
			t.Errorf("%+v is taken", y)
		}
		if _, err := Of(1.09, y); err == nil {
			t.Errorf("a must of yield %+v is taken", y)
		}
	}
	m, err := Of(1.092, must)
	if err != nil {
		t.Fatal(err)
	}
	if got := m.Litres() * 1.092 * 0.998203; math.Abs(got-0.1) > 1e-6 {
		t.Errorf("100 g of must take %v L", m.Litres())
	}
	if got := m.ExtractPerLitre() * m.Litres(); math.Abs(got-m.Extract) > 1e-9 {
		t.Errorf("%v g/L in %v L, of %v %%", m.ExtractPerLitre(), m.Litres(), m.Extract)
	}
	// 4 g of alcohol in 100 g of must take 2.0009 x 4 g of its extract.
	w := Ferment[float64](&m, 4)
	if got := float64(w.SugarUsed) * m.Litres(); math.Abs(got-4*2.0009) > 1e-9 {
		t.Errorf("4 g of alcohol took %v g", got)
	}
	if got := w.VolumeRatio * m.Litres() * float64(w.Strength) / 100 * 789.24; math.Abs(got-4) > 1e-4 {
		t.Errorf("4 g of alcohol are %v g in the wine's volume", got)
	}
	if _, err := m.ForStrength(100.5); !errors.Is(err, solve.ErrNoRoot) {
		t.Error("100.5 % vol is reached")
	}
}
