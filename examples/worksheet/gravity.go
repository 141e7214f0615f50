package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/abv/label"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

var correcting = figure.Method{Method: "density at the reading's temperature, glass expansion", Source: density.SourceSucrose + "; ISO 1768"}

// gravityAsked is what "gravity" was asked.
type gravityAsked struct {
	form       sheet.Form
	given      map[string]bool
	at, made   units.Temperature
	strength   units.Strength
	yeastLimit units.Strength
	fruit      string
	rest       abv.NotSugar
}

// readGravity corrects a reading and shows it on every scale; it also takes the
// sugar of a juice label.
func readGravity(set *flag.FlagSet, args []string, out io.Writer) error {
	a := gravityAsked{at: units.Celsius(20), made: units.Celsius(20)}
	set.Var(&a.at, "at", `temperature of the sample, such as "26 C"`)
	set.Var(&a.made, "hydrometer", "temperature the hydrometer is made for")
	set.Var(&a.strength, "strength", `strength of the liquid, if it has fermented or spirit is in it: "6 % vol"`)
	set.Var(&a.yeastLimit, "yeast-limit", "strength at which this yeast is said to give up")
	set.StringVar(&a.fruit, "fruit", "", "what of the extract is not sugar: juice, skins or a fruit such as \"morello cherry\"")
	rest, is, err := parseSheet(&a.form, set, args)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("%w: gravity READING, such as 1.057, 1057, \"17 P\", \"70 Oe\", \"9.5 Be\", \"150 g/L\" or \"26 g per 240 mL\"; found %d", errUsage, len(rest))
	}
	a.given = is
	if a.rest, err = abv.NotSugarOf(strings.ToLower(a.fruit)); err != nil {
		return misread("fruit", err)
	}
	if is["strength"] {
		if err := alone(is, "strength", "yeast-limit"); err != nil {
			return err
		}
	}
	s := sheet.Sheet{Title: "Gravity"}
	if err := a.fill(&s, rest[0]); err != nil {
		return a.form.System.Error(err)
	}
	return a.form.Print(s, out)
}

// alone refuses flags beside one that leaves them nothing to do.
func alone(is map[string]bool, name string, others ...string) error {
	for _, o := range others {
		if is[o] {
			return fmt.Errorf("%w: -%s does nothing beside -%s", errUsage, o, name)
		}
	}
	return nil
}

func (a *gravityAsked) fill(s *sheet.Sheet, text string) error {
	g, err := gravity.Parse(text)
	if err != nil {
		c, notSugar := units.ParseConcentration(text)
		switch {
		case notSugar == nil:
			return a.ofLabel(s, text, c)
		case strings.Contains(text, " per ") || strings.Contains(text, " in "):
			return notSugar
		}
		return err
	}
	h := gravity.NewHydrometer(a.made)
	if _, err := h.CorrectIn(a.strength, g, a.at); a.given["strength"] && err != nil {
		return fmt.Errorf("-strength: %w", err)
	}
	if _, err := h.Correct(g, a.at); !a.given["strength"] && err != nil {
		return err
	}
	shown := uncertainty.ToleranceInput("reading", float64(g), uncertainty.ToleranceHydrometer)
	warm := uncertainty.ToleranceInput("temperature", a.at.Celsius(), uncertainty.ToleranceThermometer)
	r, err := h.CorrectWithin(shown, warm)
	if a.given["strength"] {
		r, err = h.CorrectInWithin(uncertainty.Input{Name: "strength", Value: float64(a.strength)}, shown, warm)
	}
	if err != nil {
		return err
	}
	is := gravity.SG(r.Value)
	all := is.Figures()
	first := correcting.Result("gravity", "specific gravity 20/20 C", r, 4, "SG")
	s.Answer = []string{at20(&a.form) + " it would read " + said(&a.form, first) + "."}
	s.Add("gravity", at20(&a.form), append([]units.Figure{first}, a.scales(all)...),
		fmt.Sprintf("Assumed: %s; %s. Degas a fermenting sample first.", uncertainty.ToleranceHydrometer.Name, uncertainty.ToleranceThermometer.Name))
	if !h.Compared(a.at) {
		s.Findings = append(s.Findings, batch.Finding{Key: "temperature_not_compared", Severity: batch.Warn,
			Text: "At " + a.form.System.Temperature(a.at) + " no published table was found to compare the correction with: the uncertainty leaves that out. Bring the sample nearer to " + a.form.System.Temperature(units.Celsius(20)) + "."})
	}
	if a.given["strength"] {
		return a.wine(s, is)
	}
	return a.must(s, is, is, is)
}

// scales are the gravity on the other scales.
func (a *gravityAsked) scales(all []units.Figure) []units.Figure {
	out := pick(all, "density", "plato", "oechsle", "baume", "baume_144_3", "gravity_points")
	for i := range out {
		switch out[i].Key {
		case "oechsle":
			out[i].Unit = "Oe"
		case "baume", "baume_144_3":
			out[i].Unit = "Be"
		}
		out[i].Formula = ""
	}
	if !a.given["strength"] {
		out = append(out, pickAs(all, "extract_of_solution", "extract", "extract, as sugar")...)
	}
	return out
}

func pickAs(figures []units.Figure, key, newKey, name string) []units.Figure {
	var out []units.Figure
	for _, g := range pick(figures, key) {
		out = append(out, as(g, newKey, name))
	}
	return out
}

