package watch_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// watchLog is a log of readings at 20 C at these hours.
func readings(pairs ...float64) []watch.Reading {
	var log []watch.Reading
	for i := 0; i < len(pairs); i += 2 {
		log = append(log, watch.Reading{Time: after(pairs[i]), Reading: gravity.SG(pairs[i+1]), Temperature: units.Celsius(20)})
	}
	return log
}

// apart is a reading that was set apart, and why.
type apart struct {
	Index int
	Why   watch.Reason
}

func whys(c watch.Course) (out []apart) {
	for _, a := range c.Apart {
		out = append(out, apart{a.Index, a.Reason})
	}
	return out
}

func TestWatchSetsApart(t *testing.T) {
	for _, c := range []struct {
		name string
		log  []watch.Reading
		want []apart
	}{
		{"nothing", readings(0, 1.09, 24, 1.085, 48, 1.07), nil},
		{"within the uncertainty", readings(0, 1.09, 12, 1.0905, 24, 1.085, 36, 1.0855, 48, 1.07), nil},
		{"last one risen", readings(0, 1.09, 24, 1.08, 48, 1.07, 72, 1.074), []apart{{3, watch.Rising}}},
		{"one risen, then on", readings(0, 1.09, 24, 1.08, 48, 1.07, 60, 1.074, 72, 1.06), []apart{{3, watch.Rising}}},
		{"one too low", readings(0, 1.09, 24, 1.08, 36, 1.05, 48, 1.07, 72, 1.06), []apart{{2, watch.TooLow}}},
		{"above the must", readings(0, 1.09, 24, 1.093, 48, 1.07), []apart{{1, watch.AboveOriginal}}},
		{"no decimal point", readings(0, 1.09, 24, 1.32, 48, 1.07), []apart{{1, watch.AboveOriginal}}},
		{"lighter than dry", readings(0, 1.09, 24, 0.96, 48, 1.07), []apart{{1, watch.BelowDry}}},
		{"wrong day", readings(0, 1.09, 24, 1.08, 99, 1.07, 72, 1.065, 84, 1.063, 96, 1.06), []apart{{2, watch.Rising}}},
		{"newest first", readings(72, 1.06, 48, 1.07, 24, 1.08, 0, 1.09), nil},
		{"shuffled", readings(48, 1.07, 0, 1.09, 72, 1.06, 24, 1.08), nil},
		{"two of one time, one of them wrong", readings(0, 1.09, 24, 1.06, 24, 1.08, 48, 1.07, 72, 1.068), []apart{{1, watch.RepeatedTime}}},
		{"before the must", readings(0, 1.09, -24, 1.08, 48, 1.07), []apart{{1, watch.BeforeMust}}},
		{"twice", readings(0, 1.09, 24, 1.08, 24, 1.08, 48, 1.07, 48, 1.069), []apart{{2, watch.RepeatedTime}, {3, watch.RepeatedTime}}},
		{"twice the must", readings(0, 1.09, 0, 1.09, 24, 1.08), []apart{{1, watch.RepeatedTime}}},
		{"tomorrow", readings(0, 1.09, 24, 1.08, 120, 1.05), []apart{{2, watch.AfterNow}}},
		{"in the order of the log", readings(0, 1.09, 24, 1.08, 36, 1.05, 48, 1.095, 60, 1.07, 72, 1.06), []apart{{2, watch.TooLow}, {3, watch.AboveOriginal}}},
		{"all at once", readings(0, 1.09, 24, 1.095, 24, 1.08, 36, 1.07, 48, 1.075, 12, 1.08), []apart{
			{1, watch.AboveOriginal}, {4, watch.Rising}}},
	} {
		course, err := watch.Follow(c.log, watch.Setup{Now: after(100)})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d := cmp.Diff(c.want, whys(course)); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
		if len(course.Points)+len(course.Apart) != len(c.log) {
			t.Errorf("%s: %d used and %d set apart of %d", c.name, len(course.Points), len(course.Apart), len(c.log))
		}
		for _, a := range course.Apart {
			if a.Reason.String() == "" || strings.HasPrefix(a.Reason.String(), "value") {
				t.Errorf("%s: %v has no words", c.name, a.Reason)
			}
		}
	}
	if watch.Reason(0).String() != "value 0" || watch.Reason(99).String() != "value 99" {
		t.Error("unknown reasons have no number")
	}
}

