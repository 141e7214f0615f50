package watch

import (
	"math"
	"slices"
	"sort"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

const (
	pastSteps  = 24 // of the path up to the last reading
	aheadSteps = 72 // and beyond: short ones first
	endSteps   = 100
	// ninth is how many standard deviations from the middle the ends of the 80 %
	// interval of a normal distribution lie.
	ninth = 1.2816
)

// A station is the path at one time in shares used.
type station struct {
	time               time.Time
	less, likely, more float64
	open               float64 // chance that the window is open
}

// draw makes the path, its ends, and the wine at the time of asking.
func (f *follower) draw() {
	last := f.last()
	f.Horizon = last.time
	if f.Method != NoForecast {
		f.Horizon = last.time.Add(f.setup.Horizon).Round(time.Second)
	}
	f.future = f.ahead()
	for _, s := range slices.Concat(f.past(), f.future) {
		f.Path = append(f.Path, f.outlook(s))
	}
	if len(f.ensemble.curves) > 0 {
		on := f.day(last.time)
		_, smoothed, _ := f.ensemble.quantiles(func(c *curve) float64 { return c.at(on) })
		f.Smoothed = f.must.at(min(max(smoothed, 0), 1)).Gravity
	}
	f.Now, _ = f.At(f.Asked)
	if f.Method == NoForecast || !f.Asked.After(last.time) {
		f.Now = f.outlook(f.lastStation())
	}
	if f.Method == NoForecast {
		return
	}
	end := f.day(f.Horizon)
	used := f.ensemble.sort(func(c *curve) float64 { return max(c.at(end), last.used) })
	for i := 1; i < endSteps; i++ {
		f.Ends = append(f.Ends, f.must.at(quantile(used, float64(i)/endSteps)).Gravity)
	}
}

// lastStation is the last reading, as uncertain as it is.
func (f *follower) lastStation() station {
	last := f.last()
	return station{time: last.time, less: last.used - ninth*last.uncertainty, likely: last.used, more: last.used + ninth*last.uncertainty}
}

func (f *follower) outlook(s station) Outlook {
	wine := func(used float64) abv.Fermented { return f.must.at(min(max(used, 0), 1)) }
	return Outlook{s.time, wine(s.less), wine(s.likely), wine(s.more)}
}

// past is the smoothed course. What was read last is what is: no past is more
// fermented than that.
func (f *follower) past() []station {
	first, last, end := f.reads[0], f.last(), f.lastStation()
	out := []station{{time: first.time}}
	if len(f.reads) == 1 {
		return out
	}
	if began := f.reads[f.began]; began.time.After(first.time) {
		out = append(out, station{time: began.time})
	}
	if len(f.ensemble.curves) > 0 {
		begins := out[len(out)-1].time
		span := last.time.Sub(begins)
		for i := 1; i < pastSteps; i++ {
			at := begins.Add(time.Duration(float64(span) * float64(i) / pastSteps))
			on := f.day(at)
			low, middle, high := f.ensemble.quantiles(func(c *curve) float64 { return c.at(on) })
			out = append(out, rise(out[len(out)-1], station{time: at, less: min(low, end.less), likely: min(middle, end.likely), more: min(high, end.more)}))
		}
	}
	if last.time.After(out[len(out)-1].time) {
		out = append(out, rise(out[len(out)-1], end))
	}
	return out
}

// ahead is the forecast behind the last reading, from which it goes on.
func (f *follower) ahead() (out []station) {
	if f.Method == NoForecast {
		return nil
	}
	last := f.last()
	before := f.lastStation()
	for i := 1; i <= aheadSteps; i++ {
		part := float64(i) / aheadSteps
		at := last.time.Add(time.Duration(float64(f.Horizon.Sub(last.time)) * part * part * part)).Round(time.Second)
		if !at.After(last.time) || len(out) > 0 && !at.After(out[len(out)-1].time) {
			continue
		}
		on := f.day(at)
		used := f.ensemble.sort(func(c *curve) float64 { return c.at(on) })
		s := rise(before, station{time: at, less: quantile(used, 0.1), likely: quantile(used, 0.5), more: quantile(used, 0.9)})
		s.open = float64(sort.SearchFloat64s(used, f.closes)-sort.SearchFloat64s(used, f.opens)) / float64(len(used))
		out, before = append(out, s), s
	}
	return out
}

// rise keeps each share of s from falling below that of the station before it.
func rise(before, s station) station {
	s.less, s.likely, s.more = max(s.less, before.less), max(s.likely, before.likely), max(s.more, before.more)
	return s
}

// At is the course at a time: smoothed up to the last reading, forecast to the
// horizon, by straight lines between the stations of the Path. false: the time lies
// before the start or beyond the horizon.
func (c Course) At(t time.Time) (Outlook, bool) {
	n := len(c.Path)
	if n == 0 || t.Before(c.Path[0].Time) || t.After(c.Path[n-1].Time) {
		return Outlook{}, false
	}
	i := sort.Search(n, func(i int) bool { return !c.Path[i].Time.Before(t) })
	b := c.Path[i]
	if i == 0 || b.Time.Equal(t) {
		b.Time = t
		return b, true
	}
	a := c.Path[i-1]
	part := float64(t.Sub(a.Time)) / float64(b.Time.Sub(a.Time))
	return Outlook{t, blend(a.Less, b.Less, part), blend(a.Likely, b.Likely, part), blend(a.More, b.More, part)}, true
}

// blend is the wine part of the way from a to b.
func blend(a, b abv.Fermented, part float64) abv.Fermented {
	return abv.Fermented{
		Strength:      between(a.Strength, b.Strength, part),
		Extract:       between(a.Extract, b.Extract, part),
		SugarUsed:     between(a.SugarUsed, b.SugarUsed, part),
		CarbonDioxide: between(a.CarbonDioxide, b.CarbonDioxide, part),
		Yeast:         between(a.Yeast, b.Yeast, part),
		VolumeRatio:   between(a.VolumeRatio, b.VolumeRatio, part),
		Gravity:       between(a.Gravity, b.Gravity, part),
	}
}

func between[T ~float64](a, b T, part float64) T { return a + T(part)*(b-a) }

// Reaches is when the must comes to this true gravity: the interval from the time
// at which the more fermented end of the Path comes to it to that of the less
// fermented. Domain: 0.9 to the original gravity; one that the must does not come
// to has no chance. Error: *units.RangeError.
func (c Course) Reaches(g gravity.SG) (Forecast, error) {
	const lightest = 0.9 // no wine is
	if err := units.Check("gravity awaited", float64(g), lightest, float64(c.Original), "", "original gravity"); err != nil || len(c.Path) == 0 {
		return Forecast{}, err
	}
	return Forecast{
		Early:  c.comes(g, func(o Outlook) gravity.SG { return o.More.Gravity }),
		Likely: c.comes(g, func(o Outlook) gravity.SG { return o.Likely.Gravity }),
		Late:   c.comes(g, func(o Outlook) gravity.SG { return o.Less.Gravity }),
		Chance: c.chance(g),
	}, nil
}

// comes is when a line of the path comes down to g; zero where it does not. What
// the last reading had not come to comes after it.
func (c Course) comes(g gravity.SG, line func(Outlook) gravity.SG) time.Time {
	path := c.Path
	if n := len(c.Points); n > 0 && g < c.Points[n-1].Gravity {
		path = path[sort.Search(len(path), func(i int) bool { return !path[i].Time.Before(c.Points[n-1].Time) }):]
	}
	i := sort.Search(len(path), func(i int) bool { return line(path[i]) <= g })
	if i == len(path) {
		return time.Time{}
	}
	if i == 0 {
		return path[0].Time
	}
	a, b := path[i-1], path[i]
	part := float64(line(a)-g) / float64(line(a)-line(b))
	at := a.Time.Add(time.Duration(part * float64(b.Time.Sub(a.Time)))).Round(time.Second)
	switch {
	case at.Before(a.Time):
		return a.Time
	case at.After(b.Time):
		return b.Time
	}
	return at
}

// chance that the must comes to g within the horizon, between the Ends by straight
// lines.
func (c Course) chance(g gravity.SG) float64 {
	if n := len(c.Points); n > 0 && g >= c.Points[n-1].Gravity {
		return 1
	}
	if len(c.Ends) == 0 {
		return 0
	}
	i := sort.Search(len(c.Ends), func(i int) bool { return c.Ends[i] <= g }) // Ends fall
	step := 1 / float64(len(c.Ends)+1)
	passed := float64(i) * step // of the courses stay above
	if i > 0 && i < len(c.Ends) && c.Ends[i-1] > c.Ends[i] {
		passed += step * float64(c.Ends[i-1]-g) / float64(c.Ends[i-1]-c.Ends[i])
	} else if i == len(c.Ends) {
		passed = 1
	}
	return math.Max(0, 1-passed)
}
