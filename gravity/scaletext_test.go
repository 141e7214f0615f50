package gravity_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Every scale does what every other does: it is read as people write it,
// printed as it is read, and comes back from JSON whatever it holds.
func TestEveryScaleIsReadPrintedAndWritten(t *testing.T) {
	onScale(t, gravity.ParsePlato, (*gravity.Plato).Set, (gravity.Plato).String, map[string]string{"17.1 P": "17.1 P", "17,1 °P": "17.1 P", "7.2 Bx": "7.2 P", "-1.3 Plato": "-1.3 P"}, "71 P", "46 points")
	onScale(t, gravity.ParseBrix, (*gravity.Brix).Set, (gravity.Brix).String, map[string]string{"7.2 Bx": "7.2 Bx", "7,2 °Brix": "7.2 Bx", "7.2 P": "7.2 Bx"}, "76 Bx", "1.046")
	onScale(t, gravity.ParseOechsle, (*gravity.Oechsle).Set, (gravity.Oechsle).String, map[string]string{"92 Oe": "92 Oe", "92 ° Oechsle": "92 Oe", "92.0000000009 Oe": "92 Oe"}, "-1 Oe", "92")
	onScale(t, gravity.ParsePoints, (*gravity.Points).Set, (gravity.Points).String, map[string]string{"46 points": "46 points", "1 point": "1 points", "-3 points": "-3 points"}, "400 points", "46 Oe")
	onScale(t, gravity.ParseBaume, (*gravity.Baume).Set, (gravity.Baume).String, map[string]string{"9.5 Be": "9.5 Be", "9,5 °Bé": "9.5 Be"}, "39 Be", "9.5 Be 144.3")
	onScale(t, gravity.ParseBaume1443, (*gravity.Baume1443).Set, (gravity.Baume1443).String, map[string]string{"9.5 Be": "9.5 Be 144.3", "9.5 Be 144.3": "9.5 Be 144.3"}, "39 Be", "9.5 Bx")
}

func onScale[T ~float64](t *testing.T, parse func(string) (T, error), set func(*T, string) error, text func(T) string, read map[string]string, beyond, foreign string) {
	t.Helper()
	for written, want := range read {
		x, err := parse(written)
		var again T
		if err != nil || text(x) != want || set(&again, text(x)) != nil || text(again) != want {
			t.Errorf("%q reads %v, %v; printed %q, want %q", written, float64(x), err, text(x), want)
		}
	}
	kept := T(3)
	var ranged *units.RangeError
	var unread *units.ParseError
	if err := set(&kept, beyond); !errors.As(err, &ranged) || kept != 3 {
		t.Errorf("%q: %v, %v", beyond, float64(kept), err)
	}
	for _, s := range []string{foreign, "", "much"} {
		if err := set(&kept, s); !errors.As(err, &unread) || kept != 3 {
			t.Errorf("%q: %v, %v", s, float64(kept), err)
		}
	}
	for _, x := range []float64{0, 92.0000000009, -4e-16, 5e-324, 1e300} {
		var back T
		written, err := json.Marshal(T(x))
		if err != nil || json.Unmarshal(written, &back) != nil || float64(back) != x {
			t.Errorf("%v is written as %s, %v, and comes back as %v", x, written, err, float64(back))
		}
	}
	if written, err := json.Marshal(T(math.NaN())); err == nil {
		t.Errorf("NaN is written as %s", written)
	}
	if written, err := json.Marshal(map[string]T{"x": 9.5}); err != nil || json.Unmarshal(written, &map[string]T{}) != nil {
		t.Errorf("%s, %v", written, err)
	}
}

// A number alone is missing its unit: the error says where.
func TestTheMissingUnitIsShownAtItsPlace(t *testing.T) {
	for text, want := range map[string]int{"70": 2, "  40": 4, "1.070 kg": 6} {
		_, err := gravity.Parse(text)
		var e *units.ParseError
		if !errors.As(err, &e) || e.Offset != want {
			t.Errorf("%q: %+v", text, e)
		}
	}
}

// The cause comes before the citation, and says what to do.
func TestErrorsNameTheCauseFirst(t *testing.T) {
	_, below := gravity.SG(0.995).Plato()
	_, light := gravity.NewHydrometer(units.Celsius(20)).Correct(0.975, units.Celsius(20))
	_, weak := gravity.NewHydrometer(units.Celsius(20)).CorrectIn(5, 0.98, units.Celsius(20))
	for err, want := range map[error]string{
		below: "specific gravity 0.995 is below water: already fermented? Possible: 1 to 1.3499 (ICUMSA",
		light: "sample at 20 C: a reading of 0.975 means much alcohol: use CorrectIn with the strength; possible: 0.98104 to 1.3499 (",
		weak:  "sample at 20 C: a reading of 0.98 means more alcohol than 5 % vol; possible: ",
	} {
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v; want %s", err, want)
		}
	}
}
