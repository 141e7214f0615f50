package batch

import (
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
	if !b.LeastSugar.Known { // the middle of the window
		f, err := abv.StopAt(c.og, (d.window.From.Strength+d.window.To.Strength)/2, y)
		d.v[qStop] = float64(f.Gravity)
		return inField("stop_from, stop_to", err)
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
	goal, err := b.stopGoal(c)
	if err != nil {
		return err
	}
	w, err := abv.StopWithin(c.og, goal, y)
	if err != nil {
		return inField("stop_from, stop_to, stop_least_sugar", err)
	}
	d.window = &w
	return nil
}

// stopGoal is all that is asked of the stop.
func (b *Batch) stopGoal(c *course) (abv.Goal, error) {
	goal := abv.Goal{MinStrength: b.StopFrom.Value, MaxStrength: b.StopTo.Value}
	if !b.StopLeastSugar.Known {
		return goal, nil
	}
	n, err := b.notSugar()
	if err != nil {
		return goal, err
	}
	share := 1.0
	if n.PerMust {
		share = float64(c.juice / c.must)
	}
	goal.MinExtract = b.StopLeastSugar.Value + units.Concentration(share)*n.High
	return goal, nil
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
