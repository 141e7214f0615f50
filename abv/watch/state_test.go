package watch_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// watchTail gives temperatures to the last readings of a log.
func tail(log []watch.Reading, at ...units.Temperature) []watch.Reading {
	for i, t := range at {
		log[len(log)-len(at)+i].Temperature = t
	}
	return log
}

// watchUnnoted takes all temperatures away.
func unnoted(log []watch.Reading) []watch.Reading {
	for i := range log {
		log[i].Temperature = units.Temperature(0)
	}
	return log
}

func TestWatchStates(t *testing.T) {
	half := []float64{0, 1.09, 24, 1.082, 48, 1.07, 72, 1.06, 96, 1.052}
	on := func(pairs ...float64) []watch.Reading {
		return readings(append(half[:len(half):len(half)], pairs...)...)
	}
	arrested := watch.Setup{Arrested: after(97)}
	for _, c := range []struct {
		name string
		log  []watch.Reading
		plan watch.Setup
		want watch.State
		says string
	}{
		{"the must alone", readings(0, 1.09), watch.Setup{}, watch.NotYetKnown, "must alone"},
		{"a day without a fall", readings(0, 1.09, 24, 1.0895), watch.Setup{}, watch.NotBegun, "24 h"},
		{"three days without a fall", readings(0, 1.09, 24, 1.09, 72, 1.0895), watch.Setup{}, watch.Stuck, "72 h"},
		{"the same, with no more sugar than a dry wine has extract", readings(0, 1.012, 24, 1.012, 72, 1.012), watch.Setup{}, watch.Stuck, "it has not begun"},
		{"half-way", on(), watch.Setup{}, watch.Fermenting, "% vol"},
		{"slower", on(120, 1.047, 144, 1.044, 168, 1.042), watch.Setup{}, watch.Slowing, "half"},
		{"a day without change", on(120, 1.052), watch.Setup{}, watch.Slowing, "too short"},
		{"two days without change", on(120, 1.052, 145, 1.0515), watch.Setup{}, watch.Stuck, "up to 17.5"},
		{"the same, no temperature", unnoted(on(145, 1.052)), watch.Setup{}, watch.Stuck, "not noted"},
		{"three days asked for", on(145, 1.052), watch.Setup{Still: 72 * time.Hour}, watch.Slowing, "too short"},
		{"its yeast tolerates no more", on(145, 1.052), watch.Setup{YeastLimit: 5}, watch.Finished, "5 % vol"},
		{"dry", on(120, 1.02, 144, 1.0, 168, 0.996, 220, 0.9955), watch.Setup{}, watch.Finished, "dry"},
		{"in the refrigerator", tail(on(120, 1.051, 168, 1.051), units.Celsius(4), units.Celsius(4)), watch.Setup{}, watch.Chilled, "warms"},
		{"cooler by eight", tail(on(120, 1.051, 190, 1.051), units.Celsius(12), units.Celsius(12)), watch.Setup{}, watch.Chilled, "cold"},
		{"warm again for a day", tail(on(120, 1.0535, 168, 1.0535, 192, 1.051), units.Celsius(4), units.Celsius(4), units.Celsius(20)), watch.Setup{}, watch.Chilled, "part of it"},
		{"warm again for two", tail(on(120, 1.0535, 168, 1.051, 216, 1.051), units.Celsius(4), units.Celsius(20), units.Celsius(20)), watch.Setup{}, watch.Stuck, "48 h"},
		{"a cool cellar all along", tail(on(120, 1.051, 190, 1.051), units.Celsius(12), units.Celsius(12), units.Celsius(12), units.Celsius(12), units.Celsius(12), units.Celsius(12), units.Celsius(12)), watch.Setup{}, watch.Stuck, "no fall"},
		{"falling while it cools", tail(on(120, 1.045), units.Celsius(8)), watch.Setup{}, watch.Fermenting, "cooled"},
		// Sorbate and sulfite at 97 h: an intention, until readings show it.
		{"to be arrested", on(), watch.Setup{Arrested: after(97), Now: after(96)}, watch.Fermenting, ""},
		{"arrested after the last reading, time of asking not stated", on(), arrested, watch.NotYetKnown, "no reading since"},
		{"arrested, not read since", on(), watch.Setup{Arrested: after(97), Now: after(98)}, watch.NotYetKnown, "no reading since"},
		{"arrested, read once", on(98, 1.052), arrested, watch.NotYetKnown, "two equal"},
		{"arrested, equal before and after", on(150, 1.052), arrested, watch.NotYetKnown, "two equal"},
		{"arrested, a day", on(98, 1.052, 122, 1.052), arrested, watch.NotYetKnown, "24 h"},
		{"arrested, two days", on(98, 1.052, 147, 1.052), arrested, watch.Stopped, "49 h"},
		{"arrested, no temperature", unnoted(on(98, 1.052, 147, 1.052)), arrested, watch.NotYetKnown, "noted"},
		{"arrested, in the cold", tail(on(98, 1.052, 147, 1.052), units.Celsius(3), units.Celsius(3)), arrested, watch.Chilled, "49 h"},
		{"arrested, warm again for a day", tail(on(98, 1.0545, 147, 1.052, 171, 1.052), units.Celsius(3), units.Celsius(20), units.Celsius(20)), arrested, watch.NotYetKnown, "two equal"},
		{"arrested, warm again for two", tail(on(98, 1.0545, 147, 1.052, 195, 1.052), units.Celsius(3), units.Celsius(20), units.Celsius(20)), arrested, watch.Stopped, "stopped"},
		{"arrested, goes on", on(98, 1.052, 147, 1.046), arrested, watch.Slowing, "although"},
	} {
		got, err := watch.Follow(c.log, c.plan)
		if err != nil || len(got.Apart) > 0 {
			t.Errorf("%s: %v, set apart %v", c.name, err, got.Apart)
			continue
		}
		if got.State != c.want || !strings.Contains(got.Why, c.says) {
			t.Errorf("%s: %v: %s", c.name, got.State, got.Why)
		}
		falls := got.State == watch.Fermenting || got.State == watch.Slowing
		if forecast := got.Method != watch.NoForecast; forecast != (falls && !got.Cold) {
			t.Errorf("%s: %v with %v", c.name, got.State, got.Method)
		}
		if last := got.Points[len(got.Points)-1].Time; got.ReadAgainBy.Before(last) && got.State != watch.Finished && got.State != watch.Stopped || (got.Method == watch.NoForecast) != got.Horizon.Equal(last) {
			t.Errorf("%s: read again by %v, horizon %v", c.name, got.ReadAgainBy, got.Horizon)
		}
	}
}

