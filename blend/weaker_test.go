package blend

import (
	"errors"
	"testing"

	"example.org/mutage/units"
)

// A spirit that is weaker than the wine, or whose strength was forgotten, is told
// how strong it would have to be: that strength does, and one a hundredth of the way
// back does not. The same for a sweetener that is not sweet and for dilution.
func TestASpiritWeakerThanTheWineIsToldWhatWouldDo(t *testing.T) {
	wine, strong := Component{Name: "wine", Volume: 3, Strength: 6.1, Extract: 42}, Component{Name: "wine", Volume: 3, Strength: 26.1, Extract: 42}
	ways := map[string]struct {
		set  func(c *Component, x float64)
		from float64
		do   func(other Component) (Fortification, error)
	}{
		"Fortify":   {func(c *Component, x float64) { c.Strength = units.Strength(x) }, 0, func(o Component) (Fortification, error) { return Fortify(wine, o, 20) }},
		"FortifyTo": {func(c *Component, x float64) { c.Strength = units.Strength(x) }, 5, func(o Component) (Fortification, error) { w := wine; w.Volume = 0; return FortifyTo(5, w, o, 20) }},
		"SweetenTo": {func(c *Component, x float64) { c.Extract = units.Concentration(x) }, 0, func(o Component) (Fortification, error) { return SweetenTo(wine, o, 200) }},
		"DiluteTo":  {func(c *Component, x float64) { c.Strength = units.Strength(x) }, 40, func(o Component) (Fortification, error) { return DiluteTo(strong, o, 20) }},
	}
	for name, way := range ways {
		for _, stock := range []units.Volume{0, 2} {
			other := Component{Name: "other", Volume: stock}
			way.set(&other, way.from)
			_, err := way.do(other)
			var e *UnreachableError
			if !errors.As(err, &e) || len(e.Changes) != 1 || e.Changes[0].Component != "other" || e.Changes[0].From != way.from {
				t.Errorf("%s, stock %v: %v", name, stock, err)
				continue
			}
			to := e.Changes[0].To
			way.set(&other, to)
			if _, err := way.do(other); err != nil {
				t.Errorf("%s, stock %v: %v was said to do: %v", name, stock, to, err)
			}
			way.set(&other, to-(to-way.from)/100)
			if _, err := way.do(other); err == nil {
				t.Errorf("%s, stock %v: less than %v does", name, stock, to)
			}
		}
	}
}
