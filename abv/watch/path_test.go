package watch

import (
	"math"
	"slices"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// drawn is a must of 1.095 that falls, with its forecast drawn.
func drawn(t *testing.T) *follower {
	t.Helper()
	f := followed(t, Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}, 0, 1.095, 1, 1.089, 2, 1.079, 3, 1.068)
	f.draw()
	if f.Method == NoForecast {
		t.Fatal(f.Why)
	}
	return f
}

// The path goes from the must to the horizon without a gap, ever later; the forecast has
// its short steps first, the past equal ones.
func TestThePathGoesFromTheMustToTheHorizon(t *testing.T) {
	f := drawn(t)
	path, last := f.Path, f.last().time
	if !path[0].Time.Equal(noon) || !path[len(path)-1].Time.Equal(f.Horizon) || !f.Horizon.Equal(last.Add(14*day)) || !near(float64(path[0].Likely.Gravity), 1.095, 1e-9) {
		t.Errorf("from %v, %.4f, to %v; horizon %v", path[0].Time, float64(path[0].Likely.Gravity), path[len(path)-1].Time, f.Horizon)
	}
	var past, ahead []time.Duration
	for i := 1; i < len(path); i++ {
		step := path[i].Time.Sub(path[i-1].Time)
		if step <= 0 {
			t.Errorf("station %d lies %v behind the one before", i, step)
		}
		if !path[i].Time.After(last) {
			past = append(past, step)
		} else {
			ahead = append(ahead, step)
		}
	}
	if slices.Max(past)-slices.Min(past) > time.Second || len(past) < 12 || len(ahead) < 24 {
		t.Errorf("past steps %v, %d ahead", past, len(ahead))
	}
	if !slices.IsSortedFunc(ahead, func(a, b time.Duration) int { return int((a - b).Seconds()) }) && ahead[0] > time.Minute {
		t.Errorf("steps ahead %v", ahead)
	}
	if ahead[0] > time.Minute || ahead[len(ahead)-1] > day {
		t.Errorf("the first step ahead takes %v, the last %v", ahead[0], ahead[len(ahead)-1])
	}
}

// Each station is the 10th, 50th and 90th part of the curves, by hand; the chance of the
// window is the part of them within; and nothing falls behind the station before.
func TestStationsAreQuantilesOfTheCurves(t *testing.T) {
	f := drawn(t)
	for share, g := range map[float64]gravity.SG{f.opens: f.Window.From.Gravity, f.closes: f.Window.To.Gravity} {
		if got := f.must.at(share).Gravity; !near(float64(got), float64(g), 1e-9) {
			t.Errorf("the window ends at %v of the way, which is %v, not %v", share, got, g)
		}
	}
	before := f.lastStation()
	for _, s := range f.future {
		on := s.time.Sub(noon).Hours() / 24 // it began to fall at once
		var used []float64
		open := 0.0
		for i := range f.ensemble.curves {
			x := f.ensemble.curves[i].at(on)
			used = append(used, x)
			if x >= f.opens && x < f.closes {
				open += 1.0 / draws
			}
		}
		slices.Sort(used)
		part := func(at float64) float64 { // the i-th of 256 lies at (i + 1/2)/256
			i := int(at)
			return used[i] + (at-float64(i))*(used[i+1]-used[i])
		}
		less, likely, more := max(part(25.1), before.less), max(part(127.5), before.likely), max(part(229.9), before.more)
		if !near(s.less, less, 1e-9) || !near(s.likely, likely, 1e-9) || !near(s.more, more, 1e-9) || !near(s.open, open, 1e-9) {
			t.Fatalf("%v: %+v; by hand %v, %v, %v, open %v", s.time, s, less, likely, more, open)
		}
		before = s
	}
	// The ends are the curves at the horizon, hundredth by hundredth.
	if len(f.Ends) != 99 || !slices.IsSortedFunc(f.Ends, func(a, b gravity.SG) int { return int(math.Copysign(1, float64(b-a))) }) {
		t.Fatalf("%d ends", len(f.Ends))
	}
	for _, i := range []int{1, 10, 50, 90, 99} {
		g := f.Ends[i-1]
		above, below := 0.0, 0.0 // others end there
		for k := range f.ensemble.curves {
			switch end := f.must.at(min(f.ensemble.curves[k].at(17), 1)).Gravity; {
			case end > g:
				above += 1.0 / draws
			case end < g:
				below += 1.0 / draws
			}
		}
		if part := float64(i) / 100; part < above-1.0/draws || part > 1-below+1.0/draws {
			t.Errorf("%v of the courses end above the end that %d of 100 stay above, %v below", above, i, below)
		}
	}
}