// What the forecast rests on grows with the readings that have fallen.
func TestWatchMethods(t *testing.T) {
	log := readings(0, 1.09, 24, 1.0895, 48, 1.084, 60, 1.079, 72, 1.073, 84, 1.067, 96, 1.0615)
	width := math.Inf(1)
	for i, want := range []watch.Method{watch.NoForecast, watch.NoForecast, watch.ByOne, watch.ByTwo, watch.ByLogistic, watch.ByLogistic, watch.ByLogistic} {
		c, err := watch.Follow(log[:i+1], watch.Setup{})
		if err != nil {
			t.Fatal(err)
		}
		fitted := c.Method >= watch.ByLogistic
		if c.Method != want && !(fitted && want == watch.ByLogistic) {
			t.Errorf("%d readings: %v", i+1, c.Method)
		}
		if c.Method == watch.NoForecast {
			continue
		}
		f, err := c.Reaches(1.055)
		if err != nil || f.Early.IsZero() || f.Late.IsZero() {
			t.Fatal(f, err)
		}
		if w := f.Late.Sub(f.Early).Hours(); w < width {
			width = w
		} else {
			t.Errorf("%d readings: %.0f h wide, %.0f with one less", i+1, w, width)
		}
	}
}

// Two readings: the rate is that between them, the likely time lies in its
// interval, and the interval holds the straight line.
func TestTwoReadingsGiveTheRateBetweenThem(t *testing.T) {
	c, err := watch.Follow(readings(0, 1.09, 24, 1.084, 36, 1.072), watch.Setup{})
	if err != nil || c.Method != watch.ByTwo || math.Abs(c.Rate-24) > 1e-6 || c.RateUncertainty < 1 || c.RateUncertainty > 3 {
		t.Fatal(err, c.Method, c.Rate, c.RateUncertainty)
	}
	if f, err := c.Reaches(1.066); err != nil || f.Early.After(after(42)) || f.Late.Before(after(42)) {
		t.Errorf("%v, %v", f, err)
	}
	for g := gravity.SG(1.07); g > 1; g -= 0.01 {
		f, err := c.Reaches(g)
		if err != nil || !f.Likely.IsZero() && (f.Likely.Before(f.Early) || !f.Late.IsZero() && f.Likely.After(f.Late)) {
			t.Errorf("%.3f: %+v, %v", float64(g), f, err)
		}
	}
}

