package fault

import (
	"encoding/json"
	"errors"
	"testing"

	"example.org/mutage/units"
)

// Joined errors are found by their types and written each with its own fields; without
// one there is none.
func TestJoinedErrorsHaveAForm(t *testing.T) {
	if Join(nil, nil) != nil {
		t.Error("no errors make one")
	}
	plain := errors.New("empty jar")
	err := Join(units.Check("strength", 120, 0, 100, "% vol", ""), nil, plain)
	var out *units.RangeError
	if !errors.As(err, &out) || !errors.Is(err, plain) || err.Error() != errors.Join(out, plain).Error() {
		t.Errorf("%v", err)
	}
	text, failed := json.Marshal(map[string]any{"error": err})
	var back struct {
		Error struct {
			Message string
			Causes  []struct{ Key, Message string }
		}
	}
	if failed != nil || json.Unmarshal(text, &back) != nil || back.Error.Message != err.Error() || len(back.Error.Causes) != 2 ||
		back.Error.Causes[0].Key != "strength" || back.Error.Causes[1].Message != "empty jar" {
		t.Errorf("%s, %v", text, failed)
	}
}
