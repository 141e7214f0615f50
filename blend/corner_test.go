package blend

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/units"
)

// cornerProblem is a problem whose stocks are mostly just enough, so that the amounts
// that meet its wants may be the only ones.
func cornerProblem(r *rand.Rand, wild bool) (q posed) {
	q.cs = make([]Component, 2+r.IntN(5))
	poured := make([]Component, len(q.cs))
	for i := range q.cs {
		q.cs[i] = someLiquid(r, wild)
		poured[i] = q.cs[i]
		poured[i].Volume = units.Volume(4 * r.Float64())
		if r.IntN(3) == 0 && i > 0 {
			poured[i].Volume = 0
		}
		if poured[i].Volume > 0 && r.IntN(4) > 0 {
			q.cs[i].Volume = poured[i].Volume
		}
	}
	m, err := Mix(poured...)
	if err != nil {
		panic(err)
	}
	for _, w := range []Want{WantStrength(m.Strength), WantExtract(m.Extract), WantAcid(m.Acid)} {
		if r.IntN(2) == 0 {
			q.wants = append(q.wants, w)
		}
	}
	if q.total = m.Volume; r.IntN(2) == 0 {
		q.total, q.cs[0].Volume = 0, poured[0].Volume
		q.wants = append(q.wants, WantAll(0))
	}
	return q
}

// A want that nothing but just all of the stocks meets is met, though rounding takes
// it from the programmes: the first four, by their seeds, were called unreachable.
func TestStocksThatAreJustEnoughAreEnough(t *testing.T) {
	seeds := []int{5808, 42528, 227280, 498854}
	for i := range 1000 * *problems {
		seeds = append(seeds, i)
	}
	for _, i := range seeds {
		q := cornerProblem(rand.New(rand.NewPCG(uint64(i), 5)), i%2 == 0)
		p, err := Solve(q.total, q.cs, q.wants...)
		if err != nil {
			t.Errorf("%d: can be met: %v\n%v", i, err, q)
			continue
		}
		if off, what := q.off(p); off > 2e-9 {
			t.Errorf("%d: %s\n%v", i, what, q)
		}
	}
}

// So where the stocks differ by powers of ten and all of them are just enough.
func TestAllStocksTogetherAreEnough(t *testing.T) {
	seeds := []int{19238, 81766} // of which the first was an acid, the second the total
	for i := range 1000 * *problems {
		seeds = append(seeds, i)
	}
	for _, i := range seeds {
		r := rand.New(rand.NewPCG(uint64(i), 9))
		q := cornerProblem(r, i%2 == 0)
		for k := range q.cs {
			q.cs[k].Volume = units.Volume(math.Pow(10, 4*r.Float64()-2))
			if r.IntN(3) == 0 && k > 0 {
				q.cs[k].Volume = 0
			}
		}
		m, err := Mix(q.cs...)
		if err != nil {
			t.Fatal(err)
		}
		q.wants = nil
		for _, w := range []Want{WantStrength(m.Strength), WantExtract(m.Extract), WantAcid(m.Acid)} {
			if r.IntN(3) > 0 {
				q.wants = append(q.wants, w)
			}
		}
		if q.total = m.Volume; r.IntN(2) == 0 {
			q.total, q.wants = 0, append(q.wants, WantAll(0))
		}
		p, err := Solve(q.total, q.cs, q.wants...)
		if err != nil {
			t.Errorf("%d: can be met: %v\n%v", i, err, q)
			continue
		}
		if off, what := q.off(p); off > 2e-9 {
			t.Errorf("%d: %s\n%v", i, what, q)
		}
	}
}
