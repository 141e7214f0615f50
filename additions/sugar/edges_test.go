package sugar

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// The classes as their sources print them: Portaria 379/75 by density, kg/m3;
// Regulation (EU) 2019/33 (from memory) and H. W. Wiley by sugar, g/L.
func TestSweetnessClassesAreThePrintedOnes(t *testing.T) {
	want := map[string][2]float64{
		"Port, dry": {0, 1008}, "Port, half-dry": {1008, 1018.5}, "Port, sweet": {1018, openEnd},
		"dry": {0, 4}, "medium dry": {4, 12}, "medium": {12, 45}, "sweet": {45, openEnd},
		"sweet wine (1906 standard)": {10, openEnd},
	}
	for _, r := range handbook.Load(t, "testdata/legal_strength_limits.csv").Rows {
		if printed, ok := want[r.Text("product")]; ok {
			for i, column := range []string{"minimum", "maximum"} {
				if text := r.Text(column); text != "" && r.Number(column) != printed[i] {
					t.Errorf("%s: %s is printed as %s, here %v", r.Text("product"), column, text, printed[i])
				}
			}
		}
	}
	for _, c := range SweetnessClasses() {
		got := [2]float64{float64(c.Sugar[0]), float64(c.Sugar[1])}
		if c.Density[1] != 0 {
			got = [2]float64{float64(c.Density[0]), float64(c.Density[1])}
		}
		if got != want[c.Name] {
			t.Errorf("%s from %v to %v, printed %v", c.Name, got[0], got[1], want[c.Name])
		}
		delete(want, c.Name)
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
	if openEnd < 1500 { // molten sugar is lighter
		t.Errorf("an open class ends at %v", openEnd)
	}
}

// Directive 2001/110/EC, Annex II: at most 20 % water, at least 60 g of glucose
// and fructose in 100 g. A syrup is what its Brix says, inverted 342.296 to 360.312.
func TestSweetenersAreWhatIsPrinted(t *testing.T) {
	if HoneyAtLegalLimits.Extract != 1-0.20 || HoneyAtLegalLimits.Hexose != 0.60 {
		t.Errorf("%+v", HoneyAtLegalLimits)
	}
	for _, brix := range []gravity.Brix{1, 40, 65, 85} {
		s, err := Syrup(brix)
		i, err2 := InvertSyrup(brix)
		share := float64(brix) / 100
		if err != nil || err2 != nil || !handbook.Near(s.Extract, share, 1e-12) || !handbook.Near(s.Hexose, share*360.312/342.296, 1e-4) ||
			!handbook.Near(i.Extract, share, 1e-12) || i.Hexose != i.Extract {
			t.Errorf("%v: %+v, %+v, %v, %v", brix, s, i, err, err2)
		}
	}
}

func TestStatedDomains(t *testing.T) {
	added := func(a Addition, err error) (float64, error) { return float64(a.Sugar), err }
	half, err := Syrup(50)
	if err != nil {
		t.Fatal(err)
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "portions", Of: func(x float64) (float64, error) {
			if x != math.Trunc(x) {
				x = -1
			}
			steps, err := AddInPortions(1.05, 4, 100, int(x))
			return float64(len(steps)), err
		}, Good: []float64{1, 100}, Bad: []float64{0, 101}},
		// The sweetener's own extract is reached by nothing but itself.
		{Name: "syrup of 50 Bx to this extract", Of: func(x float64) (float64, error) {
			g, err := gravity.Brix(x).SG()
			if err != nil {
				return 0, err
			}
			return added(RaiseGravityWith(half, 1, g, 1))
		}, Good: []float64{49.94}, Bad: []float64{49.96, 50, 51}},
		{Name: "extract share", Of: func(x float64) (float64, error) {
			return added(Sweeten(abv.Composition{Strength: 10, Extract: 20}, 1, Sweetener{Extract: x}, 1))
		}, Good: []float64{0.01, 1}, Bad: []float64{0.0099, 1.01}},
	})
}

// A refusal to sweeten so far states how far it goes: a little less is made, and
// made as asked.
func TestTheBoundsOfARefusalAreTheBounds(t *testing.T) {
	thin, err := Syrup(50)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []Sweetener{Sucrose, HoneyAtLegalLimits, thin} {
		for _, wine := range []abv.Composition{{Strength: 14, Extract: 20}, {Strength: 40, Extract: 0}} {
			_, err := RaiseExtract(wine, 2000, 3, s)
			var r *units.RangeError
			if !errors.As(err, &r) {
				t.Fatalf("%s to 2000 g/L: %v", s.Name, err)
			}
			if !handbook.Near(r.Min, float64(wine.Extract), 1e-9) {
				t.Errorf("%s: a wine of %v is said to have %v", s.Name, wine.Extract, r.Min)
			}
			a, err := RaiseExtract(wine, units.Concentration(r.Max*0.999), 3, s)
			if err != nil || !handbook.Near(float64(a.After.Extract), r.Max*0.999, 1e-7) {
				t.Errorf("%s into %v: %v short of the bound %v: %v, %v", s.Name, wine.Strength, r.Max*0.001, r.Max, a.After.Extract, err)
			}
			if _, err := RaiseExtract(wine, units.Concentration(r.Max*1.0001), 3, s); err == nil {
				t.Errorf("%s into %v: more than the bound %v", s.Name, wine.Strength, r.Max)
			}
			// Sucrose goes on until the water holds no more: 70 parts in 100.
			if s == Sucrose {
				m := float64(a.Sugar) + 3*float64(wine.Extract)
				whole := float64(a.After.Gravity) * float64(a.Volume) * float64(gravity.Water20)
				water := whole - m - 3*float64(wine.Strength)/100*789.24
				if share := m / (m + water); share < 0.69 || share > 0.701 {
					t.Errorf("into %v: %v of sucrose in sucrose and water", wine.Strength, share)
				}
			}
		}
	}
}
