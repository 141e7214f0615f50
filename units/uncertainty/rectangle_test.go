package uncertainty

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// A rectangle and a normal distribution together, against the average of the
// normal distribution over the rectangle, and at the ends that are known: with no
// rectangle 1.95996, with nothing else the 95 % of the rectangle, 0.95 times the
// square root of three.
func TestQuantilesOfARectangleWithANormalDistribution(t *testing.T) {
	for _, share := range []float64{0.3, 0.5, 0.8, 0.99} {
		d := Result{flat: share}.shape()
		for _, p := range []float64{0.0001, 0.025, 0.2, 0.5, 0.95, 0.975, 0.9999} {
			x := d.Quantile(p)
			const steps = 20000
			below, half, sigma := 0.0, math.Sqrt(3*share), math.Sqrt(1-share)
			for i := range steps {
				below += distuv.UnitNormal.CDF((x-half*(2*(float64(i)+0.5)/steps-1))/sigma) / steps
			}
			if math.Abs(below-p) > 1e-6*max(p, 0.01)+1e-9 || math.Abs(d.Survival(x)-(1-p)) > 1e-9 {
				t.Errorf("share %g: quantile %g is %g, below which lie %g and above which %g", share, p, x, below, d.Survival(x))
			}
		}
	}
	if k := (Result{flat: 1}).shape().Quantile(0.975); math.Abs(k-0.95*math.Sqrt(3)) > 1e-6 {
		t.Errorf("a rectangle alone: %v", k)
	}
	if k := (Result{flat: 1e-3}).shape().Quantile(0.975); math.Abs(k-1.95996) > 1e-5 {
		t.Errorf("hardly a rectangle: %v", k)
	}
	// With degrees of freedom it is Student's t: JCGM 100:2008, table G.2, prints 2.23 for 10.
	if k := (Result{flat: 0.9, DegreesOfFreedom: 10}).shape().Quantile(0.975); math.Abs(k-2.23) > 0.005 {
		t.Errorf("10 degrees of freedom: %v", k)
	}
}

// Tolerances as their names and sources have them: half a division, the middle
// of a range, the figure of a rule.
func TestTolerancesAreThoseOfTheirSources(t *testing.T) {
	for name, want := range map[string]float64{
		"hydrometer divided in 0.002, read to half a division":       0.002 / 2,
		"refractometer divided in 0.2 Brix, read to half a division": 0.2 / 2,
		"thermometer divided in whole degrees":                       0.4, // Bavarian regulation of 1911
		"measuring jug":                                              0.03,
		"bottle fill, 376 to 999 mL":                                 0.02, // 27 CFR 19.356(b): 2.0 percent
		"stated strength of a spirit":                                0.3,  // Annex XII: 0.3 % vol
		"level measuring spoon of powder":                            (0.10 + 0.20) / 2,
		"sugar by the level cup":                                     0.05, // common practice, no source
	} {
		found := false
		for _, x := range Tolerances() {
			found = found || x.Name == name && math.Abs(x.HalfWidth-want) < 1e-12 && x.Source != ""
		}
		if !found {
			t.Errorf("%s is not %v", name, want)
		}
	}
}
