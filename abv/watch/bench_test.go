package watch_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// The cost of a reading: ns/reading of a log of so many must not grow with it.
func BenchmarkFollow(b *testing.B) {
	setup := watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}}
	for _, n := range []int{4, 10, 100, 1000, 5000} {
		log := make([]watch.Reading, n)
		for i := range log {
			part := float64(i) / float64(n-1)
			log[i] = watch.Reading{Time: start.Add(time.Duration(part * float64(6*24*time.Hour))), Reading: gravity.SG(1.092 - 0.05*part*part*(3-2*part)), Temperature: units.Celsius(21 + 2*part)}
		}
		if c, err := watch.Follow(log, setup); err != nil || len(c.Apart) > 0 {
			b.Fatal(err, len(c.Apart))
		}
		b.Run(fmt.Sprintf("%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := watch.Follow(log, setup); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/reading")
		})
	}
}
