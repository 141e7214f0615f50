package blend

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestAChangeInWords(t *testing.T) {
	for want, c := range map[string]Change{
		"with 0.75 L of brandy instead of 0.5":    {"brandy", "volume", 0.5, 0.75, "L"},
		"with 5.5 L in the vessel instead of 5":   {"", "vessel", 5, 5.5, "L"},
		"with brandy of at least 52.5 % vol":      {"brandy", "strength", 40, 52.5, "% vol"},
		"with water of at most 8 % vol":           {"water", "strength", 12, 8, "% vol"},
		"with syrup of at least 700 g/L":          {"syrup", "extract", 300, 700, "g/L"},
		"with sweet reserve of at most 120.5 g/L": {"sweet reserve", "extract", 180, 120.5, "g/L"},
		"with 12000 L of wine instead of 10000":   {"wine", "volume", 10000, 12000, "L"},
	} {
		if got := c.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// The whole of an error, and one that has no interval to tell.
func TestTheSentenceOfWhatIsNotReachable(t *testing.T) {
	changes := []Change{{"brandy", "volume", 0.5, 0.75, "L"}, {"", "vessel", 5, 4.125, "L"}, {"brandy", "strength", 40, 52.5, "% vol"}}
	for want, e := range map[string]UnreachableError{
		"strength 20 % vol is not reachable: these components reach 6 to 18.35 % vol":                                                                                           {Want: WantStrength(20), Low: 6, High: 18.3456},
		"extract 80.5 g/L is not reachable: these components reach 0.25 to 20 g/L (bound by the stock)":                                                                         {Want: WantExtract(80.5), Low: 0.25, High: 20, Limit: LimitStock},
		"acid 9 g/L is not reachable: these components reach 1 to 2 g/L (bound by the vessel); possible with 0.75 L of brandy instead of 0.5":                                   {Want: WantAcid(9), Low: 1, High: 2, Limit: LimitVessel, Changes: changes[:1]},
		"all of component 2 is not reachable; possible with 0.75 L of brandy instead of 0.5, or with 4.125 L in the vessel instead of 5, or with brandy of at least 52.5 % vol": {Want: WantAll(2), Changes: changes},
	} {
		if got := e.Error(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// To is rounded to four digits, to the side that does; what has no more digits
// stays, though rounding took it a little to either side.
func TestAChangeIsRoundedToTheSideThatDoes(t *testing.T) {
	for _, x := range []struct{ to, down, up float64 }{
		{1.23456, 1.234, 1.235}, {0.00123456, 0.001234, 0.001235}, {12345678, 12340000, 12350000}, {98765, 98760, 98770},
		{9999.5, 9999, 10000}, {75, 75, 75}, {0.3, 0.3, 0.3}, {12350000, 12350000, 12350000}, {1e12, 1e12, 1e12},
		{math.Nextafter(52.5, 53), 52.5, 52.5}, {math.Nextafter(52.5, 52), 52.5, 52.5}, {52.5 + 1e-9, 52.5, 52.51}, {52.5 - 1e-9, 52.49, 52.5},
		{0, 0, 0},
	} {
		for up, want := range map[bool]float64{false: x.down, true: x.up} {
			c := Change{To: x.to}
			if c.round(up); !handbook.Near(c.To, want, 1e-15) {
				t.Errorf("%.17g, up %v: %.17g, want %v", x.to, up, c.To, want)
			}
		}
	}
}

// A change goes the way that it is said to go, to more than a millionth of what is
// and to less than the largest volume there is; another is none.
func TestOnlyAChangeIsOffered(t *testing.T) {
	for _, x := range []struct {
		from, to float64
		up, is   bool
	}{
		{1, 2, true, true}, {1, 2, false, false}, {2, 1, false, true}, {2, 1, true, false}, {2, 2, true, false}, {2, 2 + 1e-15, true, false},
		{2, 2.02e-6, false, true}, {2, 1.98e-6, false, false}, {0.5, 0.505e-6, false, true}, {0.5, 0.495e-6, false, false},
		{1, 0.99 * check.MostVolume, true, true}, {1, 1.01 * check.MostVolume, true, false},
	} {
		var e UnreachableError
		if e.offer(Change{From: x.from, To: x.to}, x.up); len(e.Changes) > 0 != x.is {
			t.Errorf("from %v to %v, up %v: %v", x.from, x.to, x.up, e.Changes)
		}
	}
}

// The nearest end is the one on the side of the want, however near the ends are to
// each other and in whatever order they come.
func TestTheNearestEndIsOnTheSideOfTheWant(t *testing.T) {
	at := func(v float64) end {
		return end{volumes: []units.Volume{units.Volume(v)}, mixture: Mixture{Strength: units.Strength(v)}, value: v}
	}
	for _, x := range []struct{ low, high, want, nearest float64 }{
		{6, 18, 20, 18}, {6, 18, 5, 6}, {10, 10.1, 9.99, 10}, {10, 10.1, 10.11, 10.1}, {10, 10.1, 10.04, 10}, {10, 10.1, 10.06, 10.1},
	} {
		for _, ends := range [][2]end{{at(x.low), at(x.high)}, {at(x.high), at(x.low)}} {
			e := UnreachableError{Want: WantStrength(units.Strength(x.want))}
			if e.between(ends); e.Low != x.low || e.High != x.high || float64(e.Nearest.Strength) != x.nearest || float64(e.Volumes[0]) != x.nearest {
				t.Errorf("%v of %v to %v: %+v", x.want, x.low, x.high, e)
			}
		}
	}
}

// What is reached rises with the content, straight or bent; the content that a
// search finds does, hardly any less of it does, and that takes half of the tries
// of halving (23 from 100 to 1e-5) at most. On a straight line the first one is it.
// Where the end of the way does not do, nothing does.
func TestASearchEndsOnTheSideThatDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 30))
	worst, found := 0, 0
	for i := range 5000 {
		from, end := 100*r.Float64(), float64(100*r.IntN(2))
		part, at, bend := 0.05+0.9*r.Float64(), 5+50*r.Float64(), 0.9*r.Float64()-0.45
		if i%4 == 0 {
			bend = 0
		}
		way := math.Abs(end - from)
		curve := func(x float64) float64 { return at + part*(x-from)*(1+bend*math.Abs(x-from)/way) }
		want := at + (curve(end)-at)*1.2*r.Float64()
		if want <= 0 {
			continue
		}
		tries := 0
		to, ok := search{from: from, end: end, want: want, at: at, part: part}.find(func(x float64) (float64, error) {
			if tries++; x < min(from, end) || x > max(from, end) {
				t.Errorf("%d: tries %v between %v and %v", i, x, from, end)
			}
			return curve(x), nil
		})
		side := math.Copysign(1, end-from)
		if does := side*(curve(end)-want) >= 0; ok != does {
			t.Errorf("%d: %v, but the end of the way is %v of %v", i, ok, curve(end), want)
		}
		if !ok {
			continue
		}
		found++
		worst = max(worst, tries)
		if over := side * (curve(to) - want); over < -1e-9*want {
			t.Errorf("%d: %v does not do, by %v of %v", i, to, over, want)
		}
		less := 1.01e-5*(1+to) + 2e-6*want/(part*(1-2*math.Abs(bend)))
		if back := to - side*less; side*(back-from) > 0 && side*(curve(back)-want) >= 0 {
			t.Errorf("%d: %v was found, %v does", i, to, back)
		}
		if bend == 0 && tries > 1 || tries > 12 {
			t.Errorf("%d: %d tries, bent by %v", i, tries, bend)
		}
	}
	t.Logf("%d found, in %d tries at most", found, worst)
	if found < 3000 {
		t.Errorf("only %d found", found)
	}
	// A liquid that is no part of the nearest blend is tried at the end first.
	if to, ok := (search{from: 10, end: 100, want: 30, at: 20}).find(func(x float64) (float64, error) { return x / 2, nil }); !ok || math.Abs(to-60) > 1e-3 {
		t.Errorf("%v, %v; want 60", to, ok)
	}
	// A want of next to nothing is met to a billionth of it, too.
	if to, ok := (search{from: 0.005, end: 1, want: 0.01, at: 0.005, part: 1}).find(func(x float64) (float64, error) { return x - 5e-8, nil }); !ok || to-5e-8 < 0.01*(1-1e-9) {
		t.Errorf("%.9g, %v; want 0.01000005", to, ok)
	}
	if to, ok := (search{from: 100, end: 100, want: 30, at: 20}).find(func(float64) (float64, error) { return 30, nil }); ok {
		t.Errorf("no way to go, but %v", to)
	}
	if to, ok := (search{from: 10, end: 100, want: 30, at: 20}).find(func(float64) (float64, error) { return 0, ErrNothing }); ok || to != 0 {
		t.Errorf("an error gives %v", to)
	}
}

// A liquid that is no part of the nearest blend may count from some content on
// only: the search finds that, and does not creep to it from the end.
func TestASearchFindsWhereALiquidBeginsToCount(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 36))
	worst := 0
	for i := range 2000 {
		from, at, want := 50+50*r.Float64(), 10*r.Float64(), 0.0
		want = at * (0.8 + 0.19999*r.Float64())
		slope := 0.2 + r.Float64()
		tries := 0
		// Down to at/slope nothing changes; want is reached at want/slope.
		to, ok := search{from: from, end: 0, want: want, at: at}.find(func(x float64) (float64, error) {
			tries++
			return min(at, slope*x), nil
		})
		if root := want / slope; !ok || slope*to > want*(1+1e-9) || to < root-1e-5*(1+root)-1e-6*root {
			t.Errorf("%d: %v, %v of %v after %d", i, to, ok, root, tries)
		}
		worst = max(worst, tries)
	}
	if t.Logf("%d tries at most", worst); worst > 40 {
		t.Errorf("%d tries", worst)
	}
	tries := 0
	if to, ok := (search{from: 5, end: 0, want: 6, at: 5, part: 1}).find(func(x float64) (float64, error) { tries++; return x, nil }); ok || tries > 1 {
		t.Errorf("the other way: %v, %v after %d tries", to, ok, tries)
	}
}

// A liquid of the most strength beside its extract exists, and of the most extract
// beside its strength; a hundredth more of either does not.
func TestAContentGoesAsFarAsTheLiquidExists(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for i := range 2000 {
		c := Component{Strength: units.Strength(100 * r.Float64()), Extract: units.Concentration(density.MostConcentration * r.Float64())}
		if i%10 == 0 {
			c = Component{}
		}
		for _, w := range []Want{WantStrength(1), WantExtract(1)} {
			to, most := c, w.endOf(&c, true)
			if w.set(&to, most); w.ofComponent(&to) != most {
				t.Errorf("%v: %+v is of %v", w, to, w.ofComponent(&to))
			}
			if _, err := to.perLitre(); err != nil {
				t.Errorf("%v: %v", w, err)
			}
			w.set(&to, 1.01*most+0.01)
			if _, err := to.perLitre(); err == nil {
				t.Errorf("%v: %v goes as far as %v", w, c, w.ofComponent(&to))
			}
			if c == (Component{}) && w == WantStrength(1) && most != 100 {
				t.Errorf("pure alcohol is of %v", most)
			}
			if w.endOf(&c, false) != 0 {
				t.Errorf("%v: down to %v", w, w.endOf(&c, false))
			}
		}
	}
}
