package blend

import (
	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// An Arrest is a must that ferments from OG until the hydrometer shows Stop (both
// true at 20 C), is racked off its lees and gets Spirit poured in: mutage
// proper where the spirit itself stops the yeast. Must is the volume at the
// start; Spirit.Volume is what is poured.
type Arrest struct {
	OG, Stop   gravity.SG
	Yield      abv.Yield
	Must, Lees units.Volume
	Spirit     Component
}

// Result is the wine at that moment and the blend. Errors as abv.MassBalance,
// FromMust and Mix.
func (a Arrest) Result() (base Component, blend Mixture, err error) {
	f, err := abv.MassBalance(a.OG, a.Stop, a.Yield)
	if err != nil {
		return Component{}, Mixture{}, err
	}
	if base, err = FromMust("wine", a.Must, f, a.Lees); err != nil {
		return Component{}, Mixture{}, err
	}
	blend, err = Mix(base, a.Spirit)
	return base, blend, err
}

// ArrestUncertainty is that of the inputs of an Arrest, as standard
// uncertainties; zero is exact. Balance is that of the mass balance itself in
// % vol: abv.BalanceUncertainty against measured beers.
type ArrestUncertainty struct {
	OG, Stop         gravity.SG
	Yeast            float64 // of Yield.Yeast, which lies anywhere within limits
	Must, Lees       units.Volume
	SpiritVolume     units.Volume
	SpiritStrength   units.Strength
	Balance, Density float64 // % vol; relative, of the density model (zero: from the blend)
}

// ArrestUncertain holds every figure of an Arrest with its uncertainty and budget:
// strengths in % vol, extracts in g/L, volumes in L, gravities as SG.
type ArrestUncertain struct {
	Base                                                   Component
	Blend                                                  Mixture
	BaseStrength, BaseExtract, BaseVolume                  uncertainty.Result
	BlendStrength, BlendExtract, BlendVolume, BlendGravity uncertainty.Result
	BlendSugar                                             uncertainty.Result // the extract less what of a wine's is not sugar; zero where that is all
}

// Within is Result with its uncertainties. Errors as Result and
// uncertainty.Propagate.
func (a Arrest) Within(d ArrestUncertainty) (ArrestUncertain, error) {
	in, figures, s, err := a.figures(d)
	if err != nil {
		return ArrestUncertain{}, err
	}
	for _, f := range figures {
		if *f.into, err = uncertainty.Propagate(f.of, in, nil); err != nil {
			return ArrestUncertain{}, err
		}
	}
	return *s, nil
}

// WithinByTrials is Within by Monte Carlo: the check on the propagation. The
// results hold no budget. Errors as Result and uncertainty.MonteCarlo.
func (a Arrest) WithinByTrials(d ArrestUncertainty, trials int, seed uint64) (ArrestUncertain, error) {
	in, figures, s, err := a.figures(d)
	if err != nil {
		return ArrestUncertain{}, err
	}
	for _, f := range figures {
		if *f.into, err = uncertainty.MonteCarlo(f.of, in, nil, trials, seed); err != nil {
			return ArrestUncertain{}, err
		}
	}
	return *s, nil
}

type arrestFigure struct {
	into *uncertainty.Result
	of   func(x []float64) (float64, error)
}

// figures are the inputs, and each figure as a function of them.
func (a Arrest) figures(d ArrestUncertainty) ([]uncertainty.Input, []arrestFigure, *ArrestUncertain, error) {
	base, blend, err := a.Result()
	if err != nil {
		return nil, nil, nil, err
	}
	if d.Density == 0 {
		d.Density = modelDoubt(blend)
	}
	rest, err := abv.NotSugarOf("")
	if err != nil {
		return nil, nil, nil, err
	}
	s := &ArrestUncertain{Base: base, Blend: blend}
	return a.inputs(d, rest), a.outputs(s), s, nil
}

// inputs are what an Arrest rests on, in the order that outputs reads.
func (a Arrest) inputs(d ArrestUncertainty, rest abv.NotSugar) []uncertainty.Input {
	return []uncertainty.Input{
		{Name: "original gravity", Key: CauseOriginalGravity, Value: float64(a.OG), Standard: float64(d.OG)},
		{Name: "gravity at the stop", Key: CauseStopGravity, Value: float64(a.Stop), Standard: float64(d.Stop)},
		{Name: "yield of the yeast", Key: CauseYield, Value: a.Yield.Yeast, Standard: d.Yeast, Distribution: uncertainty.Rectangular},
		{Name: "volume of must", Key: CauseMustVolume, Value: float64(a.Must), Standard: float64(d.Must)},
		{Name: "volume of lees", Key: CauseLeesVolume, Value: float64(a.Lees), Standard: float64(d.Lees)},
		{Name: "volume of " + a.Spirit.label(), Key: CauseSpiritVolume, Value: float64(a.Spirit.Volume), Standard: float64(d.SpiritVolume)},
		{Name: "strength of " + a.Spirit.label(), Key: CauseSpiritStrength, Value: float64(a.Spirit.Strength), Standard: float64(d.SpiritStrength)},
		{Name: "fermentation balance", Key: CauseBalance, Standard: d.Balance},
		{Name: "density model", Key: CauseDensity, Standard: d.Density},
		{Name: "sugar-free extract", Key: CauseNotSugar, Value: float64(rest.Likely), Standard: float64(rest.Standard())},
	}
}

// outputs are the figures of an Arrest with where their results go.
func (a Arrest) outputs(s *ArrestUncertain) []arrestFigure {
	run := func(x []float64) (Component, Mixture, error) {
		b := a
		b.OG, b.Stop, b.Yield.Yeast = gravity.SG(x[0]), gravity.SG(x[1]), x[2]
		b.Must, b.Lees, b.Spirit.Volume, b.Spirit.Strength = units.Volume(x[3]), units.Volume(x[4]), units.Volume(x[5]), units.Strength(x[6])
		base, _, err := b.Result()
		if err != nil {
			return Component{}, Mixture{}, err
		}
		// A gram of alcohol more came from so many grams of extract.
		base.Strength += units.Strength(x[7])
		base.Extract -= units.Concentration(x[7] * b.Yield.PerPercent())
		m, err := Mix(base, b.Spirit)
		return base, m, err
	}
	ofBase := func(read func(Component) float64) func([]float64) (float64, error) {
		return func(x []float64) (float64, error) {
			base, _, err := run(x)
			return read(base), err
		}
	}
	ofBlend := func(sign float64, read func(Mixture) float64) func([]float64) (float64, error) {
		return func(x []float64) (float64, error) {
			_, m, err := run(x)
			return read(m) * (1 + sign*x[8]), err
		}
	}
	return []arrestFigure{
		{&s.BaseStrength, ofBase(func(c Component) float64 { return float64(c.Strength) })},
		{&s.BaseExtract, ofBase(func(c Component) float64 { return float64(c.Extract) })},
		{&s.BaseVolume, ofBase(func(c Component) float64 { return float64(c.Volume) })},
		{&s.BlendSugar, func(x []float64) (float64, error) {
			base, m, err := run(x)
			return max(0, float64(m.Extract)-x[9]*float64(base.Volume/m.Volume)), err
		}},
		{&s.BlendStrength, ofBlend(1, func(m Mixture) float64 { return float64(m.Strength) })},
		{&s.BlendExtract, ofBlend(1, func(m Mixture) float64 { return float64(m.Extract) })},
		{&s.BlendVolume, ofBlend(-1, func(m Mixture) float64 { return float64(m.Volume) })},
		{&s.BlendGravity, ofBlend(1, func(m Mixture) float64 { return float64(m.Gravity) })},
	}
}

// Keys of the inputs in the budgets of an Arrest, which Better reads: the name of
// an input carries what the user called the spirit, its key does not.
const (
	CauseOriginalGravity = "original_gravity"
	CauseStopGravity     = "stop_gravity"
	CauseYield           = "yield"
	CauseMustVolume      = "must_volume"
	CauseLeesVolume      = "lees_volume"
	CauseSpiritVolume    = "spirit_volume"
	CauseSpiritStrength  = "spirit_strength"
	CauseBalance         = "fermentation_balance"
	CauseDensity         = "density_model"
	CauseNotSugar        = "not_sugar"
)

// Better is what to measure better where this line weighs most in the budget of
// an Arrest, in words for the cellar.
func Better(line uncertainty.Contribution) string {
	switch line.Key {
	case CauseMustVolume:
		return "weigh the must, or use a better vessel than a jug"
	case CauseLeesVolume:
		return "measure the wine after racking"
	case CauseSpiritVolume:
		return "weigh the spirit, or use a measuring cylinder"
	case CauseSpiritStrength:
		return "read an alcoholometer in the spirit instead of its label"
	case CauseStopGravity:
		return "use a finer hydrometer, in a degassed sample, read twice"
	case CauseOriginalGravity:
		return "read the sugared must once more, with a finer hydrometer"
	case CauseBalance, CauseYield:
		return "measure the wine itself: two instruments, or boiling off"
	case CauseNotSugar:
		return "measure the sugar, or state what of the extract is not sugar"
	}
	return "that is the uncertainty of the model, and stays"
}
