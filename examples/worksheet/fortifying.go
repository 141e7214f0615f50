package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// fortifying is what "fortify" was asked.
type fortifying struct {
	form    sheet.Form
	is      map[string]bool
	to      units.Strength
	extract units.Concentration
	vessel  blend.Vessel
	fruit   string
	rest    abv.NotSugar
	l       liquids
	wine    blend.Component
}

const fortifyExample = `fortify -to "20 % vol" WINE SPIRIT, for example "3 L at 6.1 % vol with 142 g/L" "at 75 % vol"`

// fortify is how much spirit brings a wine to a strength, or what each spirit
// would do.
func fortify(set *flag.FlagSet, args []string, out io.Writer) error {
	a := fortifying{form: sheet.Form{OnPaper: true}}
	set.Var(&a.to, "to", `strength wanted, such as "20 % vol"; without it a table of strengths`)
	set.Var(&a.extract, "extract", `extract wanted too, "100 g/L", from a third liquid such as "syrup: with 850 g/L"`)
	set.Var(&a.vessel.Size, "vessel", "size of the jar to the brim, which the blend must fit")
	set.Var(&a.vessel.Headspace, "headspace", "volume to leave free in the jar")
	set.StringVar(&a.fruit, "fruit", "", "what of the extract is not sugar: juice, skins or a fruit such as \"morello cherry\"")
	rest, is, err := parseSheet(&a.form, set, args)
	if err != nil {
		return err
	}
	a.is = is
	if a.l, err = readLiquids(rest, true); err != nil {
		return err
	}
	if err := a.understood(); err != nil {
		return err
	}
	if a.rest, err = abv.NotSugarOf(strings.ToLower(a.fruit)); err != nil {
		return misread("fruit", err)
	}
	if a.wine, err = a.sweetenedWine(); err != nil {
		return err
	}
	s := sheet.Sheet{Title: "Fortify"}
	switch {
	case !is["to"]:
		err = a.choices(&s)
	case is["extract"]:
		err = a.solved(&s)
	default:
		err = a.poured(&s)
	}
	if err != nil {
		return a.form.System.Error(err)
	}
	return a.form.Print(s, out)
}

// understood refuses what does not go together.
func (a *fortifying) understood() error {
	for _, p := range a.l.poured {
		if p.Fill > 0 {
			return fmt.Errorf("%w: fortify: \"fill 1 quart\" stands for itself: fortify -to \"20 %% vol\" \"fill 1 quart\" \"at 6.1 %% vol with 142 g/L\" \"at 40 %% vol\"", errUsage)
		}
	}
	fill := a.l.fill > 0
	n := len(a.l.poured)
	switch {
	case n < 2, a.is["to"] && !a.is["extract"] && n != 2, a.is["extract"] && n < 3:
		if a.is["extract"] {
			return fmt.Errorf("%w: fortify -extract takes three liquids or more: wine, spirit and something sweet", errUsage)
		}
		return fmt.Errorf("%w: %s", errUsage, fortifyExample)
	case a.l.poured[0].Volume == 0 && !fill:
		return fmt.Errorf("%w: fortify: how much wine? \"3 L at 6.1 %% vol with 142 g/L\", or \"fill 1 quart\"", errUsage)
	case fill && !a.is["to"]:
		return fmt.Errorf("%w: \"fill\" goes with -to", errUsage)
	case fill && a.is["vessel"]:
		return fmt.Errorf("%w: -vessel and \"fill\": expected one of them", errUsage)
	case a.is["headspace"] && !a.is["vessel"] && !fill:
		return fmt.Errorf("%w: -headspace goes with -vessel or \"fill 1 quart\"", errUsage)
	case a.is["extract"] && (a.is["vessel"] || len(a.l.notKnown()) > 0 || len(a.l.dry) > 0):
		return fmt.Errorf("%w: -extract goes with liquids whose extract is stated, without -vessel and dry sugar; \"fill 1 quart\" sets the size", errUsage)
	case a.is["fruit"] && len(a.l.notKnown()) > 0:
		return fmt.Errorf("%w: -fruit goes with a wine whose extract is stated", errUsage)
	case fill && len(a.l.dry) > 0:
		return fmt.Errorf("%w: dry sugar and \"fill\": sweeten the wine first (blend), then fortify", errUsage)
	case !a.is["to"] && a.form.Working:
		return fmt.Errorf("%w: -show working goes with -to", errUsage)
	case a.is["extract"] && a.form.Working:
		return fmt.Errorf("%w: -show working goes with two liquids; three have no hand rule", errUsage)
	}
	return goesWith(a.is, "extract", "to")
}

