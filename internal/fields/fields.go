// Package fields reads a strict JSON object whose values are texts as people
// write them, into anything that has a Set method. It lists all faults with
// line and column, not the first.
package fields

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/mutage/units/uncertainty"
)

// A Field is one name of the object.
type Field struct {
	Name, Accepts string
	Into          Setter
	Number        *float64 // the same as a number, where limits may be stated behind ±; or nil
	List          bool     // an array of texts may stand, each is Set
	Required      bool
}

// Setter is what a field is read into.
type Setter interface{ Set(string) error }

// May is a field that may be left out. number is into as a number where limits
// may be stated behind it, else nil.
func May(name, accepts string, into Setter, number *float64) Field {
	return Field{Name: name, Accepts: accepts, Into: into, Number: number}
}

// Must is May for a field that must be there.
func Must(name, accepts string, into Setter, number *float64) Field {
	return Field{Name: name, Accepts: accepts, Into: into, Number: number, Required: true}
}

// Half are the limits stated behind ±, by field, in the base unit.
type Half map[string]float64

// Read reads content, named file in errors, into the fields. The error joins every fault, each with file,
// line, column, field, what was found and what is accepted.
func Read(file string, content []byte, fields []Field) (Half, error) {
	half := Half{}
	var faults []error
	fault := func(offset int64, format string, args ...any) {
		before := content[:min(int(offset), len(content))]
		line := bytes.Count(before, []byte("\n")) + 1
		column := len(before) - (bytes.LastIndexByte(before, '\n') + 1) + 1
		faults = append(faults, fmt.Errorf("%s:%d:%d: %s", file, line, column, fmt.Sprintf(format, args...)))
	}
	content = bytes.TrimPrefix(content, []byte("\ufeff"))
	dec := json.NewDecoder(bytes.NewReader(content))
	dec.UseNumber()
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		fault(dec.InputOffset(), "expected a JSON object { \"name\": ..., }")
		return nil, errors.Join(faults...)
	}
	var seen []string
	for dec.More() {
		key, err := dec.Token()
		at := start(content, dec.InputOffset(), key)
		if err != nil {
			fault(at, "%v", err)
			return nil, errors.Join(faults...)
		}
		var raw json.RawMessage
		if err := dec.Decode(&raw); err != nil {
			fault(dec.InputOffset(), "field %q: %v", key, err)
			return nil, errors.Join(faults...)
		}
		name := key.(string)
		i := slices.IndexFunc(fields, func(f Field) bool { return f.Name == name })
		switch {
		case i < 0:
			var known []string
			for _, f := range fields {
				known = append(known, f.Name)
			}
			fault(at, "no field %q; did you mean %q? The fields are: %s", name, Nearest(name, known), strings.Join(known, ", "))
			continue
		case slices.Contains(seen, name):
			fault(at, "field %q stands twice", name)
			continue
		}
		seen = append(seen, name)
		at = dec.InputOffset() - int64(len(raw))
		for _, err := range fields[i].set(raw, half) {
			fault(at, "field %q: %v; write it as: %s", name, err, fields[i].Accepts)
		}
	}
	if _, err := dec.Token(); err != nil {
		fault(dec.InputOffset(), "%v", err)
	} else if _, err := dec.Token(); err != io.EOF {
		fault(dec.InputOffset(), "something follows the closing brace")
	}
	for _, f := range fields {
		if f.Required && !slices.Contains(seen, f.Name) {
			fault(int64(len(content)), "field %q is missing; write it as: %s", f.Name, f.Accepts)
		}
	}
	return half, errors.Join(faults...)
}

// start is where a token that ends at offset begins.
func start(content []byte, end int64, token json.Token) int64 {
	if s, ok := token.(string); ok {
		if quoted, err := json.Marshal(s); err == nil {
			return max(0, end-int64(len(quoted)))
		}
	}
	return end
}

func (f Field) set(raw json.RawMessage, half Half) []error {
	var one string
	if json.Unmarshal(raw, &one) == nil {
		if f.Number == nil {
			return errs(f.Into.Set(one))
		}
		read := func(text string) (float64, error) { err := f.Into.Set(text); return *f.Number, err }
		value, limit, err := uncertainty.Within(read, f.Name, one)
		if err != nil {
			return []error{err}
		}
		if *f.Number = value; limit > 0 {
			half[f.Name] = limit
		}
		return nil
	}
	var many []string
	if !f.List || json.Unmarshal(raw, &many) != nil {
		return []error{fmt.Errorf("found %.40s, expected text in quotation marks", raw)}
	}
	var out []error
	for _, s := range many {
		out = append(out, errs(f.Into.Set(s))...)
	}
	return out
}

func errs(err error) []error {
	if err == nil {
		return nil
	}
	return []error{err}
}
