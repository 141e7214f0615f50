package batch

import (
	"errors"
	"testing"

	"example.org/mutage/units"
)

func TestAnAmountIsByVolumeOrByWeight(t *testing.T) {
	if a := Litres(3); !a.Known() || !a.Volume.Known || a.Mass.Known || a.Volume.Value != 3 {
		t.Errorf("3 L: %+v", a)
	}
	if a := Grams(3200); !a.Known() || a.Volume.Known || a.Mass.Value != 3200 {
		t.Errorf("3,200 g: %+v", a)
	}
	if (Amount{}).Known() {
		t.Error("nothing is an amount")
	}
}

// Not stated is not zero.
func TestNotStatedIsNotZero(t *testing.T) {
	var none Stated[units.Strength]
	if none.Or(12) != 12 || Is(units.Strength(0)).Or(12) != 0 {
		t.Errorf("not stated %v, zero %v", none.Or(12), Is(units.Strength(0)).Or(12))
	}
	if at := (Batch{}).Cellar(); at != units.Celsius(20) {
		t.Errorf("a cellar of which nothing is said has %v", at)
	}
	b := Demo()
	if at := b.Cellar(); at != units.Celsius(18) {
		t.Errorf("the cellar of the demonstration has %v", at)
	}
}

func TestAFileErrorHoldsItsCause(t *testing.T) {
	cause := errors.New("no volume")
	e := &FileError{File: "b.json", Line: 2, Column: 3, Field: "must", Err: cause}
	if !errors.Is(e, cause) || e.Unwrap() != cause || e.Error() != `b.json:2:3: field "must": no volume` {
		t.Errorf("%v", e)
	}
}
