package watch

import (
	"math"
	"testing"
	"time"

	"example.org/mutage/units"
)

// A hold means something when the must would have fallen by 3 uncertainties, twice 1.5,
// at the rate before it, taken over as long a time as it holds. By hand: a reading is
// known to 0.01.
func TestHowLongAHoldMustLast(t *testing.T) {
	for _, c := range []struct {
		name  string
		days  []float64 // and shares used
		from  int
		began int
		want  float64 // days
	}{
		{"a day at 0.02 a day", []float64{0, 0, 1, 0.1, 2, 0.12, 3, 0.12}, 2, 0, 0.03 / 0.02},
		{"two days at 0.12 in two", []float64{0, 0, 1, 0.1, 2, 0.12, 4, 0.12}, 2, 0, 0.03 / 0.06},
		{"as long a time is the last day", []float64{0, 0, 1, 0.1, 2, 0.12, 4, 0.12}, 2, 1, 0.03 / 0.02},
		{"a second more than the last day", []float64{0, 0, 1, 0.1, 2, 0.12, 3.00002, 0.12}, 2, 0, 0.03 / 0.06},
		{"it has not begun", []float64{0, 0, 1, 0, 2, 0}, 0, 2, 0},
		{"it holds from where it began", []float64{0, 0, 1, 0, 2, 0}, 1, 1, 0},
		{"it was at rest before", []float64{0, 0, 1, 0.1, 2, 0.1, 3, 0.1}, 2, 0, 0},
		{"it crept before", []float64{0, 0, 1, 0.1, 2, 0.1 + 1e-9, 3, 0.1}, 2, 0, longest.Hours() / 24},
	} {
		f := shares(t, Setup{}, c.days...)
		f.hold.from, f.began = c.from, c.began
		if got := f.needs().Hours() / 24; math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: %v days, by hand %v", c.name, got, c.want)
		}
	}
}

// At 0.05 a day so far a hold is overdue after 0.03, which takes 14.4 h.
func TestAHoldIsOverdueAtTheMeanRate(t *testing.T) {
	for hours, want := range map[float64]bool{14.3: false, 14.5: true} {
		f := shares(t, Setup{}, 0, 0, 2, 0.1, 2+hours/24, 0.1)
		f.hold.from = 1
		if f.overdue() != want {
			t.Errorf("%v h: overdue %v", hours, !want)
		}
		f.began = 1 // there is no rate before it begins
		if f.overdue() {
			t.Errorf("%v h: overdue before it began", hours)
		}
	}
}

// What was arrested goes on where it fell by more than 2 uncertainties since it had been
// for Setup.Still, two days: what it fell before is the cooling.
func TestWhatGoesOnSinceTheArrest(t *testing.T) {
	for fell, want := range map[float64]bool{0.0199: false, 0.0201: true} {
		f := shares(t, Setup{Arrested: onDay(1)}, 0, 0, 1, 0.2, 2.9, 0.25, 3, 0.3, 5, 0.3+fell)
		if f.wentOn() != want {
			t.Errorf("%v since day 3: goes on %v", fell, !want)
		}
	}
	if shares(t, Setup{Arrested: onDay(4)}, 0, 0, 3, 0.1, 5, 0.3).wentOn() {
		t.Error("goes on, with no reading two days after the arrest")
	}
}

// The usual temperature is the median of those noted.
func TestTheUsualTemperature(t *testing.T) {
	f := shares(t, Setup{}, 0, 0, 1, 0.1, 2, 0.2, 3, 0.3)
	if _, known := f.temperature(4); known {
		t.Error("none was noted, and one is known")
	}
	for i, c := range []float64{25, 15, 20} {
		f.reads[i+1].at = units.Celsius(c)
	}
	if at, known := f.temperature(4); !known || math.Abs(at.Celsius()-20) > 1e-9 {
		t.Errorf("of 25, 15 and 20 C: %v, %v", at, known)
	}
	if at, known := f.temperature(2); !known || math.Abs(at.Celsius()-25) > 1e-9 {
		t.Errorf("of 25 C: %v, %v", at, known)
	}
}

// What was noted in the hold counts from the first warm reading behind the cold on: a
// hold that is warm again is shown by its warm readings.
func TestAHoldIsShownByItsWarmReadings(t *testing.T) {
	warm, cold := units.Celsius(20), units.Celsius(4)
	for _, c := range []struct {
		at     []units.Temperature
		warm   int
		cold   bool
		shown  time.Duration
		reason string
	}{
		{[]units.Temperature{warm, warm, warm, warm, warm}, 2, false, 2 * day, "warm all along"},
		{[]units.Temperature{warm, warm, cold, warm, warm}, 3, false, day, "warm again"},
		{[]units.Temperature{warm, warm, warm, cold, warm}, 4, false, 0, "warm at the last"},
		{[]units.Temperature{warm, warm, warm, warm, cold}, 5, true, 0, "cold at the last"},
		{[]units.Temperature{warm, warm, cold, 0, 0}, 3, true, 0, "cold, then not noted"},
		{[]units.Temperature{warm, warm, warm, 0, warm}, 2, false, 2 * day, "not noted between"},
	} {
		f := shares(t, Setup{}, 0, 0, 1, 0.1, 2, 0.3, 3, 0.3, 4, 0.3)
		for i, at := range c.at {
			f.reads[i].at = at
		}
		if h := f.findHold(false); h.from != 2 || h.warm != c.warm || h.cold != c.cold || h.shown != c.shown {
			t.Errorf("%s: %+v", c.reason, h)
		}
	}
}
