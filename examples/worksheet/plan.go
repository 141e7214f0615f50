package main

import (
	"errors"
	"flag"
	"fmt"
	"io"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/fields"

	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
)

func plan(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	f.Flags(set)
	file := set.String("batch", "", "batch `file` (JSON); without it the demonstration batch")
	template := set.Bool("template", false, "print a batch file to fill in")
	var to units.Volume
	var by fields.Number
	set.Var(&to, "scale-to", "make this much of the blend instead, all amounts in proportion")
	set.Var(&by, "scale", "so many times the batch")
	rest, err := parseForm(&f, set, args)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return fmt.Errorf("%w: plan takes no arguments, found %q; a file goes behind -batch", errUsage, rest[0])
	}
	if *template {
		_, err := out.Write(demo)
		return err
	}
	b, err := loadBatch(*file)
	if err != nil {
		return err
	}
	j, err := b.work()
	if err != nil {
		return err
	}
	if to > 0 {
		by = fields.Number(to.In(j.pour.Result.Volume))
	}
	if by > 0 {
		if err := b.scale(float64(by)); err != nil {
			return err
		}
		if j, err = b.work(); err != nil {
			return err
		}
	}
	p, err := j.page(b, &f)
	if err != nil {
		return err
	}
	return f.Print(p, out)
}

// A job is a batch worked through, step by step, each by its library function.
type job struct {
	spindle       gravity.Hydrometer
	before, og    gravity.SG
	must          units.Volume // sugared, at 20 C
	sugar         units.Mass
	stop          gravity.SG
	fermented     abv.Fermented
	fermentedOut  abv.Fermented
	base, spirit  blend.Component
	planned       blend.Mixture // with the amount meant; zero without one
	pour          blend.Fortification
	asMeasured    units.Volume // the spirit to pour, at cellar temperature
	limit         *blend.UnreachableError
	square        blend.Square
	hand          blend.HandCheck // of the amount meant
	salt, sorbate units.Mass
	verdict       stability.Verdict
	wood          additions.WoodDosed
	bottles       []blend.Bottle
	rest          units.Volume
	law           law.Report
	cautions      []law.Caution
	window        []abv.Fermented // its two ends, where one is asked for

	arrest       blend.Arrest
	doubt        blend.ArrestUncertainty
	within       blend.ArrestUncertain
	pourToBeSure units.Volume
	assumed      []string
}

func (b batch) work() (j job, err error) {
	j.spindle = gravity.NewHydrometer(b.hydrometer)
	if err = j.ferment(b); err != nil {
		return j, err
	}
	if err = j.fortify(b); err != nil {
		return j, err
	}
	if err = j.finish(b); err != nil {
		return j, err
	}
	return j, j.sure(b)
}

// ferment goes from the reading of the must to the wine that is racked off.
func (j *job) ferment(b batch) error {
	var err error
	if j.before, err = j.spindle.Correct(b.reading, b.mustTemperature); err != nil {
		return fmt.Errorf("must_reading: %w", err)
	}
	extract, err := j.before.Extract()
	if err != nil {
		return fmt.Errorf("must_reading: %w", err)
	}
	must, err := blend.Component{Name: "must", Volume: b.must, Extract: extract}.MeasuredAt(b.mustTemperature)
	if err != nil {
		return err
	}
	j.og, j.must, j.sugar = j.before, must.Volume, b.sugar
	if b.wanted > 0 {
		add, err := sugar.RaiseGravity(j.before, b.wanted, must.Volume)
		if err != nil {
			return fmt.Errorf("original_gravity: %w", err)
		}
		j.og, j.must, j.sugar = b.wanted, add.Volume, add.Sugar
	} else if j.og, j.must, err = sugar.Add(j.before, must.Volume, j.sugar); err != nil {
		return fmt.Errorf("sugar: %w", err)
	}
	if j.fermented, err = abv.StopAt(j.og, b.stop, b.yield); err != nil {
		return fmt.Errorf("stop_at: %w", err)
	}
	j.stop = j.fermented.Gravity
	if b.stopFrom > 0 || b.stopTo > 0 {
		ends, err := abv.StopWithin(j.og, abv.Goal{MinStrength: b.stopFrom, MaxStrength: b.stopTo}, b.yield)
		if err != nil {
			return fmt.Errorf("stop_from, stop_to: %w", err)
		}
		j.window = []abv.Fermented{ends.From, ends.To}
	}
	if j.fermentedOut, err = abv.Potential(j.og, b.yield, abv.UpToLimit(b.tolerance)); err != nil {
		return err
	}
	if j.base, err = blend.FromMust("wine", j.must, j.fermented, b.lees); err != nil {
		return fmt.Errorf("lees: %w", err)
	}
	j.base.Sulfite, j.base.Sorbate = b.sulfite, b.sorbate
	return nil
}

