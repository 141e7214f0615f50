package watch_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/units"
)

// Who comes back when it is said finds the window open as often as is said, counted
// on simulated musts, and oftener than at the ends of the time that is said. The
// slack is that of the intervals: 80 of 100 may be 86.
func TestTheWindowIsOpenAsOftenAsIsSaid(t *testing.T) {
	skipTrials(t)
	const slack = 0.06
	r := rand.New(rand.NewPCG(7, 31))
	logs := 500
	if testing.Short() {
		logs = 150
	}
	said, early, likely, late := 0.0, 0, 0, 0
	for n := 0; n < logs; {
		s := simulate(grapeMust(r), r)
		log, _ := onTheWay(t, s, r, 1+r.IntN(6))
		goal := abv.Goal{MinStrength: units.Strength(between(r, 3, 8))}
		goal.MaxStrength = goal.MinStrength + units.Strength(between(r, 0.5, 2))
		c, err := watch.Follow(log, watch.Setup{Goal: goal})
		b := c.Window.ComeBack
		if err != nil || c.Window.State != watch.WindowAhead || b.Likely.IsZero() {
			continue
		}
		n++
		said += b.Chance / float64(logs)
		open := func(at time.Time) int {
			_, g := s.gravity(t, s.at(at.Sub(start).Hours()))
			if c.Window.To.Gravity <= g && g <= c.Window.From.Gravity {
				return 1
			}
			return 0
		}
		early, likely, late = early+open(b.Early), likely+open(b.Likely), late+open(b.Late)
	}
	was := float64(likely) / float64(logs)
	off := 3*math.Sqrt(said*(1-said)/float64(logs)) + slack
	t.Logf("the window is said to be open with %.3f, and was in %.3f of %d; at the early end in %d, at the late in %d", said, was, logs, early, late)
	if math.Abs(was-said) > off {
		t.Errorf("the window is said to be open with %.3f, and was in %.3f of %d", said, was, logs)
	}
	if likely <= early || likely <= late {
		t.Errorf("open %d times when it is said to be likeliest, %d at the early end, %d at the late", likely, early, late)
	}
}
