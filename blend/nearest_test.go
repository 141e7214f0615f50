package blend

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"example.org/mutage/units"
)

// An end is a local optimum as a plan is: of 455,124 blends 4 lay beyond, by less
// than 0.1 %.
func TestTheNearestBlendIsNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	missed, compared, beyond := 0, 0, 0
	for i := range 1000 * *problems {
		q := someProblem(r, i%2 == 0, true)
		_, err := Solve(q.total, q.cs, q.wants...)
		var u *UnreachableError
		if !errors.As(err, &u) {
			continue
		}
		missed++
		if u.Want.quantity == size {
			continue
		}
		if value := u.Want.of(u.Nearest); u.Low > u.High || u.Want.value >= u.Low && u.Want.value <= u.High || value != u.Low && value != u.High ||
			(u.Want.value > u.High) != (value == u.High) && u.Low != u.High {
			t.Errorf("%d: %v, nearest %v\n%v", i, u, value, q)
		}
		var p problem
		if err := p.pose(q.total, q.cs, q.wants); err != nil {
			t.Fatal(err)
		}
		_, held := p.failing()
		held = append([]Want(nil), held...)
		if q.total == 0 {
			held = append(held, WantAll(p.whole))
		}
		beside := posed{q.total, q.cs, held}
		beside.scan(r, 30, nil, func(x []float64) {
			compared++
			poured := make([]Component, len(x))
			for k := range x {
				poured[k] = q.cs[k]
				poured[k].Volume = units.Volume(max(0, x[k]))
			}
			m, err := Mix(poured...)
			if err != nil {
				return
			}
			switch value := u.Want.of(m); {
			case value < u.Low*0.999-1e-3 || value > u.High*1.001+1e-3:
				t.Errorf("%d: %v, but %v makes %.8g\n%v", i, u, x, value, q)
			case value < u.Low-1e-5*(1+u.Low) || value > u.High+1e-5*(1+u.High):
				beyond++
				t.Logf("%d: %v, but %v makes %.8g\n%v", i, u, x, value, q)
			}
		})
	}
	t.Logf("%d not reachable, %d blends compared, %d beyond the ends by less than 0.1 %%", missed, compared, beyond)
	if beyond*50000 > compared {
		t.Errorf("%d of %d blends lie beyond the ends", beyond, compared)
	}
}

// Every change, typed in at the digits that are printed, does what it says.
func TestEveryChangeDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	missed, tried := 0, 0
	for i := range 1000 * *problems {
		q := someProblem(r, i%2 == 0, true)
		for k := range q.cs {
			q.cs[k].Name = string(rune('a' + k))
		}
		_, err := Solve(q.total, q.cs, q.wants...)
		var u *UnreachableError
		if !errors.As(err, &u) {
			continue
		}
		missed++
		for _, c := range u.Changes {
			tried++
			typed, err := strconv.ParseFloat(digits(c.To), 64)
			if err != nil || typed != c.To {
				t.Fatalf("%d: %q is %v", i, digits(c.To), c.To)
			}
			to := posed{q.total, append([]Component(nil), q.cs...), q.wants}
			for k := range to.cs {
				if to.cs[k].Name == c.Component {
					switch c.Quantity {
					case "volume":
						to.cs[k].Volume = units.Volume(typed)
					case "strength":
						to.cs[k].Strength = units.Strength(typed)
					case "extract":
						to.cs[k].Extract = units.Concentration(typed)
					}
				}
			}
			if c.Quantity == "vessel" {
				to.total = units.Volume(typed)
			}
			p, err := Solve(to.total, to.cs, to.wants...)
			if err != nil {
				t.Errorf("%d: %v, but then %v\n%v", i, c, err, q)
				continue
			}
			if off, what := to.off(p); off > 2e-9 {
				t.Errorf("%d: %v: %s", i, c, what)
			}
		}
	}
	t.Logf("%d not reachable, %d changes tried", missed, tried)
}

// The same of two liquids, all of the base and as much of the other as it takes.
func TestEveryChangeOfTwoLiquidsDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	tried := 0
	for range 2000 * *problems {
		base, other := someLiquid(r, false), someLiquid(r, false)
		base.Name, other.Name, base.Volume = "base", "other", units.Volume(5*r.Float64())
		if r.IntN(2) == 0 {
			other.Volume = units.Volume(2 * r.Float64())
		}
		want := WantStrength(units.Strength(r.IntN(30)))
		if r.IntN(2) == 0 {
			want = WantExtract(units.Concentration(200 * r.Float64()))
		}
		_, err := addTo(base, other, want, math.Inf(1))
		var u *UnreachableError
		if !errors.As(err, &u) {
			continue
		}
		for _, c := range u.Changes {
			tried++
			b, o := base, other
			to := map[string]*Component{"base": &b, "other": &o}[c.Component]
			switch c.Quantity {
			case "volume":
				to.Volume = units.Volume(c.To)
			case "strength":
				to.Strength = units.Strength(c.To)
			case "extract":
				to.Extract = units.Concentration(c.To)
			}
			if _, err := addTo(b, o, want, math.Inf(1)); err != nil {
				t.Errorf("%v, but then %v\n%+v\n%+v", c, err, base, other)
			}
		}
	}
	if tried < 200 {
		t.Errorf("only %d changes tried", tried)
	}
}
