package watch_test

import (
	"errors"
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

// inBrix is a log of Brix whose instrument nobody named.
func inBrix(t *testing.T, pairs ...float64) []watch.Reading {
	t.Helper()
	var log []watch.Reading
	for i := 0; i < len(pairs); i += 2 {
		g, err := gravity.Brix(pairs[i+1]).SG()
		if err != nil {
			t.Fatal(err)
		}
		log = append(log, watch.Reading{Time: after(pairs[i]), Reading: g, Brix: true})
	}
	return log
}

// Brix of no named instrument: the answer begins with both wines. Not where both
// instruments show the same, nor where a refractometer cannot have shown it.
func TestBrixOfNoNamedInstrumentIsSaidFirst(t *testing.T) {
	log := inBrix(t, 0, 23, 24, 20, 48, 17.5)
	c, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
	if err != nil {
		t.Fatal(err)
	}
	if text := find(c, "instrument"); !strings.Contains(text, "by which it has 3.3 % vol") || !strings.Contains(text, "if one made them it has 5.3") || c.Answer(c.Asked, nil)[0] != text || c.Findings[0].Key != "instrument" {
		t.Errorf("%q", c.Answer(c.Asked, nil))
	}
	// By the refractometer's own path the wine is the one that was named.
	as := []watch.Reading{{Time: after(0), Refractometer: 23}, {Time: after(24), Refractometer: 20}, {Time: after(48), Refractometer: 17.5}}
	if r, err := watch.Follow(as, watch.Setup{}); err != nil || units.Round(float64(r.Now.Likely.Strength), 1).String() != "5.3" {
		t.Errorf("a refractometer means %v, %v", r.Now.Likely.Strength, err)
	}
	// With its factor too, by which the must was thinner.
	setup := watch.Setup{Factor: 1.1}
	r, err := watch.Follow(as, setup)
	if err != nil {
		t.Fatal(err)
	}
	if c, err = watch.Follow(log, setup); err != nil || !strings.Contains(find(c, "instrument"), fmt.Sprintf("if one made them it has %.1f", float64(r.Now.Likely.Strength))) {
		t.Errorf("%q; a refractometer of factor 1.1 means %v, %v", find(c, "instrument"), r.Now.Likely.Strength, err)
	}
	// The least that one shows in this wine is where all is fermented, known to 0.2 Brix.
	var out *units.RangeError
	if _, err := abv.FromRefractometer(23, 1, 1, abv.Must); !errors.As(err, &out) {
		t.Fatal(err)
	}
	for below, said := range map[float64]bool{-0.2: true, 0.39: true, 0.41: false} {
		if c, err := watch.Follow(inBrix(t, 0, 23, 48, 15, 96, out.Min-below), watch.Setup{}); err != nil || (find(c, "instrument") != "") != said {
			t.Errorf("%v Brix below the least: %q, %v", below, find(c, "instrument"), err)
		}
	}
	still := inBrix(t, 0, 23, 48, 17.5, 96, 12, 144, 8.4, 192, 8.4, 240, 8.4)
	if c, err := watch.Follow(still, watch.Setup{}); err != nil || !strings.Contains(find(c, "instrument"), "most likely one") {
		t.Errorf("%v: %q", err, find(c, "instrument"))
	}
	for name, other := range map[string][]watch.Reading{
		"the must alone":              log[:1],
		"less than can be told apart": inBrix(t, 0, 23, 24, 22.7),
		"lower than a refractometer":  inBrix(t, 0, 23, 48, 15, 96, 5),
		"a hydrometer said to be one": {log[0], {Time: after(48), Reading: log[2].Reading}},
	} {
		if c, err := watch.Follow(other, watch.Setup{}); err != nil || find(c, "instrument") != "" {
			t.Errorf("%s: %v: %q", name, err, find(c, "instrument"))
		}
	}
	// A log that begins late holds the must from its stated gravity.
	if c, err := watch.Follow(log[1:], watch.Setup{Original: log[0].Reading, Started: start}); err != nil || !strings.Contains(find(c, "instrument"), "it has 5.3") {
		t.Errorf("%v: %q", err, find(c, "instrument"))
	}
}

// A last reading that fell faster than must ferments is doubted, by 50 points a day
// and 15 in all.
func TestAFallThatIsTooFastIsDoubted(t *testing.T) {
	for _, c := range []struct {
		hours, last float64
		want        bool
	}{{48, 1.006, true}, {48, 1.029, true}, {48, 1.031, false}, {26, 1.076, false}, {30, 1.066, false}, {30, 1.0645, true}} {
		course, err := watch.Follow(readings(0, 1.095, 24, 1.08, c.hours, c.last), watch.Setup{})
		if err != nil || (find(course, "too_fast") != "") != c.want {
			t.Errorf("from 1.080 to %.4f in %.0f h: %q, %v", c.last, c.hours-24, find(course, "too_fast"), err)
		}
	}
}

// Two readings in a row that lie higher are sugar, one is gas.
func TestSugarAddedOnTheWayIsNamed(t *testing.T) {
	two := readings(0, 1.085, 24, 1.078, 48, 1.098, 72, 1.088, 96, 1.078)
	one := readings(0, 1.085, 24, 1.078, 48, 1.098, 72, 1.076, 96, 1.07, 120, 1.09, 144, 1.06)
	little := readings(0, 1.085, 24, 1.078, 48, 1.0805, 72, 1.0805, 96, 1.074, 120, 1.07, 144, 1.066)
	for name, log := range map[string][]watch.Reading{"two": two, "one": one, "little": little} {
		c, err := watch.Follow(log, watch.Setup{})
		if err != nil || (find(c, "sugar_added") != "") != (name == "two") {
			t.Errorf("%s: %v, %q", name, err, find(c, "sugar_added"))
		}
	}
}

// Readings every 20 minutes and less, two dozen of them, are those of a sensor.
func TestASensorThatNobodyNamedIsNamed(t *testing.T) {
	for _, c := range []struct {
		n           int
		gap         time.Duration
		uncertainty gravity.SG
		want        bool
	}{{24, 20 * time.Minute, 0, true}, {23, 20 * time.Minute, 0, false}, {24, 21 * time.Minute, 0, false}, {24, 20 * time.Minute, watch.SensorUncertainty, false}} {
		var log []watch.Reading
		for i := range c.n {
			log = append(log, watch.Reading{Time: start.Add(time.Duration(i) * c.gap), Reading: gravity.SG(1.095 - 0.0004*float64(i)), Temperature: units.Celsius(20)})
		}
		course, err := watch.Follow(log, watch.Setup{Uncertainty: c.uncertainty})
		if err != nil || (find(course, "sensor") != "") != c.want {
			t.Errorf("%d readings every %v: %q, %v", c.n, c.gap, find(course, "sensor"), err)
		}
	}
}

// A last reading that was set apart is to be repeated at once.
func TestALastReadingSetApartIsRepeatedAtOnce(t *testing.T) {
	log := readings(0, 1.095, 24, 1.08, 48, 1.066, 72, 1.074)
	c, err := watch.Follow(log, watch.Setup{Now: after(72), Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
	if err != nil || find(c, "read_once_more") == "" || !c.ReadAgainBy.Equal(after(72)) {
		t.Errorf("%v, read again by %v, %+v", err, c.ReadAgainBy, c.Findings)
	}
	if text := strings.Join(c.Answer(after(72), nil), " "); strings.Contains(text, "late: read now") || strings.Contains(text, "Read again by") {
		t.Errorf("%q", text)
	}
	if text := c.Answer(after(74), nil); !slices.Contains(text, "You are 2 h late: read now.") {
		t.Errorf("%q", text)
	}
}

// What was arrested after the last reading is not known to have stopped, one that goes
// on was not stopped, and one that is to come counts for nothing.
func TestAnArrestIsJudgedByTheReadingsSince(t *testing.T) {
	log := readings(0, 1.095, 24, 1.075, 48, 1.056, 72, 1.05, 120, 1.04)
	for _, c := range []struct {
		n     int
		setup watch.Setup
		key   string
		grave watch.Severity
	}{
		{3, watch.Setup{Arrested: after(60)}, "not_read_since", watch.Warn},
		{3, watch.Setup{Arrested: after(60), Now: after(50)}, "arrest_ahead", watch.Note},
		{5, watch.Setup{Arrested: after(50)}, "not_stopped", watch.Stop},
	} {
		course, err := watch.Follow(log[:c.n], c.setup)
		i := slices.IndexFunc(course.Findings, func(f watch.Finding) bool { return f.Key == c.key })
		if err != nil || i < 0 || course.Findings[i].Severity != c.grave || !slices.Contains(course.Answer(course.Asked, nil), course.Findings[i].Text) {
			t.Errorf("%s: %v, %+v", c.key, err, course.Findings)
		}
	}
}

// Readings before the start are the must's or are set apart.
func TestReadingsBeforeTheStart(t *testing.T) {
	log := readings(0, 1.095, 10, 1.0952, 24, 1.08, 48, 1.066)
	setup := watch.Setup{Original: 1.095, Started: after(12)}
	c, err := watch.Follow(log, setup)
	if err != nil || len(c.Apart) != 0 || !c.Begins.Equal(start) {
		t.Errorf("%v, %+v, begins %v", err, c.Apart, c.Begins)
	}
	want, err := watch.Follow(log[2:], setup)
	if err != nil || want.Window != c.Window || want.Rate != c.Rate || want.Now != c.Now {
		t.Errorf("%v, %v points a day, with the must read twice %v", err, want.Rate, c.Rate)
	}
	setup.Started = after(30)
	if c, err = watch.Follow(log, setup); err != nil || len(c.Apart) != 1 || c.Apart[0].Index != 2 || c.Apart[0].Reason != watch.BeforeMust {
		t.Errorf("%v, %+v", err, c.Apart)
	}
	setup.Now = after(29)
	if _, err = watch.Follow(log, setup); err == nil || !strings.Contains(err.Error(), "time since the start") {
		t.Errorf("%v", err)
	}
}

// The answer names a last reading ahead of the clock, and tells nobody to stop what was
// read too long ago, or what is cold already as if it were not.
func TestTheAnswerKnowsTheClock(t *testing.T) {
	goal := watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}
	open, err := watch.Follow(readings(0, 1.095, 24, 1.075, 48, 1.054), goal)
	if err != nil {
		t.Fatal(err)
	}
	for now, want := range map[time.Time]string{
		after(48):    "Stop it now: it has 5.6 % vol",
		after(47.6):  "Stop it now: it has 5.6 % vol",
		after(47):    "The last reading, 2026-10-03 08:00, lies 1 h ahead of the clock",
		after(-8760): "The last reading, 2026-10-03 08:00, lies 367 days ahead of the clock",
		{}:           "Stop it now: it has 5.6 % vol",
	} {
		if got := open.Answer(now, nil)[0]; !strings.HasPrefix(got, want) {
			t.Errorf("at %v: %q, want %q", now, got, want)
		}
	}
	if text := strings.Join(open.Answer(after(140), nil), " "); strings.Contains(text, "Stop it now") || !strings.Contains(text, "At the last reading, Sat 3 Oct 08:00, it was in the window") {
		t.Errorf("%q", text)
	}
	cold := readings(0, 1.095, 24, 1.075, 48, 1.054)
	cold[2].Temperature = units.Celsius(4)
	c, err := watch.Follow(cold, goal)
	if text := strings.Join(c.Answer(after(48), nil), " "); err != nil || !strings.HasPrefix(text, "Keep it cold and stop it now") || find(c, "chill_rate") != "" {
		t.Errorf("%v, %q", err, text)
	}
}

// A must that falls without a forecast is read half-way to the window at its present
// rate, and within a day.
func TestAFallWithoutAForecastIsReadSoon(t *testing.T) {
	goal := watch.Setup{Original: 1.095, Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}
	for _, c := range []struct {
		g, least, most float64
	}{{1.066, 1, 12}, {1.092, 24, 24}, {1.0585, 1, 1}, {1.056, 1, 5}} {
		course, err := watch.Follow(readings(24, c.g), goal)
		if hours := course.ReadAgainBy.Sub(after(24)).Hours(); err != nil || course.Method != watch.NoForecast || hours < c.least || hours > c.most {
			t.Errorf("%.4f, falling by %.0f points a day: read again after %.1f h, %v", c.g, course.Rate, hours, err)
		}
	}
}
