package handbook

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A kind of comparison, as the report names it.
type kind string

const (
	printed kind = "printed"
	rounded kind = "rounded"
	differs kind = "differs"
)

// allowance says what a kind allows, for the message of a failure.
var allowance = map[kind]string{
	printed: "half the last printed digit",
	rounded: "the roundings of the source",
	differs: "another model",
}

// A Check gathers comparisons with one source and reports, when the test ends,
// for each kind the row that came nearest to its own tolerance.
type Check struct {
	t          testing.TB
	name, unit string
	results    map[kind]*result
	exceptions []exception
}

// An exception is a printed value that is not compared.
type exception struct {
	at, printed, reason string
	got, off            float64
}

// A result is what the comparisons of one kind came to. The deviation and the
// tolerance are those of one row, the one with the largest ratio of the two.
type result struct {
	rows                        int
	ratio, deviation, tolerance float64
	at                          string
	reasons                     []string
}

// Mixed is the unit of a Check whose values have several.
const Mixed = "mixed units"

// NewCheck starts a comparison with the named source.
func NewCheck(t testing.TB, name, unit string) *Check {
	c := &Check{t: t, name: name, unit: unit, results: map[kind]*result{}}
	t.Cleanup(c.report)
	return c
}

// HalfDigit is half the last printed digit of a number.
func HalfDigit(printed string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(printed), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	e, _ := strconv.Atoi(exponent)
	return 0.5 * math.Pow(10, float64(e-len(decimals)))
}

// Printed compares got with a printed number at half its last digit.
func (c *Check) Printed(got float64, text, at string) {
	c.t.Helper()
	want, err := strconv.ParseFloat(text, 64)
	if err != nil {
		c.t.Fatalf("%s, %s: %v", c.name, at, err)
	}
	c.compare(printed, got, want, HalfDigit(text), at)
}

// Rounded compares where the source states roundings on the way to its value:
// roundings is their sum, carried through to the value.
func (c *Check) Rounded(got, want, roundings float64, at string) {
	c.t.Helper()
	c.compare(rounded, got, want, roundings, at)
}

// Differs compares with a source that rests on another model. The bound comes
// from that model's documented error or the precision of the source, and why
// says so.
func (c *Check) Differs(got, want, bound float64, why, at string) {
	c.t.Helper()
	if why == "" {
		c.t.Errorf("%s, %s: a bound of %.3g without its reason", c.name, at, bound)
	}
	r := c.compare(differs, got, want, bound, at)
	if !slices.Contains(r.reasons, why) {
		r.reasons = append(r.reasons, why)
	}
}

func (c *Check) compare(k kind, got, want, tolerance float64, at string) *result {
	c.t.Helper()
	r := c.results[k]
	if r == nil {
		r = &result{ratio: -1}
		c.results[k] = r
	}
	r.rows++
	if !(tolerance > 0) || math.IsInf(tolerance, 0) {
		c.t.Errorf("%s, %s: a tolerance of %g compares nothing", c.name, at, tolerance)
		return r
	}
	d := got - want
	if ratio := math.Abs(d) / tolerance; !(ratio <= r.ratio) && !math.IsNaN(r.ratio) {
		r.ratio, r.deviation, r.tolerance, r.at = ratio, d, tolerance, at
	}
	if !agrees(got, want, tolerance) {
		c.t.Errorf("%s, %s: computed %.8g, printed %.8g, off by %.3g where %.3g is allowed (%s)",
			c.name, at, got, want, d, tolerance, allowance[k])
	}
	return r
}

// agrees leaves room for decimal fractions that float64 cannot hold.
func agrees(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*(1+1e-9)+1e-12*math.Abs(want)
}

// Except names a printed value that is not compared and says why, with the
// computed value beside it. A value that does agree is no exception: that fails
// the test, and so does an exception without a reason.
func (c *Check) Except(got float64, text, at, reason string) {
	c.t.Helper()
	want, err := strconv.ParseFloat(text, 64)
	if err == nil && agrees(got, want, HalfDigit(text)) {
		c.t.Errorf("%s, %s: excepted, but computed %.8g agrees with printed %s", c.name, at, got, text)
	}
	if reason == "" || math.IsNaN(got) || math.IsInf(got, 0) {
		c.t.Errorf("%s, %s: excepted with computed %g and the reason %q", c.name, at, got, reason)
	}
	e := exception{at: at, printed: text, reason: reason, got: got}
	if err == nil {
		e.off = math.Abs(got-want) / HalfDigit(text)
	}
	c.exceptions = append(c.exceptions, e)
}

// report logs a line for each kind and for each reason of exceptions;
// internal/tools reads them.
func (c *Check) report() {
	c.t.Helper()
	if len(c.results) == 0 {
		c.t.Errorf("%s: nothing was compared", c.name)
	}
	for _, k := range []kind{printed, rounded, differs} {
		if r := c.results[k]; r != nil {
			c.t.Logf("accuracy | %s | %s | %d | %+.4g | %.3g | %s | %s | %s",
				c.name, k, r.rows, r.deviation, r.tolerance, c.unit, r.at, strings.Join(r.reasons, "; "))
		}
	}
	for i, e := range c.exceptions {
		same, n := e, 1
		for j, other := range c.exceptions {
			switch {
			case j == i || other.reason != e.reason:
				continue
			case j < i:
				n = 0 // told already
			case n > 0:
				n++
				if other.off > same.off {
					same = other
				}
			}
		}
		at := same.at
		if n > 1 {
			at = fmt.Sprintf("%d rows, most %s", n, at)
		}
		if n > 0 {
			c.t.Logf("excepted | %s | %s: printed %s, computed %.6g (%s)", c.name, at, same.printed, same.got, same.reason)
		}
	}
}
