package batch

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

var (
	fermentation = figure.Method{Method: "mass balance of the fermentation, must yield", Source: "C. J. N. Balling, Die Gaerungschemie (1865); " + density.SourceMixture}
	hydrometry   = figure.Method{Method: "density at the temperature of the sample, glass expansion", Source: density.SourceSucrose + "; ISO 1768"}
	sugaring     = figure.Method{Method: "balance of masses; cups by published weights", Source: "USDA National Nutrient Database; " + density.SourceSucrose}
	sulfiting    = figure.Method{Method: "57.6 % SO2 by formula, on the racked wine", Source: "FAO/WHO JECFA (53rd, 1999)"}
	sorbating    = figure.Method{Method: "74.6 % sorbic acid by formula, on the racked wine", Source: "OIV Codex COEI-1-POTSOR"}
	acidifying   = figure.Method{Method: "titratable acidity by equivalents", Source: "molar masses"}
	guardBand    = figure.Method{Method: "the amount that makes the target 95 times in 100, by drawing the whole course", Source: "JCGM 101:2008; JCGM 106:2012, 8.3"}
	asStated     = figure.Method{Method: "as stated", Source: "the batch"}
	practice     = figure.Method{Method: "practice of the trade", Source: figure.CommonPractice}
	handRule     = figure.Method{Method: "alligation, volumes simply added", Source: figure.CommonPractice}
)

// steps are what is to be done, in order of time.
func (j *job) steps() error {
	checked := j.plan.Steps // where a rested blend was read
	j.plan.Steps = nil
	for _, step := range []func() (*Step, error){j.sugarStep, j.watchStep, j.stopStep, j.doseStep, j.pourStep, j.handStep, j.keepStep, j.restStep, j.bottleStep, j.drinkStep} {
		s, err := step()
		if err != nil {
			return err
		}
		if s != nil {
			if s.Figures == nil {
				s.Figures = []units.Figure{}
			}
			if s.Lines == nil {
				s.Lines = []string{}
			}
			j.plan.Steps = append(j.plan.Steps, *s)
		}
	}
	i := slices.IndexFunc(j.plan.Steps, func(s Step) bool { return s.Key == "rest" || s.Key == "bottle" || s.Key == "drink" })
	j.plan.Steps = slices.Insert(j.plan.Steps, i, checked...)
	j.caution()
	return nil
}

// days after the start, where one is stated.
func (j *job) days(from, to float64) (a, z time.Time) {
	if j.b.Start.IsZero() {
		return a, z
	}
	at := func(d float64) time.Time {
		return j.b.Start.Add(time.Duration(d * 24 * float64(time.Hour))).Round(time.Hour)
	}
	return at(from), at(to)
}

func (j *job) step(key, title string, from, to float64) *Step {
	s := &Step{Key: key, Title: title}
	s.From, s.To = j.days(from, to)
	return s
}

// Days after the start by which a sweet fruit wine is usually at each step, common
// practice, no source: the log decides, not the calendar.
const (
	stopDays, stopDaysLate   = 3.0, 14.0
	clearDays, clearDaysLate = 5.0, 21.0
	restDays, restDaysLate   = 14.0, 28.0
	woodFirst, woodLate      = 7.0, 90.0
)

