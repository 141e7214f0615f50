package watch_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// within is a course in the middle of a window of 5 to 6 % vol, made by hand: read on
// day 2, when it is asked.
func within() watch.Course {
	c := watch.Course{Original: 1.095, Begins: start, Asked: after(48), State: watch.Fermenting, Method: watch.ByTwo, Why: "why so.", ReadAgainBy: after(60)}
	c.Points = []watch.Point{{Index: 0, Time: start, Gravity: 1.095}, {Index: 1, Time: after(48), Gravity: 1.056}}
	c.Now.Likely = abv.Fermented{Strength: 5.5, Gravity: 1.056}
	c.Window.State = watch.WindowOpen
	c.Window.From, c.Window.To = abv.Fermented{Strength: 5, Gravity: 1.06}, abv.Fermented{Strength: 6, Gravity: 1.053}
	c.Window.Closes = watch.Forecast{Early: after(50), Late: after(54), Chance: 1}
	c.Window.ComeBack = watch.Forecast{Early: after(50), Likely: after(52), Late: after(54), Chance: 0.54}
	c.Findings = []watch.Finding{{Key: "passed", Text: "It has passed."}}
	return c
}

// The one sentence that matters, case by case.
func TestTheSentenceThatMatters(t *testing.T) {
	ahead := func(c *watch.Course) { c.Window.State = watch.WindowAhead }
	passed := func(s watch.State) func(*watch.Course) {
		return func(c *watch.Course) { c.Window.State, c.State = watch.WindowPassed, s }
	}
	const closes = "The window closes: Sat 3 Oct 10:00 to Sat 3 Oct 14:00."
	for name, c := range map[string]struct {
		change func(*watch.Course)
		now    float64 // hours
		want   string
	}{
		"no window":         {func(c *watch.Course) { c.Window = watch.Window{} }, 48, "Why so."},
		"not begun":         {func(c *watch.Course) { ahead(c); c.State = watch.NotBegun }, 48, "Why so."},
		"the must alone":    {func(c *watch.Course) { ahead(c); c.Points = c.Points[:1]; c.Asked = start }, 0, "Why so."},
		"passed, falls":     {passed(watch.Slowing), 48, "It has passed."},
		"passed, not known": {passed(watch.NotYetKnown), 48, "It has passed."},
		"passed, holds":     {passed(watch.Stuck), 48, "It has passed. Why so."},
		"holds within":      {func(c *watch.Course) { c.State = watch.Stuck }, 48, "Why so. That is within the window, 5.0 to 6.0 % vol."},
		"holds short of it": {func(c *watch.Course) { ahead(c); c.State = watch.Chilled }, 48, "Why so. That is short of the window, which opens at 5.0 % vol."},
		"the yeast will not": {func(c *watch.Course) {
			ahead(c)
			c.Findings[0] = watch.Finding{Key: "yeast_limit", Text: "It will not get there: x."}
		}, 48, "It will not get there: x."},
		"the yeast may not": {func(c *watch.Course) {
			ahead(c)
			c.Findings[0] = watch.Finding{Key: "yeast_limit", Text: "It may not get there: x."}
		}, 48, "Come back "},
		"open, the yeast will not": {func(c *watch.Course) {
			c.Findings[0] = watch.Finding{Key: "yeast_limit", Text: "It will not get there: x."}
		}, 48, "Stop it now"},
		"chill":                        {func(c *watch.Course) { ahead(c); c.Window.ChillBy = 1.056 }, 48, "Begin to chill now: it has 5.5 % vol, the window closes at 6.0,"},
		"chill later":                  {func(c *watch.Course) { ahead(c); c.Window.ChillBy = 1.0559 }, 48, "Come back "},
		"cold already":                 {func(c *watch.Course) { ahead(c); c.Window.ChillBy, c.Cold = 1.06, true }, 48, "Come back "},
		"open, asked later, no course": {func(c *watch.Course) { c.Asked, c.Method = after(49), watch.NoForecast }, 49, "At the last reading, Sat 3 Oct 08:00, it was in the window, with 5.5 % vol: read it, and stop it at once if it still is. When the window closes is not known."},
		"open, asked later":            {func(c *watch.Course) { c.Asked = after(49) }, 49, "By the forecast it is in the window now, with 5.5 % vol: read it, and stop it if that shows so. " + closes},
		"open, no course":              {func(c *watch.Course) { c.Method = watch.NoForecast }, 48, "Stop it now: it has 5.5 % vol. " + closes},
		"open, cold":                   {func(c *watch.Course) { c.Cold = true }, 48, "Keep it cold and stop it now: it has 5.5 % vol"},
		"open, an hour late":           {func(c *watch.Course) { c.ReadAgainBy = after(47) }, 48, "At the last reading, Sat 3 Oct 08:00, it was in the window, with 5.5 % vol: read it, and stop it at once if it still is. " + closes},
		"open, not yet an hour late":   {func(c *watch.Course) { c.ReadAgainBy = after(47.01) }, 48, "Stop it now: it has 5.5 % vol. " + closes},
		"open, its end not known":      {func(c *watch.Course) { c.Window.Closes = watch.Forecast{} }, 48, "Stop it now: it has 5.5 % vol. When the window closes is not known."},
		"open":                         {func(*watch.Course) {}, 48, "Stop it now: it has 5.5 % vol. " + closes},
		"ahead, not known when":        {func(c *watch.Course) { ahead(c); c.Window.ComeBack = watch.Forecast{} }, 48, "Why so. When the window opens is not known."},
		"come back":                    {ahead, 48, "Come back Sat 3 Oct 10:00 to Sat 3 Oct 14:00 for 5.0 to 6.0 % vol: best about Sat 3 Oct 12:00, when the chance of that is 54 %."},
		"come back now":                {ahead, 51, "Come back now, for 5.0 to 6.0 % vol; it may be too late from Sat 3 Oct 14:00."},
		"too late to come back":        {ahead, 54.1, "The time to come back for 5.0 to 6.0 % vol has passed: Sat 3 Oct 10:00 to Sat 3 Oct 14:00."},
	} {
		course := within()
		c.change(&course)
		if answer := course.Answer(after(c.now), nil); !slices.ContainsFunc(answer, func(s string) bool { return strings.HasPrefix(s, c.want) }) {
			t.Errorf("%s: %q", name, answer)
		} else if strings.HasSuffix(c.want, ".") && !slices.Contains(answer, c.want) {
			t.Errorf("%s says more: %q", name, answer)
		}
	}
}

