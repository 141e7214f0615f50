package blend

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/units"
)

var problems = flag.Int("problems", 1, "thousands of random problems a test")

// A posed is the arguments of Solve.
type posed struct {
	total units.Volume
	cs    []Component
	wants []Want
}

func (q posed) String() string {
	s := fmt.Sprintf("total %.17g, wants %v\n", float64(q.total), q.wants)
	for _, c := range q.cs {
		s += fmt.Sprintf("{Volume: %.17g, Strength: %.17g, Extract: %.17g, Acid: %.17g, Cost: %.17g},\n",
			float64(c.Volume), float64(c.Strength), float64(c.Extract), float64(c.Acid), c.Cost)
	}
	return s
}

// someLiquid is a wine, syrup, juice, spirit or water, or (wild) any liquid that can exist.
func someLiquid(r *rand.Rand, wild bool) (c Component) {
	for {
		switch {
		case wild:
			c = Component{Strength: units.Strength(100 * r.Float64()), Extract: units.Concentration(900 * r.Float64())}
		case r.IntN(4) == 0:
			c = Component{Strength: units.Strength(40 + 56*r.Float64())}
		case r.IntN(3) == 0:
			c = Component{Extract: units.Concentration(500 * r.Float64())}
		case r.IntN(8) == 0:
			c = Component{}
		default:
			c = Component{Strength: units.Strength(5 + 15*r.Float64()), Extract: units.Concentration(200 * r.Float64())}
		}
		c.Acid = units.Concentration(10 * r.Float64())
		if _, err := c.perLitre(); err == nil {
			c.Cost = math.Round(200*r.Float64()) / 10
			return c
		}
	}
}

// someProblem has two to six liquids and wants that some amounts of them meet, or
// (open) any.
func someProblem(r *rand.Rand, wild, open bool) (q posed) {
	q.cs = make([]Component, 2+r.IntN(5))
	poured := make([]Component, len(q.cs))
	for i := range q.cs {
		q.cs[i] = someLiquid(r, wild)
		poured[i] = q.cs[i]
		poured[i].Volume = units.Volume(4 * r.Float64())
		if r.IntN(3) == 0 && i > 0 {
			poured[i].Volume = 0
		}
		if r.IntN(3) == 0 {
			q.cs[i].Volume = poured[i].Volume*units.Volume(1+float64(r.IntN(2))*r.Float64()) + units.Volume(r.IntN(2))
		}
	}
	m, err := Mix(poured...)
	if err != nil {
		panic(err)
	}
	if open {
		m.Strength, m.Extract, m.Acid = units.Strength(40*r.Float64()), units.Concentration(200*r.Float64()), units.Concentration(10*r.Float64())
	}
	for _, w := range []Want{WantStrength(m.Strength), WantExtract(m.Extract), WantAcid(m.Acid)} {
		if r.IntN(2) == 0 && len(q.wants) < len(q.cs) {
			q.wants = append(q.wants, w)
		}
	}
	if q.total = m.Volume; r.IntN(2) == 0 {
		q.total, q.cs[0].Volume = 0, poured[0].Volume
		q.wants = append(q.wants, WantAll(0))
	}
	return q
}

// off is by how much a plan misses, relative to each want, when its volumes are
// mixed.
func (q posed) off(p Recipe) (off float64, what string) {
	poured := make([]Component, len(q.cs))
	worse := func(got, want float64, of string) {
		// Written so that NaN counts.
		if d := math.Abs(got-want) / max(want, 0.1); !(d <= off) {
			off, what = d, fmt.Sprintf("%s %.12g, wanted %.12g", of, got, want)
		}
	}
	for i, v := range p.Volumes {
		poured[i] = q.cs[i]
		poured[i].Volume = v
		if v < 0 || q.cs[i].Volume > 0 && v > q.cs[i].Volume {
			return math.Inf(1), fmt.Sprintf("volume %v of %v", v, q.cs[i].Volume)
		}
	}
	m, err := Mix(poured...)
	if err != nil {
		return math.Inf(1), err.Error()
	}
	if q.total > 0 {
		worse(float64(m.Volume), float64(q.total), "volume")
	}
	for _, w := range q.wants {
		if w.quantity == all {
			worse(float64(p.Volumes[w.index]), float64(q.cs[w.index].Volume), "volume of the whole")
		} else {
			worse(w.of(m), w.value, w.quantity.String())
			if got := w.of(p.Result); got != w.value {
				return math.Inf(1), fmt.Sprintf("the result says %v %.17g", w, got)
			}
		}
	}
	return off, what
}

func TestEveryPlanMeetsItsWants(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	solved, worst := 0, 0.0
	for i := range 1000 * *problems {
		open := i%4 == 0
		q := someProblem(r, i%2 == 0, open)
		p, err := Solve(q.total, q.cs, q.wants...)
		if errors.Is(err, ErrUnreachable) && open {
			continue
		}
		if err != nil {
			t.Errorf("%d: can be met: %v\n%v", i, err, q)
			continue
		}
		solved++
		off, what := q.off(p)
		if worst = max(worst, off); off > 2e-9 { // 1e-9 of the want and 1e-10 g/L
			t.Errorf("%d: %s\n%v", i, what, q)
		}
	}
	t.Logf("%d solved, the worst off by %.2g", solved, worst)
}

// Degenerate programmes settle: repeated wants, stocks of next to nothing, costs
// and volumes of any size. What is met is met; what is not is unreachable.
func TestSolveSettles(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	pick := func(v ...float64) float64 { return v[r.IntN(len(v))] }
	solved := 0
	for range 3000 * *problems {
		q := posed{cs: make([]Component, 1+r.IntN(6)), total: units.Volume(pick(1, 5, 1e-9, 1e12))}
		for i := range q.cs {
			q.cs[i] = Component{Strength: units.Strength(pick(0, 5, 6, 12, 40, 75, 100, 100*r.Float64())), Acid: units.Concentration(pick(0, 5, 7)),
				Cost: pick(0, 1, 5, 1e-9, 1e9*r.Float64()), Volume: units.Volume(pick(0, 0, 1, 2, 1e-9, 1e-3, 1e12, math.Pow(10, 20*r.Float64()-9)))}
			if q.cs[i].Strength < 50 {
				q.cs[i].Extract = units.Concentration(pick(0, 20, 140, 1e-11, 300*r.Float64()))
			}
		}
		q.wants = []Want{WantStrength(units.Strength(pick(0, 6, 12, 20, 100*r.Float64()))), WantExtract(units.Concentration(pick(0, 20, 140, 300*r.Float64()))), WantAcid(5)}[:r.IntN(4)]
		if len(q.wants) > 0 && r.IntN(4) == 0 {
			q.wants = append(q.wants, q.wants[0])
		}
		if r.IntN(2) == 0 {
			q.total, q.wants = 0, append(q.wants, WantAll(r.IntN(len(q.cs))))
		}
		p, err := Solve(q.total, q.cs, q.wants...)
		var outside *units.RangeError
		if err != nil && !errors.Is(err, ErrUnreachable) && !errors.As(err, &outside) {
			t.Fatalf("%v\n%v", err, q)
		}
		if err == nil {
			solved++
			if off, what := q.off(p); off > 2e-9 {
				t.Errorf("%s\n%v", what, q)
			}
		}
	}
	t.Logf("%d solved", solved)
}