// sweetenedWine is the wine with the sugar that goes in before the spirit.
func (a *fortifying) sweetenedWine() (blend.Component, error) {
	w := a.l.poured[0].Component
	if len(a.l.dry) == 0 {
		return w, nil
	}
	m, err := blend.Mix(w)
	if err != nil {
		return w, err
	}
	if m, err = a.l.sweeten(m); err != nil {
		return w, err
	}
	return m.Component("sweetened " + w.Name), nil
}

// room is what the jar takes.
func (a *fortifying) room() (units.Volume, error) {
	v := a.vessel
	if a.l.fill > 0 {
		v.Size = a.l.fill
	}
	return v.Room()
}

// poured is one spirit on one wine.
func (a *fortifying) poured(s *sheet.Sheet) error {
	spirit := a.l.poured[1].Component
	var pour blend.Fortification
	var err error
	switch {
	case a.l.fill > 0:
		var room units.Volume
		if room, err = a.room(); err == nil {
			pour, err = blend.FortifyTo(room, a.wine, spirit, a.to)
		}
	case a.is["vessel"]:
		pour, err = blend.FortifyIn(a.vessel, a.wine, spirit, a.to)
	default:
		pour, err = blend.Fortify(a.wine, spirit, a.to)
	}
	if err != nil {
		return err
	}
	wine := a.wine
	if wine.Volume == 0 || a.l.fill > 0 {
		wine.Volume = pour.Base
	}
	square, err := blend.Alligation(wine, spirit, a.to)
	if err != nil {
		return err
	}
	if err := a.put(s, wine, spirit, pour); err != nil {
		return err
	}
	step := &s.Steps[0]
	step.Figures = append(step.Figures, byHand.Of("spirit_by_hand", spirit.Name+" by the hand rule", square.Spirit.InexactFloat64(), 4, "L"))
	if a.form.Working {
		s.Add("hand", "On paper", nil, paper(square.Working)...)
	}
	return nil
}

// put is the page of a pour: what to pour, what it makes, whether it stays still.
func (a *fortifying) put(s *sheet.Sheet, wine, spirit blend.Component, p blend.Fortification) error {
	m := p.Result
	notKnown := a.l.notKnown()
	poured := spirit
	poured.Volume = p.Spirit
	var figures []units.Figure
	for i, c := range []blend.Component{wine, poured} {
		g, err := pour(&a.form, []string{"base", "spirit"}[i], c, a.l.poured[i].ExtractNotKnown)
		if err != nil {
			return err
		}
		figures = append(figures, g)
	}
	for i, d := range a.l.dry {
		figures = append(figures, figure.Stated.Of(fmt.Sprintf("sweetener_%d", i+1), d.sweetener.Name+", into the wine first", float64(d.mass), 1, "g"))
	}
	figures = append(figures, as(one(p.Figures(), "spirit_share"), "spirit_share", "spirit as a share of the blend"))
	verb := fmt.Sprintf("Pour %s of %s on %s of %s", a.form.System.Volume(p.Spirit), spirit.Name, a.form.System.Volume(wine.Volume), wine.Name)
	s.Answer = []string{fmt.Sprintf("%s: it makes %s.", verb, makes(&a.form, m))}
	if len(notKnown) > 0 {
		s.Answer = []string{fmt.Sprintf("%s: it makes about %s; extract not stated.", verb, makesOf(&a.form, m)), unsaid(notKnown)}
	}
	s.Add("pour", "Pour, at 20 C", figures)
	result := mixed(m, len(notKnown) > 0)
	lines := []string{blend.WarmBlend}
	if len(notKnown) == 0 {
		result = append(result, as(one(m.Figures(), "gravity"), "blend_reading", "hydrometer, rested, at 20 C"))
		unsweet := wine.Volume
		if len(a.l.dry) > 0 { // the sugar brings nothing but sugar
			unsweet = a.l.poured[0].Volume
		}
		more, line, err := a.still(s, unsweet, m, wine, poured)
		if err != nil {
			return err
		}
		result, lines = append(result, more...), append(lines, line)
	}
	s.Add("blend", "The blend, at 20 C", result, append(lines, a.cautions(spirit.Strength)...)...)
	return nil
}

