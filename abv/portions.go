package abv

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/liquid"
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

var byPortions = figure.Method{Method: "mass balance of all portions together", Source: balance.Source + "; " + density.SourceMixture}

// MassBalancePortions is the wine in the vessel when sugar was added during the
// fermentation: og is then not one number, and the drop of the hydrometer says
// nothing by itself. When each portion went in, and at which reading, does not
// matter to the balance: what went in less the carbon dioxide and the yeast is
// what is there. must is the volume at the start, at 20 C, above 0; fg is read
// now, from dry to the gravity of all together (which may lie above og).
// Domain: og as MassBalance; Sugar and Water zero or more; all together at
// most 70 % extract. Error: *units.RangeError.
func MassBalancePortions(og gravity.SG, must units.Volume, fg gravity.SG, y Yield, portions ...Portion) (Portioned, error) {
	start, err := mustOf(og, y)
	if err != nil {
		return Portioned{}, err
	}
	if err := check.Must(must); err != nil {
		return Portioned{}, err
	}
	all := liquid.OfSucrose(start.Gravity, start.Extract/100, float64(must))
	for _, add := range portions {
		if err := check.Mass("sugar added", add.Sugar); err != nil {
			return Portioned{}, err
		}
		if err := check.Mass("water added", add.Water); err != nil {
			return Portioned{}, err
		}
		all = all.Plus(liquid.Masses{Sucrose: float64(add.Sugar), Water: float64(add.Water)}, 1)
	}
	if err := all.Check(); err != nil {
		return Portioned{}, fmt.Errorf("must and portions together: %w", err)
	}
	original := gravity.SG(min(all.Gravity(), density.HeaviestGravity))
	f, err := MassBalance(original, fg, y)
	if err != nil {
		return Portioned{}, err
	}
	litres := units.Volume(all.Mass() / (float64(original) * density.Water20))
	wine := litres * units.Volume(f.VolumeRatio)
	return Portioned{
		Fermented: f, Original: original, Must: litres, Wine: wine,
		Alcohol: units.Mass(float64(wine) * float64(f.Strength) / 100 * density.PureEthanol),
		Sugar:   units.Mass(float64(litres) * float64(f.SugarUsed)),
	}, nil
}
