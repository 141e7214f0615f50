package blend_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// Corners of two programmes, each the better one by the partial volumes at the
// other: this gave 129.397 g/L without an error.
func TestTwoCornersThatJump(t *testing.T) {
	p, err := blend.Solve(0, []blend.Component{
		{Name: "b", Volume: 1.4, Strength: 71.3, Cost: 15.7},
		{Name: "c", Strength: 6.6, Extract: 155, Cost: 1.6},
		{Name: "d", Extract: 365, Cost: 14.6},
	}, blend.WantAll(0), blend.WantExtract(131.4))
	if err != nil || p.Result.Extract != 131.4 || p.Volumes[0] != 1.4 {
		t.Fatalf("%+v, %v", p, err)
	}
	// b with d alone costs 33.26, b with c alone 34.05 (each by the equation of two).
	if p.Cost > 33.26 {
		t.Errorf("%v costs %v", p.Volumes, p.Cost)
	}
	t.Logf("%v costs %.4f", p.Volumes, p.Cost)
}

// A price of a ten-thousandth of the dearest counts, whatever the order.
func TestSmallCostsCount(t *testing.T) {
	cs := []blend.Component{{Name: "first", Strength: 40, Cost: 1.0001}, {Name: "second", Strength: 40, Cost: 1}, {Name: "dear", Strength: 96, Cost: 1e4}}
	p, err := blend.Solve(2, cs, blend.WantStrength(40))
	if err != nil || p.Volumes[0] != 0 || p.Volumes[1] != 2 {
		t.Errorf("%+v, %v", p.Volumes, err)
	}
	cs[0].Cost = 1 // at the same price the one named first
	if p, err = blend.Solve(2, cs, blend.WantStrength(40)); err != nil || p.Volumes[0] != 2 || p.Volumes[1] != 0 {
		t.Errorf("%+v, %v", p.Volumes, err)
	}
}

// What is judged by the wanted value must not turn on the last bit of it.
func TestTheWantedIsReachedToTheLastBit(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for range 2000 {
		base := blend.Component{Volume: units.Volume(0.1 + 5*r.Float64()), Strength: units.Strength(14 * r.Float64()), Extract: units.Concentration(200 * r.Float64())}
		spirit := blend.Component{Strength: units.Strength(40 + 56*r.Float64())}
		syrup := blend.Component{Extract: units.Concentration(400 + 400*r.Float64())}
		target, extract, total := units.Strength(15+7*r.Float64()), units.Concentration(200+100*r.Float64()), base.Volume*2
		f, err := blend.Fortify(base, spirit, target)
		if err != nil || f.Result.Strength != target {
			t.Errorf("%.17g, %v; want %.17g", float64(f.Result.Strength), err, float64(target))
		}
		if f, err = blend.SweetenTo(base, syrup, extract); err != nil || f.Result.Extract != extract {
			t.Errorf("%.17g, %v; want %.17g", float64(f.Result.Extract), err, float64(extract))
		}
		there := base
		base.Volume = 0
		if f, err = blend.FortifyTo(total, base, spirit, target); err != nil || f.Result.Strength != target || f.Result.Volume != total {
			t.Errorf("%+v, %v; want %.17g", f.Result, err, float64(target))
		}
		if f, err = blend.TopUp(there, spirit, total); err != nil || f.Result.Volume != total {
			t.Errorf("%+v, %v; want %.17g", f.Result, err, float64(total))
		}
		states, err := blend.Portions(there, spirit, target, 3)
		if err != nil || states[2].Result.Strength != target {
			t.Errorf("%+v, %v; want %.17g", states, err, float64(target))
		}
	}
}

func TestAllOfTheSpiritWhereThatIsIt(t *testing.T) {
	f, err := blend.FortifyTo(2, blend.Component{Strength: 6}, blend.Component{Strength: 20}, 20)
	if err != nil || f.Base != 0 || math.Abs(float64(f.Spirit)-2) > 1e-12 {
		t.Errorf("%+v, %v", f, err)
	}
}

func TestNobodyPoursMoreThanThereCanBe(t *testing.T) {
	base, spirit := blend.Component{Volume: 71, Strength: 63.76887767511964}, blend.Component{Strength: 19.605814245564744}
	if f, err := blend.Fortify(base, spirit, 19.605814246869453); !errors.Is(err, blend.ErrUnreachable) {
		t.Errorf("%v of it, %v", f.Spirit, err)
	}
}

