package watch

import (
	"math"
	"testing"
	"time"

	"example.org/mutage/abv"
)

// The time to come back is where the window is likeliest to be open, and its ends are
// the first and the last time at which that is at least half as likely.
func TestTheEndsOfComingBackAreHalfAsLikely(t *testing.T) {
	f := shares(t, Setup{}, 0, 0, 1, 0.1)
	f.opens, f.closes = 0.3, 0.4
	for i, open := range []float64{0, 0.1, 0.199, 0.201, 0.4, 0.3, 0.201, 0.199, 0} {
		f.future = append(f.future, station{time: onDay(2 + float64(i)), open: open})
	}
	b := f.comeBack()
	if !b.Early.Equal(onDay(5)) || !b.Likely.Equal(onDay(6)) || !b.Late.Equal(onDay(8)) || b.Chance != 0.4 {
		t.Errorf("%+v", b)
	}
	// Nobody comes before the time of asking.
	f.Asked = onDay(6.5)
	if b = f.comeBack(); !b.Early.Equal(onDay(6.5)) || !b.Likely.Equal(onDay(7)) || b.Chance != 0.3 {
		t.Errorf("asked on day 6.5: %+v", b)
	}
	f.Asked = onDay(11)
	if b = f.comeBack(); b != (Forecast{}) {
		t.Errorf("asked when it is past: %+v", b)
	}
}

// A must that is within the window at the last reading is there for certain then.
func TestComingBackToAnOpenWindow(t *testing.T) {
	for used, open := range map[float64]bool{0.299: false, 0.3: true, 0.4: true, 0.401: false} {
		f := shares(t, Setup{}, 0, 0, 1, used)
		f.opens, f.closes, f.future = 0.3, 0.4, []station{{time: onDay(2), open: 0.7}}
		if b := f.comeBack(); (b.Chance == 1 && b.Likely.Equal(onDay(1))) != open {
			t.Errorf("%v used, window 0.3 to 0.4: %+v", used, b)
		}
	}
}

