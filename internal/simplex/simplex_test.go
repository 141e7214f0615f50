package simplex

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// A plan is a programme as data, for the tests.
type plan struct {
	rows, goals [][]float64
	right       []float64
	limits      []float64
	full        []bool // columns that start at their limits
}

func (l plan) minimize(p *Program) (x []float64, missed float64, err error) {
	n := len(l.limits)
	p.Reset(len(l.rows), n, len(l.goals))
	for i, row := range l.rows {
		copy(p.Equation(i), row)
		p.Equation(i)[n] = l.right[i]
	}
	for k, goal := range l.goals {
		copy(p.Goal(k+1), goal)
	}
	for j, limit := range l.limits {
		p.Limit(j, limit)
	}
	for j, full := range l.full {
		if full {
			p.Fill(j)
		}
	}
	x = make([]float64, n)
	missed, err = p.Minimize(x, 1e-9)
	return x, missed, err
}

func dot(a, x []float64) (sum float64) {
	for i := range a {
		sum += a[i] * x[i]
	}
	return sum
}

var inf = math.Inf(1)

func TestPrintedProgramme(t *testing.T) {
	// Maximise 3x+5y with x <= 4, 2y <= 12, 3x+2y <= 18: the textbook's window
	// maker (from memory), 36 at (2, 6).
	var p Program
	x, missed, err := plan{
		rows: [][]float64{{0, 2, 1, 0}, {3, 2, 0, 1}}, right: []float64{12, 18},
		goals: [][]float64{{-3, -5, 0, 0}}, limits: []float64{4, inf, inf, inf},
	}.minimize(&p)
	if err != nil || missed != 0 || math.Abs(x[0]-2) > 1e-12 || math.Abs(x[1]-6) > 1e-12 {
		t.Errorf("%v lacks %v, %v; want 2 and 6", x, missed, err)
	}
}

// Where an equation is missed the goals are left aside: x of at most 1 lacks 1 of
// 2, and z, which a goal would fill, stays empty.
func TestGoalsAreLeftAsideWhereAnEquationIsMissed(t *testing.T) {
	var p Program
	x, missed, err := plan{rows: [][]float64{{1, 0}}, right: []float64{2}, goals: [][]float64{{0, -1}}, limits: []float64{1, 1}}.minimize(&p)
	if err != nil || missed != 1 || x[0] != 1 || x[1] != 0 {
		t.Errorf("%v lacks %v, %v; want 1 and 0, lacking 1", x, missed, err)
	}
}

// A coefficient of a billionth counts as zero, a larger one does not: least -x where c
// x + y = 1, of which y = 1, x = 0 is known, is 1/c, or has no end.
func TestLeastPivot(t *testing.T) {
	for _, c := range []float64{1e-3, 1.01e-9} {
		x, missed, err := plan{rows: [][]float64{{c, 1}}, right: []float64{1}, goals: [][]float64{{-1, 0}}, limits: []float64{math.Inf(1), math.Inf(1)}}.minimize(new(Program))
		if err != nil || missed > 1e-9 || math.Abs(x[0]*c-1) > 1e-12 {
			t.Errorf("%v: %v lacks %v, %v", c, x, missed, err)
		}
	}
	l := plan{rows: [][]float64{{0.99e-9, 1}}, right: []float64{1}, goals: [][]float64{{-1, 0}}, limits: []float64{math.Inf(1), math.Inf(1)}}
	if x, _, err := l.minimize(new(Program)); !errors.Is(err, ErrUnbounded) {
		t.Errorf("%v, %v", x, err)
	}
}

// Every vertex, by brute force: each set of as many columns as rows is solved for,
// with the others at zero or at their limit.
func (l plan) vertices(visit func(x []float64)) {
	n, m := len(l.limits), len(l.rows)
	for set := range 1 << n {
		var in, out []int
		for j := range n {
			if set>>j&1 == 1 {
				in = append(in, j)
			} else {
				out = append(out, j)
			}
		}
		if len(in) > m {
			continue
		}
		for full := range 1 << len(out) {
			x, possible := make([]float64, n), true
			for k, j := range out {
				if full>>k&1 == 1 {
					x[j] = l.limits[j]
					possible = possible && !math.IsInf(x[j], 1)
				}
			}
			if possible && l.complete(x, in) {
				visit(x)
			}
		}
	}
}

