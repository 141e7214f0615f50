package watch_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
)

// start is when all test logs begin.
var start = time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC)

func after(hours float64) time.Time { return start.Add(time.Duration(hours * float64(time.Hour))) }

// A tally counts where the time that came lies to the intervals.
type tally struct {
	held, early, late int
	off               []float64 // of the likely time, of the time since the start, in %
}

func (s *tally) n() int { return s.held + s.early + s.late }

// add counts a forecast, made so that nothing but its horizon limits it, against
// the hour that came; infinite where the gravity was never reached.
func (s *tally) add(f watch.Forecast, came float64) {
	hours := func(at time.Time) float64 {
		if at.IsZero() {
			return math.Inf(1)
		}
		return at.Sub(start).Hours()
	}
	switch {
	case came < hours(f.Early):
		s.early++
	case came > hours(f.Late):
		s.late++
	default:
		s.held++
	}
	if likely := hours(f.Likely); !math.IsInf(likely, 0) && !math.IsInf(came, 0) {
		s.off = append(s.off, 100*math.Abs(likely-came)/came)
	}
}

func (s *tally) plus(others ...*tally) *tally {
	for _, o := range others {
		s.held, s.early, s.late, s.off = s.held+o.held, s.early+o.early, s.late+o.late, append(s.off, o.off...)
	}
	return s
}

func (s *tally) percent(k int) float64 { return 100 * float64(k) / float64(s.n()) }

// report logs a line of the accuracy report: how often the 80 % interval held, with
// the binomial uncertainty of that, and which side was missed.
func (s *tally) report(t *testing.T, name string) {
	t.Helper()
	p := s.percent(s.held)
	slices.Sort(s.off)
	t.Logf("rms | %s | %d | 80 %% interval holds %.1f ± %.1f %%, came earlier %.1f, later %.1f; the likely time is off by %.0f %% in the median",
		name, s.n(), p, 1.96*math.Sqrt(p*(100-p)/float64(s.n())), s.percent(s.early), s.percent(s.late), s.off[len(s.off)/2])
}

const farAhead = 100 * 24 * time.Hour

// forecast follows a log and says when the gravity comes; false where there is no
// forecast.
func forecast(t *testing.T, log []watch.Reading, level, uncertainty gravity.SG) (watch.Forecast, bool) {
	t.Helper()
	c, err := watch.Follow(log, watch.Setup{Horizon: farAhead, Uncertainty: uncertainty})
	if err != nil {
		t.Fatal(err)
	}
	f, err := c.Reaches(level)
	if err != nil {
		t.Fatal(err)
	}
	return f, c.Method != watch.NoForecast
}

// skipTrials leaves thousands of forecasts to a run without -short.
func skipTrials(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("thousands of simulated forecasts: half a minute without -short")
	}
}

// A family is a kind of must and yeast that batches are drawn from.
type family struct {
	name string
	draw func(*rand.Rand) kinetics
}

// read is the log of a batch that was read at these hours, with the noise of a
// hydrometer.
func (s simulation) read(t testing.TB, r *rand.Rand, hours []float64) []watch.Reading {
	t.Helper()
	const noise = 0.0007
	og, _ := s.gravity(t, 0)
	log := []watch.Reading{{Time: start, Reading: og}}
	for _, h := range hours {
		_, now := s.gravity(t, s.at(h))
		log = append(log, watch.Reading{Time: after(h), Reading: now + gravity.SG(noise*r.NormFloat64())})
	}
	return log
}

// onTheWay reads a batch n times up to a random point of its way, 10 to 75 of 100,
// and asks for a random gravity behind it, up to 95 of 100 of what is ever used.
func onTheWay(t testing.TB, s simulation, r *rand.Rand, n int) (log []watch.Reading, used float64) {
	reach := s.used[len(s.used)-1]
	here := between(r, 0.1, 0.75) * reach
	end := s.when(here)
	var hours []float64
	for i := range n {
		h := end
		if i < n-1 {
			h *= (float64(i+1) - 0.5*r.Float64()) / float64(n)
		}
		hours = append(hours, h)
	}
	return s.read(t, r, hours), between(r, here+0.05*reach, 0.95*reach)
}

// byTheDay reads a batch on the days of a laboratory, 3, 5, 7, 11 and 13, n of them,
// and asks for what is used on the next; false where it is at rest by then.
func byTheDay(t testing.TB, s simulation, r *rand.Rand, n int) (log []watch.Reading, used float64, ok bool) {
	days := []float64{72, 120, 168, 264, 312}
	if n >= len(days) {
		return nil, 0, false
	}
	used = s.at(days[n])
	if used > 0.97*s.at(days[len(days)-1]) || used-s.at(days[n-1]) < 0.01 {
		return nil, 0, false
	}
	return s.read(t, r, days[:n]), used, true
}

