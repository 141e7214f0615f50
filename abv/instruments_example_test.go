package abv_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

func FuzzTwoInstruments(f *testing.F) {
	f.Add(1.014, 16.8, 1.0, 6.0)
	f.Add(0.92, 18.3, 0.0, 0.0)
	f.Add(1.3, 66.0, 0.5, 40.0)
	f.Fuzz(func(t *testing.T, h, r, invert, acid float64) {
		d, err := abv.TwoInstrumentsIn(gravity.SG(h), gravity.Brix(r), abv.Solutes{Invert: invert, Acid: units.Concentration(acid)})
		if err != nil {
			if !handbook.IsRange(err) || d != (abv.Determination{}) {
				t.Errorf("%v, %v: %v, %v", h, r, d, err)
			}
			return
		}
		if !(d.Strength >= 0 && d.Strength < 58 && d.Extract >= 0 && d.Sugar >= 0 && d.Model > 0 && d.Model < 60) {
			t.Errorf("%v, %v, %v, %v: %+v", h, r, invert, acid, d)
		}
		if c, err := abv.Compose(d.Strength, d.Extract); err != nil || math.Abs(float64(c.Gravity)-h) > 1e-7 {
			t.Errorf("%v, %v: %+v has the gravity %v, %v", h, r, d, float64(c.Gravity), err)
		}
	})
}

func BenchmarkTwoInstruments(b *testing.B) {
	b.ReportAllocs()
	h, r := pairOf(b, 20, 100)
	for b.Loop() {
		r += 1e-12
		if _, err := abv.TwoInstruments(h, r); err != nil {
			b.Fatal(err)
		}
	}
}

// A sweet fortified wine of morello cherries reads 1.0140 on the hydrometer and
// 16.8 on the refractometer. The published relation for port, 1.646 Bx - 2.703 Be
// - 1.794 with 2.00 Baume, gives 20.4 % vol.
func ExampleTwoInstruments() {
	wine, err := abv.TwoInstruments(1.0140, 16.8)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% vol, %.0f g/L", float64(wine.Strength), float64(wine.Extract))
	// Output: 20.0 % vol, 100 g/L
}

// How sure is it? Hydrometer read to 0.0005, refractometer to 0.1.
func ExampleTwoInstrumentsWithin() {
	r, err := abv.TwoInstrumentsWithin(
		uncertainty.RectangularInput("hydrometer", 1.0140, 0.0005),
		uncertainty.RectangularInput("refractometer", 16.8, 0.1),
		abv.Solutes{Invert: 1, Glycerol: 6, Acid: 6})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f to %.1f %% vol", r.Low, r.High)
	// Output: 19.1 to 21.0 % vol
}
