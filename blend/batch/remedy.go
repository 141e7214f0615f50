package batch

import (
	"fmt"
	"math"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// remedies says of every liquid that is not still what would make it so, or how
// to keep it.
func (j *job) remedies() error {
	for i := range j.plan.Liquids {
		l := &j.plan.Liquids[i]
		if l.Verdict.Outlook == stability.Still {
			continue
		}
		remedy, err := j.remedy(l)
		if err != nil {
			return err
		}
		l.Remedy = remedy
	}
	return nil
}

func (j *job) keepIt() string {
	return fmt.Sprintf("keep it cold (below %s) under an airlock and drink it within two weeks (common practice, no source); do not bottle it", j.b.Units.Temperature(units.Celsius(5)))
}

func (j *job) remedy(l *Liquid) (string, error) {
	b := j.b
	if sharper := j.judgedSharper(l); sharper {
		return fmt.Sprintf("measured exactly, %s would do: %s", say.Strength(l.Strength), j.weakest()), nil
	}
	if l.Key == "planned" && j.wanted != nil {
		return fmt.Sprintf("pour the amount that makes %s instead; otherwise %s", say.Strength(b.Target.Value), j.keepIt()), nil
	}
	spirit := j.c.spirit
	if !b.SpiritStrength.Known {
		spirit = shopSpirit
	}
	more, made, ok := j.spiritToStill(l, spirit)
	if !ok && spirit.Strength < shopSpirit.Strength {
		spirit = shopSpirit
		more, made, ok = j.spiritToStill(l, spirit)
	}
	if !ok {
		return j.otherwise(l)
	}
	word := ""
	if (l.Key == "planned" || l.Key == "reachable") && j.c.spirit.Volume > 0 {
		word = " more"
	}
	room := ""
	if l.Key != "kept" && j.d.fits > 0 && l.Volume+more > j.d.fits {
		room = " (the jar has no room for it)"
	}
	if left, err := j.stockLeft(); err != nil {
		return "", err
	} else if spirit.Name == j.c.spirit.Name {
		room += j.beyondLeft(more, left)
	}
	return fmt.Sprintf("%s%s of %s make it %s, at which it should stay still%s; otherwise %s", b.Units.Volume(more), word, spirit.Name, say.Strength(made), room, j.keepIt()), nil
}

// stockLeft is the spirit at 20 C that is left of a stated stock, without end where
// none is stated.
func (j *job) stockLeft() (units.Volume, error) {
	if !j.b.SpiritStock.Known() {
		return units.Volume(math.Inf(1)), nil
	}
	stock, err := j.b.stock(j.c.spirit)
	return max(0, stock-j.c.spirit.Volume), err
}

// beyondLeft says how much is left of something, where more of it is asked for.
func (j *job) beyondLeft(more, left units.Volume) string {
	switch {
	case float64(more) <= float64(left)*(1+1e-6):
		return ""
	case left < units.Millilitre: // below what a jug shows
		return " (none of it is left)"
	}
	return fmt.Sprintf(" (%s of it is left)", j.b.Units.Volume(left))
}

// otherwise is what would do where no spirit does: a change of the wine itself,
// judged again, or none.
func (j *job) otherwise(l *Liquid) (string, error) {
	so2, sorbate := j.dosed(l, 1)
	all, err := stability.Remedies(j.wine(l, Stated[units.Temperature]{}, so2, sorbate))
	if err != nil {
		return "", err
	}
	var texts []string
	for _, c := range all {
		if c.Key != "strength" { // which counts no dilution: spiritToStill does
			texts = append(texts, c.Text)
		}
	}
	if len(texts) == 0 {
		return "none: " + j.keepIt(), nil
	}
	return strings.Join(texts[:min(2, len(texts))], ", or ") + "; otherwise " + j.keepIt(), nil
}

// shopSpirit is what a remedy goes by where the spirit of the batch is not known
// or does not do.
var shopSpirit = blend.Component{Name: "spirit of 40 % vol", Strength: 40}

// judgedSharper says whether the liquid would be still if its strength were
// measured exactly.
func (j *job) judgedSharper(l *Liquid) bool {
	sharp := *l
	sharp.StrengthUncertainty = 0
	so2, sorbate := j.dosed(l, 1)
	v, err := stability.Judge(j.wine(&sharp, Stated[units.Temperature]{}, so2, sorbate))
	return err == nil && v.Outlook == stability.Still
}

// dosed is the SO2 and sorbic acid of a liquid of which so much is left in a
// litre.
func (j *job) dosed(l *Liquid, left float64) (additions.SO2, units.Concentration) {
	share := 1.0
	switch l.Key {
	case "planned":
		share = float64(j.c.unsweet / j.c.planned.Volume)
	case "fortified":
		share = float64(j.wanted.unsweet / j.wanted.blend.Volume)
	case "reachable":
		share = float64(j.c.unsweet / j.c.blend.Volume)
	}
	so2, sorbate := j.b.so2(), j.b.Sorbate.Value
	if l.Key == "kept" {
		so2.Added, sorbate = j.b.KeptSulfite.Or(so2.Added), j.b.KeptSorbate.Or(sorbate)
	}
	return so2.Times(share * left), sorbate * units.Concentration(share*left)
}

// spiritToStill is the least spirit at 20 C that makes a liquid still, found by
// judging again, and the strength it makes.
func (j *job) spiritToStill(l *Liquid, spirit blend.Component) (units.Volume, units.Strength, bool) {
	there := blend.Component{Name: l.Key, Volume: l.Volume, Strength: l.Strength, Extract: l.Extract}
	still := func(v units.Volume) (units.Strength, bool) {
		s := spirit
		s.Volume = v
		m, err := blend.Mix(there, s)
		if err != nil {
			return 0, false
		}
		left := float64(l.Volume / m.Volume)
		more := *l
		more.Strength, more.Extract, more.Sugar = m.Strength, m.Extract, l.Sugar.Times(left)
		so2, sorbate := j.dosed(l, left)
		verdict, err := stability.Judge(j.wine(&more, Stated[units.Temperature]{}, so2, sorbate))
		return m.Strength, err == nil && verdict.Outlook == stability.Still
	}
	lo, hi := units.Volume(0), 20*l.Volume
	if _, ok := still(hi); !ok {
		return 0, 0, false
	}
	for range 50 {
		mid := (lo + hi) / 2
		if _, ok := still(mid); ok {
			hi = mid
		} else {
			lo = mid
		}
	}
	made, ok := still(hi)
	return hi, made, ok
}

// weakest is what to measure better first.
func (j *job) weakest() string {
	r := j.f.strength.Ranked()
	for _, k := range j.f.knows {
		if len(r) > 0 && k.name == r[0].Name {
			return fmt.Sprintf("the %s; %s", k.name, k.better)
		}
	}
	return "measure it"
}
