package law

import (
	"math"
	"strings"
	"testing"

	"example.org/mutage/internal/limits"
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

// Two of total, free and combined SO2 bound the third: by every pair of values that
// they may have. Limits of 19 in 20 are 1.96 standard uncertainties.
func TestTheThirdOfSulfite(t *testing.T) {
	const u = 0.005 / 1.96 // g/L
	around := func(x float64) limits.Range { return limits.Range{Low: x - 0.005, High: x + 0.005} }
	near := func(a, b limits.Range) bool { return math.Abs(a.Low-b.Low) < 1e-9 && math.Abs(a.High-b.High) < 1e-9 }
	for name, c := range map[string]struct {
		levels                Levels
		total, free, combined limits.Range
	}{
		"free and combined":  {Levels{FreeSO2: 0.03, CombinedSO2: 0.1}, limits.Range{Low: 0.12, High: 0.14}, around(0.03), around(0.1)},
		"total and free":     {Levels{TotalSO2: 0.13, FreeSO2: 0.03}, around(0.13), around(0.03), limits.Range{Low: 0.09, High: 0.11}},
		"total and combined": {Levels{TotalSO2: 0.13, CombinedSO2: 0.1}, around(0.13), limits.Range{Low: 0.02, High: 0.04}, around(0.1)},
	} {
		p := Product{Levels: c.levels, Uncertainty: Levels{TotalSO2: u, FreeSO2: u, CombinedSO2: u}}
		total, free, combined, stated := p.sulfite()
		if !stated || !near(total, c.total) || !near(free, c.free) || !near(combined, c.combined) {
			t.Errorf("%s: total %v, free %v, combined %v; expected %v, %v, %v", name, total, free, combined, c.total, c.free, c.combined)
		}
	}
}
