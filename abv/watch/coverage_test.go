package watch_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
)

// start is when all test logs begin.
var start = time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC)

func after(hours float64) time.Time { return start.Add(time.Duration(hours * float64(time.Hour))) }

// A tally counts where the time that came lies to the intervals.
type tally struct {
	held, early, late int
	off               []float64 // of the likely time, of the time since the start, in %
}

func (s *tally) n() int { return s.held + s.early + s.late }

// add counts a forecast, made so that nothing but its horizon limits it, against
// the hour that came; infinite where the gravity was never reached.
func (s *tally) add(f watch.Forecast, came float64) {
	hours := func(at time.Time) float64 {
		if at.IsZero() {
			return math.Inf(1)
		}
		return at.Sub(start).Hours()
	}
	switch {
	case came < hours(f.Early):
		s.early++
	case came > hours(f.Late):
		s.late++
	default:
		s.held++
	}
	if likely := hours(f.Likely); !math.IsInf(likely, 0) && !math.IsInf(came, 0) {
		s.off = append(s.off, 100*math.Abs(likely-came)/came)
	}
}

func (s *tally) plus(others ...*tally) *tally {
	for _, o := range others {
		s.held, s.early, s.late, s.off = s.held+o.held, s.early+o.early, s.late+o.late, append(s.off, o.off...)
	}
	return s
}

func (s *tally) percent(k int) float64 { return 100 * float64(k) / float64(s.n()) }

// report logs a line of the accuracy report: how often the 80 % interval held, with
// the binomial uncertainty of that, and which side was missed.
func (s *tally) report(t *testing.T, name string) {
	t.Helper()
	p := s.percent(s.held)
	slices.Sort(s.off)
	t.Logf("rms | %s | %d | 80 %% interval holds %.1f ± %.1f %%, came earlier %.1f, later %.1f; the likely time is off by %.0f %% in the median",
		name, s.n(), p, 1.96*math.Sqrt(p*(100-p)/float64(s.n())), s.percent(s.early), s.percent(s.late), s.off[len(s.off)/2])
}

const farAhead = 100 * 24 * time.Hour

// forecast follows a log and says when the gravity comes; false where there is no
// forecast.
func forecast(t *testing.T, log []watch.Reading, level, uncertainty gravity.SG) (watch.Forecast, bool) {
	t.Helper()
	c, err := watch.Follow(log, watch.Setup{Horizon: farAhead, Uncertainty: uncertainty})
	if err != nil {
		t.Fatal(err)
	}
	f, err := c.Reaches(level)
	if err != nil {
		t.Fatal(err)
	}
	return f, c.Method != watch.NoForecast
}

var _ = fmt.Sprint
