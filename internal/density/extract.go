package density

import (
	"math"

	"example.org/mutage/internal/solve"
)

// MostConcentration is the sucrose in g/L at 20 C of the solution that holds
// MaxSucrose, 943: where every scale of extract ends.
var MostConcentration = MaxSucrose * Sucrose20(MaxSucrose)

// leastWater in g per g of sucrose: where a liquid holds MaxSucrose in its
// sucrose and water.
const leastWater = 1/MaxSucrose - 1

// ends in g/L: a root this far outside its bracket is there by rounding.
const ends = 1e-9

// MostExtract is the largest extract in g/L that a liquid of this strength in %
// vol can hold: where it has MaxSucrose in its sucrose and water. Zero at 100 %
// vol and for a strength outside 0 to 100.
func MostExtract(strength float64) float64 {
	if !(strength >= 0 && strength < 100) {
		return 0
	}
	e := strength / 100 * PureEthanol
	// With so little water the volume is that of the ingredients to a per cent.
	guess := (1 - e/PureEthanol) * MostConcentration
	s, err := solve.Rising(func(s float64) (float64, float64) {
		v := VolumePartials20(e, s, s*leastWater)
		return v.V - 1, v.S + v.W*leastWater
	}, guess, 0, 1000, 1e-9, ends)
	if err != nil {
		return 0 // below 1 m3 without sucrose, above with 1000 kg: a root there always is
	}
	return min(s, MostConcentration) // which rounding passes
}

// MostEthanol is the other end of MostExtract: the most ethanol in g/L of a
// liquid that holds this extract in g/L. Zero from MostConcentration up.
func MostEthanol(extract float64) float64 {
	if extract >= MostConcentration {
		return 0
	}
	e, err := solve.Rising(func(e float64) (float64, float64) {
		v := VolumePartials20(e, extract, extract*leastWater)
		return v.V - 1, v.E
	}, 0, 0, PureEthanol, 1e-6, ends)
	if err != nil {
		return 0 // for an extract that is not a number
	}
	return e
}

// ExtractOf is the extract in g/L at which a liquid of this strength in % vol,
// 0 to 100, has density rho at t, 0 to 40 C, and its water in g/L; ok is false
// outside 0 to MostExtract.
func ExtractOf(rho, strength, t float64) (s, w float64, ok bool) {
	e := strength / 100 * PureEthanol
	if s, w, ok = fillOf(rho, e, t); ok {
		return s, w, true
	}
	const rounding = 3e-6 // g/L: a density that is right to 1e-6 kg/m3
	s, err := solve.Rising(func(s float64) (float64, float64) {
		w = WaterIn(e, s)
		v := VolumePartials20(e, s, w)
		return (e+s+w)/VolumeAt(e, s, w, t) - rho, 1 - v.S/v.W // the slope at 20 C will do
	}, (rho-Ethanol(ByMass(strength), t))/0.385, 0, MostExtract(strength), 1e-9, rounding)
	return s, WaterIn(e, s), err == nil
}

// fillOf is ExtractOf for a liquid well inside its ends: Newton's method on sucrose
// and water together, from the volume at 20 C and the mass at t. ok is false near
// the ends and beyond them, which ExtractOf looks at with care.
func fillOf(rho, e, t float64) (s, w float64, ok bool) {
	at := mixtureAt(t)
	s = (rho - at.water + 0.155*e) / 0.385
	w = rho - e - s
	for range 12 {
		a, b := VolumePartials20(e, s, w), at.partials(e, s, w)
		full, mass := a.V-1, e+s+w-rho*b.V
		ms, mw := 1-rho*b.S, 1-rho*b.W
		det := a.S*mw - a.W*ms
		ds, dw := (full*mw-mass*a.W)/det, (mass*a.S-full*ms)/det
		s, w = s-ds, w-dw
		if !(s > 0 && s < 1000 && w > 0 && w < 1000) {
			return s, w, false
		}
		const inside = 1e-3                   // g/L, and of the water
		if math.Abs(ds)+math.Abs(dw) < 1e-4 { // the next is of its square
			return s, w, s > inside && w > s*leastWater*(1+inside)
		}
	}
	return s, w, false
}