// At the last reading the interval is that of the reading: 1.2816 standard uncertainties
// either way, of 80 of 100.
func TestTheLastReadingIsAsUncertainAsItIs(t *testing.T) {
	f := shares(t, Setup{}, 0, 0, 1, 0.3)
	s := f.lastStation()
	if !near(s.less, 0.3-0.012816, 1e-9) || s.likely != 0.3 || !near(s.more, 0.3+0.012816, 1e-9) || !s.time.Equal(onDay(1)) {
		t.Errorf("%+v", s)
	}
	if out := f.past(); len(out) != 2 || out[0] != (station{time: noon}) || out[1] != s {
		t.Errorf("the path of two readings without a fit: %+v", out)
	}
	if out := shares(t, Setup{}, 0, 0).past(); len(out) != 1 {
		t.Errorf("the path of the must alone: %+v", out)
	}
	f = followed(t, Setup{}, 0, 1.095, 1, 1.095, 2, 1.085)
	f.draw()
	if out := f.past(); !out[1].time.Equal(onDay(1)) || out[1].more != 0 || !out[len(out)-1].time.Equal(onDay(2)) {
		t.Errorf("a day at rest, then a fall: %+v", out)
	}
}

// straight is a course whose likely gravity falls by 0.01 a day from 1.09, the less
// fermented end by 0.005, the more fermented by 0.02.
func straight() Course {
	c := Course{Original: 1.09, Begins: noon, Points: []Point{{0, noon, 1.09}, {1, onDay(1), 1.08}}}
	for _, d := range []float64{0, 1, 3} {
		at := func(fall float64) abv.Fermented {
			return abv.Fermented{Gravity: gravity.SG(1.09 - fall*d), Strength: units.Strength(d), Extract: units.Concentration(100 - 2*d),
				SugarUsed: units.Concentration(3 * d), CarbonDioxide: units.Concentration(4 * d), Yeast: units.Concentration(5 * d), VolumeRatio: 1 - d/100}
		}
		c.Path = append(c.Path, Outlook{onDay(d), at(0.005), at(0.01), at(0.02)})
	}
	return c
}

// Between stations all goes by straight lines, in both directions.
func TestBetweenStationsAllIsStraight(t *testing.T) {
	c := straight()
	o, ok := c.At(onDay(2.5))
	l := o.Likely
	if !ok || !o.Time.Equal(onDay(2.5)) || !near(float64(l.Gravity), 1.065, 1e-9) || !near(float64(o.Less.Gravity), 1.0775, 1e-9) || !near(float64(o.More.Gravity), 1.04, 1e-9) ||
		!near(float64(l.Strength), 2.5, 1e-9) || !near(float64(l.Extract), 95, 1e-9) || !near(float64(l.SugarUsed), 7.5, 1e-9) ||
		!near(float64(l.CarbonDioxide), 10, 1e-9) || !near(float64(l.Yeast), 12.5, 1e-9) || !near(l.VolumeRatio, 0.975, 1e-9) {
		t.Errorf("%+v", o)
	}
	for d, there := range map[float64]bool{-0.001: false, 0: true, 1: true, 3: true, 3.001: false} {
		if o, ok := c.At(onDay(d)); ok != there || ok && !o.Time.Equal(onDay(d)) {
			t.Errorf("day %v: %v, %+v", d, ok, o.Time)
		}
	}
	f, err := c.Reaches(1.065)
	if err != nil || !f.Early.Equal(onDay(1.25)) || !f.Likely.Equal(onDay(2.5)) || !f.Late.IsZero() {
		t.Errorf("1.065: %+v, %v", f, err)
	}
	// What was passed before the last reading came when the path came to it.
	if f, err = c.Reaches(1.085); err != nil || !f.Early.Equal(onDay(0.25)) || !f.Likely.Equal(onDay(0.5)) || !f.Late.Equal(onDay(1)) || f.Chance != 1 {
		t.Errorf("1.085: %+v, %v", f, err)
	}
	// What the last reading had not come to comes after it, whatever the interval says.
	if f, err = c.Reaches(1.079); err != nil || !f.Early.Equal(onDay(1)) || !f.Likely.Equal(onDay(1.1)) || f.Chance != 0 {
		t.Errorf("1.079: %+v, %v", f, err)
	}
	if f, err = c.Reaches(1.09); err != nil || !f.Early.Equal(noon) || !f.Late.Equal(noon) {
		t.Errorf("the must: %+v, %v", f, err)
	}
	if f, err = c.Reaches(1.08); err != nil || f.Chance != 1 {
		t.Errorf("the last reading: %+v, %v", f, err)
	}
	for g, good := range map[gravity.SG]bool{0.8999: false, 0.9: true, 1.09: true, 1.0901: false} {
		if _, err := c.Reaches(g); (err == nil) != good {
			t.Errorf("%v: %v", g, err)
		}
	}
	if f, err := (Course{Original: 1.09}).Reaches(1.05); err != nil || f != (Forecast{}) {
		t.Errorf("a course without a path: %+v, %v", f, err)
	}
}

