package watch

import (
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
)

// WindowState says where the wine stands to the window at the time of asking.
type WindowState int

// The states of a window.
const (
	NoWindow     WindowState = iota // no goal was given
	WindowAhead                     // the gravity is above it
	WindowOpen                      // the gravity is within
	WindowPassed                    // the gravity is below it
)

var (
	windowCodes = []string{"none", "ahead", "open", "passed"}
	windowWords = []string{"no window", "ahead", "open", "passed"}
)

// String is the state in words.
func (s WindowState) String() string { return word(int(s), windowWords) }

// MarshalText is the code of the state: "ahead".
func (s WindowState) MarshalText() ([]byte, error) {
	return encode("state of the window", int(s), windowCodes)
}

// UnmarshalText reads what MarshalText wrote.
func (s *WindowState) UnmarshalText(text []byte) error {
	return decode("state of the window", s, text, windowCodes)
}

// Window is the window of the goal on the course.
type Window struct {
	// State is that of the likely wine at the time of asking.
	State      WindowState
	abv.Window // the wine at either end
	// Opens and Closes are when the gravity comes to either end.
	Opens, Closes Forecast
	// ComeBack is when to be at the vessel: Likely is the time at which the window is
	// likeliest to be open, Chance how likely it is then; from Early to Late it is at
	// least half as likely. Zero where the window is not ahead or open, or nothing is
	// forecast.
	ComeBack Forecast
	// ChillBy is the gravity at which cooling must begin at the latest, so that the
	// fall while the vessel cools (Setup.Cooling) does not leave the window: at the
	// present rate all the time, which is the most. Zero where Cooling or the rate
	// is not known; above From where cooling has to begin before the window opens.
	ChillBy gravity.SG
}

// findWindow finds the wines between which the goal holds.
func (f *follower) findWindow() (err error) {
	if f.setup.Goal == (abv.Goal{}) {
		return nil
	}
	w := &f.Window
	if w.Window, err = abv.StopWithin(f.Original, f.setup.Goal, f.setup.Yield); err != nil {
		return err
	}
	whole := f.must.ExtractPerLitre()
	f.opens, f.closes = float64(w.From.SugarUsed)/whole, float64(w.To.SugarUsed)/whole
	return nil
}

// placeWindow places the window on the course.
func (f *follower) placeWindow() (err error) {
	defer func() { f.ReadAgainBy = f.readAgain() }()
	if f.setup.Goal == (abv.Goal{}) {
		return nil
	}
	w := &f.Window
	if w.Opens, err = f.Reaches(w.From.Gravity); err != nil {
		return err
	}
	if w.Closes, err = f.Reaches(w.To.Gravity); err != nil {
		return err
	}
	w.State = w.at(f.Now.Likely.Gravity)
	if f.Method != NoForecast && w.State != WindowPassed {
		w.ComeBack = f.comeBack()
	}
	if fall := gravity.SG(f.Rate / 1000 * f.setup.Cooling.Hours() / 24); fall > 0 && f.State.falls() {
		w.ChillBy = min(w.To.Gravity+fall, f.Original)
	}
	return nil
}

// at is the state of the window at a gravity.
func (w Window) at(g gravity.SG) WindowState {
	switch {
	case g > w.From.Gravity:
		return WindowAhead
	case g >= w.To.Gravity:
		return WindowOpen
	}
	return WindowPassed
}

// falls says whether the fermentation goes on.
func (s State) falls() bool { return s == Fermenting || s == Slowing }

// comeBack finds when the window is likeliest to be open.
func (f *follower) comeBack() (best Forecast) {
	all := f.future
	if last := f.last(); last.used >= f.opens && last.used <= f.closes {
		all = append([]station{{time: last.time, open: 1}}, all...)
	}
	for _, s := range all {
		if !s.time.Before(f.Asked) && s.open > best.Chance {
			best.Likely, best.Chance = s.time, s.open
		}
	}
	for _, s := range all {
		if s.open < best.Chance/2 {
			continue
		}
		if best.Early.IsZero() {
			best.Early = s.time
		}
		best.Late = s.time
	}
	if best.Chance == 0 {
		return Forecast{}
	}
	if best.Early.Before(f.Asked) {
		best.Early = f.Asked
	}
	return best
}

// readAgain is when the next reading is due; zero where none is.
func (f *follower) readAgain() time.Time {
	if at := f.lastRead(); at.After(f.last().time) && f.State != Finished && f.State != Stopped {
		return at
	}
	last, state := f.last().time, NoWindow
	if f.Window.State != NoWindow {
		state = f.Window.at(f.must.at(f.last().used).Gravity)
	}
	next := f.Window.Opens
	if state != WindowAhead {
		next = f.Window.Closes
	}
	switch {
	case f.State == Finished, f.State == Stopped:
		return time.Time{}
	case state == WindowPassed && f.State.falls():
		return last
	case f.State == NotYetKnown && f.Since.IsZero(), f.State == NotBegun:
		return last.Add(day)
	case f.Method == NoForecast && f.State.falls():
		return last.Add(f.byRate(state))
	case f.Method == NoForecast:
		return last.Add(f.setup.Still)
	case state == NoWindow, next.Early.IsZero():
		return last.Add(day)
	}
	by := last.Add(next.Early.Sub(last) / 2)
	if !next.Late.IsZero() && next.Late.Sub(next.Early) < next.Early.Sub(last)/2 {
		by = next.Early // known well
	}
	if most := last.Add(2 * day); by.After(most) {
		by = most
	}
	return by.Round(time.Minute)
}

// byRate is half of the time that a must which falls takes to the next end of the
// window at its present rate, an hour to a day: what it is read by where nothing is
// forecast.
func (f *follower) byRate(state WindowState) time.Duration {
	end := f.Window.From.Gravity
	if state == WindowOpen {
		end = f.Window.To.Gravity
	}
	if state == NoWindow || f.Rate <= 0 {
		return day
	}
	half := 1000 * float64(f.must.at(f.last().used).Gravity-end) / f.Rate / 2
	return max(time.Hour, time.Duration(min(half, 1)*float64(day)).Round(time.Minute))
}
