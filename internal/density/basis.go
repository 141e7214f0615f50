package density

// SixtyF is 60 F in degrees Celsius: the basis of US and British proof.
const SixtyF = (60.0 - 32) * 5 / 9

// Glass is the cubic expansion of soda-lime glass per C, the value by convention
// for hydrometer tables: ISO 1768:1975, clause 3.
const Glass = 25e-6

// ByVolumeAt is the strength in % vol whose volumes are measured at t of
// ethanol-water with mass fraction p: 100 p rho(p,t) / rho(1,t).
func ByVolumeAt(p, t float64) float64 { return 100 * p * Ethanol(p, t) / Ethanol(1, t) }

// ByMassAt is the mass fraction of q % vol with volumes measured at t, by
// Newton from the value at 20 C.
func ByMassAt(q, t float64) float64 {
	want, p := q/100*Ethanol(1, t), ByMass(q)
	for range 6 {
		rho, slope := ethanolSlope(p, t)
		step := (p*rho - want) / (rho + p*slope)
		p -= step
		if small(step) {
			break
		}
	}
	return min(p, 1) // rounding may pass it
}
