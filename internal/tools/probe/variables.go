package main

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"io"
	"math/rand/v2"
	"os"
	"reflect"
	"time"
)

// A variable is an exported one of the library that holds data.
type variable struct {
	name    string
	pointer any
}

// The generated file fills it.
var variables []variable

// changed calls every function with the same arguments before and after each
// exported variable was changed, and prints a finding where the results differ:
// what one importer changes must not change the library for another.
func changed() {
	calls := make([]int, len(functions))
	before := make([]uint64, len(functions))
	for i, f := range functions {
		calls[i], before[i] = results(f, 0)
	}
	print := json.NewEncoder(os.Stdout)
	for i, f := range functions { // what differs by itself tells nothing
		if _, again := results(f, calls[i]); again != before[i] || changesNumbers(f) {
			fmt.Fprintf(os.Stderr, "not the same twice: %s\n", f.name)
			calls[i] = 0
		}
	}
	var undo []func()
	for _, v := range variables {
		undo = append(undo, change(reflect.ValueOf(v.pointer).Elem()))
	}
	var differ []int
	for i, f := range functions {
		if calls[i] > 0 {
			if _, after := results(f, calls[i]); after != before[i] {
				differ = append(differ, i)
			}
		}
	}
	for _, back := range undo {
		back()
	}
	for _, i := range differ { // one at a time, to name it
		for _, v := range variables {
			back := change(reflect.ValueOf(v.pointer).Elem())
			if _, after := results(functions[i], calls[i]); after != before[i] {
				_ = print.Encode(finding{functions[i].name, "changed", v.name, "another result after " + v.name + " was changed"})
			}
			back()
		}
	}
	fmt.Fprintf(os.Stderr, "%d variables, %d functions\n", len(variables), len(functions))
}

// changesNumbers says whether a function is given numbers to change: each call finds
// what the last one left.
func changesNumbers(f function) bool {
	t := reflect.TypeOf(f.f)
	return t.IsVariadic() && t.In(t.NumIn()-1).Elem() == reflect.TypeFor[*float64]()
}

const (
	mostCalls     = 150
	shortPatience = 25 * time.Millisecond
)

// results is a sum of what a function gives for so many calls with arguments that
// are the same each time; 0 is as many as a short time allows.
func results(f function, most int) (calls int, sum uint64) {
	do := reflect.ValueOf(f.f)
	t := do.Type()
	random := rand.New(rand.NewPCG(5, 6))
	hash := fnv.New64()
	began := time.Now()
	for calls < mostCalls && (most == 0 && time.Since(began) < shortPatience || calls < most) {
		args := make([]reflect.Value, t.NumIn())
		for i := range args {
			choices := sameArguments(t.In(i))
			if len(choices) == 0 {
				return 0, 0
			}
			k := 0
			if random.IntN(2) == 0 {
				k = random.IntN(len(choices))
			}
			args[i] = fresh(choices[k])
		}
		calls++
		call(do, args, hash)
	}
	return calls, hash.Sum64()
}

// arguments once for each type: they must not follow the variables.
var made = map[reflect.Type][]reflect.Value{}

func sameArguments(t reflect.Type) []reflect.Value {
	if _, ok := made[t]; !ok {
		made[t] = arguments(t, 0)
	}
	return made[t]
}

func call(do reflect.Value, args []reflect.Value, out io.Writer) {
	defer func() { _ = recover() }() // TestDomains reports it
	var got []reflect.Value
	if do.Type().IsVariadic() {
		got = do.CallSlice(args)
	} else {
		got = do.Call(args)
	}
	for _, v := range got {
		show(v, out)
	}
}

// show writes a value without addresses.
func show(v reflect.Value, out io.Writer) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			fmt.Fprint(out, "nil;")
			return
		}
		if e, ok := v.Interface().(error); ok {
			fmt.Fprint(out, e.Error(), ";")
			return
		}
		show(v.Elem(), out)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				show(v.Field(i), out)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			show(v.Index(i), out)
		}
	case reflect.Map:
		fmt.Fprint(out, v.Len(), ";") // without an order
	case reflect.Func, reflect.Chan:
	default:
		fmt.Fprint(out, v.Interface(), ";")
	}
}

// change makes every number of a variable a tenth larger and every text another,
// and returns what puts it back.
func change(v reflect.Value) (undo func()) {
	old := reflect.New(v.Type()).Elem()
	old.Set(v)
	alter(v)
	return func() { v.Set(old) }
}

func alter(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(1.1*v.Float() + 0.01)
	case reflect.String:
		v.SetString(v.String() + "!")
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Struct:
		if v.CanAddr() && v.Type().PkgPath() == "github.com/shopspring/decimal" {
			v.Set(reflect.Zero(v.Type()))
			return
		}
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				alter(v.Field(i))
			}
		}
	}
}
