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
	if err := planUnderstood(given(set), rest, by, to); err != nil {
		return err
	}
	switch {
	case *template:
		_, err := out.Write(batch.Template())
		return err
	case *list:
		_, err := io.WriteString(out, listed())
		return err
	}
	b, err := loadBatch(*file)
	if err != nil {
		return f.System.Error(err)
	}
	if f.SystemStated() {
		b.Units = f.System
	}
	f.System = b.Units
	p, err := scaled(b, float64(by), to)
	if err != nil {
		return f.System.Error(err)
	}
	if *printable != "" {
		text, err := printed(p, &f, b)
		if err != nil {
			return err
		}
		if err := os.WriteFile(*printable, []byte(text), 0o644); err != nil {
			return err
		}
	}
	return shown(p, &f, b, out)
}

// shown is a plan in the wanted form.
func shown(p batch.Plan, f *sheet.Form, b batch.Batch, out io.Writer) error {
	switch {
	case f.JSON:
		return sheet.WriteJSON(p, out)
	case f.CSV:
		return sheet.WriteCSV(figuresOf(p), out)
	}
	_, err := io.WriteString(out, planText(p, f, b))
	return err
}

// planUnderstood refuses what does not go together.
func planUnderstood(is map[string]bool, rest []string, by number, to units.Volume) error {
	switch {
	case len(rest) > 0:
		return fmt.Errorf("%w: plan takes no arguments, found %q; a file goes behind -batch", errUsage, rest[0])
	case is["scale"] && by <= 0, is["scale-to"] && to <= 0:
		return fmt.Errorf("%w: a batch is scaled to more than nothing", errUsage)
	case (is["template"] || is["fields"]) && len(is) > 1:
		return fmt.Errorf("%w: -template and -fields stand alone", errUsage)
	}
	return oneOf(is, "scale", "scale-to")
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

// beside are the figures that stand in words or in a note beside another; JSON and
// CSV have them all.
var beside = []string{"left_alone", "stop_strength", "spirit_to_be_sure", "room_left", "wood_keeps_low", "wood_keeps_high", "alcohol_in_75_ml",
	"spirit_by_hand", "spirit_by_balance"}

// onlyDetails are the figures and steps for who checks.
var onlyDetails = []string{"original_gravity", "must_volume", "vessel", "wood_barrel_share", "hand", "sure"}

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
	others(&out, p, f)
	var all []units.Figure
	explained, n := false, 0
	for _, step := range shownSteps(p, f) {
		if step.Key == "drink" {
			out.WriteString("\n")
			verdict(&out, p, f)
		}
		out.WriteString("\n")
		figures, note, lines := usual(step, f), step.Mind, slices.Clone(step.Lines)
		if !explained && slices.ContainsFunc(figures, limited) {
			explained = true
			if note == "" {
				note = meaning
			} else {
				lines = append(lines, meaning+".")
			}
		}
		title := step.Title
		if !slices.Contains([]string{"drink", "hand", "sure"}, step.Key) {
			n++
			title = fmt.Sprintf("%d %s", n, title)
		}
		sheet.Dated(&out, title, dates(step), note)
		f.Figures(&out, figures)
		if step.Key == "drink" && !f.Details {
			lines[len(lines)-1] += " More, with sources: -show details"
		}
		f.Lines(&out, lines)
		if f.Details {
			f.Lines(&out, step.Cautions)
		}
		all = append(all, step.Figures...)
	}
	if f.Details {
		out.WriteString("\n")
		sheet.Sources(&out, all)
	}
	return out.String()
}

// meaning stands where the first ± does.
const meaning = "± holds 19 times in 20"

// limited says whether ± stands behind a figure.
func limited(g units.Figure) bool { return g.Uncertainty.Valid || strings.Contains(g.Note, "±") }

// shownSteps are the steps that a page has: those with something to do.
func shownSteps(p batch.Plan, f *sheet.Form) []batch.Step {
	if f.Details {
		return p.Steps
	}
	var out []batch.Step
	for _, s := range p.Steps {
		sugared := slices.ContainsFunc(s.Figures, func(g units.Figure) bool { return g.Key == "sugar" })
		if slices.Contains(onlyDetails, s.Key) || s.Key == "sugar" && !sugared {
			continue
		}
		if n := len(out); n > 0 && together[s.Key] == out[n-1].Key && dates(s) == "" {
			out[n-1] = joined(out[n-1], s)
			continue
		}
		out = append(out, s)
	}
	return out
}

// together are steps that share a heading on a page without dates.
var together = map[string]string{"stop": "watch", "dose": "rack", "bottle": "rest"}