// The window is where StopWithin has it, and its times agree with At.
func TestWatchWindow(t *testing.T) {
	log := morello()
	goal := abv.Goal{MinStrength: 5, MinExtract: 142}
	for n, want := range map[int]watch.WindowState{len(log): watch.WindowAhead, len(log) + 1: watch.WindowOpen, len(log) + 2: watch.WindowPassed} {
		more := append(log[:len(log):len(log)], readings(96, 1.051, 108, 1.040)...)[:n]
		c, err := watch.Follow(more, watch.Setup{Goal: goal})
		if err != nil || len(c.Apart) > 0 {
			t.Fatal(err, c.Apart)
		}
		r, err := abv.StopWithin(c.Original, goal, abv.Must)
		if err != nil || c.Window.Window != r || c.Window.State != want {
			t.Errorf("%+v, %v; want %v, %v", c.Window, err, r, want)
		}
		for _, x := range []struct {
			f watch.Forecast
			g gravity.SG
		}{{c.Window.Opens, r.From.Gravity}, {c.Window.Closes, r.To.Gravity}} {
			early, ok1 := c.At(x.f.Early)
			late, ok2 := c.At(x.f.Late)
			likely, ok3 := c.At(x.f.Likely)
			// Steps of a sample of 400 curves.
			const near = 0.0003
			if !ok1 || !ok2 || !ok3 || math.Abs(float64(early.More.Gravity-x.g)) > near || math.Abs(float64(late.Less.Gravity-x.g)) > near ||
				math.Abs(float64(likely.Likely.Gravity-x.g)) > near || x.f.Chance < 0.9 {
				t.Errorf("%.4f: %+v: %v, %v, %v", float64(x.g), x.f, early.More.Gravity, late.Less.Gravity, likely.Likely.Gravity)
			}
		}
		last := c.Points[len(c.Points)-1].Time
		if by := c.ReadAgainBy; want == watch.WindowAhead && (!by.After(last) || by.After(c.Window.Opens.Early)) || want == watch.WindowPassed && !by.Equal(last) {
			t.Errorf("%v: read again by %v", want, by)
		}
	}
}

// Nothing is said beyond the horizon, nor of a gravity that the yeast does not reach.
func TestWatchHorizon(t *testing.T) {
	plan := watch.Setup{Horizon: 24 * time.Hour, YeastLimit: 8}
	c, err := watch.Follow(morello(), plan)
	if err != nil {
		t.Fatal(err)
	}
	last := c.Points[len(c.Points)-1].Time
	if _, ok := c.At(last.Add(24*time.Hour + time.Second)); ok {
		t.Error("a course beyond the horizon")
	}
	if _, ok := c.At(c.Points[0].Time.Add(-time.Second)); ok {
		t.Error("a course before the start")
	}
	if f, err := c.Reaches(1.04); err != nil || !f.Likely.IsZero() || !f.Late.IsZero() || f.Chance > 0.1 {
		t.Errorf("%+v, %v", f, err)
	}
	plan.Horizon = 5 * 365 * 24 * time.Hour
	if c, err = watch.Follow(morello(), plan); err != nil {
		t.Fatal(err)
	}
	limit, err := abv.StopAt(c.Original, 8, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	// The limit is known to 1 % vol: at it the chance is a half, at 10 % vol none.
	if f, err := c.Reaches(limit.Gravity - 0.001); err != nil || f.Chance < 0.2 || f.Chance > 0.5 || !f.Likely.IsZero() {
		t.Errorf("below the limit: %+v, %v", f, err)
	}
	beyond, err := abv.StopAt(c.Original, 10, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	if f, err := c.Reaches(beyond.Gravity); err != nil || f != (watch.Forecast{}) {
		t.Errorf("beyond the limit: %+v, %v", f, err)
	}
	if f, err := c.Reaches(limit.Gravity + 0.002); err != nil || f.Chance < 0.5 {
		t.Errorf("above the limit: %+v, %v", f, err)
	}
	for _, g := range []float64{1.2, 0.89, math.NaN(), math.Inf(1)} {
		if f, err := c.Reaches(gravity.SG(g)); err == nil || f != (watch.Forecast{}) {
			t.Errorf("%v: %+v, %v", g, f, err)
		}
	}
}

func TestWatchWords(t *testing.T) {
	seen := map[string]bool{}
	for i := range 8 {
		seen[watch.State(i).String()] = true
	}
	for i := range 5 {
		seen[watch.Method(i).String()] = true
	}
	for i := range 4 {
		seen[watch.WindowState(i).String()] = true
	}
	if len(seen) != 17 || watch.State(-1).String() != "value -1" || watch.Method(9).String() != "value 9" {
		t.Errorf("%v", seen)
	}
}
