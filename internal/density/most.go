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
