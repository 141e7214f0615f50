package watch_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// crash is a must that was chilled: still falling at 22 C, then the same at 4 C a day
// apart.
func crash() []watch.Reading {
	log := readings(0, 1.095, 24, 1.075, 36, 1.064, 60, 1.059, 84, 1.059)
	for i, at := range []float64{22, 22, 22, 4, 4} {
		log[i].Temperature = units.Celsius(at)
	}
	return log
}

func find(c watch.Course, key string) string {
	i := slices.IndexFunc(c.Findings, func(f watch.Finding) bool { return f.Key == key })
	if i < 0 {
		return ""
	}
	return c.Findings[i].Text
}

// Where the gravity holds, what was read is what is: the fitted curve is a detail.
func TestNowIsTheLastReading(t *testing.T) {
	stuck := readings(0, 1.11, 24, 1.1, 48, 1.09, 72, 1.08, 96, 1.08, 120, 1.08, 144, 1.08)
	goal := abv.Goal{MinStrength: 5, MaxStrength: 6}
	for name, c := range map[string]struct {
		log   []watch.Reading
		state watch.State
	}{"cold crash": {crash(), watch.Chilled}, "stuck": {stuck, watch.Stuck}, "falling": {stuck[:4], watch.Fermenting}} {
		course, err := watch.Follow(c.log, watch.Setup{Goal: goal})
		if err != nil || course.State != c.state {
			t.Fatal(name, err, course.Why)
		}
		last := course.Points[len(course.Points)-1]
		if course.Now.Likely.Gravity != last.Gravity || !course.Now.Time.Equal(last.Time) {
			t.Errorf("%s: now %.4f, last read %.4f", name, float64(course.Now.Likely.Gravity), float64(last.Gravity))
		}
		if f := course.Figures()[0]; f.Key != "gravity" || math.Abs(f.Value.InexactFloat64()-float64(last.Gravity)) > 5.1e-5 || !f.Uncertainty.Valid {
			t.Errorf("%s: figure %+v", name, f)
		}
		if c.state != watch.Fermenting && (course.Rate > 2*course.RateUncertainty || course.Method != watch.NoForecast) {
			t.Errorf("%s: falls by %.1f ± %.1f points a day, %v", name, course.Rate, course.RateUncertainty, course.Method)
		}
		if again, _ := course.At(last.Time); again.Likely.Gravity != last.Gravity {
			t.Errorf("%s: the path ends at %.4f, last read %.4f", name, float64(again.Likely.Gravity), float64(last.Gravity))
		}
	}
}

// A log that runs backwards is the same log; an office program sorts it so.
func TestTheOrderOfTheLogDoesNotMatter(t *testing.T) {
	log := readings(0, 1.095, 24, 1.088, 48, 1.077, 72, 1.066, 96, 1.058, 120, 1.05)
	goal := watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}
	want, err := watch.Follow(log, goal)
	if err != nil || len(want.Apart) != 0 {
		t.Fatal(err, want.Apart)
	}
	back := slices.Clone(log)
	slices.Reverse(back)
	got, err := watch.Follow(back, goal)
	if err != nil || len(got.Apart) != 0 || got.Window.Opens != want.Window.Opens || got.Window.From != want.Window.From || got.Now != want.Now {
		t.Errorf("newest first: %v, %+v; want %+v", err, got.Window, want.Window)
	}
	if find(got, "sorted") == "" || find(want, "sorted") != "" {
		t.Errorf("sorted: %q, %q", find(got, "sorted"), find(want, "sorted"))
	}
	// By days alone, two readings of one day: the first in the log came first.
	two := readings(48, 1.077, 24, 1.08, 24, 1.088, 0, 1.095)
	if c, err := watch.Follow(two, watch.Setup{}); err != nil || len(c.Apart) != 1 || c.Apart[0].Reason != watch.RepeatedTime || !strings.Contains(c.Findings[0].Text, "give the hour") {
		t.Errorf("%v, %+v, %+v", err, c.Apart, c.Findings)
	}
}

// What was set apart is said first, and by its line where there is one.
func TestContradictionsAreSaidFirst(t *testing.T) {
	log := readings(0, 1.095, 24, 1.088, 48, 1.02, 72, 1.066, 96, 1.05, 120, 1.06, 144, 1.04)
	log[2].Line = 4
	c, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
	if err != nil || len(c.Apart) != 2 || find(c, "passed") == "" {
		t.Fatal(err, c.Apart)
	}
	if f := c.Findings[0]; f.Key != "set_apart" || f.Severity != watch.Warn || !strings.HasPrefix(f.Text, "Line 4 ") || !strings.Contains(c.Findings[1].Text, "Reading 6") {
		t.Errorf("%+v", c.Findings)
	}
}

