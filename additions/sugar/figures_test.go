package sugar_test

import (
	"testing"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Every result says of every figure how it was found and who says so.
func TestResultsGiveFiguresWithProvenance(t *testing.T) {
	addition, err := sugar.RaiseGravity(1.057, 1.092, 3)
	if err != nil {
		t.Fatal(err)
	}
	syrup, err := sugar.Syrup(65)
	if err != nil {
		t.Fatal(err)
	}
	for _, result := range []interface{ Figures() []units.Figure }{addition, syrup, sugar.Sweetener{Extract: 1}} {
		figures := result.Figures()
		if err := formula.Check(figures); err != nil || len(figures) < 2 {
			t.Errorf("%T gives %d figures: %v", result, len(figures), err)
		}
	}
}
