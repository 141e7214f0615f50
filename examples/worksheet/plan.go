package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/mutage/additions/stability"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/files"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/units"
)

func plan(set *flag.FlagSet, args []string, out io.Writer) error {
	var f sheet.Form
	f.Flags(set)
	file := set.String("batch", "", "batch `file` (JSON), - for standard input; without it the demonstration")
	template := set.Bool("template", false, "print the demonstration as a file to fill in; it says what each field is")
	list := set.Bool("fields", false, "list the fields of a batch file")
	printable := set.String("html", "", "write a `file` to print: one page with boxes to tick")
	var to units.Volume
	var by number
	set.Var(&to, "scale-to", "make this much of the blend instead, all amounts in proportion")
	set.Var(&by, "scale", "so many times the batch")
	rest, err := parse(set, args)
	if err != nil {
		return err
	}
	if err := f.Check(); err != nil {
		return err
	}
	given := map[string]bool{}
	set.Visit(func(f *flag.Flag) { given[f.Name] = true })
	switch {
	case len(rest) > 0:
		return fmt.Errorf("%w: plan takes no arguments, found %q; a file goes behind -batch", errUsage, rest[0])
	case given["scale"] && given["scale-to"]:
		return fmt.Errorf("%w: -scale and -scale-to: expected one of them", errUsage)
	case given["scale"] && by <= 0, given["scale-to"] && to <= 0:
		return fmt.Errorf("%w: a batch is scaled to more than nothing", errUsage)
	case (*template || *list) && len(given) > 1:
		return fmt.Errorf("%w: -template and -fields stand alone", errUsage)
	case *template:
		_, err := out.Write(batch.Template())
		return err
	case *list:
		_, err := io.WriteString(out, listed())
		return err
	}
	b, err := loadBatch(*file)
	if err != nil {
		return err
	}
	if f.SystemStated() {
		b.Units = f.System
	}
	f.System = b.Units
	p, err := scaled(b, float64(by), to)
	if err != nil {
		return err
	}
	if *printable != "" {
		if err := os.WriteFile(*printable, []byte(printed(p, &f, b)), 0o644); err != nil {
			return err
		}
	}
	switch {
	case f.JSON:
		return sheet.WriteJSON(p, out)
	case f.CSV:
		return sheet.WriteCSV(figuresOf(p), out)
	}
	_, err = io.WriteString(out, planText(p, &f, b))
	return err
}

// scaled works a batch through, as it is or at another size.
func scaled(b batch.Batch, by float64, to units.Volume) (batch.Plan, error) {
	if to > 0 {
		p, err := b.Work()
		if err != nil {
			return p, err
		}
		l, _ := p.Liquid("reachable")
		by = float64(to / l.Volume)
	}
	if by > 0 {
		var err error
		if b, err = b.Scale(by); err != nil {
			return batch.Plan{}, err
		}
	}
	return b.Work()
}

func loadBatch(path string) (batch.Batch, error) {
	if path == "" {
		return batch.Demo(), nil
	}
	text, err := files.Read(path)
	if err != nil {
		return batch.Batch{}, err
	}
	return batch.Read(text.Name, bytes.NewReader(text.Content))
}

// listed are the fields of a batch file.
func listed() string {
	var b strings.Builder
	group := ""
	for _, f := range batch.Fields() {
		if f.Group != group {
			group = f.Group
			fmt.Fprintf(&b, "\n%s\n", strings.ToUpper(group))
		}
		example := f.Example
		if !strings.HasPrefix(example, "[") {
			example = `"` + example + `"`
		}
		fmt.Fprintf(&b, "  %-20s %s\n", f.Name, example)
		sheet.Wrap(&b, f.Help, strings.Repeat(" ", 23), strings.Repeat(" ", 23))
	}
	return strings.TrimPrefix(b.String(), "\n")
}

// figuresOf are all figures of a plan, each with the liquid, pour or step it is of.
func figuresOf(p batch.Plan) []sheet.Row {
	var rows []sheet.Row
	add := func(section string, figures []units.Figure) {
		for _, g := range figures {
			rows = append(rows, sheet.Row{Section: section, Figure: g})
		}
	}
	for _, l := range p.Liquids {
		add(l.Key, l.Figures())
	}
	for _, q := range p.Pours {
		add(q.Key+" into "+q.Into, q.Figures())
	}
	for _, s := range p.Steps {
		add(s.Key, s.Figures)
	}
	return rows
}

