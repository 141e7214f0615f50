package abv_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// watchTail gives temperatures to the last readings of a log.
func watchTail(log []abv.LogReading, at ...units.Temperature) []abv.LogReading {
	for i, t := range at {
		log[len(log)-len(at)+i].Temperature = abv.SampleAt(t)
	}
	return log
}

// watchUnnoted takes all temperatures away.
func watchUnnoted(log []abv.LogReading) []abv.LogReading {
	for i := range log {
		log[i].Temperature = abv.SampleTemperature{}
	}
	return log
}

func TestWatchStates(t *testing.T) {
	half := []float64{0, 1.09, 24, 1.082, 48, 1.07, 72, 1.06, 96, 1.052}
	on := func(pairs ...float64) []abv.LogReading {
		return watchLog(append(half[:len(half):len(half)], pairs...)...)
	}
	arrested := abv.WatchPlan{Arrested: watchAfter(97)}
	for _, c := range []struct {
		name string
		log  []abv.LogReading
		plan abv.WatchPlan
		want abv.FermentationState
		says string
	}{
		{"the must alone", watchLog(0, 1.09), abv.WatchPlan{}, abv.NotYetKnown, "must alone"},
		{"a day without a fall", watchLog(0, 1.09, 24, 1.0895), abv.WatchPlan{}, abv.NotBegun, "24 h"},
		{"three days without a fall", watchLog(0, 1.09, 24, 1.09, 72, 1.0895), abv.WatchPlan{}, abv.Stuck, "72 h"},
		{"half-way", on(), abv.WatchPlan{}, abv.Fermenting, "% vol"},
		{"slower", on(120, 1.047, 144, 1.044, 168, 1.042), abv.WatchPlan{}, abv.Slowing, "half"},
		{"a day without change", on(120, 1.052), abv.WatchPlan{}, abv.Slowing, "too short"},
		{"two days without change", on(120, 1.052, 145, 1.0515), abv.WatchPlan{}, abv.Stuck, "bears 17.5"},
		{"the same, no temperature", watchUnnoted(on(145, 1.052)), abv.WatchPlan{}, abv.Stuck, "not noted"},
		{"three days asked for", on(145, 1.052), abv.WatchPlan{Still: 72 * time.Hour}, abv.Slowing, "too short"},
		{"its yeast bears no more", on(145, 1.052), abv.WatchPlan{YeastLimit: 5}, abv.Finished, "5 % vol"},
		{"dry", on(120, 1.02, 144, 1.0, 168, 0.996, 220, 0.9955), abv.WatchPlan{}, abv.Finished, "dry"},
		{"in the refrigerator", watchTail(on(120, 1.051, 168, 1.051), 4, 4), abv.WatchPlan{}, abv.Chilled, "warms"},
		{"cooler by eight", watchTail(on(120, 1.051, 190, 1.051), 12, 12), abv.WatchPlan{}, abv.Chilled, "cold"},
		{"warm again for a day", watchTail(on(120, 1.0535, 168, 1.0535, 192, 1.051), 4, 4, 20), abv.WatchPlan{}, abv.Chilled, "part of it"},
		{"warm again for two", watchTail(on(120, 1.0535, 168, 1.051, 216, 1.051), 4, 20, 20), abv.WatchPlan{}, abv.Stuck, "48 h"},
		{"a cool cellar all along", watchTail(on(120, 1.051, 190, 1.051), 12, 12, 12, 12, 12, 12, 12), abv.WatchPlan{}, abv.Stuck, "no fall"},
		{"falling while it cools", watchTail(on(120, 1.045), 8), abv.WatchPlan{}, abv.Fermenting, "cooled"},
		// Sorbate and sulfite at 97 h: an intention, until readings show it.
		{"to be arrested", on(), arrested, abv.Fermenting, ""},
		{"arrested, not read since", on(), abv.WatchPlan{Arrested: watchAfter(97), Now: watchAfter(98)}, abv.NotYetKnown, "no reading since"},
		{"arrested, read once", on(98, 1.052), arrested, abv.NotYetKnown, "two equal"},
		{"arrested, equal before and after", on(150, 1.052), arrested, abv.NotYetKnown, "two equal"},
		{"arrested, a day", on(98, 1.052, 122, 1.052), arrested, abv.NotYetKnown, "24 h"},
		{"arrested, two days", on(98, 1.052, 147, 1.052), arrested, abv.Stopped, "49 h"},
		{"arrested, no temperature", watchUnnoted(on(98, 1.052, 147, 1.052)), arrested, abv.NotYetKnown, "noted"},
		{"arrested, in the cold", watchTail(on(98, 1.052, 147, 1.052), 3, 3), arrested, abv.Chilled, "49 h"},
		{"arrested, warm again for a day", watchTail(on(98, 1.0545, 147, 1.052, 171, 1.052), 3, 20, 20), arrested, abv.NotYetKnown, "two equal"},
		{"arrested, warm again for two", watchTail(on(98, 1.0545, 147, 1.052, 195, 1.052), 3, 20, 20), arrested, abv.Stopped, "stopped"},
		{"arrested, goes on", on(98, 1.052, 147, 1.046), arrested, abv.Slowing, "although"},
	} {
		got, err := abv.Watch(c.log, c.plan)
		if err != nil || len(got.Apart) > 0 {
			t.Errorf("%s: %v, set apart %v", c.name, err, got.Apart)
			continue
		}
		if got.State != c.want || !strings.Contains(got.Why, c.says) {
			t.Errorf("%s: %v: %s", c.name, got.State, got.Why)
		}
		falls := got.State == abv.Fermenting || got.State == abv.Slowing
		if forecast := got.Method != abv.NoForecast; forecast != (falls && !got.Cold) {
			t.Errorf("%s: %v with %v", c.name, got.State, got.Method)
		}
		if last := got.Points[len(got.Points)-1].Time; got.ReadAgainBy.Before(last) || (got.Method == abv.NoForecast) != got.Horizon.Equal(last) {
			t.Errorf("%s: read again by %v, horizon %v", c.name, got.ReadAgainBy, got.Horizon)
		}
	}
}

