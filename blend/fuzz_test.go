package blend_test

import (
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// FuzzFortify: what is poured makes the target, loses no mass, and is finite.
func FuzzFortify(f *testing.F) {
	f.Add(3.0, 6.1, 142.0, 40.0, 0.0, 20.0)
	f.Add(3.0, 6.1, 142.0, 96.0, 118.0, 20.0)
	f.Add(1e-6, 0.0, 0.0, 100.0, 0.0, 99.999)
	f.Add(1e6, 19.999999999, 300.0, 20.0, 0.0, 20.0)
	f.Fuzz(func(t *testing.T, volume, s1, e1, s2, e2, target float64) {
		base := blend.Component{Name: "wine", Volume: units.Volume(volume), Strength: units.Strength(s1), Extract: units.Concentration(e1)}
		spirit := blend.Component{Name: "spirit", Strength: units.Strength(s2), Extract: units.Concentration(e2)}
		p, err := blend.Fortify(base, spirit, units.Strength(target))
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		handbook.Finite(t, "Fortify", p)
		if got := float64(p.Result.Strength); math.Abs(got-target) > 1e-6*(1+target) || p.Spirit < 0 {
			t.Errorf("%+v into %+v to %v: %+v", spirit, base, target, p)
		}
		if p.Spirit == 0 {
			return
		}
		spirit.Volume = p.Spirit
		m, err := blend.Mix(base, spirit)
		if err != nil {
			t.Fatalf("what Fortify pours cannot be mixed: %v", err)
		}
		if a, b := float64(m.Mass), float64(p.Result.Mass); math.Abs(a-b) > 1e-9*a {
			t.Errorf("mass %v, mixed %v", b, a)
		}
		to, err := blend.FortifyTo(p.Result.Volume, base, spirit, units.Strength(target))
		if err == nil {
			handbook.Finite(t, "FortifyTo", to)
		}
	})
}

// FuzzArrest: a whole course from the must is finite with its uncertainties.
func FuzzArrest(f *testing.F) {
	f.Add(1.092, 1.046, 3.0, 0.15, 0.769, 40.0, 0.001)
	f.Add(1.092, 1.0459999, 3.0, 2.9, 0.001, 96.0, 0.01)
	f.Add(1.2, 0.99, 100.0, 0.0, 0.0, 40.0, 0.0)
	f.Fuzz(func(t *testing.T, og, stop, must, lees, spirit, strength, u float64) {
		a := blend.Arrest{OG: sg(og), Stop: sg(stop), Yield: fruit, Must: units.Volume(must), Lees: units.Volume(lees),
			Spirit: blend.Component{Name: "spirit", Volume: units.Volume(spirit), Strength: units.Strength(strength)}}
		r, err := a.Within(blend.ArrestUncertainty{OG: sg(u), Stop: sg(u), Must: units.Volume(u), Lees: units.Volume(u), SpiritVolume: units.Volume(u), SpiritStrength: units.Strength(u)})
		if err != nil {
			return
		}
		handbook.Finite(t, "Arrest", r)
		if r.BlendStrength.Standard < 0 || r.Blend.Volume < 0 {
			t.Errorf("%+v", r)
		}
	})
}

type sg = gravity.SG

var fruit = abv.Fruit