func (j *job) sugarStep() (*Step, error) {
	b, c := j.b, &j.c
	if !b.Must.Known() {
		return nil, nil
	}
	s := j.step("sugar", "Sugar the must", 0, 0)
	for i, p := range b.Sugar {
		key := "sugar"
		if i > 0 {
			key = fmt.Sprintf("sugar_%d", i+1)
		}
		s.Figures = append(s.Figures, sugaring.Of(key, p.Sweetener.Name, float64(p.Mass.Value), 0, "g"))
		if p.Sweetener.Name == sucrose.Name {
			if spoons, err := additions.Spoons(additions.GranulatedSugar, p.Mass.Value); err == nil {
				s.Figures[len(s.Figures)-1].Note = spoons.String()
			}
		}
		if p.Days > 0 {
			s.Lines = append(s.Lines, fmt.Sprintf("%s of %s after %s days, dissolved in some of the must; the hydrometer then rises, and the figures below count it as if it had been there from the start.",
				b.Units.Mass(p.Mass.Value), p.Sweetener.Name, digits(p.Days)))
		}
	}
	reading, err := b.hydrometer().ReadingInMust(c.og, b.mustAt())
	if err != nil {
		return nil, inField("must_temperature", err)
	}
	shown := hydrometry.Within("original_reading", "hydrometer with the sugar in", float64(reading), j.f.og.Standard, 4, "SG")
	shown.Note = "at " + b.Units.Temperature(b.mustAt())
	s.Figures = append(s.Figures, shown, hydrometry.Within("original_gravity", "original gravity, at 20 C", float64(c.og), j.f.og.Standard, 4, "SG"),
		sugaring.Within("must_volume", "must with its sugar, at 20 C", float64(c.must), j.f.must.Standard, 4, "L"))
	return s, nil
}

func (j *job) watchStep() (*Step, error) {
	b, c := j.b, &j.c
	if !b.Must.Known() || b.notFermented() || b.StopReading.Known || b.RackedReading.Known {
		return nil, nil
	}
	s := j.step("watch", "Let it ferment, and watch it", 1, stopDays)
	n, err := b.notSugar()
	if err != nil {
		return nil, err
	}
	low, likely, high, err := abv.PotentialRange(c.og, mustYield, abv.WithNotSugar(n), abv.UpToLimit(b.YeastLimit.Value))
	if err != nil {
		return nil, err
	}
	s.Figures = append(s.Figures, fermentation.Within("left_alone", "strength if it is left alone", float64(likely.Strength), float64(high.Strength-low.Strength)/(2*1.645), 1, "% vol"))
	s.Mind = "airlock; the gas can kill in a cellar: air it"
	s.Lines = append(s.Lines, "Read it every day, degassed, at one time of the day.")
	return s, nil
}

// shows is what the hydrometer shows in a fermented must at cellar temperature.
func (j *job) shows(f abv.Fermented) (gravity.SG, error) {
	g, err := j.b.hydrometer().Shows(f.Strength, f.Extract, j.b.cellar())
	return g, inField("cellar_temperature", err)
}

func (j *job) stopStep() (*Step, error) {
	b, c := j.b, &j.c
	if !b.Must.Known() || b.notFermented() {
		return nil, nil
	}
	s := j.step("stop", "Stop it", stopDays, stopDaysLate)
	if w := j.d.window; w != nil {
		for _, end := range []struct {
			key, name, note string
			f               abv.Fermented
		}{{"stop_from_reading", "from", "start to chill before this", w.From}, {"stop_to_reading", "not below", "", w.To}} {
			g, err := j.shows(end.f)
			if err != nil {
				return nil, err
			}
			reading := fermentation.Of(end.key, end.name, float64(g), 4, "SG")
			reading.Note = end.note
			s.Figures = append(s.Figures, reading)
		}
	}
	g, err := j.shows(c.wine)
	if err != nil {
		return nil, err
	}
	name := "aim at"
	if b.StopReading.Known || b.RackedReading.Known {
		name = "it was stopped at"
	}
	s.Mind = "degassed sample, at " + b.Units.Temperature(b.cellar())
	aim := fermentation.Of("stop_reading", name, float64(g), 4, "SG")
	aim.Note = fmt.Sprintf("%s ± %s", say.Strength(c.wine.Strength), units.Round(twoSided*j.f.wineStrength.Standard, 1).StringFixed(1))
	extract := fermentation.Within("stop_extract", "extract left then", float64(c.wine.Extract), j.f.wineExtract.Standard, 1, "g/L")
	extract.Note = "sugar and all else dissolved"
	s.Figures = append(s.Figures, aim,
		fermentation.Within("stop_strength", "strength then", float64(c.wine.Strength), j.f.wineStrength.Standard, 2, "% vol"), extract)
	s.Lines = append(s.Lines,
		"Chill it, let it fall clear, rack it off the lees, and read it again: compute from that reading (racked_reading). Sorbate and sulfite do not stop a running fermentation.",
		"Or the classical way: pour the spirit straight into the fermenting must and stir; at 20 % vol that needs no sorbate.")
	return s, nil
}

