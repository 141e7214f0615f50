package law

import (
	"maps"
	"slices"

	"example.org/mutage/additions"
	"example.org/mutage/internal/limits"
)

// An Outcome is a level held against the table: a stable code.
type Outcome string

// The outcomes of limits, then those of statements on the label, then those
// without a limit of the wine's own.
const (
	Kept      Outcome = "kept"
	MayExceed Outcome = "may_exceed" // the limit lies within the uncertainty
	Exceeded  Outcome = "exceeded"   // also: below a lower limit
	NotStated Outcome = "not_stated" // the figure that the limit speaks of is missing

	Due       Outcome = "due"
	MayBeDue  Outcome = "may_be_due"
	DueIfSold Outcome = "due_if_sold" // it is not for sale, and the rule is for what is sold
	NotDue    Outcome = "not_due"

	NoneInThisText Outcome = "none_in_text"
	NotKnownHere   Outcome = "not_known"
)

// A Severity is how much a finding matters: a stable code.
type Severity string

// The severities.
const (
	Stop Severity = "stop" // a limit that was read is exceeded
	Warn Severity = "warn"
	Note Severity = "note"
)

// A Finding is a parameter of the wine held against the rows for it.
type Finding struct {
	// Key is stable: "limit_so2_total".
	Key string
	// Parameter and Status are as in an Answer: with NotKnown, Limit and Outcome
	// are of the nearest category, and no limit of the wine's own.
	Parameter Parameter
	Status    Status
	Outcome   Outcome
	// Value lies between Low and High, in the unit of the limit; all zero where it
	// is not stated.
	Value, Low, High float64
	// Limit is the row that decides, Others the rest that apply: alternatives, and
	// rows whose sugar or colour the wine may have.
	Limit   Limit
	Others  []Limit
	Nearest Category
}

// Severity of the finding.
func (f Finding) Severity() Severity {
	switch f.Outcome {
	case Exceeded:
		if f.Status == Limited && !f.Limit.Superseded && f.Limit.Evidence != additions.FromMemory {
			return Stop
		}
		return Warn
	case MayExceed, Due, MayBeDue:
		return Warn
	}
	return Note
}

// A Report is what one jurisdiction says of a wine.
type Report struct {
	Jurisdiction string
	Category     Category
	Findings     []Finding // in the order of their keys
	Advice       string
}

// Having is the findings of these outcomes.
func (r Report) Having(outcomes ...Outcome) []Finding {
	var out []Finding
	for _, f := range r.Findings {
		if slices.Contains(outcomes, f.Outcome) {
			out = append(out, f)
		}
	}
	return out
}

const ownLaw = "Check your own law: these texts were read at the dates beside them, not all of them, and they change."

// Check holds a wine against the table: a finding for each level that it
// states, for the sulfite statement, and for the pH where there is a limit. A value whose uncertainty reaches across a limit (19 times in 20) may
// exceed it. Rows for special wines (listed sweet wines, sparkling wine) are
// left out. Errors: *units.ParseError for a jurisdiction, a category or a colour
// that is not known, *units.RangeError for a number. Sources and dates: in each
// Limit. It is no legal advice.
func Check(where string, p Product) (Report, error) {
	j, err := jurisdiction(where)
	if err == nil {
		err = p.check()
	}
	if err != nil {
		return Report{}, err
	}
	report := Report{Jurisdiction: j, Category: p.Category, Advice: ownLaw}
	for _, q := range p.asked(j) {
		if f, ok := p.finding(j, q); ok {
			report.Findings = append(report.Findings, f)
		}
	}
	return report, nil
}

