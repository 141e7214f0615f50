package watch_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// watchRandom is a log in which anything may happen: a fermentation of any
// speed, read with any noise, with lines that repeat, run back, weigh, or lie.
func random(r *rand.Rand, lines int) []watch.Reading {
	og, speed, noise := 1.02+0.2*r.Float64(), math.Exp(4*r.NormFloat64()), 0.01*math.Pow(r.Float64(), 4)
	log := []watch.Reading{{Time: start, Reading: gravity.SG(og), Mass: 30000}}
	hour := 0.0
	for range lines {
		hour += 30*r.ExpFloat64() - 2*math.Floor(1.1*r.Float64())*hour
		left := math.Exp(-speed * max(hour, 0) / 100)
		l := watch.Reading{Time: after(hour), Reading: gravity.SG(0.99 + (og-0.99)*left + noise*r.NormFloat64())}
		switch r.IntN(12) {
		case 0:
			l.Time = log[len(log)-1].Time
		case 1:
			l.Reading, l.Mass = 0, units.Mass(30000-2000*(1-left)+50*r.NormFloat64())
		case 2:
			l.Reading = gravity.SG(0.96 + 0.3*r.Float64())
		case 3, 4, 5:
			l.Temperature = units.Celsius(40 * r.Float64())
		}
		log = append(log, l)
	}
	return log
}

func finite(t *testing.T, name string, x ...float64) {
	t.Helper()
	for _, x := range x {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s is %v", name, x)
		}
	}
}

// watchHolds checks what must hold of any course.
func holds(t *testing.T, log []watch.Reading, c watch.Course) {
	t.Helper()
	seen := make([]bool, len(log))
	see := func(i int) {
		if seen[i] {
			t.Errorf("reading %d comes twice", i)
		}
		seen[i] = true
	}
	for _, p := range c.Points {
		see(p.Index)
		finite(t, "a point", float64(p.Gravity))
	}
	for _, a := range c.Apart {
		see(a.Index)
	}
	for i, s := range seen {
		if !s {
			t.Errorf("reading %d is lost", i)
		}
	}
	finite(t, "the rate", c.Rate, c.RateUncertainty)
	if c.Why == "" || c.ReadAgainBy.IsZero() != (c.State == watch.Finished || c.State == watch.Stopped) || c.RateUncertainty < 0 {
		t.Errorf("%q, read again by %v, rate uncertainty %v", c.Why, c.ReadAgainBy, c.RateUncertainty)
	}
	span := c.Horizon.Sub(c.Begins)
	if span < 0 {
		t.Errorf("horizon %v", c.Horizon)
	}
	last := watch.Outlook{}
	for i := range 21 {
		o, ok := c.At(c.Begins.Add(span / 20 * time.Duration(i)))
		if !ok {
			t.Fatalf("no course %d twentieths to the horizon", i)
		}
		for _, f := range []abv.Fermented{o.Less, o.Likely, o.More} {
			finite(t, "the outlook", float64(f.Gravity), float64(f.Strength), float64(f.Extract))
		}
		const rounding = 1e-9
		if o.Less.Strength > o.Likely.Strength+rounding || o.Likely.Strength > o.More.Strength+rounding {
			t.Errorf("out of order: %v, %v, %v", o.Less.Strength, o.Likely.Strength, o.More.Strength)
		}
		if i > 0 && (o.Less.Strength < last.Less.Strength-rounding || o.Likely.Gravity > last.Likely.Gravity+rounding || o.More.Strength < last.More.Strength-rounding) {
			t.Errorf("runs back: %v after %v", o, last)
		}
		last = o
	}
	for g := c.Original; g > 0.985; g -= 0.013 {
		f, err := c.Reaches(g)
		if err != nil {
			break // drier than dry
		}
		finite(t, "a chance", f.Chance)
		for _, at := range []time.Time{f.Early, f.Likely, f.Late} {
			if at.After(c.Horizon) || !at.IsZero() && at.Before(c.Begins.Add(-time.Second)) {
				t.Errorf("%.4f is forecast for %v, horizon %v", float64(g), at, c.Horizon)
			}
		}
		if f.Chance < 0 || f.Chance > 1+1e-9 || !f.Likely.IsZero() && f.Likely.Before(f.Early) || !f.Late.IsZero() && f.Late.Before(f.Likely) {
			t.Errorf("%.4f: %+v", float64(g), f)
		}
	}
}

