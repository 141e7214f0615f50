package main

import (
	"math"

	"fmt"
	"strings"

	"example.org/mutage/abv"

	"example.org/mutage/blend"
	"example.org/mutage/gravity"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// sure works out how sure the figures of the job are.
func (j *job) sure(b batch) error {
	a := &j.assumed
	spindle := b.half.Standard("must_reading", float64(b.reading), uncertainty.ToleranceHydrometer, a)
	must := b.half.Standard("must", float64(b.must), uncertainty.ToleranceJug, a)
	og, err := sugar.AddWithin(j.spindle,
		uncertainty.Input{Name: "must_reading", Value: float64(b.reading), Standard: spindle},
		uncertainty.Input{Name: "must_temperature", Value: b.mustTemperature.Celsius(), Standard: b.half.Standard("must_temperature", b.mustTemperature.Celsius(), uncertainty.ToleranceThermometer, a)},
		uncertainty.Input{Name: "sugar", Value: float64(j.sugar), Standard: b.half.Standard("sugar", float64(j.sugar), uncertainty.ToleranceCup, a)},
		uncertainty.Input{Name: "must", Value: float64(b.must), Standard: must})
	if err != nil {
		return err
	}
	poured := j.spirit
	poured.Volume = j.pour.Spirit
	j.arrest = blend.Arrest{OG: j.og, Stop: j.stop, Yield: b.yield, Must: j.must, Lees: b.lees, Spirit: poured}
	j.doubt = blend.ArrestUncertainty{
		OG: gravity.SG(og.Standard), Stop: gravity.SG(spindle), Yeast: min(b.yield.YeastStandard(), b.yield.Yeast/math.Sqrt(3)), // no trial may grow less than no yeast
		Must: units.Volume(must), Lees: units.Volume(b.half.Standard("lees", float64(b.lees), uncertainty.ToleranceJug, a)),
		SpiritVolume:   units.Volume(b.half.Standard("spirit_planned", float64(j.pour.Spirit), uncertainty.ToleranceJug, a)),
		SpiritStrength: units.Strength(b.half.Standard("spirit_strength", float64(b.strength), uncertainty.ToleranceSpirit, a)),
		Balance:        abv.BalanceUncertainty,
	}
	if j.within, err = j.arrest.Within(j.doubt); err != nil {
		return err
	}
	// What has to be aimed at to be 95 % sure of the target.
	aim, err := j.within.BlendStrength.LowerAcceptanceLimit(float64(b.target), 0.95)
	if err != nil {
		return err
	}
	unlimited := j.spirit
	unlimited.Volume = 0
	if sure, err := blend.Fortify(j.base, unlimited, units.Strength(aim)); err == nil {
		// As the cellar measures it, like the amount to pour.
		if j.pourToBeSure, err = abv.VolumeAt(sure.Spirit, b.strength, units.Celsius(20), b.cellar); err != nil {
			return fmt.Errorf("cellar_temperature: %w", err)
		}
	}
	return nil
}

func (j *job) howSure(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "How sure"}
	r := j.within.BlendStrength
	top := r.Ranked()[0]
	s.Say("Of the doubt in the strength, %s %% comes from the %s: %s.", f.Percent("", top.Share, 0).Fixed(), top.Name, blend.Better(top))
	reaches, err := r.AtLeast(float64(b.target))
	if err != nil {
		return s, err
	}
	s.Add("chance of "+page.Said(f.Strength("", b.target))+" or more, %", f.Percent("chance_of_target", reaches, 0))
	if j.pourToBeSure > 0 {
		s.Add("to be 95 % sure of it, pour", f.Volume("spirit_to_be_sure", j.pourToBeSure))
	}
	s.Say("± is one standard uncertainty; twice that holds the truth 19 times in 20.")
	if len(j.assumed) > 0 && f.Details() {
		s.Say("Assumed, where the batch states no limits (write \"3 L ± 2 %%\"): %s.", strings.Join(j.assumed, "; "))
	}
	return s, nil
}