// Every error of a log is a *LogError that is ErrLog and names the reading.
func TestWatchRefusesLogs(t *testing.T) {
	nan, inf := gravity.SG(math.NaN()), gravity.SG(math.Inf(1))
	change := func(index int, f func(l *watch.Reading)) []watch.Reading {
		log := readings(0, 1.09, 24, 1.08, 48, 1.07)
		f(&log[index])
		return log
	}
	for _, c := range []struct {
		name  string
		log   []watch.Reading
		plan  watch.Setup
		index int
		says  string
	}{
		{"empty", nil, watch.Setup{}, -1, "no reading"},
		{"too many", make([]watch.Reading, 5001), watch.Setup{}, -1, "1 to 5000"},
		{"no time", change(1, func(l *watch.Reading) { l.Time = time.Time{} }), watch.Setup{}, 1, "no time"},
		{"a century", change(2, func(l *watch.Reading) { l.Time = l.Time.AddDate(100, 0, 0) }), watch.Setup{}, 2, "days"},
		{"no must", change(0, func(l *watch.Reading) { l.Reading = 0 }), watch.Setup{}, 0, "no original gravity"},
		{"thin must", change(0, func(l *watch.Reading) { l.Reading = 1.005 }), watch.Setup{}, 0, "1.01 to"},
		{"must NaN", change(0, func(l *watch.Reading) { l.Reading = nan }), watch.Setup{}, 0, "NaN"},
		{"must not come", readings(0, 1.09), watch.Setup{Now: after(-1)}, 0, "later than now"},
		{"nothing read", change(2, func(l *watch.Reading) { l.Reading = 0 }), watch.Setup{}, 2, "neither"},
		{"NaN", change(1, func(l *watch.Reading) { l.Reading = nan }), watch.Setup{}, 1, "NaN"},
		{"Inf", change(1, func(l *watch.Reading) { l.Reading = inf }), watch.Setup{}, 1, "Inf"},
		{"points", change(1, func(l *watch.Reading) { l.Reading = 1080 }), watch.Setup{}, 1, "0.95 to 1.36"},
		{"negative", change(1, func(l *watch.Reading) { l.Reading = -1 }), watch.Setup{}, 1, "0.95 to 1.36"},
		{"hot", change(2, func(l *watch.Reading) { l.Temperature = units.Celsius(41) }), watch.Setup{}, 2, "0 to 40 C"},
		{"temperature NaN", change(2, func(l *watch.Reading) { l.Temperature = units.Celsius(math.NaN()) }), watch.Setup{}, 2, "NaN"},
		{"hydrometer", readings(0, 1.09), watch.Setup{Hydrometer: gravity.NewHydrometer(units.Celsius(99))}, 0, "calibration"},
		{"weighed without volume", change(2, func(l *watch.Reading) { l.Reading, l.Mass = 0, 900 }), watch.Setup{}, 2, "volume of must"},
		{"weighed without start", change(2, func(l *watch.Reading) { l.Reading, l.Mass = 0, 900 }), watch.Setup{Must: 1}, 2, "at the start"},
		{"mass NaN", change(2, func(l *watch.Reading) { l.Reading, l.Mass = 0, units.Mass(nan) }), watch.Setup{Must: 1}, 2, "at the start"},
	} {
		course, err := watch.Follow(c.log, c.plan)
		var at *watch.LogError
		if !errors.Is(err, watch.ErrLog) || !errors.As(err, &at) || at.Faults[0].Index != c.index || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
		if at != nil && c.index >= 0 && !strings.Contains(err.Error(), fmt.Sprintf("reading %d", c.index+1)) {
			t.Errorf("%s: %v does not name the reading", c.name, err)
		}
		if len(course.Points) != 0 {
			t.Errorf("%s: a course beside an error", c.name)
		}
	}
}

