package acid

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Every exported function with a number in it, at both sides of its domain and
// with what is no number.
func TestAcidDomains(t *testing.T) {
	type (
		vol  = units.Volume
		gram = units.Mass
		conc = units.Concentration
	)
	two := func(low, high float64, err error) (float64, error) { return low + high, err }
	buffer, err := Fit(cherry)
	if err != nil {
		t.Fatal(err)
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "Titrate normality", Of: func(x float64) (float64, error) { y, err := Titrate(0.005, x, 0.005); return float64(y), err }, Good: []float64{0.001, 2}, Bad: []float64{0, 2.1}},
		{Name: "Titrate sample", Of: func(x float64) (float64, error) { y, err := Titrate(0.005, 0.1, vol(x)); return float64(y), err }, Good: []float64{1e-4, 10}, Bad: []float64{0, 11}},
		{Name: "RaiseTA", Of: func(x float64) (float64, error) { y, err := RaiseTA(conc(x), 1, Malic); return float64(y), err }, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "RaisedTA", Of: func(x float64) (float64, error) {
			a, b, err := RaisedTA(gram(x), 1, Malic)
			return two(float64(a), float64(b), err)
		}, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "LowerTA", Of: func(x float64) (float64, error) {
			y, err := LowerTA(1, vol(x), CalciumCarbonate)
			return float64(y), err
		}, Good: []float64{0, 1e7}, Bad: []float64{-1, 1e8}},
		{Name: "LoweredTA", Of: func(x float64) (float64, error) {
			a, b, err := LoweredTA(1, vol(x), CalciumCarbonate)
			return two(float64(a), float64(b), err)
		}, Good: []float64{1, 1e7}, Bad: []float64{0, 1e8}},
		{Name: "Express", Of: func(x float64) (float64, error) { y, err := Express(conc(x), Malic, Citric); return float64(y), err }, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "Milliequivalents", Of: func(x float64) (float64, error) { return Milliequivalents(conc(x), Malic) }, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "FromMilliequivalents", Of: func(x float64) (float64, error) { y, err := FromMilliequivalents(x, Malic); return float64(y), err }, Good: []float64{0, 1e4}, Bad: []float64{-1, 1e5}},
		{Name: "TartarFallen", Of: func(x float64) (float64, error) { y, err := TartarFallen(conc(x)); return float64(y.TA), err }, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "MostTartar", Of: func(x float64) (float64, error) { y, err := MostTartar(conc(x), 1); return float64(y.TA), err }, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "NewBuffer", Of: func(x float64) (float64, error) {
			b, err := NewBuffer(Acids{Malic: conc(x)}, 0, 0)
			return b.moles[1], err
		}, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "NewBuffer strength", Of: func(x float64) (float64, error) {
			b, err := NewBuffer(Acids{Malic: 1}, 0, units.Strength(x))
			return b.moles[1], err
		}, Good: []float64{0, 22}, Bad: []float64{-1, 22.1}},
		{Name: "Buffer.PH", Of: func(x float64) (float64, error) { b := buffer; b.alkali = x; return b.PH() }, Good: []float64{0, 0.1}, Bad: []float64{5}},
		{Name: "Buffer.Capacity", Of: func(x float64) (float64, error) { b := buffer; b.alkali = x; return b.Capacity() }, Good: []float64{0, 0.1}, Bad: []float64{5}},
		{Name: "Buffer.TA", Of: func(x float64) (float64, error) { y, err := buffer.TA(x); return float64(y), err }, Good: []float64{3.5, 10}, Bad: []float64{3, 10.1}},
		{Name: "Buffer.With", Of: func(x float64) (float64, error) { b, err := buffer.With(Malic, conc(x)); return b.moles[1], err }, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "Buffer.WithCarbonate", Of: func(x float64) (float64, error) {
			b, err := buffer.WithCarbonate(PotassiumBicarbonate, conc(x))
			return b.alkali, err
		}, Good: []float64{0, 500}, Bad: []float64{-1, 501}},
		{Name: "Buffer.LessTartar", Of: func(x float64) (float64, error) { b, err := buffer.LessTartar(conc(x)); return b.alkali, err }, Good: []float64{0}, Bad: []float64{-1, 0.1}},
		{Name: "Buffer.Thinned", Of: func(x float64) (float64, error) { b, err := buffer.Thinned(x, 20); return b.alkali, err }, Good: []float64{1, 100}, Bad: []float64{0.9, 101}},
		{Name: "Fit pH", Of: func(x float64) (float64, error) { m := cherry; m.PH = x; b, err := Fit(m); return b.alkali, err }, Good: []float64{3.3, 4}, Bad: []float64{1.9, 2.1, 5.1}},
		{Name: "Fit TA", Of: func(x float64) (float64, error) { m := cherry; m.TA = conc(x); b, err := Fit(m); return b.alkali, err }, Good: []float64{1, 20}, Bad: []float64{0, 101}},
		{Name: "Fit end point", Of: func(x float64) (float64, error) { m := cherry; m.EndPoint = x; b, err := Fit(m); return b.alkali, err }, Good: []float64{7, 8.5}, Bad: []float64{6.9, 8.6}},
		{Name: "Predict", Of: func(x float64) (float64, error) {
			m := cherry
			m.StandardPH = x
			p, err := Predict(m, func(b Buffer) (Buffer, error) { return b, nil })
			return p.PH, err
		}, Good: []float64{0, 0.1}, Bad: []float64{-1, 0.6}},
	})
}

// A carbonate of one's own states how much of its effect is seen; what is no share is
// refused and never multiplied.
func TestACarbonateWithoutAShareIsRefused(t *testing.T) {
	for _, share := range [][2]float64{{math.NaN(), 2}, {1, math.NaN()}, {1, math.Inf(1)}, {-1, 1}, {2, 1}, {1, 3}, {1, 2.02}} {
		c := PotassiumBicarbonate
		c.Low, c.High = share[0], share[1]
		var outside *units.RangeError
		if low, high, err := LoweredTA(100, 20, c); !errors.As(err, &outside) {
			t.Errorf("shares %v: %v to %v, %v", share, low, high, err)
		}
	}
}
