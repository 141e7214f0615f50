package exact_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/internal/exact"
)

func TestEveryFiniteNumberComesBack(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	numbers := []float64{0, 5e-324, 1e21, -4e-16, math.MaxFloat64, -math.MaxFloat64, 1.0 / 3}
	for len(numbers) < 1000 {
		if x := math.Float64frombits(random.Uint64()); exact.Finite(x) {
			numbers = append(numbers, x)
		}
	}
	for _, x := range numbers {
		text := exact.Text(x, "% vol")
		if y, ok := exact.Number(text, "% vol"); !ok || x != y {
			t.Errorf("%v is written as %q and read as %v", x, text, y)
		}
	}
}

func TestOnlyWhatWasWrittenIsRead(t *testing.T) {
	for _, text := range []string{"", " L", "3", "3L", "3 l", "NaN L", "+Inf L", "0x1p4 L", "1_0 L", "1e400 L", "1 1/2 L", "1,5 L", "e L"} {
		if x, ok := exact.Number([]byte(text), "L"); ok {
			t.Errorf("%q is read as %v", text, x)
		}
	}
}