func (j *job) doseStep() (*Step, error) {
	b, c := j.b, &j.c
	s := j.step("dose", fmt.Sprintf("Dose the racked wine: %s ± %s", b.Units.Volume(c.base.Volume), b.Units.VolumeLimit(c.base.Volume, units.Volume(2*j.f.wineVolume.Standard))), clearDays, clearDaysLate)
	if b.Sulfite.Value+b.Sorbate.Value > 0 {
		s.Mind = "keep the dust off eyes and lungs"
	}
	s.Figures = append(s.Figures, fermentation.Within("racked_volume", "racked wine, at 20 C", float64(c.base.Volume), j.f.wineVolume.Standard, 4, "L"))
	for _, dose := range []struct {
		key, name, legal string
		method           figure.Method
		want             Stated[units.Concentration]
		usual            units.Concentration
		what             additions.Substance
		of               func(units.Concentration, units.Volume) (units.Mass, error)
		note             string
	}{
		{"potassium_metabisulfite", "potassium metabisulfite", "sulfite", sulfiting, b.Sulfite, 0.1, additions.MetabisulfitePowder, additions.Metabisulfite,
			"adds %s of SO2, of which sweet wine binds the most"},
		{"potassium_sorbate", "potassium sorbate", "sorbate", sorbating, b.Sorbate, additions.UsualSorbicAcid, additions.SorbatePowder, additions.Sorbate,
			"adds %s of sorbic acid; only together with SO2"},
	} {
		if !dose.want.Known || dose.want.Value == 0 {
			continue
		}
		m, err := dose.of(dose.want.Value, c.base.Volume)
		if err != nil {
			return nil, inField(dose.legal, err)
		}
		f := dose.method.Of(dose.key, dose.name, float64(m), 2, "g")
		f.Note = fmt.Sprintf(dose.note, say.Concentration(dose.want.Value))
		s.Figures = append(s.Figures, f)
		if spoons, err := additions.Spoons(dose.what, m); err == nil {
			s.Lines = append(s.Lines, capital(dose.name)+": "+spoons.String()+".")
		}
		if dose.want.Value >= 10*dose.usual {
			j.find("dose_"+dose.legal, Stop, "%s of %s is ten times the usual dose or more: is it a slip of the unit?", say.Concentration(dose.want.Value), dose.legal)
		}
	}
	if b.Acid.Known && b.Acid.Value > 0 {
		m, err := acid.RaiseTA(b.Acid.Value, c.base.Volume, tartaric)
		if err != nil {
			return nil, inField("acid", err)
		}
		s.Figures = append(s.Figures, acidifying.Of("tartaric_acid", "tartaric acid", float64(m), 2, "g"))
		if b.Acid.Value >= 10 {
			j.find("dose_acid", Stop, "%s of acid is ten times what is usual: is it a slip of the unit?", say.Concentration(b.Acid.Value))
		}
	}
	if len(s.Figures) == 1 && !b.Must.Known() {
		return nil, nil
	}
	if len(s.Figures) == 1 {
		s.Lines = append(s.Lines, "Nothing is to be added.")
	}
	return s, nil
}

