package batch

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// knowledge is what is known of a quantity of the course.
type knowledge struct {
	q        quantity
	name     string
	better   string // what to do where it weighs most
	standard float64
	flat     bool   // anywhere within a tolerance alike
	assumed  string // the tolerance, where no limits were stated
}

// limits are 19 times in 20.
const twoSided = 1.96

// known makes the knowledge of a quantity: its stated limit, or the tolerance of
// the instrument that it was read with.
func known(q quantity, name string, value, limit float64, t uncertainty.Tolerance, better string) knowledge {
	k := knowledge{q: q, name: name, better: better}
	if limit > 0 {
		k.standard = limit / twoSided
		return k
	}
	k.standard, k.flat = t.Of(value)/math.Sqrt(3), true
	k.assumed = fmt.Sprintf("%s: %s (%s)", name, t.Name, t.Source)
	return k
}

// scale is a kitchen scale, for liquids by weight.
var kitchenScale = uncertainty.Tolerance{Name: "kitchen scale", HalfWidth: 0.005, Source: "common practice, no source"}

const (
	weighIt = "weigh it, or use a measuring cylinder"
	finer   = "use a finer hydrometer, in a degassed sample, read twice"
	twoWays = "measure the wine itself: two instruments, or boiling off"
)

// knows lists what is known of every quantity that the course of b rests on.
func (b *Batch) knows(v *values) []knowledge {
	var out []knowledge
	add := func(is bool, k knowledge) {
		if is && k.standard > 0 {
			out = append(out, k)
		}
	}
	liquid := func(is bool, q quantity, name string, a Amount, better string) {
		limit, t := a.Volume.Limit, ofJug
		if a.Mass.Known {
			limit, t = a.Mass.Limit, kitchenScale
		}
		add(is, known(q, name, v[q], limit, t, better))
	}
	fermented := b.Must.Known()
	label := b.JuiceLabel != (Label{})
	liquid(fermented, qMust, "volume of must", b.Must, weighIt)
	add(fermented && b.MustReading.Known, known(qReading, "reading of the must", v[qReading], b.MustReading.Limit, ofHydrometer, finer))
	add(fermented && !label, known(qMustTemperature, "temperature of the must", v[qMustTemperature], b.MustTemperature.Limit, ofThermometer, "measure the temperature in the sample"))
	add(fermented && b.OriginalReading.Known, known(qOriginal, "original reading", v[qOriginal], b.OriginalReading.Limit, ofHydrometer, finer))
	add(fermented && label, known(qLabel, "sugar on the label", v[qLabel], 0, labelTolerance, "read a hydrometer in the juice"))
	add(fermented && len(b.Sugar) > 0 && !b.OriginalReading.Known, known(qSugar, "amount of sugar", 1, b.sugarLimit(), ofCup, "weigh the sugar"))
	if fermented && !b.notFermented() {
		stop := b.StopReading.Limit
		if b.RackedReading.Known {
			stop = b.RackedReading.Limit
		}
		y := abv.Yield{CarbonDioxide: mustYield.CarbonDioxide, Yeast: v[qYeast]}
		add(true, known(qStop, "reading at the stop", v[qStop], stop, ofHydrometer, finer))
		add(true, knowledge{q: qYeast, name: "yield of the yeast", better: twoWays, standard: y.YeastStandard()})
		add(true, knowledge{q: qBalance, name: "fermentation balance", better: twoWays, standard: abv.BalanceUncertainty})
	}
	add(fermented && b.Lees.Known && !b.Racked.Known(), known(qLees, "volume of lees", v[qLees], b.Lees.Limit, ofJug, "measure the wine after racking"))
	liquid(b.Wine.Known(), qWine, "volume of wine", b.Wine, weighIt)
	liquid(b.Racked.Known(), qWine, "volume of racked wine", b.Racked, weighIt)
	add(b.WineStrength.Known, known(qWineStrength, "strength of the wine", v[qWineStrength], b.WineStrength.Limit, wineTolerance, twoWays))
	add(b.Wine.Known(), known(qWineReading, "reading of the wine", v[qWineReading], b.WineReading.Limit, ofHydrometer, finer))
	add(b.WineRefractometer.Known && !b.WineStrength.Known, known(qWineRefractometer, "refractometer in the wine", v[qWineRefractometer], b.WineRefractometer.Limit, ofRefractometer, "read the refractometer at 20 C, several times"))
	add(b.WineBoiled.Known && !b.WineStrength.Known && !b.WineRefractometer.Known, known(qWineBoiled, "reading after boiling off", v[qWineBoiled], b.WineBoiled.Limit, ofHydrometer, finer))
	liquid(v[qWinePoured] > 0, qWinePoured, "volume of wine poured", b.PouredWine, weighIt)
	liquid(v[qSpirit] > 0, qSpirit, "volume of spirit", b.spiritPoured(v), weighIt)
	liquid(v[qPlanned] > 0, qPlanned, "volume of spirit meant", b.SpiritPlanned, weighIt)
	add(b.SpiritStrength.Known, known(qSpiritStrength, "strength of the spirit", v[qSpiritStrength], b.SpiritStrength.Limit, ofSpirit, "read an alcoholometer in the spirit instead of its label"))
	add(v[qSweetener] > 0, known(qSweetener, "amount of sweetener", v[qSweetener], 0, ofCup, "weigh the sweetener"))
	return out
}

