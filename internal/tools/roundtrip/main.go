// Command roundtrip fills a value of each type with random finite contents and
// valid codes, writes it as JSON, reads that back and compares, and prints one
// JSON line for each type that cannot be written or comes back changed. A
// generated file, laid over this package when it is built, says which types (see
// roundtrip_test.go).
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
)

// A kind is a type; what is rounded where it is printed is not compared.
type kind struct {
	reflect.Type
	rounded bool
}

// The generated file fills these. Constants are the exported ones of named types.
var (
	types     []kind
	constants []any
)

// A finding is what is wrong with a type, with the JSON that shows it.
type finding struct{ Type, Fault, JSON string }

const trials = 200

func main() {
	for _, c := range constants {
		t := reflect.TypeOf(c)
		codes[t] = append(codes[t], reflect.ValueOf(c))
	}
	print := json.NewEncoder(os.Stdout)
	for _, t := range types {
		for i := range trials {
			if f, wrong := try(t, i == 0); wrong {
				f.Type = t.String()
				_ = print.Encode(f)
				break
			}
		}
	}
	fmt.Fprintf(os.Stderr, "%d types\n", len(types))
}

// try writes and reads one value: the zero one, or one filled at random.
func try(t kind, zero bool) (f finding, wrong bool) {
	in := reflect.New(t.Type)
	if !zero {
		if err := fill(in.Elem(), 0); err != nil {
			return finding{Fault: err.Error()}, true
		}
	}
	written, err := json.Marshal(in.Interface())
	if err != nil {
		return finding{Fault: fmt.Sprintf("%.600s: not written: %v", fmt.Sprintf("%+v", in.Interface()), err)}, true
	}
	out := reflect.New(t.Type)
	if err := json.Unmarshal(written, out.Interface()); err != nil {
		return finding{Fault: "not read: " + err.Error(), JSON: string(written)}, true
	}
	if where, differ := compare(in.Elem(), out.Elem()); differ && !t.rounded {
		return finding{Fault: "comes back changed: " + where, JSON: string(written)}, true
	}
	return finding{}, false
}
