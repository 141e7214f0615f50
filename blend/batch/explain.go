package batch

import (
	"fmt"
	"slices"
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
		mixed.Like(j.f.gravity, "blend_gravity_expected", "gravity expected of what was poured", float64(c.blend.Gravity), 4, "SG"))
	if e.Agrees {
		step.Lines = append(step.Lines, "The reading agrees with what was poured, within their uncertainty. A hydrometer tells 1 % vol of the spirit by one to three points only: it cannot find a weak spirit.")
	} else {
		j.find("blend_reading", Warn, "The blend reads %s where %s was expected of what was poured: more than their uncertainty. Step \"%s\" says what would explain it.", say.Gravity(float64(is)), say.Gravity(float64(c.blend.Gravity)), step.Title)
		step.Lines = append(step.Lines, "Any one of these alone would explain the reading, the likeliest first:")
		if len(e.Explanations) == 0 {
			step.Lines = []string{"No single error of what was poured makes that reading: look at the reading, its temperature, or gas in the sample."}
		}
		for _, x := range e.Explanations[:min(3, len(e.Explanations))] {
			step.Lines = append(step.Lines, j.explain(x))
		}
		step.Lines = append(step.Lines, "A hydrometer tells 1 % vol of the spirit by one to three points only. Measure the blend itself before you trust one of them.")
	}
	j.plan.Steps = append(j.plan.Steps, step)
	return e.Agrees, j.doubted(e)
}

// doubted takes back the word "still" on a blend that reads otherwise than what was
// poured should, where what explains the reading would not stay still, or nothing
// explains it.
func (j *job) doubted(e blend.Finding) error {
	i := slices.IndexFunc(j.plan.Liquids, func(l Liquid) bool { return l.Key == "reachable" })
	l := &j.plan.Liquids[i]
	if e.Agrees || l.Verdict.Outlook != stability.Still {
		return nil
	}
	wine, err := blend.Mix(j.c.poured)
	if err != nil {
		return err
	}
	const first = "measure the strength of the blend itself, with two instruments or by boiling off"
	// Spirit without sugar only lowers the gravity of a wine.
	above := j.c.spirit.Extract == 0 && e.Reading > wine.Gravity+readsAlike
	if len(e.Explanations) == 0 || above {
		l.Verdict.Outlook, l.Remedy = stability.Doubtful, first+": no single error of what was poured makes this reading likely; until then "+j.keepIt()
		return nil
	}
	for _, x := range e.Explanations {
		wine := j.c.unsweet
		if x.Quantity == "volume" && x.Component == j.c.poured.Name {
			wine *= units.Volume(x.To / x.From)
		}
		share := float64(wine / x.Result.Volume)
		then, err := j.liquid(l.Key, x.Result.Volume, x.Result.Strength, x.Result.Extract, wine, j.f.volume, j.f.strength, j.f.extract,
			Stated[units.Temperature]{}, j.b.so2().Times(share), j.b.Sorbate.Value*units.Concentration(share))
		if err != nil || then.Verdict.Outlook == stability.Still { // what no liquid is explains nothing
			continue
		}
		l.Verdict.Outlook, l.Closed = stability.Doubtful, then.Closed
		l.Remedy = fmt.Sprintf("%s: it reads otherwise than what was poured should and may have %s, at which %s it; until then %s",
			first, say.Strength(x.Result.Strength), ferment(then.Verdict.Outlook), j.keepIt())
		return nil
	}
	return nil
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
			left, err := j.stockLeft()
			if x.Result.Strength > j.b.Target.Value {
				what, left, err = j.c.base.Name, j.c.kept.Volume, nil
			}
			if err == nil {
				text += fmt.Sprintf("; %s of %s mend it%s", u.Volume(f.Spirit), what, j.beyondLeft(f.Spirit, left))
			}
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
