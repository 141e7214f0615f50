package main

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"reflect"
	"testing"
)

// readies take the arguments of a function out of reflect, so that calling what they
// give costs what a plain call costs. The generated file fills it.
var readies map[string]func(args []reflect.Value) func()

// as is an argument as what it is; a nil interface has none.
//
//lint:ignore U1000 the generated file calls it
func as[T any](v reflect.Value) T {
	x, _ := v.Interface().(T)
	return x
}

// An allocation is how often a call with sane arguments allocates.
type allocation struct {
	Function    string
	Allocations int
}

// allocations prints one for each function that some arguments please.
func allocations() {
	probe(300)
	print := json.NewEncoder(os.Stdout)
	for _, f := range functions {
		if ready := readies[f.name]; ready != nil {
			if args, ok := pleased(f); ok {
				_ = print.Encode(allocation{f.name, int(testing.AllocsPerRun(20, ready(args)))})
			}
		}
	}
}

// pleased looks for arguments that give no error: the sane ones, else some.
func pleased(f function) (args []reflect.Value, ok bool) {
	p := &probing{function: f, do: reflect.ValueOf(f.f)}
	t := p.do.Type()
	var choices [][]reflect.Value
	for i := range t.NumIn() {
		choices = append(choices, sameArguments(t.In(i)))
		if len(choices[i]) == 0 {
			return nil, false
		}
	}
	random := rand.New(rand.NewPCG(7, 8))
	at := make([]int, len(choices))
	for range 4000 {
		if p.call(choices, at) {
			return *p.last.Load(), true
		}
		for i := range at {
			at[i] = random.IntN(len(choices[i])) * random.IntN(2)
		}
	}
	return nil, false
}
