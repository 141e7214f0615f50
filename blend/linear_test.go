package blend

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/units"
)

func TestElimination(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	solved := 0
	for range 20000 {
		n := 1 + r.IntN(mostSquare)
		var s square
		x := make([]float64, n)
		for j := range x {
			x[j] = r.Float64()
		}
		for i := range n {
			for j := range n {
				s[i][j] = float64(r.IntN(5) - 2) // with ties and repeats
				s[i][n] += s[i][j] * x[j]
			}
		}
		det := determinant(s, n)
		ok := s.eliminate(n)
		if ok != (math.Abs(det) > 1e-6) { // a whole number
			t.Fatalf("determinant %v, solved %v: %v", det, ok, s)
		}
		for j := range x {
			if ok && math.Abs(s[j][n]-x[j]) > 1e-12 {
				t.Fatalf("%v, want %v", s[j][n], x[j])
			}
		}
		if ok {
			solved++
		}
	}
	t.Logf("%d of 20000 solved", solved)
}

func determinant(s square, n int) (sum float64) {
	if n == 1 {
		return s[0][0]
	}
	for k := range n {
		var minor square
		for i := 1; i < n; i++ {
			at := 0
			for j := range n {
				if j != k {
					minor[i-1][at] = s[i][j]
					at++
				}
			}
		}
		sum += math.Pow(-1, float64(k)) * s[0][k] * determinant(minor, n-1)
	}
	return sum
}

// Liquids that hardly differ: their equations are nearly singular.
func TestLiquidsThatHardlyDiffer(t *testing.T) {
	for by := 1.0; by > 1e-13; by /= 10 {
		q := posed{total: 3, cs: []Component{
			{Strength: 12, Extract: 40}, {Strength: units.Strength(12 + by), Extract: 40}, {Strength: 12, Extract: units.Concentration(40 + 3*by)},
		}}
		poured := append([]Component(nil), q.cs...)
		for i := range poured {
			poured[i].Volume = units.Volume(0.7 + 0.2*float64(i))
		}
		m, err := Mix(poured...)
		if err != nil {
			t.Fatal(err)
		}
		q.wants = []Want{WantStrength(m.Strength), WantExtract(m.Extract)}
		p, err := Solve(q.total, q.cs, q.wants...)
		if err != nil {
			t.Errorf("they differ by %g: %v", by, err)
			continue
		}
		if off, what := q.off(p); off > 1e-9 {
			t.Errorf("they differ by %g: %s", by, what)
		}
		if by < 1e-5 { // which amounts they are is then lost in rounding
			continue
		}
		for i := range poured {
			if want := float64(poured[i].Volume) * 3 / float64(m.Volume); math.Abs(float64(p.Volumes[i])-want) > 1e-9/by {
				t.Errorf("they differ by %g: %v of liquid %d, poured were %v", by, p.Volumes[i], i, want)
			}
		}
	}
}

// What two liquids do is what Solve does.
func TestFortifyIsSolve(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	met, missed, changes := 0, 0, 0
	for i := range 2000 * *problems {
		base, spirit := someLiquid(r, i%2 == 0), someLiquid(r, i%2 == 0)
		base.Name, spirit.Name, base.Cost, spirit.Cost = "base", "spirit", 0, 0
		base.Volume = units.Volume(0.5 + 3*r.Float64())
		if r.IntN(2) == 0 {
			spirit.Volume = units.Volume(0.1 + 3*r.Float64())
		}
		total := units.Volume(r.IntN(2)) * units.Volume(0.5+4*r.Float64())
		target := units.Strength(60 * r.Float64())
		q := posed{total, []Component{base, spirit}, []Want{WantStrength(target)}}
		f, err := Fortify(base, spirit, target)
		if total > 0 {
			f, err = FortifyTo(total, base, spirit, target)
		} else {
			q.wants = append(q.wants, WantAll(0))
		}
		p, other := Solve(q.total, q.cs, q.wants...)
		if (err == nil) != (other == nil) {
			t.Fatalf("%d: %v and %v\n%v", i, err, other, q)
		}
		if err == nil {
			met++
			if off := math.Abs(float64(p.Volumes[0]-f.Base)) + math.Abs(float64(p.Volumes[1]-f.Spirit)); off > 1e-8*float64(f.Base+f.Spirit) || f.Result.Strength != target || total > 0 && f.Result.Volume != total {
				t.Errorf("%d: %v and %v make %+v, by Solve %v\n%v", i, f.Base, f.Spirit, f.Result, p.Volumes, q)
			}
			continue
		}
		missed++
		u, v := err.(*UnreachableError), other.(*UnreachableError)
		near, nearBySolve := u.Low, v.Low
		if float64(target) > u.High {
			near, nearBySolve = u.High, v.High
		}
		// Two liquids of nearly one strength may contract to more than either: Solve
		// sees that, two liquids are taken from end to end.
		bound := 1e-6 * (1 + near)
		if math.Abs(float64(base.Strength-spirit.Strength)) < 1 {
			bound = 0.05
		}
		if v.Want.quantity != size && (math.Abs(near-nearBySolve) > bound || u.Low < v.Low-1e-6 || u.High > v.High+1e-6 || u.Limit != v.Limit) {
			t.Errorf("%d: %v\nand %v\n%v", i, u, v, q)
		}
		for _, c := range u.Changes {
			changes++
			b, s, size := base, spirit, total
			switch {
			case c.Quantity == "vessel":
				size = units.Volume(c.To)
			case c.Quantity == "strength":
				s.Strength = units.Strength(c.To)
			case c.Component == "base":
				b.Volume = units.Volume(c.To)
			default:
				s.Volume = units.Volume(c.To)
			}
			_, err := Fortify(b, s, target)
			if total > 0 {
				_, err = FortifyTo(size, b, s, target)
			}
			if err != nil {
				t.Errorf("%d: %v, but then %v\n%v", i, c, err, q)
			}
		}
	}
	t.Logf("%d met, %d not reachable with %d changes", met, missed, changes)
}
