package uncertainty

import (
	"errors"
	"math"
	"slices"

	"example.org/mutage/internal/exact"
	"example.org/mutage/internal/fault"
	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// ErrNoLine is returned by [FitLine] when all points are at the same x.
var ErrNoLine = errors.New("uncertainty: a line needs points at different x")

// Line is a least-squares line y = Intercept + Slope (x - Origin), as for the
// correction of a thermometer or hydrometer against its reading.
type Line struct {
	Origin, Intercept, Slope         float64
	InterceptStandard, SlopeStandard float64
	Correlation                      float64 // of intercept and slope
	Residual                         float64 // standard deviation of the points about the line
	DegreesOfFreedom                 float64 // points less two
	Low, High                        float64 // range of x of the points
}

// LeastSquares is the line through points by least squares with equal weights,
// without its uncertainty: two points will do. Domain: at least two points, x and
// y alike in number, to 1e100. Errors: *[units.RangeError]; [ErrNoLine] when all x
// are the same.
func LeastSquares(x, y []float64) (intercept, slope float64, err error) {
	n := float64(len(x))
	err = fault.Join(units.Check("number of points", n, 2, math.Inf(1), "", ""),
		units.Check("number of y", float64(len(y)), n, n, "", ""), checkAll("", "x", x), checkAll("", "y", y))
	if err != nil {
		return 0, 0, err
	}
	if slices.Min(x) == slices.Max(x) {
		return 0, 0, ErrNoLine
	}
	intercept, slope = stat.LinearRegression(x, y, nil, false)
	if !exact.Finite(intercept) || !exact.Finite(slope) {
		return 0, 0, ErrNoLine // so near together that their distance is rounding
	}
	return intercept, slope, nil
}

// FitLine fits a line to points by least squares with equal weights, JCGM
// 100:2008, H.3.2. The x are taken as exact; the scatter about the line is the
// only uncertainty: add that of the reference in what uses the line. At least
// three points, x and y alike in number and finite; a *[units.RangeError]
// otherwise, [ErrNoLine] when all x are the same.
func FitLine(x, y []float64, origin float64) (Line, error) {
	n := float64(len(x))
	if err := units.Check("number of points", n, 3, math.Inf(1), "", ""); err != nil {
		return Line{}, err
	}
	if err := units.Check("number of y", float64(len(y)), n, n, "", ""); err != nil {
		return Line{}, err
	}
	if err := fault.Join(checkAll("", "x", x), checkAll("", "y", y), checkAll("", "origin", []float64{origin})); err != nil {
		return Line{}, err
	}
	from := make([]float64, len(x))
	for i := range x {
		from[i] = x[i] - origin
	}
	mean, variance := stat.MeanVariance(from, nil)
	if variance == 0 {
		return Line{}, ErrNoLine
	}
	spread := variance * (n - 1) // sum of (x - mean)^2
	l := Line{Origin: origin, DegreesOfFreedom: n - 2, Low: slices.Min(x), High: slices.Max(x)}
	l.Intercept, l.Slope, _ = LeastSquares(from, y) // checked above
	sum := 0.0
	for i := range y {
		d := y[i] - l.Intercept - l.Slope*from[i]
		sum += d * d
	}
	l.Residual = math.Sqrt(sum / (n - 2))
	l.SlopeStandard = l.Residual / math.Sqrt(spread)
	l.InterceptStandard = l.Residual * math.Sqrt(1/n+mean*mean/spread)
	l.Correlation = -mean / math.Sqrt(spread/n+mean*mean)
	return l, nil
}

// Inputs returns intercept and slope and their correlation matrix.
func (l Line) Inputs() ([]Input, *mat.SymDense) {
	return []Input{
		{Name: "intercept", Value: l.Intercept, Standard: l.InterceptStandard, DegreesOfFreedom: l.DegreesOfFreedom},
		{Name: "slope", Value: l.Slope, Standard: l.SlopeStandard, DegreesOfFreedom: l.DegreesOfFreedom},
	}, mat.NewSymDense(2, []float64{1, l.Correlation, l.Correlation, 1})
}

// At returns the line at x and the uncertainty of the line there, JCGM 100
// equation (H.15). x must lie within the points fitted; a *[units.RangeError]
// otherwise.
func (l Line) At(x float64) (Result, error) {
	if err := units.Check("x", x, l.Low, l.High, "", "range of the points fitted"); err != nil {
		return Result{}, err
	}
	return l.Extrapolate(x)
}

// Extrapolate is [Line.At] for any finite x. Outside the points its uncertainty
// holds only if the line does. x is within 1e100; a *[units.RangeError]
// otherwise.
func (l Line) Extrapolate(x float64) (Result, error) {
	if err := units.Check("x", x, -1e100, 1e100, "", ""); err != nil {
		return Result{}, err
	}
	in, r := l.Inputs()
	return Propagate(func(p []float64) (float64, error) { return p[0] + p[1]*(x-l.Origin), nil }, in, r)
}
