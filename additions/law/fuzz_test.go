package law

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"
	"time"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// A numbers is a product as numbers, so that it can be drawn.
type numbers struct {
	where, category, colour uint8
	forSale                 bool
	first, second           uint8 // parameters
	a, b, ua, ub            float64
	low, more               float64 // of sugar
	pH, uPH, density        float64
}

func (n numbers) product() (where string, p Product) {
	of := func(q uint8) Parameter { return Parameters()[int(q)%len(Parameters())] }
	p = Product{Category: Categories()[int(n.category)%len(Categories())], ForSale: n.forSale, Colour: []string{"", "red", "white"}[n.colour%3],
		SugarLow: units.Concentration(n.low), SugarHigh: units.Concentration(n.low + n.more), PH: n.pH, PHUncertainty: n.uPH, Density: units.Density(n.density),
		Levels: Levels{of(n.first): units.Concentration(n.a) * mg}, Uncertainty: Levels{of(n.first): units.Concentration(n.ua) * mg}}
	if n.b != 0 && n.second != n.first {
		p.Levels[of(n.second)], p.Uncertainty[of(n.second)] = units.Concentration(n.b)*mg, units.Concentration(n.ub)*mg
	}
	return Jurisdictions()[int(n.where)%len(Jurisdictions())], p
}

// at is the place of a parameter in the list.
func at(q Parameter) uint8 { return uint8(slices.Index(Parameters(), q)) }

// kept tells, by parameter, which findings say that a limit is kept.
func kept(t *testing.T, where string, p Product) (map[Parameter]bool, bool) {
	t.Helper()
	r, err := Check(where, p)
	if err != nil {
		return nil, false
	}
	out := map[Parameter]bool{}
	for _, f := range r.Findings {
		out[f.Parameter] = f.Outcome == Kept
	}
	return out, true
}

// FuzzCheck: what a text says of a wine is finite, complete and in order; and
// where a limit is kept, knowing the wine better or having less in it keeps it.
func FuzzCheck(f *testing.F) {
	place := func(where string) uint8 { return uint8(slices.Index(Jurisdictions(), where)) }
	kind := func(c Category) uint8 { return uint8(slices.Index(Categories(), c)) }
	for _, n := range []numbers{
		{where: place("US"), category: kind(FruitWine), first: at(TotalSO2), a: 350},
		{where: place("EU"), category: kind(GrapeWine), first: at(TotalSO2), a: 160, ua: 5, low: 3, more: 5, forSale: true},
		{where: place("Canada"), category: kind(FruitWine), first: at(FreeSO2), second: at(TotalSO2), a: 80, b: 440, density: 1000},
		{where: place("Codex"), category: kind(FruitWine), first: at(SorbicAcid), a: 501, density: 1000},
		{where: place("OIV"), category: kind(GrapeWine), first: at(AcidAdded), a: 4100, colour: 1, pH: 3.1, uPH: 0.05},
		{where: place("US"), category: kind(FortifiedFruitWine), first: at(FixedAcidLowered), a: 4500, low: 90, more: 5},
		{where: place("EU"), category: kind(LiqueurWine), first: at(SulfiteStatement), a: 10, ua: 3, colour: 2},
	} {
		f.Add(n.where, n.category, n.colour, n.forSale, n.first, n.second, n.a, n.b, n.ua, n.ub, n.low, n.more, n.pH, n.uPH, n.density, 0.5)
	}
	f.Fuzz(func(t *testing.T, where, category, colour uint8, forSale bool, first, second uint8, a, b, ua, ub, low, more, pH, uPH, density, share float64) {
		n := numbers{where, category, colour, forSale, first, second, a, b, ua, ub, low, more, pH, uPH, density}
		j, p := n.product()
		r, err := Check(j, p)
		if err != nil {
			if err.Error() == "" || len(r.Findings) > 0 || r.Jurisdiction != "" {
				t.Errorf("%+v, %v", r, err)
			}
			return
		}
		inOrder(t, r)
		if share = math.Abs(share); !(share < 1) {
			return
		}
		was, _ := kept(t, j, p)
		for name, change := range map[string]func(p *Product){
			"surer levels":    func(p *Product) { eased(p.Uncertainty, share) },
			"a surer pH":      func(p *Product) { p.PHUncertainty *= share },
			"a surer sugar":   func(p *Product) { p.SugarHigh = p.SugarLow + units.Concentration(share)*(p.SugarHigh-p.SugarLow) },
			"a colour":        func(p *Product) { p.Colour = or2(p.Colour, "red") },
			"another colour":  func(p *Product) { p.Colour = or2(p.Colour, "white") },
			"a known density": func(p *Product) { p.Density = or2(p.Density, units.Density(970+150*share)) },
		} {
			better := p
			better.Levels, better.Uncertainty = maps.Clone(p.Levels), maps.Clone(p.Uncertainty)
			change(&better)
			now, ok := kept(t, j, better)
			for q, is := range was {
				if still, there := now[q]; ok && is && there && !still && !leftOut(j, better, q) {
					t.Errorf("%s: %s of %+v is kept, and with %s it is not: %+v", j, q, p, name, better)
				}
			}
		}
		monotone(t, j, p, share)
	})
}

