package blend

import (
	"fmt"
	"math"
	"strconv"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// A Want is one wish about a blend. Make it with WantStrength, WantExtract,
// WantAcid or WantAll.
type Want struct {
	quantity wanted
	value    float64
	index    int // of the component, for all
}

type wanted int

const (
	nothing wanted = iota
	strength
	extract
	acid
	all
	size // the volume of the blend; only in an UnreachableError
)

// WantStrength asks for this strength, 0 to 100 % vol at 20 C. What is outside
// is refused, with a *units.RangeError, by the function that gets the Want.
func WantStrength(s units.Strength) Want { return Want{quantity: strength, value: float64(s)} }

// WantExtract asks for this real extract, 0 to 943 g/L, likewise.
func WantExtract(c units.Concentration) Want { return Want{quantity: extract, value: float64(c)} }

// WantAcid asks for this titratable acidity as tartaric acid, 0 to 1000 g/L,
// likewise.
func WantAcid(c units.Concentration) Want { return Want{quantity: acid, value: float64(c)} }

// WantAll asks that all of the component with this index, from 0, be used.
func WantAll(component int) Want { return Want{quantity: all, index: component} }

func (w wanted) String() string {
	return [...]string{"nothing", "strength", "extract", "acid", "volume", "volume"}[w]
}

func (w wanted) unit() string { return [...]string{"", "% vol", "g/L", "g/L", "L", "L"}[w] }

// most is the end of what can be wanted; of extract, 70 % sucrose by mass.
func (w wanted) most() float64 { return [...]float64{0, 100, density.MostConcentration, 1000, 0, 0}[w] }

// String is the wish in words: "strength 20 % vol".
func (w Want) String() string { return string(w.append(nil)) }

func (w Want) append(b []byte) []byte {
	if w.quantity == all {
		return strconv.AppendInt(append(b, "all of component "...), int64(w.index), 10)
	}
	b = append(append(b, w.quantity.String()...), ' ')
	b = strconv.AppendFloat(b, w.value, 'g', 6, 64)
	return append(append(b, ' '), w.quantity.unit()...)
}

func (w Want) check() error {
	if w.quantity == nothing {
		return fmt.Errorf("an empty want: make one with WantStrength, WantExtract, WantAcid or WantAll")
	}
	return units.CheckOf(w.quantity.String(), "wanted quantity", w.value, 0, w.quantity.most(), w.quantity.unit(), "")
}

// content is what a want counts, in grams, of masses and a grams of acid; each
// litre of the result must hold perLitre of it.
func (w Want) content(m liquid.Masses, acids float64) float64 {
	switch w.quantity {
	case strength:
		return m.Ethanol
	case extract:
		return m.Sucrose
	}
	return acids
}

// top is the largest content there is, in g/L.
func (w wanted) top() float64 {
	if w == strength {
		return density.PureEthanol
	}
	return w.most()
}

func (w Want) perLitre() float64 {
	if w.quantity == strength {
		return w.value / 100 * density.PureEthanol
	}
	return w.value
}

// inUnit turns a content in g/L into the unit of the want.
func (w Want) inUnit(content float64) float64 {
	if w.quantity == strength {
		return content * 100 / density.PureEthanol
	}
	return content
}

// of reads the wanted quantity in a mixture.
func (w Want) of(m Mixture) float64 {
	switch w.quantity {
	case strength:
		return float64(m.Strength)
	case extract:
		return float64(m.Extract)
	case size:
		return float64(m.Volume)
	}
	return float64(m.Acid)
}

// met says whether a content, in g/L, is what is wanted.
func (w Want) met(content float64) bool {
	c := w.perLitre()
	return math.Abs(content-c) <= wantMet*c+traceMet
}

const (
	wantMet  = 1e-9  // of the want
	traceMet = 1e-10 // g/L, for wants of next to nothing
)

// settle puts the wanted value, which rounding missed, into a mixture that meets
// it: what is judged by it (a class, a limit, a verdict) must not turn on the
// last bit.
func (w Want) settle(m *Mixture) {
	switch w.quantity {
	case strength:
		m.Strength = units.Strength(w.value)
	case extract:
		m.Extract = units.Concentration(w.value)
	case acid:
		m.Acid = units.Concentration(w.value) // known: else it cannot be wanted
	}
}

// ofComponent reads the wanted strength or extract in a component, set changes
// it, and endOf is how far up or down it can go.
func (w Want) ofComponent(c *Component) float64 {
	if w.quantity == strength {
		return float64(c.Strength)
	}
	return float64(c.Extract)
}

func (w Want) set(c *Component, x float64) {
	if w.quantity == strength {
		c.Strength = units.Strength(x)
	} else {
		c.Extract = units.Concentration(x)
	}
}

func (w Want) endOf(c *Component, up bool) float64 {
	switch {
	case !up:
		return 0
	case w.quantity == strength:
		return 100 * (density.MostEthanol(float64(c.Extract)) / density.PureEthanol)
	}
	return density.MostExtract(float64(c.Strength))
}
