package density

import "example.org/mutage/internal/solve"

// MostExtract is the largest extract in g/L that MassesPerLitre takes at this
// strength in % vol: where the liquid holds MaxSucrose in its sucrose and
// water. Zero at 100 % vol and for a strength outside 0 to 100.
func MostExtract(strength float64) float64 {
	if !(strength >= 0 && strength < 100) {
		return 0
	}
	e := strength / 100 * PureEthanol
	// With so little water the volume is that of the ingredients to a per cent.
	guess := (1 - e/PureEthanol) * MaxSucrose * Sucrose20(MaxSucrose)
	s, err := solve.Rising(func(s float64) (float64, float64) {
		v := VolumePartials20(e, s, s*(1/MaxSucrose-1))
		return v.V - 1, v.S + v.W*(1/MaxSucrose-1)
	}, guess, 0, 1000, 1e-9)
	if err != nil {
		return 0
	}
	return s
}

// ExtractOf is the extract in g/L at which a liquid of this strength in % vol,
// 0 to 100, has density rho at t, 0 to 40 C; ok is false outside 0 to
// MostExtract. The dry end is met within rounding.
func ExtractOf(rho, strength, t float64) (s float64, ok bool) {
	e := strength / 100 * PureEthanol
	dense := func(s float64) (rho, slope float64) {
		w := WaterIn(e, s)
		v := VolumePartials20(e, s, w)
		return (e + s + w) / VolumeAt(e, s, w, t), 1 - v.S/v.W // the slope at 20 C will do
	}
	dry, _ := dense(0)
	const rounding = 1e-6 // kg/m3
	if d := rho - dry; d < rounding && d > -rounding {
		return max(0, d/0.385), true
	}
	s, err := solve.Rising(func(s float64) (float64, float64) {
		y, slope := dense(s)
		return y - rho, slope
	}, (rho-dry)/0.385, 0, MostExtract(strength), 1e-9)
	return s, err == nil
}
