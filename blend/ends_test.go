package blend

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/mutage/units"
)

func (q posed) mix(litres []units.Volume) (Mixture, error) {
	poured := make([]Component, len(q.cs))
	for i := range poured {
		poured[i] = q.cs[i]
		poured[i].Volume = litres[i]
	}
	return Mix(poured...)
}

// The nearest blend is what Mix makes of its volumes: it fills the size, keeps to the
// stocks, and holds what can be held to the last digit.
func TestTheNearestBlendIsWhatMixMakes(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	compared, sized := 0, 0
	for i := range 1000 * *problems {
		q := someProblem(r, i%2 == 0, true)
		_, err := Solve(q.total, q.cs, q.wants...)
		var u *UnreachableError
		if !errors.As(err, &u) || u.Volumes == nil {
			continue
		}
		compared++
		m, err := q.mix(u.Volumes)
		if err != nil || math.Abs(u.Want.of(m)-u.Want.of(u.Nearest)) > 1e-9*(1+u.Want.of(m)) || math.Abs(float64(m.Volume-u.Nearest.Volume)) > 1e-9*float64(m.Volume) {
			t.Errorf("%d: %v make %+v, not %+v (%v)", i, u.Volumes, m, u.Nearest, err)
		}
		for k, v := range u.Volumes {
			if v < 0 || q.cs[k].Volume > 0 && v > q.cs[k].Volume {
				t.Errorf("%d: pours %v of %v", i, v, q.cs[k].Volume)
			}
		}
		if u.Want.quantity == size {
			continue
		}
		sized++
		if q.total == 0 && math.Abs(float64(u.Volumes[0]/q.cs[0].Volume)-1) > 1e-9 || q.total > 0 && math.Abs(float64(m.Volume/q.total)-1) > 1e-9 {
			t.Errorf("%d: %v make %v: not the size that is set\n%v", i, u.Volumes, m.Volume, q)
		}
		for _, w := range q.heldBeside(t) {
			if math.Abs(w.of(m)-w.value) > 1e-9*w.value+1e-9 || w.of(u.Nearest) != w.value {
				t.Errorf("%d: %v: the nearest blend has %.17g, by Mix %.17g\n%v", i, w, w.of(u.Nearest), w.of(m), q)
			}
		}
	}
	if compared < 150 || sized < 150 {
		t.Errorf("only %d compared, %d sized", compared, sized)
	}
}

// heldBeside is what holds beside the want that fails.
func (q posed) heldBeside(t *testing.T) []Want {
	var p problem
	if err := p.pose(q.total, q.cs, q.wants); err != nil {
		t.Fatal(err)
	}
	_, held := p.failing()
	return held
}

// A change is the least that does: what goes 2 % less far does not.
func TestNoLesserChangeDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 44))
	tried := map[string]int{}
	for i := range 1000 * *problems {
		q := someProblem(r, i%2 == 0, true)
		for k := range q.cs {
			q.cs[k].Name = fmt.Sprint(k)
		}
		_, err := Solve(q.total, q.cs, q.wants...)
		var u *UnreachableError
		if !errors.As(err, &u) {
			continue
		}
		for _, c := range u.Changes {
			to, ok := c.lesser()
			if !ok {
				continue
			}
			kind := c.Quantity
			if c.To < c.From {
				kind = "less " + kind
			}
			tried[kind]++
			lesser := posed{q.total, append([]Component(nil), q.cs...), q.wants}
			for k := range lesser.cs {
				switch of := &lesser.cs[k]; {
				case of.Name != c.Component:
				case c.Quantity == "volume":
					of.Volume = units.Volume(to)
				case c.Quantity == "strength":
					of.Strength = units.Strength(to)
				default:
					of.Extract = units.Concentration(to)
				}
			}
			if c.Quantity == "vessel" {
				lesser.total = units.Volume(to)
			}
			if p, err := Solve(lesser.total, lesser.cs, lesser.wants...); err == nil {
				t.Errorf("%d: %v, but %v does: %v\n%v", i, c, to, p.Volumes, q)
			}
		}
	}
	for _, kind := range []string{"volume", "less volume", "less vessel", "strength", "less strength", "extract", "less extract"} {
		if tried[kind] < 5 {
			t.Errorf("only %d of %s", tried[kind], kind)
		}
	}
}