// When to read again: by a time that is to come, now, or late by an hour and more; nothing
// of it at a last reading that is to be repeated.
func TestWhenToReadAgainIsSaid(t *testing.T) {
	for now, want := range map[float64]string{59.9: "Read again by Sat 3 Oct 20:00.", 60: "Read again by Sat 3 Oct 20:00.", 60.1: "Read it again now.", 60.98: "Read it again now.", 61: "You are 1 h late: read now.", 110: "You are 2 days late: read now."} {
		c := within()
		answer := c.Answer(after(now), nil)
		n := 0
		for _, s := range answer {
			if strings.HasPrefix(s, "Read again") || strings.HasPrefix(s, "Read it again") || strings.HasSuffix(s, "late: read now.") {
				n++
			}
		}
		if n != 1 || !slices.Contains(answer, want) {
			t.Errorf("after %v h: %q", now, answer)
		}
	}
	c := within()
	c.ReadAgainBy = after(48)
	if answer := c.Answer(after(48.5), nil); slices.ContainsFunc(answer, func(s string) bool { return strings.HasPrefix(s, "Read") }) {
		t.Errorf("due at the last reading: %q", answer)
	}
}

// Half an hour ahead of the clock is the full hour that people note; more is asked about.
func TestALastReadingAheadOfTheClock(t *testing.T) {
	for minutes, said := range map[float64]bool{30: false, 30.5: true} {
		c := within()
		answer := c.Answer(after(48-minutes/60), nil)
		if strings.Contains(answer[0], "ahead of the clock") != said {
			t.Errorf("%v minutes ahead: %q", minutes, answer[0])
		}
	}
}

