package spirit_test

import (
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/units"
)

// A label means what its basis says; each wording comes to the function that
// changes that basis.
func TestStrengthsOfLabels(t *testing.T) {
	us, err := spirit.FromUSProof(80)
	if err != nil {
		t.Fatal(err)
	}
	uk, err := spirit.FromBritishProof(70)
	if err != nil {
		t.Fatal(err)
	}
	mass, err := abv.ByVolume(33.3)
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]units.Strength{
		"40 % vol": 40, "40%": 40, "80 proof": us, "80 US proof": us, "70 degrees UK proof": uk, "70° UK proof": uk, "70 British proof": uk, "33.3 % mass": mass, "40 % vol at 20 C": 40,
	} {
		got, err := spirit.ParseStrength(text)
		if err != nil || math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	// Ethanol expands more than its mixture with water: warm, it fills a larger share.
	if got, err := spirit.ParseStrength("40 % vol at 15 C"); err != nil || !(got > 40.02 && got < 40.2) {
		t.Errorf("40 %% vol at 15 C: %v, %v", got, err)
	}
	for _, text := range []string{"", "strong", "40 % vol at noon", "40 % vol at 60 C", "200 degrees UK proof", "40 degrees"} {
		if got, err := spirit.ParseStrength(text); err == nil {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// A strength may be stated at 0 to 30 C.
func TestTemperaturesOfAStatedStrength(t *testing.T) {
	for text, good := range map[string]bool{"40 % vol at 0 C": true, "40 % vol at 30 C": true, "40 % vol at 30.2 C": false, "40 % vol at -0.5 C": false} {
		if s, err := spirit.ParseStrength(text); (err == nil) != good {
			t.Errorf("%s: %v, %v", text, s, err)
		}
	}
}
