package blend

import (
	"fmt"
	"math"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Uncertainty is that of what was poured, as standard uncertainties in the
// quantity's own unit; zero is exact.
type Uncertainty struct {
	Volume   units.Volume
	Strength units.Strength
	Extract  units.Concentration
}

// Uncertain is a blend with the uncertainty of each figure and its budget: strength
// in % vol, extract in g/L, volume in L, gravity as SG. The model's own uncertainty,
// the distance from the classic sum of the two solutions, is an input named
// "density model".
type Uncertain struct {
	Mixture                            Mixture
	Strength, Extract, Volume, Gravity uncertainty.Result
}

// MixWithin is Mix with its uncertainty; the uncertainties stand in the order of the
// components, as many as there are. Errors as Mix and uncertainty.Propagate.
func MixWithin(cs []Component, uncertainties []Uncertainty) (Uncertain, error) {
	m, err := Mix(cs...)
	if err != nil {
		return Uncertain{}, err
	}
	in, err := inputs(cs, uncertainties)
	if err != nil {
		return Uncertain{}, err
	}
	in = append(in, modelInput(m))
	moved := make([]Component, len(cs))
	mixed := func(x []float64) (Mixture, error) {
		return Mix(at(moved, cs, x)...)
	}
	s := Uncertain{Mixture: m}
	last := len(in) - 1
	for _, figure := range []struct {
		into *uncertainty.Result
		of   func(m Mixture, x []float64) float64
	}{
		{&s.Strength, func(m Mixture, x []float64) float64 { return float64(m.Strength) * (1 + x[last]) }},
		{&s.Extract, func(m Mixture, x []float64) float64 { return float64(m.Extract) * (1 + x[last]) }},
		{&s.Volume, func(m Mixture, x []float64) float64 { return float64(m.Volume) / (1 + x[last]) }},
		{&s.Gravity, func(m Mixture, x []float64) float64 { return float64(m.Gravity) * (1 + x[last]) }},
	} {
		if *figure.into, err = uncertainty.Propagate(func(x []float64) (float64, error) {
			m, err := mixed(x)
			return figure.of(m, x), err
		}, in, nil); err != nil {
			return Uncertain{}, err
		}
	}
	return s, nil
}

// FortifyWithin is Fortify with the uncertainty of the amount of spirit in L,
// and its budget. Where a value at the edge of an uncertainty cannot reach the target,
// the error says so. Errors as Fortify and uncertainty.Propagate.
func FortifyWithin(base, spirit Component, target units.Strength, ofBase, ofSpirit Uncertainty) (Fortification, uncertainty.Result, error) {
	f, err := Fortify(base, spirit, target)
	if err != nil {
		return Fortification{}, uncertainty.Result{}, err
	}
	cs := []Component{base, spirit}
	in, err := inputs(cs, []Uncertainty{ofBase, ofSpirit})
	if err != nil {
		return Fortification{}, uncertainty.Result{}, err
	}
	in = append(in[:3], in[4:]...) // the volume of the spirit is what is sought
	in = append(in, modelInput(f.Result))
	moved := make([]Component, 2)
	x6 := make([]float64, 6)
	r, err := uncertainty.Propagate(func(x []float64) (float64, error) {
		copy(x6, x[:3])
		copy(x6[4:], x[3:5])
		cs := at(moved, cs, x6)
		cs[1].Volume = 0
		// A blend that is denser by the model's uncertainty is stronger by it.
		f, err := Fortify(cs[0], cs[1], target/units.Strength(1+x[5]))
		return float64(f.Spirit), err
	}, in, nil)
	return f, r, err
}

// at writes values over copies of the components, three to each.
func at(into, cs []Component, x []float64) []Component {
	for i := range cs {
		into[i] = cs[i]
		into[i].Volume, into[i].Strength, into[i].Extract = units.Volume(x[3*i]), units.Strength(x[3*i+1]), units.Concentration(x[3*i+2])
	}
	return into
}

// inputs are volume, strength and extract of each component.
func inputs(cs []Component, uncertainties []Uncertainty) ([]uncertainty.Input, error) {
	if err := units.Check("number of uncertainties", float64(len(uncertainties)), float64(len(cs)), float64(len(cs)), "", "one a component"); err != nil {
		return nil, err
	}
	var in []uncertainty.Input
	for i, c := range cs {
		d := uncertainties[i]
		in = append(in,
			uncertainty.Input{Name: fmt.Sprintf("volume of %s, L", c.label()), Key: fmt.Sprintf("volume_%d", i+1), Value: float64(c.Volume), Standard: float64(d.Volume)},
			uncertainty.Input{Name: fmt.Sprintf("strength of %s, %% vol", c.label()), Key: fmt.Sprintf("strength_%d", i+1), Value: float64(c.Strength), Standard: float64(d.Strength)},
			uncertainty.Input{Name: fmt.Sprintf("extract of %s, g/L", c.label()), Key: fmt.Sprintf("extract_%d", i+1), Value: float64(c.Extract), Standard: float64(d.Extract)})
	}
	return in, nil
}

// modelInput is the relative uncertainty of the blend's density.
func modelInput(m Mixture) uncertainty.Input {
	return uncertainty.Input{Name: "density model", Key: CauseDensity, Standard: modelDoubt(m)}
}

func modelDoubt(m Mixture) float64 {
	if m.Extract == 0 || m.Strength == 0 {
		return 0 // one formula alone, good to its last printed digit
	}
	return math.Abs(density.Tabarie20(float64(m.Strength), float64(m.Extract))/(density.Water20*float64(m.Gravity)) - 1)
}