func TestAcidThatIsNotKnownCannotBeWanted(t *testing.T) {
	cs := []blend.Component{{Name: "wine", Strength: 12, Acid: 6}, {Name: "juice", Extract: 200, Unknown: blend.Set(blend.Acid)}}
	if p, err := blend.Solve(2, cs, blend.WantAcid(4)); !errors.Is(err, blend.ErrUnknown) || !strings.Contains(err.Error(), "juice") {
		t.Errorf("%+v, %v", p, err)
	}
}

// Wants that contradict each other name the second.
func TestWantsThatContradictEachOther(t *testing.T) {
	cs := []blend.Component{{Strength: 6}, {Strength: 75}, {Extract: 300}}
	for _, wants := range [][]blend.Want{
		{blend.WantStrength(20), blend.WantStrength(30)},
		{blend.WantStrength(20), blend.WantStrength(30), blend.WantExtract(40)},
		{blend.WantStrength(20), blend.WantExtract(20), blend.WantAcid(0), blend.WantStrength(30), blend.WantStrength(31)},
	} {
		_, err := blend.Solve(2, cs, wants...)
		var u *blend.UnreachableError
		if !errors.As(err, &u) {
			t.Errorf("%v: %v", wants, err)
			continue
		}
		if _, value, _ := u.Wanted(); value != 30 || math.Abs(u.Low-20) > 1e-9 || math.Abs(u.High-20) > 1e-9 || len(u.Changes) > 0 {
			t.Errorf("%v: %v", wants, u)
		}
	}
}

func TestErrorsNameTheComponent(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]blend.Component{
		"volume":             {Volume: -1},
		"strength":           {Volume: 1, Strength: units.Strength(nan)},
		"extract":            {Volume: 1, Strength: 95, Extract: 250},
		"titratable_acidity": {Volume: 1, Acid: -2},
		"cost":               {Volume: 1, Cost: -1},
	} {
		c.Name = "jar 3"
		_, err := blend.Mix(c)
		var outside *units.RangeError
		if !errors.As(err, &outside) || outside.Of != "jar 3" || outside.Key != name || strings.ContainsFunc(outside.Quantity, unicode.IsDigit) {
			t.Errorf("%s: %#v", name, err)
		}
	}
	_, err := blend.Mix(blend.Component{Name: "liqueur", Volume: 1, Strength: 95, Extract: 250})
	if want := "liqueur: a liquid of 95 % vol cannot hold 250 g/L of extract; possible: 0 to 51.7"; err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v; want %s", err, want)
	}
}

// A jar, with stock or without: each change, made as printed, does.
func TestChangesInAVessel(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	tried := 0
	for range 2000 {
		base := blend.Component{Name: "base", Volume: units.Volume(1 + r.Float64()), Strength: units.Strength(14 * r.Float64()), Extract: units.Concentration(200 * r.Float64())}
		spirit := blend.Component{Name: "spirit", Strength: units.Strength(30 + 66*r.Float64()), Volume: units.Volume(r.IntN(2)) * units.Volume(r.Float64())}
		jar, target := blend.Vessel{Size: base.Volume * units.Volume(1+r.Float64())}, units.Strength(15+7*r.Float64())
		_, err := blend.FortifyIn(jar, base, spirit, target)
		var u *blend.UnreachableError
		if !errors.As(err, &u) {
			continue
		}
		for _, c := range u.Changes {
			tried++
			j, b, s := jar, base, spirit
			switch {
			case c.Quantity == "vessel":
				j.Size = units.Volume(c.To)
			case c.Quantity == "strength":
				s.Strength = units.Strength(c.To)
			case c.Component == "base":
				b.Volume = units.Volume(c.To)
			default:
				s.Volume = units.Volume(c.To)
			}
			if f, err := blend.FortifyIn(j, b, s, target); err != nil || f.Result.Strength != target {
				t.Errorf("%v: %v, but then %v", u, c, err)
			}
		}
	}
	if tried < 1000 {
		t.Errorf("%d changes tried", tried)
	}
}
