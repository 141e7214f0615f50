package abv_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

func ExampleStopWithin() {
	r, _ := abv.StopWithin(1.092, abv.Goal{MinStrength: 5, MinExtract: 142.355}, abv.Must)
	fmt.Printf("from %.3f to %.3f\n", float64(r.From.Gravity), float64(r.To.Gravity))
	// Output: from 1.055 to 1.046
}

func ExampleStopAtExtract() {
	stop, _ := abv.StopAtExtract(1.092, 142.355, abv.Must)
	fmt.Printf("%.3f\n", float64(stop.Gravity))
	// Output: 1.046
}

// At both ends of a window all limits hold; just outside one fails.
func TestStopWithinHolds(t *testing.T) {
	for _, goal := range []abv.Goal{
		{MinStrength: 5, MaxStrength: 6, MinExtract: 100, MaxExtract: 160},
		{MinStrength: 5},
		{MaxStrength: 6},
		{MinExtract: 100},
		{MaxExtract: 100},
		{MinStrength: 2, MaxStrength: 13, MinExtract: 10, MaxExtract: 900},
		{},
	} {
		r, err := abv.StopWithin(1.092, goal, abv.Must)
		if err != nil {
			t.Fatalf("%+v: %v", goal, err)
		}
		holds := func(at gravity.SG) bool {
			f, err := abv.MassBalance(1.092, at, abv.Must)
			const near = 1e-6
			return err == nil && f.Strength > goal.MinStrength-near && (goal.MaxStrength == 0 || f.Strength < goal.MaxStrength+near) &&
				f.Extract > goal.MinExtract-near && (goal.MaxExtract == 0 || f.Extract < goal.MaxExtract+near)
		}
		from, to := r.From.Gravity, r.To.Gravity
		if to > from || !holds(from) || !holds(to) || !holds((from+to)/2) {
			t.Errorf("%+v: %+v does not hold", goal, r)
		}
		if holds(from+0.001) || holds(to-0.001) {
			t.Errorf("%+v: more than %+v holds", goal, r)
		}
	}
}

// The gravity that an error names would do, whichever way the must misses.
func TestStopWithinSaysWhatWouldDo(t *testing.T) {
	for _, goal := range []abv.Goal{
		{MinStrength: 9, MinExtract: 120},
		{MaxStrength: 4, MaxExtract: 60},
	} {
		_, err := abv.StopWithin(1.092, goal, abv.Must)
		var no *abv.NoWindowError
		if !errors.Is(err, abv.ErrNoWindow) || !errors.As(err, &no) {
			t.Fatalf("%+v: %v", goal, err)
		}
		needed := no.Needed
		if goal.MaxStrength > 0 {
			needed -= 1e-9
		} else {
			needed += 1e-9
		}
		if r, err := abv.StopWithin(needed, goal, abv.Must); err != nil || r.From.Gravity-r.To.Gravity > 1e-6 {
			t.Errorf("%+v: from %v %+v, %v", goal, no.Needed, r, err)
		}
		t.Log(err)
	}
	// A limit the must cannot meet alone, and goals that contradict themselves.
	for _, goal := range []abv.Goal{
		{MinStrength: 19}, {MinExtract: 300}, {MinStrength: 6, MaxStrength: 5}, {MinExtract: 50, MaxExtract: 40},
		{MinStrength: -1}, {MaxStrength: 101}, {MaxExtract: units.Concentration(math.Inf(1))}, {MinExtract: units.Concentration(math.NaN())},
	} {
		var r *units.RangeError
		if _, err := abv.StopWithin(1.092, goal, abv.Must); !errors.As(err, &r) {
			t.Errorf("%+v: %v", goal, err)
		}
	}
}

// FuzzStopWithin: an answer holds at both ends.
func FuzzStopWithin(f *testing.F) {
	f.Add(1.092, 5.0, 6.0, 100.0, 160.0)
	f.Add(1.092, 9.0, 0.0, 120.0, 0.0)
	f.Add(1.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1.0000000000000002, 0.0, 0.0, 0.0, 7.25)
	f.Fuzz(func(t *testing.T, og, s1, s2, x1, x2 float64) {
		goal := abv.Goal{MinStrength: units.Strength(s1), MaxStrength: units.Strength(s2), MinExtract: units.Concentration(x1), MaxExtract: units.Concentration(x2)}
		r, err := abv.StopWithin(gravity.SG(og), goal, abv.Wort)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		for _, at := range []gravity.SG{r.From.Gravity, r.To.Gravity} {
			w, err := abv.MassBalance(gravity.SG(og), at, abv.Wort)
			const near = 1e-4 // solvedTo at the very dry end
			if err != nil || w.Strength < goal.MinStrength-near || w.Extract < goal.MinExtract-near ||
				goal.MaxStrength > 0 && w.Strength > goal.MaxStrength+near || goal.MaxExtract > 0 && w.Extract > goal.MaxExtract+near {
				t.Errorf("%v, %+v: at %v %+v, %v", og, goal, at, w, err)
			}
		}
	})
}
