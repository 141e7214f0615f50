package law

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/mutage/internal/limits"
)

// String is the finding as a sentence or two, with the text they rest on.
func (f Finding) String() string {
	name := title(f.Parameter.String())
	if f.Parameter == SulfiteStatement {
		return f.statement()
	}
	switch {
	case f.Outcome == NoneInThisText:
		return fmt.Sprintf("%s: none in this text (%s).", name, f.text())
	case f.Status == NotKnown && f.Limit.Parameter == "":
		return fmt.Sprintf("%s: not known here.", name)
	case f.Status == NotKnown:
		return fmt.Sprintf("%s: not known here. The nearest is that of %s, %s; this wine has %s (%s).", name, f.Nearest, f.limits(), f.value(), f.text())
	case f.Outcome == NotStated:
		return fmt.Sprintf("%s is not stated; the limit is %s (%s).", name, f.limits(), f.text())
	}
	verb := map[Outcome]string{Kept: "keeps", MayExceed: "may not keep", Exceeded: "does not keep"}[f.Outcome]
	return fmt.Sprintf("%s of %s %s the limit, %s (%s).", name, f.value(), verb, f.limits(), f.text())
}

func (f Finding) statement() string {
	switch f.Outcome {
	case NoneInThisText:
		return fmt.Sprintf("Sulfite statement: none in this text for this wine (%s).", f.text())
	case NotKnownHere:
		return "Sulfite statement: not known here."
	}
	begin := map[Outcome]string{
		Due:       "The label must state sulfites",
		MayBeDue:  "The label may have to state sulfites",
		DueIfSold: "For sale, the label would have to state sulfites",
		NotDue:    "No sulfite statement is due",
	}[f.Outcome]
	return fmt.Sprintf("%s: SO2 of %s, and it is due from %s (%s).", begin, f.value(), f.limits(), f.text())
}

// value is the level, with the range it lies in where that is wider.
func (f Finding) value() string {
	s := f.shown(f.Value)
	if f.Low < f.Value || f.Value < f.High {
		s += " (" + f.shown(f.Low) + " to " + f.shown(f.High) + ")"
	}
	return strings.TrimSpace(s + " " + f.Limit.Unit)
}

// shown is a level to three digits, or with as many more as keep it on its side
// of the limit.
func (f Finding) shown(x float64) string {
	for digits := 3; digits < 9; digits++ {
		s := strconv.FormatFloat(x, 'g', digits, 64)
		if rounded, err := strconv.ParseFloat(s, 64); err == nil && limits.Compare(rounded, f.Limit.Value) == limits.Compare(x, f.Limit.Value) {
			return strconv.FormatFloat(rounded, 'f', -1, 64)
		}
	}
	return number(x)
}

// limits are the row that decides and its alternatives.
func (f Finding) limits() string {
	s := f.Limit.String()
	if f.Limit.Alternative == "" {
		return s
	}
	s = f.Limit.Parameter.String() + " " + s
	for _, o := range f.Others {
		if o.Alternative == f.Limit.Alternative {
			s += " or " + o.Parameter.String() + " " + o.String()
		}
	}
	return s
}

func (f Finding) text() string { return f.Limit.Citation() }

func title(s string) string {
	if s == "" || strings.HasPrefix(s, "pH") {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
