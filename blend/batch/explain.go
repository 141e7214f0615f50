package batch

import (
	"fmt"
	"strings"

	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// explained holds the reading of the rested blend against what was poured, and says
// whether they agree; where there is no reading, they do.
func (j *job) explained() (agrees bool, err error) {
	b, c := j.b, &j.c
	if !b.BlendReading.Known {
		return true, nil
	}
	h, t := b.hydrometer(), b.BlendTemperature.Or(b.cellar())
	is, err := h.CorrectIn(c.blend.Strength, b.BlendReading.Value, t)
	if err != nil {
		return false, inField("blend_reading", err)
	}
	of := func(q quantity) float64 {
		for _, k := range j.f.knows {
			if k.q == q {
				return k.standard
			}
		}
		return 0
	}
	reading := known(qStop, "", 0, b.BlendReading.Limit, ofHydrometer, "").standard
	e, err := blend.Explain(c.poured, c.spirit, is,
		blend.Uncertainty{Volume: units.Volume(j.f.wineVolume.Standard), Strength: units.Strength(j.f.wineStrength.Standard), Extract: units.Concentration(j.f.wineExtract.Standard)},
		blend.Uncertainty{Volume: units.Volume(of(qSpirit)), Strength: units.Strength(of(qSpiritStrength))}, gravity.SG(reading))
	if err != nil {
		return false, inField("blend_reading", err)
	}
	step := Step{Key: "check", Title: "Check the blend"}
	step.Figures = append(step.Figures, shown.Within("blend_gravity", "true gravity of the blend", float64(is), reading, 4, "SG"),
		mixed.Within("blend_gravity_expected", "gravity expected of what was poured", float64(c.blend.Gravity), j.f.gravity.Standard, 4, "SG"))
	if e.Agrees {
		step.Lines = append(step.Lines, "The reading agrees with what was poured, within their uncertainty. A hydrometer tells 1 % vol of the spirit by one to three points only: it cannot find a weak spirit.")
	} else {
		j.find("blend_reading", Warn, "The blend reads %s where %s was expected of what was poured: more than their uncertainty. Step \"%s\" says what would explain it.", say.Gravity(float64(is)), say.Gravity(float64(c.blend.Gravity)), step.Title)
		step.Lines = append(step.Lines, "Any one of these alone would explain the reading, the likeliest first:")
		for _, x := range e.Explanations[:min(3, len(e.Explanations))] {
			step.Lines = append(step.Lines, j.explain(x))
		}
		step.Lines = append(step.Lines, "A hydrometer tells 1 % vol of the spirit by one to three points only. Measure the blend itself before you trust one of them.")
	}
	j.plan.Steps = append(j.plan.Steps, step)
	return e.Agrees, nil
}

func (j *job) explain(x blend.Explanation) string {
	u := j.b.Units
	say2 := func(v float64) string {
		switch x.Quantity {
		case "volume":
			return u.Volume(units.Volume(v))
		case "strength":
			return say.Strength(units.Strength(v))
		}
		return say.Concentration(units.Concentration(v))
	}
	text := fmt.Sprintf("%s of %s %s instead of %s: the blend would have %s", x.Quantity, x.Component, say2(x.To), say2(x.From), say.Strength(x.Result.Strength))
	if j.b.Target.Known && j.b.SpiritStrength.Known {
		spirit := j.c.spirit
		spirit.Volume = 0
		weaker := j.c.base
		weaker.Volume = 0
		if f, err := blend.Repair(x.Result, spirit, weaker, j.b.Target.Value); err == nil && f.Spirit > 0.001*x.Result.Volume {
			what := spirit.Name
			if x.Result.Strength > j.b.Target.Value {
				what = "wine"
			}
			text += fmt.Sprintf("; %s of %s mend it", u.Volume(f.Spirit), what)
		}
	}
	return text + "."
}

func ferment(o stability.Outlook) string {
	if o == stability.Doubtful {
		return "yeast may ferment"
	}
	return "yeast will ferment"
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
