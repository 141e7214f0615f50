package watch

import (
	"fmt"
	"slices"
	"sort"
	"time"

	"example.org/mutage/gravity"
)

// noted is a time of the log as a finding says it.
const noted = "2006-01-02 15:04"

// suspicions are findings on what the log may say wrongly though nothing in it
// contradicts it.
func (f *follower) suspicions() {
	if by, dense := f.dense(); dense {
		f.find(Warn, "sensor", "the readings come every %s, as those of a sensor: averaged by the hour and taken as uncertain by %.3f the forecast is safer", by, float64(SensorUncertainty))
	} else {
		f.suspectSugar()
	}
	f.suspectFall()
	if f.lastRead().After(f.last().time) {
		f.find(Warn, "read_once_more", "the last reading does not count: take another sample, let the gas out of it, and read it again now")
	}
}

// leastApart is by how much alcohol two instruments must differ to be told apart,
// in % vol.
const leastApart = 0.3

// suspectInstrument says what the wine is if a refractometer made the readings in
// Brix that nobody named an instrument for. Where one of them is lower than a
// refractometer shows in any wine of this must, a hydrometer made them.
func (f *follower) suspectInstrument(log []Reading) {
	last := f.last()
	if last.index < 0 || !log[last.index].Brix {
		return
	}
	as := log[0]
	if f.reads[0].index >= 0 {
		as = log[f.reads[0].index]
	}
	if as.Brix {
		as = refractive(as)
	}
	m, err := newMust(as, f.setup)
	if err != nil {
		return
	}
	used := 0.0
	for _, p := range f.Points {
		if l := log[p.Index]; l.Brix && p.Time.After(f.Begins) {
			other, err := m.read(p.Index, refractive(l))
			if err != nil || other.used > 1+higher*other.uncertainty {
				return
			}
			used = min(max(other.used, 0), 1)
		}
	}
	is, then := f.must.at(last.used), m.at(used)
	if then.Strength < is.Strength+leastApart {
		return
	}
	text := fmt.Sprintf("which instrument made the readings in Brix? They count as a hydrometer's, by which it has %.1f %% vol; a refractometer reads high in wine, and if one made them it has %.1f", float64(is.Strength), float64(then.Strength))
	if f.State == Stuck && float64(then.Extract) <= dry {
		text += ": it stands where a refractometer stands when all is fermented, so that it was most likely one"
	}
	f.find(Warn, "instrument", "%s. Say which before you go by what follows", text)
}

// refractive is a reading in Brix as that of a refractometer.
func refractive(l Reading) Reading {
	if plato, err := l.Reading.Plato(); err == nil {
		l.Reading, l.Refractometer = 0, gravity.Brix(plato)
	}
	return l
}

// Readings as close as that are no hand's.
const (
	closest   = 20 * time.Minute
	leastMany = 24
)

// dense says whether the readings come as those of a sensor that nobody named.
func (f *follower) dense() (by string, is bool) {
	n := len(f.Points)
	if n < leastMany || f.setup.Uncertainty != usualUncertainty {
		return "", false
	}
	gaps := make([]time.Duration, n-1)
	for i := range gaps {
		gaps[i] = f.Points[i+1].Time.Sub(f.Points[i].Time)
	}
	slices.Sort(gaps)
	gap := gaps[len(gaps)/2]
	return fmt.Sprintf("%.3g min", gap.Minutes()), gap <= closest
}

// suspectSugar finds readings in a row that were set apart because they lie higher
// than before, by more than gas in a sample explains.
func (f *follower) suspectSugar() {
	const farther = 5.0 // times the uncertainty of a reading
	apart := slices.SortedFunc(slices.Values(f.Apart), func(a, b SetApart) int { return a.Time.Compare(b.Time) })
	row, at := 0, 0 // how many above the same point
	for _, a := range apart {
		behind := f.pointBefore(a.Time)
		if behind < 0 || a.Reason != Rising && a.Reason != AboveOriginal || a.Reading < f.Points[behind].Gravity+farther*f.setup.Uncertainty {
			continue
		}
		if behind != at {
			row, at = 0, behind
		}
		if row++; row == 2 {
			f.find(Warn, "sugar_added", "two readings in a row, by %s, lie higher than those before: if sugar was added, begin a new log with the must as it was then; if not, let the gas out of the samples", a.Time.Format(noted))
			return
		}
	}
}

// pointBefore is the index of the last point before this time; -1 where there is none.
func (f *follower) pointBefore(t time.Time) int {
	return sort.Search(len(f.Points), func(i int) bool { return !f.Points[i].Time.Before(t) }) - 1
}

// suspectFall finds a last reading that fell faster than must ferments: misread, or
// of a wrong date.
func (f *follower) suspectFall() {
	const (
		fastest = 50.0 // points a day; of 56 measured tanks of red must the fastest fell by 48 (testdata/fermentation_pinot_noir.csv)
		least   = 15.0 // points: less is soon fermented
	)
	n, last := len(f.reads), f.last()
	if n < 2 || f.reads[n-2].index < 0 && f.setup.Started.IsZero() {
		return
	}
	before := f.reads[n-2]
	fall := 1000 * float64(f.must.at(before.used).Gravity-f.must.at(last.used).Gravity)
	took := last.time.Sub(before.time)
	if fall < least || fall/took.Hours()*24 <= fastest {
		return
	}
	f.find(Warn, "too_fast", "by the last reading it fell by %.0f points in %s: few musts ferment %.0f in a day. Read it once more before you go by that, and check the dates", fall, lasts(took), fastest)
}

// lastRead is the time of the last reading, used or set apart, that was not later
// than now.
func (c Course) lastRead() time.Time {
	last := c.last()
	for _, a := range c.Apart {
		if a.Reason != AfterNow && a.Time.After(last) {
			last = a.Time
		}
	}
	return last
}
