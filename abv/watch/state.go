package watch

import (
	"fmt"
	"math"
	"time"
)

// FermentationState is what the readings show of a fermentation.
type State int

// The states. The last four hold still; the last three are not said before that
// has lasted plan.Still.
const (
	NotYetKnown State = iota // the readings cannot tell
	NotBegun                 // no fall yet
	Fermenting               // falls
	Slowing                  // at less than half of its greatest rate
	Chilled                  // holds, but in the cold: it may go on when it warms
	Stuck                    // holds, though sugar is left that the yeast could ferment
	Finished                 // holds, with no sugar left or at the strength the yeast bears
	Stopped                  // was arrested, and has held since at fermentation temperature
)

// String is the state in words.
func (s State) String() string {
	return word(int(s), "not yet known", "not begun", "fermenting", "slowing", "chilled", "stuck", "finished", "stopped")
}

// ForecastMethod is what a forecast rests on.
type Method int

// The methods, see Watch.
const (
	NoForecast Method = iota
	ByRate            // one reading
	ByLine            // two
	ByLogistic        // three or more
	ByGompertz        // three or more
)

// String is the method in words.
func (m Method) String() string {
	return word(int(m), "no forecast", "rate of one reading and a wide range", "straight line within the limits of likely courses",
		"fitted logistic course", "fitted Gompertz course")
}

func word(i int, words ...string) string {
	if i < 0 || i >= len(words) {
		return fmt.Sprintf("value %d", i)
	}
	return words[i]
}

const (
	// watchDry is the extract up to which a wine that holds is finished: about 20
	// g/L of a wine is not sugar, up to 30 of a fruit wine, and the readings leave
	// 5 in doubt (common practice, no source).
	dry = 35.0
	// watchShy is the distance to the yeast's limit at which it is taken as reached:
	// the strength found is no surer.
	shy = 0.5
)

// judge finds rate, state and method.
func (c *Course) judge(now time.Time) {
	n, last, plan := len(c.reads), c.last(), c.must.plan
	arrested := !plan.Arrested.IsZero() && !plan.Arrested.After(now)
	if n == 1 {
		c.Why = "not yet known: there is the must alone"
		return
	}
	h := c.hold(arrested)
	c.Still, c.Cold = last.time.Sub(c.reads[h.from].time), h.cold
	held := !h.cold && last.time.Sub(c.reads[h.warm].time) >= plan.Still
	if held {
		h.from = h.warm
		c.Still = last.time.Sub(c.reads[h.from].time)
	}
	c.findRate(h.from, held)
	wine := c.must.at(last.used)
	left := fmt.Sprintf("%.1f %% vol with %.0f g/L of extract left", float64(wine.Strength), float64(wine.Extract))
	still := fmt.Sprintf("no fall in %s", hours(c.Still))
	say := func(state State, format string, values ...any) {
		c.State, c.Why = state, fmt.Sprintf(format, values...)+left
	}
	switch {
	case arrested && last.time.Before(plan.Arrested):
		say(NotYetKnown, "not yet known whether it has stopped: no reading since it was arrested; ")
	case arrested && h.shown >= plan.Still:
		say(Stopped, "stopped: %s since it was arrested, at fermentation temperature; ", still)
	case c.Still > 0 && h.cold:
		say(Chilled, "chilled: %s, but in the cold, where a hold shows nothing: it may go on when it warms; ", still)
	case arrested && (c.Still > 0 || c.reads[n-2].time.Before(plan.Arrested)):
		say(NotYetKnown, "not yet known whether it has stopped: %s since it was arrested; two equal readings %s apart, at fermentation temperature and with that noted, will show it; ",
			still, hours(plan.Still))
	case !held && c.Still > 0 && h.warm > h.from:
		say(Chilled, "chilled: %s, part of it in the cold, where a hold shows nothing; ", still)
	case held && c.began < n-1 && float64(wine.Extract) <= dry:
		say(Finished, "finished: %s, and dry; ", still)
	case held && wine.Strength >= plan.YeastLimit-shy:
		say(Finished, "finished: %s, at the %.4g %% vol that the yeast bears; ", still, float64(plan.YeastLimit))
	case held && h.shown == 0:
		say(Stuck, "stuck: %s, though the yeast bears %.4g %% vol (temperature not noted: if it is cold there, it may be no more than that); ", still, float64(plan.YeastLimit))
	case held:
		say(Stuck, "stuck: %s, though the yeast bears %.4g %% vol; ", still, float64(plan.YeastLimit))
	case c.began == n-1:
		say(NotBegun, "not begun: %s since the start; ", still)
	case c.overdue(h.from):
		say(Slowing, "slowing: %s, too short to say that it has ended; ", still)
	case c.slow():
		say(Slowing, "slowing, at less than half of its greatest rate; ")
	default:
		say(Fermenting, "fermenting; ")
	}
	if c.State != Fermenting && c.State != Slowing {
		return
	}
	if arrested {
		c.Why += "; it goes on although it was arrested"
	}
	if h.cold {
		c.Why += "; it has been cooled, so that its past does not say how it goes on"
		return
	}
	if len(c.ensemble.curves) == 0 {
		return
	}
	switch n - 1 - c.began {
	case 1:
		c.Method = ByRate
	case 2:
		c.Method = ByLine
	default:
		c.Method = c.ensemble.likely
	}
}

// findRate sets the rate at the last reading.
func (c *Course) findRate(hold int, held bool) {
	n, last := len(c.reads), c.last()
	points := 1000 * c.must.steepness(last.used) // per share
	if !held && n-1-c.began > 2 && len(c.ensemble.curves) > 0 {
		slope := c.slope(c.day(last.time))
		low, middle, high := c.ensemble.quantiles(func(w *curve) float64 { return slope(w) / w.stretch })
		c.Rate, c.RateDoubt = points*middle, points*(high-low)/(2*1.2816) // as of a normal distribution
		return
	}
	if !held {
		hold = n - 2
	}
	from, days := c.reads[hold], last.time.Sub(c.reads[hold].time).Hours()/24
	c.Rate = 1000 * float64(c.must.at(from.used).Gravity-c.must.at(last.used).Gravity) / days
	c.RateDoubt = points * math.Hypot(from.doubt, last.doubt) / days
	if hold == 0 {
		c.RateDoubt = points * last.doubt / days // the must is the measure
	}
}

// slope is the rate of a curve on a day, from the day behind it.
func (c *Course) slope(day float64) func(*curve) float64 {
	const step = 1e-4
	return func(w *curve) float64 { return (w.fitted(day) - w.fitted(day-step*day)) / (step * day) }
}

// slow says whether the likely rate has come below half of its greatest.
func (c *Course) slow() bool {
	if n := len(c.reads) - 1 - c.began; n < 3 || len(c.ensemble.curves) == 0 {
		return false
	}
	greatest, now := 0.0, 0.0
	for _, r := range c.reads[c.began+1:] {
		now = c.ensemble.mean(c.slope(c.day(r.time)))
		greatest = max(greatest, now)
	}
	return now < greatest/2
}
