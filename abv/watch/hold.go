package watch

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/mutage/units"
)

// Yeast ferments extremely slowly below 50 F (Ough & Amerine, California Agr. Exp.
// Sta. Bulletin 827 (1966)), and at 12 C at half its rate at 16 C (V_G of the
// kinetics of Gee & Ramirez): 6 C of cooling make another course.
const (
	coldest = 10.0
	cooling = 6.0
)

// hold is the run of equal readings at the end of the log.
type hold struct {
	from  int           // index of the first of them
	warm  int           // of the first after which none was in the cold
	cold  bool          // the last temperature noted is
	shown time.Duration // between the first and the last from warm on whose temperature was noted
}

// findHold finds the readings at the end that are equal; of an arrested must those
// since its arrest.
func (f *follower) findHold(arrested bool) hold {
	n, last := len(f.reads), f.last()
	h := hold{from: n - 1}
	for h.from > 0 {
		before := f.reads[h.from-1]
		if arrested && before.time.Before(f.setup.Arrested) ||
			math.Abs(before.used-last.used) > equal*max(last.uncertainty, before.uncertainty) {
			break
		}
		h.from--
	}
	usual, known := f.temperature(max(1, h.from))
	h.warm = h.from
	var first time.Time
	for i := h.from; i < n; i++ {
		at := f.reads[i].at
		if !at.Stated() {
			continue
		}
		h.cold = at < units.Celsius(coldest) || known && at.Celsius() <= usual.Celsius()-cooling
		if h.cold {
			h.warm, first, h.shown = i+1, time.Time{}, 0
			continue
		}
		if first.IsZero() {
			first = f.reads[i].time
		}
		h.shown = f.reads[i].time.Sub(first)
	}
	return h
}

// needs is how long a hold must last to mean anything: at the rate before it, over as
// long a time, the must would have fallen by twice what readings can tell. A slow fall
// is no hold.
func (f *follower) needs() time.Duration {
	from := f.hold.from
	if from <= f.began {
		return 0 // it has not begun
	}
	at := f.reads[from]
	i := from - 1
	for i > f.began && at.time.Sub(f.reads[i].time) < f.held() {
		i--
	}
	before := f.reads[i]
	fall := at.used - before.used
	if fall <= 0 {
		return 0
	}
	return time.Duration(min(2*equal*at.uncertainty/fall*float64(at.time.Sub(before.time)), float64(longest)))
}

// wentOn says whether it fell since it had been arrested for Setup.Still, beyond what
// cooling explains.
func (f *follower) wentOn() bool {
	last, by := f.last(), f.setup.Arrested.Add(f.setup.Still)
	for _, r := range f.reads {
		if !r.time.Before(by) {
			return last.used-r.used > higher*max(last.uncertainty, r.uncertainty)
		}
	}
	return false
}

// temperature is the median of those noted with the first n readings.
func (f *follower) temperature(n int) (units.Temperature, bool) {
	var noted []units.Temperature
	for _, r := range f.reads[:n] {
		if r.at.Stated() {
			noted = append(noted, r.at)
		}
	}
	if len(noted) == 0 {
		return 0, false
	}
	slices.Sort(noted)
	return noted[len(noted)/2], true
}

// held is how long the gravity has held.
func (f *follower) held() time.Duration { return f.last().time.Sub(f.reads[f.hold.from].time) }

// overdue says whether the must, at its mean rate so far, would have fallen by
// twice what readings can tell since it holds.
func (f *follower) overdue() bool {
	before := f.reads[f.hold.from]
	return f.hold.from > f.began && before.used/f.day(before.time)*f.held().Hours()/24 > 2*equal*before.uncertainty
}

func hours(d time.Duration) string { return fmt.Sprintf("%.0f h", d.Hours()) }