// cautions are those of pouring a spirit.
func (a *fortifying) cautions(s units.Strength) (lines []string) {
	for _, c := range law.At(law.Cautions(law.What{Spirit: s}), law.StepPour) {
		if c.Lead || a.form.Details {
			lines = append(lines, c.String())
		}
	}
	return lines
}

// still is the sugar of a blend and whether yeast leaves it alone, without sulfite
// and sorbate.
func (a *fortifying) still(s *sheet.Sheet, wine units.Volume, m blend.Mixture, poured ...blend.Component) ([]units.Figure, string, error) {
	sugars, v, err := a.judged(wine, m, poured...)
	if err != nil {
		return nil, "", err
	}
	figures := sugarFigures(one(m.Figures(), "extract"), a.rest, sugars)
	all, err := stability.DelleFigures(m.Strength, sugars.Low)
	if err != nil {
		return nil, "", err
	}
	figures = append(figures, likeIt(one(all, "delle_units"), "delle_units", "Delle units at the low ends", v.DelleUnits))
	text := map[stability.Outlook]string{stability.Still: "Yeast should leave it still", stability.Doubtful: "Yeast may ferment it again: doubtful", stability.Ferments: "Yeast can ferment it again"}[v.Outlook] +
		" (no sulfite, sorbate, pH or limit of the yeast counted; worksheet plan judges with them)."
	severity := batch.Note
	if v.Outlook != stability.Still {
		severity = batch.Warn
		text += " " + stability.BurstWarning
	}
	s.Findings = append(s.Findings, batch.Finding{Key: "outlook", Severity: severity, Text: text})
	return figures, notSugarSaid(a.rest), nil
}

// judged is the verdict on a blend, its strength as uncertain as what was poured.
func (a *fortifying) judged(wine units.Volume, m blend.Mixture, poured ...blend.Component) (abv.Sugars, stability.Verdict, error) {
	sugars, err := a.rest.Sugars(m.Extract, min(1, float64(wine/m.Volume)))
	if err != nil {
		return sugars, stability.Verdict{}, err
	}
	var tolerances []blend.Uncertainty
	for _, c := range poured {
		tolerances = append(tolerances, c.Tolerances())
	}
	u, err := blend.MixWithin(poured, tolerances)
	if err != nil {
		return sugars, stability.Verdict{}, err
	}
	v, err := stability.Judge(stability.Wine{Strength: m.Strength, StrengthUncertainty: units.Strength(u.Strength.Standard), Sugar: sugars, Extract: m.Extract})
	return sugars, v, err
}

