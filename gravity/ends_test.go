package gravity_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Scales are read as far as the densest sugar solution, of gravity 1.3499, and points
// down to 0.98104, of what a wine can show.
func TestEndsOfWhatIsRead(t *testing.T) {
	for text, good := range map[string]bool{
		"349.8 Oe": true, "350.1 Oe": false, "0 Oe": true, "-0.1 Oe": false,
		"349.8 points": true, "350.1 points": false, "-18.9 points": true, "-19.1 points": false,
	} {
		if g, err := gravity.Parse(text); (err == nil) != good {
			t.Errorf("%s: %v, %v", text, float64(g), err)
		}
	}
	var o gravity.Oechsle
	for text, good := range map[string]bool{"349.8 Oe": true, "350.1 Oe": false} {
		if err := o.Set(text); (err == nil) != good {
			t.Errorf("%s: %v, %v", text, float64(o), err)
		}
	}
	var p gravity.Points
	for text, good := range map[string]bool{"349.8 points": true, "350.1 points": false, "-18.9 points": true, "-19.1 points": false} {
		if err := p.Set(text); (err == nil) != good {
			t.Errorf("%s: %v, %v", text, float64(p), err)
		}
	}
}

// Gravities that people write stand without an exponent, others with one.
func TestGravitiesAsText(t *testing.T) {
	for g, want := range map[gravity.SG]string{1.05: "1.05", 0.7: "0.7", 0.992: "0.992", 0.69: "6.9e-01", 1e-7: "1e-07", 25: "2.5e+01"} {
		if text, err := g.MarshalText(); err != nil || string(text) != want {
			t.Errorf("%v: %s, %v, expected %s", float64(g), text, err, want)
		}
	}
}

// The reference water of a hydrometer is at most 2 kg/m3 above that at 20 C: at 4 C
// it is 1.77 above.
func TestReferenceWaterOfAHydrometer(t *testing.T) {
	for above, good := range map[float64]bool{1.77: true, 1.99: true, 2.01: false} {
		var h gravity.Hydrometer
		if err := json.Unmarshal([]byte(fmt.Sprintf(`{"reference_water_above_20_c":%v}`, above)), &h); (err == nil) != good {
			t.Errorf("%v kg/m3: %v", above, err)
		}
	}
}

// A hydrometer floats in 0 to 100 % vol.
func TestStrengthsUnderAHydrometer(t *testing.T) {
	h := gravity.NewHydrometer(units.Celsius(20))
	for strength, good := range map[units.Strength]bool{0: true, 100: true, 100.5: false, -0.1: false} {
		g, err := h.Shows(strength, 0, units.Celsius(15))
		var outside *units.RangeError
		if errors.As(err, &outside) == good || !good && outside.Max != 100 {
			t.Errorf("%v %% vol: %v, %v", float64(strength), float64(g), err)
		}
	}
}
