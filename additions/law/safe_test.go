package law

import (
	"strings"
	"testing"
)

// Whatever ferments gives off carbon dioxide, must or not, and nothing else does.
func TestCarbonDioxideIsToldOfWhatFerments(t *testing.T) {
	for what, told := range map[What]bool{{Fermenting: true}: true, {Must: true}: false, {Must: true, Fermenting: true}: true, {Fortified: true}: false} {
		gas, closed := false, false
		for _, c := range Cautions(what) {
			gas = gas || strings.Contains(c.Text, "gives off carbon dioxide")
			closed = closed || strings.Contains(c.Text, "Never close a vessel tightly")
		}
		if gas != told || closed != told {
			t.Errorf("%+v: gas told %v, closed vessels %v", what, gas, closed)
		}
	}
}

// What is or may be due, or may exceed, is a warning; what is kept is a note.
func TestSeverityOfEveryOutcome(t *testing.T) {
	for outcome, want := range map[Outcome]Severity{MayExceed: Warn, Due: Warn, MayBeDue: Warn, Kept: Note, NotDue: Note, NotStated: Note, NoneInThisText: Note, NotKnownHere: Note} {
		if got := (Finding{Outcome: outcome}).Severity(); got != want {
			t.Errorf("%v: %v, expected %v", outcome, got, want)
		}
	}
}
