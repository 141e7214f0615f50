package batch

import (
	"example.org/mutage/additions/sugar"
	"fmt"
	"time"

	"example.org/mutage/blend"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// grams is a weight for a kitchen scale, which shows grams in every country.
func grams(m units.Mass) string { return say.Metric.Mass(m) }

func (j *job) pourStep() (*Step, error) {
	b, c := j.b, &j.c
	s := j.step("pour", "Pour", clearDays, clearDaysLate)
	if c.sweetenG > 0 {
		sweetener, _ := sugar.ParseSweetener(b.Sweetener)
		f := sugaring.Of("sweetener", called(sweetener)+", into the wine first", float64(c.sweetenG), 0, "g")
		f.Note = j.cups(sweetener, c.sweetenG)
		s.Figures = append(s.Figures, f)
	}
	if c.spirit.Volume <= 0 {
		if c.sweetenG > 0 {
			return s, nil
		}
		return nil, nil
	}
	if b.PouredSpirit.Known() {
		s.Title = "What was poured"
	}
	s.Mind = "no flame, no spark, air the room"
	if err := j.poured(s); err != nil {
		return nil, err
	}
	if err := j.made(s); err != nil {
		return nil, err
	}
	if !b.PouredSpirit.Known() {
		s.Lines = append(s.Lines, "Spirit floats: stir until it is even, or yeast lives on below.")
	}
	s.Lines = append(s.Lines, fmt.Sprintf("Weakest figure: %s.", j.weakest()))
	return s, nil
}

// poured are the spirit and the wine, by volume and by weight.
func (j *job) poured(s *Step) error {
	b, c := j.b, &j.c
	spirit := j.plan.pourOf("reachable", "spirit")
	wine := j.plan.pourOf("reachable", "wine")
	f := atCellar.Of("spirit_to_pour", fmt.Sprintf("%s, %s %% vol", c.spirit.Name, units.Round(float64(c.spirit.Strength), 1)), float64(spirit.Measured), 4, "L")
	f.Note = grams(spirit.Mass)
	more := []units.Figure{}
	if j.sure > 0 && j.d.limit == nil && !b.PouredSpirit.Known() && b.Fortify != fillVessel && !b.BlendVolume.Known {
		at := c.spirit
		at.Volume = j.sure
		measured, err := atTemperature(at, b.cellar())
		if err != nil {
			return err
		}
		more = append(more, guardBand.Of("spirit_to_be_sure", "the same, to be 95 % sure", float64(measured), 4, "L"))
		f.Note += fmt.Sprintf("; %s to be 95 %% sure", b.Units.Volume(measured))
	}
	s.Figures = append(append(s.Figures, f), more...)
	name := "onto the wine"
	if b.notFermented() {
		name = "onto the juice"
	}
	f = atCellar.Of("wine_to_pour", name, float64(wine.Measured), 4, "L")
	f.Note = grams(wine.Mass)
	s.Figures = append(s.Figures, f)
	return nil
}

// made is what comes of it.
func (j *job) made(s *Step) error {
	b, c := j.b, &j.c
	makes, err := j.cellared("volume_measured", "makes", blend.Component{Volume: c.blend.Volume, Strength: c.blend.Strength, Extract: c.blend.Extract}, j.f.volume)
	if err != nil {
		return err
	}
	filled := units.Volume(makes.Value.InexactFloat64())
	makes.Note = j.leaves(filled)
	reachable, _ := j.plan.Liquid("reachable")
	rested := shown.Of("blend_reading", "hydrometer, once rested", float64(reachable.Reading), 4, "SG")
	rested.Note = "at " + b.Units.Temperature(b.cellar())
	extract := mixed.Like(j.f.extract, "extract", "extract", float64(c.blend.Extract), 1, "g/L")
	extract.Note = sugarWords(reachable)
	s.Figures = append(s.Figures, makes,
		mixed.Like(j.f.strength, "strength", "strength", float64(c.blend.Strength), 2, "% vol"), extract, rested)
	if left, is := j.roomLeft(filled); is {
		s.Figures = append(s.Figures, asStated.Of("vessel", "the vessel, to the brim", float64(b.Vessel.Value), 4, "L"),
			mixed.Of("room_left", "room left in it", float64(left), 4, "L"))
	}
	if b.SpiritPrice.Known {
		spirit := j.plan.pourOf("reachable", "spirit")
		s.Figures = append(s.Figures, asStated.Of("spirit_cost", "the spirit costs", b.SpiritPrice.Value*float64(spirit.Measured), 2, ""))
	}
	return nil
}

// sugarWords say how much of an extract is sugar.
func sugarWords(l Liquid) string {
	low, high := units.Round(float64(l.Sugar.Low), 0), units.Round(float64(l.Sugar.High), 0)
	switch {
	case high.IsZero():
		return "no sugar left"
	case low.Equal(high):
		return fmt.Sprintf("sugar: %s g/L", high)
	case low.IsZero():
		return fmt.Sprintf("sugar: %s g/L at most", high)
	}
	return fmt.Sprintf("sugar: %s to %s g/L", low, high)
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
	s.Figures = append(s.Figures, handRule.Of("spirit_by_hand", "spirit by the cross", q.Spirit.InexactFloat64(), 3, "L"),
		mixed.Of("spirit_by_balance", "spirit by the balance", float64(q.Balance.Spirit), 3, "L"))
	for _, l := range q.Working {
		s.Lines = append(s.Lines, " "+l) // set as it stands: a cross
	}
	s.Lines = append(s.Lines, "Both at 20 C, as the strength on the bottle is meant; the cross adds volumes, the balance counts that wine and spirit shrink when they mix.")
	return s, nil
}
