package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/simplex"
)

// outside runs a program of another hand than this project's and reads what it
// prints as JSON.
func outside(t *testing.T, input string, into any, name string, args ...string) {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Stdin = strings.NewReader(input)
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			t.Fatalf("%v: %v\n%s", cmd, err, exit.Stderr)
		}
		t.Fatal(err)
	}
	ok(t, json.Unmarshal(out, into))
}

// A linear is a linear programme: the least cost of amounts between zero and
// their limits that hold the equations.
type linear struct {
	cost, most []float64
	equations  [][]float64 // the right side last
}

// someLinear has amounts of which it is known that they hold the equations, save
// for one in four whose right sides are drawn apart from them.
func someLinear(r *rand.Rand) linear {
	n, m := 2+r.IntN(6), 1+r.IntN(3)
	l := linear{cost: make([]float64, n), most: make([]float64, n)}
	x := make([]float64, n)
	for j := range n {
		l.cost[j], l.most[j] = math.Round(200*r.Float64()-50)/100, math.Round(100+300*r.Float64())/100
		if r.IntN(2) == 0 {
			x[j] = l.most[j] * r.Float64()
		}
	}
	for range m {
		row := make([]float64, n+1)
		for j := range n {
			row[j] = math.Round(200*r.Float64()-70) / 100
			row[n] += row[j] * x[j]
		}
		if r.IntN(4) == 0 {
			row[n] = 4*r.Float64() - 2
		}
		row[n] = math.Round(1e9*row[n]) / 1e9
		l.equations = append(l.equations, row)
	}
	return l
}

// least is what the library's own simplex makes of it; false where nothing holds
// the equations.
func (l linear) least(t *testing.T) (float64, bool) {
	t.Helper()
	var p simplex.Program
	n := len(l.cost)
	p.Reset(len(l.equations), n, 1)
	for i, e := range l.equations {
		copy(p.Equation(i), e)
	}
	copy(p.Goal(1), l.cost)
	for j, most := range l.most {
		p.Limit(j, most)
	}
	x := make([]float64, n)
	missed, err := p.Minimize(x, 1e-7)
	ok(t, err)
	sum := 0.0
	for j := range x {
		sum += l.cost[j] * x[j]
	}
	return sum, missed <= 1e-7
}

// text is the programme in the text form that general solvers read.
func (l linear) text() string {
	var b strings.Builder
	sum := func(of []float64) {
		for j, c := range of {
			fmt.Fprintf(&b, " %+.9f x%d", c, j)
		}
	}
	b.WriteString("Minimize\n obj:")
	sum(l.cost)
	b.WriteString("\nSubject To\n")
	for i, e := range l.equations {
		fmt.Fprintf(&b, " e%d:", i)
		sum(e[:len(e)-1])
		fmt.Fprintf(&b, " = %.9f\n", e[len(e)-1])
	}
	b.WriteString("Bounds\n")
	for j, most := range l.most {
		fmt.Fprintf(&b, " 0 <= x%d <= %.9f\n", j, most)
	}
	return b.String() + "End\n"
}

// The HiGHS solver comes as WebAssembly in the npm package "highs".
const highs = `const all = JSON.parse(require("fs").readFileSync(0, "utf8"));
require("highs")().then(solver => console.log(JSON.stringify(all.map(text => {
  const s = solver.solve(text);
  return {Found: s.Status === "Optimal", Least: s.Status === "Optimal" ? s.ObjectiveValue : 0};
}))));`

// A general solver finds the same least cost, or as well none at all.
func TestAGeneralSolverFindsTheSameLeastCost(t *testing.T) {
	if exec.Command("node", "-e", `require("highs")`).Run() != nil {
		t.Skip("linear programmes are not held against a general solver: node with the npm package highs is not installed (npm install highs, its folder in NODE_PATH)")
	}
	r := rand.New(rand.NewPCG(1947, 1))
	var all []linear
	var texts []string
	for range 400 {
		l := someLinear(r)
		all, texts = append(all, l), append(texts, l.text())
	}
	input, err := json.Marshal(texts)
	ok(t, err)
	var theirs []struct {
		Found bool
		Least float64
	}
	outside(t, string(input), &theirs, "node", "-e", highs)
	if len(theirs) != len(all) {
		t.Fatalf("%d answers to %d programmes", len(theirs), len(all))
	}
	found := 0
	for i, l := range all {
		least, holds := l.least(t)
		if holds != theirs[i].Found || holds && math.Abs(least-theirs[i].Least) > 1e-6*(1+math.Abs(least)) {
			t.Errorf("programme %d: %v, %v; the general solver %+v\n%s", i, least, holds, theirs[i], texts[i])
		}
		if holds {
			found++
		}
	}
	if found < 100 || found > 390 {
		t.Errorf("%d of %d programmes have an answer: the draw asks too little", found, len(all))
	}
	t.Logf("%d programmes, %d with an answer: the same", len(all), found)
}

// Water by TEOS-10 (IAPWS-95 for pure water), as Debian's python3-gsw computes it,
// is within the 0.006 kg/m3 that Bettin and Spieweck state for their formula.
func TestWaterIsThatOfTEOS10(t *testing.T) {
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import gsw").Run() != nil {
		t.Skip("the density of water is not held against TEOS-10: python3-gsw is not installed (Debian: python3-gsw)")
	}
	var theirs []float64
	outside(t, "", &theirs, python, "-c", "import gsw, json; print(json.dumps([float(gsw.rho_t_exact(0, t, 0)) for t in range(41)]))")
	worst := 0.0
	for celsius, rho := range theirs {
		d := density.Water(float64(celsius)) - rho
		if worst = max(worst, math.Abs(d)); math.Abs(d) > 0.006 {
			t.Errorf("%d C: %.4f kg/m3, TEOS-10 %.4f", celsius, density.Water(float64(celsius)), rho)
		}
	}
	if len(theirs) != 41 {
		t.Errorf("%d temperatures", len(theirs))
	}
	t.Logf("41 temperatures, furthest %.4f kg/m3", worst)
}
