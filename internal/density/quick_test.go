package density

import (
	"math"
	"testing"
)

// The derivatives of the volume at any temperature are those of differences, but for
// the 2e-6 by which the waters of the two formulas differ, over the share of a solute.
func TestPartialVolumesAtATemperature(t *testing.T) {
	const h = 1e-2
	for _, temperature := range []float64{2, 12, 27, 40} {
		at := mixtureAt(temperature)
		volume := func(e, s, w float64) float64 { return VolumeAt(e, s, w, temperature) }
		for _, m := range [][3]float64{{150, 90, 760}, {100, 100, 800}, {20, 300, 700}, {60, 20, 900}} {
			e, s, w := m[0], m[1], m[2]
			p := at.partials(e, s, w)
			for name, x := range map[string][2]float64{
				"ethanol": {p.E, (volume(e+h, s, w) - volume(e-h, s, w)) / (2 * h)},
				"sucrose": {p.S, (volume(e, s+h, w) - volume(e, s-h, w)) / (2 * h)},
				"water":   {p.W, (volume(e, s, w+h) - volume(e, s, w-h)) / (2 * h)},
				"volume":  {p.V, volume(e, s, w)},
			} {
				if math.Abs(x[0]/x[1]-1) > 1e-4 {
					t.Errorf("%v at %v C, %s: %.9g, by differences %.9g", m, temperature, name, x[0], x[1])
				}
			}
		}
	}
}

// The quick way to an extract is taken by every wine and liqueur, and gives up only
// where the liquid is nearly dry, nearly full or none.
func TestTheQuickWayToAnExtract(t *testing.T) {
	for _, strength := range []float64{0.1, 6, 20, 45, 70} {
		e := strength / 100 * PureEthanol
		for s := 0.05 * MostExtract(strength); s < 0.95*MostExtract(strength); s += 23 {
			for _, temperature := range []float64{1, 20, 39} {
				w := WaterIn(e, s)
				got, water, ok := fillOf((e+s+w)/VolumeAt(e, s, w, temperature), e, temperature)
				if !ok || math.Abs(got-s) > 1e-7 || math.Abs(water-w) > 1e-7 {
					t.Errorf("%v %% vol, %v g/L at %v C: %v and %v g of water, %v, expected %v", strength, s, temperature, got, water, ok, w)
				}
			}
		}
		if s, _, ok := fillOf(Ethanol(ByMass(strength), 20)-0.01, e, 20); ok {
			t.Errorf("%v %% vol, lighter than dry: %v", strength, s)
		}
	}
}
