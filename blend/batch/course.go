package batch

import (
	"fmt"
	"math"

	"example.org/mutage/abv"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// A quantity is one number that the course of a batch rests on, with what is
// known of it. The course is a pure function of all of them, so that every figure
// carries its uncertainty through the whole chain, and what enters twice enters
// as one.
type quantity int

const (
	qMust quantity = iota // L or g, as measured
	qReading
	qMustTemperature // C
	qOriginal        // reading with the sugar in
	qLabel           // g/L of sugar in the juice
	qSugar           // 1: all portions together, relative
	qStop            // true gravity at the stop
	qYeast           // yield of the yeast
	qBalance         // error of the balance, % vol
	qLees            // L
	qWine            // finished or racked wine, L or g as measured
	qWineStrength
	qWineReading
	qWineRefractometer
	qWineBoiled
	qWinePoured // L or g as measured; all of it where it was not measured
	qSpirit     // L at 20 C
	qSpiritStrength
	qSweetener // g for each litre of wine poured
	qModel     // relative error of the blend's density
	qPlanned   // L at 20 C: the spirit that one meant to pour
	quantities
)

type values [quantities]float64

// A course is one run of a batch, from the must to the blend. Volumes are at
// 20 C.
type course struct {
	juice    units.Volume // before the sugar
	before   gravity.SG   // of the juice
	og       gravity.SG
	must     units.Volume // with the sugar in
	wine     abv.Fermented
	litres   units.Volume // of the wine, before racking
	base     blend.Component
	poured   blend.Component // what goes into the blend, sweetened where it is
	unsweet  units.Volume    // of the wine poured, before it was sweetened
	kept     blend.Component
	spirit   blend.Component
	blend    blend.Mixture
	planned  blend.Mixture // with the amount meant
	sweetenG units.Mass
}

// hydrometer of the batch.
func (b *Batch) hydrometer() gravity.Hydrometer {
	return gravity.NewHydrometer(b.Hydrometer.Or(units.Celsius(20)))
}

func (b *Batch) cellar() units.Temperature { return b.CellarTemperature.Or(units.Celsius(20)) }
func (b *Batch) mustAt() units.Temperature { return b.MustTemperature.Or(units.Celsius(20)) }
func (b *Batch) notFermented() bool        { return b.StopAt.Known && b.StopAt.Value == 0 }

// at20 is the volume at 20 C of an amount measured at t: by volume, or by weight.
func at20(c blend.Component, a Amount, x float64, t units.Temperature) (units.Volume, error) {
	c.Volume = 1
	if a.Mass.Known {
		m, err := blend.Mix(c)
		return units.Volume(x / float64(m.Mass)), err
	}
	c.Volume = units.Volume(x)
	c, err := c.MeasuredAt(t)
	return c.Volume, err
}

// inField says which field of a batch an error is about.
func inField(name string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", name, err)
}

// run goes from the must to the blend.
func (b *Batch) run(v *values) (c course, err error) {
	if b.Wine.Known() {
		err = b.finished(v, &c)
	} else {
		err = b.ferment(v, &c)
	}
	if err != nil {
		return c, err
	}
	c.base.Name = "wine"
	if b.notFermented() {
		c.base.Name = "juice"
	}
	c.poured = c.base
	if b.PouredWine.Known() || v[qWinePoured] > 0 {
		if c.poured.Volume, err = at20(c.base, b.PouredWine, v[qWinePoured], b.cellar()); err != nil {
			return c, inField("wine_poured", err)
		}
	}
	c.unsweet = c.poured.Volume
	c.kept = c.base
	c.kept.Volume = max(0, c.base.Volume-c.poured.Volume)
	c.spirit = b.spirit(v)
	if v[qPlanned] > 0 {
		meant := c.spirit
		meant.Volume = units.Volume(v[qPlanned])
		if c.planned, err = blend.Mix(c.poured, meant); err != nil {
			return c, inField("spirit_planned", err)
		}
	}
	if v[qSweetener] > 0 {
		if err := b.sweeten(&c, v[qSweetener]*float64(c.poured.Volume)); err != nil {
			return c, inField("target_sugar", err)
		}
	}
	c.spirit.Volume = units.Volume(v[qSpirit])
	if c.blend, err = blend.Mix(c.poured, c.spirit); err != nil {
		return c, err
	}
	return c, nil
}

func (b *Batch) sweeten(c *course, grams float64) error {
	s, err := sugar.ParseSweetener(b.Sweetener)
	if err != nil {
		return err
	}
	a, err := sugar.Sweeten(abv.Composition{Strength: c.poured.Strength, Extract: c.poured.Extract}, c.poured.Volume, s, units.Mass(grams))
	if err != nil {
		return err
	}
	c.poured.Volume, c.poured.Strength, c.poured.Extract, c.sweetenG = a.Volume, a.After.Strength, a.After.Extract, units.Mass(grams)
	return nil
}

// spirit is a litre of it.
func (b *Batch) spirit(v *values) blend.Component {
	name := b.Spirit
	if name == "" {
		name = "spirit"
	}
	return blend.Component{Name: name, Strength: units.Strength(v[qSpiritStrength]), Extract: b.SpiritExtract.Value}
}

// ferment goes from the reading of the must to the wine that is racked off.
func (b *Batch) ferment(v *values, c *course) error {
	if err := b.sugared(v, c); err != nil {
		return err
	}
	y := abv.Yield{CarbonDioxide: mustYield.CarbonDioxide, Yeast: v[qYeast]}
	fg := gravity.SG(v[qStop])
	if b.notFermented() {
		fg = c.og
	}
	var err error
	if c.wine, err = abv.MassBalance(c.og, min(fg, c.og), y); err != nil {
		return inField("stop_reading", err)
	}
	if !b.notFermented() {
		// A gram of alcohol more came from so many grams of extract.
		c.wine.Strength = max(0, c.wine.Strength+units.Strength(v[qBalance]))
		c.wine.Extract = max(0, c.wine.Extract-units.Concentration(v[qBalance]*y.PerPercent()))
	}
	c.litres = c.must * units.Volume(c.wine.VolumeRatio)
	c.base = blend.Component{Strength: c.wine.Strength, Extract: c.wine.Extract}
	if b.Racked.Known() {
		c.base.Volume, err = at20(c.base, b.Racked, v[qWine], b.RackedTemperature.Or(b.cellar()))
		return inField("racked", err)
	}
	c.base.Volume = c.litres - units.Volume(v[qLees])
	return inField("lees", units.Check("lees", v[qLees], 0, float64(c.litres), "L", "the wine there is"))
}

// sugared is the must with its sugar in it.
func (b *Batch) sugared(v *values, c *course) error {
	h, t, err := b.hydrometer(), units.Celsius(v[qMustTemperature]), error(nil)
	name, reading := "must_reading", v[qReading]
	withSugar := !b.MustReading.Known && b.JuiceLabel == (Label{})
	if withSugar {
		name, reading = "original_reading", v[qOriginal]
	}
	if b.JuiceLabel != (Label{}) {
		rest, err := b.notSugar()
		if err != nil {
			return err
		}
		if c.before, err = gravity.OfExtract(units.Concentration(v[qLabel]) + rest.Likely); err != nil {
			return inField("juice_label", err)
		}
	} else if c.before, err = h.Correct(gravity.SG(reading), t); err != nil && reading >= 1 {
		return inField(name, err)
	}
	if err != nil || c.before < 1 {
		e := units.OutOfRange(name, "gravity of the must", reading, 1, density.HeaviestGravity, "", "must")
		e.Cause = fmt.Sprintf("gravity %.4g is below water: already fermented?", reading)
		return e
	}
	extract, err := c.before.Extract()
	if err != nil {
		return inField(name, err)
	}
	if c.juice, err = at20(blend.Component{Name: "must", Extract: extract}, b.Must, v[qMust], t); err != nil {
		return inField("must", err)
	}
	c.og, c.must = c.before, c.juice
	if withSugar {
		return nil
	}
	if b.OriginalReading.Known { // the sugar that was really in it
		if c.og, err = h.Correct(gravity.SG(v[qOriginal]), t); err != nil {
			return inField("original_reading", err)
		}
		a, err := sugar.RaiseGravity(c.before, max(c.before, c.og), c.juice)
		c.must = a.Volume
		return inField("original_reading", err)
	}
	held := abv.Composition{Extract: extract, Gravity: c.before}
	for _, p := range b.Sugar {
		a, err := sugar.Sweeten(held, c.must, p.Sweetener, units.Mass(v[qSugar])*p.Mass.Value)
		if err != nil {
			return inField("sugar", err)
		}
		held, c.must, c.og = a.After, a.Volume, a.After.Gravity
	}
	return nil
}

// finished is a wine that was made before.
func (b *Batch) finished(v *values, c *course) error {
	t, h := b.WineTemperature.Or(units.Celsius(20)), b.hydrometer()
	reading := gravity.SG(v[qWineReading])
	var wine abv.Composition
	var err error
	switch {
	case b.WineStrength.Known:
		strength := units.Strength(v[qWineStrength])
		if reading, err = h.CorrectIn(strength, reading, t); err == nil {
			wine, err = abv.RealExtract(strength, reading)
		}
	case b.WineRefractometer.Known:
		if wine, err = b.twoInstruments(v, h, t); err != nil {
			return inField("wine_refractometer", err)
		}
	default:
		wine, err = abv.BoilOff(reading, gravity.SG(v[qWineBoiled]))
	}
	if err != nil {
		return inField("wine_reading", err)
	}
	c.wine = abv.Fermented{Strength: wine.Strength, Extract: wine.Extract, Gravity: wine.Gravity, VolumeRatio: 1}
	c.base = blend.Component{Strength: wine.Strength, Extract: wine.Extract}
	c.base.Volume, err = at20(c.base, b.Wine, v[qWine], b.cellar())
	c.litres, c.must, c.juice = c.base.Volume, c.base.Volume, c.base.Volume
	return inField("wine", err)
}

// twoInstruments corrects the hydrometer for the strength that comes of it.
func (b *Batch) twoInstruments(v *values, h gravity.Hydrometer, t units.Temperature) (wine abv.Composition, err error) {
	is, brix, err := abv.Solutes{}.TrueReadings(h, gravity.SG(v[qWineReading]), gravity.NewRefractometer(), gravity.Brix(v[qWineRefractometer]), t)
	if err != nil {
		return wine, err
	}
	return abv.TwoInstruments(is, brix)
}

// truly is the true gravity of a sample of the fermented must, whose strength
// follows from it.
func (b *Batch) truly(og gravity.SG, reading gravity.SG, t units.Temperature, y abv.Yield) (gravity.SG, error) {
	return y.TrueFinal(b.hydrometer(), og, reading, t)
}

// notSugar is what of the extract is not sugar, by what is known of the must.
func (b *Batch) notSugar() (abv.NotSugar, error) {
	if b.NotSugar.Known {
		n, err := abv.StatedNotSugar(b.NotSugar.Value, units.Concentration(b.NotSugar.Limit))
		return n, inField("not_sugar", err)
	}
	n, err := abv.NotSugarOf(b.Fruit)
	return n, inField("fruit", err)
}

// sugars are the sugars of a liquid, of whose volume so much was wine.
func (b *Batch) sugars(c *course, extract units.Concentration, wine, volume units.Volume) (abv.Sugars, error) {
	n, err := b.notSugar()
	if err != nil {
		return abv.Sugars{}, err
	}
	share, most := float64(wine/volume), c.base.Extract
	if n.PerMust && c.litres > 0 {
		juice := float64(c.juice / c.litres)
		share *= juice
		most /= units.Concentration(juice)
	}
	// A dry wine holds less extract than its fruit had beside sugar: what is added
	// to it is sugar all the same.
	n.Low, n.Likely, n.High = min(n.Low, most), min(n.Likely, most), min(n.High, most)
	if math.IsNaN(share) || math.IsInf(share, 0) {
		share = 0
	}
	return n.Sugars(extract, share)
}

// sugarToReach finds the sweetener and spirit at which the blend has the sugar
// and the strength wanted.
func (b *Batch) sugarToReach(v *values, pour func(*values) error) error {
	want := float64(b.TargetSugar.Value)
	off := func(grams float64) (float64, error) {
		v[qSweetener] = grams
		if err := pour(v); err != nil {
			return 0, err
		}
		c, err := b.run(v)
		if err != nil {
			return 0, err
		}
		s, err := b.sugars(&c, c.blend.Extract, c.unsweet, c.blend.Volume)
		return float64(s.Likely) - want, err
	}
	least, err := off(0)
	if err != nil || least >= 0 {
		return err
	}
	c, err := b.run(v)
	if err != nil {
		return err
	}
	most := 3 * (want + 1) * float64(c.blend.Volume/max(c.unsweet, 1e-9))
	end, err := off(most)
	if err != nil { // then to the most that still makes a liquid
		var lo float64
		for range 40 {
			mid := (lo + most) / 2
			if x, err := off(mid); err == nil {
				lo, end = mid, x
			} else {
				most = mid
			}
		}
		if lo == 0 {
			return err
		}
		most = lo
	}
	if end < 0 {
		return inField("target_sugar", units.Check("sugar of the blend", want, 0, want+end, "g/L", "what this sweetener reaches"))
	}
	grams, err := solve.Rising(func(g float64) (float64, float64) {
		y, _ := off(g)
		z, _ := off(g + 0.01)
		return y, (z - y) / 0.01
	}, -least*float64(c.blend.Volume/max(c.unsweet, 1e-9)), 0, most, 1e-6, 0)
	if err != nil {
		return inField("target_sugar", err)
	}
	_, err = off(grams)
	return err
}

// sugarFor is the sugar that brings the juice to the gravity wanted.
func (b *Batch) sugarFor(c *course) (units.Mass, error) {
	a, err := sugar.RaiseGravity(c.before, b.GravityWanted.Value, c.juice)
	return a.Sugar, err
}