// Where the spirit is short, the most wine that it does for is offered: in proportion
// to what a litre of wine takes. Water, of which there is enough, does not help.
func TestTheMostOfTheWineIsOffered(t *testing.T) {
	wine, spirit := Component{Name: "wine", Volume: 1, Strength: 12, Extract: 20}, Component{Name: "spirit", Strength: 96}
	f, err := Fortify(wine, spirit, 20)
	if err != nil {
		t.Fatal(err)
	}
	wine.Volume, spirit.Volume = 10, 0.5
	_, err = Solve(0, []Component{wine, spirit, {Name: "water"}}, WantAll(0), WantStrength(20))
	var u *UnreachableError
	if !errors.As(err, &u) {
		t.Fatal(err)
	}
	most := 0.5 / float64(f.Spirit)
	for _, c := range u.Changes {
		if c.Component == "wine" && c.Quantity == "volume" && c.To <= most && c.To > 0.999*most {
			return
		}
	}
	t.Errorf("%v; the spirit does for %v L of wine", err, most)
}

// Of liquids without limit the ends are those that have least and most.
func TestEndsOfLiquidsWithoutLimit(t *testing.T) {
	for i := range 100 * *problems {
		r := rand.New(rand.NewPCG(uint64(i), 50))
		q := posed{cs: make([]Component, 2+r.IntN(5))}
		for k := range q.cs {
			q.cs[k] = roundLiquid(r)
		}
		q.cs[0].Volume = units.Volume(1 + r.IntN(3))
		for _, w := range []Want{WantStrength(0), WantStrength(100), WantExtract(0), WantExtract(900), WantAcid(0), WantAcid(90)} {
			_, err := Solve(0, q.cs, WantAll(0), w)
			var u *UnreachableError
			if !errors.As(err, &u) {
				continue
			}
			least, most := q.span(w)
			if u.Low > least+1e-6 || u.High < most-1e-6 || u.Low < least-1 || u.High > most+1 { // by contraction a little beyond
				t.Errorf("%d: %v; they have %v to %v\n%v", i, u, least, most, q)
			}
		}
	}
}

// Where all stocks together do not fill the size, that is what fails, whatever else is
// wanted.
func TestStocksThatDoNotFillTheSize(t *testing.T) {
	cs := []Component{{Volume: 2, Strength: 6, Extract: 140}, {Volume: 0.3, Strength: 60}}
	m, err := Mix(cs...)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Solve(5, cs, WantStrength(10))
	var u *UnreachableError
	if !errors.As(err, &u) || u.Want.quantity != size || u.Limit != LimitStock || math.Abs(u.High-float64(m.Volume)) > 1e-9 {
		t.Errorf("%v", err)
	}
}

// Stocks that just fill the size, but for rounding, do not fail by it: the want that
// cannot be met is named.
func TestStocksThatJustFillTheSizeFillIt(t *testing.T) {
	r := rand.New(rand.NewPCG(48, 49))
	for range 200 {
		cs := []Component{{Volume: units.Volume(3 * r.Float64()), Strength: 75}, {Volume: units.Volume(10 * r.Float64()), Strength: 5, Extract: 140, Acid: 7}}
		m, err := Mix(cs...)
		if err != nil {
			t.Fatal(err)
		}
		_, err = Solve(m.Volume, cs, WantStrength(m.Strength), WantAcid(0))
		var u *UnreachableError
		if !errors.As(err, &u) || u.Want != WantAcid(0) || math.Abs(u.Low-float64(m.Acid)) > 1e-6 {
			t.Errorf("%v and %v: %v", cs[0].Volume, cs[1].Volume, err)
		}
	}
}

// roundLiquid has strength, extract and acid that others have too.
func roundLiquid(r *rand.Rand) Component {
	pick := func(v ...float64) float64 { return v[r.IntN(len(v))] }
	c := Component{Strength: units.Strength(pick(0, 5, 6, 12, 12, 40, 75)), Acid: units.Concentration(pick(0, 5, 7)), Cost: pick(0, 1, 5)}
	if c.Strength < 50 {
		c.Extract = units.Concentration(pick(0, 20, 140, 200))
	}
	return c
}

// byContractionAlone says that no liquid has less, or none more, of what is wanted.
func (q posed) byContractionAlone(w Want) bool {
	lo, hi := q.span(w)
	return w.value > 0 && (w.value <= lo || w.value >= hi)
}

// span is from the least to the most that a liquid has of what is wanted.
func (q posed) span(w Want) (lo, hi float64) {
	lo = math.Inf(1)
	for i := range q.cs {
		has := w.ofComponent(&q.cs[i])
		if w.quantity == acid {
			has = float64(q.cs[i].Acid)
		}
		lo, hi = min(lo, has), max(hi, has)
	}
	return lo, hi
}

