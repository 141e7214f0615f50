package abv

import (
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// A Portion is sugar added while the must ferments: dry sugar, and the water
// that comes with it in a syrup.
type Portion struct{ Sugar, Water units.Mass }

// Portioned is a wine whose sugar came in portions.
type Portioned struct {
	Fermented              // per litre figures "of the must": of all portions together
	Original  gravity.SG   // of the must and all portions together
	Must      units.Volume // the same before fermentation
	Wine      units.Volume // now
	Alcohol   units.Mass   // in the vessel
	Sugar     units.Mass   // extract used, of all that was added
}

// MassBalancePortions is the wine in the vessel when sugar was added during the
// fermentation: og is then not one number, and the drop of the spindle says
// nothing by itself. When each portion went in, and at which reading, does not
// matter to the balance: what went in less the carbon dioxide and the yeast is
// what is there. must is the volume at the start, at 20 C, above 0; fg is read
// now, from dry to the gravity of all together (which may lie above og).
// Domain: og as MassBalance; Sugar and Water zero or more; all together at
// most 70 % extract. Error: *units.RangeError.
func MassBalancePortions(og gravity.SG, must units.Volume, fg gravity.SG, y Yield, portions ...Portion) (Portioned, error) {
	p, err := mustExtract(og, y)
	if err != nil {
		return Portioned{}, err
	}
	if err := units.Check("volume of must", float64(must), 1e-6, largestVolume, "L", ""); err != nil {
		return Portioned{}, err
	}
	mass := float64(og) * density.Water20 * float64(must)
	sugar, water := mass*p/100, mass*(1-p/100)
	for _, add := range portions {
		if err := checkMass("sugar added", add.Sugar); err != nil {
			return Portioned{}, err
		}
		if err := checkMass("water added", add.Water); err != nil {
			return Portioned{}, err
		}
		sugar, water = sugar+float64(add.Sugar), water+float64(add.Water)
	}
	share := sugar / (sugar + water)
	if err := units.Check("extract of must and portions together", 100*share, 0, 100*density.MaxSucrose*(1+1e-12), "% mass", density.SourceSucrose); err != nil {
		return Portioned{}, err
	}
	original := min(gravity.SG(density.Sucrose20(share)/density.Water20), gravity.SG(density.HeaviestGravity))
	f, err := MassBalance(original, fg, y)
	if err != nil {
		return Portioned{}, err
	}
	all := units.Volume((sugar + water) / (float64(original) * density.Water20))
	wine := all * units.Volume(f.VolumeRatio)
	return Portioned{
		Fermented: f, Original: original, Must: all, Wine: wine,
		Alcohol: units.Mass(float64(wine) * float64(f.Strength) / 100 * density.PureEthanol),
		Sugar:   units.Mass(float64(all) * float64(f.SugarUsed)),
	}, nil
}
