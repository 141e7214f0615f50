package uncertainty

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// One dominant rectangle, JCGM 101:2008, 9.2.4: among four rectangular inputs of
// half-widths 1, 1, 1 and 10 times the root of 3 the 95 % interval is -17.0 to 17.0
// where JCGM 100 has -19.9 to 19.9.
func TestCoverageOfADominantRectangle(t *testing.T) {
	one := math.Sqrt(3)
	r, err := Propagate(linear(1, 1, 1, 1), []Input{RectangularInput("", 0, one), RectangularInput("", 0, one), RectangularInput("", 0, one), RectangularInput("", 0, 10*one)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if half := r.Coverage() * r.Standard; math.Abs(half-17.0) > 0.05 || math.Abs(r.High-19.9) > 0.05 {
		t.Errorf("± %.3f, by JCGM 100 %.3f", half, r.High)
	}
}

// The ends: a rectangle alone holds 95 % within 0.95 of its half-width, a normal
// distribution within 1.96 (JCGM 100:2008, table G.1).
func TestCoverageAtTheEnds(t *testing.T) {
	for _, c := range []struct {
		name string
		in   []Input
		want float64
	}{
		{"a rectangle", []Input{RectangularInput("", 3, 2)}, 0.95 * math.Sqrt(3)},
		{"a rectangle and next to nothing", []Input{RectangularInput("", 3, 2), {Value: 1, Standard: 1e-9}}, 0.95 * math.Sqrt(3)},
		{"a normal input", []Input{{Value: 1, Standard: 1}}, 1.95996},
		{"next to no rectangle", []Input{RectangularInput("", 3, 0.01), {Value: 1, Standard: 1}}, 1.95996},
		{"a triangle", []Input{TriangularInput("", 3, 2)}, 1.95996}, // as JCGM 100 takes it
		{"nothing uncertain", []Input{{Value: 1}}, 1.96},
		{"degrees of freedom", []Input{{Value: 1, Standard: 1, DegreesOfFreedom: 5}, RectangularInput("", 3, 0.001)}, 2.57058}, // t of 5, of which JCGM 100, table G.2, prints 2.57
	} {
		f := make([]float64, len(c.in))
		for i := range f {
			f[i] = 1
		}
		r, err := Propagate(linear(f...), c.in, nil)
		if err != nil {
			t.Fatal(err)
		}
		if k := r.Coverage(); math.Abs(k-c.want) > 5e-5*c.want {
			t.Errorf("%s: %.5f, %.5f is right", c.name, k, c.want)
		}
	}
}

// A rectangle and a normal distribution hold 95 % of the draws, a hundred thousand of
// which scatter by 0.07 %; of a rectangle and a lesser one the sum is a trapezoid,
// of which the closed form is taken.
func TestCoverageCovers(t *testing.T) {
	for _, part := range []float64{0.3, 0.5, 0.7, 0.85, 0.95, 0.99} { // of the rectangle in the standard uncertainty
		in := []Input{RectangularInput("", 0, part*math.Sqrt(3)), {Standard: math.Sqrt(1 - part*part)}}
		r, err := Propagate(linear(1, 1), in, nil)
		if err != nil {
			t.Fatal(err)
		}
		k := r.Coverage()
		drawn, err := MonteCarlo(linear(1, 1), in, nil, 100_000, 7)
		if err != nil {
			t.Fatal(err)
		}
		above, err := drawn.AtLeast(k)
		below, err2 := drawn.AtLeast(-k)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if share := below - above; math.Abs(share-0.95) > 0.003 {
			t.Errorf("a rectangle of %v: %.4f covers %.2f %%", part, k, 100*share)
		}
		if c := drawn.Coverage(); math.Abs(c-k) > 0.03 { // the shortest interval of draws is a little short
			t.Errorf("a rectangle of %v: the draws' own factor is %.4f, %.4f was found", part, c, k)
		}
	}
	for a := 0.71; a < 1; a += 0.02 {
		b := math.Sqrt(1 - a*a)
		r, err := Propagate(linear(1, 1), []Input{RectangularInput("", 0, a*math.Sqrt(3)), RectangularInput("", 0, b*math.Sqrt(3))}, nil)
		if err != nil {
			t.Fatal(err)
		}
		outside := math.Sqrt(3)*(a+b) - r.Coverage() // the slope of the trapezoid
		share := 1 - outside*outside/(4*3*a*b)
		if share < 0.9435 || share > 0.9535 {
			t.Errorf("rectangles of %.2f and %.2f: %.2f %% are covered, 94.4 to 95.3 are promised", a, b, 100*share)
		}
	}
}

// Rectangles that go together are no single one, and a result made by hand has the
// factor of its degrees of freedom.
func TestCoverageOfTheRest(t *testing.T) {
	in := []Input{RectangularInput("", 1, 1), RectangularInput("", 1, 1)}
	r, err := Propagate(linear(1, 1), in, mat.NewSymDense(2, []float64{1, 0.9, 0.9, 1}))
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct{ k, want float64 }{
		"correlated rectangles":   {r.Coverage(), 1.95996},
		"four degrees of freedom": {Result{Value: 1, Standard: 1, DegreesOfFreedom: 4}.Coverage(), 2.77645}, // JCGM 100, table G.2: 2.78
		"infinitely many":         {Result{Value: 1, Standard: 1}.Coverage(), 1.95996},
		"no uncertainty":          {Result{Value: 1}.Coverage(), 1.96},
	} {
		if math.Abs(c.k-c.want) > 1e-5 {
			t.Errorf("%s: %.5f, expected %.5f", name, c.k, c.want)
		}
	}
}