// solved is a strength and an extract from three liquids or more.
func (a *fortifying) solved(s *sheet.Sheet) error {
	cs := a.l.components()
	wants := []blend.Want{blend.WantStrength(a.to), blend.WantExtract(a.extract)}
	total := units.Volume(0)
	if a.l.fill > 0 {
		var err error
		if total, err = a.room(); err != nil {
			return err
		}
	} else {
		wants = append(wants, blend.WantAll(0))
	}
	r, err := blend.Solve(total, cs, wants...)
	if err != nil {
		return err
	}
	var figures []units.Figure
	var parts []string
	for i := range cs {
		cs[i].Volume = r.Volumes[i]
		c := cs[i]
		g, err := pour(&a.form, fmt.Sprintf("poured_%d", i+1), c, false)
		if err != nil {
			return err
		}
		figures, parts = append(figures, g), append(parts, a.form.System.Volume(c.Volume)+" of "+c.Name)
	}
	m := r.Result
	s.Answer = []string{fmt.Sprintf("Pour %s: it makes %s.", strings.Join(parts, ", "), makes(&a.form, m))}
	s.Add("pour", "Pour, at 20 C", figures)
	more, line, err := a.still(s, r.Volumes[0], m, cs...)
	if err != nil {
		return err
	}
	result := append(mixed(m, false), as(one(m.Figures(), "gravity"), "blend_reading", "hydrometer, rested, at 20 C"))
	strongest := units.Strength(0)
	for _, c := range cs {
		strongest = max(strongest, c.Strength)
	}
	s.Add("blend", "The blend, at 20 C", append(result, more...), append([]string{blend.WarmBlend, line}, a.cautions(strongest)...)...)
	return nil
}

// choices is what each spirit at hand would take to each strength.
func (a *fortifying) choices(s *sheet.Sheet) error {
	base := a.wine
	s.Answer = []string{"What to pour on " + a.form.System.Volume(base.Volume) + " of " + base.Name + ", by the strength wanted:"}
	notKnown := a.l.notKnown()
	if len(notKnown) > 0 {
		s.Answer = append(s.Answer, unsaid(notKnown))
	}
	strongest := units.Strength(0)
	for i, p := range a.l.poured[1:] {
		strongest = max(strongest, p.Strength)
		var figures []units.Figure
		var lines []string
		for target := units.Strength(16); target <= 22; target++ {
			g, err := a.choice(base, p.Component, target, fmt.Sprintf("spirit_%d_to_%v", i+1, float64(target)), len(notKnown) > 0)
			if errors.Is(err, blend.ErrUnreachable) {
				lines = append(lines, say.Strength(target)+": "+err.Error()+".")
				continue
			}
			if err != nil {
				return err
			}
			figures = append(figures, g)
		}
		s.Add(fmt.Sprintf("choices_%d", i+1), p.Name+", "+say.Strength(p.Strength), figures, lines...)
	}
	last := &s.Steps[len(s.Steps)-1]
	last.Lines = append(last.Lines, a.cautions(strongest)...)
	return nil
}

// choice is one line of the table.
func (a *fortifying) choice(base, spirit blend.Component, target units.Strength, key string, notKnown bool) (units.Figure, error) {
	free := spirit
	free.Volume = 0
	p, err := blend.Fortify(base, free, target)
	if err != nil {
		return units.Figure{}, err
	}
	g := pouring.Of(key, "to "+say.Strength(target), float64(p.Spirit), 4, "L")
	var notes []string
	if !notKnown {
		free.Volume = p.Spirit
		_, v, err := a.judged(a.l.poured[0].Volume, p.Result, base, free)
		free.Volume = 0
		if err != nil {
			return g, err
		}
		notes = append(notes, map[stability.Outlook]string{stability.Still: "still", stability.Doubtful: "doubtful", stability.Ferments: "may ferment"}[v.Outlook])
	}
	if spirit.Volume > 0 && p.Spirit > spirit.Volume {
		notes = append(notes, "not enough at hand")
	}
	if a.is["vessel"] {
		if _, err := blend.FortifyIn(a.vessel, base, free, target); errors.Is(err, blend.ErrUnreachable) {
			notes = append(notes, "jar too small")
		} else if err != nil {
			return g, err
		}
	}
	g.Note = strings.Join(notes, "; ")
	return g, nil
}
