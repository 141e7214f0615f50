package acid_test

import (
	"math"
	"testing"

	"example.org/mutage/additions/acid"
	"example.org/mutage/units"
)

// A blend does what its acids do one by one: 5 g of tartaric, 3 g of malic and 2 g
// of citric acid in 10 L.
func TestABlendIsItsAcidsTogether(t *testing.T) {
	var low, high units.Concentration
	for _, p := range []struct {
		acid acid.Acid
		mass units.Mass
	}{{acid.Tartaric, 5}, {acid.Malic, 3}, {acid.Citric, 2}} {
		l, h, err := acid.RaisedTA(p.mass, 10, p.acid)
		if err != nil {
			t.Fatal(err)
		}
		low, high = low+l, high+h
	}
	for _, text := range []string{"50 % tartaric, 30 % malic, 20 % citric", "5 parts tartaric acid; 3 malic; 2 citric acid", "5 Tartaric + 3 Malic + 2 Citric"} {
		b, err := acid.ParseBlend(text)
		if err != nil {
			t.Fatal(err)
		}
		l, h, err := b.Raised(10, 10)
		if err != nil || math.Abs(float64(l-low)) > 1e-12 || math.Abs(float64(h-high)) > 1e-12 {
			t.Errorf("%q: %v to %v, %v; want %v to %v", text, l, h, err, low, high)
		}
		m, err := b.Raise(high, 10)
		if err != nil || math.Abs(float64(m)-10) > 1e-9 {
			t.Errorf("%q: %v, %v; want 10 g", text, m, err)
		}
		if b.String() != "50 % tartaric acid, 30 % malic acid, 20 % citric acid" {
			t.Error(b)
		}
	}
	one, err := acid.ParseBlend("malic")
	if err != nil || one.String() != "malic acid" {
		t.Errorf("%v, %v", one, err)
	}
	got, err := one.Raise(1, 3)
	if want, _ := acid.RaiseTA(1, 3, acid.Malic); err != nil || math.Abs(float64(got/want)-1) > 1e-12 {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
}

func TestAcidsAndCarbonatesByName(t *testing.T) {
	for _, text := range []string{"", "vinegar", "tartaric, malic", "0 tartaric, 1 malic", "50 %"} {
		if b, err := acid.ParseBlend(text); err == nil {
			t.Errorf("%q: %v", text, b)
		}
	}
	if _, err := (acid.Blend{}).Raise(1, 1); err == nil {
		t.Error("a blend of nothing raises the acid")
	}
	if c, err := acid.ParseCarbonate("Potassium Bicarbonate"); err != nil || c.Name != acid.PotassiumBicarbonate.Name || len(c.Figures()) != 1 {
		t.Errorf("%v, %v", c, err)
	}
	if _, err := acid.ParseCarbonate("chalk dust"); err == nil {
		t.Error("chalk dust")
	}
}