// onlyDetails are the figures and steps that the usual page leaves out: they
// stand in another form beside them, or matter to who checks.
var onlyDetails = []string{"original_gravity", "must_volume", "racked_volume", "wood_barrel_share", "keep_measured", "alcohol_in_75_ml", "stop_strength", "wood_keeps_low", "wood_keeps_high", "spirit_to_be_sure", "vessel", "room_left"}

// planText is the page of a plan: the answer first, then the steps in order of
// time, then the verdict on what is poured.
func planText(p batch.Plan, f *sheet.Form, b batch.Batch) string {
	var out strings.Builder
	title := p.Title
	if title == "" {
		title = "Your batch"
	}
	sheet.Heading(&out, title, "volumes at "+b.Units.Temperature(b.Cellar()))
	for _, line := range p.Answer {
		sheet.Wrap(&out, line, "  ", "  ")
	}
	explained, n := false, 0
	for _, step := range p.Steps {
		if step.Key == "hand" && !f.Details {
			continue
		}
		if step.Key == "drink" {
			out.WriteString("\n")
			verdict(&out, p, f)
		}
		out.WriteString("\n")
		note := step.Mind
		if note == "" && !explained {
			note, explained = "± holds 19 times in 20", true
		}
		title := step.Title
		if step.Key != "drink" && step.Key != "hand" {
			n++
			title = fmt.Sprintf("%d %s", n, title)
		}
		if when := dates(step); when != "" {
			title += ", " + when
		}
		sheet.Heading(&out, title, note)
		f.Figures(&out, usual(step, f))
		f.Lines(&out, step.Lines)
		if f.Details {
			f.Lines(&out, step.Cautions)
			sheet.Sources(&out, step.Figures)
		}
	}
	for _, g := range p.Findings {
		if !slices.Contains(p.Answer, g.Text) && (f.Details || g.Severity == batch.Warn && !strings.HasSuffix(g.Key, "not_still")) {
			out.WriteString("\n")
			sheet.Wrap(&out, g.Text, "  ", "  ")
		}
	}
	if !f.Details {
		sheet.Wrap(&out, "More, with sources: -show details", "  ", "  ")
	}
	return out.String()
}

// usual is what of a step the page shows.
func usual(step batch.Step, f *sheet.Form) []units.Figure {
	if f.Details {
		return step.Figures
	}
	out := []units.Figure{}
	for _, g := range step.Figures {
		if !slices.Contains(onlyDetails, g.Key) {
			out = append(out, g)
		}
	}
	return out
}

func dates(s batch.Step) string {
	if s.From.IsZero() {
		return ""
	}
	const day = "2 Jan"
	if s.To.IsZero() || s.From.Equal(s.To) {
		return s.From.Format(day)
	}
	return s.From.Format(day) + " to " + s.To.Format(day)
}

// verdict is whether what is poured stays still, and why.
func verdict(out *strings.Builder, p batch.Plan, f *sheet.Form) {
	l, _ := p.Liquid("reachable")
	word := map[stability.Outlook]string{stability.Still: "it should", stability.Doubtful: "doubtful", stability.Ferments: "no"}[l.Verdict.Outlook]
	sheet.Heading(out, "Will yeast stay still? "+word, "judged at the low ends")
	for _, b := range l.Verdict.Barriers {
		if !f.Details && b.Hold != stability.Holds && b.Hold != stability.Weak {
			continue
		}
		from := "from"
		if strings.HasSuffix(b.Unit, "at most") {
			from = "up to"
		}
		text := map[stability.Hold]string{stability.Holds: "holds %s %s", stability.Weak: "weak: holds %s %s", stability.NotKnown: "not known; holds %s %s"}[b.Hold]
		if text == "" {
			text = b.Hold.String() + "; holds %s %s"
		}
		out.WriteString(strings.TrimRight(fmt.Sprintf("  %-22s%8s %-14s %s", b.Name, units.Round(b.Value, 1), b.Unit, fmt.Sprintf(text, from, units.Round(b.Needed, 1))), " ") + "\n")
		if f.Details {
			sheet.Wrap(out, b.Because+" ("+b.Source+").", "    ", "    ")
		}
	}
	sheet.Wrap(out, "Bacteria: "+l.Verdict.BacteriaBecause+".", "  ", "  ")
	sheet.Wrap(out, "Not looked at: "+strings.Join(l.Verdict.NotLookedAt, "; ")+".", "  ", "  ")
}