// Three readings that were set apart are named, of others the number.
func TestTheAnswerNamesThreeReadingsSetApart(t *testing.T) {
	for n, want := range map[int]string{3: "", 4: "More readings were set apart: 1, see below.", 6: "More readings were set apart: 3, see below."} {
		c := within()
		c.Findings = nil
		for range n {
			c.Findings = append(c.Findings, watch.Finding{Key: "set_apart", Text: "Set apart."})
		}
		answer := c.Answer(after(48), nil)
		if len(answer) < 4 || answer[2] != "Set apart." || answer[3] == "Set apart." || want != "" && answer[3] != want || want == "" && strings.HasPrefix(answer[3], "More") {
			t.Errorf("%d set apart: %q", n, answer)
		}
	}
}

// No minutes from six hours on, no hours from four days on.
func TestHowExactlyTimesAreSaid(t *testing.T) {
	for hours, want := range map[float64]string{6: "Thu 1 Oct 09:00 to Thu 1 Oct 15:00", 6.1: "Thu 1 Oct 09 h to Thu 1 Oct 15 h", 96: "Thu 1 Oct 09 h to Mon 5 Oct 09 h", 96.1: "Thu 1 Oct to Mon 5 Oct"} {
		f := watch.Forecast{Early: after(1), Late: after(1 + hours)}
		if got := f.Text(start, nil); got != want {
			t.Errorf("%v h: %q, want %q", hours, got, want)
		}
	}
	for hours, want := range map[float64]string{3: "Thu 1 Oct 09:42 to Thu 1 Oct 12:42", 7: "Thu 1 Oct 10 h to Thu 1 Oct 17 h"} {
		f := watch.Forecast{Early: after(1.7), Late: after(1.7 + hours)}
		if got := f.Text(start, nil); got != want {
			t.Errorf("%v h from 09:42: %q, want %q", hours, got, want)
		}
	}
	f := watch.Forecast{Early: after(1), Late: after(3)}
	if got := f.Text(after(4), time.FixedZone("", 3600)); got != "has passed (Thu 1 Oct 10:00 to Thu 1 Oct 12:00)" {
		t.Errorf("%q", got)
	}
}

// A figure for an hour of cooling, and the fall while it cools, are the rate by hand; a
// must that has to be cooled before the window opens is warned.
func TestWhatCoolingMayCostIsSaid(t *testing.T) {
	goal := abv.Goal{MinStrength: 5, MaxStrength: 6}
	log := daily(1.095, 1.088, 1.076, 1.066)
	for _, cooling := range []time.Duration{0, 5 * time.Hour, 40 * time.Hour} {
		c, err := watch.Follow(log, watch.Setup{Goal: goal, Cooling: cooling})
		if err != nil || c.Rate <= 0 {
			t.Fatal(err, c.Rate)
		}
		if cooling == 0 {
			if want := fmt.Sprintf("may cost %.1f points", c.Rate/24); !strings.Contains(find(c, "chill_rate"), want) || find(c, "chill_early") != "" || c.Window.ChillBy != 0 {
				t.Errorf("%q, want %q", find(c, "chill_rate"), want)
			}
			continue
		}
		i := slices.IndexFunc(c.Findings, func(f watch.Finding) bool { return f.Key == "chill_early" })
		fall := c.Rate * cooling.Hours() / 24
		if want := fmt.Sprintf("it may fall by %.0f points more", fall); i < 0 || !strings.Contains(c.Findings[i].Text, want) || find(c, "chill_rate") != "" {
			t.Fatalf("%+v, want %q", c.Findings, want)
		}
		early := c.Window.To.Gravity+gravity.SG(fall/1000) >= c.Window.From.Gravity
		if warned := c.Findings[i].Severity == watch.Warn; warned != early || early != (cooling > 20*time.Hour) {
			t.Errorf("%v of cooling, begin at %.4f, window from %.4f: warned %v", cooling, float64(c.Window.ChillBy), float64(c.Window.From.Gravity), warned)
		}
	}
}

// A must that stands with a window ahead may be taken as it is; one that has not begun, or
// has no window, may not.
func TestAStuckMustMayBeTakenAsItIs(t *testing.T) {
	goal := abv.Goal{MinStrength: 5, MaxStrength: 6}
	for name, c := range map[string]struct {
		log   []watch.Reading
		goal  abv.Goal
		taken bool
	}{
		"short of a window": {daily(1.095, 1.085, 1.075, 1.075, 1.075, 1.075), goal, true},
		"without a window":  {daily(1.095, 1.085, 1.075, 1.075, 1.075, 1.075), abv.Goal{}, false},
		"not begun":         {daily(1.095, 1.095, 1.095, 1.095), goal, false},
	} {
		course, err := watch.Follow(c.log, watch.Setup{Goal: c.goal})
		if err != nil || course.State != watch.Stuck || strings.Contains(find(course, "stuck"), "take the wine as it is") != c.taken {
			t.Errorf("%s: %v, %q, %v", name, course.State, find(course, "stuck"), err)
		}
	}
}

