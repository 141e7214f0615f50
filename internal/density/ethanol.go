package density

import "example.org/mutage/internal/solve"

// Domain of the ethanol-water formula: OIML R 22 (1975), p. 13.
const (
	MinTemperature = -20.0
	MaxTemperature = 40.0
	SourceEthanol  = "OIML R 22 (1975)"
)

// Density of pure ethanol and of pure water at 20 C: the formula at p = 1 and
// p = 0. The first is the 789.24 kg/m3 of the definition of strength by volume.
var (
	PureEthanol = Ethanol20(1)
	ethanolZero = Ethanol20(0)
)

// ethanolTable[i][k] multiplies (t-20)^i p^k. OIML R 22 (1975), p. 13: row 0 is
// A1 to A12; column 0 of the other rows is B1 to B6; the rest is C(i,k).
var ethanolTable = [7][]float64{
	{9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4,
		3.062874042e5, -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4},
	{-2.0618513e-1, 1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2, 3.924090430035045e3,
		-1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4, 1.852373922069467e4, -7.420201433430137e3, 1.285617841998974e3},
	{-5.2682542e-3, -1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993e0, 1.353034988843029e1, -5.029988758547014e1,
		1.096355666577570e2, -1.422753946421155e2, 1.080435942856230e2, -4.414153236817392e1, 7.442971530188783e0},
	{3.6130013e-5, -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.022992966719220e0, -2.895696483903638e0,
		4.810060584300675e0, -4.672147440794683e0, 2.458043105903461e0, -5.411227621436812e-1},
	{-3.8957702e-7, 4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6},
	{7.1693540e-9, -2.788074354782409e-8, 1.345612883493354e-8},
	{-9.9739231e-11},
}

// ethanol20 are the coefficients in p at 20 C, and ethanolColumns[k] those in
// t-20 of the power k of p, lowest first.
var (
	ethanol20      = (*[12]float64)(ethanolTable[0])
	ethanolColumns = func() (columns [12][7]float64) {
		for i, row := range ethanolTable {
			for k, c := range row {
				columns[k][i] = c
			}
		}
		return columns
	}()
)

// isotherm are the coefficients in p at t. Powers of p above the fourth have
// terms to the third power of t-20 only.
func isotherm(t float64) (c [12]float64) {
	x := t - 20
	for k := range 5 {
		r := &ethanolColumns[k]
		c[k] = r[0] + x*(r[1]+x*(r[2]+x*(r[3]+x*(r[4]+x*(r[5]+x*r[6])))))
	}
	for k := 5; k < 12; k++ {
		r := &ethanolColumns[k]
		c[k] = r[0] + x*(r[1]+x*(r[2]+x*r[3]))
	}
	return c
}

// sum is the polynomial, in pairs (Estrin): the steps of a solver wait for it.
func sum(c *[12]float64, p float64) float64 {
	p2 := p * p
	p4 := p2 * p2
	return (c[0] + c[1]*p + (c[2]+c[3]*p)*p2) +
		(c[4]+c[5]*p+(c[6]+c[7]*p)*p2)*p4 +
		(c[8]+c[9]*p+(c[10]+c[11]*p)*p2)*(p4*p4)
}

// slope is the derivative of sum.
func slope(c *[12]float64, p float64) float64 {
	p2 := p * p
	p4 := p2 * p2
	return (c[1] + 2*c[2]*p + (3*c[3]+4*c[4]*p)*p2) +
		(5*c[5]+6*c[6]*p+(7*c[7]+8*c[8]*p)*p2)*p4 +
		(9*c[9]+10*c[10]*p+11*c[11]*p2)*(p4*p4)
}

// Ethanol20 is the density at 20 C of ethanol-water with mass fraction p of
// ethanol. It reproduces OIML R 22 Tables III and IV to 0.005 kg/m3.
func Ethanol20(p float64) float64 { return sum(ethanol20, p) }

// Ethanol is the density of ethanol-water at t: OIML R 22 Tables I and II.
func Ethanol(p, t float64) float64 {
	c := isotherm(t)
	return sum(&c, p)
}

func ethanolSlope20(p float64) (rho, drho float64) { return sum(ethanol20, p), slope(ethanol20, p) }

func ethanolSlope(p, t float64) (rho, drho float64) {
	c := isotherm(t)
	return sum(&c, p), slope(&c, p)
}

// firstGuess[k] multiplies q^(k+1), q the volume fraction: our own least-squares
// fit to ByVolume, within 0.0011, from which two Newton steps reach rounding.
var firstGuess = [6]float64{0.7804, 0.2972, -1.1914, 2.9348, -2.9656, 1.1436}

// A Newton step this small leaves an error of its square: below 1e-13.
const smallStep = 1e-7

func small(step float64) bool { return step < smallStep && step > -smallStep }

// ByMass is the mass fraction of a spirit of q % vol at 20 C (0 to 100):
// q = 100 p rho(p) / rho(1), solved by Newton to rounding.
func ByMass(q float64) float64 {
	q /= 100
	want, g, q2 := q*PureEthanol, &firstGuess, q*q
	p := q * (g[0] + g[1]*q + (g[2]+g[3]*q)*q2 + (g[4]+g[5]*q)*(q2*q2))
	for range 6 {
		rho, slope := ethanolSlope20(p)
		step := (p*rho - want) / (rho + p*slope)
		p -= step
		if step < 1e-6 && step > -1e-6 { // a third of its square is left
			break
		}
	}
	return min(p, 1) // which rounding alone can pass
}

// ByVolume is the strength at 20 C in % vol of mass fraction p, 0 to 1.
func ByVolume(p float64) float64 { return min(100, 100*p*Ethanol20(p)/PureEthanol) }

// EthanolFraction is the mass fraction of ethanol-water of density rho at t,
// from FreezingFraction to 1; ok is false outside. The ends are met within 1e-8
// kg/m3. (Near 0 C and below, the density does not fall everywhere at smaller p.)
func EthanolFraction(rho, t float64) (p float64, ok bool) {
	c := isotherm(t)
	water, ethanol := sum(&c, 0), sum(&c, 1)
	x := (water - rho) / (water - ethanol)
	chord := x * (1.5 - 0.5*x) // within 0.1
	p, err := solve.Rising(func(p float64) (float64, float64) {
		return rho - sum(&c, p), -slope(&c, p)
	}, chord, FreezingFraction(t), 1, 1e-7, 1e-10)
	return p, err == nil
}

// FreezingFraction is the mass fraction of ethanol below which ethanol-water
// is partly frozen at t. The four points are from memory; they decide only
// what is refused.
func FreezingFraction(t float64) float64 {
	last := [2]float64{0, 0}
	for _, row := range [][2]float64{{-4.5, 0.10}, {-10.9, 0.20}, {-20.5, 0.30}} {
		if t > row[0] {
			return max(0, last[1]+(t-last[0])/(row[0]-last[0])*(row[1]-last[1]))
		}
		last = row
	}
	return last[1]
}
