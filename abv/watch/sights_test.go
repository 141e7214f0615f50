package watch

import (
	"math"
	"testing"
)

// Up to 48 readings are seen one by one; of more the mean of each group, whose noise
// falls with the root of their number, to a half. The model's own error stays.
func TestSights(t *testing.T) {
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