func (j *job) pourStep() (*Step, error) {
	b, c := j.b, &j.c
	s := j.step("pour", "Pour", clearDays, clearDaysLate)
	if c.sweetenG > 0 {
		s.Figures = append(s.Figures, sugaring.Of("sweetener", "sweetener, dissolved in the wine first", float64(c.sweetenG), 0, "g"))
	}
	if c.spirit.Volume <= 0 {
		if c.sweetenG > 0 {
			return s, nil
		}
		return nil, nil
	}
	spirit := j.plan.pourOf("reachable", "spirit")
	wine := j.plan.pourOf("reachable", "wine")
	f := atCellar.Of("spirit_to_pour", fmt.Sprintf("%s, %s", c.spirit.Name, say.Strength(c.spirit.Strength)), float64(spirit.Measured), 4, "L")
	f.Note = b.Units.Mass(spirit.Mass)
	s.Figures = append(s.Figures, f)
	if j.sure > 0 && j.d.limit == nil && !b.PouredSpirit.Known() && b.Fortify != fillVessel && !b.BlendVolume.Known {
		at := c.spirit
		at.Volume = j.sure
		measured, err := atTemperature(at, b.cellar())
		if err != nil {
			return nil, err
		}
		s.Figures = append(s.Figures, guardBand.Of("spirit_to_be_sure", "the same, to be 95 % sure of the target", float64(measured), 4, "L"))
		s.Figures[len(s.Figures)-2].Note += fmt.Sprintf("; %s: 95 %% sure", b.Units.Volume(measured))
	}
	f = atCellar.Of("wine_to_pour", "onto the wine", float64(wine.Measured), 4, "L")
	f.Note = b.Units.Mass(wine.Mass)
	makes := mixed.Within("volume", "makes", float64(c.blend.Volume), j.f.volume.Standard, 4, "L")
	if j.d.room > 0 {
		makes.Note = fmt.Sprintf("the jar holds %s", b.Units.Volume(b.Vessel.Value))
	}
	s.Figures = append(s.Figures, f, makes,
		mixed.Within("strength", "strength", float64(c.blend.Strength), j.f.strength.Standard, 2, "% vol"),
		mixed.Within("extract", "extract", float64(c.blend.Extract), j.f.extract.Standard, 1, "g/L"))
	reachable, _ := j.plan.Liquid("reachable")
	rested := shown.Of("blend_reading", "hydrometer, once rested", float64(reachable.Reading), 4, "SG")
	rested.Note = "at " + b.Units.Temperature(b.cellar())
	s.Figures = append(s.Figures, rested)
	if j.d.room > 0 {
		s.Figures = append(s.Figures, asStated.Of("vessel", "the vessel, to the brim", float64(b.Vessel.Value), 4, "L"),
			mixed.Of("room_left", "room left in it", float64(b.Vessel.Value-c.blend.Volume), 4, "L"))
	}
	if b.SpiritPrice.Known {
		s.Figures = append(s.Figures, asStated.Of("spirit_cost", "the spirit costs", b.SpiritPrice.Value*float64(spirit.Measured), 2, ""))
	}
	s.Mind = "no flame, no spark, air the room"
	s.Lines = append(s.Lines, "Spirit floats: stir until it is even, or yeast lives on below.",
		fmt.Sprintf("Weakest figure: %s.", j.weakest()))
	return s, nil
}

// handStep is the blend by paper and pencil.
func (j *job) handStep() (*Step, error) {
	b, c := j.b, &j.c
	if j.wanted == nil || c.spirit.Volume <= 0 || b.PouredSpirit.Known() || c.sweetenG > 0 {
		return nil, nil
	}
	base, spirit := j.wanted.poured, j.wanted.spirit
	spirit.Volume = 0
	q, err := blend.Alligation(base, spirit, b.Target.Value)
	if err != nil {
		return nil, nil // nothing to pour, or no cross to draw
	}
	s := j.step("hand", "By hand", 0, 0)
	s.From, s.To = time.Time{}, time.Time{}
	s.Figures = append(s.Figures, handRule.Of("spirit_by_hand", "spirit by the cross, volumes simply added", q.Spirit.InexactFloat64(), 3, "L"),
		mixed.Of("spirit_by_balance", "spirit by the balance, at 20 C", float64(q.Balance.Spirit), 3, "L"))
	s.Lines = append(s.Lines, q.Working...)
	return s, nil
}

