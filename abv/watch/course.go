package watch

import (
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Course is what the readings of a fermentation say: what is in the vessel,
// where it is going, and when to look again. It holds plain values and nothing
// else.
type Course struct {
	Original gravity.SG // of the must, true at 20 C
	Begins   time.Time  // of the must: the earliest reading, or Setup.Started
	Asked    time.Time  // the time that Now is of: Setup.Now, or the last reading
	Points   []Point    // the readings that were used, in order of time
	Apart    []SetApart // all others, in the order of the log

	// Now is the wine at the time of asking. At the last reading it is what was
	// read; where the gravity holds, or nothing is forecast, it stays so, with the time
	// of that reading.
	Now Outlook
	// Smoothed is the fitted course at the last reading: a detail, no state of the
	// wine. Zero where nothing was fitted.
	Smoothed gravity.SG

	// Rate is the fall of the true gravity at the last reading in points per day,
	// with its standard uncertainty: since the gravity holds; that of the fit
	// from three readings on (its model included); else since the reading before.
	// Zero with the must alone.
	Rate, RateUncertainty float64

	State  State     // at the last reading
	Why    string    // the state and what it rests on, in a sentence
	Cold   bool      // too cold, at the last reading, for a hold to mean anything
	Since  time.Time // since when the gravity has held; zero where it has not
	Method Method    // what the forecast rests on

	// Window is what the goal asks for; NoWindow without one.
	Window Window
	// ReadAgainBy is when the next reading is due: half-way to the early end of the
	// window's opening (when it is open, of its closing), or at that end where the
	// interval is short against the way to it, and within 48 h; a day after the
	// last where there is nothing to wait for, or sooner where it falls and nothing is
	// forecast; Setup.Still after it where the
	// gravity holds; at the last reading, which is at once, where the window had
	// passed by then or that reading was set apart. Zero where no reading is needed. It may lie before Asked: see
	// Overdue.
	ReadAgainBy time.Time
	// Horizon is the last time that At answers for: the last reading where there
	// is no forecast.
	Horizon time.Time

	// Path is the course to the horizon: smoothed up to the last reading, forecast
	// beyond it. No gravity of it ever rises. At and Reaches read it.
	Path []Outlook
	// Ends are the gravities at the horizon, from the one that 1 of 100 courses stay
	// above to the one that 99 do not come down to. Empty where nothing is forecast.
	Ends []gravity.SG

	// Findings are what to know and what to do: first an instrument that nobody named
	// and the readings set apart, then the gravest.
	Findings []Finding
}

// Point is a reading that was used.
type Point struct {
	Index   int        `json:"index"` // into the log
	Time    time.Time  `json:"time"`
	Gravity gravity.SG `json:"gravity"` // true at 20 C; from the mass balance where the hydrometer was not read
}

// Outlook is the wine at one time: the likely one, and the ends of the 80 %
// interval, the less and the more fermented.
type Outlook struct {
	Time   time.Time     `json:"time"`
	Less   abv.Fermented `json:"less"`
	Likely abv.Fermented `json:"likely"`
	More   abv.Fermented `json:"more"`
}

// Follow says how a fermentation goes from the log of its readings. It is a pure
// function: the time of asking is setup.Now.
//
// The log may be in any order; where two readings of the start contradict each other
// the row that stands first decides which is the must. Readings are corrected to 20 C for the strength
// the must has come to. Those that contradict the others are set apart and named:
// every reading is in Points or in Apart. The readings since the gravity began to
// fall choose among the sigmoid courses that published fermentations take: one or
// two leave them wide, three or more make a fit, logistic, Gompertz or with a long
// tail, whichever they favour (all have three parameters, so that this is the order
// of their information criteria too).
//
// The 80 % interval holds the uncertainty of the fit, of the readings and of the
// model. How often it held on fermentations that it was not fitted to stands in
// the accuracy report, by the number of readings. Nothing is forecast beyond the
// horizon, nor where the gravity holds or the must was cooled.
//
// Sugar or water added on the way needs a new log (see abv.MassBalancePortions). A
// gravity that holds is no proof that a sweet wine stays still: do not seal it on
// that.
//
// Domain: 1 to 5000 readings within five years; original gravity 1.01 to 1.3499;
// 0 to 40 C. Errors: *LogError (ErrLog) with all faults of the log;
// *units.RangeError for the setup; that or *abv.NoWindowError for a goal that the
// must does not meet.
func Follow(log []Reading, setup Setup) (Course, error) {
	setup, err := setup.settled()
	if err != nil {
		return Course{}, err
	}
	if at := setup.Started; !at.IsZero() && !setup.Now.IsZero() && setup.Original != 0 {
		if err := units.Check("time since the start", setup.Now.Sub(at).Hours()/24, 0, longest.Hours()/24, "days", ""); err != nil {
			return Course{}, err
		}
	}
	s, err := sift(log, setup)
	if err != nil {
		return Course{}, err
	}
	last := s.reads[len(s.reads)-1]
	asked := last.time
	if !setup.Now.IsZero() {
		asked = setup.Now
	}
	if err := units.Check("time since the last reading", asked.Sub(last.time).Hours(), 0, setup.Horizon.Hours(), "h", "horizon of the forecast: read it again"); err != nil {
		return Course{}, err
	}
	if at, first := setup.Arrested, s.reads[0].time; !at.IsZero() {
		if err := units.Check("time from the must to the arrest", at.Sub(first).Hours(), 0, longest.Hours(), "h", ""); err != nil {
			return Course{}, err
		}
	}
	f := newFollower(s, asked)
	if err := f.findWindow(); err != nil {
		return Course{}, err
	}
	f.judge()
	f.draw()
	if err := f.placeWindow(); err != nil {
		return Course{}, err
	}
	f.findings(log)
	return f.Course, nil
}

// A follower is a course in the making.
type follower struct {
	Course
	sifted
	setup    Setup
	began    int // index of the last reading before the gravity fell
	ensemble ensemble
	sights   []sight
	hold     hold
	future   []station
	opens    float64 // share used at which the window opens
	closes   float64 // and closes
}

func newFollower(s sifted, asked time.Time) *follower {
	f := &follower{sifted: s, setup: s.must.setup}
	f.Original, f.Begins, f.Asked, f.Apart = s.must.og, s.reads[0].time, asked, s.apart
	for i, r := range s.reads {
		if i == 0 || r.used < higher*r.uncertainty && i == f.began+1 {
			f.began = i
		}
		if r.index >= 0 {
			f.Points = append(f.Points, Point{r.index, r.time, s.must.at(r.used).Gravity})
		}
	}
	if fell := s.reads[f.began+1:]; len(fell) > 0 {
		f.sights = sights(fell, func(r read) float64 { return f.day(r.time) })
		known := 0.0 // of the yeast's limit
		if s.must.limit < 1 {
			known = limitKnown / 2 * s.must.limit / float64(f.setup.YeastLimit)
		}
		f.ensemble = newEnsemble(f.sights, s.must.limit, known)
	}
	return f
}

func (f *follower) last() read { return f.reads[len(f.reads)-1] }

// day counts days since the gravity began to fall.
func (f *follower) day(t time.Time) float64 { return t.Sub(f.reads[f.began].time).Hours() / 24 }
