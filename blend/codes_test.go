package blend_test

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"example.org/mutage/blend"
)

// A program on the other side of JSON sees codes, not numbers of constants.
func TestCodesOfABlend(t *testing.T) {
	type all struct {
		Limit  blend.Limit
		Solute blend.Solute
		Set    blend.Solutes
		Want   blend.Want
	}
	in := all{blend.LimitVessel, blend.Sulfite, blend.Set(blend.Acid, blend.Potassium), blend.WantStrength(20)}
	text, err := json.Marshal(in)
	want := `{"Limit":"vessel","Solute":"total_so2","Set":"titratable_acidity potassium","Want":{"quantity":"strength","value":20,"unit":"% vol","component":0}}`
	if err != nil || string(text) != want {
		t.Errorf("%s, %v", text, err)
	}
	var out all
	if err := json.Unmarshal(text, &out); err != nil || out != in {
		t.Errorf("%+v, %v", out, err)
	}
	for _, bad := range []string{`{"Limit":"jar"}`, `{"Solute":"salt"}`, `{"Set":"salt"}`, `{"Want":{"quantity":"taste"}}`, `{"Want":3}`} {
		if err := json.Unmarshal([]byte(bad), &out); err == nil || out != in {
			t.Errorf("%s: %+v, %v", bad, out, err)
		}
	}
	for _, bad := range []any{blend.Limit(9), blend.Solute(-1)} {
		if text, err := json.Marshal(bad); err == nil {
			t.Errorf("%v is written as %s", bad, text)
		}
	}
}

// A service can answer with what is not reachable: every blend, every open end.
func TestUnreachableErrorsComeBackFromJSON(t *testing.T) {
	base, spirit := blend.Component{Name: "wine", Volume: 3, Strength: 5, Extract: 100}, blend.Component{Name: "spirit", Volume: 0.5, Strength: 38}
	_, err := blend.Solve(0, []blend.Component{base, spirit}, blend.WantAll(0), blend.WantStrength(50))
	var e *blend.UnreachableError
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	for _, e := range []*blend.UnreachableError{e, {}, {Low: math.Inf(-1), High: math.Inf(1)}} {
		text, err := json.Marshal(e)
		var back blend.UnreachableError
		if err != nil || json.Unmarshal(text, &back) != nil || !strings.Contains(string(text), `"message"`) {
			t.Fatalf("%s, %v", text, err)
		}
		if math.IsInf(e.High, 0) {
			e.Low, e.High = 0, 0 // left out
		}
		if !reflect.DeepEqual(&back, e) {
			t.Errorf("%+v came back as %+v", e, back)
		}
	}
	if err := json.Unmarshal([]byte("3"), e); err == nil {
		t.Error("3 was read")
	}
}
