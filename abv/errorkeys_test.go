package abv

import (
	"encoding/json"
	"errors"
	"regexp"
	"testing"
)

var snakeKey = regexp.MustCompile(`^[a-z0-9]+(_[a-z0-9]+)*$`)

// otherKeys are the keys of a JSON value that are not in snake case, at any depth.
func otherKeys(t *testing.T, text []byte) (out []string) {
	t.Helper()
	var v any
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			for key, below := range v {
				if !snakeKey.MatchString(key) {
					out = append(out, key)
				}
				walk(below)
			}
		case []any:
			for _, below := range v {
				walk(below)
			}
		}
	}
	walk(v)
	return out
}

// The JSON of an error has one kind of keys, those of the wine in it too.
func TestTheKeysOfANoWindowErrorAreInSnakeCase(t *testing.T) {
	_, err := StopWithin(1.050, Goal{MinStrength: 6, MinExtract: 90}, Must)
	var e *NoWindowError
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	text, err := json.Marshal(e)
	if other := otherKeys(t, text); err != nil || len(other) > 0 {
		t.Errorf("%v, %q: %s", err, other, text)
	}
}