// A log that begins late takes the original gravity from Setup.
func TestALateLogTakesTheOriginalGravity(t *testing.T) {
	log := readings(0, 1.095, 24, 1.088, 48, 1.077, 72, 1.066, 96, 1.058)
	whole, err := watch.Follow(log, watch.Setup{})
	if err != nil {
		t.Fatal(err)
	}
	for _, setup := range []watch.Setup{{Original: 1.095, Started: start}, {Original: 1.095}} {
		c, err := watch.Follow(log[1:], setup)
		if err != nil || c.Original != 1.095 || len(c.Points) != 4 || math.Abs(float64(c.Now.Likely.Strength-whole.Now.Likely.Strength)) > 1e-6 {
			t.Errorf("%+v: %v, %v", c.Now.Likely, err, c.Apart)
		}
		f, err := c.Reaches(1.05)
		w, _ := whole.Reaches(1.05)
		if err != nil || f.Likely.IsZero() || setup.Started.Equal(start) && math.Abs(f.Likely.Sub(w.Likely).Minutes()) > 1 {
			t.Errorf("%v, %v: %v", f, w, err)
		}
		if drawn := find(c, "drawn_back") != ""; drawn != setup.Started.IsZero() {
			t.Errorf("drawn back %v", drawn)
		}
	}
	if c, err := watch.Follow(log[2:3], watch.Setup{Original: 1.095}); err != nil || c.Method != watch.NoForecast || !strings.Contains(c.Why, "when it began") {
		t.Errorf("%v, %v", c.Why, err)
	}
}

// A refractometer reads a fermenting must too high; the strength is reckoned with.
func TestRefractometerLogs(t *testing.T) {
	log := []watch.Reading{{Time: start, Reading: 1.095}}
	for i, g := range []gravity.SG{1.08, 1.06, 1.04} {
		w, err := abv.MassBalance(1.095, g, abv.Must)
		if err != nil {
			t.Fatal(err)
		}
		must, err := gravity.SG(1.095).Plato()
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := 0.0, float64(must)
		for range 60 { // the reading that gives this wine
			middle := (lo + hi) / 2
			if r, err := abv.FromRefractometer(gravity.Brix(must), gravity.Brix(middle), 1, abv.Must); err != nil || r.Strength > w.Strength {
				lo = middle
			} else {
				hi = middle
			}
		}
		log = append(log, watch.Reading{Time: after(24 * float64(i+1)), Refractometer: gravity.Brix(hi)})
	}
	c, err := watch.Follow(log, watch.Setup{})
	if err != nil || len(c.Points) != 4 {
		t.Fatal(err, c.Apart)
	}
	for i, want := range []gravity.SG{1.095, 1.08, 1.06, 1.04} {
		if math.Abs(float64(c.Points[i].Gravity-want)) > 1e-6 {
			t.Errorf("%.5f, want %.5f", float64(c.Points[i].Gravity), float64(want))
		}
	}
	log[1].Refractometer, log[3].Refractometer = 25, 1 // above the must, below fermented out
	if c, err := watch.Follow(log, watch.Setup{}); err != nil || len(c.Apart) != 2 {
		t.Errorf("%v, %v", err, c.Apart)
	}
}

// The state of the window is that of the time asked for, and a reading that was due
// is said to be late.
func TestLateQuestionsAreToldSo(t *testing.T) {
	setup := watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}}
	at, err := watch.Follow(morello(), setup)
	if err != nil || at.Window.State != watch.WindowAhead || at.Overdue(time.Time{}) != 0 {
		t.Fatal(err, at.Window.State)
	}
	setup.Now = at.ReadAgainBy.Add(14 * time.Hour)
	late, err := watch.Follow(morello(), setup)
	if err != nil || late.Overdue(time.Time{}) != 14*time.Hour || !strings.Contains(find(late, "read_now"), "You are 14 h late: read now") {
		t.Errorf("%v: %v, %+v", err, late.Overdue(time.Time{}), late.Findings)
	}
	setup.Now = at.Window.Closes.Likely.Add(time.Hour)
	if passed, err := watch.Follow(morello(), setup); err != nil || passed.Window.State != watch.WindowPassed || find(passed, "passed") == "" {
		t.Errorf("%v: %v", err, passed.Window.State)
	}
	if text := at.Window.Opens.Text(setup.Now, nil); !strings.Contains(text, "has passed") {
		t.Errorf("%q", text)
	}
}

