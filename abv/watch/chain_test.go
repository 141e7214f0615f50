package watch

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// chains are random readings, some of one time, of one uncertainty or of several.
func chains(r *rand.Rand, n int, same bool) []read {
	reads := []read{{time: noon, uncertainty: 0.02}}
	at := 0
	for i := range n - 1 {
		at += r.IntN(3)
		u := 0.02
		if !same {
			u = 0.01 + 0.1*r.Float64()
		}
		reads = append(reads, read{index: i + 1, time: onDay(float64(at)), used: r.Float64() * 0.5, uncertainty: u})
	}
	return reads
}

// The chain is the longest of all sets from the must on in which each reading is later than
// the one before it and not above it by more than twice the larger uncertainty; of equally
// long ones the most fermented. Against all sets.
func TestTheChainIsTheBestOfAllSets(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	for trial := range 150 {
		reads := chains(r, 2+r.IntN(8), trial%2 == 0)
		longest, most := 0, 0.0
		for set := 1; set < 1<<len(reads); set += 2 { // with the first
			length, total, good, last := 0, 0.0, true, 0
			for i, b := range reads {
				if set>>i&1 == 0 {
					continue
				}
				a := reads[last]
				if i > 0 && (!b.time.After(a.time) || a.used-b.used > 2*max(a.uncertainty, b.uncertainty)) {
					good = false
				}
				length, total, last = length+1, total+b.used, i
			}
			if good && (length > longest || length == longest && total > most) {
				longest, most = length, total
			}
		}
		length, total := 0, 0.0
		for i, kept := range chain(reads) {
			if kept {
				length, total = length+1, total+reads[i].used
			}
		}
		if length != longest || math.Abs(total-most) > 1e-12 {
			t.Fatalf("%+v: %d readings, together %v; best %d, %v", reads, length, total, longest, most)
		}
	}
}

// A reading off the chain shares its time with one that was kept, or lies above one that
// was kept before it, or is too low.
func TestWhyAReadingIsOffTheChain(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	seen := map[Reason]int{}
	for range 200 {
		reads := chains(r, 9, true)
		kept := chain(reads)
		for i, got := range contradictions(reads, kept) {
			want := TooLow
			for j := range reads {
				if kept[j] && j < i && reads[j].used-reads[i].used > 2*0.02 {
					want = Rising
				}
			}
			for j := range reads {
				if kept[j] && reads[j].time.Equal(reads[i].time) {
					want = RepeatedTime
				}
			}
			if kept[i] {
				want = 0
			}
			if seen[want]++; got != want {
				t.Fatalf("%+v, kept %v: reading %d is %d, want %d", reads, kept, i, got, want)
			}
		}
	}
	for _, c := range []struct {
		used   []float64
		off    int
		reason Reason
	}{
		{[]float64{0, 0.3, 0.335, 0.29, 0.294}, 2, TooLow},           // 0.045 below those behind it, and not above 0.3
		{[]float64{0, 0.3, 0.27, 0.24, 0.255, 0.21, 0.2}, 4, Rising}, // not above the last before it, but above 0.3
	} {
		var reads []read
		for i, used := range c.used {
			reads = append(reads, read{index: i, time: onDay(float64(i)), used: used, uncertainty: 0.02})
		}
		for i, got := range contradictions(reads, chain(reads)) {
			if got != c.reason && i == c.off || got != 0 && i != c.off {
				t.Errorf("%v: reading %d: %v", c.used, i, got)
			}
		}
	}
	if len(seen) != 4 {
		t.Errorf("reasons seen: %v", seen)
	}
}

// Of several readings at the start the densest is the must, whichever stands first.
func TestTheDensestReadingOfTheStartIsTheMust(t *testing.T) {
	for _, og := range [][2]gravity.SG{{1.09, 1.095}, {1.095, 1.09}} {
		log := []Reading{{Time: noon, Reading: og[0]}, {Time: noon, Reading: og[1]}, {Time: onDay(1), Reading: 1.08}}
		if c, err := Follow(log, Setup{}); err != nil || !near(float64(c.Original), 1.095, 1e-9) || len(c.Apart) != 1 || c.Apart[0].Reason != RepeatedTime {
			t.Errorf("%v: %v, %+v, %v", og, c.Original, c.Apart, err)
		}
	}
}