// With a limit that the window may pass the cost of cooling is said too; with one that it
// will pass there is nothing to cool for.
func TestAWindowThatIsNotReachedIsNotCooledFor(t *testing.T) {
	for limit, said := range map[float64]bool{5: true, 3.5: false} {
		c, err := watch.Follow(daily(1.095, 1.088, 1.078), watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}, YeastLimit: units.Strength(limit)})
		if err != nil || find(c, "yeast_limit") == "" || (find(c, "chill_rate") != "") != said {
			t.Errorf("limit %v: %+v, %v", limit, c.Findings, err)
		}
	}
}

// Which of two instruments read a log in Brix is asked where their wines differ by 0.3 %
// vol, and a refractometer is suspected of a must that stands where one would stand dry.
func TestInstrumentsAreToldApartByTheirWines(t *testing.T) {
	differ := func(brix float64) float64 {
		log := inBrix(t, 0, 23, 24, brix)
		hydrometer, err := abv.MassBalance(log[0].Reading, log[1].Reading, abv.Must)
		if err != nil {
			t.Fatal(err)
		}
		refractometer, err := abv.FromRefractometer(23, gravity.Brix(brix), 1, abv.Must)
		if err != nil {
			t.Fatal(err)
		}
		return float64(refractometer.Strength - hydrometer.Strength)
	}
	for least, said := range map[float64]bool{0.298: false, 0.302: true} {
		lo, hi := 20.0, 23.0
		for range 24 {
			if differ((lo+hi)/2) > least {
				lo = (lo + hi) / 2
			} else {
				hi = (lo + hi) / 2
			}
		}
		c, err := watch.Follow(inBrix(t, 0, 23, 24, lo), watch.Setup{})
		if err != nil || (find(c, "instrument") != "") != said {
			t.Errorf("wines that differ by %.4f %% vol: %q, %v", differ(lo), find(c, "instrument"), err)
		}
	}
	for last, likely := range map[float64]bool{8.4: true, 14: false} {
		c, err := watch.Follow(inBrix(t, 0, 23, 48, 17.5, 96, last, 144, last, 192, last), watch.Setup{})
		if text := find(c, "instrument"); err != nil || c.State != watch.Stuck || text == "" || strings.Contains(text, "most likely one") != likely {
			t.Errorf("stands at %v Brix: %v, %q, %v", last, c.State, text, err)
		}
	}
}

// What is passed by a reading is passed; what is passed by the forecast is to be read.
func TestWhatIsPassedByTheForecastAlone(t *testing.T) {
	goal := abv.Goal{MinStrength: 5, MaxStrength: 6}
	log := daily(1.095, 1.085, 1.070, 1.057)
	for name, c := range map[string]struct {
		log  []watch.Reading
		want string
	}{
		"within at the last reading": {log, "By the forecast the window has passed"},
		"passed at the last reading": {append(log[:4:4], daily(0, 0, 0, 0, 1.044)[4]), "The window has passed: it has"},
	} {
		last := c.log[len(c.log)-1].Time
		course, err := watch.Follow(c.log, watch.Setup{Goal: goal, Now: last.Add(40 * time.Hour)})
		if err != nil || !strings.HasPrefix(find(course, "passed"), c.want) {
			t.Errorf("%s: %q, %v", name, find(course, "passed"), err)
		}
	}
}

// 37.3 points a day are 1.554 an hour.
func TestAnHourOfCoolingByHand(t *testing.T) {
	c, err := watch.Follow(daily(1.11, 1.0727), watch.Setup{Goal: abv.Goal{MinStrength: 7, MaxStrength: 8}})
	if err != nil || !strings.Contains(find(c, "chill_rate"), "may cost 1.6 points") {
		t.Errorf("%v points a day: %q, %v", c.Rate, find(c, "chill_rate"), err)
	}
}