// The plan: both sides of every domain, NaN and infinities.
func TestWatchRefusesPlans(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, plan := range map[string]watch.Setup{
		"yield": {Yield: abv.Yield{CarbonDioxide: 2}}, "limit low": {YeastLimit: 0.5}, "limit high": {YeastLimit: 31}, "limit NaN": {YeastLimit: units.Strength(nan)},
		"uncertainty low": {Uncertainty: 1e-6}, "uncertainty high": {Uncertainty: 0.02}, "uncertainty NaN": {Uncertainty: gravity.SG(nan)}, "must": {Must: -1}, "must NaN": {Must: units.Volume(nan)},
		"weighing": {WeighingUncertainty: -1}, "weighing Inf": {WeighingUncertainty: units.Mass(inf)}, "still": {Still: time.Minute}, "still long": {Still: 1 << 62},
		"factor": {Factor: 1.2}, "factor low": {Factor: 0.8}, "refractometer": {RefractometerUncertainty: 3}, "cooling": {Cooling: 6 * 24 * time.Hour}, "cooling back": {Cooling: -time.Hour},
		"horizon": {Horizon: -time.Hour}, "horizon long": {Horizon: 1 << 62}, "too late": {Now: after(48 + 337)},
		"goal": {Goal: abv.Goal{MinStrength: 19}}, "goal NaN": {Goal: abv.Goal{MinStrength: units.Strength(nan)}},
	} {
		var r *units.RangeError
		if _, err := watch.Follow(readings(0, 1.09, 24, 1.08, 48, 1.07), plan); !errors.As(err, &r) || errors.Is(err, watch.ErrLog) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := watch.Follow(readings(0, 1.09, 24, 1.08), watch.Setup{Goal: abv.Goal{MinStrength: 9, MinExtract: 120}}); !errors.Is(err, abv.ErrNoWindow) {
		t.Errorf("no window: %v", err)
	}
	for _, plan := range []watch.Setup{
		{YeastLimit: 1, Uncertainty: 1e-5, Still: time.Hour, Horizon: time.Hour, Yield: abv.Wort},
		{YeastLimit: 30, Uncertainty: 0.01, Still: 5 * 365 * 24 * time.Hour, Horizon: 5 * 365 * 24 * time.Hour, Now: after(48 + 300)},
	} {
		if _, err := watch.Follow(readings(0, 1.09, 24, 1.08, 48, 1.07), plan); err != nil {
			t.Errorf("%+v: %v", plan, err)
		}
	}
}

// A weighed log needs the must and the first mass; a lighter vessel is further on.
func TestWatchWeighs(t *testing.T) {
	log := readings(0, 1.09, 24, 0, 48, 0, 72, 1.07)
	log[0].Mass, log[1].Mass, log[2].Mass = 25000, 24900, 24650
	c, err := watch.Follow(log, watch.Setup{Must: 20})
	if err != nil || len(c.Points) != 4 {
		t.Fatal(err, c.Apart)
	}
	for i := 1; i < 3; i++ {
		w, err := abv.FromWeightLoss(1.09, 20, log[0].Mass-log[i].Mass, abv.Must)
		if err != nil || math.Abs(float64(c.Points[i].Gravity-w.Gravity)) > 1e-9 {
			t.Errorf("%v by weight, %v: %v", w.Gravity, c.Points[i].Gravity, err)
		}
	}
	log[1].Mass = 25200 // gained
	if c, err = watch.Follow(log, watch.Setup{Must: 20}); err != nil || len(c.Apart) != 1 || c.Apart[0].Reason != watch.AboveOriginal {
		t.Errorf("heavier than at the start: %v, %v", c.Apart, err)
	}
}

// Readings at other temperatures are corrected for the wine they stand in: what
// Shows makes of a wine comes back.
func TestWatchCorrects(t *testing.T) {
	h := gravity.NewHydrometer(units.Fahrenheit(60))
	for _, at := range []units.Temperature{units.Celsius(0), units.Celsius(10), units.Celsius(20), units.Celsius(33), units.Celsius(40)} {
		log := readings(0, 1.1)
		log[0].Reading, _ = h.ReadingInMust(1.1, at)
		log[0].Temperature = at
		want := []gravity.SG{1.1, 1.08, 1.04, 1, 0.992}
		for i, g := range want[1:] {
			w, err := abv.MassBalance(1.1, g, abv.Must)
			if err != nil {
				t.Fatal(err)
			}
			shown, err := h.Shows(w.Strength, w.Extract, at)
			if err != nil {
				t.Fatal(err)
			}
			log = append(log, watch.Reading{Time: after(24 * float64(i+1)), Reading: shown, Temperature: at})
		}
		c, err := watch.Follow(log, watch.Setup{Hydrometer: h})
		if err != nil || len(c.Points) != len(want) {
			t.Fatal(err, c.Apart)
		}
		for i, p := range c.Points {
			if math.Abs(float64(p.Gravity-want[i])) > 1e-8 { // the solver's share of the extract, times the drop
				t.Errorf("at %v: %.6f, want %.6f", at, float64(p.Gravity), float64(want[i]))
			}
		}
	}
}

// Instants count, not the clocks that showed them; and the same log gives the
// same course.
func TestWatchZones(t *testing.T) {
	utc, mixed := morello(), morello()
	for i := range mixed {
		mixed[i].Time = mixed[i].Time.In(time.FixedZone("", 3600*(i-2)))
	}
	a, err := watch.Follow(utc, watch.Setup{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := watch.Follow(mixed, watch.Setup{})
	if err != nil {
		t.Fatal(err)
	}
	f, _ := a.Reaches(1.05)
	g, _ := b.Reaches(1.05)
	if !f.Early.Equal(g.Early) || !f.Likely.Equal(g.Likely) || !f.Late.Equal(g.Late) || f.Early.IsZero() || a.Rate != b.Rate {
		t.Errorf("%v, %v", f, g)
	}
}

// All faults of a log are named at once, each by its line or its number.
func TestFollowNamesAllFaults(t *testing.T) {
	log := readings(0, 1.09, 24, 7, 48, 0, 72, 1.07)
	log[2].Line = 5
	_, err := watch.Follow(log, watch.Setup{})
	var all *watch.LogError
	if !errors.As(err, &all) || len(all.Faults) != 2 || !strings.Contains(err.Error(), "reading 2: hydrometer reading 7") || !strings.Contains(err.Error(), "line 5: neither") {
		t.Errorf("%v", err)
	}
	var one *watch.LineError
	if !errors.As(err, &one) || one.Index != 1 {
		t.Errorf("%+v", one)
	}
	many := make([]watch.Reading, 500)
	if _, err := watch.Follow(many, watch.Setup{}); err == nil || !strings.HasSuffix(err.Error(), "and 400 faults more") {
		t.Errorf("%.200v", err)
	} else if !errors.As(err, &all) || len(all.Faults) != 101 || all.Faults[100].Index != -1 {
		t.Errorf("%d faults are listed, the last %+v", len(all.Faults), all.Faults[len(all.Faults)-1])
	}
}