// spiritPoured is the amount whose limits hold for the spirit that goes in: what
// was poured. The limits of an amount that was only meant are its own.
func (b *Batch) spiritPoured(v *values) Amount {
	a := b.PouredSpirit
	if a.Known() { // limits as measured; the course has it at 20 C
		if a.Mass.Known {
			a.Mass.Limit *= v[qSpirit] / float64(a.Mass.Value)
		} else {
			a.Volume.Limit *= v[qSpirit] / float64(a.Volume.Value)
		}
	}
	return a
}

func (b *Batch) sugarLimit() float64 {
	var sum, limit float64
	for _, p := range b.Sugar {
		sum, limit = sum+float64(p.Mass.Value), limit+p.Mass.Limit
	}
	return limit / math.Max(sum, 1e-9)
}

var (
	labelTolerance = uncertainty.Tolerance{Name: "sugar as a label states it", HalfWidth: 0.10, Source: "common practice, no source"}
	wineTolerance  = uncertainty.Tolerance{Name: "stated strength of a wine", HalfWidth: 0.5, Unit: "% vol", Source: "Regulation (EU) 2019/33, article 44 (from memory)"}
)

// modelError is the relative uncertainty of the density model: its difference
// from Tabarie's rule.
func modelError(strength units.Strength, extract units.Concentration, g gravity.SG) float64 {
	if strength == 0 || extract == 0 {
		return 0
	}
	return math.Abs(density.Tabarie20(float64(strength), float64(extract))/(density.Water20*float64(g)) - 1)
}

// A figured is every figure of a course that carries an uncertainty.
type figured struct {
	og, must                                       uncertainty.Result
	wineStrength, wineExtract, wineVolume          uncertainty.Result
	strength, extract, volume, gravity             uncertainty.Result
	plannedStrength, plannedExtract, plannedVolume uncertainty.Result

	keptVolume uncertainty.Result
	knows      []knowledge
}

// within propagates what is known of the quantities through the whole course.
func (b *Batch) within(v *values, nominal *course) (figured, error) {
	m := modelError(nominal.blend.Strength, nominal.blend.Extract, nominal.blend.Gravity)
	model := knowledge{q: qModel, name: "density model", better: "nothing: that is the model itself", standard: m}
	return b.propagate(v, nominal, append(b.knows(v), model))
}

// propagate finds every figure with its uncertainty.
func (b *Batch) propagate(v *values, nominal *course, knows []knowledge) (f figured, err error) {
	f.knows = knows
	in := inputs(v, knows)
	var last []float64
	var at course
	run := func(x []float64) (*course, *values, error) {
		w := *v
		for i, k := range f.knows {
			w[k.q] = x[i]
		}
		if last != nil && slices.Equal(last, x) {
			return &at, &w, nil
		}
		c, err := b.run(&w)
		at, last = c, append(last[:0], x...)
		if err != nil {
			last = nil
		}
		return &at, &w, err
	}
	for _, fig := range []struct {
		into *uncertainty.Result
		is   bool
		of   func(*course, *values) float64
	}{
		{&f.og, b.Must.Known(), func(c *course, _ *values) float64 { return float64(c.og) }},
		{&f.must, b.Must.Known(), func(c *course, _ *values) float64 { return float64(c.must) }},
		{&f.wineStrength, true, func(c *course, _ *values) float64 { return float64(c.base.Strength) }},
		{&f.wineExtract, true, func(c *course, _ *values) float64 { return float64(c.base.Extract) }},
		{&f.wineVolume, true, func(c *course, _ *values) float64 { return float64(c.base.Volume) }},
		{&f.keptVolume, nominal.kept.Volume > 0, func(c *course, _ *values) float64 { return float64(c.base.Volume - c.unsweet) }},
		{&f.strength, true, func(c *course, w *values) float64 { return float64(c.blend.Strength) * (1 + w[qModel]) }},
		{&f.extract, true, func(c *course, w *values) float64 { return float64(c.blend.Extract) * (1 + w[qModel]) }},
		{&f.volume, true, func(c *course, w *values) float64 { return float64(c.blend.Volume) / (1 + w[qModel]) }},
		{&f.gravity, true, func(c *course, w *values) float64 { return float64(c.blend.Gravity) * (1 + w[qModel]) }},
		{&f.plannedStrength, v[qPlanned] > 0, func(c *course, w *values) float64 { return float64(c.planned.Strength) * (1 + w[qModel]) }},
		{&f.plannedExtract, v[qPlanned] > 0, func(c *course, w *values) float64 { return float64(c.planned.Extract) * (1 + w[qModel]) }},
		{&f.plannedVolume, v[qPlanned] > 0, func(c *course, w *values) float64 { return float64(c.planned.Volume) / (1 + w[qModel]) }},
	} {
		if !fig.is {
			continue
		}
		if *fig.into, err = uncertainty.Propagate(func(x []float64) (float64, error) {
			c, w, err := run(x)
			if err != nil {
				return 0, err
			}
			return fig.of(c, w), nil
		}, in, nil); err != nil {
			return f, err
		}
	}
	return f, nil
}