// forecasts draws batches of a family until there are so many forecasts from n
// readings, three to eight where n is 3: four of five on the way, the others by the
// day.
func forecasts(t *testing.T, f family, n, want int) *tally {
	t.Helper()
	s, r := &tally{}, rand.New(rand.NewPCG(uint64(n), 8))
	for drawn := 0; s.n() < want; drawn++ {
		batch := simulate(f.draw(r), r)
		readings := n
		if n == 3 {
			readings += r.IntN(6)
		}
		log, used := onTheWay(t, batch, r, readings)
		if drawn%5 == 4 {
			if n == 3 {
				readings = 3 + r.IntN(2)
			}
			if l, u, ok := byTheDay(t, batch, r, readings); ok {
				log, used = l, u
			}
		}
		_, level := batch.gravity(t, used)
		if f, ok := forecast(t, log, level, 0); ok {
			s.add(f, batch.when(used))
		}
	}
	return s
}

// On musts and yeasts that the prior was not fitted to the 80 % interval holds 76 to
// 86 %, and neither side is missed much more often than the other. One kind of must by
// itself may lie further off. Of the model the errors (off, delay, sooner, later) were chosen
// in round numbers with a look at these musts too, so that this table is no blind test:
// see the measured fermentations for what was asked afterwards.
func TestIntervalsHoldOnMustsThatThePriorWasNotFittedTo(t *testing.T) {
	skipTrials(t)
	const least, most, uneven, each = 76, 86, 6, 670
	unknown := []family{
		{"grape must (Coleman et al. 2007), 12 to 28 C, 80 to 350 mg/L of nitrogen", grapeMust},
		{"grape must (the same), cool and poor: 11 to 18 C, 70 to 140 mg/L", poorMust},
		{"wort (de Andres-Toro et al. 1998), 8 to 20 C", pilotWort},
	}
	for n, class := range map[int]string{1: "one reading", 2: "two readings", 3: "three to eight readings"} {
		t.Run(class, func(t *testing.T) {
			t.Parallel()
			all := &tally{}
			for _, f := range unknown {
				s := forecasts(t, f, n, each)
				s.report(t, fmt.Sprintf("Forecasts from %s: %s", class, f.name))
				all.plus(s)
			}
			all.report(t, fmt.Sprintf("Forecasts from %s: all musts that the prior was not fitted to", class))
			if p := all.percent(all.held); p < least || p > most {
				t.Errorf("%s: the interval holds %.1f %%", class, p)
			}
			if e, l := all.percent(all.early), all.percent(all.late); math.Abs(e-l) > uneven {
				t.Errorf("%s: %.1f %% came before the interval and %.1f %% behind it", class, e, l)
			}
		})
	}
}

// The same for those that it was set with, which shows what is lost on others.
func TestIntervalsOfMustsThatThePriorWasSetWith(t *testing.T) {
	skipTrials(t)
	t.Parallel()
	for n, class := range map[int]string{1: "one reading", 2: "two readings", 3: "three to eight readings"} {
		all := &tally{}
		for _, f := range []family{{"", coldWort(t)}, {"", fixedMust}} {
			all.plus(forecasts(t, f, n, 200))
		}
		all.report(t, fmt.Sprintf("Forecasts from %s: lager wort and grape must at 25 C, which the prior was set with", class))
		if p := all.percent(all.held); p < 70 || p > 95 {
			t.Errorf("%s: the interval holds %.1f %%", class, p)
		}
	}
}

// What is not covered: a yeast that grows until the sugar is gone, as in the model of
// sugar cane juice, gets faster to the end and comes before the interval.
func TestAMustThatGetsFasterToTheEndComesEarly(t *testing.T) {
	skipTrials(t)
	t.Parallel()
	for n, class := range map[int]string{1: "one reading", 3: "three to eight readings"} {
		s := forecasts(t, family{"", caneJuice}, n, 100)
		s.report(t, fmt.Sprintf("Not covered, forecasts from %s: yeast that grows until the sugar is gone (cane juice, Oliveira et al. 2017)", class))
		if s.early < 4*s.late || s.percent(s.late) > 5 {
			t.Errorf("%s: %d early, %d late of %d", class, s.early, s.late, s.n())
		}
	}
}
