package batch

import (
	"errors"
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// A decision is what is poured: with the amounts in v.
type decision struct {
	v      values
	wanted *values                 // the same with as much spirit as the target takes; nil where nothing reaches it
	limit  *blend.UnreachableError // what keeps the target from being reached
	room   units.Volume            // of the vessel at cellar temperature, wood and head space off; 0 without one
	fits   units.Volume            // the volume at 20 C of the blend that fills it
	window *abv.Window             // to stop in
}

// values are the nominal ones, before anything is decided.
func (b *Batch) values() values {
	amount := func(a Amount) float64 {
		if a.Mass.Known {
			return float64(a.Mass.Value)
		}
		return float64(a.Volume.Value)
	}
	v := values{
		qMust: amount(b.Must), qReading: float64(b.MustReading.Value), qMustTemperature: b.mustAt().Celsius(), qOriginal: float64(b.OriginalReading.Value),
		qSugar: 1, qYeast: mustYield.Yeast, qLees: float64(b.Lees.Value), qWine: amount(b.Wine),
		qWineStrength: float64(b.WineStrength.Value), qWineReading: float64(b.WineReading.Value),
		qWineRefractometer: float64(b.WineRefractometer.Value), qWineBoiled: float64(b.WineBoiled.Value),
		qWinePoured: amount(b.PouredWine), qSpiritStrength: float64(b.SpiritStrength.Value),
	}
	if b.JuiceLabel.In > 0 {
		v[qLabel] = float64(b.JuiceLabel.Sugar) / float64(b.JuiceLabel.In)
	}
	if b.Racked.Known() {
		v[qWine] = amount(b.Racked)
	}
	return v
}

// decide settles where it stops and what is poured.
func (b *Batch) decide() (d decision, err error) {
	d.v = b.values()
	if err = b.wantedGravity(&d.v); err != nil {
		return d, err
	}
	if d.room, err = b.room(); err != nil {
		return d, err
	}
	d.fits = d.room
	for _, a := range []struct {
		name string
		of   Amount
		into quantity
	}{{"spirit_planned", b.SpiritPlanned, qPlanned}, {"spirit_poured", b.PouredSpirit, qSpirit}} {
		if !a.of.Known() {
			continue
		}
		x := float64(a.of.Volume.Value)
		if a.of.Mass.Known {
			x = float64(a.of.Mass.Value)
		}
		litres, err := at20(b.spirit(&d.v), a.of, x, b.cellar())
		if err != nil {
			return d, inField(a.name, err)
		}
		d.v[a.into] = float64(litres)
	}
	if b.Must.Known() && !b.notFermented() {
		if err = b.stop(&d); err != nil {
			return d, err
		}
	}
	return d, b.pour(&d)
}

// wantedGravity turns a gravity that is wanted into the sugar for it.
func (b *Batch) wantedGravity(v *values) error {
	if !b.GravityWanted.Known {
		return nil
	}
	var c course
	if err := b.sugared(v, &c); err != nil {
		return err
	}
	grams, err := b.sugarFor(&c)
	if err != nil {
		return inField("gravity_wanted", err)
	}
	b.Sugar = []Portion{{Sweetener: sucrose, Mass: Is(grams)}}
	return nil
}

// room is what the vessel takes beside head space and wood.
func (b *Batch) room() (units.Volume, error) {
	if !b.Vessel.Known {
		return 0, nil
	}
	jar := blend.Vessel{Size: b.Vessel.Value, Headspace: b.Headspace.Value}
	if grams := b.wood(b.Vessel.Value - b.Headspace.Value); grams > 0 {
		var err error
		if jar.Displaced, err = blend.WoodDisplaces(grams, soakedWood); err != nil {
			return 0, inField("wood", err)
		}
	}
	room, err := jar.Room()
	return room, inField("vessel", err)
}

// soakedWood is the density of oak that has drunk its fill: a little above water
// (common practice, no source).
const soakedWood = 1050 * units.KilogramPerCubicMetre

// wood is the weight of wood for a volume of blend.
func (b *Batch) wood(v units.Volume) units.Mass {
	if b.WoodPerLitre.Known {
		return units.Mass(float64(b.WoodPerLitre.Value) * float64(v))
	}
	return b.Wood.Value
}

// stop settles the true gravity at which the fermentation is, or was, stopped.
func (b *Batch) stop(d *decision) error {
	var c course
	if err := b.sugared(&d.v, &c); err != nil {
		return err
	}
	y := abv.Yield{CarbonDioxide: mustYield.CarbonDioxide, Yeast: d.v[qYeast]}
	for _, at := range []struct {
		name    string
		reading Stated[gravity.SG]
		t       units.Temperature
	}{{"racked_reading", b.RackedReading, b.RackedTemperature.Or(b.cellar())}, {"stop_reading", b.StopReading, b.StopTemperature.Or(b.cellar())}} {
		if at.reading.Known {
			fg, err := b.truly(c.og, at.reading.Value, at.t, y)
			if err == nil && fg > c.og+readsAlike {
				return &ConflictError{[]string{at.name, b.mustField()}, fmt.Sprintf("%.4f after the ferment is above the original gravity %.4f; swapped, or of another batch?", float64(fg), float64(c.og))}
			}
			d.v[qStop] = float64(min(fg, c.og))
			return inField(at.name, err)
		}
	}
	if err := b.stopWindow(d, &c, y); err != nil {
		return err
	}
	if b.StopAt.Known {
		f, err := abv.StopAt(c.og, b.StopAt.Value, y)
		d.v[qStop] = float64(f.Gravity)
		return inField("stop_at", err)
	}
	return b.stopForSugar(d, &c, y)
}

// readsAlike is how far apart two careful readings of one gravity may be: twice
// the tolerance of a hydrometer with marks of 0.001.
const readsAlike = 0.002

// mustField is the field that the original gravity rests on.
func (b *Batch) mustField() string {
	switch {
	case b.OriginalReading.Known:
		return "original_reading"
	case b.MustReading.Known:
		return "must_reading"
	}
	return "juice_label"
}

// stopWindow is where all that is asked of the stop holds.
func (b *Batch) stopWindow(d *decision, c *course, y abv.Yield) error {
	if !b.StopFrom.Known && !b.StopTo.Known && !b.StopLeastSugar.Known {
		return nil
	}
	goal := abv.Goal{MinStrength: b.StopFrom.Value, MaxStrength: b.StopTo.Value}
	if b.StopLeastSugar.Known {
		n, err := b.notSugar()
		if err != nil {
			return err
		}
		share := 1.0
		if n.PerMust {
			share = float64(c.juice / c.must)
		}
		goal.MinExtract = b.StopLeastSugar.Value + units.Concentration(share)*n.High
	}
	w, err := abv.StopWithin(c.og, goal, y)
	if err != nil {
		return inField("stop_from, stop_to, stop_least_sugar", err)
	}
	d.window = &w
	return nil
}

// stopForSugar finds the latest stop at which the blend still has the least sugar
// wanted, by the low end of what is sugar.
func (b *Batch) stopForSugar(d *decision, c *course, y abv.Yield) error {
	end, err := abv.Potential(c.og, y)
	if err != nil {
		return err
	}
	trial := *d
	lacks := func(s float64) (float64, error) {
		f, err := abv.StopAt(c.og, units.Strength(s), y)
		if err != nil {
			return 0, err
		}
		trial = *d
		trial.v[qStop] = float64(f.Gravity)
		if err := b.pour(&trial); err != nil {
			return 0, err
		}
		run, err := b.run(&trial.v)
		if err != nil {
			return 0, err
		}
		sugars, err := b.sugars(&run, run.blend.Extract, run.unsweet, run.blend.Volume)
		if err != nil {
			return 0, err
		}
		known, err := b.within(&trial.v, &run)
		if err != nil {
			return 0, err
		}
		sugars, err = sugars.Within(units.Concentration(known.extract.Standard))
		return float64(b.LeastSugar.Value - sugars.Low), err
	}
	if y0, err := lacks(0); err != nil || y0 > 0 {
		if err == nil {
			err = units.Check("least sugar of the blend", float64(b.LeastSugar.Value), 0, float64(b.LeastSugar.Value)-y0, "g/L", "what the must holds; add sugar")
		}
		return inField("least_sugar", err)
	}
	s, err := solve.Rising(func(s float64) (float64, float64) {
		x, _ := lacks(s)
		z, _ := lacks(s + 1e-3)
		return x, (z - x) / 1e-3
	}, 0, 0, float64(end.Strength)-1e-3, 1e-6, 1)
	if err != nil {
		return inField("least_sugar", err)
	}
	f, err := abv.StopAt(c.og, units.Strength(s), y)
	d.v[qStop] = float64(f.Gravity)
	return inField("least_sugar", err)
}

// pour settles how much of wine, sweetener and spirit go together.
func (b *Batch) pour(d *decision) error {
	if b.PouredSpirit.Known() {
		return nil
	}
	if !b.Target.Known {
		d.v[qSpirit] = d.v[qPlanned]
		return nil
	}
	if b.TargetSugar.Known {
		if err := b.sugarToReach(&d.v, func(v *values) error { return b.amounts(d, v) }); err != nil {
			return err
		}
	}
	return b.amounts(d, &d.v)
}

// amounts sets the wine and the spirit that reach the target, or come nearest to
// it, and notes in d what keeps them from it.
func (b *Batch) amounts(d *decision, v *values) error {
	if !b.PouredWine.Known() {
		v[qWinePoured] = 0
	}
	v[qSpirit], d.limit, d.wanted = 0, nil, nil
	c, err := b.run(v)
	if err != nil {
		return err
	}
	grown := float64(c.poured.Volume / c.unsweet) // by its sweetener
	base, other := c.poured, c.spirit
	other.Volume = 0
	if err := b.fit(d, base, other); err != nil {
		return err
	}
	total := b.BlendVolume.Value
	if b.Fortify == fillVessel || d.fits > 0 && base.Volume > d.fits {
		total = d.fits
	}
	pour := func(other blend.Component) (blend.Fortification, error) {
		if total > 0 {
			return blend.FortifyTo(total, base, other, b.Target.Value)
		}
		return blend.Fortify(base, other, b.Target.Value)
	}
	set := func(v *values, wine, spirit units.Volume) error {
		v[qSpirit] = float64(spirit)
		if total == 0 {
			return nil
		}
		plain := c.base
		plain.Volume = wine / units.Volume(grown)
		measured, err := atTemperature(plain, b.cellar())
		v[qWinePoured] = float64(measured)
		return err
	}
	free, err := pour(other)
	var lacks *blend.UnreachableError
	switch {
	case errors.As(err, &lacks) && total > 0 && lacks.Limit == blend.LimitStock:
		// Too little wine to fill it: all of it goes in.
		total = 0
		if free, err = pour(other); err != nil {
			break
		}
		fallthrough
	case err == nil:
		wanted := *v
		if err := set(&wanted, free.Base, free.Spirit); err != nil {
			return err
		}
		d.wanted = &wanted
	}
	if err != nil && !errors.As(err, &d.limit) {
		return inField("target", err)
	}
	if d.limit != nil { // nothing reaches it: what is meant is what is poured
		v[qSpirit] = v[qPlanned]
		return nil
	}
	return b.withinLimits(d, v, base, c.spirit, free, total, set)
}

// fit is what the vessel takes of the blend, at 20 C: the blend fills it at the
// temperature of the cellar.
func (b *Batch) fit(d *decision, base, other blend.Component) error {
	if d.room <= 0 {
		return nil
	}
	like := base
	if f, err := blend.Fortify(base, other, b.Target.Value); err == nil {
		like.Strength, like.Extract = f.Result.Strength, f.Result.Extract
	}
	like.Volume = d.room
	measured, err := atTemperature(like, b.cellar())
	if err != nil {
		return inField("cellar_temperature", err)
	}
	d.fits = d.room * d.room / measured
	return nil
}

// noSpirit is the part of what is needed that stands for none: the solver takes a
// stock of nothing for one that is not limited.
const noSpirit = 1e-9

// withinLimits pours what the target takes, or what stock and vessel leave of it.
func (b *Batch) withinLimits(d *decision, v *values, base, spirit blend.Component, free blend.Fortification, total units.Volume,
	set func(*values, units.Volume, units.Volume) error) error {
	if b.SpiritStock.Known() {
		x := float64(b.SpiritStock.Volume.Value)
		if b.SpiritStock.Mass.Known {
			x = float64(b.SpiritStock.Mass.Value)
		}
		stock, err := at20(spirit, b.SpiritStock, x, b.cellar())
		if err != nil {
			return inField("spirit_stock", err)
		}
		spirit.Volume = stock
		if stock == 0 { // none at hand, which is not the same as not stated
			_, err = blend.Fortify(base, blend.Component{Name: spirit.Name, Volume: noSpirit * free.Spirit, Strength: spirit.Strength, Extract: spirit.Extract}, b.Target.Value)
			if errors.As(err, &d.limit) {
				return set(v, base.Volume, 0)
			}
		}
	}
	f, err := free, error(nil)
	switch {
	case total > 0 && spirit.Volume > 0 && free.Spirit > spirit.Volume:
		// Too little spirit to fill it: all of it on the wine that it strengthens.
		f, err = blend.FortifyTo(total, base, spirit, b.Target.Value)
	case total == 0 && d.fits > 0:
		f, err = blend.FortifyIn(blend.Vessel{Size: d.fits}, base, spirit, b.Target.Value)
	case total == 0 && spirit.Volume > 0:
		f, err = blend.Fortify(base, spirit, b.Target.Value)
	}
	if errors.As(err, &d.limit) {
		if len(d.limit.Volumes) != 2 {
			return fmt.Errorf("target: %w", err)
		}
		return set(v, d.limit.Volumes[0], d.limit.Volumes[1])
	}
	if err != nil {
		return inField("target", err)
	}
	return set(v, f.Base, f.Spirit)
}

// atTemperature is the volume at t of what has c.Volume at 20 C.
func atTemperature(c blend.Component, t units.Temperature) (units.Volume, error) {
	litre := c
	litre.Volume = 1
	at, err := litre.MeasuredAt(t)
	if err != nil {
		return 0, err
	}
	return c.Volume / at.Volume, nil
}