// Of three ends a quarter of the courses stay above the first; between ends chances go by
// straight lines, beyond them they are what they are at them.
func TestChancesBetweenTheEnds(t *testing.T) {
	c := straight()
	c.Ends = []gravity.SG{1.06, 1.05, 1.03}
	for g, want := range map[gravity.SG]float64{1.09: 1, 1.08: 1, 1.07: 1, 1.055: 0.75 - 0.125, 1.05: 0.5, 1.045: 0.5 - 0.25*0.25, 1.03: 0.25, 1.02: 0} {
		if f, err := c.Reaches(g); err != nil || math.Abs(f.Chance-want) > 1e-9 {
			t.Errorf("%v: chance %v, by hand %v, %v", g, f.Chance, want, err)
		}
	}
	c.Ends = []gravity.SG{1.06, 1.05, 1.05} // courses that end together
	if f, err := c.Reaches(1.05); err != nil || math.Abs(f.Chance-0.5) > 1e-9 {
		t.Errorf("where half of the courses end: %v, %v", f.Chance, err)
	}
}

// The rate of a fit is the median of the curves' slopes, each over the factor of its time,
// and a standard uncertainty is the 80 % interval over 2 times 1.2816.
func TestTheRateOfAFitIsThatOfItsCurves(t *testing.T) {
	f := followed(t, Setup{}, 0, 1.095, 1, 1.089, 2, 1.079, 3, 1.068)
	used := f.last().used
	points := 1000 * float64(f.must.at(used-0.01).Gravity-f.must.at(used+0.01).Gravity) / 0.02
	var slopes []float64
	for i := range f.ensemble.curves {
		c := &f.ensemble.curves[i]
		slopes = append(slopes, (c.fitted(3)-c.fitted(3-1e-4))/1e-4/c.stretch)
	}
	slices.Sort(slopes)
	low, middle, high := points*slopes[25], points*slopes[127], points*slopes[230]
	if !near(f.Rate, middle, 0.01) || !near(f.RateUncertainty, (high-low)/(2*1.2816), 0.015) {
		t.Errorf("%v ± %v points a day; by hand %v ± %v", f.Rate, f.RateUncertainty, middle, (high-low)/(2*1.2816))
	}
}

// It slows when its mean course has less than half of the rate that it had at a reading
// before: by hand, of a logistic course at days of known rates.
func TestItSlowsAtHalfOfItsGreatestRate(t *testing.T) {
	c := newCurve(&shapes[0], vector{0, math.Log(3), -5}, 0.5, 1, 6)
	rate := slope
	middle := -c.z0 / c.rate // of the sigmoid, where the rate is greatest
	for part, tires := range map[float64]bool{0.495: true, 0.505: false} {
		lo, hi := middle, middle+20
		for range 50 {
			if day := (lo + hi) / 2; rate(day)(&c) > part*rate(middle)(&c) {
				lo = day
			} else {
				hi = day
			}
		}
		f := shares(t, Setup{}, 0, 0, 1, 0.1, middle, 0.4, lo, 0.6)
		f.ensemble = ensemble{curves: []curve{c}}
		f.sights = []sight{{day: 1}, {day: middle}, {day: lo}}
		if f.tires() != tires {
			t.Errorf("at %v of its greatest rate: slows %v", part, !tires)
		}
		f.began = 1
		if f.tires() {
			t.Error("two readings say that it slows")
		}
	}
}
