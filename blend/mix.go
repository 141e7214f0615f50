package blend

import (
	"errors"
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// A Mixture is what a blend is at 20 C. Contraction is the sum of the volumes
// poured less the volume they make (negative where it swells, as syrup in
// wine may). Solutes that some component does not know are zero and named in
// Missing: read them through Known.
type Mixture struct {
	Volume      units.Volume        `json:"volume"`
	Mass        units.Mass          `json:"mass"`
	Strength    units.Strength      `json:"strength"`
	Extract     units.Concentration `json:"extract"`
	Acid        units.Concentration `json:"acid"`
	Sulfite     units.Concentration `json:"sulfite"`
	Sorbate     units.Concentration `json:"sorbate"`
	Potassium   units.Concentration `json:"potassium"`
	Gravity     gravity.SG          `json:"gravity"` // what a hydrometer shows in it at 20 C
	Contraction units.Volume        `json:"contraction"`
	Missing     [4]string           `json:"missing"` // by Solute: a component that does not know its content
}

// ErrNothing says that there is nothing to mix.
var ErrNothing = errors.New("nothing to mix: every volume is zero")

// ErrUnknown is wrapped by the error of Known, which names the component.
var ErrUnknown = errors.New("not known")

// Mix gives what the components make, poured together, by conservation of the
// mass of ethanol, extract, water and solutes. The volume and so the strength
// carry the model's uncertainty: 0.02 % of the volume to 20 % vol and 100 g/L.
// Order and grouping do not matter. Errors: *units.RangeError naming component
// and quantity; ErrNothing.
func Mix(cs ...Component) (Mixture, error) {
	var sum pour
	for i := range cs {
		m, err := cs[i].perLitre()
		if err != nil {
			return Mixture{}, err
		}
		sum.add(&cs[i], m, float64(cs[i].Volume))
	}
	return sum.mixture()
}

// pour is a sum of components.
type pour struct {
	liquid.Masses
	poured  float64
	solutes [solutes]float64
	missing [solutes]string
}

func (p *pour) add(c *Component, perLitre liquid.Masses, litres float64) {
	if litres == 0 {
		return
	}
	p.Masses = p.Plus(perLitre, litres)
	p.poured += litres
	for s, x := range c.contents() {
		p.solutes[s] += float64(x) * litres
	}
	for s := Solute(0); c.Unknown != 0 && s < solutes; s++ {
		if c.Unknown.Has(s) && p.missing[s] == "" {
			p.missing[s] = c.label()
		}
	}
}

func (c *Component) label() string {
	if c.Name == "" {
		return "a component without a name"
	}
	return c.Name
}

func (p *pour) mixture() (Mixture, error) {
	if p.poured == 0 {
		return Mixture{}, ErrNothing
	}
	made := p.Properties()
	v := made.Volume
	m := Mixture{
		Volume:      units.Volume(v),
		Mass:        units.Mass(p.Mass()),
		Strength:    made.Strength,
		Extract:     made.Extract,
		Gravity:     gravity.SG(made.Gravity),
		Contraction: units.Volume(p.poured - v),
		Missing:     p.missing,
		Acid:        p.content(Acid, v),
		Sulfite:     p.content(Sulfite, v),
		Sorbate:     p.content(Sorbate, v),
		Potassium:   p.content(Potassium, v),
	}
	return m, nil
}

// content of a solute in v litres; zero where it is not known.
func (p *pour) content(s Solute, v float64) units.Concentration {
	if p.solutes[s] == 0 || p.missing[s] != "" {
		return 0
	}
	return units.Concentration(p.solutes[s] / v)
}

// contents are the solutes by Solute.
func (m *Mixture) contents() [solutes]units.Concentration {
	return [solutes]units.Concentration{m.Acid, m.Sulfite, m.Sorbate, m.Potassium}
}

// Known is the content of a solute, or an error that wraps ErrUnknown and
// names the component whose content was not known.
func (m Mixture) Known(s Solute) (units.Concentration, error) {
	if s < 0 || s >= solutes {
		return 0, units.Check("solute", float64(s), 0, float64(solutes-1), "", "")
	}
	if m.Missing[s] != "" {
		return 0, fmt.Errorf("%v of %q: %w, so the blend's is not either", s, m.Missing[s], ErrUnknown)
	}
	c := m.contents()[s]
	if err := units.CheckOf(s.String(), "content", float64(c), 0, 1000, "g/L", "a mixture that Mix made"); err != nil {
		return 0, err
	}
	return c, nil
}

// Component is the mixture as a component of the next blend.
func (m Mixture) Component(name string) Component {
	c := Component{Name: name, Volume: m.Volume, Strength: m.Strength, Extract: m.Extract,
		Acid: m.Acid, Sulfite: m.Sulfite, Sorbate: m.Sorbate, Potassium: m.Potassium}
	for s := range solutes {
		if m.Missing[s] != "" {
			c.Unknown |= Set(s)
		}
	}
	return c
}

// There is a place in Missing for every solute.
var _ [solutes]string = Mixture{}.Missing
