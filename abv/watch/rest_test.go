package watch_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
)

// What a forecast rests on counts the readings that have fallen, not those of a must at
// rest; and so does the rate, which is that between the last two up to two of them.
func TestAMustAtRestAddsNoReadings(t *testing.T) {
	for _, rest := range [][]float64{nil, {1.095}, {1.0951, 1.0948}} {
		fallen := []float64{1.089, 1.079, 1.069}
		for n := 1; n <= 3; n++ {
			log := daily(append(append([]float64{1.095}, rest...), fallen[:n]...)...)
			c, err := watch.Follow(log, watch.Setup{})
			want := []watch.Method{watch.ByOne, watch.ByTwo}
			if err != nil || n < 3 && c.Method != want[n-1] || n == 3 && c.Method < watch.ByLogistic {
				t.Errorf("%d at rest, %d fallen: %v, %v", len(rest), n, c.Method, err)
			}
			last := c.Points[len(c.Points)-1].Gravity
			before := c.Points[len(c.Points)-2].Gravity
			if by := 1000 * float64(before-last); (math.Abs(c.Rate-by) < 1e-9) != (n < 3) {
				t.Errorf("%d at rest, %d fallen: %v points a day, between the last two %v", len(rest), n, c.Rate, by)
			}
			if n == 2 && math.Abs(c.RateUncertainty-0.7*math.Sqrt2) > 0.1 { // of the difference, over a day
				t.Errorf("%d at rest: known to %v points a day", len(rest), c.RateUncertainty)
			}
		}
	}
	// From a stated gravity one reading that has fallen does not say when it began, however
	// many had not; the time of the start does.
	log := daily(1.0942, 1.085)
	for _, setup := range []watch.Setup{{Original: 1.095}, {Original: 1.095, Started: start.Add(-time.Hour)}} {
		c, err := watch.Follow(log, setup)
		stated := !setup.Started.IsZero()
		if err != nil || len(c.Points) != 2 || (c.Method == watch.ByOne) != stated || strings.Contains(c.Why, "when it began") == stated {
			t.Errorf("started %v: %v, %s, %v", setup.Started, c.Method, c.Why, err)
		}
	}
}

// Since when it holds is the first of the equal readings; nothing where the last is lower.
// The rate since then is the fall over the hold.
func TestSinceWhenItHolds(t *testing.T) {
	for _, c := range []struct {
		log   []watch.Reading
		since float64 // hours
		rate  float64
	}{
		{daily(1.095, 1.085, 1.075), -1, 10},
		{readings(0, 1.095, 24, 1.0948, 31, 1.094), 0, 1 * 24.0 / 31}, // not begun
		{daily(1.095, 1.085, 1.075, 1.0745), 48, -1},
		{daily(1.095, 1.085, 1.075, 1.0745, 1.0743, 1.0745), 48, 0.5 / 3},
	} {
		got, err := watch.Follow(c.log, watch.Setup{})
		if err != nil || got.Since.IsZero() != (c.since < 0) || c.since >= 0 && !got.Since.Equal(after(c.since)) || c.rate >= 0 && math.Abs(got.Rate-c.rate) > 0.02 {
			t.Errorf("%d readings: holds since %v, want after %v h; %v points a day, want %v; %v", len(c.log), got.Since, c.since, got.Rate, c.rate, err)
		}
	}
}

// A hold that is too short for how slowly it fell before is said to be; one that fell fast
// is what it is.
func TestAHoldBehindASlowFallIsSaidToTellNothing(t *testing.T) {
	const slowly = "fell so slowly before that only"
	slow := []float64{1.112, 1.100, 1.085, 1.073, 1.0715, 1.0709, 1.0703, 1.0697, 1.0691, 1.0691, 1.0691} // 0.6 points a day
	for name, c := range map[string]struct {
		log   []watch.Reading
		setup watch.Setup
		state watch.State
		said  bool
	}{
		"left alone, three days": {daily(slow[:11]...), watch.Setup{}, watch.Slowing, true},
		"arrested, three days":   {daily(slow[:11]...), watch.Setup{Arrested: after(7*24 - 1)}, watch.NotYetKnown, true},
		"left alone, a day":      {daily(slow[:9]...), watch.Setup{}, watch.Fermenting, false},
		"fast before, two days":  {daily(1.095, 1.085, 1.070, 1.070, 1.070), watch.Setup{}, watch.Stuck, false},
		"falls":                  {daily(slow[:8]...), watch.Setup{}, watch.Slowing, false},
	} {
		got, err := watch.Follow(c.log, c.setup)
		if err != nil || strings.Contains(got.Why, slowly) != c.said || c.said && (got.State != c.state || !strings.Contains(got.Why, "no fall in")) {
			t.Errorf("%s: %v: %s, %v", name, got.State, got.Why, err)
		}
	}
}
