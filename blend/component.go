package blend

import (
	"errors"
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// A Component is a liquid that goes into a blend. Volume is at 20 C (see
// MeasuredAt); Strength is % vol at 20 C; Extract is real extract as sucrose;
// Acid is titratable acidity as tartaric acid. Zero is none of it, as in a
// neutral spirit; what is not known is named in Unknown. Cost per litre, in
// any currency, is used by Solve alone.
type Component struct {
	Name                        string
	Volume                      units.Volume
	Strength                    units.Strength
	Extract, Acid               units.Concentration
	Sulfite, Sorbate, Potassium units.Concentration // total SO2, sorbic acid, potassium
	Unknown                     Solutes
	Cost                        float64
}

// A Solute is something that Mix carries along by mass without effect on the
// volume: its mass is part of the extract.
type Solute int

const (
	Acid Solute = iota
	Sulfite
	Sorbate
	Potassium
	solutes
)

// String is the name in the trade.
func (s Solute) String() string {
	if s < 0 || s >= solutes {
		return fmt.Sprintf("solute %d", int(s))
	}
	return [...]string{"titratable acidity", "sulfite", "sorbate", "potassium"}[s]
}

// Solutes is a set of solutes.
type Solutes uint8

// Set makes a set of the solutes named; anything else is left out.
func Set(members ...Solute) Solutes {
	var set Solutes
	for _, s := range members {
		if s >= 0 && s < solutes {
			set |= 1 << s
		}
	}
	return set
}

// Has says whether s is in the set.
func (set Solutes) Has(s Solute) bool { return s >= 0 && s < solutes && set&(1<<s) != 0 }

// FromMust is what must (its volume at 20 C before fermentation) has become,
// racked off its lees: strength and real extract are those of the mass
// balance, the volume shrinks by it. Domain: lees from 0 to that volume. Error:
// *units.RangeError.
func FromMust(name string, must units.Volume, fermented abv.Fermented, lees units.Volume) (Component, error) {
	c := Component{Name: name, Volume: must * units.Volume(fermented.VolumeRatio), Strength: fermented.Strength, Extract: fermented.Extract}
	if err := units.CheckOf(c.label(), "lees", float64(lees), 0, float64(c.Volume), "L", ""); err != nil {
		return Component{}, err
	}
	c.Volume -= lees
	_, err := c.perLitre()
	return c, err
}

// MeasuredAt is the component with its Volume, measured at temperature t,
// turned into the volume at 20 C. Domain 0 to 40 C; without extract -20 to
// 40 C where it is not frozen. Accuracy 0.02 % of the volume. Errors:
// *units.RangeError.
func (c Component) MeasuredAt(t units.Temperature) (Component, error) {
	m, err := c.perLitre()
	if err != nil {
		return Component{}, err
	}
	lo := density.MinSucroseTemperature
	if c.Extract == 0 {
		lo = density.MinTemperature
	}
	if err := units.CheckOf(c.label(), "temperature", t.Celsius(), lo, density.MaxTemperature, "C", density.SourceMixture); err != nil {
		return Component{}, err
	}
	if p := m.Ethanol / (m.Ethanol + m.Water); p < density.FreezingFraction(t.Celsius()) {
		frozen := units.OutOfRange(c.label(), "strength by mass", 100*p, 100*density.FreezingFraction(t.Celsius()), 100, "% mass", "freezing points from memory")
		frozen.Cause = fmt.Sprintf("%.3g %% mass is partly frozen at %.3g C", 100*p, t.Celsius())
		return Component{}, frozen
	}
	c.Volume = units.Volume(float64(c.Volume) / m.VolumeAt(t.Celsius()))
	return c, nil
}

// impossible names the component in the error of a liquid that cannot exist.
func (c *Component) impossible(err error) error {
	var outside *units.RangeError
	if errors.As(err, &outside) {
		if outside.Of != "" {
			outside.Cause = fmt.Sprintf("a %s cannot hold %.4g g/L of extract", outside.Of, float64(c.Extract))
		}
		outside.Of = c.label()
	}
	return err
}

// perLitre checks the component and gives its masses per litre at 20 C.
func (c *Component) perLitre() (liquid.Masses, error) {
	if !(c.Volume >= 0 && c.Volume <= check.MostVolume) {
		return liquid.Masses{}, units.OutOfRange(c.label(), "volume", float64(c.Volume), 0, check.MostVolume, "L", "")
	}
	if !(c.Cost >= 0 && c.Cost <= 1e12) {
		return liquid.Masses{}, units.CheckOf(c.label(), "cost", c.Cost, 0, 1e12, "per L", "")
	}
	for s, x := range c.contents() {
		if !(x >= 0 && x <= 1000) {
			return liquid.Masses{}, units.OutOfRange(c.label(), Solute(s).String(), float64(x), 0, 1000, "g/L", "")
		}
	}
	m, err := liquid.PerLitre(c.Strength, c.Extract)
	if err != nil {
		return m, c.impossible(err)
	}
	return m, nil
}

// contents are the solutes by Solute.
func (c *Component) contents() [solutes]units.Concentration {
	return [solutes]units.Concentration{c.Acid, c.Sulfite, c.Sorbate, c.Potassium}
}
