package acid

import (
	"math"

	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

const acids = 6 // of a Buffer, in the order of pkTable

// A pK at zero ionic strength in water, with the lowest and the highest that
// are printed for water without a stated ionic strength. Their range over the
// root of 12 is its standard uncertainty; 0.01 at least.
type pk struct{ value, low, high float64 }

// Food Additives Data Book (Smith & Hong-Shum), 25 C, citric acid at 20 C;
// acetic: Understanding Wine Chemistry (2016), Table 3.1. The other printed
// values: Handbook of Enology vol. 2, 3rd ed. (2021), Table 1.3, whose second
// and third steps are those here at an ionic strength of 0.05 (4.05, 4.39,
// 5.23, 5.74 printed; 4.00, 4.43, 5.27, 5.88 by davies), and a food chemistry
// textbook, section 8.10.
var pkTable = [acids][3]pk{
	{{2.98, 2.98, 3.01}, {4.34, 4.05, 4.34}},                     // tartaric
	{{3.41, 3.40, 3.46}, {5.11, 5.05, 5.11}},                     // malic
	{{3.14, 3.09, 3.14}, {4.77, 4.39, 4.77}, {6.39, 5.41, 6.39}}, // citric
	{{3.86, 3.81, 3.86}},                                         // lactic
	{{4.16, 4.16, 4.18}, {5.61, 5.23, 5.61}},                     // succinic
	{{4.76, 4.73, 4.76}},                                         // acetic
}

// Alcohol raises the pKs: 0.172 on the average at 12 % vol, from the six pairs
// for lactic and succinic acid in Prenesti et al., Sci. World J. (2012) 249041,
// Table 4 (0.15 to 0.21; standard deviation 0.02). Taken for the other acids
// too, and in proportion to the strength.
const (
	ethanolShift   = 0.172 / 12
	shiftSpread    = 0.02 / 12
	shiftMeasured  = 12 // % vol; beyond, half of the further shift is uncertain
	maxPHStrength  = 22
	sourceStrength = "pK shift measured at 12 % vol (Prenesti et al. 2012), carried to fortified wine"
)

// End of the Davies formula, mol/L; no liquid beyond it leaves Fit or PH. At the
// end point of a titration there may be more, where the acids are all ions and
// the coefficient does not matter: it is held there.
const maxIonic = 0.5

// davies is minus log10 of the activity coefficient of an ion of charge 1 at
// this ionic strength (mol/L); charge z has z^2 times as much.
func davies(ionic float64) float64 {
	ionic = min(ionic, maxIonic)
	root := math.Sqrt(ionic)
	return molar.DebyeHueckel * (root/(1+root) - 0.3*ionic)
}

// constants are 10^-pK at a strength; zero where the acid has no such step.
type constants [acids][3]float64

func constantsAt(strength float64) constants {
	var k constants
	for i := range pkTable {
		for j, p := range pkTable[i] {
			if p.value > 0 {
				k[i][j] = molar.Pow10(-p.value - ethanolShift*strength)
			}
		}
	}
	return k
}

// uncertainty is the standard uncertainty of a pK at a strength.
func (p pk) uncertainty(strength float64) float64 {
	printed := max(0.01, (p.high-p.low)/math.Sqrt(12))
	beyond := 0.5 * ethanolShift * max(0, strength-shiftMeasured)
	return math.Hypot(math.Hypot(printed, shiftSpread*strength), beyond)
}

// An ionCount is what the ions of a liquid add up to, in mol/L.
type ionCount struct {
	alkali  float64 // that would balance the acids' ions, H and OH here
	squares float64 // sum of concentration times charge squared, without the alkali's
	slope   float64 // of alkali with pH, over ln 10
	rise    float64 // of squares likewise
}

// ions counts them at this pH; g is 10^davies at the ionic strength.
func (b *Buffer) ions(pH, g float64) ionCount { return b.ionsAt(molar.Pow10(pH), g) }

// ionsAt takes 10^pH.
func (b *Buffer) ionsAt(a, g float64) ionCount {
	h, oh := g/a, g*a*1e-14
	n := ionCount{oh - h, oh + h, oh + h, oh - h}
	ag, g2 := a*g, g*g
	for i, c := range b.moles {
		if c == 0 {
			continue
		}
		k := &b.k[i]
		// Shares of the charges 1, 2, 3 over the undissociated acid; each
		// step's activity coefficients give g, g^3, g^5.
		x1 := k[0] * ag
		sum, one, two, three := 1+x1, x1, x1, x1
		if k[1] > 0 {
			x2 := x1 * k[1] * ag * g2
			sum, one, two, three = sum+x2, one+2*x2, two+4*x2, three+8*x2
			if k[2] > 0 {
				x3 := x2 * k[2] * ag * g2 * g2
				sum, one, two, three = sum+x3, one+3*x3, two+9*x3, three+27*x3
			}
		}
		by := 1 / sum
		one, two, three = one*by, two*by, three*by
		n.alkali += c * one
		n.squares += c * two
		n.slope += c * (two - one*one)
		n.rise += c * (three - one*two)
	}
	return n
}

// ionic is half the sum of concentration times charge squared.
func ionic(squares, alkali float64) float64 { return 0.5 * (squares + math.Abs(alkali)) }

func activity(squares, alkali float64) float64 { return molar.Pow10(davies(ionic(squares, alkali))) }

func checkIonic(squares, alkali float64) error {
	return units.Check("ionic strength", ionic(squares, alkali), 0, maxIonic, "mol/L", "Davies")
}

// A rest is the x that a function of x gives back, by the line through the last two
// tries: for functions that hardly change with x.
type rest struct{ x, y float64 }

func (r *rest) next(x, y float64) float64 {
	slope := (y - r.y) / (x - r.x)
	*r = rest{x, y}
	if !(math.Abs(slope) < 0.5) { // also the first
		return y
	}
	return x + (y-x)/(1-slope)
}
