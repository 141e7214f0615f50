package mutants

import (
	"errors"
	"fmt"
	"strings"
)

// An Entry is a survivor that is accepted, with its reason.
type Entry struct{ File, Change, Text, Reason string }

// Entry is how a list of accepted survivors names the mutant.
func (m Mutant) Entry() Entry { return Entry{File: m.File, Change: m.Change, Text: m.Text} }

// any stands for every change of a line.
const any = "*"

// Accepted reads the list of accepted survivors: a line each, of file, change,
// source line and reason with tabs between them; the change "*" is every change
// of that line. Empty lines and those that begin with "#" are comments.
func Accepted(list string) ([]Entry, error) {
	var entries []Entry
	var faults error
	seen := map[Entry]bool{}
	n := 0
	for line := range strings.Lines(list) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		cells := strings.Split(line, "\t")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if len(cells) < 4 || cells[len(cells)-1] == "" {
			faults = errors.Join(faults, fmt.Errorf("accepted survivors, line %d: want file, change, source line, reason with tabs between: %q", n, line))
			continue
		}
		last := len(cells) - 1 // the source line may hold tabs
		e := Entry{File: cells[0], Change: cells[1], Text: strings.Join(cells[2:last], "\t")}
		if seen[e] {
			faults = errors.Join(faults, fmt.Errorf("accepted survivors, line %d: %s: %s: %s is listed twice", n, e.File, e.Change, e.Text))
		}
		seen[e] = true
		e.Reason = cells[last]
		entries = append(entries, e)
	}
	return entries, faults
}

// A List is what is accepted.
type List map[Entry]bool

// Has says whether a mutant may survive, and whether it was named by itself: only
// then is it wrong that a test kills it.
func (l List) Has(m Mutant) (accepted, alone bool) {
	e := m.Entry()
	alone = l[e]
	e.Change = any
	return alone || l[e], alone
}

// Match finds the accepted ones among all mutants, by file, change and text, so
// that lines may move. An entry that matches none is stale: the line was
// changed, and the reason has to be thought over.
func Match(all []Mutant, entries []Entry) (List, error) {
	exist := map[Entry]bool{}
	for _, m := range all {
		e := m.Entry()
		exist[e] = true
		e.Change = any
		exist[e] = true
	}
	accepted := List{}
	var faults error
	for _, e := range entries {
		reason := e.Reason
		e.Reason = ""
		if !exist[e] {
			faults = errors.Join(faults, fmt.Errorf("accepted survivors: stale, no such line: %s: %s: %s (%s)", e.File, e.Change, e.Text, reason))
		}
		accepted[e] = true
	}
	return accepted, faults
}
