package refraction

// Domain of Correction.
const (
	MinTemperature    = 5.0
	MaxTemperature    = 30.0
	MaxCorrected      = 75.0
	SourceTemperature = "OIV-MA-AS2-02 Table I"
)

// temperatureTable[i][j] multiplies w^i x^(j+1), w the reading as a fraction and
// x = (t-20)/10; the correction is in % mass. Our own fit: it keeps every row
// of OIV-MA-AS2-02 Table I from 8 C up (10 to 75 %, 8 to 17 C) at half its last
// digit, and as many as can be of its colder rows and of the rows of 5 % and of 18
// to 22 C of the older table (GOST).
var temperatureTable = [4][2]float64{
	{0.629949, 0.112613},
	{0.521074, -0.286162},
	{-0.437102, 0.397681},
	{-0.007304, -0.233020},
}

// Correction is what is added to the reading in % mass, on a scale that is true
// at 20 C, of a sucrose solution at t. Domain: 0 to MaxCorrected %,
// MinTemperature to MaxTemperature.
func Correction(reading, t float64) float64 {
	w, x := reading/100, (t-20)/10
	c := &temperatureTable
	linear := c[0][0] + w*(c[1][0]+w*(c[2][0]+w*c[3][0]))
	square := c[0][1] + w*(c[1][1]+w*(c[2][1]+w*c[3][1]))
	return x * (linear + x*square)
}
