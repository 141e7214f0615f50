package handbook

import (
	"encoding/json"
	"regexp"
	"testing"
)

var snakeKey = regexp.MustCompile(`^[a-z0-9]+(_[a-z0-9]+)*$`)

// OtherKeys are the keys of a JSON value that are not in snake case, at any depth.
func OtherKeys(t testing.TB, text []byte) (out []string) {
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
