package batch

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// looks finds what is wrong with the batch itself.
func (j *job) looks() error {
	b, c := j.b, &j.c
	if b.YeastLimit.Known && b.Must.Known() && !b.notFermented() && float64(c.wine.Strength) > float64(b.YeastLimit.Value)+1 {
		text := "The stop at %s is more than 1 %% vol above the %s at which this yeast gives up: it will not get there."
		if b.StopReading.Known || b.RackedReading.Known {
			text = "By its reading it has fermented to %s, more than 1 %% vol above the %s at which this yeast is said to give up: a reading or the limit is wrong."
		}
		j.find("yeast_limit", Stop, text, say.Strength(c.wine.Strength), say.Strength(b.YeastLimit.Value))
	} else if b.YeastLimit.Known && b.StopAt.Known && b.StopAt.Value > b.YeastLimit.Value {
		j.find("yeast_limit", Warn, "The stop at %s is above the %s at which this yeast is said to give up.", say.Strength(b.StopAt.Value), say.Strength(b.YeastLimit.Value))
	}
	if l := j.d.limit; l != nil {
		j.limited(l)
	}
	j.slips()
	for _, look := range []func() error{j.beyond, j.order} {
		if err := look(); err != nil {
			return err
		}
	}
	j.vessel()
	agrees, err := j.explained()
	if err != nil {
		return err
	}
	j.notStill()
	if c.spirit.Volume > 0 && b.SpiritStrength.Value < 30 && !b.SpiritExtract.Known {
		j.find("spirit_extract", Note, "No sugar is stated for the spirit of %s: it counts as none. A liqueur has much.", say.Strength(b.SpiritStrength.Value))
	}
	j.missed(agrees)
	return nil
}

// leastRise of the gravity by sugar that was added: a smaller one is taken for a slip
// of the unit (common practice, no source).
const leastRise = 0.0005

// slips finds a wine stronger than yeast makes, and sugar that does nothing.
func (j *job) slips() {
	b, c := j.b, &j.c
	if b.Wine.Known() && c.wine.Strength > abv.MostByYeast {
		j.find("wine_strength", Warn, "A wine of %s is stronger than yeast makes: two digits swapped, or is spirit in it already? Everything below goes by it.", say.Strength(c.wine.Strength))
	}
	if b.JuiceLabel.In > 0 {
		label := units.Concentration(float64(b.JuiceLabel.Sugar) / float64(b.JuiceLabel.In))
		if fruit, least, poorer := (abv.NotSugar{}).Poorer(label); poorer {
			j.find("juice_label", Warn, "The label's %s of sugar is little for a juice: %s, the poorest here, has %s. A slip of the unit?", say.Concentration(label), fruit, say.Concentration(least))
		}
	}
	if b.Must.Known() && len(b.Sugar) > 0 && !b.GravityWanted.Known && !b.OriginalReading.Known && c.og-c.before < leastRise {
		j.find("sugar", Warn, "The sugar is too little to show on a hydrometer: a slip of the unit?")
	}
}

// vessel finds what does not fit, or does not fill it.
func (j *job) vessel() {
	b, c, u := j.b, &j.c, j.b.Units
	for _, liquid := range []struct {
		key  string
		v    units.Volume
		what string
	}{{"overflow", c.blend.Volume, "What is poured"}, {"overflow_planned", c.planned.Volume, "The amount you planned"}} {
		if j.d.room > 0 && float64(liquid.v) > float64(j.d.fits)*(1+1e-6) {
			j.find(liquid.key, Stop, "%s makes %s, and the vessel of %s takes %s: it overflows.", liquid.what, u.Volume(liquid.v), u.Volume(b.Vessel.Value), u.Volume(j.d.room))
		}
	}
	if j.d.room > 0 && b.Fortify != fillVessel && !b.BlendVolume.Known && c.base.Volume > j.d.fits && !b.PouredSpirit.Known() {
		j.find("vessel", Warn, "The vessel of %s does not hold all of the %s with its spirit: it is filled.", u.Volume(b.Vessel.Value), c.base.Name)
	}
	if b.Fortify == fillVessel && j.d.limit == nil && c.blend.Volume < 0.99*j.d.fits && !b.PouredSpirit.Known() {
		j.find("vessel_not_full", Warn, "There is too little %s to fill the vessel of %s: it makes %s.", c.base.Name, u.Volume(b.Vessel.Value), u.Volume(c.blend.Volume))
	}
	if b.BlendVolume.Known && j.d.limit == nil && c.blend.Volume < 0.99*b.BlendVolume.Value && !b.PouredSpirit.Known() {
		j.find("blend_volume", Warn, "You want %s of the blend, and all that there is makes %s.", u.Volume(b.BlendVolume.Value), u.Volume(c.blend.Volume))
	}
}

