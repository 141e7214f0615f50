package watch_test

import (
	"math"
	"testing"

	"example.org/mutage/abv/watch"
)

// The uncertainty of a rate of two readings is that of their difference over the
// days between them: a reading is known to 0.7 points, and of the must, which is
// the measure of all others, nothing is added. By hand, with a fall that is as
// good as straight over a few points.
func TestTheRateIsKnownByTheDaysBetweenReadings(t *testing.T) {
	const reading = 0.7
	for _, x := range []struct {
		name string
		log  []watch.Reading
		want float64
	}{
		{"two days from the must", readings(0, 1.09, 48, 1.07), reading / 2},
		{"half a day from the must", readings(0, 1.09, 12, 1.085), reading / 0.5},
		{"two days between readings", readings(0, 1.09, 24, 1.085, 72, 1.065), math.Hypot(reading, reading) / 2},
		{"half a day between readings", readings(0, 1.09, 24, 1.085, 36, 1.08), math.Hypot(reading, reading) / 0.5},
	} {
		c, err := watch.Follow(x.log, watch.Setup{})
		if err != nil || math.Abs(c.RateUncertainty/x.want-1) > 0.1 {
			t.Errorf("%s: falls by %.2f points a day, known to %.3f, by hand %.3f, %v", x.name, c.Rate, c.RateUncertainty, x.want, err)
		}
	}
}
