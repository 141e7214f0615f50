package watch_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// wayward is the log of a must that goes its own way: it lags, runs at a speed that
// changes at every reading, stands still, is cooled, is read by one instrument or
// another, slips, and is asked about later.
func wayward(r *rand.Rand) ([]watch.Reading, watch.Setup) {
	og := between(r, 1.05, 1.14)
	at, left, day := 15+12*r.Float64(), 1.0, 0.0
	log := []watch.Reading{{Time: start, Reading: gravity.SG(og), Temperature: units.Celsius(20), Mass: 30000}}
	for range 1 + r.IntN(12) {
		step := between(r, 0.1, 2)
		day += step
		switch r.IntN(6) {
		case 0: // stands
		case 1:
			at = between(r, 2, 30)
		default:
			left *= math.Exp(-step * between(r, 0, 0.6))
		}
		g := 0.995 + (og-0.995)*left
		l := watch.Reading{Time: after(24 * day), Reading: gravity.SG(g + 0.0007*r.NormFloat64()), Temperature: units.Celsius(at)}
		switch r.IntN(15) {
		case 0:
			l.Reading += gravity.SG(between(r, -0.03, 0.03))
		case 1:
			l.Temperature = 0
		case 2:
			l.Reading, l.Mass = 0, units.Mass(30000-2000*(1-left))
		case 3:
			l.Brix = true
		}
		log = append(log, l)
	}
	setup := watch.Setup{Must: 20, Goal: abv.Goal{MinStrength: units.Strength(between(r, 2, 7))}}
	setup.Goal.MaxStrength = setup.Goal.MinStrength + units.Strength(between(r, 0.3, 2))
	some := func(days float64) time.Time { return after(24 * between(r, 0, days)) }
	if r.IntN(2) == 0 {
		setup.Now = after(24*day + 24*between(r, -1, 6))
	}
	if r.IntN(4) == 0 {
		setup.Arrested = some(day + 3)
	}
	if r.IntN(4) == 0 {
		setup.Original, log = gravity.SG(og), log[1:]
		if r.IntN(2) == 0 {
			setup.Started = some(1)
		}
	}
	if r.IntN(3) == 0 {
		setup.Cooling = time.Duration(between(r, 1, 48) * float64(time.Hour))
	}
	return log, setup
}

// What is said holds together, whatever the log.
func TestWhatIsSaidHoldsTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(18, 2))
	logs := 600
	if testing.Short() {
		logs = 60
	}
	followed := 0
	for i := range logs {
		log, setup := wayward(r)
		c, err := watch.Follow(log, setup)
		if err != nil {
			continue // a log by weight without its start, a time before the log
		}
		followed++
		holds(t, log, c)
		now := c.Asked.Add(time.Duration(between(r, 0, 200) * float64(time.Hour)))
		if r.IntN(2) == 0 {
			now = c.Asked
		}
		if wrong := together(c, now); wrong != "" {
			t.Fatalf("log %d, asked %v: %s\n%s\n%q", i, now, wrong, c.Why, c.Answer(now, nil))
		}
	}
	if followed < logs*8/10 {
		t.Errorf("%d of %d logs were followed", followed, logs)
	}
}

// together is what does not hold together in the answer at a time.
func together(c watch.Course, now time.Time) string {
	last, w := c.Begins, c.Window
	if n := len(c.Points); n > 0 {
		last = c.Points[n-1].Time
		if c.Points[n-1].Gravity > w.From.Gravity && (before(w.Opens.Early, last) || before(w.Closes.Early, last) || before(w.ComeBack.Early, last)) {
			return "the window ahead opens before the last reading"
		}
	}
	for i := 1; i < len(c.Path); i++ {
		if c.Path[i].Likely.Gravity > c.Path[i-1].Likely.Gravity+1e-12 {
			return "the likely gravity rises"
		}
	}
	state := watch.WindowAhead
	switch g := c.Now.Likely.Gravity; {
	case g < w.To.Gravity:
		state = watch.WindowPassed
	case g <= w.From.Gravity:
		state = watch.WindowOpen
	}
	answer := c.Answer(now, nil)
	all := "\n" + strings.Join(answer, "\n")
	late := c.Overdue(now) >= time.Hour
	falls := c.State == watch.Fermenting || c.State == watch.Slowing
	says := func(text string) bool { return strings.Contains(all, text) }
	switch {
	case w.State != state:
		return "the state of the window is not that of the likely wine"
	case c.Method != watch.NoForecast && !c.Now.Time.Equal(c.Asked):
		return "the wine is not that of the time of asking"
	case strings.Contains(all, "%!") || strings.Contains(all, "NaN") || slices.Contains(answer, ""):
		return "words are missing"
	case says("Read again by") && (late || !c.ReadAgainBy.After(last)):
		return "read again by a time that is past"
	case late != says("late: read now"):
		return "late, and not said to be"
	case says("\nStop it now") && (!falls || late || w.State != watch.WindowOpen || c.Asked.After(last)):
		return "stop it now, for no reason"
	case before(w.ComeBack.Late, now) && says("Come back "):
		return "come back at a time that is past"
	case c.State == watch.Stopped && !says("do not seal") && !hasSeal(c):
		return "stopped, and nobody is told not to seal it"
	}
	for _, f := range []watch.Forecast{w.Opens, w.Closes} {
		if before(f.Early, now) && !strings.Contains(f.Text(now, nil), "passed") {
			return "a time that is past is not said to be"
		}
	}
	return ""
}

func hasSeal(c watch.Course) bool {
	return slices.ContainsFunc(c.Findings, func(f watch.Finding) bool { return f.Key == "do_not_seal" })
}

// before says whether a time that there is lies before another, by more than the
// second that times are rounded to.
func before(t, other time.Time) bool {
	return !t.IsZero() && t.Before(other.Add(-time.Second))
}
