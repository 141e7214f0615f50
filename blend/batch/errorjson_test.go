package batch

import (
	"encoding/json"
	"errors"
	"testing"

	"example.org/mutage/units"
)

func TestAFaultOfAFileComesBackFromJSON(t *testing.T) {
	e := FileError{"cherry.json", 3, 14, "must", units.Check("volume", -1, 0, 10, "L", "")}
	text, err := json.Marshal(&e)
	var back FileError
	if err != nil || json.Unmarshal(text, &back) != nil || back.Error() != e.Error() {
		t.Errorf("%s, %v, came back as %v", text, err, &back)
	}
}

func TestAConflictComesBackFromJSONWithItsSentence(t *testing.T) {
	var e *ConflictError
	if _, err := (Batch{}).Work(); !errors.As(err, &e) {
		t.Fatal(err)
	}
	text, err := json.Marshal(e)
	want := `{"fields":["must","wine"],"why":"one of them is needed: how much is there?","message":"must and wine: one of them is needed: how much is there?"}`
	if err != nil || string(text) != want {
		t.Errorf("%s, %v; want %s", text, err, want)
	}
	var back ConflictError
	if err := json.Unmarshal(text, &back); err != nil || back.Error() != e.Error() {
		t.Errorf("came back as %v, %v", &back, err)
	}
}

func TestFieldsThatConflictAreListedAsASentenceDoes(t *testing.T) {
	for want, names := range map[string][]string{"must: why": {"must"}, "must and wine: why": {"must", "wine"}, "must, wine and ph: why": {"must", "wine", "ph"}} {
		if got := (&ConflictError{names, "why"}).Error(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
