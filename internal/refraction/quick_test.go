package refraction

import (
	"math"
	"testing"
)

// refracted is what slopes differentiates: index and volume by their own functions.
func refracted(m Solution) float64 {
	n := m.Index20()
	return (n*n - 1) / (n*n + 2) * m.Volume20()
}

// The derivatives of volume and refraction are those of differences, without other
// solutes, and within two per cent with them.
func TestSlopesByDifferences(t *testing.T) {
	const h = 1e-2
	for _, x := range []Others{{}, {Invert: 1}, {Invert: 0.5, Glycerol: 6, Citric: 8}} {
		volumes, refractions := 1e-4, 1e-6 // the volume has two waters, which differ by 2e-6
		if x != (Others{}) {
			volumes, refractions = 0.02, 0.02
		}
		for _, m := range [][3]float64{{60, 880, 90}, {150, 760, 100}, {20, 700, 300}, {240, 650, 40}} {
			at := func(e, w, s float64) (volume, refraction float64) {
				m := x.with(m[0]+e, m[1]+w, m[2]+s)
				return m.Volume20(), refracted(m)
			}
			here := x.with(m[0], m[1], m[2])
			v, r := here.slopes()
			for name, d := range map[string]struct {
				e, w, s            float64
				volume, refraction float64
			}{
				"ethanol": {h, 0, 0, v.E, r.E},
				"water":   {0, h, 0, v.W, r.W},
				"sugar":   {0, 0, h, v.S, r.S},
			} {
				above, upward := at(d.e, d.w, d.s)
				below, downward := at(-d.e, -d.w, -d.s)
				if want := (above - below) / (2 * h); math.Abs(d.volume/want-1) > volumes {
					t.Errorf("%+v, %v, volume by %s: %.9g, by differences %.9g", x, m, name, d.volume, want)
				}
				if want := (upward - downward) / (2 * h); math.Abs(d.refraction/want-1) > refractions {
					t.Errorf("%+v, %v, refraction by %s: %.9g, by differences %.9g", x, m, name, d.refraction, want)
				}
			}
			if volume, refraction := at(0, 0, 0); math.Abs(v.V/volume-1) > 1e-12 || math.Abs(r.V/refraction-1) > 1e-12 {
				t.Errorf("%+v, %v: volume %.15g and refraction %.15g, expected %.15g and %.15g", x, m, v.V, r.V, volume, refraction)
			}
		}
	}
}

// The quick way to what two readings say is taken by every wine and liqueur.
func TestTheQuickWayOfTwoReadings(t *testing.T) {
	for _, x := range []Others{{}, {Invert: 1}, {Invert: 0.5, Glycerol: 6, Citric: 8}} {
		for p := 0.01; p < 0.35; p += 0.03 {
			for sugar := 1.0; sugar < 400; sugar += 37 {
				m := litre(x, p, sugar)
				got, ok := x.newton(m.Mass(), m.Index20())
				if !ok || math.Abs(got.Ethanol-m.Ethanol) > 1e-7 || math.Abs(got.Solutes()-m.Solutes()) > 1e-7 || math.Abs(got.Water-m.Water) > 1e-7 {
					t.Errorf("%+v: %+v comes back as %+v, %v", x, m, got, ok)
				}
			}
		}
	}
}
