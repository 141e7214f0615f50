package additions

import (
	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// SugarAddition is what to weigh in and what there is then, all at 20 C.
type SugarAddition struct {
	Sugar    units.Mass   // of the sweetener as weighed
	Volume   units.Volume // after the addition
	Increase units.Volume // that the addition made
	After    abv.Composition
}

// masses of ethanol, extract and water, g
type masses struct{ e, s, w float64 }

func (m masses) sum() float64 { return m.e + m.s + m.w }

func (m masses) plus(sweetener Sweetener, g float64) masses {
	return masses{m.e, m.s + g*sweetener.Extract, m.w + g*(1-sweetener.Extract)}
}

// addition is the result of adding g of the sweetener to before.
func (m masses) addition(g float64, before units.Volume, s Sweetener) (SugarAddition, error) {
	m = m.plus(s, g)
	if err := units.Check("sucrose in sucrose and water after the addition", 100*m.s/(m.s+m.w), 0, 100*density.MaxSucrose*(1+1e-12), "% mass", density.SourceSucrose); err != nil {
		return SugarAddition{}, err
	}
	v := density.Volume20(m.e, m.s, m.w)
	return SugarAddition{units.Mass(g), units.Volume(v), units.Volume(v) - before, abv.Composition{
		Strength: units.Strength(100 * m.e / density.PureEthanol / v),
		Extract:  units.Concentration(m.s / v),
		Gravity:  gravity.SG(m.sum() / v / density.Water20),
	}}, nil
}

// must is a sucrose solution of this gravity and volume.
func must(from gravity.SG, v units.Volume) (masses, error) {
	w, err := from.Plato()
	if err := first(err, checkVessel(v)); err != nil {
		return masses{}, err
	}
	total := float64(from) * density.Water20 * float64(v)
	s := float64(w) / 100 * total
	return masses{0, s, total - s}, nil
}

// wineMasses is v of a liquid of this strength and extract; its Gravity is not read.
func wineMasses(wine abv.Composition, v units.Volume) (masses, error) {
	if err := checkVessel(v); err != nil {
		return masses{}, err
	}
	e, s, w, ok := density.MassesPerLitre(float64(wine.Strength), float64(wine.Extract))
	if !ok {
		_, err := abv.Compose(wine.Strength, wine.Extract) // says which is outside
		return masses{}, err
	}
	return masses{e * float64(v), s * float64(v), w * float64(v)}, nil
}

// RaiseGravity is the dry sugar (sucrose) that takes v of must from one gravity
// to another. Volume is the volume after the addition. Mass is conserved and a
// must counts as a sucrose solution: W (B - A)/(100 - B) with Balling. Domain:
// gravity 1 to 1.3499, to at least from; volume above 0. For a liquid with
// alcohol in it see RaiseExtract. Accuracy: that of the sucrose density, 0.1
// kg/m3 to 40 % mass. Error: *units.RangeError.
func RaiseGravity(from, to gravity.SG, v units.Volume) (SugarAddition, error) {
	return RaiseGravityWith(Sucrose, from, to, v)
}

// RaiseGravityWith is RaiseGravity with another sweetener, whose own gravity
// must be above the one wanted. Domain, accuracy and error as RaiseGravity.
func RaiseGravityWith(s Sweetener, from, to gravity.SG, v units.Volume) (SugarAddition, error) {
	before, err := must(from, v)
	wanted, err2 := to.Plato()
	if err := first(err, err2, s.check(), units.Check("gravity wanted", float64(to), float64(from), density.HeaviestGravity, "", "a sweetener raises the gravity")); err != nil {
		return SugarAddition{}, err
	}
	b := float64(wanted) / 100
	if err := units.Check("extract wanted", 100*b, 0, 100*s.Extract*0.999, "% mass", "the sweetener's own extract"); err != nil {
		return SugarAddition{}, err
	}
	g := max(0, (b*before.sum()-before.s)/(s.Extract-b)) // below zero by rounding only
	return before.addition(g, v, s)
}

// AddSugar is the gravity and the volume of v of must after a stated weight of
// dry sugar, 0 to 1e10 g. Domain, accuracy and error as RaiseGravity.
func AddSugar(from gravity.SG, v units.Volume, sugar units.Mass) (gravity.SG, units.Volume, error) {
	before, err := must(from, v)
	if err := first(err, checkMass(sugar)); err != nil {
		return 0, 0, err
	}
	a, err := before.addition(float64(sugar), v, Sucrose)
	return a.After.Gravity, a.Volume, err
}

// AddInPortions is the state after each of n equal portions of dry sugar, none
// of which has fermented in between. Domain: n 1 to 100; else, and error, as
// RaiseGravity.
func AddInPortions(from gravity.SG, v units.Volume, sugar units.Mass, n int) ([]SugarAddition, error) {
	before, err := must(from, v)
	if err := first(err, checkMass(sugar), units.Check("number of portions", float64(n), 1, 100, "", bound)); err != nil {
		return nil, err
	}
	steps, portion, held := make([]SugarAddition, n), float64(sugar)/float64(n), v
	for i := range steps {
		if steps[i], err = before.addition(portion, held, Sucrose); err != nil {
			return nil, err
		}
		before, held = before.plus(Sucrose, portion), steps[i].Volume
	}
	return steps, nil
}

// Sweeten is v of wine after a stated weight of sweetener: strength falls,
// extract and volume rise, by the masses of all three components. The wine's
// Gravity is not read. Domain: that of abv.Compose, before and after. Error:
// *units.RangeError.
func Sweeten(wine abv.Composition, v units.Volume, s Sweetener, m units.Mass) (SugarAddition, error) {
	before, err := wineMasses(wine, v)
	if err := first(err, s.check(), checkMass(m)); err != nil {
		return SugarAddition{}, err
	}
	return before.addition(float64(m), v, s)
}

// RaiseExtract is the sweetener that takes v of wine to an extract in g/L of
// the sweetened wine. Domain: to from the wine's own extract to what the
// sweetener can reach; else, and error, as Sweeten. Solved to 1e-9 of the mass.
func RaiseExtract(wine abv.Composition, to units.Concentration, v units.Volume, s Sweetener) (SugarAddition, error) {
	before, err := wineMasses(wine, v)
	if err != nil {
		return SugarAddition{}, err
	}
	return before.raise(before.s, s.Extract, float64(to), v, s, "extract wanted", "g/L")
}

// raise adds the sweetener until (a + slope g) / volume is the target.
func (m masses) raise(a, slope, target float64, v units.Volume, s Sweetener, quantity, unit string) (SugarAddition, error) {
	if err := s.check(); err != nil {
		return SugarAddition{}, err
	}
	most := 1e3 * m.sum()
	if d := s.Extract - density.MaxSucrose; d > 0 {
		most = min(most, max(0, (density.MaxSucrose*(m.s+m.w)-m.s)/d))
	}
	end := m.plus(s, most)
	least, reach := a/density.Volume20(m.e, m.s, m.w), (a+slope*most)/density.Volume20(end.e, end.s, end.w)
	if err := units.Check(quantity, target, least*(1-1e-12), reach, unit, "from what is there to what the sweetener reaches"); err != nil {
		return SugarAddition{}, err
	}
	g, err := solve.Rising(func(g float64) (float64, float64) {
		n := m.plus(s, g)
		p := density.VolumePartials20(n.e, n.s, n.w)
		return a + slope*g - target*p.V, slope - target*(s.Extract*p.S+(1-s.Extract)*p.W)
	}, 0, 0, most, 1e-9*m.sum())
	if err != nil { // the wine is at the target already, within rounding
		g = 0
	}
	return m.addition(g, v, s)
}
