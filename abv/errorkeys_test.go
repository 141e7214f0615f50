package abv

import (
	"encoding/json"
	"errors"
	"testing"

	"example.org/mutage/internal/handbook"
)

// The JSON of an error has one kind of keys, those of the wine in it too.
func TestTheKeysOfANoWindowErrorAreInSnakeCase(t *testing.T) {
	_, err := StopWithin(1.050, Goal{MinStrength: 6, MinExtract: 90}, Must)
	var e *NoWindowError
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	text, err := json.Marshal(e)
	if other := handbook.OtherKeys(t, text); err != nil || len(other) > 0 {
		t.Errorf("%v, %q: %s", err, other, text)
	}
}
