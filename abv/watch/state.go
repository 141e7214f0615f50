package watch

import (
	"fmt"
	"math"
)

// State is what the readings show of a fermentation.
type State int

// The states. The last four hold still; the last three are not said before that
// has lasted Setup.Still.
const (
	NotYetKnown State = iota // the readings cannot tell
	NotBegun                 // no fall yet
	Fermenting               // falls
	Slowing                  // at less than half of its greatest rate
	Chilled                  // holds, but in the cold: it may go on when it warms
	Stuck                    // holds, though sugar is left that the yeast could ferment
	Finished                 // holds, with no sugar left or at the limit of the yeast
	Stopped                  // was arrested, and has held since at fermentation temperature
)

var (
	stateCodes = []string{"not_yet_known", "not_begun", "fermenting", "slowing", "chilled", "stuck", "finished", "stopped"}
	stateWords = []string{"not yet known", "not begun", "fermenting", "slowing", "chilled", "stuck", "finished", "stopped"}
)

// String is the state in words.
func (s State) String() string { return word(int(s), stateWords) }

// MarshalText is the code of the state: "not_begun".
func (s State) MarshalText() ([]byte, error) { return encode("state", int(s), stateCodes) }

// UnmarshalText reads what MarshalText wrote.
func (s *State) UnmarshalText(text []byte) error { return decode("state", s, text, stateCodes) }

// Method is what a forecast rests on.
type Method int

// The methods, see Follow.
const (
	NoForecast Method = iota
	ByOne             // one reading
	ByTwo             // two
	ByLogistic        // three or more
	ByGompertz        // three or more
	ByLongTail        // three or more
)

var (
	methodCodes = []string{"none", "one_reading", "two_readings", "logistic", "gompertz", "long_tail"}
	methodWords = []string{"no forecast", "one reading and the range of known courses", "two readings and the range of known courses",
		"fitted logistic course", "fitted Gompertz course", "fitted course with a long tail"}
)

// String is the method in words.
func (m Method) String() string { return word(int(m), methodWords) }

// MarshalText is the code of the method: "logistic".
func (m Method) MarshalText() ([]byte, error) { return encode("method", int(m), methodCodes) }

// UnmarshalText reads what MarshalText wrote.
func (m *Method) UnmarshalText(text []byte) error { return decode("method", m, text, methodCodes) }

const (
	// dry is the extract up to which a wine that holds is finished: about 20 g/L of
	// a wine is not sugar, up to 30 of a fruit wine, and the readings leave 5
	// uncertain (common practice, no source).
	dry = 35.0
	// shy: within this of its yeast's limit, in % vol, a wine counts as having reached it:
	// the strength is not known better.
	shy = 0.5
	// limitKnown: a yeast's limit that was stated is known to so much, in % vol, as the
	// verdict on stability takes it (common practice, no source).
	limitKnown = 1.0
)

// judge finds state, rate and method.
func (f *follower) judge() {
	n, last := len(f.reads), f.last()
	if n == 1 {
		f.Why = "not yet known: there is the must alone"
		return
	}
	arrested := f.arrested()
	f.hold = f.findHold(arrested)
	f.Cold = f.hold.cold
	long := !f.hold.cold && last.time.Sub(f.reads[f.hold.warm].time) >= f.setup.Still
	needs := f.needs()
	if long {
		f.hold.from = f.hold.warm
	}
	if f.held() > 0 {
		f.Since = f.reads[f.hold.from].time
	}
	tells := f.held() >= needs
	f.State, f.Why = f.verdict(arrested, long && tells)
	if long && !tells && (f.State == Slowing || f.State == NotYetKnown) {
		f.Why = fmt.Sprintf("%v: no fall in %s, but it fell so slowly before that only %s show whether it has ended; ", f.State, hours(f.held()), lasts(needs))
	}
	wine := f.must.at(last.used)
	f.Why += fmt.Sprintf("%.1f %% vol with %.0f g/L of extract left", float64(wine.Strength), float64(wine.Extract))
	f.findRate()
	if f.State != Fermenting && f.State != Slowing {
		return
	}
	if arrested {
		f.Why += "; it goes on although it was arrested"
	}
	if f.hold.cold {
		f.Why += "; it has been cooled, so that its past does not say how it goes on"
		return
	}
	switch {
	case len(f.ensemble.curves) == 0:
	case n-1-f.began == 1 && f.reads[0].index < 0 && f.setup.Started.IsZero():
		f.Why += "; one reading does not say when it began: state that, or read again"
	case n-1-f.began == 1:
		f.Method = ByOne
	case n-1-f.began == 2:
		f.Method = ByTwo
	default:
		f.Method = f.ensemble.likely
	}
}

