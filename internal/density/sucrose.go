package density

// Domain of the sucrose-water formula: ICUMSA (1990) as printed in Bubnik,
// Kadlec, Urban & Bruhns, Sugar Technologists Manual (1995), p. 164; 0.70 is
// the end of the tables it is tested against.
const (
	MaxSucrose            = 0.70
	MinSucroseTemperature = 0.0
	MaxSucroseTemperature = 100.0
	SourceSucrose         = "ICUMSA 1990, Sugar Technologists Manual (1995) p. 164"
)

// Water20 is the density of water at 20 C on which every specific gravity
// rests: Water(20).
var Water20 = Water(20)

// HeaviestGravity is that of MaxSucrose, 1.3499: where every scale ends.
var HeaviestGravity = Sucrose20(MaxSucrose) / Water20

// Water is the density of air-free water at t: Bettin & Spieweck (1990), the
// formula the sucrose polynomial was fitted to, as printed in IP Standard
// Methods (1998) App. G. Within 0.006 kg/m3 (as printed there).
func Water(t float64) float64 {
	return (999.83952 + t*(16.952577+t*(-7.9905127e-3+t*(-46.241757e-6+t*(105.84601e-9-t*281.03006e-12))))) / (1 + 16.887236e-3*t)
}

// sucroseTable[j][i] multiplies ((t-20)/100)^j w^(i+1): rows a to e of the
// source. a4 is printed -3.9643 and -3.9646; the effect is 7e-5 kg/m3 at 0.70.
var sucroseTable = [5][6]float64{
	{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
	{-46.2720, -7.1720, 1.1597, 5.1126, 17.5254},
	{59.7712, 7.2491, 12.3630, -35.4791},
	{-47.2207, -21.6977, 27.6301},
	{18.3184, 12.3081},
}

// Sucrose20 is the density at 20 C of sucrose-water with mass fraction w of
// sucrose.
func Sucrose20(w float64) float64 {
	c := &sucroseTable[0]
	return Water20 + w*(c[0]+w*(c[1]+w*(c[2]+w*(c[3]+w*(c[4]+w*c[5])))))
}

func sucroseSlope20(w float64) (rho, slope float64) {
	c := &sucroseTable[0]
	return Sucrose20(w), c[0] + w*(2*c[1]+w*(3*c[2]+w*(4*c[3]+w*(5*c[4]+w*6*c[5]))))
}

// Sucrose is the density of sucrose-water at t.
func Sucrose(w, t float64) float64 {
	rho, _ := sucroseSlope(w, t)
	return rho
}

// hornerSlope is a polynomial, lowest coefficient first, and its derivative.
func hornerSlope(c []float64, x float64) (y, dy float64) {
	for i := len(c) - 1; i >= 0; i-- {
		dy = dy*x + y
		y = y*x + c[i]
	}
	return y, dy
}

func sucroseSlope(w, t float64) (rho, slope float64) {
	x := (t - 20) / 100
	for j := len(sucroseTable) - 1; j >= 0; j-- {
		y, dy := hornerSlope(sucroseTable[j][:], w)
		rho, slope = rho*x+y*w, slope*x+dy*w+y
	}
	return rho + Water(t), slope
}
