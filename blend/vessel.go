package blend

import (
	"fmt"
	"slices"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// A Vessel is a jar, demijohn or cask: its size to the brim, the headspace to
// leave, and what wood and lees in it take up.
type Vessel struct {
	Size, Headspace, Displaced units.Volume
}

// Room is what the vessel takes of liquid. Error: *units.RangeError where
// nothing is left.
func (v Vessel) Room() (units.Volume, error) {
	for _, q := range []struct {
		quantity string
		x        units.Volume
		least    float64
	}{{"size of the vessel", v.Size, 1e-9}, {"headspace", v.Headspace, 0}, {"volume of wood and lees", v.Displaced, 0}} {
		if err := units.Check(q.quantity, float64(q.x), q.least, check.MostVolume, "L", ""); err != nil {
			return 0, err
		}
	}
	room := v.Size - v.Headspace - v.Displaced
	if room <= 0 {
		return 0, units.OutOfRange("", "headspace and displaced volume together", float64(v.Headspace+v.Displaced), 0, float64(v.Size), "L", "")
	}
	return room, nil
}

// WoodDisplaces is the volume that wood of this mass takes up in the liquid,
// for a wood of this density when it has soaked. Oak stands near 0.7 kg/L dry
// and above 1 soaked (common practice, no source). Domain of density: 300 to
// 1500 kg/m3. Error: *units.RangeError.
func WoodDisplaces(wood units.Mass, density units.Density) (units.Volume, error) {
	if err := units.Check("mass of wood", float64(wood), 0, 1e9, "g", ""); err != nil {
		return 0, err
	}
	if err := units.Check("density of wood", float64(density), 300, 1500, "kg/m3", "common practice, no source"); err != nil {
		return 0, err
	}
	return units.Volume(float64(wood) / float64(density)), nil
}

// FortifyIn is Fortify in a vessel that holds all of the base already: the
// blend must fit its Room. Where it does not, the *UnreachableError says what
// the vessel allows, and what would do: a larger vessel, a stronger spirit, or
// less of the base in it. Errors as Room and Fortify.
func FortifyIn(v Vessel, base, spirit Component, target units.Strength) (Fortification, error) {
	room, err := v.Room()
	if err != nil {
		return Fortification{}, err
	}
	if base.Volume > room {
		return Fortification{}, units.OutOfRange(base.label(), "volume in the vessel", float64(base.Volume), 0, float64(room), "L", "")
	}
	return addTo(base, spirit, WantStrength(target), float64(room))
}

// TopUp is how much of a liquid fills up what is there to a volume of to
// litres, and what the result is; Base is all that was there. Domain: to from
// what is there to 1e12 L; with.Volume is the stock at hand, zero as much as is
// needed. Error: *units.RangeError.
func TopUp(there, with Component, to units.Volume) (Fortification, error) {
	d := duo{base: there, other: with}
	var err error
	if d.b, err = d.base.perLitre(); err != nil {
		return Fortification{}, err
	}
	if d.o, err = d.other.perLitre(); err != nil {
		return Fortification{}, err
	}
	if err := units.Check("volume to top up to", float64(to), max(1e-9, float64(there.Volume)), check.MostVolume, "L", ""); err != nil {
		return Fortification{}, err
	}
	add, err := filling(liquid.Masses{}.Plus(d.b, float64(there.Volume)), d.o, float64(to))
	if err != nil {
		return Fortification{}, err
	}
	if lacking(&with, add) {
		return Fortification{}, units.OutOfRange(with.label(), "volume needed", add, 0, float64(with.Volume), "L", "")
	}
	f := d.pour(float64(there.Volume), add)
	f.Result.Volume = to
	return f, nil
}

// Portions is Fortify with the spirit poured in n equal portions, days apart:
// the state after each. The last is Fortify itself. n is 1 to 100. Errors as
// Fortify.
func Portions(base, spirit Component, target units.Strength, n int) ([]Fortification, error) {
	if err := units.Check("number of portions", float64(n), 1, 100, "", ""); err != nil {
		return nil, err
	}
	f, err := Fortify(base, spirit, target)
	if err != nil {
		return nil, err
	}
	states := make([]Fortification, n)
	for i := range states {
		part := spirit
		part.Volume = f.Spirit * units.Volume(i+1) / units.Volume(n)
		m, err := Mix(base, part)
		if err != nil {
			return nil, err
		}
		states[i] = Fortification{base.Volume, part.Volume, m}
	}
	states[n-1] = f
	return states, nil
}

// A Bottle is a number of bottles of one size.
type Bottle struct {
	Size  units.Volume
	Count int
}

// Bottles fills v into bottles of these sizes, the largest first, each to its
// size, and says what remains. Domain: v 0 to 1e12 L, at most
// a million bottles. Error: *units.RangeError.
func Bottles(v units.Volume, sizes ...units.Volume) (plan []Bottle, rest units.Volume, err error) {
	if err := check.Volume("volume to bottle", v); err != nil {
		return nil, 0, err
	}
	sizes = slices.Clone(sizes)
	slices.Sort(sizes)
	slices.Reverse(sizes)
	rest = v
	for _, size := range sizes {
		if err := units.Check("bottle size", float64(size), 1e-3, check.MostVolume, "L", ""); err != nil {
			return nil, 0, err
		}
		n := float64(rest/size) + 1e-9 // a bottle that lacks a billionth is full
		if n >= 1e6+1 {
			return nil, 0, fmt.Errorf("bottles of %v: %w", size, units.Check("number of bottles", n, 0, 1e6, "", ""))
		}
		if int(n) > 0 {
			plan = append(plan, Bottle{size, int(n)})
			rest = max(0, rest-size*units.Volume(int(n)))
		}
	}
	return plan, rest, nil
}