// arrested says whether it was stopped by the time of asking. Where that is not
// stated it was: nobody notes a thing that has not happened.
func (f *follower) arrested() bool {
	at := f.setup.Arrested
	return !at.IsZero() && (f.setup.Now.IsZero() || !at.After(f.setup.Now))
}

// verdict is the state with its reason; long says that the gravity has held for
// Setup.Still, not in the cold, and so long that it says something.
func (f *follower) verdict(arrested, long bool) (State, string) {
	n, last, h := len(f.reads), f.last(), f.hold
	still, wine := "no fall in "+hours(f.held()), f.must.at(last.used)
	limit := fmt.Sprintf("%.4g %% vol", float64(f.setup.YeastLimit))
	switch {
	case arrested && last.time.Before(f.setup.Arrested):
		return NotYetKnown, "not yet known whether it has stopped: no reading since it was arrested; "
	case arrested && long && h.shown >= f.setup.Still:
		return Stopped, "stopped: " + still + " since it was arrested, at fermentation temperature; "
	case arrested && !h.cold && f.wentOn():
		return Slowing, "slowing; "
	case f.held() > 0 && h.cold:
		return Chilled, "chilled: " + still + ", but in the cold, where a hold shows nothing: it may go on when it warms; "
	case arrested && (f.held() > 0 || f.reads[n-2].time.Before(f.setup.Arrested)):
		return NotYetKnown, fmt.Sprintf("not yet known whether it has stopped: %s since it was arrested; two equal readings %s apart, at fermentation temperature and with that noted, will show it; ",
			still, hours(f.setup.Still))
	case !long && f.held() > 0 && h.warm > h.from:
		return Chilled, "chilled: " + still + ", part of it in the cold, where a hold shows nothing; "
	case long && f.began < n-1 && float64(wine.Extract) <= dry:
		return Finished, "finished: " + still + ", and dry; "
	case long && wine.Strength >= f.setup.YeastLimit-shy:
		return Finished, "finished: " + still + ", at the yeast's limit of " + limit + "; "
	case long && f.began == n-1:
		return Stuck, "stuck: it has not begun, " + still + " since the start; "
	case long && h.shown == 0:
		return Stuck, "stuck: " + still + ", though the yeast ferments up to " + limit + " (temperature not noted: if it is cold there, it may be no more than that); "
	case long:
		return Stuck, "stuck: " + still + ", though the yeast ferments up to " + limit + "; "
	case f.began == n-1:
		return NotBegun, "not begun: " + still + " since the start; "
	case f.overdue():
		return Slowing, "slowing: " + still + ", too short to say that it has ended; "
	case f.tires():
		return Slowing, "slowing, at less than half of its greatest rate; "
	}
	return Fermenting, "fermenting; "
}

// tires says whether the mean course at the last reading has less than half of its
// rate at one before, from three readings on.
func (f *follower) tires() bool {
	n := len(f.sights)
	if len(f.reads)-1-f.began < 3 || len(f.ensemble.curves) == 0 {
		return false
	}
	now := f.ensemble.mean(slope(f.sights[n-1].day))
	for _, s := range f.sights[:n-1] {
		if now < f.ensemble.mean(slope(s.day))/2 {
			return true
		}
	}
	return false
}

// slope is the rate of a curve on a day, from the day behind it.
func slope(day float64) func(*curve) float64 {
	const step = 1e-4
	return func(c *curve) float64 { return (c.fitted(day) - c.fitted(day-step*day)) / (step * day) }
}

// findRate sets the rate at the last reading.
func (f *follower) findRate() {
	n, last := len(f.reads), f.last()
	points := 1000 * f.must.steepness(last.used) // per share
	falls := (f.State == Fermenting || f.State == Slowing) && !f.overdue()
	if falls && !f.Cold && n-1-f.began > 2 && len(f.ensemble.curves) > 0 {
		at := slope(f.day(last.time))
		low, middle, high := f.ensemble.quantiles(func(c *curve) float64 { return at(c) / c.stretch })
		f.Rate, f.RateUncertainty = points*middle, points*(high-low)/(2*ninth) // as of a normal distribution
		return
	}
	hold := f.hold.from
	if falls || hold == n-1 {
		hold = n - 2
	}
	from, days := f.reads[hold], last.time.Sub(f.reads[hold].time).Hours()/24
	f.Rate = math.Max(0, 1000*float64(f.must.at(from.used).Gravity-f.must.at(last.used).Gravity)/days)
	f.RateUncertainty = points * math.Hypot(from.uncertainty, last.uncertainty) / days
	if hold == 0 {
		f.RateUncertainty = points * last.uncertainty / days // the must is the measure
	}
}
