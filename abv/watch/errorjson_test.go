package watch

import (
	"encoding/json"
	"errors"
	"testing"

	"example.org/mutage/units"
)

func TestFaultsOfALogComeBackFromJSON(t *testing.T) {
	cause := units.Check("gravity", 2, 0.97, 1.35, "", "")
	line := LineError{Line: 3, Err: cause}
	text, err := json.Marshal(&line)
	var back LineError
	if err != nil || json.Unmarshal(text, &back) != nil || back.Error() != line.Error() || !errors.As(&back, new(*units.RangeError)) {
		t.Errorf("%s, %v, came back as %v", text, err, &back)
	}
	if json.Unmarshal([]byte("3"), &back) == nil {
		t.Error("3 was read")
	}
}