// keepStep is the part that is kept sweet and weak.
func (j *job) keepStep() (*Step, error) {
	b := j.b
	l, ok := j.plan.Liquid("kept")
	if !ok {
		return nil, nil
	}
	s := j.step("keep", "Keep the rest", clearDays, clearDays+14)
	s.Figures = append(s.Figures, mixed.Within("keep_volume", "wine kept without spirit, at 20 C", float64(l.Volume), float64(l.VolumeUncertainty), 3, "L"))
	measured, err := atTemperature(j.c.kept, b.cellar())
	if err != nil {
		return nil, err
	}
	s.Figures = append(s.Figures, atCellar.Of("keep_measured", "the same as the cellar measures it", float64(measured), 3, "L"), mixed.Of("keep_mass", "by weight", float64(l.Mass), 0, "g"))
	for _, more := range []struct {
		key, name string
		method    figure.Method
		kept, all Stated[units.Concentration]
		of        func(units.Concentration, units.Volume) (units.Mass, error)
	}{
		{"keep_metabisulfite", "potassium metabisulfite, more", sulfiting, b.KeptSulfite, b.Sulfite, additions.Metabisulfite},
		{"keep_potassium_sorbate", "potassium sorbate, more", sorbating, b.KeptSorbate, b.Sorbate, additions.Sorbate},
	} {
		if more.kept.Known && more.kept.Value > more.all.Value {
			m, err := more.of(more.kept.Value-more.all.Value, l.Volume)
			if err != nil {
				return nil, inField("kept_sulfite, kept_sorbate", err)
			}
			s.Figures = append(s.Figures, more.method.Of(more.key, more.name, float64(m), 2, "g"))
		}
	}
	s.Lines = append(s.Lines, fmt.Sprintf("It %s.", l.Verdict.Outlook))
	if l.Remedy != "" {
		s.Lines = append(s.Lines, capital(l.Remedy)+".")
	}
	if !b.Start.IsZero() {
		s.Lines = append(s.Lines, fmt.Sprintf("Drink it by %s.", b.Start.AddDate(0, 0, int(clearDays)+14).Format("2 January 2006")))
	}
	return s, nil
}

func (j *job) restStep() (*Step, error) {
	b, c := j.b, &j.c
	if c.spirit.Volume <= 0 {
		return nil, nil
	}
	title := "Rest"
	if b.wood(c.blend.Volume) > 0 {
		title = "Wood and rest"
	}
	s := j.step("rest", title, clearDays+restDays, clearDaysLate+woodLate)
	if grams := b.wood(c.blend.Volume); grams > 0 {
		w, err := additions.Wooded(grams, c.blend.Volume, c.blend.Strength, oakChips)
		if err != nil {
			return nil, inField("wood", err)
		}
		oak := asStated.Of("oak", "oak chips", float64(grams), 1, "g")
		oak.Note = fmt.Sprintf("keeps %s to %s", units.Round(w.LossLow.In(units.Millilitre), 0), b.Units.Volume(w.LossHigh))
		s.Figures = append(s.Figures, oak,
			practice.Of("wood_keeps_low", "wine that the wood keeps, at least", w.LossLow.In(units.Millilitre), 0, "mL"),
			practice.Of("wood_keeps_high", "and at most", w.LossHigh.In(units.Millilitre), 0, "mL"),
			practice.Of("wood_barrel_share", "surface against a barrel of 225 L", w.Barrels, 2, ""))
		s.Lines = append(s.Lines, "Taste after a week, then weekly: a small jar takes its wood in weeks, not years (common practice, no source).")
	}
	s.Lines = append(s.Lines, "Airlock until it is still and clear; a haze after the spirit may be pectin. A half-full jar takes up air: fill it up or use a smaller one.")
	return s, nil
}

