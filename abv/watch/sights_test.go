package watch

import (
	"math"
	"testing"
)

// Up to 48 readings are seen one by one; of more the mean of each group, whose noise
// falls with the root of their number, to a half. The model's own error stays.
func TestSights(t *testing.T) {
	if seen := sights(make([]read, 49), func(read) float64 { return 2 }); len(seen) != 25 {
		t.Errorf("49 readings: %d sights, want 24 pairs and one", len(seen))
	}
	two := make([]read, 50)
	for i := range two {
		two[i] = read{index: i, used: float64(i), uncertainty: 1 + float64(i)}
	}
	first := sights(two, func(r read) float64 { return 10 * float64(r.index) })[0]
	if first.day != 5 || first.used != 0.5 || math.Abs(first.noise-1.5/math.Sqrt2) > 1e-12 {
		t.Errorf("the mean of the first two of 50 readings: %+v", first)
	}
	for n, want := range map[int]float64{1: 0.01, 48: 0.01, 96: 0.01 / math.Sqrt2, 192: 0.005, 48 * 9: 0.005} {
		reads := make([]read, n)
		for i := range reads {
			reads[i] = read{used: 0.5, uncertainty: 0.01}
		}
		seen := sights(reads, func(read) float64 { return 2 })
		if len(seen) > 48 {
			t.Errorf("%d readings: %d sights", n, len(seen))
		}
		for _, s := range seen {
			if math.Abs(s.noise-want) > 1e-12 || math.Abs(s.uncertainty-math.Hypot(want, 0.02)) > 1e-12 || math.Abs(s.used-0.5) > 1e-12 || math.Abs(s.day-2) > 1e-12 {
				t.Errorf("%d readings: %+v, noise %v", n, s, want)
			}
		}
	}
}
