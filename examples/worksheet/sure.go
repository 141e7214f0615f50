package main

import (
	"fmt"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/page"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// standard is the standard uncertainty of a field: from the limits stated in
// the batch file, or else from the trade's tolerance, which is then noted as
// assumed.
func (b batch) standard(field string, value float64, t units.Tolerance, assumed *[]string) float64 {
	half, stated := b.half[field]
	if !stated {
		half = t.Of(value)
		if half > 0 {
			*assumed = append(*assumed, fmt.Sprintf("%s: %s (%s)", field, t.Name, t.Source))
		}
	}
	return uncertainty.RectangularInput(field, value, half).Standard
}

// sure works out how sure the figures of the job are.
func (j *job) sure(b batch) error {
	a := &j.assumed
	spindle := b.standard("must_reading", float64(b.reading), units.ToleranceSpindle, a)
	must := b.standard("must", float64(b.must), units.ToleranceJug, a)
	og, err := uncertainty.Propagate(func(x []float64) (float64, error) {
		before, err := j.spindle.Correct(gravity.SG(x[0]), units.Temperature(x[1]))
		if err != nil || b.wanted > 0 { // made up to a gravity by the spindle itself
			return float64(before), err
		}
		og, _, err := additions.AddSugar(before, units.Volume(x[3]), units.Mass(x[2]))
		return float64(og), err
	}, []uncertainty.Input{
		{Name: "must_reading", Value: float64(b.reading), Standard: spindle},
		{Name: "must_temperature", Value: float64(b.mustTemperature), Standard: b.standard("must_temperature", float64(b.mustTemperature), units.ToleranceThermometer, a)},
		{Name: "sugar", Value: float64(j.sugar), Standard: b.standard("sugar", float64(j.sugar), units.ToleranceCup, a)},
		{Name: "must", Value: float64(b.must), Standard: must},
	}, nil)
	if err != nil {
		return err
	}
	poured := j.spirit
	poured.Volume = j.pour.Spirit
	j.arrest = blend.Arrest{OG: j.og, Stop: j.stop, Yield: b.yield.Yield, Must: j.must, Lees: b.lees, Spirit: poured}
	j.doubt = blend.ArrestDoubt{
		OG: gravity.SG(og.Standard), Stop: gravity.SG(spindle), Yeast: uncertainty.RectangularInput("", 0, blend.YeastDoubt).Standard,
		Must: units.Volume(must), Lees: units.Volume(b.standard("lees", float64(b.lees), units.ToleranceJug, a)),
		SpiritVolume:   units.Volume(b.standard("spirit_planned", float64(j.pour.Spirit), units.ToleranceJug, a)),
		SpiritStrength: units.Strength(b.standard("spirit_strength", float64(b.strength), units.ToleranceSpirit, a)),
		Balance:        blend.BalanceDoubt,
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
		j.pourToBeSure = sure.Spirit
	}
	return nil
}

// advice is what to measure better, by the start of an input's name.
var advice = []struct{ input, do string }{
	{"volume of must", "weigh the must, or use a better vessel than a jug"},
	{"volume of lees", "measure the wine after racking"},
	{"volume of", "weigh the spirit, or use a measuring cylinder"},
	{"strength of", "read an alcoholometer in the spirit instead of its label"},
	{"gravity at the stop", "use a finer spindle, in a degassed sample, read twice"},
	{"original gravity", "read the sugared must once more, with a finer spindle"},
	{"fermentation balance", "measure the wine itself: two instruments, or boiling off"},
	{"yield of the yeast", "measure the wine itself: two instruments, or boiling off"},
	{"density model", "nothing: this is the model's own doubt"},
}

func (j *job) howSure(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "How sure"}
	r := j.within.BlendStrength
	top := r.Ranked()[0]
	for _, a := range advice {
		if strings.HasPrefix(top.Name, a.input) {
			s.Say("Of the doubt in the strength, %s %% comes from the %s: %s.", units.Round(100*top.Share, 0), top.Name, a.do)
			break
		}
	}
	reaches, err := r.AtLeast(float64(b.target))
	if err != nil {
		return s, err
	}
	s.Add("chance of "+page.Said(f.Strength("", b.target))+" or more, %", f.Plain("chance_of_target", 100*reaches, 0, "%"))
	if j.pourToBeSure > 0 {
		s.Add("to be 95 % sure of it, pour", f.Volume("spirit_to_be_sure", j.pourToBeSure))
	}
	s.Say("± is the standard uncertainty: nineteen times in twenty the truth lies within twice as much.")
	if len(j.assumed) > 0 && f.Details() {
		s.Say("Assumed, where the batch states no limits (write \"3 L ± 2 %%\"): %s.", strings.Join(j.assumed, "; "))
	}
	return s, nil
}
