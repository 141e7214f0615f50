package uncertainty

import (
	"math"
	"strconv"

	"example.org/mutage/units"
)

// Distribution is the shape of what is known about an input, JCGM 101:2008,
// 6.4. [Propagate] needs the standard uncertainty only; [MonteCarlo] draws it.
type Distribution int

const (
	// Normal is the default. With finite degrees of freedom [MonteCarlo] draws
	// Student's t, shifted to Value and scaled by Standard (6.4.9).
	Normal Distribution = iota
	// Rectangular is equally likely anywhere between two bounds (6.4.2). With
	// finite degrees of freedom its half-width is inexact (6.4.3).
	Rectangular
	// Triangular is the sum of two equal rectangular ones (6.4.5).
	Triangular
	// Arcsine, U-shaped, is a value cycling between two bounds (6.4.6), as the
	// temperature of a regulated cellar.
	Arcsine
)

// String returns the name of the distribution.
func (d Distribution) String() string {
	if d < 0 || int(d) >= len(distributionCodes) {
		return "distribution " + strconv.Itoa(int(d))
	}
	return distributionCodes[d]
}

// halfWidth is the ratio of half-width to standard deviation.
func (d Distribution) halfWidth() float64 {
	switch d {
	case Rectangular:
		return math.Sqrt(3) // JCGM 100, 4.3.7
	case Triangular:
		return math.Sqrt(6) // JCGM 100, 4.3.9
	case Arcsine:
		return math.Sqrt2 // JCGM 101, 6.4.6
	}
	return 0
}

// Input is what is known of one input quantity: its best estimate and the
// standard uncertainty of that estimate, in the same unit. A certificate that
// states U with a coverage factor k gives Standard = U/k.
type Input struct {
	Name string
	// Key says what the input is, whatever it is named: stable snake_case, which
	// the budget keeps. Empty where nobody asks for it.
	Key             string
	Value, Standard float64
	// DegreesOfFreedom says how well Standard is known: readings less one
	// (type A), or 1/(2 q^2) when Standard is good to the fraction q (JCGM 100,
	// G.4.2). At least 1; 0 means infinitely many.
	DegreesOfFreedom float64
	Distribution     Distribution
}

// RectangularInput is a value known to lie within half of value on either side,
// anywhere alike: a digital display, a maker's tolerance. Standard = half/sqrt(3).
func RectangularInput(name string, value, half float64) Input {
	return bounded(name, value, half, Rectangular)
}

// LimitInput is a value within limit on either side 19 times in 20, as "±" says
// where people write it (see [Within]): normal, Standard = limit/1.96.
func LimitInput(name string, value, limit float64) Input {
	return Input{Name: name, Value: value, Standard: limit / limit95}
}

// limit95 is the coverage factor of 95 % for a normal distribution, JCGM 100:2008, table G.1.
const limit95 = 1.96

// TriangularInput is a value within half on either side, values near the middle
// being likelier: a scale read between its marks. Standard = half/sqrt(6).
func TriangularInput(name string, value, half float64) Input {
	return bounded(name, value, half, Triangular)
}

// ArcsineInput is a value that swings between value-half and value+half.
// Standard = half/sqrt(2).
func ArcsineInput(name string, value, half float64) Input {
	return bounded(name, value, half, Arcsine)
}

// ToleranceInput is a value read with an instrument of which nothing is known but
// the trade's tolerance: a rectangular input of that half-width.
func ToleranceInput(name string, value float64, t Tolerance) Input {
	return RectangularInput(name, value, t.Of(value))
}

func bounded(name string, value, half float64, d Distribution) Input {
	return Input{Name: name, Value: value, Standard: half / d.halfWidth(), Distribution: d}
}

// largest keeps sums and multiples of inputs clear of the end of float64.
const largest = 1e300

func checkInputs(in []Input) error {
	if err := units.Check("number of inputs", float64(len(in)), 1, math.Inf(1), "", ""); err != nil {
		return err
	}
	for i, x := range in {
		err := x.check()
		if e, ok := err.(*units.RangeError); ok {
			e.Of = label(in, i)
			return e
		}
	}
	return nil
}

func (x Input) check() error {
	if err := units.Check("value", x.Value, -largest, largest, "", ""); err != nil {
		return err
	}
	if err := units.Check("standard uncertainty", x.Standard, 0, largest, "", ""); err != nil {
		return err
	}
	if err := checkDegrees(x.DegreesOfFreedom); err != nil {
		return err
	}
	return units.Check("distribution", float64(x.Distribution), float64(Normal), float64(Arcsine), "", "")
}

func checkDegrees(degrees float64) error {
	if degrees == 0 {
		return nil
	}
	return units.Check("degrees of freedom", degrees, 1, math.Inf(1), "", "JCGM 100:2008, G.4; 0 is infinitely many")
}

// label names an input in errors.
func label(in []Input, i int) string {
	if in[i].Name != "" {
		return in[i].Name
	}
	return "input " + strconv.Itoa(i+1)
}
