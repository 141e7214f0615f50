package refraction

// Domain of Correction.
const (
	MinTemperature    = 5.0
	MaxTemperature    = 30.0
	MaxCorrected      = 75.0
	SourceTemperature = "OIV-MA-AS2-02 Table I"
)

// The correction is x times (linear + x square), each a polynomial of w, lowest
// power first; w is the reading as a fraction and x = (t-20)/10; it is in % mass. Our
// own fit, with the least greatest deviation: it keeps every row of OIV-MA-AS2-02
// Table I from 8 C up (10 to 75 %, 8 to 17 C) at half its last digit, and as many as
// can be of its colder rows and of the rows of 5 % and of 18 to 22 C of the older
// table (GOST), whose other rows are within what the two tables differ by.
var (
	linearInTemperature = [3]float64{0.629738, 0.522905, -0.444972}
	squareInTemperature = [4]float64{0.110104, -0.256479, 0.296797, -0.141294}
)

// Correction is what is added to the reading in % mass, on a scale that is true
// at 20 C, of a sucrose solution at t. Domain: 0 to MaxCorrected %,
// MinTemperature to MaxTemperature.
func Correction(reading, t float64) float64 {
	w, x := reading/100, (t-20)/10
	l, s := &linearInTemperature, &squareInTemperature
	linear := l[0] + w*(l[1]+w*l[2])
	square := s[0] + w*(s[1]+w*(s[2]+w*s[3]))
	return x * (linear + x*square)
}
