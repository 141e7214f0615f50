package watch

import (
	"math"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// noon is when the musts of these tests begin.
var noon = time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)

func onDay(d float64) time.Time { return noon.Add(time.Duration(d * float64(day))) }

// one is a must of 1.095 as newMust makes it.
func one(t *testing.T, setup Setup) (must, Setup) {
	t.Helper()
	setup, err := setup.settled()
	if err != nil {
		t.Fatal(err)
	}
	m, err := newMust(Reading{Time: noon, Reading: 1.095}, setup)
	if err != nil {
		t.Fatal(err)
	}
	return m, setup
}

// shares is a follower of a must of 1.095 with these days and shares used, each known to
// 0.01, that has not judged yet. The last reading before the fall is the first.
func shares(t *testing.T, setup Setup, pairs ...float64) *follower {
	t.Helper()
	f := &follower{}
	f.must, f.setup = one(t, setup)
	f.Original, f.Begins = f.must.og, noon
	for i := 0; i < len(pairs); i += 2 {
		f.reads = append(f.reads, read{index: i / 2, time: onDay(pairs[i]), used: pairs[i+1], uncertainty: 0.01})
		f.Points = append(f.Points, Point{i / 2, onDay(pairs[i]), f.must.at(pairs[i+1]).Gravity})
	}
	f.Asked = f.last().time
	return f
}

// followed is a follower of readings of a must at 20 C that has judged.
func followed(t *testing.T, setup Setup, pairs ...float64) *follower {
	t.Helper()
	var log []Reading
	for i := 0; i < len(pairs); i += 2 {
		log = append(log, Reading{Time: onDay(pairs[i]), Reading: gravity.SG(pairs[i+1]), Temperature: units.Celsius(20)})
	}
	setup, err := setup.settled()
	if err != nil {
		t.Fatal(err)
	}
	s, err := sift(log, setup)
	if err != nil {
		t.Fatal(err)
	}
	f := newFollower(s, s.reads[len(s.reads)-1].time)
	if err := f.findWindow(); err != nil {
		t.Fatal(err)
	}
	f.judge()
	return f
}

// Days from the second on.
func TestHowLongIsSaid(t *testing.T) {
	for hours, want := range map[float64]string{0.6: "1 h", 47.4: "47 h", 48: "2 days", 2400: "100 days"} {
		if got := lasts(time.Duration(hours * float64(time.Hour))); got != want {
			t.Errorf("%v h: %q, want %q", hours, got, want)
		}
	}
}

// It has begun with the first reading that lies two uncertainties below the must.
func TestWhenTheGravityBeganToFall(t *testing.T) {
	for times, began := range map[float64]int{1.98: 1, 2.02: 0} {
		m, _ := one(t, Setup{})
		f := followed(t, Setup{}, 0, 1.095, 1, float64(m.at(times*0.0007/m.drop).Gravity), 2, 1.085, 3, 1.08)
		if f.began != began || len(f.sights) != 3-began || math.Abs(f.day(onDay(3))-float64(3-began)) > 1e-9 {
			t.Errorf("%v uncertainties: began with reading %d, %d seen, day %v", times, f.began, len(f.sights), f.day(onDay(3)))
		}
	}
	if f := followed(t, Setup{}, 0, 1.095, 1, 1.095); f.began != 1 || f.sights != nil {
		t.Errorf("at rest: began with reading %d, %v", f.began, f.sights)
	}
}

// The yeast's limit is known to 1 % vol, two standard uncertainties: of 8 % vol to an
// eighth of its share.
func TestCurvesEndAboutTheYeastsLimit(t *testing.T) {
	f := followed(t, Setup{YeastLimit: 8}, 0, 1.095, 1, 1.09, 2, 1.08)
	var limits []float64
	for _, c := range f.ensemble.curves {
		limits = append(limits, c.limit)
	}
	slices.Sort(limits)
	for i, got := range limits {
		z := distuv.UnitNormal.Quantile((float64(i) + 0.5) / draws)
		if want := min(1, f.must.limit*(1+z/16)); !near(got, want, 1e-9) {
			t.Fatalf("curve %d ends at %v, by hand %v", i, got, want)
		}
	}
	if got := f.must.at(f.must.limit).Strength; math.Abs(float64(got)-8) > 1e-6 {
		t.Errorf("about %v, stated 8", got)
	}
	f = followed(t, Setup{YeastLimit: 30}, 0, 1.095, 1, 1.09, 2, 1.08)
	for _, c := range f.ensemble.curves {
		if c.limit != 1 {
			t.Fatalf("a yeast that ferments all ends at %v", c.limit)
		}
	}
}
