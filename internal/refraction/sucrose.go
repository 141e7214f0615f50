package refraction

import (
	"math"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
)

// SourceSucrose names the tables behind Sucrose.
const SourceSucrose = "sucrose refractive index 1974 (French order of 14 September 2011, Annex IV; NBS Circular 440 and ICUMSA 1974 rows)"

// sucroseTable[k] multiplies w^k and gives the specific refraction in m3/kg.
// Our own fit: the middle of all fifth-degree polynomials that keep every
// five-digit row of the French order of 2011 (10 to 30 %) and of the ICUMSA 1974
// rows (0 to 70 %), and every CRC row to 50 % but that at 20 %, within half a digit. Those
// polynomials differ by less than 3e-6 in n from 3 to 41 % and 1.7e-5 at 63 %.
var sucroseTable = [6]float64{2.06057881e-4, 7.19498743e-7, -1.75725285e-6, -1.70596885e-6, 1.89774960e-6, -1.40712412e-6}

// ethanolTable[k] multiplies p^k and gives the specific refraction in m3/kg.
// Our own least-squares fit to the CRC rows (CRC Handbook, 102nd ed., n to four
// decimals) up to 62 % with the densities of OIML R 22; root mean square 2.8e-5
// in n, which is what rounding to four decimals leaves.
var ethanolTable = [5]float64{sucroseTable[0], 7.17123e-5, -2.81698e-6, 1.60994e-5, -1.19637e-5}

// specificSucrose and specificEthanol are the specific refractions of the two
// solutions in water.
func specificSucrose(w float64) float64 {
	c := &sucroseTable
	return c[0] + w*(c[1]+w*(c[2]+w*(c[3]+w*(c[4]+w*c[5]))))
}

func specificEthanol(p float64) float64 {
	c := &ethanolTable
	return c[0] + p*(c[1]+p*(c[2]+p*(c[3]+p*c[4])))
}

// index inverts (n^2-1)/(n^2+2) = l.
func index(l float64) float64 { return math.Sqrt((1 + 2*l) / (1 - l)) }

// Sucrose is the refractive index of sucrose-water with mass fraction w (0 to
// 0.70; a little below zero and up to 0.75 the formula goes on smoothly). It
// keeps the five-digit rows it was fitted to within 5e-6.
func Sucrose(w float64) float64 { return index(specificSucrose(w) * density.Sucrose20(w)) }

// SucroseFraction is the mass fraction of sucrose-water of index n; ok is false
// outside lo to density.MaxSucrose.
func SucroseFraction(n, lo float64) (w float64, ok bool) {
	w, err := solve.Rising(func(w float64) (float64, float64) {
		return Sucrose(w) - n, 0.143 + 0.13*w // the slope to some per cent
	}, (n-Sucrose(0))/0.165, lo, density.MaxSucrose, 1e-11, 1e-11)
	return w, err == nil
}

// Ethanol is the refractive index of ethanol-water with mass fraction p, 0 to
// MaxEthanol.
func Ethanol(p float64) float64 { return index(specificEthanol(p) * density.Ethanol20(p)) }

// PureEthanolIndex is printed for 100 % in the CRC Handbook, 102nd ed. The index
// of ethanol-water passes it at MaxEthanol, rises to 1.3658 at 80 % and falls
// back to it: above MaxEthanol it belongs to two liquids.
const (
	PureEthanolIndex = 1.3614
	MaxEthanol       = 0.49 // mass fraction; 57 % vol
	SourceEthanol    = "CRC Handbook of Chemistry and Physics, 102nd ed. (2021)"
)
