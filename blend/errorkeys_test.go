package blend

import (
	"encoding/json"
	"errors"
	"testing"

	"example.org/mutage/internal/handbook"
)

// The JSON of an error has one kind of keys, those of the blend in it too.
func TestTheKeysOfAnUnreachableErrorAreInSnakeCase(t *testing.T) {
	_, err := Fortify(Component{Name: "wine", Volume: 3, Strength: 6, Extract: 142}, Component{Name: "spirit", Volume: 1, Strength: 40}, 20)
	var e *UnreachableError
	if !errors.As(err, &e) || len(e.Changes) == 0 {
		t.Fatal(err)
	}
	text, err := json.Marshal(e)
	if other := handbook.OtherKeys(t, text); err != nil || len(other) > 0 {
		t.Errorf("%v, %q: %s", err, other, text)
	}
}
