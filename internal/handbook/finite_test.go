package handbook

import (
	"math"
	"testing"
	"time"

	"example.org/mutage/units"
)

func TestFiniteFindsANumberThatIsNoneHoweverDeep(t *testing.T) {
	type inner struct{ Low, high float64 }
	type result struct {
		Of   map[string][]inner
		At   *units.Volume
		When time.Time
		Any  any
	}
	nan, one := units.Volume(math.NaN()), units.Volume(1)
	for name, x := range map[string]struct {
		v    any
		want int
	}{
		"good":             {result{Of: map[string][]inner{"a": {{1, 2}}}, At: &one, When: time.Now(), Any: 3.0}, 0},
		"in a map":         {result{Of: map[string][]inner{"a": {{1, math.Inf(1)}}}}, 1},
		"behind a pointer": {result{At: &nan}, 1},
		"as any":           {result{Any: [2]float64{math.NaN(), math.Inf(-1)}}, 2},
		"bare":             {math.NaN(), 1},
	} {
		f := &fake{}
		Finite(f, "x", x.v)
		if len(f.errors) != x.want {
			t.Errorf("%s: %q", name, f.errors)
		}
	}
}
