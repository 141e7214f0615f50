package additions

import (
	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// Pitching is how much active dry wine yeast, and the water to wake it in.
type Pitching struct {
	Yeast     units.Mass
	Cells     float64 // viable cells per mL of must that this gives, at least
	Water     units.Volume
	MostWater units.Volume // US: 2 gallons per pound of yeast, and 0.5 % of the volume
	Difficult bool         // the double rate: much sugar or sulfite
	Source    string
}

const (
	pitchRate     = 0.25 // g/L: 25 g/hL
	pitchHard     = 0.50 // twice for a difficult juice
	cellsPerGram  = 2e10
	difficultSO2  = 10 * units.MilligramPerLitre // of free SO2: "10-15 mg/L or more"
	difficultMust = 1.106                        // SG of 25 Brix
	rehydration   = 10.0                         // mL water per g, common practice, no source
)

// Pitch is the yeast for v of must: 25 g/hL, and 50 g/hL where the gravity is
// above 1.106 or the free SO2 10 mg/L or more. The source says "high Brix"; 25
// Brix for it is ours (the US ceiling for sugared juice, 27 CFR 24.177). Domain:
// gravity 1 to 1.3499, free SO2 0 to 10 g/L, volume above 0. Error:
// *units.RangeError. Source: AWRI, Active dry wine yeast rehydration; water 27
// CFR 24.176(a). Baker's yeast is another yeast, for which this is no rate.
func Pitch(og gravity.SG, freeSO2 units.Concentration, v units.Volume) (Pitching, error) {
	if _, err := og.Plato(); err != nil {
		return Pitching{}, err
	}
	if err := check.First(check.Level("free SO2", freeSO2, check.MostSO2), check.Vessel(v)); err != nil {
		return Pitching{}, err
	}
	p := Pitching{Difficult: og > difficultMust || freeSO2 >= difficultSO2, Source: "AWRI, Active dry wine yeast rehydration"}
	rate := pitchRate
	if p.Difficult {
		rate = pitchHard
	}
	p.Yeast = units.Mass(rate * float64(v))
	p.Cells = rate / 1000 * cellsPerGram
	p.MostWater = min(units.Volume(p.Yeast.In(units.Pound))*2*units.USGallon, v*0.005)
	p.Water = min(units.Volume(float64(p.Yeast)*rehydration)*units.Millilitre, p.MostWater)
	return p, nil
}
