package blend_test

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// A blend may be as large as any volume, and what it needs of one component too;
// more than that of a liquid there is not.
func TestABlendMayBeAsLargeAsAnyVolume(t *testing.T) {
	const most = 1e12
	wine := blend.Component{Name: "wine", Strength: 12, Acid: 6}
	r, err := blend.Solve(most, []blend.Component{wine}, blend.WantStrength(12), blend.WantAcid(6))
	if err != nil || r.Volumes[0] != most || r.Result.Volume != most {
		t.Errorf("%+v, %v", r, err)
	}
	// 1e9 L of 60 % vol to 0.05 % vol take 1.2e12 L, more than there is: 1e12 bring it to 6e10/1.001e12.
	spirit, water := blend.Component{Name: "spirit", Volume: 1e9, Strength: 60}, blend.Component{Name: "water"}
	_, err = blend.Solve(0, []blend.Component{spirit, water}, blend.WantAll(0), blend.WantStrength(0.05))
	var u *blend.UnreachableError
	if !errors.As(err, &u) {
		t.Fatal(err)
	}
	if len(u.Volumes) != 2 || math.Abs(float64(u.Volumes[1])/most-1) > 1e-9 || math.Abs(u.Low/(6e10/1.001e12)-1) > 1e-3 {
		t.Errorf("down to %v with %v", u.Low, u.Volumes)
	}
	r, err = blend.Solve(0, []blend.Component{spirit, water}, blend.WantAll(0), blend.WantStrength(0.061))
	if err != nil || r.Volumes[0] != 1e9 || math.Abs(float64(r.Volumes[1])/(6e10/0.061-1e9)-1) > 1e-3 {
		t.Errorf("%+v, %v", r, err)
	}
}

// A drop may be thinned ten thousand times.
func TestADropMayBeThinned(t *testing.T) {
	drop, water := blend.Component{Name: "alcohol", Volume: 1e-9, Strength: 100}, blend.Component{Name: "water"}
	r, err := blend.Solve(0, []blend.Component{drop, water}, blend.WantAll(0), blend.WantStrength(0.01))
	if err != nil || math.Abs(float64(r.Volumes[1])/1e-5-1) > 1e-3 || math.Abs(float64(r.Result.Strength)-0.01) > 1e-10 {
		t.Errorf("%+v, %v", r, err)
	}
}

// Portions are equal, and each state is what the base makes with those so far.
func TestPortionsAreEqual(t *testing.T) {
	states, err := blend.Portions(cherry, strong, 20, 4)
	if err != nil {
		t.Fatal(err)
	}
	all := states[3].Spirit
	for i, s := range states {
		part := strong
		part.Volume = all * units.Volume(i+1) / 4
		m, err := blend.Mix(cherry, part)
		if err != nil || s.Base != cherry.Volume || math.Abs(float64(s.Spirit-part.Volume)) > 1e-12 || math.Abs(float64(s.Result.Strength-m.Strength)) > 1e-9 {
			t.Errorf("portion %d: %+v, want %v and %v, %v", i+1, s, part.Volume, m.Strength, err)
		}
	}
}

// What a recipe costs is what its volumes cost.
func TestARecipeCostsWhatItsVolumesCost(t *testing.T) {
	cs := []blend.Component{{Name: "wine", Strength: 6, Extract: 140, Cost: 3}, {Name: "spirit", Strength: 75, Cost: 20}, {Name: "water", Cost: 0.5}}
	r, err := blend.Solve(2, cs, blend.WantStrength(20), blend.WantExtract(90))
	if err != nil || r.Choices != 0 {
		t.Fatalf("%+v, %v", r, err)
	}
	cost := 0.0
	for i, v := range r.Volumes {
		cost += cs[i].Cost * float64(v)
	}
	if r.Cost != cost || cost < 5 {
		t.Errorf("%v costs %v, want %v", r.Volumes, r.Cost, cost)
	}
}

// The cheapest recipe is the same one in any currency.
func TestACurrencyDoesNotChangeTheRecipe(t *testing.T) {
	for _, unit := range []float64{1, 1e-9, 1e9} {
		cs := []blend.Component{{Name: "base", Strength: 6, Extract: 140, Cost: 2 * unit}, {Name: "dear", Strength: 40, Cost: 10.1 * unit}, {Name: "cheap", Strength: 40, Cost: 10 * unit}}
		r, err := blend.Solve(2, cs, blend.WantStrength(18))
		if err != nil || r.Volumes[1] != 0 || r.Volumes[2] == 0 {
			t.Errorf("in %v: %+v, %v", unit, r.Volumes, err)
		}
	}
}
