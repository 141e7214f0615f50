package blend_test

import (
	"math"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// What is not said is marked, never taken for nothing.
func TestLiquidsAsTheyAreSaid(t *testing.T) {
	for _, c := range []struct {
		text                   string
		name                   string
		volume, fill           units.Volume
		strength               units.Strength
		extract                units.Concentration
		notKnown, spirit, mass bool
	}{
		{text: "cherry: 3 L at 6.1 % vol with 142 g/L", name: "cherry", volume: 3, strength: 6.1, extract: 142},
		{text: "3 L at 6.1 % vol", volume: 3, strength: 6.1, notKnown: true},
		{text: "3 L at 6.1 % vol no extract", volume: 3, strength: 6.1},
		{text: "at 75 % vol", strength: 75, spirit: true},
		{text: "0.7 L at 35 % vol with 300 g/L", volume: 0.7, strength: 35, extract: 300, spirit: true},
		{text: "fill 2 L at 40 % vol", fill: 2, strength: 40, spirit: true},
		{text: "2 L water", name: "water", volume: 2},
		{text: "Water: 2 L", name: "Water", volume: 2},
		{text: "juice: 1 L with 150 g/L", name: "juice", volume: 1, extract: 150},
		{text: "3 kg at 6.1 % vol with 142 g/L", strength: 6.1, extract: 142, mass: true},
	} {
		p, err := blend.ParsePoured(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if p.Name != c.name || !c.mass && p.Volume != c.volume || p.Fill != c.fill || p.Strength != c.strength || p.Extract != c.extract || p.ExtractNotKnown != c.notKnown || p.Spirit() != c.spirit {
			t.Errorf("%q: %+v", c.text, p)
		}
		if c.mass {
			m, err := p.Weight()
			if err != nil || p.Mass != 3000 || math.Abs(float64(m)-3000) > 1e-9 {
				t.Errorf("%q weighs %v, %v", c.text, m, err)
			}
			mixed, err := blend.Mix(p.Component)
			if err != nil || math.Abs(float64(mixed.Mass)-3000) > 1e-9 {
				t.Errorf("%q mixed weighs %v, %v", c.text, mixed.Mass, err)
			}
		}
	}
	for _, text := range []string{"", "3 L", "3 kg", "wine", "0.5 L vodka", "fill 3 kg at 40 % vol", "fill at 40 % vol", "3 kg at 140 % vol", "3 kg at 20 % vol with 1200 g/L"} {
		if p, err := blend.ParsePoured(text); err == nil {
			t.Errorf("%q: %+v", text, p)
		}
	}
	if _, err := (blend.Component{Strength: -1}).Weight(); err == nil {
		t.Error("a liquid of -1 % vol has a weight")
	}
	if _, err := (blend.Component{}).VolumeOf(-1); err == nil {
		t.Error("-1 g has a volume")
	}
}

// The tolerances are those of the instruments: 3 % of a jug, 2 % of a bottle, 0.3
// % vol of its label, each the half-width of a rectangle; the extract by 0.001 of a
// hydrometer, which is 2.6 g/L of sugar (common practice, no source).
func TestTolerancesOfWhatWasPoured(t *testing.T) {
	near := func(what string, got, want float64) {
		if math.Abs(got/want-1) > 0.02 {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	wine := blend.Component{Volume: 3, Strength: 6.1, Extract: 142}.Tolerances()
	near("volume", float64(wine.Volume), 0.09/math.Sqrt(3))
	near("strength", float64(wine.Strength), 0.17)
	near("extract", float64(wine.Extract), 2.61/math.Sqrt(3))
	spirit := blend.Component{Volume: 0.7, Strength: 75}.Tolerances()
	near("volume", float64(spirit.Volume), 0.014/math.Sqrt(3))
	near("strength", float64(spirit.Strength), 0.3/math.Sqrt(3))
	if spirit.Extract != 0 || (blend.Component{Volume: 1}).Tolerances().Strength != 0 {
		t.Error("water and neutral spirit are not doubted")
	}
}