// notStill finds too little sugar, and what yeast may ferment.
func (j *job) notStill() {
	b, u := j.b, j.b.Units
	reachable, _ := j.plan.Liquid("reachable")
	if b.TargetSugar.Known && reachable.Sugar.Low > b.TargetSugar.Value {
		j.find("sugar_above_target", Warn, "You want %s of sugar, and the blend holds %s to %s without any added: nothing takes it out but yeast.",
			say.Concentration(b.TargetSugar.Value), say.Concentration(reachable.Sugar.Low), say.Concentration(reachable.Sugar.High))
	}
	if b.LeastSugar.Known && reachable.Sugar.Low < b.LeastSugar.Value-1e-6 {
		j.find("least_sugar", Warn, "The blend holds %s to %s of sugar, and you want at least %s: stop earlier, add sugar, or use stronger spirit.",
			units.Round(float64(reachable.Sugar.Low), 0), say.Concentration(reachable.Sugar.High), say.Concentration(b.LeastSugar.Value))
	}
	if planned, ok := j.plan.Liquid("planned"); ok && planned.Verdict.Outlook != stability.Still {
		j.find("planned_not_still", Warn, "The amount you planned makes %s, which %s: do not bottle that.", say.Strength(planned.Strength), ferment(planned.Verdict.Outlook))
	}
	if reachable.Verdict.Outlook != stability.Still {
		j.find("not_still", Warn, "%s %s: do not bottle it. %s.", fmt.Sprintf("At %s yeast", say.Strength(reachable.Strength)), reachable.Verdict.Outlook, capital(reachable.Remedy))
	}
	if l, ok := j.plan.Liquid("kept"); ok && l.Verdict.Outlook != stability.Still {
		j.find("kept_not_still", Warn, "The %s kept at %s %s. %s.", u.Volume(l.Volume), say.Strength(l.Strength), l.Verdict.Outlook, capital(l.Remedy))
	}
}

// beyond finds a stop that the sugar does not reach.
func (j *job) beyond() error {
	b, c := j.b, &j.c
	if !b.ferments() {
		return nil
	}
	n, err := b.notSugar()
	if err != nil {
		return err
	}
	_, _, high, err := abv.PotentialRange(c.og, mustYield, abv.End{NotSugar: n})
	if err == nil && c.wine.Strength > high.Strength+1e-6 {
		j.find("stop_beyond_sugar", Warn, "The stop at %s is more than the sugar gives: %s at most.", say.Strength(c.wine.Strength), say.Strength(high.Strength))
	}
	return err
}

