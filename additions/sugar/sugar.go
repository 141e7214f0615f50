package sugar

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// Addition is what to weigh in and what there is then, all at 20 C.
type Addition struct {
	Sugar    units.Mass   // of the sweetener as weighed
	Volume   units.Volume // after the addition
	Increase units.Volume // that the addition made
	After    abv.Composition
}

// masses of a gram of the sweetener.
func (s Sweetener) masses() liquid.Masses {
	return liquid.Masses{Sucrose: s.Extract, Water: 1 - s.Extract}
}

// addition is the result of adding g of the sweetener to v of a liquid.
func addition(before liquid.Masses, g float64, v units.Volume, s Sweetener) (Addition, error) {
	after := before.Plus(s.masses(), g)
	if err := after.Check(); err != nil {
		return Addition{}, fmt.Errorf("after the addition: %w", err)
	}
	made := after.Properties()
	return Addition{units.Mass(g), units.Volume(made.Volume), units.Volume(made.Volume) - v,
		abv.Composition{Strength: made.Strength, Extract: made.Extract, Gravity: gravity.SG(made.Gravity)}}, nil
}

// mustMasses is a sucrose solution of this gravity and volume.
func mustMasses(from gravity.SG, v units.Volume) (liquid.Masses, error) {
	share, err := from.Plato()
	if err := check.First(err, check.Vessel(v)); err != nil {
		return liquid.Masses{}, err
	}
	return liquid.OfSucrose(float64(from), float64(share)/100, float64(v)), nil
}

// wineMasses is v of a liquid of this strength and extract; its Gravity is ignored.
func wineMasses(wine abv.Composition, v units.Volume) (liquid.Masses, error) {
	if err := check.Vessel(v); err != nil {
		return liquid.Masses{}, err
	}
	litre, err := liquid.PerLitre(wine.Strength, wine.Extract)
	return liquid.Masses{}.Plus(litre, float64(v)), err
}

// RaiseGravity is the dry sugar (sucrose) that takes v of must from one gravity
// to another. Volume is the volume after the addition. Mass is conserved and a
// must counts as a sucrose solution: W (B - A)/(100 - B) with Balling. Domain:
// gravity 1 to 1.3499, to at least from; volume above 0. For a liquid with
// alcohol in it see RaiseExtract. Accuracy: that of the sucrose density, 0.1
// kg/m3 to 40 % mass. Error: *units.RangeError.
func RaiseGravity(from, to gravity.SG, v units.Volume) (Addition, error) {
	return RaiseGravityWith(sucrose, from, to, v)
}

// RaiseGravityWith is RaiseGravity with another sweetener, whose own gravity
// must be above the one wanted. Domain, accuracy and error as RaiseGravity.
func RaiseGravityWith(s Sweetener, from, to gravity.SG, v units.Volume) (Addition, error) {
	before, err := mustMasses(from, v)
	wanted, err2 := to.Plato()
	if err := check.First(err, err2, s.check(), units.Check("gravity wanted", float64(to), float64(from), density.HeaviestGravity, "", "a sweetener raises the gravity")); err != nil {
		return Addition{}, err
	}
	b := float64(wanted) / 100
	if err := units.Check("extract wanted", 100*b, 0, 100*s.Extract*0.999, "% mass", "the sweetener's own extract"); err != nil {
		return Addition{}, err
	}
	g := max(0, (b*before.Mass()-before.Sucrose)/(s.Extract-b)) // below zero by rounding only
	return addition(before, g, v, s)
}

// Add is the gravity and the volume of v of must after a stated weight of
// dry sugar, 0 to 1e10 g. Domain, accuracy and error as RaiseGravity.
func Add(from gravity.SG, v units.Volume, sugar units.Mass) (gravity.SG, units.Volume, error) {
	before, err := mustMasses(from, v)
	if err := check.First(err, check.Weighed(sugar)); err != nil {
		return 0, 0, err
	}
	a, err := addition(before, float64(sugar), v, sucrose)
	return a.After.Gravity, a.Volume, err
}

// AddInPortions is the state after each of n equal portions of dry sugar, none
// of which has fermented in between. Domain: n 1 to 100; else, and error, as
// RaiseGravity.
func AddInPortions(from gravity.SG, v units.Volume, sugar units.Mass, n int) ([]Addition, error) {
	before, err := mustMasses(from, v)
	if err := check.First(err, check.Weighed(sugar), units.Check("number of portions", float64(n), 1, 100, "", check.Bound)); err != nil {
		return nil, err
	}
	steps, portion, held := make([]Addition, n), float64(sugar)/float64(n), v
	for i := range steps {
		if steps[i], err = addition(before, portion, held, sucrose); err != nil {
			return nil, err
		}
		before, held = before.Plus(sucrose.masses(), portion), steps[i].Volume
	}
	return steps, nil
}

// Sweeten is v of wine after a stated weight of sweetener: strength falls,
// extract and volume rise, by the masses of all three components. The wine's
// Gravity is not read. Domain: that of abv.Compose, before and after. Error:
// *units.RangeError.
func Sweeten(wine abv.Composition, v units.Volume, s Sweetener, m units.Mass) (Addition, error) {
	before, err := wineMasses(wine, v)
	if err := check.First(err, s.check(), check.Weighed(m)); err != nil {
		return Addition{}, err
	}
	return addition(before, float64(m), v, s)
}

// RaiseExtract is the sweetener that takes v of wine to an extract in g/L of
// the sweetened wine. Domain: to from the wine's own extract to what the
// sweetener can reach; else, and error, as Sweeten. Solved to 1e-9 of the mass.
func RaiseExtract(wine abv.Composition, to units.Concentration, v units.Volume, s Sweetener) (Addition, error) {
	before, err := wineMasses(wine, v)
	if err != nil {
		return Addition{}, err
	}
	return raise(before, before.Sucrose, s.Extract, float64(to), v, s, "extract wanted", "g/L")
}

// raise adds g of the sweetener until (a + slope g) / volume is the target.
func raise(m liquid.Masses, a, slope, target float64, v units.Volume, s Sweetener, quantity, unit string) (Addition, error) {
	if err := s.check(); err != nil {
		return Addition{}, err
	}
	most, gram := 1e3*m.Mass(), s.masses()
	if d := s.Extract - density.MaxSucrose; d > 0 {
		most = min(most, max(0, (density.MaxSucrose*(m.Sucrose+m.Water)-m.Sucrose)/d))
	}
	least, reach := a/m.Volume(), (a+slope*most)/m.Plus(gram, most).Volume()
	if err := units.Check(quantity, target, least*(1-1e-12), reach, unit, "from what is there to what the sweetener reaches"); err != nil {
		return Addition{}, err
	}
	g, err := solve.Rising(func(g float64) (float64, float64) {
		p := m.Plus(gram, g).Partials()
		return a + slope*g - target*p.V, slope - target*gram.In(p)
	}, 0, 0, most, 1e-9*m.Mass(), 1e-9*m.Mass())
	if err != nil {
		return Addition{}, units.OutOfRange("", quantity, target, least, reach, unit, "no amount of the sweetener makes it")
	}
	return addition(m, g, v, s)
}
