package blend

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Amounts meet the wants where every one is met, as they mix; and the size, where
// the task has to fill it: the ends of what is reachable have a size of their own.
func TestAmountsAreJudgedByWhatTheyMake(t *testing.T) {
	cs := []Component{{Name: "wine", Volume: 3, Strength: 6, Extract: 140, Acid: 7}, {Name: "spirit", Strength: 75}, {Name: "water"}}
	for _, total := range []units.Volume{0, 2} {
		wants := []Want{WantStrength(18), WantExtract(90), WantAcid(4.5)}
		if total == 0 {
			wants = append(wants, WantAll(0))
		}
		r, err := Solve(total, cs, wants...)
		if err != nil {
			t.Fatal(err)
		}
		var p problem
		if err := p.pose(total, cs, wants); err != nil {
			t.Fatal(err)
		}
		times := func(by ...float64) (x amounts) {
			for i, v := range r.Volumes {
				x[i] = float64(v) / p.scale * by[i]
			}
			return x
		}
		for _, k := range []kind{cheapest, least, largest, extreme} {
			task := p.task(k, p.wants())
			sized := k == cheapest || k == least
			for _, c := range []struct {
				name  string
				x     amounts
				meets bool
			}{
				{"as found", times(1, 1, 1), true}, {"nothing", times(0, 0, 0), false},
				{"half a billionth more of all", times(1+5e-10, 1+5e-10, 1+5e-10), true}, {"half a billionth less of all", times(1-5e-10, 1-5e-10, 1-5e-10), true},
				{"two billionths more of all", times(1+2e-9, 1+2e-9, 1+2e-9), !sized}, {"two billionths less of all", times(1-2e-9, 1-2e-9, 1-2e-9), !sized},
				{"twice of all", times(2, 2, 2), !sized}, {"too much spirit", times(1, 1+1e-7, 1), false}, {"too much water", times(1, 1, 1+1e-7), false},
			} {
				if got := p.meets(&task, &c.x); got != c.meets {
					t.Errorf("total %v, kind %v, %s: %v", total, k, c.name, got)
				}
			}
		}
		for w, off := range map[int]Want{0: WantStrength(18 + 1e-7), 1: WantExtract(90 + 1e-6), 2: WantAcid(4.5 - 1e-7)} {
			task, x := p.task(cheapest, []Want{off}), times(1, 1, 1)
			if p.meets(&task, &x) {
				t.Errorf("total %v: %v is met by %v", total, off, wants[w])
			}
		}
	}
}

// A want is met to a billionth of it, or to 1e-10 g/L where it is next to nothing.
func TestAWantIsMetToABillionth(t *testing.T) {
	half := density.PureEthanol / 2 // of a litre
	for _, x := range []struct {
		want    Want
		content float64
		met     bool
	}{
		{WantExtract(100), 100 + 0.99e-7, true}, {WantExtract(100), 100 + 1.02e-7, false}, {WantExtract(100), 100 - 0.99e-7, true}, {WantExtract(100), 100 - 1.02e-7, false},
		{WantStrength(50), half, true}, {WantStrength(50), half * (1 + 0.9e-9), true}, {WantStrength(50), half * (1 + 1.1e-9), false},
		{WantAcid(0), 0.99e-10, true}, {WantAcid(0), 1.01e-10, false},
	} {
		if got := x.want.met(x.content); got != x.met {
			t.Errorf("%v by %.12g g/L: %v", x.want, x.content, got)
		}
		if g := x.want.inUnit(x.want.perLitre()); math.Abs(g-x.want.value) > 1e-12 {
			t.Errorf("%v is %v", x.want, g)
		}
	}
}

// One want alike is asked once; an empty one, one for all of a component that is
// not there and a second size are refused.
func TestWhatIsAskedIsTakenOnce(t *testing.T) {
	cs := []Component{{Volume: 2, Strength: 6}, {Volume: 3, Strength: 75}, {}}
	r, err := Solve(2, cs, WantStrength(20), WantStrength(20), WantStrength(20), WantStrength(20), WantStrength(20))
	if err != nil || r.Choices != 1 {
		t.Errorf("%+v, %v", r, err)
	}
	for _, wants := range [][]Want{{WantAll(-1)}, {WantAll(3)}, {WantAll(2)}} {
		var out *units.RangeError
		if _, err := Solve(0, cs, wants...); !errors.As(err, &out) {
			t.Errorf("%v: %v", wants, err)
		}
	}
	for _, total := range []units.Volume{0, 2} {
		if r, err := Solve(total, cs, WantAll(0), WantAll(1)); err == nil {
			t.Errorf("size %v and all of two: %+v", total, r)
		}
	}
}
