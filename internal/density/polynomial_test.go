package density

import (
	"math"
	"testing"
)

func TestPolynomialsAreTheDensities(t *testing.T) {
	at := func(c []float64, x float64) (y float64) {
		for i := len(c) - 1; i >= 0; i-- {
			y = y*x + c[i]
		}
		return y
	}
	for _, temperature := range []float64{0, 15, SixtyF, 20, 40} {
		sucrose, ethanol := SucrosePolynomial(temperature), EthanolPolynomial(temperature)
		for i := range 71 {
			w := float64(i) / 100
			if got, want := at(sucrose, w), Sucrose(w, temperature); math.Abs(got-want) > 1e-9 {
				t.Errorf("sucrose %v at %v C: the polynomial gives %v, the density is %v", w, temperature, got, want)
			}
			if got, want := at(ethanol, w), Ethanol(w, temperature); math.Abs(got-want) > 1e-6 {
				t.Errorf("ethanol %v at %v C: the polynomial gives %v, the density is %v", w, temperature, got, want)
			}
		}
	}
}
