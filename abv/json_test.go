package abv_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/units"
)

// The formulas that do not hold say so on the other side of JSON too.
func TestComparisonsAndMissingWindowsComeBackFromJSON(t *testing.T) {
	c, err := abv.Compare(1.130, 1.000, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	c.Estimates[1].Err = units.Check("strength", 120, 0, 100, "% vol", "")
	text, err := json.Marshal(c)
	var back abv.Comparison
	if err != nil || json.Unmarshal(text, &back) != nil || len(back.Estimates) != len(c.Estimates) {
		t.Fatalf("%s, %v", text, err)
	}
	for i, e := range back.Estimates {
		if e.Strength != c.Estimates[i].Strength || (e.Err == nil) != (c.Estimates[i].Err == nil) {
			t.Errorf("%+v came back as %+v", c.Estimates[i], e)
		}
	}
	if json.Unmarshal([]byte(`{"Estimates":[{"Err":3}]}`), &back) == nil {
		t.Error("an error of 3 was read")
	}
	_, err = abv.StopWithin(1.050, abv.Goal{MinStrength: 6, MinExtract: 90}, abv.Must)
	var none *abv.NoWindowError
	if !errors.As(err, &none) {
		t.Fatal(err)
	}
	text, err = json.Marshal(none)
	var again abv.NoWindowError
	if err != nil || json.Unmarshal(text, &again) != nil || again != *none || !strings.Contains(string(text), `"message":"strength and`) {
		t.Errorf("%s, %v", text, err)
	}
}
