package limits

import "math"

// Comparison says how a value is held against a limit: a stable code.
type Comparison string

// The comparisons of the table. Those after OrMore hold no value against the
// limit.
const (
	AtMost        Comparison = "at_most"
	LessThan      Comparison = "less_than"
	AtLeast       Comparison = "at_least"
	MoreThan      Comparison = "more_than"
	OrMore        Comparison = "or_more"
	InStepsOf     Comparison = "in_steps_of"
	RoundedDownTo Comparison = "rounded_down_to"
	CountsAs      Comparison = "counts_as"
	NotAllowed    Comparison = "not_allowed"
	NeedsApproval Comparison = "needs_approval"
	NoneInText    Comparison = "none_in_text"
)

// An Answer says whether a value meets a comparison.
type Answer int8

// The answers in the order of how sure they are.
const (
	Yes     Answer = iota
	Perhaps        // the limit lies within the value's uncertainty
	No
)

// A Range holds a value: it lies between the two.
type Range struct{ Low, High float64 }

// coverage is the half-width that holds a value 19 times in 20, in standard
// uncertainties.
const coverage = 1.96

// Around is the range that holds a value of standard uncertainty u 19 times in
// 20, not below 0.
func Around(x, u float64) Range {
	return Range{max(0, x-coverage*u), x + coverage*u}
}

// slack is the relative difference below which two numbers are one: decimal
// fractions that float64 cannot hold, and sums in another order.
const slack = 1e-9

// Compare is -1, 0 or +1 as x is below, at or above the limit. It is the one
// comparison with a limit: what differs in the last bits alone is equal.
func Compare(x, limit float64) int {
	if x == limit || !math.IsInf(x-limit, 0) && math.Abs(x-limit) <= slack*max(math.Abs(x), math.Abs(limit)) {
		return 0
	}
	if x < limit {
		return -1
	}
	return 1
}

// meets tells whether one number meets the comparison.
func (c Comparison) meets(x, limit float64) bool {
	at := Compare(x, limit)
	switch c {
	case AtMost:
		return at <= 0
	case LessThan:
		return at < 0
	case MoreThan:
		return at > 0
	default: // AtLeast, OrMore
		return at >= 0
	}
}

// Compares tells whether the comparison holds a value against its limit.
func (c Comparison) Compares() bool {
	return c == AtMost || c == LessThan || c == AtLeast || c == MoreThan || c == OrMore
}

// Judge says whether a value that lies in x meets the comparison: Perhaps where
// only a part of x does.
func (c Comparison) Judge(x Range, limit float64) Answer {
	low, high := c.meets(x.Low, limit), c.meets(x.High, limit)
	switch {
	case low && high:
		return Yes
	case low || high:
		return Perhaps
	}
	return No
}

// Judge says whether a value in the row's unit meets the row.
func (r Row) Judge(x Range) Answer { return r.Comparison.Judge(x, r.Limit) }

// Applies says whether the row is for a wine of this colour (empty: not said),
// sugar in g/L and strength in % vol.
func (r Row) Applies(colour string, sugar, strength Range) Answer {
	from, to := AtLeast, LessThan
	if r.BorderIsLower {
		from, to = MoreThan, AtMost
	}
	answer := max(to.Judge(sugar, r.SugarTo), AtMost.Judge(strength, r.StrengthTo))
	if r.SugarFrom > 0 {
		answer = max(answer, from.Judge(sugar, r.SugarFrom))
	}
	if r.StrengthFrom > 0 {
		answer = max(answer, MoreThan.Judge(strength, r.StrengthFrom))
	}
	switch {
	case r.Colour == "" || r.Colour == colour:
	case colour == "":
		answer = max(answer, Perhaps)
	default:
		answer = No
	}
	return answer
}