func joined(a, b batch.Step) batch.Step {
	a.Title += ", " + strings.ToLower(b.Title)
	a.Figures = slices.Concat(a.Figures, b.Figures)
	a.Lines = slices.Concat(a.Lines, b.Lines)
	switch {
	case a.Mind == "":
		a.Mind = b.Mind
	case b.Mind != "":
		a.Lines = append([]string{strings.ToUpper(b.Mind[:1]) + b.Mind[1:] + ". " + strings.Join(a.Lines[:min(1, len(a.Lines))], "")}, a.Lines[min(1, len(a.Lines)):]...)
	}
	return a
}

// usual is what of a step the page shows.
func usual(step batch.Step, f *sheet.Form) []units.Figure {
	return slices.DeleteFunc(slices.Clone(step.Figures), func(g units.Figure) bool {
		return slices.Contains(beside, g.Key) || strings.HasPrefix(g.Key, "log_") && !f.Details || !f.Details && slices.Contains(onlyDetails, g.Key)
	})
}

// dates are when a step is usually at hand.
func dates(s batch.Step) string {
	if s.From.IsZero() {
		return ""
	}
	const day = "2 Jan"
	if s.To.IsZero() || s.From.Equal(s.To) {
		return s.From.Format(day)
	}
	text := s.From.Format(day) + " to " + s.To.Format(day)
	if s.Usual {
		text = "usually " + text
	}
	return text
}

// others are the findings that no line of the answer and of the verdict says.
func others(out *strings.Builder, p batch.Plan, f *sheet.Form) {
	for _, g := range p.Findings {
		if !slices.Contains(p.Answer, g.Text) && (f.Details || g.Severity != batch.Note) && !strings.HasSuffix(g.Key, "not_still") {
			sheet.Wrap(out, g.Text, "  ", "  ")
		}
	}
}

// barrierNames are the rows of the verdict.
var barrierNames = map[string]string{"no_sugar": "sugar left, at most", "alcohol_and_sugar": "alcohol + sugar, Delle units", "sorbate_with_sulfite": "sorbate with sulfite",
	"sulfite": "sulfite alone", "cold": "cold, at most"}

var stillness = map[stability.Outlook]string{stability.Still: "it should", stability.Doubtful: "doubtful", stability.Ferments: "no"}

// verdict is whether what is poured stays still, and why: what holds, or else
// what is weak and what would do.
func verdict(out *strings.Builder, p batch.Plan, f *sheet.Form) {
	l, _ := p.Liquid("reachable")
	sheet.Heading(out, "Will yeast stay still? "+stillness[l.Verdict.Outlook], "judged at the low ends")
	for _, b := range told(l, f) {
		c := barrierCells(b)
		sheet.Line(out, c.Name, c.Value, c.Unit, c.Note)
		if f.Details {
			sheet.Wrap(out, b.Because+" ("+b.Source+").", "    ", "    ")
		}
	}
	f.Lines(out, verdictLines(l))
}

// told are the barriers that a page shows, the strongest first: those that hold,
// or where none does the weak ones.
func told(l batch.Liquid, f *sheet.Form) []stability.Barrier {
	barriers := slices.Clone(l.Verdict.Barriers)
	slices.SortStableFunc(barriers, func(a, b stability.Barrier) int { return int(b.Hold) - int(a.Hold) })
	return slices.DeleteFunc(barriers, func(b stability.Barrier) bool {
		return !f.Details && b.Hold != stability.Holds && (b.Hold != stability.Weak || l.Verdict.Outlook == stability.Still)
	})
}

func verdictLines(l batch.Liquid) []string {
	var out []string
	if l.Remedy != "" {
		out = append(out, "What would do: "+l.Remedy+".")
	}
	return append(out, "Bacteria: "+l.Verdict.BacteriaBecause+".", "Not looked at: "+strings.Join(l.Verdict.NotLookedAt, "; ")+".")
}

// barrierCells is a barrier in the columns of a page.
func barrierCells(b stability.Barrier) sheet.Cells {
	name, from := b.Name, "from "
	if row, ok := barrierNames[b.Key]; ok {
		name = row
	}
	unit, most := strings.CutSuffix(b.Unit, ", at most")
	if most {
		from = "up to "
	}
	unit, what, _ := strings.Cut(strings.TrimSuffix(unit, " SO2"), " ")
	switch {
	case unit == "%":
		unit, what = unit+" "+what, ""
	case unit != "mg/L" && unit != "g/L" && unit != "C": // pH, Delle units
		from, unit, what = unit+" "+from, "", ""
	}
	if b.Key == "alcohol_and_sugar" {
		from = "from "
	}
	places := int32(1)
	if b.Needed < 1 {
		places = 2
	}
	note := b.Hold.String() + "; to hold: "
	if b.Hold == stability.Holds {
		note = "holds "
	}
	value := units.Round(b.Value, places).StringFixed(places)
	if b.Hold == stability.NotKnown {
		value, unit = "-", ""
	}
	return sheet.Cells{Name: name, Value: value, Unit: unit, Note: strings.TrimSpace(note + from + units.Round(b.Needed, 1).String() + " " + what)}
}
