package blend

import (
	"cmp"
	"math"
	"slices"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// An Explanation is one error that alone would bring the expected reading to
// what was read: the quantity of the named component would be To, which is
// Deviations of its standard uncertainties away from what was assumed. Result
// is what the blend would then be: repair that one.
type Explanation struct {
	Component, Quantity string
	From, To            float64
	Unit                string
	Deviations          float64
	Result              Mixture
}

// A Finding compares a blend's reading with what was poured. Standard is the
// standard uncertainty of the difference between the two gravities; the
// reading agrees when the difference is within twice that. Explanations are
// ranked by how little each would surprise.
type Finding struct {
	Expected     Mixture
	Reading      gravity.SG
	Standard     gravity.SG
	Agrees       bool
	Explanations []Explanation
}

// Explain says whether the reading of a blend (true gravity at 20 C, degassed
// and rested) agrees with what was poured, and which single error would
// explain it if not: volume, strength or extract of the spirit or of the base,
// as far as there is uncertainty in them. A gravity alone cannot tell them
// apart; Explain only says how large each would have to be. Errors as Mix;
// *units.RangeError for an uncertainty below zero or a reading outside 0.79 to 1.35.
func Explain(base, spirit Component, reading gravity.SG, ofBase, ofSpirit Uncertainty, ofReading gravity.SG) (Finding, error) {
	if err := units.Check("reading of the blend", float64(reading), 0.79, 1.35, "", ""); err != nil {
		return Finding{}, err
	}
	expected, err := Mix(base, spirit)
	if err != nil {
		return Finding{}, err
	}
	volume := func(c *Component) *float64 { return (*float64)(&c.Volume) }
	strength := func(c *Component) *float64 { return (*float64)(&c.Strength) }
	extract := func(c *Component) *float64 { return (*float64)(&c.Extract) }
	most := min(check.MostVolume, 20*float64(base.Volume+spirit.Volume))
	suspects := []suspect{
		{"volume", "L", &spirit, volume, float64(ofSpirit.Volume), most},
		{"strength", "% vol", &spirit, strength, float64(ofSpirit.Strength), WantStrength(0).endOf(&spirit, true)},
		{"extract", "g/L", &spirit, extract, float64(ofSpirit.Extract), WantExtract(0).endOf(&spirit, true)},
		{"volume", "L", &base, volume, float64(ofBase.Volume), most},
		{"strength", "% vol", &base, strength, float64(ofBase.Strength), WantStrength(0).endOf(&base, true)},
		{"extract", "g/L", &base, extract, float64(ofBase.Extract), WantExtract(0).endOf(&base, true)},
	}
	in := make([]uncertainty.Input, len(suspects), len(suspects)+2)
	for i, s := range suspects {
		in[i] = uncertainty.Input{Name: s.quantity + " of " + s.of.label(), Value: *s.field(s.of), Standard: s.standard}
	}
	in = append(in, uncertainty.Input{Name: "reading", Key: "reading", Standard: float64(ofReading)},
		uncertainty.Input{Name: "density model", Key: CauseDensity, Standard: modelDoubt(expected) * float64(expected.Gravity)})
	r, err := uncertainty.Propagate(func(x []float64) (float64, error) {
		b, s := base, spirit
		for i, q := range suspects {
			if q.of == &base {
				*q.field(&b) = x[i]
			} else {
				*q.field(&s) = x[i]
			}
		}
		m, err := Mix(b, s)
		return float64(m.Gravity) - float64(reading) + x[len(suspects)] + x[len(suspects)+1], err
	}, in, nil)
	if err != nil {
		return Finding{}, err
	}
	f := Finding{Expected: expected, Reading: reading, Standard: gravity.SG(r.Standard), Agrees: math.Abs(r.Value) <= 2*r.Standard}
	for _, s := range suspects {
		if s.standard == 0 {
			continue
		}
		if e, ok := s.explain(base, spirit, s.of == &base, reading); ok {
			f.Explanations = append(f.Explanations, e)
		}
	}
	slices.SortStableFunc(f.Explanations, func(a, b Explanation) int { return cmp.Compare(a.Deviations, b.Deviations) })
	return f, nil
}

// suspect is a quantity that may be other than assumed.
type suspect struct {
	quantity, unit string
	of             *Component
	field          func(*Component) *float64
	standard, most float64
}

// explain finds the value of the suspect quantity that gives the reading.
func (s suspect) explain(base, spirit Component, isBase bool, reading gravity.SG) (Explanation, bool) {
	at := func(x float64) (Mixture, error) {
		b, o := base, spirit
		if isBase {
			*s.field(&b) = x
		} else {
			*s.field(&o) = x
		}
		return Mix(b, o)
	}
	from := *s.field(s.of)
	off := func(x float64) float64 {
		m, err := at(x)
		if err != nil {
			return math.NaN()
		}
		return float64(m.Gravity - reading)
	}
	sign := math.Copysign(1, off(s.most)-off(0))
	to, err := solve.Rising(func(x float64) (float64, float64) {
		h := 1e-6 * (1 + x)
		y := off(x)
		return sign * y, sign * (off(x+h) - y) / h
	}, from, 0, s.most, 1e-9, 0)
	if err != nil {
		return Explanation{}, false
	}
	m, err := at(to)
	if err != nil {
		return Explanation{}, false
	}
	return Explanation{Component: s.of.label(), Quantity: s.quantity, From: from, To: to, Unit: s.unit,
		Deviations: min(math.Abs(to-from)/s.standard, math.MaxFloat64), Result: m}, true
}

// Repair is what brings a blend to the target after all: spirit where it is
// too weak, the weaker liquid (wine, juice, water) where it is too strong.
// Spirit in the result is what was added. Errors as Fortify.
func Repair(now Mixture, spirit, weaker Component, target units.Strength) (Fortification, error) {
	there := now.Component("blend")
	if now.Strength > target {
		return DiluteTo(there, weaker, target)
	}
	return Fortify(there, spirit, target)
}