// complete finds the columns in from the rows by Gauss, and says whether all
// rows hold within the limits.
func (l plan) complete(x []float64, in []int) bool {
	m := len(l.rows)
	a := make([][]float64, m)
	for i := range a {
		a[i] = []float64{}
		for _, j := range in {
			a[i] = append(a[i], l.rows[i][j])
		}
		a[i] = append(a[i], l.right[i]-dot(l.rows[i], x))
	}
	for k := range in {
		best := k
		for i := k; i < m; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[best][k]) {
				best = i
			}
		}
		a[k], a[best] = a[best], a[k]
		if math.Abs(a[k][k]) < 1e-9 {
			return false
		}
		for i := range a {
			if i != k {
				f := a[i][k] / a[k][k]
				for c := range a[i] {
					a[i][c] -= f * a[k][c]
				}
			}
		}
	}
	for k, j := range in {
		if x[j] = a[k][len(in)] / a[k][k]; x[j] < -1e-10 || x[j] > l.limits[j]+1e-10 {
			return false
		}
	}
	for i := range l.rows {
		if math.Abs(dot(l.rows[i], x)-l.right[i]) > 1e-9 {
			return false
		}
	}
	return true
}

func random(r *rand.Rand) plan {
	n, m := 2+r.IntN(4), 1+r.IntN(3)
	l := plan{goals: [][]float64{make([]float64, n), make([]float64, n)}, limits: make([]float64, n)}
	some := make([]float64, n)
	for j := range n {
		l.limits[j] = inf
		if r.IntN(2) == 0 {
			l.limits[j] = float64(1+r.IntN(4)) / 2
		}
		some[j] = min(l.limits[j], float64(r.IntN(4))/2)
		l.goals[0][j], l.goals[1][j] = float64(r.IntN(4)), float64(j)
	}
	for range m { // small whole numbers make ties and rows that repeat each other
		row := make([]float64, n)
		for j := range row {
			row[j] = float64(r.IntN(5) - 2)
		}
		right := dot(row, some)
		if r.IntN(4) == 0 {
			right++
		}
		l.rows, l.right = append(l.rows, row), append(l.right, right)
	}
	return l
}

func TestNoVertexIsCheaper(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var p Program
	met, open := 0, 0
	for i := range 3000 {
		l := random(r)
		x, missed, err := l.minimize(&p)
		if i%2 == 0 { // from anywhere
			for range l.limits {
				l.full = append(l.full, r.IntN(2) == 0)
			}
			x, missed, err = l.minimize(&p)
		}
		if err != nil {
			t.Fatalf("%d: %v\n%+v", i, err, l)
		}
		least, second, any := inf, inf, false
		l.vertices(func(v []float64) {
			a, b := dot(l.goals[0], v), dot(l.goals[1], v)
			if any = true; a < least-1e-9 {
				least, second = a, b
			} else if a < least+1e-9 {
				second = min(second, b)
			}
		})
		if any != (missed <= 1e-9) {
			t.Fatalf("%d: lacks %v, by brute force it has an answer: %v\n%+v", i, missed, any, l)
		}
		if !any {
			open++
			continue
		}
		met++
		if a, b := dot(l.goals[0], x), dot(l.goals[1], x); math.Abs(a-least) > 1e-9 || math.Abs(b-second) > 1e-9 {
			t.Fatalf("%d: %v costs %v, then %v; by brute force %v, %v\n%+v", i, x, a, b, least, second, l)
		}
		for k, row := range l.rows {
			if math.Abs(dot(row, x)-l.right[k]) > 1e-10 {
				t.Fatalf("%d: equation %d is off by %v", i, k, dot(row, x)-l.right[k])
			}
		}
		for j := range x {
			if x[j] < 0 || x[j] > l.limits[j] {
				t.Fatalf("%d: %v passes the limits %v", i, x, l.limits)
			}
		}
	}
	t.Logf("%d with an answer, %d without", met, open)
}

