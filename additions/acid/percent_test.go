package acid

import (
	"errors"
	"testing"

	"example.org/mutage/units"
)

// Parts in per cent make 100 within the roundings of their digits; parts without
// the sign make any sum; the two are not mixed.
func TestPartsInPerCentMakeAHundred(t *testing.T) {
	for text, good := range map[string]bool{
		"50 % tartaric, 30 % malic, 20 % citric": true,
		"33 % tartaric, 33 % malic, 33 % citric": true, // each is 33.3
		"66.7 % tartaric, 33.3 % malic":          true,
		"100 % malic":                            true,
		"6 tartaric, 5 malic":                    true,
		"60 % tartaric, 50 % malic":              false,
		"66.7 % tartaric, 33.0 % malic":          false,
		"50 % tartaric, 30 % malic":              false,
		"80 % lactic":                            false, // the rest is water, which is no acid of the blend
	} {
		_, err := ParseBlend(text)
		var out *units.RangeError
		if (err == nil) != good || !good && (!errors.As(err, &out) || out.Of != text) {
			t.Errorf("%q: %v", text, err)
		}
	}
	var p *units.ParseError
	if _, err := ParseBlend("50 % tartaric, 50 malic"); !errors.As(err, &p) {
		t.Errorf("per cent and parts mixed: %v", err)
	}
}
