package batch

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// keepStep is the part that is kept sweet and weak.
func (j *job) keepStep() (*Step, error) {
	b := j.b
	l, ok := j.plan.Liquid("kept")
	if !ok {
		return nil, nil
	}
	s := j.step("keep", "Keep the rest, without spirit", clearDays, clearDays+keepDays)
	f, err := j.cellared("keep_measured", "wine", j.c.kept, j.f.keptVolume)
	if err != nil {
		return nil, err
	}
	j.keeps = units.Volume(f.Value.InexactFloat64())
	f.Note = grams(l.Mass)
	s.Figures = append(s.Figures, f, mixed.Like(j.f.wineStrength, "keep_strength", "strength", float64(l.Strength), 2, "% vol"))
	for _, more := range []struct {
		powder
		key       string
		kept, all Stated[units.Concentration]
	}{{metabisulfite, "keep_metabisulfite", b.KeptSulfite, b.Sulfite}, {sorbate, "keep_potassium_sorbate", b.KeptSorbate, b.Sorbate}} {
		if more.kept.Known && more.kept.Value > more.all.Value {
			f, err := more.dose(more.key, more.kept.Value-more.all.Value, l.Volume)
			if err != nil {
				return nil, inField("kept_sulfite, kept_sorbate", err)
			}
			f.Name += ", more"
			if err := j.slip("dose_kept_"+more.legal, more.is, more.kept.Value); err != nil {
				return nil, err
			}
			s.Figures = append(s.Figures, f)
		}
	}
	if l.Verdict.Outlook != stability.Still {
		s.Mind = ferment(l.Verdict.Outlook) + " it: no bottle"
	}
	if l.Remedy != "" {
		s.Lines = append(s.Lines, capital(l.Remedy)+".")
	}
	if !b.Start.IsZero() && l.Verdict.Outlook != stability.Still {
		s.Lines = append(s.Lines, fmt.Sprintf("Drink it by %s.", s.To.Format("2 January 2006")))
	}
	return s, nil
}

// sureStep is how sure the strength is, and where its uncertainty comes from.
func (j *job) sureStep() (*Step, error) {
	s := &Step{Key: "sure", Title: "How sure"}
	if j.f.strength.Standard <= 0 {
		return nil, nil
	}
	var parts, assumed []string
	for _, c := range j.f.strength.Ranked() {
		if share := 100 * c.Share; share >= 1 {
			parts = append(parts, fmt.Sprintf("%s %s %%", c.Name, units.Round(share, 0)))
		}
	}
	for _, k := range j.f.knows {
		if k.assumed != "" {
			assumed = append(assumed, k.assumed)
		}
	}
	s.Lines = append(s.Lines, fmt.Sprintf("The strength is good to ± %s %% vol, 19 times in 20. Of that (its square) come from: %s.",
		units.Round(j.f.strength.Coverage()*j.f.strength.Standard, 1).StringFixed(1), strings.Join(parts, ", ")))
	if len(assumed) > 0 {
		s.Lines = append(s.Lines, "Assumed, where no limits were stated: "+strings.Join(assumed, "; ")+".")
	}
	return s, nil
}

// keepDays is how long sweet wine that may ferment is kept in the cold.
const keepDays = 14

func (j *job) restStep() (*Step, error) {
	b, c := j.b, &j.c
	if c.spirit.Volume <= 0 {
		return nil, nil
	}
	title := "Rest"
	if b.wood(c.blend.Volume) > 0 {
		title = "Wood, rest"
	}
	s := j.step("rest", title, clearDays, clearDaysLate+woodLate)
	if grams := b.wood(c.blend.Volume); grams > 0 {
		w, err := additions.Wooded(grams, c.blend.Volume, c.blend.Strength, oakChips)
		if err != nil {
			return nil, inField("wood", err)
		}
		oak := asStated.Of("oak", "oak chips", float64(grams), 1, "g")
		oak.Note = "taste weekly"
		if at, _ := j.days(clearDays+woodFirst, 0); !at.IsZero() {
			oak.Note = "taste weekly, from " + at.Format("2 Jan")
		}
		if w.LossHigh >= 0.5*units.Millilitre {
			oak.Note += fmt.Sprintf("; keeps %s to %s mL", units.Round(w.LossLow.In(units.Millilitre), 0), units.Round(w.LossHigh.In(units.Millilitre), 0))
		}
		s.Figures = append(s.Figures, oak,
			practice.Of("wood_keeps_low", "the wood keeps, at least", w.LossLow.In(units.Millilitre), 0, "mL"),
			practice.Of("wood_keeps_high", "and at most", w.LossHigh.In(units.Millilitre), 0, "mL"),
			practice.Of("wood_barrel_share", "against a barrel of 225 L", w.Barrels, 2, "of its surface"))
		s.Cautions = append(s.Cautions, "A small jar takes its wood in weeks, not years (common practice, no source).")
	}
	s.Lines = append(s.Lines, "Airlock until still and clear; haze may be pectin. Air spoils a half-full jar.")
	return s, nil
}

func (j *job) bottleStep() (*Step, error) {
	b, c := j.b, &j.c
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
	spread := units.Volume(twoSided * j.f.volume.Standard)
	low, high := max(0, c.blend.Volume-loss-spread), c.blend.Volume-least+spread
	largest := slices.Max(b.Bottles)
	count := func(v units.Volume) int { return int(math.Floor(float64(v/largest) * (1 + 1e-9))) }
	surely, perhaps := count(low), count(high)
	if perhaps > 0 {
		f := mixed.Of("bottles", "bottles of "+b.Units.Volume(largest), float64(surely), 0, "")
		if perhaps > surely {
			f.Note = fmt.Sprintf("perhaps %d", perhaps)
		}
		s.Figures = append(s.Figures, f)
	}
	plan, _, err := blend.Bottles(low-units.Volume(surely)*largest, b.Bottles...)
	if err != nil {
		return nil, inField("bottles", err)
	}
	for _, n := range plan {
		f := mixed.Of("bottles_of_"+n.Size.Decimal(units.Millilitre, 0).String()+"_ml", "and of "+b.Units.Volume(n.Size), float64(n.Count), 0, "")
		if perhaps > surely {
			f.Note = fmt.Sprintf("where the large ones are %d", surely)
		}
		s.Figures = append(s.Figures, f)
	}
	s.Lines = append(s.Lines, "First rack it off what has settled.")
	if len(s.Figures) == 0 {
		s.Lines = append(s.Lines, "It does not fill one bottle of these.")
	}
	if l, _ := j.plan.Liquid("reachable"); l.Verdict.Outlook != stability.Still {
		s.Title = "No bottle yet"
		s.Lines = append(s.Lines, stability.BurstWarning)
	}
	return s, nil
}
