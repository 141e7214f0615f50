package fault_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"example.org/mutage/internal/fault"
	"example.org/mutage/units"
)

// An error says in another process what it said here, and is of the same type.
func TestErrorsSayTheSameAfterJSON(t *testing.T) {
	_, unread := units.ParseVolume("3 furlongs")
	outside := units.Check("strength", 120, 0, 100, "% vol", "")
	for _, err := range []error{nil, unread, outside, errors.New("plain"), fmt.Errorf("%q: %w", "base", outside)} {
		text, fail := json.Marshal(fault.Cause{Err: err})
		var back fault.Cause
		if fail != nil || json.Unmarshal(text, &back) != nil || fmt.Sprint(back.Err) != fmt.Sprint(err) {
			t.Errorf("%v is written as %s, %v, and comes back as %v", err, text, fail, back.Err)
		}
		if err == unread && !errors.As(back.Err, new(*units.ParseError)) || err == outside && !errors.As(back.Err, new(*units.RangeError)) {
			t.Errorf("%v comes back as a %T", err, back.Err)
		}
	}
	var c fault.Cause
	for _, text := range []string{`3`, `{"key":3}`, `{"key":"x","value":"y"}`, `{"text":"x","offset":"y"}`} {
		if err := json.Unmarshal([]byte(text), &c); err == nil {
			t.Errorf("%s was read as %v", text, c.Err)
		}
	}
}
