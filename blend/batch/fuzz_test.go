package batch

import (
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// FuzzWork: the numbers of a batch as somebody may type them. A plan is finite,
// and pours no less than nothing.
func FuzzWork(f *testing.F) {
	f.Add(3.0, 1.057, 1.092, 6.0, 0.15, 40.0, 0.769, 20.0, 3.4, 0.0, 16.0, 18.0)
	f.Add(0.1, 1.001, 1.002, 0.0, 0.0, 96.0, 0.0, 0.5, 0.0, 0.2, 0.0, 0.0)
	f.Add(1000.0, 1.150, 1.160, 14.0, 900.0, 38.0, 500.0, 22.0, 4.4, 0.05, 18.0, -1.0)
	f.Add(3.0, 1.057, 1.057, 3.0, 2.9999, 20.0, 1.0, 20.0, 2.5, 0.0, 5.0, 40.0)
	// Nearly all of the must stays with the lees: an extract known to 13 g/L.
	f.Add(18.0, 1.057, 1.092, 6.0, 16.525000000000002, 31.0, 0.1538, 20.0, 3.4, 0.0, 16.0, 18.0)
	f.Fuzz(func(t *testing.T, must, reading, original, stop, lees, spirit, planned, target, pH, sulfite, limit, cellar float64) {
		b := Demo()
		b.Must, b.MustReading, b.OriginalReading = Litres(units.Volume(must)), Is(gravity.SG(reading)), Is(gravity.SG(original))
		b.StopAt, b.Lees = Is(units.Strength(stop)), Is(units.Volume(lees))
		b.SpiritStrength, b.SpiritPlanned, b.Target = Is(units.Strength(spirit)), Litres(units.Volume(planned)), Is(units.Strength(target))
		b.Sulfite, b.CellarTemperature = Is(units.Concentration(sulfite)), Is(units.Celsius(cellar))
		b.Vessel, b.Headspace, b.Sugar = Stated[units.Volume]{}, Stated[units.Volume]{}, nil
		if pH != 0 {
			b.PH = Is(pH)
		}
		if limit != 0 {
			b.YeastLimit = Is(units.Strength(limit))
		}
		p, err := b.Work()
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		finitePlan(t, p)
		for _, l := range p.Liquids {
			handbook.Finite(t, l.Key, l)
			// Sugar is a part of the extract, which may be more than the likely one.
			most := float64(l.Extract)*(1+1e-9) + 1e-9 + 1.645*float64(l.ExtractUncertainty)
			if l.Volume < 0 || l.StrengthUncertainty < 0 || l.VolumeUncertainty < 0 || l.Sugar.Low > l.Sugar.High || float64(l.Sugar.Likely) > float64(l.Extract)*(1+1e-9)+1e-9 || float64(l.Sugar.High) > most {
				t.Errorf("%+v", l)
			}
		}
		var poured float64
		for _, x := range p.Pours {
			handbook.Finite(t, x.Key, x)
			if x.Volume < 0 || x.Mass < 0 {
				t.Errorf("%+v", x)
			}
			if x.Into == "reachable" {
				poured += float64(x.Mass)
			}
		}
		if l, ok := p.Liquid("reachable"); ok && poured > 0 && math.Abs(poured-float64(l.Mass)) > 1e-6*poured {
			t.Errorf("%v g are poured, the blend weighs %v", poured, float64(l.Mass))
		}
	})
}