// A later goal takes what an earlier one leaves open, and nothing else, however
// small the earlier one's difference is.
func TestALaterGoalGivesNothingAway(t *testing.T) {
	var p Program
	x, _, err := plan{
		rows: [][]float64{{1, 1, 1}}, right: []float64{1},
		goals: [][]float64{{1 + 1e-9, 1, 1}, {0, 2, 1}}, limits: []float64{inf, inf, 0.5},
	}.minimize(&p)
	if err != nil || x[0] != 0 || x[1] != 0.5 || x[2] != 0.5 {
		t.Errorf("%v, %v", x, err)
	}
}

func TestWhatIsMissedIsTheLeast(t *testing.T) {
	var p Program
	x, missed, err := plan{
		rows: [][]float64{{1, 1}, {1, -1}}, right: []float64{3, 0}, goals: [][]float64{{1, 1}}, limits: []float64{1, 1},
	}.minimize(&p)
	if err != nil || math.Abs(missed-1) > 1e-12 || x[0] != 1 || x[1] != 1 {
		t.Errorf("%v lacks %v, %v", x, missed, err)
	}
	if p.Basic(0) >= 0 {
		t.Errorf("the first equation is missed, but gives column %d", p.Basic(0))
	}
}

func TestWithoutALimitThereIsNoLeast(t *testing.T) {
	var p Program
	if _, _, err := (plan{rows: [][]float64{{1, -1}}, right: []float64{0}, goals: [][]float64{{-1, 0}}, limits: []float64{inf, inf}}).minimize(&p); !errors.Is(err, ErrUnbounded) {
		t.Errorf("%v", err)
	}
}

// A programme on which the steepest column with the first row goes round in a
// circle (Beale 1955, from memory): -1/20 at (1/25, 0, 1, 0).
func TestBealesCircleSettles(t *testing.T) {
	var p Program
	l := plan{
		rows:  [][]float64{{0.25, -60, -0.04, 9, 1, 0, 0}, {0.5, -90, -0.02, 3, 0, 1, 0}, {0, 0, 1, 0, 0, 0, 1}},
		right: []float64{0, 0, 1}, goals: [][]float64{{-0.75, 150, -0.02, 6, 0, 0, 0}},
		limits: []float64{inf, inf, inf, inf, inf, inf, inf},
	}
	x, _, err := l.minimize(&p)
	if err != nil || math.Abs(dot(l.goals[0], x)+0.05) > 1e-12 {
		t.Errorf("%v at %v, %v", dot(l.goals[0], x), x, err)
	}
}

func BenchmarkMinimize(b *testing.B) {
	b.ReportAllocs()
	r := rand.New(rand.NewPCG(3, 4))
	const n = 10
	l := plan{rows: make([][]float64, 3), right: make([]float64, 3), goals: [][]float64{make([]float64, n)}, limits: make([]float64, n)}
	some := make([]float64, n)
	for j := range n {
		some[j], l.limits[j], l.goals[0][j] = r.Float64(), 1, r.Float64()
	}
	for i := range l.rows {
		l.rows[i] = make([]float64, n)
		for j := range n {
			l.rows[i][j] = 2*r.Float64() - 1
		}
		l.right[i] = dot(l.rows[i], some)
	}
	var p Program
	x := make([]float64, n)
	for b.Loop() {
		p.Reset(3, n, 1)
		for i := range l.rows {
			copy(p.Equation(i), l.rows[i])
			p.Equation(i)[n] = l.right[i]
		}
		copy(p.Goal(1), l.goals[0])
		for j := range n {
			p.Limit(j, 1)
		}
		if _, err := p.Minimize(x, 1e-9); err != nil {
			b.Fatal(err)
		}
	}
}