// Liquids that are alike in much: what some amounts within the stocks make is met,
// and where more or less of one quantity is wanted than can be, the ends are at least
// as far as what those amounts make.
func TestEndsHoldEveryBlendThatIsKnown(t *testing.T) {
	short := 0
	for i := range 700 * *problems {
		r := rand.New(rand.NewPCG(uint64(i), 47))
		q := posed{cs: make([]Component, 2+r.IntN(5))}
		litres := make([]units.Volume, len(q.cs))
		for k := range q.cs {
			q.cs[k] = roundLiquid(r)
			litres[k] = units.Volume(math.Pow(10, 3*r.Float64()-2))
			if r.IntN(3) == 0 && k > 0 {
				litres[k] = 0
			}
			if r.IntN(3) > 0 {
				q.cs[k].Volume = max(litres[k], units.Volume(r.IntN(3)))
			}
		}
		m, err := q.mix(litres)
		if err != nil {
			t.Fatal(err)
		}
		if q.total = m.Volume; r.IntN(3) > 0 {
			q.total, q.cs[0].Volume = 0, litres[0]
			q.wants = append(q.wants, WantAll(0))
		}
		wants := slices.DeleteFunc([]Want{WantStrength(m.Strength), WantExtract(m.Extract), WantAcid(m.Acid)}, q.byContractionAlone)
		if len(wants) == 0 {
			continue
		}
		r.Shuffle(len(wants), func(i, j int) { wants[i], wants[j] = wants[j], wants[i] })
		q.wants = append(q.wants, wants[:1+r.IntN(len(wants))]...)
		p, err := Solve(q.total, q.cs, q.wants...)
		if err != nil {
			t.Errorf("%d: %v make it, but %v\n%v", i, litres, err, q)
			continue
		}
		if off, what := q.off(p); off > 2e-9 {
			t.Errorf("%d: %s\n%v", i, what, q)
		}
		beyond := &q.wants[len(q.wants)-1]
		has := beyond.value
		for _, beyond.value = range []float64{0, 90} {
			_, err := Solve(q.total, q.cs, q.wants...)
			var u *UnreachableError
			if err == nil {
				continue
			}
			if !errors.As(err, &u) || u.Want != *beyond || u.Low > has*1.001+1e-3 || u.High < has*0.999-1e-3 {
				t.Errorf("%d: %v make %v of it, but %v\n%v", i, litres, has, err, q)
			} else if u.Low > has*(1+1e-6)+1e-6 || u.High < has*(1-1e-6)-1e-6 {
				short++
			}
		}
	}
	if short*300 > 700**problems {
		t.Errorf("%d ends do not hold a blend that is known", short)
	}
}

// Liquids of one strength, or nearly, contract to more than any has: the ends are beyond
// them, at least as far as any mixture of two.
func TestEndsBeyondAllLiquids(t *testing.T) {
	r := rand.New(rand.NewPCG(45, 46))
	beyond, short := 0, 0
	for i := range 300 * *problems {
		q := posed{total: 2, cs: make([]Component, 2+r.IntN(3)), wants: []Want{WantStrength(99)}}
		s := 60 * r.Float64()
		for k := range q.cs {
			q.cs[k] = Component{Strength: units.Strength(s + 0.01*r.Float64()*float64(i/2%2)), Extract: units.Concentration(200 * r.Float64())}
		}
		if i%2 == 0 {
			q.total, q.cs[0].Volume, q.wants = 0, 1, append(q.wants, WantAll(0))
		}
		_, err := Solve(q.total, q.cs, q.wants...)
		var u *UnreachableError
		if !errors.As(err, &u) {
			t.Fatalf("%d: %v\n%v", i, err, q)
		}
		most, strongest := 0.0, 0.0
		for a := range q.cs {
			strongest = max(strongest, float64(q.cs[a].Strength))
			for b := range a {
				for part := 0.02; part < 1; part += 0.02 {
					x, y := q.cs[a], q.cs[b]
					x.Volume, y.Volume = units.Volume(part), units.Volume(1-part)
					m, err := Mix(x, y)
					if err != nil {
						t.Fatal(err)
					}
					most = max(most, float64(m.Strength))
				}
			}
		}
		if most > strongest {
			beyond++
		}
		if u.High < most-1e-7 { // another local optimum
			short++
		}
		if u.High < most-1e-4 {
			t.Errorf("%d: reaches %.9g, but a mixture of two has %.9g\n%v", i, u.High, most, q)
		}
	}
	if beyond < 50 || short*100 > beyond {
		t.Errorf("%d contract to more than any has, %d ends do not reach the mixture of two", beyond, short)
	}
}

// What is to be weaker is offered of the weakest, what is to be stronger of the
// strongest; of the other where that one is at its end.
func TestWhichContentIsChanged(t *testing.T) {
	cs := []Component{{Name: "wine", Strength: 12}, {Name: "cider", Strength: 6}, {Name: "port", Strength: 19}}
	for _, x := range []struct {
		want float64
		of   string
	}{{4, "cider"}, {25, "port"}} {
		_, err := Solve(3, cs, WantStrength(units.Strength(x.want)))
		var u *UnreachableError
		if !errors.As(err, &u) || len(u.Changes) != 1 || u.Changes[0].Component != x.of || math.Abs(u.Changes[0].To/x.want-1) > 1e-3 {
			t.Errorf("%v %% vol: %v", x.want, err)
		}
	}
}

