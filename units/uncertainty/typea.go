package uncertainty

import (
	"math"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// Series is one quantity read repeatedly.
type Series struct {
	Name     string
	Readings []float64
}

// TypeA evaluates repeated readings, JCGM 100:2008, 4.2 and 5.2.3: for every
// series the mean, the standard uncertainty s/sqrt(n) of the mean with n-1
// degrees of freedom, and the correlation between the means of series that were
// read at the same time. Give series read at different times to separate calls.
// A series whose readings are all the same has uncertainty 0 and no correlation.
//
// It needs at least two readings, all finite, and the same number in every
// series; a *[units.RangeError] otherwise.
func TypeA(series ...Series) ([]Input, *mat.SymDense, error) {
	if err := units.Check("number of series", float64(len(series)), 1, math.Inf(1), "", ""); err != nil {
		return nil, nil, err
	}
	n := len(series[0].Readings)
	if err := units.CheckOf(series[0].Name, "number of readings", float64(n), 2, math.Inf(1), "", ""); err != nil {
		return nil, nil, err
	}
	in := make([]Input, len(series))
	readings := mat.NewDense(n, len(series), nil)
	for j, s := range series {
		if err := units.CheckOf(s.Name, "number of readings", float64(len(s.Readings)), float64(n), float64(n), "", ""); err != nil {
			return nil, nil, err
		}
		if err := checkAll(s.Name, "reading", s.Readings); err != nil {
			return nil, nil, err
		}
		readings.SetCol(j, s.Readings)
		mean, deviation := stat.MeanStdDev(s.Readings, nil)
		in[j] = Input{Name: s.Name, Value: mean, Standard: deviation / math.Sqrt(float64(n)), DegreesOfFreedom: float64(n - 1)}
	}
	var r mat.SymDense
	stat.CorrelationMatrix(&r, readings, nil)
	for i := range in {
		for j := range i {
			if in[i].Standard == 0 || in[j].Standard == 0 {
				r.SetSym(i, j, 0)
			}
		}
	}
	return in, &r, nil
}

// checkAll keeps squares of readings clear of the end of float64.
func checkAll(of, quantity string, readings []float64) error {
	for _, x := range readings {
		if err := units.CheckOf(of, quantity, x, -1e100, 1e100, "", ""); err != nil {
			return err
		}
	}
	return nil
}