// asked lists the parameters that the wine says something of, sorted.
func (p Product) asked(j string) []Parameter {
	list := slices.Collect(maps.Keys(p.Levels))
	for _, q := range []Parameter{TotalSO2, FreeSO2, CombinedSO2, SulfiteStatement, PHAfterAcid} {
		a, rows := find(j, p.Category, q)
		if q == SulfiteStatement {
			rows = p.rows(j, q, rows)
		} else if a.Status != Limited {
			continue
		}
		unit := ""
		if len(rows) > 0 {
			unit = rows[0].Unit
		}
		if _, stated := p.holds(q, unit); stated || q == SulfiteStatement && p.hasSulfite() {
			list = append(list, q)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (p Product) hasSulfite() bool {
	_, _, _, stated := p.sulfite()
	return stated
}

// rows are those of the parameter; wine that is made at home and not sold goes
// by the rows of home-made wine where there are any.
func (p Product) rows(j string, q Parameter, found []limits.Row) []limits.Row {
	if home := limits.Own(j, limits.HomeMade, string(q)); home != nil && !p.ForSale {
		return home
	}
	return found
}

// finding is the worst of the rows that apply; of alternatives the best counts.
// It is false for the second of two alternatives, which the first has told of.
func (p Product) finding(j string, q Parameter) (Finding, bool) {
	a, rows := find(j, p.Category, q)
	rows = p.rows(j, q, rows)
	f := Finding{Key: "limit_" + string(q), Parameter: q, Status: a.Status, Nearest: a.Nearest, Outcome: NotKnownHere}
	if len(rows) > 0 && rows[0].Comparison == limits.NoneInText {
		f.Status, f.Outcome, f.Limit = NoneStated, NoneInThisText, limitOf(rows[0])
		return f, true
	}
	sugar := limits.Range{Low: float64(p.SugarLow), High: float64(p.SugarHigh)}
	worst, decided := limits.Yes, false
	for _, r := range rows {
		applies := r.Applies(p.Colour, sugar, limits.Range{})
		if applies == limits.No {
			continue
		}
		answer, others, first := p.judge(j, r)
		if !first {
			return f, false
		}
		if answer == limits.No && applies == limits.Perhaps {
			answer = limits.Perhaps
		}
		switch {
		case !decided || answer > worst:
			if decided {
				others = append(others, f.Limit)
			}
			worst, decided = answer, true
			f.Limit, f.Others = limitOf(r), append(others, f.Others...)
		default:
			f.Others = append(f.Others, limitOf(r))
		}
	}
	if !decided {
		f.Status = NotKnown
		return f, true
	}
	p.conclude(&f, worst)
	return f, true
}

// judge holds the wine against a row, or against all its alternatives at once;
// first is false where the row is not the first of them.
func (p Product) judge(j string, r limits.Row) (answer limits.Answer, others []Limit, first bool) {
	at, _ := p.holds(Parameter(r.Parameter), r.Unit)
	answer = r.Judge(at)
	if r.Alternative == "" {
		return answer, nil, true
	}
	all := limits.Alternatives(j, r.Category, r.Alternative)
	sum := 0.0
	for _, other := range all {
		sum += other.Limit
		if other.Parameter == r.Parameter {
			continue
		}
		at, _ := p.holds(Parameter(other.Parameter), other.Unit)
		answer = min(answer, other.Judge(at))
		others = append(others, limitOf(other))
	}
	// Free and combined SO2 make up the total: where that is no more than both
	// limits together, one of the two is kept however it divides.
	if total, stated := p.holds(TotalSO2, r.Unit); stated && limits.AtMost.Judge(total, sum) == limits.Yes {
		answer = limits.Yes
	}
	return answer, others, all[0].Parameter == r.Parameter
}

// conclude turns the answer of the rows into the outcome.
func (p Product) conclude(f *Finding, answer limits.Answer) {
	at, _ := p.holds(f.Parameter, f.Limit.Unit)
	unknown := at.High == open && answer == limits.Perhaps
	f.Low, f.High = at.Low, at.High
	exact := p
	exact.Uncertainty, exact.PHUncertainty = nil, 0
	if at, _ = exact.holds(f.Parameter, f.Limit.Unit); at.High == open {
		at.High = at.Low
	}
	f.Value = (at.Low + at.High) / 2
	if f.High == open {
		f.High = f.Value // a lower end is all that is known
	}
	switch {
	case f.Parameter == SulfiteStatement:
		f.Outcome = map[limits.Answer]Outcome{limits.Yes: Due, limits.Perhaps: MayBeDue, limits.No: NotDue}[answer]
		if f.Outcome != NotDue && f.Limit.Scope == "sale" && !p.ForSale {
			f.Outcome = DueIfSold
		}
	case unknown:
		f.Outcome, f.Value, f.Low, f.High = NotStated, 0, 0, 0
	default:
		f.Outcome = map[limits.Answer]Outcome{limits.Yes: Kept, limits.Perhaps: MayExceed, limits.No: Exceeded}[answer]
	}
	if f.Status != NotKnown {
		return
	}
	switch f.Outcome { // of the nearest category: no more than a hint
	case Exceeded:
		f.Outcome = MayExceed
	case Kept, NotStated:
		f.Outcome = NotKnownHere
	}
}
