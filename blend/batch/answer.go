package batch

import (
	"fmt"
	"math"

	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/internal/say"
)

// answer is what to do, the gravest first.
func (j *job) answer() []string {
	b, c := j.b, &j.c
	u := b.Units
	first := true // to speak of a pressure
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
		out = append(out, fmt.Sprintf("Pour no spirit: the %s has %s.", c.base.Name, say.Strength(c.base.Strength)))
	case spirit.Volume <= 0:
		out = append(out, fmt.Sprintf("There is %s of %s, of %s.", u.Volume(c.base.Volume), c.base.Name, say.Strength(c.base.Strength)))
	default:
		sweet := ""
		if c.sweetenG > 0 {
			s, _ := sugar.ParseSweetener(b.Sweetener)
			sweet = fmt.Sprintf(" with %s of %s in it", u.Mass(c.sweetenG), called(s))
		}
		out = append(out, fmt.Sprintf("%s %s of %s on %s of %s%s: it makes %s.", verb, u.Volume(spirit.Measured), c.spirit.Name,
			u.Volume(wine.Measured), c.base.Name, sweet, say.Strength(c.blend.Strength)))
	}
	if l, ok := j.plan.Liquid("kept"); ok {
		text := fmt.Sprintf("Keep %s of the %s without spirit, at %s", u.Volume(j.keeps), c.base.Name, say.Strength(l.Strength))
		if l.Verdict.Outlook != stability.Still {
			text += fmt.Sprintf(", which %s%s: cold, under an airlock, for two weeks at most", ferment(l.Verdict.Outlook), j.bursts(&l, &first))
		}
		out = append(out, text+".")
	}
	if p, ok := j.plan.Liquid("planned"); ok && j.d.limit == nil && math.Abs(float64(p.Strength-reachable.Strength)) > 0.05 {
		what := "at which yeast " + p.Verdict.Outlook.String()
		if p.Verdict.Outlook != stability.Still {
			what = "which " + ferment(p.Verdict.Outlook) + ": do not bottle that" + j.bursts(&p, &first)
		}
		out = append(out, fmt.Sprintf("The %s you planned makes %s, %s.", u.Volume(j.plan.pourOf("planned", "spirit").Measured), say.Strength(p.Strength), what))
	}
	sentence := fmt.Sprintf("At %s yeast %s.", say.Strength(reachable.Strength), reachable.Verdict.Outlook)
	if reachable.Verdict.Outlook != stability.Still {
		sentence = fmt.Sprintf("At %s %s it: do not bottle it%s.", say.Strength(reachable.Strength), ferment(reachable.Verdict.Outlook), j.bursts(&reachable, &first))
	}
	if reachable.Verdict.Bacteria != stability.BacteriaHeld {
		sentence += map[bool]string{true: " Bacteria can still spoil it.", false: " Bacteria can spoil it."}[reachable.Verdict.Outlook == stability.Still]
	}
	return append(out, sentence)
}
