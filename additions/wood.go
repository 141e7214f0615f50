package additions

import (
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// Wood is what goes into the vessel.
type Wood struct {
	Name    string
	Surface float64 // cm2 per g, as the wine sees it; 35.5 to 77 for chips
}

// OakChips is a middling chip of that study; its five run from 35.5 to 77 cm2
// per g, so a dose by surface from it is good to a third.
var OakChips = Wood{"oak chips", 38}

// Block is wood cut to a block, stave or cube, by its dry mass and its sides
// in cm. Domain: mass above 0, sides 0.05 to 300 cm. Error: *units.RangeError.
func Block(name string, m units.Mass, a, b, c float64) (Wood, error) {
	err := units.Check("mass of the block", float64(m), 1e-3, 1e6, "g", check.Bound)
	for _, side := range []float64{a, b, c} {
		err = check.First(err, units.Check("side of the block", side, 0.05, 300, "cm", check.Bound))
	}
	if err != nil {
		return Wood{}, err
	}
	return Wood{name, 2 * (a*b + b*c + c*a) / float64(m)}, nil
}

// Barrel is the wood that a barrel of this size shows a litre of wine, in cm2/L,
// and the share of a 225 L barrel's time in which it gives the same taste:
// barrels of one shape have surface to volume with the cube root of the volume.
// Chips are dosed by the litre: their time is the same in a jar and in a tank.
// Domain: 1 to 1000 L. Error: *units.RangeError.
func Barrel(v units.Volume) (surface, time float64, err error) {
	if err := units.Check("volume of the barrel", float64(v), 1, 1000, "L", check.Bound); err != nil {
		return 0, 0, err
	}
	time = math.Cbrt(float64(v) / 225)
	return BarrelSurface / time, time, nil
}

// WoodDosed is a weight of wood and what it does beside its taste.
type WoodDosed struct {
	Mass              units.Mass
	Surface           float64        // cm2 per litre of wine
	Barrels           float64        // that surface over a 225 L barrel's
	LossLow, LossHigh units.Volume   // wine kept back by the wood: PracticeOf("wood_loss_per_gram")
	ThinnedBy         units.Strength // fall of strength by the wood's own water, at most: PracticeOf("wood_water")
}

// WoodDose is the wood that gives v of wine of this strength the surface of a
// share of a 225 L barrel (1: all of it). Domain: share 0 to 5, volume above 0,
// strength 0 to 100, surface 0.1 to 500 cm2/g. Error: *units.RangeError. Time
// does as much as dose: PracticeOf("wood_first_tasting") says when to begin.
func WoodDose(share float64, v units.Volume, strength units.Strength, w Wood) (WoodDosed, error) {
	if err := check.First(units.Check("share of a barrel's surface", share, 0, 5, "", check.Bound), w.check()); err != nil {
		return WoodDosed{}, err
	}
	return Wooded(units.Mass(share*BarrelSurface*float64(v)/w.Surface), v, strength, w)
}

// Wooded is what a weighed wood amounts to in v of wine: the way back. Domain:
// up to 200 g/L, volume above 0; else, and error, as WoodDose.
func Wooded(m units.Mass, v units.Volume, strength units.Strength, w Wood) (WoodDosed, error) {
	if err := check.First(check.Weighed(m), check.Vessel(v), w.check(), units.Check("strength", float64(strength), 0, 100, "% vol", ""),
		check.Level("wood in the wine", units.Concentration(float64(m)/float64(v)), 200)); err != nil {
		return WoodDosed{}, err
	}
	surface := float64(m) * w.Surface / float64(v)
	loss := known("wood_loss_per_gram")
	water := known("wood_water").High / 100 * float64(m) / 1000 // L
	return WoodDosed{m, surface, surface / BarrelSurface,
		units.Volume(loss.Low*float64(m)) * units.Millilitre, units.Volume(loss.High*float64(m)) * units.Millilitre,
		strength * units.Strength(water/(float64(v)+water))}, nil
}

func (w Wood) check() error {
	return units.Check("surface of the wood", w.Surface, 0.1, 500, "cm2/g", check.Bound)
}