// eased makes every level or uncertainty this part of itself.
func eased(l Levels, share float64) {
	for q := range l {
		l[q] *= units.Concentration(share)
	}
}

func or2[T comparable](x, otherwise T) T {
	var zero T
	if x == zero {
		return otherwise
	}
	return x
}

// leftOut: of the wine as it is now known the table holds no row.
func leftOut(j string, p Product, q Parameter) bool {
	r, _ := Check(j, p)
	i := slices.IndexFunc(r.Findings, func(f Finding) bool { return f.Parameter == q })
	return i >= 0 && r.Findings[i].Outcome == NotKnownHere && r.Findings[i].Limit == (Limit{})
}

// inOrder holds what every report promises.
func inOrder(t *testing.T, r Report) {
	t.Helper()
	handbook.Finite(t, "report", r)
	if !slices.IsSortedFunc(r.Findings, func(a, b Finding) int {
		if a.Key < b.Key {
			return -1
		} else if a.Key > b.Key {
			return 1
		}
		return 0
	}) || r.Advice == "" {
		t.Errorf("%+v", r)
	}
	for _, f := range r.Findings {
		known := []Outcome{Kept, MayExceed, Exceeded, NotStated, Due, MayBeDue, DueIfSold, NotDue, NoneInThisText, NotKnownHere}
		switch {
		case !slices.Contains(known, f.Outcome), f.String() == "", f.Key != "limit_"+string(f.Parameter):
			t.Errorf("%+v", f)
		case !(f.Low <= f.Value*(1+1e-12) && f.Value <= f.High*(1+1e-12)):
			t.Errorf("%s: %v does not lie in %v to %v", f.Key, f.Value, f.Low, f.High)
		case f.Status == Limited && (f.Limit.Source == "" || f.Limit.Date == "" || f.Nearest != ""):
			t.Errorf("a limit without its source: %+v", f)
		case f.Severity() == Stop && (f.Outcome != Exceeded || f.Status != Limited):
			t.Errorf("%+v stops", f)
		}
	}
	for _, g := range r.Figures() {
		if g.Key == "" || g.Name == "" || g.Source == "" {
			t.Errorf("%+v", g)
		}
	}
}

// Less of what an upper limit is for keeps it. SO2 is left to the one level
// that is stated: less total with the same free is less combined.
func monotone(t *testing.T, j string, p Product, share float64) {
	t.Helper()
	if len(p.Levels) > 1 {
		return
	}
	was, err := Check(j, p)
	less := p
	less.Levels = maps.Clone(p.Levels)
	eased(less.Levels, share)
	now, err2 := Check(j, less)
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	for _, f := range was.Findings {
		i := slices.IndexFunc(now.Findings, func(g Finding) bool { return g.Parameter == f.Parameter })
		if i < 0 || f.Limit.Comparison != AtMost && f.Limit.Comparison != LessThan || slices.ContainsFunc(f.Others, func(l Limit) bool { return l.Comparison != f.Limit.Comparison }) {
			continue
		}
		rank := func(o Outcome) int { return slices.Index([]Outcome{NotKnownHere, Kept, MayExceed, Exceeded}, o) }
		if a, b := rank(f.Outcome), rank(now.Findings[i].Outcome); a >= 0 && b > a {
			t.Errorf("%s: %v is %s, and %g of it %s", j, fmt.Sprint(p.Levels), f.Outcome, share, now.Findings[i].Outcome)
		}
	}
}

// FuzzLevels: what the log leaves in the vessel is no more than went in, and all
// of it where nothing was drawn off.
func FuzzLevels(f *testing.F) {
	f.Add(0.5, 10.0, 0.3, 12.0, 0.2, 12.5, int64(3600))
	f.Add(0.5, 10.0, 0.0, 8.0, 0.2, 20.0, int64(0))
	f.Fuzz(func(t *testing.T, m1, v1, m2, v2, m3, v3 float64, apart int64) {
		start := time.Date(2025, 9, 1, 0, 0, 0, 0, time.UTC)
		var l Log
		for i, x := range [][2]float64{{m1, v1}, {m2, v2}, {m3, v3}} {
			l = append(l, Entry{When: start.Add(time.Duration(i) * time.Duration(apart) * time.Second), Additive: LogPotassiumMetabisulfite, Mass: units.Mass(x[0]), Volume: units.Volume(x[1])})
		}
		levels, err := l.Levels()
		if err != nil {
			if levels != nil || err.Error() == "" {
				t.Errorf("%v, %v", levels, err)
			}
			return
		}
		handbook.Finite(t, "levels", levels)
		in, left := (m1+m2+m3)*LogPotassiumMetabisulfite.Share, float64(levels[TotalSO2])*v3
		if grew := v1 <= v2 && v2 <= v3; left > in*(1+1e-9) || grew && left < in*(1-1e-9) {
			t.Errorf("%v g of SO2 went in, %v are left: %v", in, left, l)
		}
	})
}