func (j *job) fortify(b batch) error {
	j.spirit = blend.Component{Name: string(b.spirit), Strength: b.strength, Volume: b.stock}
	var err error
	if b.planned > 0 {
		meant := j.spirit
		meant.Volume = b.planned
		if meant, err = meant.MeasuredAt(b.cellar); err != nil {
			return fmt.Errorf("spirit_planned: %w", err)
		}
		if j.planned, err = blend.Mix(j.base, meant); err != nil {
			return err
		}
		if j.hand, err = blend.Additive(j.base, meant); err != nil {
			return err
		}
	}
	if jar := (blend.Vessel{Size: b.vessel, Headspace: b.headspace}); jar != (blend.Vessel{}) {
		j.pour, err = blend.FortifyIn(jar, j.base, j.spirit, b.target)
	} else {
		j.pour, err = blend.Fortify(j.base, j.spirit, b.target)
	}
	if errors.As(err, &j.limit) && j.limit.Limit != blend.LimitContent {
		free := j.spirit
		free.Volume = 0
		j.pour, err = blend.Fortify(j.base, free, b.target)
	}
	if err != nil {
		return fmt.Errorf("target: %w", err)
	}
	if j.asMeasured, err = abv.VolumeAt(j.pour.Spirit, b.strength, units.Celsius(20), b.cellar); err != nil {
		return fmt.Errorf("cellar_temperature: %w", err)
	}
	j.square, err = blend.Alligation(j.base, blend.Component{Name: string(b.spirit), Strength: b.strength}, b.target)
	return err
}

func (j *job) finish(b batch) error {
	var err error
	if j.salt, err = additions.Metabisulfite(b.sulfite, j.base.Volume); err != nil {
		return fmt.Errorf("sulfite: %w", err)
	}
	if j.sorbate, err = additions.Sorbate(b.sorbate, j.base.Volume); err != nil {
		return fmt.Errorf("sorbate: %w", err)
	}
	m := j.pour.Result
	rest, err := abv.NotSugarOf("")
	if err != nil {
		return err
	}
	sugars, err := rest.Sugars(m.Extract, min(1, float64(j.base.Volume/m.Volume)))
	if err != nil {
		return err
	}
	j.cautions = law.Cautions(law.What{Jurisdiction: string(b.jurisdiction), Must: true, StoneFruit: true, Fermenting: true, Sulfite: m.Sulfite > 0, Sorbate: m.Sorbate > 0,
		Wood: b.wood > 0, Fortified: true, Bottled: true, SugarLeft: sugars.High, Spirit: b.strength})
	if j.verdict, err = stability.Judge(stability.Wine{Strength: m.Strength, Sugar: sugars, Extract: m.Extract, PH: float64(b.ph),
		SO2: additions.SO2{Added: m.Sulfite}, Sorbate: m.Sorbate, YeastLimit: b.tolerance, Temperature: b.cellar}); err != nil {
		return err
	}
	if b.wood > 0 {
		if j.wood, err = additions.Wooded(b.wood, m.Volume, m.Strength, additions.OakChips); err != nil {
			return fmt.Errorf("wood: %w", err)
		}
	}
	if j.bottles, j.rest, err = blend.Bottles(m.Volume, b.bottles...); err != nil {
		return fmt.Errorf("bottles: %w", err)
	}
	if b.jurisdiction != "" {
		j.law, err = law.Check(string(b.jurisdiction), law.Product{
			Category: law.FortifiedFruitWine, Levels: law.Levels{law.TotalSO2: m.Sulfite, law.SorbicAcid: m.Sorbate},
			SugarLow: sugars.Low, SugarHigh: sugars.High})
	}
	return err
}