// order finds an aim outside the window to stop in, and a reading after racking
// that is above the one at the stop.
func (j *job) order() error {
	b, c := j.b, &j.c
	if w := j.d.window; w != nil && b.ferments() && (c.wine.Gravity > w.From.Gravity+1e-6 || c.wine.Gravity < w.To.Gravity-1e-6) {
		j.find("stop_outside_window", Stop, "The aim of %s is outside of what is wanted of the stop: %s to %s.", say.Strength(c.wine.Strength), say.Strength(w.From.Strength), say.Strength(w.To.Strength))
	}
	if !b.StopReading.Known || !b.RackedReading.Known {
		return nil
	}
	y := abv.Yield{CarbonDioxide: mustYield.CarbonDioxide, Yeast: j.d.v[qYeast]}
	stop, err := b.truly(c.og, b.StopReading.Value, b.StopTemperature.Or(b.cellar()), y)
	if err != nil {
		return inField("stop_reading", err)
	}
	racked, err := b.truly(c.og, b.RackedReading.Value, b.RackedTemperature.Or(b.cellar()), y)
	if err == nil && racked > stop+readsAlike {
		j.find("reading_order", Warn, "The reading after racking (%s) is above the one at the stop (%s), which nothing but sugar can do: read both again.", say.Gravity(float64(racked)), say.Gravity(float64(stop)))
	}
	return inField("racked_reading", err)
}

// missed says what mends a blend that was poured beside its target, where its
// reading agrees with what was poured.
func (j *job) missed(agrees bool) {
	b, c := j.b, &j.c
	if !b.PouredSpirit.Known() || !b.Target.Known || float64(c.blend.Strength) > float64(b.Target.Value)-0.05 {
		return
	}
	text := fmt.Sprintf("As poured it has %s, not %s.", say.Strength(c.blend.Strength), say.Strength(b.Target.Value))
	spirit := c.spirit
	spirit.Volume = 0
	if !agrees {
		text += " The hydrometer says otherwise: find out which is right before you pour more."
	} else if f, err := blend.Repair(c.blend, spirit, c.base, b.Target.Value); err == nil {
		measured := spirit
		measured.Volume = f.Spirit
		v, err := atTemperature(measured, b.cellar())
		left, noStock := j.stockLeft()
		if err == nil && noStock == nil {
			text += fmt.Sprintf(" Pour %s more of %s%s.", b.Units.Volume(v), spirit.Name, j.beyondLeft(f.Spirit, left))
		}
	}
	j.find("target_missed", Stop, "%s", text)
}

// limited says what keeps the target from being reached, and what would do.
func (j *job) limited(l *blend.UnreachableError) {
	u := j.b.Units
	why := "no amount of this spirit makes it"
	switch stronger := j.c.base.Strength > j.b.Target.Value; {
	case stronger:
		why = "the " + j.c.base.Name + " is stronger than that without spirit"
	case l.Limit == blend.LimitStock:
		why = "there is not enough spirit"
	case l.Limit == blend.LimitVessel:
		why = "the vessel is too small for all of the wine and its spirit"
	}
	text := fmt.Sprintf("%s cannot be reached: %s; it comes to %s.", say.Strength(j.b.Target.Value), why, say.Strength(j.c.blend.Strength))
	var ways []string
	for _, c := range l.Changes {
		up := c.To > c.From
		switch c.Quantity {
		case "volume":
			way := fmt.Sprintf("%s of %s", u.VolumeFrom(units.Volume(c.To), up), c.Component)
			if c.From > 1e-3*c.To {
				way += " instead of " + u.Volume(units.Volume(c.From))
			}
			if c.To > 1e-3*c.From {
				ways = append(ways, way)
			}
		case "vessel":
			ways = append(ways, fmt.Sprintf("a vessel with room for %s", u.VolumeFrom(units.Volume(c.To), up)))
		case "strength":
			ways = append(ways, fmt.Sprintf("%s of %s", c.Component, say.StrengthFrom(units.Strength(c.To), up)))
		}
	}
	for i, w := range ways {
		text += [2]string{" It would do with ", ", or "}[min(i, 1)] + w
	}
	if len(ways) > 0 {
		text += "."
	}
	if l.Limit == blend.LimitVessel {
		text += ` Or fill the vessel and keep the rest: "fortify": "fill the vessel".`
	}
	j.find("target_missed", Stop, "%s", text)
}