// wine is what a gravity means in a liquid of known strength.
func (a *gravityAsked) wine(s *sheet.Sheet, g gravity.SG) error {
	c, err := abv.RealExtract(a.strength, g)
	if err != nil {
		return err
	}
	sugars, err := a.rest.Sugars(c.Extract, 1)
	if err != nil {
		return err
	}
	extract := as(one(c.Figures(), "extract"), "extract", "extract")
	likely, err := label.ConventionEU.Potential(sugars.Likely)
	if err != nil {
		return err
	}
	potential := figure.Method{Method: "sugar over the grams that count as 1 % vol", Source: label.ConventionEU.Source}.
		Of("potential", "alcohol that its sugar could still make", float64(likely), 1, "% vol")
	s.Add("wine", "In a liquid of "+said(&a.form, one(c.Figures(), "strength")), append([]units.Figure{extract}, append(sugarFigures(extract, a.rest, sugars), potential)...),
		notSugarSaid(a.rest)+" Where spirit was poured, less is to be taken off, and there is more sugar.")
	return nil
}

// sugarFigures are the sugar of a liquid between its ends.
func sugarFigures(extract units.Figure, n abv.NotSugar, s abv.Sugars) []units.Figure {
	method := "extract less what of it is not sugar, 5 and 95 % points"
	out := []units.Figure{likeIt(extract, "sugar_low", "sugar, at least", float64(s.Low)), likeIt(extract, "sugar_high", "sugar, at most", float64(s.High))}
	for i := range out {
		out[i].Method, out[i].Source = method, n.Source
	}
	return out
}

func notSugarSaid(n abv.NotSugar) string {
	of := n.Name
	if of == "" {
		of = "a wine of which nothing is stated"
	}
	return fmt.Sprintf("Not all extract is sugar: %s to %s g/L are taken off for %s (-fruit).", units.Round(float64(n.Low), 0), units.Round(float64(n.High), 0), of)
}

// must is what a must of this gravity could become.
func (a *gravityAsked) must(s *sheet.Sheet, low, likely, high gravity.SG) error {
	if low < 1 {
		if a.given["yeast-limit"] {
			return fmt.Errorf("%w: -yeast-limit goes with a must; a reading below 1 has fermented: give its -strength", errUsage)
		}
		s.Steps[0].Lines = append(s.Steps[0].Lines, `Below 1 it has fermented, or spirit is in it: -strength "6 % vol" says what it then holds.`)
		return nil
	}
	ends := []abv.End{{NotSugar: a.rest, Limit: a.yeastLimit}}
	least, _, _, err := abv.PotentialRange(low, abv.Must, ends...)
	if err != nil {
		return err
	}
	_, mid, _, err := abv.PotentialRange(likely, abv.Must, ends...)
	if err != nil {
		return err
	}
	_, _, most, err := abv.PotentialRange(high, abv.Must, ends...)
	if err != nil {
		return err
	}
	is := as(one(mid.Figures(), "strength"), "potential", "left alone it would reach")
	title := "If this is must"
	if a.given["yeast-limit"] {
		is.Note = "the yeast's limit at the most"
	}
	s.Add("must", title, []units.Figure{is, likeIt(is, "potential_low", "at least", float64(least.Strength)), likeIt(is, "potential_high", "at most", float64(most.Strength))}, notSugarSaid(a.rest))
	return nil
}

// ofLabel is a juice by the sugar that its label states, or by a measured one.
func (a *gravityAsked) ofLabel(s *sheet.Sheet, text string, c units.Concentration) error {
	for _, name := range []string{"at", "hydrometer", "strength"} {
		if a.given[name] {
			return fmt.Errorf("%w: -%s goes with a hydrometer's reading, not with %q", errUsage, name, text)
		}
	}
	low, likely, high, err := a.rest.Must(c)
	if err != nil {
		return err
	}
	all := likely.Figures()
	labelled := figure.Method{Method: "density of the sugar and of what else is dissolved, as sucrose", Source: density.SourceSucrose + "; " + a.rest.Source}
	first, sugar := labelled.Of("gravity", "specific gravity 20/20 C", float64(likely), 4, "SG"), figure.Stated.Of("sugar_stated", "sugar, as stated", float64(c), 1, "g/L")
	s.Answer = []string{fmt.Sprintf("A juice with %s of sugar should read about %s, from %s to %s.", said(&a.form, sugar), said(&a.form, first),
		said(&a.form, likeIt(first, "", "", float64(low))), said(&a.form, likeIt(first, "", "", float64(high))))}
	if fruit, least, poorer := a.rest.Poorer(c); poorer {
		slip := fmt.Sprintf("%s of sugar is little for a juice: %s, the poorest here, has %s. A slip of the unit?", say.Concentration(c), fruit, say.Concentration(least))
		s.Answer = append([]string{slip}, s.Answer...)
		s.Findings = append(s.Findings, batch.Finding{Key: "little_sugar", Severity: batch.Warn, Text: slip})
	}
	s.Add("gravity", at20(&a.form), append([]units.Figure{first, likeIt(first, "gravity_low", "at least", float64(low)), likeIt(first, "gravity_high", "at most", float64(high)), sugar}, a.scales(all)...),
		"A label is rounded and leaves out sugar made of acids and the like: read a hydrometer in it.")
	return a.must(s, low, likely, high)
}
