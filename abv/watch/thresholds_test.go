package watch_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// weighed is a log of a litre of must of 1.092 on a scale that is known to 1 g: hours
// and the grams lost.
func weighed(pairs ...float64) ([]watch.Reading, watch.Setup) {
	log := []watch.Reading{{Time: start, Reading: 1.092, Mass: 1500}}
	for i := 0; i < len(pairs); i += 2 {
		log = append(log, watch.Reading{Time: after(pairs[i]), Mass: units.Mass(1500 - pairs[i+1]), Temperature: units.Celsius(20)})
	}
	return log, watch.Setup{Must: 1, WeighingUncertainty: 1}
}

// Readings within 1.5 uncertainties are equal, and one is higher than another beyond 2.
func TestWhatReadingsCanTell(t *testing.T) {
	for lost, holds := range map[float64]bool{41.49: true, 41.51: false, 38.51: true} {
		log, setup := weighed(24, 10, 48, 40, 96, lost)
		if c, err := watch.Follow(log, setup); err != nil || (c.State == watch.Stuck) != holds {
			t.Errorf("40 g, then %v g: %v, %v", lost, c.State, err)
		}
	}
	for lost, apart := range map[float64]int{38.01: 0, 37.99: 1} {
		log, setup := weighed(24, 10, 48, 40, 60, lost, 72, 50)
		if c, err := watch.Follow(log, setup); err != nil || len(c.Apart) != apart {
			t.Errorf("40 g, then %v g: %v, %v", lost, c.Apart, err)
		}
	}
}

// held is a course that held for three days when so much extract was left, to a
// thousandth of a gram.
func held(t *testing.T, left float64) (c watch.Course) {
	t.Helper()
	was, off, lost := 40.0, 0.0, 60.0 // g lost before, and what that left too much
	for range 6 {
		log, setup := weighed(24, 10, 48, lost, 120, lost)
		var err error
		if c, err = watch.Follow(log, setup); err != nil {
			t.Fatal(err)
		}
		now := float64(c.Now.Likely.Extract) - left
		if math.Abs(now) < 1e-4 {
			break
		}
		next := lost + 15 // the first step; then along the line through the last two
		if off != 0 {
			next = lost - now*(lost-was)/(now-off)
		}
		was, off, lost = lost, now, next
	}
	if got := float64(c.Now.Likely.Extract); math.Abs(got-left) > 1e-3 {
		t.Fatalf("%v g/L left, not %v", got, left)
	}
	return c
}

// 35 g/L of extract may all be no sugar in any wine, more than twice that in a wine of
// morello cherries.
func TestWhatIsLeftMayBeNoSugar(t *testing.T) {
	for left, want := range map[float64]watch.State{34.95: watch.Finished, 35.05: watch.Stuck} {
		if c := held(t, left); c.State != want {
			t.Errorf("%v g/L left: %v", left, c.State)
		}
	}
	cherry, err := abv.NotSugarOf("morello cherry")
	if err != nil || cherry.High < 84 { // (18.00 - 10.17) % of a juice of 1.073 kg/L, and what fermentation adds
		t.Fatal(cherry, err)
	}
	for left, want := range map[float64]bool{float64(cherry.High) - 0.05: true, float64(cherry.High) + 0.05: false} {
		if text := find(held(t, left), "stuck"); strings.Contains(text, "measure the sugar first") != want {
			t.Errorf("%v g/L left: %q", left, text)
		}
	}
}

func TestTheTemperatureOfAStuckMust(t *testing.T) {
	for at, want := range map[float64]string{17.9: "warm it from 18", 18: "keep it at 18", 29: "keep it at 29", 29.3: "cool it from 29"} {
		log := readings(0, 1.095, 24, 1.080, 48, 1.060, 108, 1.060)
		for i := range log {
			log[i].Temperature = units.Celsius(at)
		}
		log[3].Reading = log[2].Reading
		if c, err := watch.Follow(log, watch.Setup{}); err != nil || !strings.Contains(find(c, "stuck"), want) {
			t.Errorf("%v C: %q, %v", at, find(c, "stuck"), err)
		}
	}
}

// A tenth of a point an hour is what a hydrometer shows of a day's cooling.
func TestWhatCoolingCosts(t *testing.T) {
	for fell, want := range map[float64]bool{0.00236: false, 0.00244: true} {
		log := []watch.Reading{{Time: start, Reading: 1.092}, {Time: after(24), Reading: 1.092 - gravity.SG(fell)}}
		c, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
		if err != nil || (find(c, "chill_rate") != "") != want {
			t.Errorf("%v a day: %q, %v", fell, find(c, "chill_rate"), err)
		}
	}
}

// A stated limit is known to 1 % vol either way: the window opens at 5.
func TestHowWellALimitIsKnown(t *testing.T) {
	for limit, want := range map[units.Strength]string{3.99: "It will not get there", 4.01: "It may not get there", 5.99: "It may not get there", 6.01: ""} {
		c, err := watch.Follow(daily(1.095, 1.090, 1.085, 1.080), watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}, YeastLimit: limit})
		if text := find(c, "yeast_limit"); err != nil || !strings.HasPrefix(text, want) || (text == "") != (want == "") {
			t.Errorf("%v: %q, %v", limit, text, err)
		}
	}
}

// Sugar was added where two readings lie 5 uncertainties higher, 0.0035; a fall is too
// fast beyond 50 points a day and 15 in all; readings every 20 minutes are a sensor's,
// from 24 on.
func TestSuspicionsBegin(t *testing.T) {
	for higher, want := range map[gravity.SG]bool{0.00345: false, 0.00355: true} {
		c, err := watch.Follow(readings(0, 1.095, 24, 1.085, 48, 1.070, 52, 1.070, 56, 1.070, 60, float64(1.070+higher), 72, float64(1.070+higher)), watch.Setup{})
		if err != nil || (find(c, "sugar_added") != "") != want {
			t.Errorf("%v higher: %q, %v", higher, find(c, "sugar_added"), err)
		}
	}
	for _, x := range []struct {
		hours, fell float64
		want        bool
	}{{24, 0.0497, false}, {24, 0.0503, true}, {3, 0.0149, false}, {3, 0.0151, true}} {
		c, err := watch.Follow(readings(0, 1.112, 24, 1.100, 24+x.hours, 1.100-x.fell), watch.Setup{})
		if err != nil || (find(c, "too_fast") != "") != x.want {
			t.Errorf("%v in %v h: %q, %v", x.fell, x.hours, find(c, "too_fast"), err)
		}
	}
	for _, x := range []struct {
		n    int
		by   time.Duration
		want bool
	}{{24, 20 * time.Minute, true}, {23, 20 * time.Minute, false}, {24, 20*time.Minute + 20*time.Second, false}} {
		log := []watch.Reading{}
		for i := range x.n {
			log = append(log, watch.Reading{Time: start.Add(time.Duration(i) * x.by), Reading: 1.095 - 0.001*gravity.SG(i)})
		}
		c, err := watch.Follow(log, watch.Setup{})
		if err != nil || (find(c, "sensor") != "") != x.want {
			t.Errorf("%d every %v: %q, %v", x.n, x.by, find(c, "sensor"), err)
		}
	}
}

// Nothing is arrested before it was must.
func TestAnArrestBeforeTheMust(t *testing.T) {
	for hours, refused := range map[float64]bool{-1: true, 0: false} {
		_, err := watch.Follow(daily(1.095, 1.090), watch.Setup{Arrested: after(hours)})
		var out *units.RangeError
		if errors.As(err, &out) != refused {
			t.Errorf("%v h: %v", hours, err)
		}
	}
}