// When the next reading is due, case by case as the field ReadAgainBy says it. The window
// opens at 5 and closes at 6 % vol.
func TestWhenTheNextReadingIsDue(t *testing.T) {
	goal := abv.Goal{MinStrength: 5, MaxStrength: 6}
	last := onDay(3)
	in := func(hours float64) time.Time { return last.Add(time.Duration(hours * float64(time.Hour))) }
	opens := func(early, late float64) func(*follower) {
		return func(f *follower) {
			f.Window.Opens = Forecast{Early: in(early), Late: in(late)}
			f.Window.Closes = Forecast{Early: in(2 * early), Late: in(2 * late)}
			if late == 0 {
				f.Window.Opens.Late, f.Window.Closes.Late = time.Time{}, time.Time{}
			}
		}
	}
	ahead, open, passed := 0.1, 0.38, 0.9 // shares used
	for _, c := range []struct {
		name   string
		used   float64
		state  State
		method Method
		change func(*follower)
		want   time.Time
	}{
		{"half-way to the opening", ahead, Fermenting, ByTwo, opens(20, 40), in(10)},
		{"at the opening, which is known to less than half of the way", ahead, Fermenting, ByTwo, opens(20, 29.9), in(20)},
		{"half-way, the opening known to more than that", ahead, Fermenting, ByTwo, opens(20, 30.1), in(10)},
		{"half-way to an opening without end", ahead, Fermenting, ByTwo, opens(20, 0), in(10)},
		{"within two days", ahead, Slowing, ByTwo, opens(120, 400), in(48)},
		{"half-way to the closing of an open window", open, Fermenting, ByTwo, opens(20, 40), in(20)},
		{"at once behind the window", passed, Fermenting, ByTwo, opens(20, 40), last},
		{"a day where the window never opens", ahead, Fermenting, ByTwo, nil, in(24)},
		{"a day where it has not begun", ahead, NotBegun, NoForecast, opens(20, 40), in(24)},
		{"a day where nothing is known yet", ahead, NotYetKnown, NoForecast, opens(20, 40), in(24)},
		{"as long as a hold must last", ahead, NotYetKnown, NoForecast, func(f *follower) { f.Since = onDay(2) }, in(48)},
		{"the same where it is stuck", ahead, Stuck, NoForecast, nil, in(48)},
		{"the same behind the window", passed, Chilled, NoForecast, nil, in(48)},
		{"never where it is finished", ahead, Finished, NoForecast, nil, time.Time{}},
		{"never where it was stopped", passed, Stopped, NoForecast, nil, time.Time{}},
		{"at once where the last reading was set apart", ahead, Fermenting, ByTwo, func(f *follower) { f.Apart = []SetApart{{Time: in(5), Reason: Rising}} }, in(5)},
		{"not at one that is later than now", ahead, Fermenting, ByTwo, func(f *follower) { opens(20, 40)(f); f.Apart = []SetApart{{Time: in(5), Reason: AfterNow}} }, in(10)},
		{"never, though the last was set apart", ahead, Stopped, NoForecast, func(f *follower) { f.Apart = []SetApart{{Time: in(5), Reason: Rising}} }, time.Time{}},
		{"nor there", ahead, Finished, NoForecast, func(f *follower) { f.Apart = []SetApart{{Time: in(5), Reason: Rising}} }, time.Time{}},
	} {
		f := shares(t, Setup{Goal: goal}, 0, 0, 3, c.used)
		if err := f.findWindow(); err != nil {
			t.Fatal(err)
		}
		f.Window.State, f.State, f.Method = f.Window.at(f.must.at(c.used).Gravity), c.state, c.method
		if c.change != nil {
			c.change(f)
		}
		if got := f.readAgain(); !got.Equal(c.want) {
			t.Errorf("%s: in %v, want in %v", c.name, got.Sub(last), c.want.Sub(last))
		}
	}
	if f := shares(t, Setup{}, 0, 0, 3, 0.1); true {
		f.State, f.Method = Fermenting, ByTwo
		if got := f.readAgain(); !got.Equal(in(24)) {
			t.Errorf("without a window: in %v", got.Sub(last))
		}
	}
}

// What falls without a forecast is read when half of the time has gone that it takes to
// the next end of the window at its rate: 24 h/2 of (gravity - end)/rate, an hour to a day.
func TestAFallIsReadHalfWayByItsRate(t *testing.T) {
	for _, c := range []struct {
		used    float64
		share   float64 // of the day that the way to the window's end takes
		to      WindowState
		atLeast time.Duration
	}{{0.1, 0.5, WindowAhead, 0}, {0.1, 1.9, WindowAhead, 0}, {0.1, 2.1, WindowAhead, day}, {0.1, 0.08, WindowAhead, time.Hour}, {0.38, 0.5, WindowOpen, 0}} {
		f := shares(t, Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}, 0, 0, 3, c.used)
		if err := f.findWindow(); err != nil {
			t.Fatal(err)
		}
		end := f.Window.From.Gravity
		if c.to == WindowOpen {
			end = f.Window.To.Gravity
		}
		points := 1000 * float64(f.must.at(c.used).Gravity-end)
		f.Rate = points / c.share
		want := time.Duration(c.share / 2 * float64(day))
		if c.atLeast > 0 {
			want = c.atLeast // or at most
		}
		if got := f.byRate(c.to); math.Abs((got - want).Minutes()) > 0.51 {
			t.Errorf("%.1f points at %.1f a day: %v, by hand %v", points, f.Rate, got, want)
		}
		f.Rate = 0
		if got := f.byRate(c.to); got != day {
			t.Errorf("at rest: %v", got)
		}
		f.Rate = points * 100
		if got := f.byRate(NoWindow); got != day {
			t.Errorf("without a window: %v", got)
		}
	}
}
