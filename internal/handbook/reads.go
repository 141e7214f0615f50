package handbook

import (
	"encoding"
	"encoding/json"
	"reflect"
	"testing"
)

// longestError is what a page can show; a text however long is not repeated whole
// many times.
const longestError = 4000

// Parsed holds what a parser gave for a text: a finite value, or the zero value with
// an error that has words, and not too many.
func Parsed(t testing.TB, name, text string, value any, err error) {
	t.Helper()
	if err == nil {
		Finite(t, name, value)
		return
	}
	if n := len(err.Error()); n == 0 || n > longestError+4*len(text) || value != nil && !reflect.ValueOf(value).IsZero() {
		t.Errorf("%s of %q: %v with an error of %d bytes", name, text, value, n)
	}
}

// ReadsText reads a text into a new value of the type of each of these pointers. What
// is read is finite, is written again, and what is read of that is written the same.
func ReadsText(t testing.TB, text string, like ...encoding.TextUnmarshaler) {
	t.Helper()
	for _, p := range like {
		read := func(text []byte) (reflect.Value, error) {
			v := reflect.New(reflect.TypeOf(p).Elem())
			return v, v.Interface().(encoding.TextUnmarshaler).UnmarshalText(text)
		}
		name := reflect.TypeOf(p).Elem().String()
		v, err := read([]byte(text))
		Parsed(t, name, text, v.Elem().Interface(), err)
		if err != nil {
			continue
		}
		written, err := v.Interface().(encoding.TextMarshaler).MarshalText()
		if err != nil {
			t.Errorf("%s of %q: not written: %v", name, text, err)
			continue
		}
		back, err := read(written)
		if err != nil {
			t.Errorf("%s of %q is written %q, which is not read: %v", name, text, written, err)
			continue
		}
		if again, err := back.Interface().(encoding.TextMarshaler).MarshalText(); err != nil || string(again) != string(written) {
			t.Errorf("%s of %q is written %q, and read again %q, %v", name, text, written, again, err)
		}
	}
}

// JSON is x written.
func JSON(t testing.TB, x any) []byte {
	t.Helper()
	data, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// ReadsJSON reads bytes as JSON into a new value of the type of each of these. What is
// read is finite, is written again, and what is read of that is written the same.
func ReadsJSON(t testing.TB, data []byte, like ...any) {
	t.Helper()
	for _, x := range like {
		name := reflect.TypeOf(x).String()
		v := reflect.New(reflect.TypeOf(x))
		if err := json.Unmarshal(data, v.Interface()); err != nil {
			if err.Error() == "" {
				t.Errorf("%s of %q: an error without words", name, data)
			}
			continue
		}
		if _, isError := v.Interface().(error); !isError { // of a number out of range, which may have no end
			Finite(t, name, v.Interface())
		}
		written, err := json.Marshal(v.Interface())
		if err != nil {
			t.Errorf("%s of %q: not written: %v", name, data, err)
			continue
		}
		back := reflect.New(reflect.TypeOf(x))
		if err := json.Unmarshal(written, back.Interface()); err != nil {
			t.Errorf("%s of %q is written %s, which is not read: %v", name, data, written, err)
			continue
		}
		if again, err := json.Marshal(back.Interface()); err != nil || string(again) != string(written) {
			t.Errorf("%s of %q is written %s, and read again %s, %v", name, data, written, again, err)
		}
	}
}
