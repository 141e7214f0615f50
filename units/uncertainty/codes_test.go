package uncertainty_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"example.org/mutage/units/uncertainty"
)

func TestDistributionsAreWrittenAsCodes(t *testing.T) {
	in := []uncertainty.Distribution{uncertainty.Normal, uncertainty.Rectangular, uncertainty.Triangular, uncertainty.Arcsine}
	text, err := json.Marshal(in)
	var back []uncertainty.Distribution
	if err != nil || string(text) != `["normal","rectangular","triangular","arcsine"]` || json.Unmarshal(text, &back) != nil || len(back) != 4 || back[3] != in[3] {
		t.Errorf("%s, %v, came back as %v", text, err, back)
	}
	if json.Unmarshal([]byte(`["flat"]`), &back) == nil {
		t.Error("flat was read")
	}
}

// By hand: through (1, 3) and (2, 5); through (0, 0), (1, 1), (2, 1) by the normal
// equations.
func TestLeastSquaresMeetsTwoPointsAndTheNormalEquations(t *testing.T) {
	a, b, err := uncertainty.LeastSquares([]float64{1, 2}, []float64{3, 5})
	if err != nil || math.Abs(a-1) > 1e-12 || math.Abs(b-2) > 1e-12 {
		t.Errorf("%v + %v x, %v", a, b, err)
	}
	a, b, err = uncertainty.LeastSquares([]float64{0, 1, 2}, []float64{0, 1, 1})
	if err != nil || math.Abs(a-1.0/6) > 1e-12 || math.Abs(b-0.5) > 1e-12 {
		t.Errorf("%v + %v x, %v", a, b, err)
	}
	if _, _, err := uncertainty.LeastSquares([]float64{1, 1}, []float64{3, 5}); !errors.Is(err, uncertainty.ErrNoLine) {
		t.Error(err)
	}
	for _, x := range [][]float64{nil, {1}, {1, math.NaN()}, {1, 2, 3}} {
		if _, _, err := uncertainty.LeastSquares(x, []float64{3, 5}); err == nil {
			t.Errorf("%v: no error", x)
		}
	}
}