// Sixteen liquids with a stock each, all of one: as many columns as there can be.
func TestSixteenLiquidsWithStocks(t *testing.T) {
	q := posed{cs: make([]Component, 16)}
	for i := range q.cs {
		q.cs[i] = Component{Volume: 0.5 + 0.1*units.Volume(i), Strength: 4 + 3*units.Strength(i%7), Extract: 10 + 20*units.Concentration(i%5), Acid: 4 + 0.5*units.Concentration(i%3)}
	}
	m, err := Mix(q.cs...)
	if err != nil {
		t.Fatal(err)
	}
	q.wants = []Want{WantAll(0), WantStrength(m.Strength), WantExtract(m.Extract), WantAcid(m.Acid)}
	p, err := Solve(0, q.cs, q.wants...)
	if err != nil {
		t.Fatal(err)
	}
	if off, what := q.off(p); off > 2e-9 {
		t.Error(what)
	}
	// The strongest have 22 % vol; those of 10 g/L acid do not exist.
	for _, w := range []Want{WantStrength(30), WantAcid(10)} {
		held := []Want{WantAll(0), WantExtract(m.Extract), w}
		if w.quantity == acid {
			held = append([]Want{WantStrength(m.Strength)}, held...)
		}
		var u *UnreachableError
		if _, err = Solve(0, q.cs, held...); !errors.As(err, &u) || u.Want != w || u.Low > u.High || u.High >= w.value {
			t.Errorf("%v: %v", w, err)
		}
	}
}

// However many wants contradict each other, the second is named.
func TestFourStrengthsAtOnce(t *testing.T) {
	cs := make([]Component, 6)
	for i := range cs {
		cs[i] = Component{Strength: units.Strength(15 * i), Acid: units.Concentration(i)}
	}
	for range 2 {
		_, err := Solve(2, cs, WantStrength(20), WantStrength(30), WantStrength(31), WantStrength(32))
		var u *UnreachableError
		if !errors.As(err, &u) || u.Want.value != 30 || math.Abs(u.Low-20) > 1e-8 || math.Abs(u.High-20) > 1e-8 {
			t.Errorf("%v", err)
		}
		cs = cs[:5]
	}
}

// No recipe pours more than can be, a million million litres: what would take more is
// not reachable, and the end is the blend with that much.
func TestNoRecipePoursMoreThanThereCanBe(t *testing.T) {
	base, spirit := Component{Volume: 71, Strength: 63.76887767511964}, Component{Strength: 19.605814245564744}
	if p, err := Solve(0, []Component{base, spirit}, WantAll(0), WantStrength(19.605814246869453)); !errors.Is(err, ErrUnreachable) {
		t.Errorf("%v, %v", p.Volumes, err)
	}
	base, spirit = Component{Volume: 1e5, Strength: 60}, Component{Strength: 20} // of which 4e12 L would do
	if p, err := Solve(0, []Component{base, spirit}, WantAll(0), WantStrength(20.000001)); !errors.Is(err, ErrUnreachable) {
		t.Errorf("%v, %v", p.Volumes, err)
	}
	base, water := Component{Volume: 5e11, Strength: 10}, Component{}
	_, err := Solve(0, []Component{base, water}, WantAll(0), WantStrength(2))
	water.Volume = 1e12
	m, other := Mix(base, water)
	var u *UnreachableError
	if !errors.As(err, &u) || other != nil || math.Abs(u.Low-float64(m.Strength)) > 1e-6 {
		t.Errorf("%v; with 1e12 L of water %v", err, m.Strength)
	}
}

// A want between the ends is met, though rounding takes it from the programmes.
func TestAWantBetweenTheEndsIsMet(t *testing.T) {
	q := posed{cs: []Component{
		{Volume: 470513.53189058253, Strength: 75, Cost: 402634469.82703501},
		{Volume: 2, Extract: 20, Acid: 7, Cost: 5},
		{Strength: 75, Cost: 5},
		{Volume: 2, Strength: 12, Acid: 5, Cost: 1e-9},
		{Strength: 5, Cost: 5},
		{Strength: 12, Extract: 20, Acid: 7, Cost: 5},
	}}
	for e := 1.0; e < 14; e += 0.125 {
		q.wants = []Want{WantStrength(12), WantExtract(units.Concentration(e)), WantAcid(5), WantAll(3)}
		p, err := Solve(0, q.cs, q.wants...)
		if err != nil {
			t.Errorf("%v g/L: %v", e, err)
			continue
		}
		if off, what := q.off(p); off > 2e-9 {
			t.Errorf("%v g/L: %s", e, what)
		}
	}
}
