package abv_test

import (
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// FuzzSugars: what is not sugar leaves a range in order, between nothing and the
// extract, and the strength it may ferment to likewise.
func FuzzSugars(f *testing.F) {
	f.Add(0, 142.0, 1.0, 25.0, 5.0, 1.092)
	f.Add(1, 20.0, 0.3, 0.0, 0.0, 1.001)
	f.Add(5, 0.0, 0.0, 200.0, 100.0, 1.2)
	f.Fuzz(func(t *testing.T, kind int, extract, share, stated, limit, og float64) {
		kinds := abv.NotSugarKinds()
		n, err := abv.NotSugarOf(kinds[(kind%len(kinds)+len(kinds))%len(kinds)])
		if err != nil {
			t.Fatal(err)
		}
		all := []abv.NotSugar{n}
		if s, err := abv.StatedNotSugar(units.Concentration(stated), units.Concentration(limit)); err == nil {
			all = append(all, s)
		}
		for _, n := range all {
			handbook.Finite(t, "NotSugar", n)
			if s, err := n.Sugars(units.Concentration(extract), share); err == nil {
				handbook.Finite(t, "Sugars", s)
				if !(s.Low >= 0 && s.Low <= s.Likely && s.Likely <= s.High && float64(s.High) <= extract) {
					t.Errorf("of %v g/L, share %v: %+v", extract, share, s)
				}
			}
			low, likely, high, err := abv.PotentialRange(gravity.SG(og), abv.Fruit, abv.End{NotSugar: n})
			if err != nil {
				continue
			}
			handbook.Finite(t, "PotentialRange", []abv.Fermented{low, likely, high})
			if low.Strength > likely.Strength || likely.Strength > high.Strength {
				t.Errorf("SG %v: %v, %v, %v", og, low.Strength, likely.Strength, high.Strength)
			}
		}
	})
}