// FuzzWatch: no log makes Watch panic, lose a reading, or answer with NaN or Inf.
func FuzzWatch(f *testing.F) {
	for seed := range uint64(60) {
		f.Add(seed, uint8(seed), 1.05, 20.0, 0.0, 30.0, int64(0))
	}
	f.Add(uint64(1), uint8(3), math.NaN(), 20.0, 0.0, 30.0, int64(0))
	f.Add(uint64(2), uint8(3), 0.0, 50.0, math.Inf(1), 1e300, int64(math.MaxInt64))
	f.Add(uint64(3), uint8(9), 1.01, -1.0, 29000.0, -1e300, int64(math.MinInt64))
	f.Fuzz(func(t *testing.T, seed uint64, lines uint8, reading, at, mass, hour float64, now int64) {
		log := random(rand.New(rand.NewPCG(seed, 5)), int(lines%40))
		if seed%2 == 1 {
			log = append(log, watch.Reading{Time: start.Add(time.Duration(hour * float64(time.Hour))), Reading: gravity.SG(reading),
				Temperature: units.Celsius(at), Mass: units.Mass(mass)})
		}
		plan := watch.Setup{Must: 20, Now: time.Unix(0, now)}
		if now == 0 {
			plan.Now = time.Time{}
		}
		if seed%3 == 1 {
			plan.Goal = abv.Goal{MinStrength: 1.5, MinExtract: 10}
			plan.Arrested = after(50)
		}
		c, err := watch.Follow(log, plan)
		if err != nil {
			var r *units.RangeError
			if !errors.Is(err, watch.ErrLog) && !errors.As(err, &r) && !errors.Is(err, abv.ErrNoWindow) || len(c.Points) != 0 {
				t.Errorf("%v, %d points", err, len(c.Points))
			}
			return
		}
		holds(t, log, c)
	})
}

// A long log, kept by a sensor: every reading is named.
func TestWatchManyReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	log := readings(0, 1.09)
	for i := range 1500 {
		log = append(log, readings(float64(i+1)/6, 1.09-0.06*float64(i)/1500+0.0005*r.NormFloat64())...)
	}
	c, err := watch.Follow(log, watch.Setup{})
	if err != nil || len(c.Points) < 1400 || c.State != watch.Fermenting {
		t.Fatal(err, len(c.Points), c.Why)
	}
	holds(t, log, c)
}

// The window never opens before the last reading while it is ahead, and its state
// is that of the likely wine at the time asked for.
func TestTheWindowAheadIsAhead(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	ahead, later := 0, 0
	logs := 4000
	if testing.Short() {
		logs = 40
	}
	for range logs {
		s := simulate(grapeMust(r), r)
		log, _ := onTheWay(t, s, r, 1+r.IntN(8))
		setup := watch.Setup{Goal: abv.Goal{MinStrength: units.Strength(between(r, 3, 7))}}
		setup.Goal.MaxStrength = setup.Goal.MinStrength + 1
		if r.IntN(2) == 0 {
			setup.Now = log[len(log)-1].Time.Add(time.Duration(between(r, 0, 96) * float64(time.Hour)))
		}
		c, err := watch.Follow(log, setup)
		if err != nil {
			t.Fatal(err)
		}
		last := c.Points[len(c.Points)-1]
		if last.Gravity > c.Window.From.Gravity {
			ahead++
			for _, at := range []time.Time{c.Window.Opens.Early, c.Window.Closes.Early, c.Window.ComeBack.Early} {
				if !at.IsZero() && at.Before(last.Time) {
					t.Errorf("opens %+v, closes %+v, come back %+v; last read %v", c.Window.Opens, c.Window.Closes, c.Window.ComeBack, last.Time)
				}
			}
		}
		g := c.Now.Likely.Gravity
		want := watch.WindowAhead
		if g < c.Window.To.Gravity {
			want = watch.WindowPassed
		} else if g <= c.Window.From.Gravity {
			want = watch.WindowOpen
		}
		if c.Window.State != want {
			t.Errorf("%v at a likely %.4f, window %.4f to %.4f", c.Window.State, float64(g), float64(c.Window.From.Gravity), float64(c.Window.To.Gravity))
		}
		if c.Asked.After(last.Time) {
			later++
		}
		for i := 1; i < len(c.Path); i++ {
			if c.Path[i].Likely.Gravity > c.Path[i-1].Likely.Gravity+1e-12 || !c.Path[i].Time.After(c.Path[i-1].Time) {
				t.Errorf("the likely gravity rises by %g", float64(c.Path[i].Likely.Gravity-c.Path[i-1].Likely.Gravity))
			}
		}
	}
	if ahead < logs/5 || later < logs/5 {
		t.Errorf("%d ahead, %d asked later of %d", ahead, later, logs)
	}
}