// late is a log of a must of 1.095 that begins with these shares used, on days 3, 4 ...
func late(t *testing.T, setup Setup, used ...float64) (Course, error) {
	t.Helper()
	m, _ := one(t, Setup{})
	var log []Reading
	for i, u := range used {
		log = append(log, Reading{Time: onDay(3 + float64(i)), Reading: m.at(u).Gravity, Temperature: units.Celsius(20)})
	}
	setup.Original = 1.095
	return Follow(log, setup)
}

// A log that begins late is drawn back to the must along its first two readings that
// differ, by a fortnight at most; a day where none do.
func TestALateLogIsDrawnBack(t *testing.T) {
	for _, c := range []struct {
		name string
		used []float64
		want float64 // day
	}{
		{"by 0.2 at 0.1 a day", []float64{0.2, 0.3}, 1},
		{"by 0.3 at 0.05 a day", []float64{0.3, 0.301, 0.4}, 3 - 0.3/0.05},
		{"a fortnight at most", []float64{0.5, 0.52, 0.54}, 3 - 14},
		{"a day from one reading", []float64{0.3}, 2},
		{"a day where all are equal", []float64{0.3, 0.3}, 2},
	} {
		got, err := late(t, Setup{}, c.used...)
		if err != nil || math.Abs(got.Begins.Sub(onDay(c.want)).Minutes()) > 30 || got.Original != 1.095 || len(got.Points) != len(c.used) {
			t.Errorf("%s: begins %.2f days before day 3, want %.2f, %v", c.name, onDay(3).Sub(got.Begins).Hours()/24, 3-c.want, err)
		}
	}
	m, _ := one(t, Setup{})
	u := 0.0007 / m.drop // two readings differ beyond twice that
	for times, want := range map[float64]float64{1.98: 2, 2.02: 3 - 0.02/(2.02*u)} {
		got, err := late(t, Setup{}, 0.02, 0.02+times*u)
		if err != nil || math.Abs(got.Begins.Sub(onDay(want)).Minutes()) > 30 {
			t.Errorf("%v uncertainties: begins %v, want day %v, %v", times, got.Begins, want, err)
		}
	}
}

// Readings before the start are the must's within two uncertainties either way.
func TestAReadingBeforeTheStartIsTheMusts(t *testing.T) {
	m, _ := one(t, Setup{})
	u := 0.0007 / m.drop
	for times, apart := range map[float64]int{1.98: 0, 2.02: 1} {
		if c, err := late(t, Setup{Started: onDay(3.5)}, times*u, 0.1, 0.2); err != nil || len(c.Apart) != apart {
			t.Errorf("%v uncertainties below the must: %+v, %v", times, c.Apart, err)
		}
	}
	for times, apart := range map[float64]int{1.98: 0, 2.02: 1} {
		log := []Reading{{Time: onDay(3), Reading: 1.095 + gravity.SG(0.0007*times), Temperature: units.Celsius(20)}, {Time: onDay(4), Reading: 1.08}}
		if c, err := Follow(log, Setup{Original: 1.095, Started: onDay(3.5)}); err != nil || len(c.Apart) != apart {
			t.Errorf("%v uncertainties above the must: %+v, %v", times, c.Apart, err)
		}
	}
}

