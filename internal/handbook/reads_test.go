package handbook

import (
	"errors"
	"strings"
	"testing"
)

// A loose type reads anything, and writes something longer.
type loose struct{ X float64 }

func (l *loose) UnmarshalText(text []byte) error {
	switch string(text) {
	case "none":
		return errors.New("")
	case "half":
		l.X = 1
		return errors.New("too late")
	default:
		l.X = float64(len(text))
	}
	return nil
}

func (l loose) MarshalText() ([]byte, error) { return []byte(strings.Repeat("x", int(l.X)+1)), nil }

func TestReadsTextFindsWhatIsLost(t *testing.T) {
	for text, faults := range map[string]int{"none": 1, "half": 1, "grows": 1} {
		f := &fake{}
		ReadsText(f, text, new(loose))
		if len(f.errors) != faults {
			t.Errorf("%q: %q", text, f.errors)
		}
	}
}

// A grows type is another one each time it is written.
type grows struct{ N int }

func (g grows) MarshalJSON() ([]byte, error) {
	return []byte(`{"N":` + strings.Repeat("1", g.N+1) + `}`), nil
}

func TestReadsJSONFindsWhatIsLost(t *testing.T) {
	for data, faults := range map[string]int{`{"N":1}`: 1, `{`: 0} {
		f := &fake{}
		ReadsJSON(f, []byte(data), grows{}, struct{ N int }{})
		if len(f.errors) != faults {
			t.Errorf("%s: %q", data, f.errors)
		}
	}
	f := &fake{}
	Parsed(f, "long", "x", nil, errors.New(strings.Repeat("x", 5000)))
	Parsed(f, "not zero", "x", 1.0, errors.New("no"))
	Parsed(f, "good", "x", 1.0, nil)
	if len(f.errors) != 2 {
		t.Errorf("%q", f.errors)
	}
}
