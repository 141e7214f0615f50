package watch_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
)

// watchStart is when all test logs begin.
var start = time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC)

func after(hours float64) time.Time {
	return start.Add(time.Duration(hours * float64(time.Hour)))
}

// watchScore is one forecast against what came.
type score struct {
	came     float64 // hours since the start until the gravity awaited
	forecast watch.Forecast
}

// hours since the start; a time beyond the horizon is infinite.
func (s score) hours(at time.Time) float64 {
	if at.IsZero() {
		return math.Inf(1)
	}
	return at.Sub(start).Hours()
}

// watchMost is the greatest share in % that the 80 % interval may hold. 70 is the
// least: a few dozen forecasts scatter by 6, and the spread of the model is a round
// number. What rests on one or two readings is meant to be wide.
const (
	most    = 92
	mostFew = 97
)

// watchReport logs error and coverage of forecasts, and fails where the interval
// holds less than 70 % or more than most.
func report(t *testing.T, name string, most float64, scores []score) {
	t.Helper()
	held := 0
	var hours, shares []float64
	for _, s := range scores {
		if s.came >= s.hours(s.forecast.Early) && s.came <= s.hours(s.forecast.Late) {
			held++
		}
		e := math.Abs(s.hours(s.forecast.Likely) - s.came)
		hours, shares = append(hours, e), append(shares, 100*e/s.came)
	}
	slices.Sort(hours)
	slices.Sort(shares)
	n := len(scores)
	at := func(x []float64, p float64) float64 { return x[int(p*float64(n-1)+0.5)] }
	coverage := 100 * float64(held) / float64(n)
	t.Logf("rms | %s | %d | 80 %% interval holds %.0f %%; error of the likely time: median %.0f h (%.0f %%), 90th percentile %.0f h (%.0f %%)",
		name, n, coverage, at(hours, 0.5), at(shares, 0.5), at(hours, 0.9), at(shares, 0.9))
	if coverage < 70 || coverage > most {
		t.Errorf("%s: the interval holds %.1f %%", name, coverage)
	}
}