// No minutes where the interval spans most of a day, no hours where it spans days.
func TestForecastTextIsAsPreciseAsTheForecast(t *testing.T) {
	at := func(hours float64) time.Time { return after(hours) }
	for _, c := range []struct {
		f    watch.Forecast
		want string
	}{
		{watch.Forecast{Early: at(1), Late: at(3)}, "Thu 1 Oct 09:00 to Thu 1 Oct 11:00"},
		{watch.Forecast{Early: at(1.2), Late: at(20)}, "Thu 1 Oct 09 h to Fri 2 Oct 04 h"},
		{watch.Forecast{Early: at(1), Late: at(121)}, "Thu 1 Oct to Tue 6 Oct"},
		{watch.Forecast{Early: at(1)}, "not before Thu 1 Oct"},
		{watch.Forecast{}, "not within the horizon"},
		{watch.Forecast{Early: at(-1), Late: at(3)}, "may have passed already, by Thu 1 Oct 11:00 at the latest"},
		{watch.Forecast{Early: at(-1)}, "may have passed already; no end within the horizon"},
		{watch.Forecast{Early: at(1), Late: at(1)}, "about Thu 1 Oct 09:00"},
	} {
		if got := c.f.Text(start, time.UTC); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What to do stands in the answer.
func TestAdvice(t *testing.T) {
	goal := abv.Goal{MinStrength: 5, MaxStrength: 6}
	stuck := readings(0, 1.11, 24, 1.1, 48, 1.09, 72, 1.08, 96, 1.08, 120, 1.08, 144, 1.08)
	cool := slices.Clone(stuck)
	for i := range cool {
		cool[i].Temperature = units.Celsius(14)
	}
	falling := readings(0, 1.095, 24, 1.088, 48, 1.077, 72, 1.066)
	passed := append(falling[:4:4], readings(96, 1.045)...)
	for _, c := range []struct {
		name  string
		log   []watch.Reading
		setup watch.Setup
		key   string
		says  string
	}{
		{"stuck", stuck, watch.Setup{Goal: goal}, "stuck", "stir up the yeast"},
		{"stuck in the cool", cool, watch.Setup{Goal: goal}, "stuck", "warm it from 14 to 18 to 24 C"},
		{"cold", crash(), watch.Setup{Goal: goal}, "chilled", "not stopped until"},
		{"passed", passed, watch.Setup{Goal: goal}, "passed", "blend that is still possible"},
		{"yeast too weak", falling, watch.Setup{Goal: abv.Goal{MinStrength: 9, MaxStrength: 10}, YeastLimit: 8}, "yeast_limit", "opens at 9.0 % vol, and the yeast gives up at 8"},
		{"cooling", falling, watch.Setup{Goal: goal, Cooling: 12 * time.Hour}, "chill_early", "In 12 h of cooling it may fall by"},
		{"cooling, time not known", falling, watch.Setup{Goal: goal}, "chill_rate", "Every hour of cooling"},
	} {
		course, err := watch.Follow(c.log, c.setup)
		if err != nil || !strings.Contains(find(course, c.key), c.says) {
			t.Errorf("%s: %v; %s; %+v", c.name, err, course.Why, course.Findings)
		}
	}
	c, err := watch.Follow(falling, watch.Setup{Goal: goal, Cooling: 12 * time.Hour})
	if fall := 1000 * float64(c.Window.ChillBy-c.Window.To.Gravity); err != nil || math.Abs(fall-c.Rate/2) > 1e-9 {
		t.Errorf("chill by %.4f, %.1f points above the end of the window, falling by %.1f a day", float64(c.Window.ChillBy), fall, c.Rate)
	}
}

// The time to come back lies between the opening and the closing; how often the window is open then is counted in comeback_test.go.
func TestComeBack(t *testing.T) {
	c, err := watch.Follow(morello(), watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}})
	b := c.Window.ComeBack
	if err != nil || b.Likely.Before(c.Window.Opens.Likely) || b.Likely.After(c.Window.Closes.Likely) || b.Early.After(b.Likely) || b.Late.Before(b.Likely) || b.Chance <= 0 || b.Chance > 1 {
		t.Errorf("%+v, opens %+v, closes %+v, %v", b, c.Window.Opens, c.Window.Closes, err)
	}
}
