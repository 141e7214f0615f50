// Package sheet prints what a command found: as a sheet for the cellar (the answer
// first, 80 columns, digits that instruments can show), as JSON or as CSV. It
// places figures and words; it makes none.
package sheet

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/blend/batch"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// A Sheet is what a command found. Its JSON is that of a plan without liquids and
// pours.
type Sheet struct {
	Schema   int             `json:"schema"` // 1
	Title    string          `json:"title"`
	Answer   []string        `json:"answer"`
	Steps    []batch.Step    `json:"steps"`
	Findings []batch.Finding `json:"findings"`
}

// Add puts a step down.
func (s *Sheet) Add(key, title string, figures []units.Figure, lines ...string) {
	s.Steps = append(s.Steps, batch.Step{Key: key, Title: title, Figures: append([]units.Figure{}, figures...), Lines: append([]string{}, lines...)})
}

// Form is how a sheet is wanted.
type Form struct {
	JSON, CSV bool
	System    say.System
	Details   bool
	Working   bool // the hand check as lines for paper; only where OnPaper
	OnPaper   bool // the command has a hand check: set it before Flags
	places    int
	system    string
	show      string
}

// ErrUsage marks an error of the command line.
var ErrUsage = errors.New("usage")

// Flags registers the flags of the form.
func (f *Form) Flags(set *flag.FlagSet) {
	set.BoolVar(&f.JSON, "json", false, "print as JSON")
	set.BoolVar(&f.CSV, "csv", false, "print the figures as CSV")
	set.StringVar(&f.system, "units", "", "metric, us or imperial")
	shows := "details: every figure with its method, source and reasons"
	if f.OnPaper {
		shows = "working: the hand check as lines for paper; " + shows
	}
	set.StringVar(&f.show, "show", "", shows)
	set.IntVar(&f.places, "places", -1, "decimal places, 0 to 9; never fewer than the instrument shows")
}

// Check says whether the form can be; its error is of usage.
func (f *Form) Check() error {
	if f.system != "" {
		var err error
		if f.System, err = say.ParseSystem(f.system); err != nil {
			return fmt.Errorf("%w: -units %q: expected metric, us or imperial", ErrUsage, f.system)
		}
	}
	if f.places < -1 || f.places > 9 {
		return fmt.Errorf("%w: -places %d: expected 0 to 9", ErrUsage, f.places)
	}
	f.Details, f.Working = f.show == "details", f.OnPaper && f.show == "working"
	switch {
	case f.show != "" && !f.Details && !f.Working && f.OnPaper:
		return fmt.Errorf("%w: -show %q: expected working or details", ErrUsage, f.show)
	case f.show != "" && !f.Details && !f.Working:
		return fmt.Errorf("%w: -show %q: expected details", ErrUsage, f.show)
	case f.JSON && f.CSV:
		return fmt.Errorf("%w: -json and -csv: expected one of them", ErrUsage)
	case f.system != "" && f.CSV:
		return fmt.Errorf("%w: -units goes with the sheet and the sentences of -json; -csv names the unit of each figure", ErrUsage)
	case f.show != "" && (f.JSON || f.CSV):
		return fmt.Errorf("%w: -show goes with the sheet; -json and -csv hold all there is", ErrUsage)
	case f.places >= 0 && (f.JSON || f.CSV):
		return fmt.Errorf("%w: -places goes with the sheet; -json and -csv have the places that are meant", ErrUsage)
	}
	return nil
}

// SystemStated says whether -units was given.
func (f *Form) SystemStated() bool { return f.system != "" }

// Whole is the sheet as it stands in JSON: no list is null.
func (s Sheet) Whole() Sheet {
	s.Schema = 1
	if s.Steps == nil {
		s.Steps = []batch.Step{}
	}
	if s.Findings == nil {
		s.Findings = []batch.Finding{}
	}
	return s
}

// Print writes a sheet in the wanted form.
func (f *Form) Print(s Sheet, out io.Writer) error {
	s = s.Whole()
	switch {
	case f.JSON:
		return WriteJSON(s, out)
	case f.CSV:
		rows := make([]Row, 0, 40)
		for _, step := range s.Steps {
			for _, g := range step.Figures {
				rows = append(rows, Row{step.Key, g})
			}
		}
		return WriteCSV(rows, out)
	}
	_, err := io.WriteString(out, f.Text(s))
	return err
}

// WriteJSON writes v as indented JSON.
func WriteJSON(v any, out io.Writer) error {
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

// A Row is a figure and the step or the liquid that it belongs to.
type Row struct {
	Section string
	Figure  units.Figure
}

// WriteCSV writes figures as rows under a header.
func WriteCSV(rows []Row, out io.Writer) error {
	w := csv.NewWriter(out)
	_ = w.Write(append([]string{"section"}, units.FigureHeader()...))
	for _, r := range rows {
		_ = w.Write(append([]string{r.Section}, r.Figure.Cells()...))
	}
	w.Flush()
	return w.Error()
}

// Text is the sheet for the cellar.
func (f *Form) Text(s Sheet) string {
	var b strings.Builder
	var all []units.Figure
	for _, line := range s.Answer {
		Wrap(&b, line, "", "")
	}
	for _, step := range s.Steps {
		b.WriteString("\n")
		Heading(&b, f.at20(step.Title), step.Mind)
		f.Figures(&b, step.Figures)
		f.Lines(&b, step.Lines)
		if f.Details {
			f.Lines(&b, step.Cautions)
			all = append(all, step.Figures...)
		}
	}
	for _, n := range s.Findings {
		if !said(s.Answer, n.Text) {
			b.WriteString("\n")
			Wrap(&b, n.Text, "  ", "  ")
		}
	}
	if len(all) > 0 {
		b.WriteString("\n")
		Sources(&b, all)
	}
	return b.String()
}

func said(answer []string, text string) bool {
	for _, a := range answer {
		if a == text {
			return true
		}
	}
	return false
}
