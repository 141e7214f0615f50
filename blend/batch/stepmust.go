package batch

import (
	"fmt"
	"math"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// called is what people call a sweetener.
func called(s sugar.Sweetener) string {
	if s.Name == sucrose.Name {
		return "sugar"
	}
	return s.Name
}

// cups is a sweetener by household measures, where they are known.
func (j *job) cups(s sugar.Sweetener, m units.Mass) string {
	of, known := s.Household()
	if !known {
		return ""
	}
	spoons, err := additions.Spoons(of, m)
	if err != nil || spoons.Printed == 0 {
		return ""
	}
	about := ""
	if spoons.Printed >= units.USCup/4 { // nobody adds a teaspoon to two cups
		least := units.USTablespoon
		if spoons.Printed > units.USCup {
			least = units.USCup / 4
		}
		near := units.Volume(math.Round(float64(spoons.Printed/least))) * least
		if holds, err := additions.Weigh(of, near); err == nil && holds != m {
			if spoons, err = additions.Spoons(of, holds); err != nil {
				return ""
			}
			about = "about "
		}
	}
	text := about + spoons.String()
	if j.b.Units == say.Imperial {
		text = strings.ReplaceAll(text, "cup", "US cup")
	}
	return text + ", level"
}

// portions puts down what goes in, and is the batch with what goes in at the start
// only.
func (j *job) portions(s *Step) (first Batch) {
	b := j.b
	must := b.Units.Volume(b.Must.Volume.Value)
	if b.Must.Mass.Known {
		must = b.Units.Mass(b.Must.Mass.Value)
	}
	first = *b
	first.Sugar = nil
	for i, p := range b.Sugar {
		key, when := "sugar", ""
		if i > 0 {
			key = fmt.Sprintf("sugar_%d", i+1)
		}
		if p.Days > 0 {
			when = fmt.Sprintf("after %s days", digits(p.Days))
			if at, _ := j.days(p.Days, p.Days); !at.IsZero() {
				when = at.Format("on 2 January")
			}
		} else {
			first.Sugar = append(first.Sugar, p)
		}
		name := strings.TrimSpace(called(p.Sweetener) + " " + when)
		if into := name + " into " + must + " of must"; i == 0 && len(into) <= 28 {
			name = into
		}
		f := sugaring.Of(key, name, float64(p.Mass.Value), 0, "g")
		f.Note = j.cups(p.Sweetener, p.Mass.Value)
		s.Figures = append(s.Figures, f)
	}
	return first
}

func (j *job) sugarStep() (*Step, error) {
	b, c := j.b, &j.c
	if !b.Must.Known() {
		return nil, nil
	}
	s := j.step("sugar", "Sugar the must", 0, 0)
	if len(b.Sugar) == 0 {
		s.Title = "The must, without sugar"
	}
	first := j.portions(s)
	name := "the hydrometer then shows"
	if len(first.Sugar) < len(b.Sugar) && !b.OriginalReading.Known {
		r, err := propagated(&j.d.v, first.knows(&j.d.v), first.begins)
		if err != nil {
			return nil, err
		}
		f := hydrometry.Result("first_reading", "hydrometer at the start", r, 4, "SG")
		f.Note = "at " + b.Units.Temperature(b.mustAt())
		s.Figures = append(s.Figures, f)
		name = "it counts as begun with"
		s.Lines = append(s.Lines, "Dissolve what goes in later in some of the must; the reading rises by it. The alcohol comes out as if all the sugar had been in from the start.")
	}
	reading, err := b.hydrometer().ReadingInMust(c.og, b.mustAt())
	if err != nil {
		return nil, inField("must_temperature", err)
	}
	shown := hydrometry.Like(j.f.og, "original_reading", name, float64(reading), 4, "SG")
	shown.Note = "at " + b.Units.Temperature(b.mustAt())
	s.Figures = append(s.Figures, shown, hydrometry.Like(j.f.og, "original_gravity", "original gravity, at 20 C", float64(c.og), 4, "SG"),
		sugaring.Like(j.f.must, "must_volume", "must with its sugar, at 20 C", float64(c.must), 4, "L"))
	return s, nil
}

// begins is what the hydrometer shows in the must with its sugar.
func (b *Batch) begins(v *values) (float64, error) {
	var c course
	if err := b.sugared(v, &c); err != nil {
		return 0, err
	}
	reading, err := b.hydrometer().ReadingInMust(c.og, b.mustAt())
	return float64(reading), inField("must_temperature", err)
}

// leftAlone is the strength that the must ferments to by itself, low, likely and
// high by what of its extract is not sugar.
func (b *Batch) leftAlone(v *values) (low, likely, high float64, err error) {
	var c course
	if err := b.sugared(v, &c); err != nil {
		return 0, 0, 0, err
	}
	n, err := b.notSugar()
	if err != nil {
		return 0, 0, 0, err
	}
	l, m, h, err := abv.PotentialRange(c.og, abv.Yield{CarbonDioxide: mustYield.CarbonDioxide, Yeast: v[qYeast]}, abv.End{NotSugar: n, Limit: b.YeastLimit.Value})
	off := func(f abv.Fermented) float64 {
		s := max(0, f.Strength+units.Strength(v[qBalance]))
		if b.YeastLimit.Value > 0 {
			s = min(s, b.YeastLimit.Value)
		}
		return float64(s)
	}
	return off(l), off(m), off(h), err
}

// leftAloneStandard is its root mean square error. What is not sugar lies on either
// side of the likely half of the time, and more of it on the one; the yield of the
// yeast that is computed with lies off the likely one to the same side: the two
// means add up.
func (b *Batch) leftAloneStandard(v *values, low, likely, high float64) (float64, error) {
	r, err := propagated(v, b.knows(v), func(w *values) (float64, error) {
		_, likely, _, err := b.leftAlone(w)
		return likely, err
	})
	if err != nil {
		return 0, err
	}
	w := *v
	w[qYeast] = abv.YeastLikely
	_, middle, _, err := b.leftAlone(&w)
	less, more := (likely-low)/1.645, (high-likely)/1.645
	off := (more - less) / math.Sqrt(2*math.Pi) // the mean of half a normal distribution on either side
	return math.Sqrt(r.Standard*r.Standard + (less*less+more*more)/2 + 2*off*(middle-likely)), err
}

// mostYeasts stop by themselves before this strength (common practice, no source).
const mostYeasts units.Strength = 15

// ferments says whether the fermentation is still to come.
func (b *Batch) ferments() bool {
	return b.Must.Known() && !b.notFermented() && !b.StopReading.Known && !b.RackedReading.Known && !b.PouredSpirit.Known()
}

func (j *job) watchStep() (*Step, error) {
	b := j.b
	if !b.ferments() {
		return nil, nil
	}
	s := j.step("watch", "Ferment", 1, stopDays)
	low, likely, high, err := b.leftAlone(&j.d.v)
	if err != nil {
		return nil, err
	}
	u, err := b.leftAloneStandard(&j.d.v, low, likely, high)
	if err != nil {
		return nil, err
	}
	s.Figures = append(s.Figures, fermentation.Within("left_alone", "strength if it is left alone", likely, u, 1, "% vol"))
	s.Mind = "airlock; air the room: CO2 kills"
	alone := "Read it daily; left alone it makes " + say.Strength(units.Strength(likely)) + "."
	if !b.YeastLimit.Known && units.Strength(likely) > mostYeasts {
		alone = "Read it daily; left alone it goes on to the limit of its yeast."
	}
	s.Lines = append(s.Lines, alone)
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
	s.Mind = "degassed sample, at " + b.Units.Temperature(b.cellar())
	reading := func(key, name, note string, f abv.Fermented) error {
		g, err := j.shows(f)
		if err == nil {
			shown := fermentation.Of(key, name, float64(g), 4, "SG")
			shown.Note = note
			s.Figures = append(s.Figures, shown)
		}
		return err
	}
	aim := fmt.Sprintf("%s ± %s", say.Strength(c.wine.Strength), units.Round(j.f.wineStrength.Coverage()*j.f.wineStrength.Standard, 1).StringFixed(1))
	name, w := "aim at", j.d.window
	if !b.ferments() {
		s.Title, name, w = "It was stopped", "at", nil
	}
	if w != nil && b.StopFrom.Known { // else it is the must
		if err := reading("stop_from_reading", "from", "start to chill before this", w.From); err != nil {
			return nil, err
		}
	}
	if err := reading("stop_reading", name, aim, c.wine); err != nil {
		return nil, err
	}
	if w != nil && (b.StopTo.Known || b.StopLeastSugar.Known) { // else it is fermented out
		if err := reading("stop_to_reading", "not below", "", w.To); err != nil {
			return nil, err
		}
	}
	extract := fermentation.Like(j.f.wineExtract, "stop_extract", "extract left then", float64(c.wine.Extract), 1, "g/L")
	extract.Note = "sugar and all else"
	s.Figures = append(s.Figures, extract,
		fermentation.Like(j.f.wineStrength, "stop_strength", "strength then", float64(c.wine.Strength), 2, "% vol"))
	if b.ferments() {
		s.Lines = append(s.Lines, "Sorbate and sulfite do not stop it: cold does. Or pour the spirit in and stir.")
	}
	return s, j.comparedWithLog(s)
}

// rackStep is the wine off its lees.
func (j *job) rackStep() (*Step, error) {
	b, c := j.b, &j.c
	if !b.Must.Known() || b.notFermented() {
		return nil, nil
	}
	s := j.step("rack", "Chill, clear, rack", stopDays, clearDaysLate)
	base := c.base
	f, err := j.cellared("racked_measured", "the racked wine", base, j.f.wineVolume)
	if err != nil {
		return nil, err
	}
	if v := units.Volume(f.Value.InexactFloat64()); j.c.kept.Volume == 0 {
		f.Note = j.leaves(v)
	}
	s.Figures = append(s.Figures, f)
	switch {
	case b.Racked.Known() || b.RackedReading.Known || b.PouredSpirit.Known():
		s.Title = "It was racked"
	case b.ferments() || b.StopReading.Known:
		s.Lines = append(s.Lines, "Read it again before the dose: as racked_reading it replans the rest.")
	}
	if b.Racked.Known() {
		return s, j.rackedIsThere()
	}
	return s, nil
}

// rackedIsThere holds the racked volume against the must that it came from.
func (j *job) rackedIsThere() error {
	b, c := j.b, &j.c
	must := blend.Component{Volume: c.litres}
	if c.base.Volume > must.Volume+units.Volume(3*(j.f.must.Standard+j.f.wineVolume.Standard)) {
		j.find("racked", Warn, "Racked are %s, and the must makes %s only: is one of them another batch, or was something added?", b.Units.Volume(c.base.Volume), b.Units.Volume(must.Volume))
	}
	return nil
}
