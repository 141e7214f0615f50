package units_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

func TestABareNumberIsInTheStatedUnit(t *testing.T) {
	in(t, units.PercentVol, map[string]units.Strength{"40": 40, "40,5": 40.5, "80 proof": 40, " 12.5 % ": 12.5})
	in(t, units.USGallon, map[string]units.Volume{"1": units.USGallon, "1 1/2": 1.5 * units.USGallon, "750 mL": 0.75, "0": 0})
	in(t, units.Millilitre, map[string]units.Volume{"750": 0.75, "½ L": 0.5, "1,5": 0.0015})
	in(t, units.USFluidOunce, map[string]units.Volume{"26": 26 * units.USFluidOunce})
	in(t, units.MilligramPerLitre, map[string]units.Concentration{"50": 0.05, "0,1 g/L": 0.1})
	in(t, gravity.Brix(1), map[string]gravity.Brix{"22,4": 22.4, "22.4 Bx": 22.4})
	in(t, gravity.Oechsle(1), map[string]gravity.Oechsle{"92": 92})
	in(t, gravity.SG(1), map[string]gravity.SG{"1.092": 1.092, "1,092": 1.092, "1092": 1.092, "92 Oe": 1.092})
	for text, want := range map[string]float64{"68": 20, "20 C": 20, "68,0": 20, "-4": -20} {
		got, err := units.ParseTemperatureIn(text, units.Fahrenheit)
		if err != nil || math.Abs(got.Celsius()-want) > 1e-10 {
			t.Errorf("%q in Fahrenheit: %v, %v", text, got, err)
		}
	}
}

func in[T interface {
	~float64
	MarshalText() ([]byte, error)
}, P interface {
	*T
	Set(string) error
}](t *testing.T, unit T, read map[string]T) {
	t.Helper()
	for text, want := range read {
		got, err := units.ParseIn[T, P](text, unit)
		if err != nil || math.Abs(float64(got-want)) > 1e-15*math.Abs(float64(want)) {
			t.Errorf("%q in %v: %v, %v; want %v", text, unit, float64(got), err, float64(want))
		}
	}
	var unread *units.ParseError
	for _, text := range []string{"", "much", "1 furlong", "1e99"} {
		if got, err := units.ParseIn[T, P](text, unit); !errors.As(err, &unread) || got != 0 || unread.Text != text {
			t.Errorf("%q in %v: %v, %v", text, unit, float64(got), err)
		}
	}
}

func TestABareNumberIsCheckedLikeAnyOther(t *testing.T) {
	for text, unit := range map[string]units.Strength{"140": 1, "-1": 1, "5": 0, "6": units.Strength(math.NaN()), "7": units.Strength(math.Inf(1))} {
		var outside *units.RangeError
		if got, err := units.ParseIn(text, unit); !errors.As(err, &outside) || got != 0 {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"-500", "much", "1e300"} {
		if got, err := units.ParseTemperatureIn(text, units.Celsius); err == nil || got != 0 {
			t.Errorf("%q: %v", text, got)
		}
	}
}

func ExampleParseIn() {
	strength, err := units.ParseIn("40", units.PercentVol) // the form says: strength, % vol
	fmt.Println(strength, err)
	jar, err := units.ParseIn("1 1/2", units.USGallon)
	fmt.Println(jar, err)
	_, err = units.ParseIn("140", units.PercentVol)
	fmt.Println(err)
	// Output:
	// 40 % vol <nil>
	// 5.67812 L <nil>
	// strength 140 % vol is out of range: 0 to 100 % vol (as read from 140)
}

// What was read as a temperature is no bare number that was taken for kelvin, and a
// unit of nothing is named as what it is.
func TestMessagesOfTheFormNameWhatWasTyped(t *testing.T) {
	_, bare := units.ParseTemperatureIn("-300", units.Celsius)
	_, written := units.ParseTemperature("-300 C")
	_, unit := units.ParseIn("20", units.Strength(0))
	for want, err := range map[string]error{
		"temperature -300 C is out of range: at least -273 C (as read from -300)":     bare,
		`temperature -300 C is out of range: at least -273 C (as read from "-300 C")`: written,
		`the unit of "20" is 0: it must be above 0`:                                   unit,
	} {
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
	amount := 1e308
	if err := units.Scale(1000, &amount); err == nil || amount != 1e308 {
		t.Errorf("a thousand times 1e308 is %v", amount)
	}
}