// What the forecast rests on grows with the readings that have fallen.
func TestWatchMethods(t *testing.T) {
	log := watchLog(0, 1.09, 24, 1.0895, 48, 1.084, 60, 1.079, 72, 1.073, 84, 1.067, 96, 1.0615)
	width := math.Inf(1)
	for i, want := range []abv.ForecastMethod{abv.NoForecast, abv.NoForecast, abv.ByRate, abv.ByLine, abv.ByLogistic, abv.ByLogistic, abv.ByLogistic} {
		c, err := abv.Watch(log[:i+1], abv.WatchPlan{})
		if err != nil {
			t.Fatal(err)
		}
		fitted := c.Method == abv.ByLogistic || c.Method == abv.ByGompertz
		if c.Method != want && !(fitted && want == abv.ByLogistic) {
			t.Errorf("%d readings: %v", i+1, c.Method)
		}
		if c.Method == abv.NoForecast {
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

// Two readings: the likely course is the straight line while it stays within
// its limits, 1 point per hour here.
func TestWatchLine(t *testing.T) {
	c, err := abv.Watch(watchLog(0, 1.09, 24, 1.084, 36, 1.072), abv.WatchPlan{})
	if err != nil || c.Method != abv.ByLine || math.Abs(c.Rate-24) > 1e-6 || c.RateDoubt < 1 || c.RateDoubt > 3 {
		t.Fatal(err, c.Method, c.Rate, c.RateDoubt)
	}
	f, err := c.Reaches(1.066)
	if err != nil || math.Abs(f.Likely.Sub(watchAfter(42)).Minutes()) > 10 { // the share used is not quite linear in gravity
		t.Errorf("%v, %v", f.Likely, err)
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
	log := watchMorello()
	goal := abv.Goal{MinStrength: 5, MinExtract: 142}
	for n, want := range map[int]abv.WindowState{len(log): abv.WindowAhead, len(log) + 1: abv.WindowOpen, len(log) + 2: abv.WindowPassed} {
		more := append(log[:len(log):len(log)], watchLog(96, 1.051, 108, 1.040)...)[:n]
		c, err := abv.Watch(more, abv.WatchPlan{Goal: goal})
		if err != nil || len(c.Apart) > 0 {
			t.Fatal(err, c.Apart)
		}
		r, err := abv.StopWithin(c.Original, goal, abv.Must)
		if err != nil || c.Window.Readings != r || c.Window.State != want {
			t.Errorf("%+v, %v; want %v, %v", c.Window, err, r, want)
		}
		for _, x := range []struct {
			f abv.Forecast
			g gravity.SG
		}{{c.Window.Opens, r.From}, {c.Window.Closes, r.To}} {
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
		if by := c.ReadAgainBy; want == abv.WindowAhead && (!by.After(last) || by.After(c.Window.Opens.Early)) || want == abv.WindowPassed && !by.Equal(last) {
			t.Errorf("%v: read again by %v", want, by)
		}
	}
}

// Nothing is said beyond the horizon, nor of a gravity that the yeast does not reach.
func TestWatchHorizon(t *testing.T) {
	plan := abv.WatchPlan{Horizon: 24 * time.Hour, YeastLimit: 8}
	c, err := abv.Watch(watchMorello(), plan)
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
	if c, err = abv.Watch(watchMorello(), plan); err != nil {
		t.Fatal(err)
	}
	limit, err := abv.StopAt(c.Original, 8, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	if f, err := c.Reaches(limit - 0.001); err != nil || f != (abv.Forecast{}) {
		t.Errorf("below the limit: %+v, %v", f, err)
	}
	if f, err := c.Reaches(limit + 0.002); err != nil || f.Chance < 0.5 {
		t.Errorf("above the limit: %+v, %v", f, err)
	}
	for _, g := range []float64{1.2, 0.9, math.NaN(), math.Inf(1)} {
		if f, err := c.Reaches(gravity.SG(g)); err == nil || f != (abv.Forecast{}) {
			t.Errorf("%v: %+v, %v", g, f, err)
		}
	}
}

func TestWatchWords(t *testing.T) {
	seen := map[string]bool{}
	for i := range 8 {
		seen[abv.FermentationState(i).String()] = true
	}
	for i := range 5 {
		seen[abv.ForecastMethod(i).String()] = true
	}
	for i := range 4 {
		seen[abv.WindowState(i).String()] = true
	}
	if len(seen) != 17 || abv.FermentationState(-1).String() != "value -1" || abv.ForecastMethod(9).String() != "value 9" {
		t.Errorf("%v", seen)
	}
	if at, noted := abv.SampleAt(0).Noted(); at != 0 || !noted {
		t.Error("0 C is a temperature")
	}
	if _, noted := (abv.SampleTemperature{}).Noted(); noted {
		t.Error("zero is none")
	}
}
