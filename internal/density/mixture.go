package density

import (
	"math"

	"example.org/mutage/internal/solve"
)

// Below trace, in kg/m3, a component counts as absent: dividing by it loses all
// digits.
const trace = 1e-12

// SourceMixture names the model of the three components together.
const SourceMixture = "excess volumes of OIML R 22 and ICUMSA 1990 added over the shared water"

// specific volumes of water at 20 C under either formula; they differ by 2e-6
var (
	waterByEthanol = 1 / ethanolZero
	waterBySucrose = 1 / Water20
)

// Volume20 is the volume at 20 C in m3 of e kg ethanol, s kg sucrose and w kg
// water mixed:
//
//	V = (e+w)/rho_ew + (s+w)/rho_sw - w/rho_w
//
// rho_w is the water of the other formula's edge, weighted by e and s, so that
// the sum is exactly either formula where the other solute is absent.
func Volume20(e, s, w float64) float64 {
	switch {
	case s == 0 && e == 0:
		return w * waterBySucrose
	case s == 0:
		return (e + w) / Ethanol20(e/(e+w))
	case e == 0:
		return (s + w) / Sucrose20(s/(s+w))
	}
	return (e+w)/Ethanol20(e/(e+w)) + (s+w)/Sucrose20(s/(s+w)) - w*sharedWater(e, s)
}

func sharedWater(e, s float64) float64 {
	if e+s < trace {
		return waterBySucrose
	}
	return (e*waterBySucrose + s*waterByEthanol) / (e + s)
}

// Partials are a volume and its derivatives in the three masses.
type Partials struct{ V, E, S, W float64 }

// VolumePartials20 is Volume20 with its partial derivatives (the partial
// specific volumes). The shared water's weight is held fixed: its own slope is
// 2e-6 of the rest.
func VolumePartials20(e, s, w float64) Partials {
	if e+s == 0 {
		// At infinite dilution: 1/rho - p rho'/rho^2 at p = 0.
		re, de := ethanolSlope20(0)
		rs, ds := sucroseSlope20(0)
		return Partials{w * waterBySucrose, 1/re - de/(re*re), 1/rs - ds/(rs*rs), waterBySucrose}
	}
	p, q := fraction(e, w), fraction(s, w)
	re, de := ethanolSlope20(p)
	rs, ds := sucroseSlope20(q)
	return partials(e, s, w, re, de, rs, ds, sharedWater(e, s))
}

// partials follow from the densities of the two solutions, their slopes in the mass
// fraction, and the shared water.
func partials(e, s, w, re, de, rs, ds, vw float64) Partials {
	p, q := fraction(e, w), fraction(s, w)
	ve, vs := 1/re, 1/rs
	se, ss := -de*ve*ve, -ds*vs*vs // slopes of the specific volumes
	return Partials{
		V: (e+w)*ve + (s+w)*vs - w*vw,
		E: ve + (1-p)*se,
		S: vs + (1-q)*ss,
		W: ve - p*se + vs - q*ss - vw,
	}
}

func fraction(x, w float64) float64 {
	if x == 0 {
		return 0
	}
	return x / (x + w)
}

// VolumeAt is the volume in m3 of the same masses at temperature t. Its domain
// is the smaller one of the two binary formulas, 0 to 40 C.
func VolumeAt(e, s, w, t float64) float64 {
	switch {
	case t == 20:
		return Volume20(e, s, w)
	case e == 0:
		return (s + w) / Sucrose(fraction(s, w), t)
	case s == 0:
		return (e + w) / Ethanol(e/(e+w), t)
	}
	vw := (e/Water(t) + s/Ethanol(0, t)) / (e + s)
	return (e+w)/Ethanol(fraction(e, w), t) + (s+w)/Sucrose(fraction(s, w), t) - w*vw
}

// Tabarie20 is the density by the classic sum of the two solutions that have
// the mixture's grams per litre: rho = rho_ew + rho_sw - rho_w. Its distance
// from e+s+w over Volume20 is the spread that the model's uncertainty rests on.
func Tabarie20(strength, extract float64) float64 {
	spirit := Ethanol20(ByMass(strength))
	w := SucroseByConcentration(extract)
	return spirit + Sucrose20(w) - Water20
}

// SucroseByConcentration is the mass fraction of sucrose-water at 20 C that
// holds c kg/m3 (0 to about 943), by Newton.
func SucroseByConcentration(c float64) float64 {
	w := c / (Water20 + 0.38*c)
	for range 8 {
		rho, slope := sucroseSlope20(w)
		step := (w*rho - c) / (rho + w*slope)
		w -= step
		if small(step) {
			break
		}
	}
	return w
}

// WaterIn is the mass of water in 1 m3 at 20 C that holds e kg ethanol and s
// kg sucrose. It is not a number where they do not fit: where less water is left
// than keeps the sucrose at MaxSucrose.
func WaterIn(e, s float64) float64 {
	w, ok := Water20, true
	switch {
	case e < trace && s < trace:
	case s < trace:
		w = e/ByMass(100*e/PureEthanol) - e
	case e < trace:
		w = s/SucroseByConcentration(s) - s
	default:
		w, ok = waterBetween(e, s)
	}
	// From leastWater up the volume rises with the water, so that what fills the
	// cubic metre there is the one answer.
	if ok && w >= s*leastWater*(1-1e-12) {
		return w
	}
	w, err := solve.Rising(func(w float64) (float64, float64) {
		v := VolumePartials20(e, s, w)
		return v.V - 1, v.W
	}, w, s*leastWater, Water20, 1e-6, ends)
	if err != nil {
		return math.NaN()
	}
	return w
}

// waterBetween is WaterIn of a liquid with both solutes; ok is false where the
// steps do not settle. Outside the domain of the formulas it may find a root
// that means nothing.
func waterBetween(e, s float64) (w float64, ok bool) {
	// First guess: our own least-squares fit, within 0.2 % of the water to
	// 70 % vol and 400 g/L, from which one Newton step and one along the same slope reach rounding.
	x, y := e/1000, s/1000
	w = Water20 * (1 - x*(1.21575+y*(-0.04336+0.29307*x)+x*(-0.62278+x*(1.88317-1.44923*x))) - y*(0.60763+0.03704*y))
	v := VolumePartials20(e, s, w)
	step := (v.V - 1) / v.W
	w -= step
	for range 12 { // the slope hardly changes: the first one serves
		if step < 1e-6 && step > -1e-6 { // of 1000: the next is a thousandth of it
			return w, v.W < steepest
		}
		step = (Volume20(e, s, w) - 1) / v.W
		w -= step
	}
	return w, false
}

// steepest in m3/kg: no partial volume of water in a liquid is a third of it. The
// cubic metre is then full to 1e-8 where the last step was small.
const steepest = 0.003