// A log spans five years at most, and so does the time since the start.
func TestALogSpansFiveYears(t *testing.T) {
	const year = 365.0
	for years, good := range map[float64]bool{4.95: true, 5.05: false, -4.95: true, -5.05: false} {
		log := []Reading{{Time: noon, Reading: 1.095}, {Time: onDay(years * year), Reading: 1.05}, {Time: onDay(1), Reading: 1.09}}
		if _, err := Follow(log, Setup{}); (err == nil) != good {
			t.Errorf("%v years: %v", years, err)
		}
	}
	for years, good := range map[float64]bool{4.95: true, 5.05: false, -0.1: false} {
		if _, err := late(t, Setup{Started: onDay(5 - years*year), Now: onDay(5)}, 0.1, 0.2); (err == nil) != good {
			t.Errorf("started %v years before: %v", years, err)
		}
	}
	log := []Reading{{Time: noon, Reading: 1.095, Mass: 1000}, {Time: onDay(1), Mass: 999}}
	for must, good := range map[units.Volume]bool{0: false, 0.99e-6: false, 1.01e-6: true} {
		if _, err := Follow(log, Setup{Must: must}); (err == nil) != good {
			t.Errorf("weighed, %v L of must: %v", float64(must), err)
		}
	}
}

// An hour's mean is of what was noted in it, each column by itself.
func TestAnHourIsTheMeanOfWhatWasNoted(t *testing.T) {
	at := func(minutes float64) Reading { return Reading{Time: onDay(minutes / 1440)} }
	a, b, c := at(0), at(30), at(75)
	a.Reading, a.Mass, a.Line, a.Brix = 1.09, 5000, 7, true
	b.Refractometer, b.Mass, b.Temperature, b.Line = 20, 4990, units.Celsius(21), 8
	c.Reading, c.Line = 1.08, 9
	out := byTheHour([]Reading{a, b, c})
	if len(out) != 2 || out[1] != c {
		t.Fatalf("%+v", out)
	}
	if l := out[0]; l.Reading != 1.09 || l.Refractometer != 20 || l.Mass != 4995 || l.Temperature != units.Celsius(21) || !l.Time.Equal(onDay(15.0/1440)) || l.Line != 7 || !l.Brix {
		t.Errorf("%+v", l)
	}
}

// A must that is fermented out lies at its end, within two uncertainties.
func TestAReadingOfADryWine(t *testing.T) {
	m, _ := one(t, Setup{})
	dry := m.at(1).Gravity
	for times, apart := range map[float64]int{-0.5: 0, 0: 0, 1.98: 0, 2.02: 1} {
		log := []Reading{{Time: noon, Reading: 1.095}, {Time: onDay(3), Reading: 1.03}, {Time: onDay(9), Reading: dry - gravity.SG(0.0007*times), Temperature: units.Celsius(20)}}
		c, err := Follow(log, Setup{})
		if err != nil || len(c.Apart) != apart || apart > 0 && c.Apart[0].Reason != BelowDry {
			t.Errorf("%v uncertainties below fermented out: %+v, %v", times, c.Apart, err)
		}
	}
}

// Two readings are equal within 1.5 times the larger uncertainty: a refractometer that
// shows a hundredth of a Brix knows no more of a must than its hydrometer.
func TestTheMustIsAsUncertainAsItsHydrometer(t *testing.T) {
	m, _ := one(t, Setup{RefractometerUncertainty: 0.01})
	for times, equal := range map[float64]bool{1.45: true, 1.55: false} {
		lo, hi := m.brix-1, m.brix
		for range 40 {
			if x, err := m.fromRefractometer(gravity.Brix((lo + hi) / 2)); err == nil && x > times*0.0007/m.drop {
				lo = (lo + hi) / 2
			} else {
				hi = (lo + hi) / 2
			}
		}
		log := []Reading{{Time: noon, Reading: 1.095}, {Time: onDay(1), Refractometer: gravity.Brix(lo)}}
		whole, err1 := Follow(log, Setup{RefractometerUncertainty: 0.01})
		late, err2 := Follow(log[1:], Setup{RefractometerUncertainty: 0.01, Original: 1.095, Started: noon})
		if err1 != nil || err2 != nil || whole.Since.Equal(noon) != equal || late.Since.Equal(noon) != equal {
			t.Errorf("%v uncertainties of the hydrometer: holds since %v, and since %v; %v, %v", times, whole.Since, late.Since, err1, err2)
		}
	}
}
