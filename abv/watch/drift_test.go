package watch_test

import (
	"strings"
	"testing"

	"example.org/mutage/abv/watch"
	"example.org/mutage/units"
)

// daily is a log of one reading a day at 20 C.
func daily(gravities ...float64) []watch.Reading {
	var hours []float64
	for i, g := range gravities {
		hours = append(hours, float64(24*i), g)
	}
	log := readings(hours...)
	for i := range log {
		log[i].Temperature = units.Celsius(20)
	}
	return log
}

// Half a point a day is less than readings two days apart can tell, and no stop: the
// wine that was arrested on day 3 goes on. That shows from day 9 on: what went before
// was so fast that until then the readings are equal.
func TestASlowFallIsNoHold(t *testing.T) {
	drift := []float64{1.112, 1.100, 1.085, 1.073, 1.0715, 1.071, 1.071, 1.0705, 1.070, 1.0695, 1.069, 1.069, 1.0685, 1.068, 1.0675, 1.067}
	arrested := watch.Setup{Arrested: after(74)}
	for days := 10; days <= len(drift); days++ {
		for name, setup := range map[string]watch.Setup{"arrested": arrested, "left alone": {}} {
			c, err := watch.Follow(daily(drift[:days]...), setup)
			if err != nil {
				t.Fatal(err)
			}
			if c.State == watch.Stopped || c.State == watch.Stuck || c.State == watch.Finished || c.ReadAgainBy.IsZero() {
				t.Errorf("%s, %d days: %v: %s", name, days, c.State, c.Why)
			}
		}
	}
	c, err := watch.Follow(daily(drift...), arrested)
	if err != nil || find(c, "not_stopped") == "" {
		t.Errorf("%v: %s, %v", c.State, c.Why, err)
	}
	// It holds: from the last reading on by the three days that its last points took, and a
	// day for what is within the hold.
	still := append(drift, 1.067, 1.067, 1.067, 1.067, 1.067, 1.067)
	if c, err := watch.Follow(daily(still...), arrested); err != nil || c.State != watch.Stopped {
		t.Errorf("%v: %s, %v", c.State, c.Why, err)
	}
	// One that fell fast before has stopped after two days.
	if c, err := watch.Follow(daily(1.112, 1.100, 1.085, 1.073, 1.070, 1.070, 1.070), arrested); err != nil || c.State != watch.Stopped {
		t.Errorf("%v: %s, %v", c.State, c.Why, err)
	}
	if c, _ := watch.Follow(daily(drift[:10]...), watch.Setup{}); !strings.Contains(c.Why, "slowly") && c.State != watch.Slowing {
		t.Errorf("%v: %s", c.State, c.Why)
	}
}