// inputs are what is known, as a propagation takes it.
func inputs(v *values, knows []knowledge) []uncertainty.Input {
	in := make([]uncertainty.Input, len(knows))
	for i, k := range knows {
		in[i] = uncertainty.Input{Name: k.name, Value: v[k.q], Standard: k.standard}
		if k.flat {
			in[i].Distribution = uncertainty.Rectangular
		}
	}
	return in
}

// propagated is one figure of the quantities with its uncertainty.
func propagated(v *values, knows []knowledge, of func(w *values) (float64, error)) (uncertainty.Result, error) {
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		w := *v
		for i, k := range knows {
			w[k.q] = x[i]
		}
		return of(&w)
	}, inputs(v, knows), nil)
}

// How many courses are drawn to find the amount that is 95 % sure, and how many
// of the straight line through their inputs, which cost next to nothing and
// correct the courses for what chance drew: the share is right to 0.2 %.
const (
	courses = 2000
	lines   = 60000
)

// takes is the spirit at 20 C, as it is measured, that makes the target in one
// course.
func (b *Batch) takes(v, meant *values) (float64, error) {
	c, err := b.run(v)
	if err != nil {
		return 0, err
	}
	spirit := c.spirit
	spirit.Volume = 0
	// A blend that is denser than the model says is stronger by it.
	p, err := blend.Fortify(c.poured, spirit, b.Target.Value/units.Strength(1+v[qModel]))
	if err != nil {
		return 0, err
	}
	return float64(p.Spirit) * meant[qSpirit] / v[qSpirit], nil
}

// drawn is one value of the quantity from its own distribution. That of the yield
// lies around the likely one, not around Balling's, whose standard uncertainty holds
// the distance between the two; less than none does not grow.
func (k knowledge) drawn(at float64, r *rand.Rand) float64 {
	switch {
	case k.q == qYeast:
		return max(0, abv.YeastLikely+abv.YeastUncertainty/twoSided*r.NormFloat64())
	case k.flat:
		return at + k.standard*math.Sqrt(3)*(2*r.Float64()-1)
	}
	return at + k.standard*r.NormFloat64()
}

// sure is the amount of spirit at 20 C that makes the target 95 times in 100: of
// the amounts that the courses drawn take, the one that 95 in 100 do not pass.
// false where the target is too near to what the spirit can do.
func (b *Batch) sure(v *values, f *figured) (units.Volume, bool) {
	if v[qSpirit] <= 0 {
		return 0, false
	}
	// The straight line: the slope of the amount in each input.
	slopes := make([]float64, len(f.knows))
	for i, k := range f.knows {
		above, below := *v, *v
		above[k.q] += k.standard
		below[k.q] = v[k.q] - k.standard
		if k.q == qYeast {
			below[k.q] = max(0, below[k.q])
		}
		hi, err := b.takes(&above, v)
		lo, err2 := b.takes(&below, v)
		if err != nil || err2 != nil {
			return 0, false
		}
		slopes[i] = (hi - lo) / (above[k.q] - below[k.q])
	}
	r := rand.New(rand.NewPCG(1, 20))
	w := *v
	draw := func() (line float64) {
		w = *v
		for i, k := range f.knows {
			w[k.q] = k.drawn(v[k.q], r)
			line += slopes[i] * (w[k.q] - v[k.q])
		}
		return line
	}
	amounts, beside := make([]float64, 0, courses), make([]float64, 0, courses)
	for range courses {
		line := draw()
		x, err := b.takes(&w, v)
		if err != nil {
			continue // beyond the ends of a formula: none of these is a course
		}
		amounts, beside = append(amounts, x), append(beside, line)
	}
	if len(amounts) < courses*9/10 {
		return 0, false
	}
	all := make([]float64, lines)
	for i := range all {
		all[i] = draw()
	}
	return units.Volume(ninetyFifth(amounts) + ninetyFifth(all) - ninetyFifth(beside)), true
}

// ninetyFifth is the value that 95 in 100 do not pass; it sorts.
func ninetyFifth(x []float64) float64 {
	slices.Sort(x)
	return x[len(x)*95/100]
}