func (j *job) bottleStep() (*Step, error) {
	b, c := j.b, &j.c
	reachable, _ := j.plan.Liquid("reachable")
	if len(b.Bottles) == 0 {
		return nil, nil
	}
	s := j.step("bottle", "Bottle", clearDaysLate+restDaysLate, clearDaysLate+woodLate)
	loss, least := units.Volume(0), units.Volume(0)
	if grams := b.wood(c.blend.Volume); grams > 0 {
		w, err := additions.Wooded(grams, c.blend.Volume, c.blend.Strength, oakChips)
		if err != nil {
			return nil, inField("wood", err)
		}
		loss, least = w.LossHigh, w.LossLow
	}
	spread := units.Volume(2 * j.f.volume.Standard)
	largest := slices.Max(b.Bottles)
	surely := int(math.Floor(float64((c.blend.Volume - loss - spread) / largest)))
	perhaps := int(math.Floor(float64((c.blend.Volume - least + spread) / largest)))
	text := fmt.Sprintf("bottles of %s", b.Units.Volume(largest))
	f := mixed.Of("bottles", text, float64(max(0, surely)), 0, "")
	if perhaps > surely {
		f.Note = fmt.Sprintf("%d, perhaps %d", max(0, surely), perhaps)
	}
	s.Figures = append(s.Figures, f)
	rest := c.blend.Volume - loss - units.Volume(max(0, surely))*largest
	if plan, left, err := blend.Bottles(max(0, rest-spread), b.Bottles...); err == nil && len(plan) > 0 {
		for _, n := range plan {
			s.Figures = append(s.Figures, mixed.Of("bottles_of_"+n.Size.Decimal(units.Millilitre, 0).String()+"_ml", "and of "+b.Units.Volume(n.Size), float64(n.Count), 0, ""))
		}
		_ = left
	}
	if reachable.Verdict.Outlook != stability.Still {
		s.Lines = append(s.Lines, "Not before it should stay still: "+stability.BurstWarning)
	}
	return s, nil
}

// answer is what to do, the gravest first.
func (j *job) answer() []string {
	b, c := j.b, &j.c
	u := b.Units
	var out []string
	for _, f := range j.findings {
		if f.Severity == Stop {
			out = append(out, f.Text)
		}
	}
	wine := j.plan.pourOf("reachable", "wine")
	spirit := j.plan.pourOf("reachable", "spirit")
	reachable, _ := j.plan.Liquid("reachable")
	verb := "Pour"
	if b.PouredSpirit.Known() {
		verb = "You poured"
	}
	switch {
	case spirit.Volume <= 0 && b.Target.Known:
		out = append(out, fmt.Sprintf("Pour no spirit: the wine has %s.", say.Strength(c.base.Strength)))
	case spirit.Volume <= 0:
		out = append(out, fmt.Sprintf("The wine, racked, is %s of %s.", u.Volume(c.base.Volume), say.Strength(c.base.Strength)))
	default:
		sweet := ""
		if c.sweetenG > 0 {
			sweet = fmt.Sprintf(" with %s of sweetener in it", u.Mass(c.sweetenG))
		}
		out = append(out, fmt.Sprintf("%s %s of %s on %s of wine%s: it makes %s of %s.", verb, u.Volume(spirit.Measured), c.spirit.Name,
			u.Volume(wine.Measured), sweet, u.Volume(c.blend.Volume), say.Strength(c.blend.Strength)))
	}
	if l, ok := j.plan.Liquid("kept"); ok {
		out = append(out, fmt.Sprintf("%s of the wine are kept without spirit, at %s: it %s.", u.Volume(l.Volume), say.Strength(l.Strength), l.Verdict.Outlook))
	}
	if p, ok := j.plan.Liquid("planned"); ok && j.d.limit == nil && math.Abs(float64(p.Strength-reachable.Strength)) > 0.05 {
		what := "which " + p.Verdict.Outlook.String()
		switch p.Verdict.Outlook {
		case stability.Doubtful:
			what = "which yeast may ferment: do not bottle that"
		case stability.Ferments:
			what = "which yeast will ferment: do not bottle that"
		}
		out = append(out, fmt.Sprintf("The %s you planned makes %s, %s.", u.Volume(j.plan.pourOf("planned", "spirit").Measured), say.Strength(p.Strength), what))
	}
	sentence := fmt.Sprintf("At %s yeast %s.", say.Strength(reachable.Strength), reachable.Verdict.Outlook)
	if reachable.Verdict.Outlook == stability.Doubtful {
		sentence = fmt.Sprintf("At %s yeast may ferment it: do not bottle it.", say.Strength(reachable.Strength))
	}
	if reachable.Verdict.Outlook == stability.Ferments {
		sentence = fmt.Sprintf("At %s yeast will ferment it: do not bottle it.", say.Strength(reachable.Strength))
	}
	if reachable.Verdict.Bacteria != stability.BacteriaHeld {
		sentence += " Bacteria can still spoil it."
	}
	return append(out, sentence)
}
