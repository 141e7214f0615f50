package main

import (
	"fmt"
	"io"
	"math"
	"reflect"
	"strings"
)

var floats = []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), -1, 5e-324, 1e-9, 1e300, math.MaxFloat64, -math.MaxFloat64,
	0.5, 1.05, 1.36, 3.4, 5, 12, 95, 950}

var texts = []string{"3 L", "", "NaN", "Inf", "-1 L", "1e308 L", "1e999999999 L", "\x00", strings.Repeat("9", 5000), "20 % vol", "80 proof", "16 % mass",
	"5 g", "50 mg/L", "998 kg/m3", "18 C", "1 bar", "1.05", "must", "US", "EU"}

// sane is a value that a cellar knows, for types whose 1 is not; the first of
// all arguments of a type.
var sane = map[string]float64{
	"units.Volume": 3, "units.Mass": 100, "units.Density": 1000, "units.Concentration": 50, "units.Strength": 20, "units.MassPercent": 16,
	"units.Temperature": 293.15, "units.Pressure": 100, "gravity.SG": 1.05, "gravity.Plato": 12, "gravity.Brix": 12, "gravity.Oechsle": 50, "gravity.Baume": 7,
}

// saneField is the same for fields of which the type does not tell enough.
var saneField = map[string]float64{
	"OG": 1.092, "Stop": 1.046, "Lees": 0.1, "Headspace": 0.05, "PH": 3.4, "EndPoint": 8.2, "TA": 6, "Tolerance": 16,
	"FreeSO2": 0.03, "Sulfite": 0.05, "Sorbate": 0.2, "CO2": 1, "Unknown": 0,
}

// pool holds exported constants and variables and what functions returned, by
// type: values that cannot be made from exported fields, and names.
var pool = map[reflect.Type][]reflect.Value{}

const specimensEach = 4

// harvest keeps structs.
func harvest(v reflect.Value) {
	if t := v.Type(); t.Kind() == reflect.Struct && len(pool[t]) < specimensEach {
		pool[t] = append(pool[t], v)
	}
}

// arguments are values of a type, the first of them sane where there is one.
// None means that there is no way to make one.
func arguments(t reflect.Type, depth int) (out []reflect.Value) {
	if depth > 3 {
		return []reflect.Value{reflect.Zero(t)}
	}
	add := func(x any) { out = append(out, reflect.ValueOf(x).Convert(t)) }
	switch t.Kind() {
	case reflect.Float64, reflect.Float32:
		if s, known := sane[t.String()]; known {
			add(s)
		}
		add(1.0)
		for _, x := range floats {
			add(x)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		most := int64(1)<<(t.Bits()-1) - 1
		for _, i := range []int64{1, 0, -1, 2, 9, 100, most, -most - 1} {
			add(i)
		}
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		for _, i := range []uint64{1, 0, 2, 255, math.MaxUint64} {
			add(i)
		}
	case reflect.Bool:
		add(false)
		add(true)
	case reflect.String:
		out = append(out, pool[t]...)
		for _, s := range texts {
			add(s)
		}
	case reflect.Struct:
		out = append(structs(t, depth), pool[t]...)
	case reflect.Pointer:
		for _, v := range arguments(t.Elem(), depth) {
			p := reflect.New(t.Elem())
			p.Elem().Set(v)
			out = append(out, p)
		}
	case reflect.Slice:
		out = lists(t, depth)
	case reflect.Map:
		out = maps(t, depth)
	case reflect.Func:
		for _, x := range []float64{1, math.NaN(), math.Inf(1)} {
			out = append(out, constant(t, x))
		}
	case reflect.Interface:
		if t != reflect.TypeFor[io.Reader]() {
			return []reflect.Value{reflect.Zero(t)} // as for a correlation that is not known
		}
		for _, s := range texts {
			out = append(out, reflect.ValueOf(strings.NewReader(s)))
		}
	}
	return out
}

// maps are none, an empty one, and those of one entry.
func maps(t reflect.Type, depth int) []reflect.Value {
	out := []reflect.Value{reflect.Zero(t), reflect.MakeMap(t)}
	for _, k := range arguments(t.Key(), depth+1) {
		if !k.Comparable() {
			continue
		}
		for _, v := range arguments(t.Elem(), depth+1) {
			m := reflect.MakeMap(t)
			m.SetMapIndex(k, v)
			out = append(out, m)
		}
	}
	return out
}

// structs are a sane one (from the pool where it has fields of its own, with
// all fields sane elsewhere), the zero one, and the first with each exported
// field in turn at each of its values.
func structs(t reflect.Type, depth int) []reflect.Value {
	base := reflect.New(t).Elem()
	open := true
	for i := range t.NumField() {
		if !t.Field(i).IsExported() {
			open = false
		} else if x, known := saneField[t.Field(i).Name]; known && base.Field(i).CanConvert(reflect.TypeFor[float64]()) {
			base.Field(i).Set(reflect.ValueOf(x).Convert(t.Field(i).Type))
		} else if c := arguments(t.Field(i).Type, depth+1); len(c) > 0 {
			base.Field(i).Set(c[0])
		}
	}
	if known := pool[t]; !open && len(known) > 0 {
		base.Set(known[0])
	}
	out := []reflect.Value{base, reflect.Zero(t)}
	for i := range t.NumField() {
		if !t.Field(i).IsExported() {
			continue
		}
		for _, c := range arguments(t.Field(i).Type, depth+1) {
			v := reflect.New(t).Elem()
			v.Set(base)
			v.Field(i).Set(c)
			out = append(out, v)
		}
	}
	return out
}

// lists are a sane one, nil, each element alone, and each after a sane one.
func lists(t reflect.Type, depth int) []reflect.Value {
	if t.Elem().Kind() == reflect.Uint8 {
		var out []reflect.Value
		for _, s := range texts {
			out = append(out, reflect.ValueOf([]byte(s)).Convert(t))
		}
		return out
	}
	elements := arguments(t.Elem(), depth+1)
	if len(elements) == 0 {
		return nil
	}
	of := func(v ...reflect.Value) reflect.Value { return reflect.Append(reflect.Zero(t), v...) }
	out := []reflect.Value{of(elements[0], elements[0]), reflect.Zero(t)}
	for _, e := range elements {
		out = append(out, of(e), of(elements[0], e))
	}
	return out
}

// constant is a function that gives x for every number and zero for the rest.
func constant(t reflect.Type, x float64) reflect.Value {
	return reflect.MakeFunc(t, func([]reflect.Value) []reflect.Value {
		var results []reflect.Value
		for i := range t.NumOut() {
			r := reflect.New(t.Out(i)).Elem()
			if r.CanFloat() {
				r.SetFloat(x)
			}
			results = append(results, r)
		}
		return results
	})
}

// fresh is a copy of what a call may write to.
func fresh(v reflect.Value) reflect.Value {
	switch {
	case v.Kind() == reflect.Pointer && !v.IsNil():
		p := reflect.New(v.Type().Elem())
		p.Elem().Set(v.Elem())
		return p
	case v.Kind() == reflect.Slice && !v.IsNil():
		return reflect.AppendSlice(reflect.Zero(v.Type()), v)
	}
	return v
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// ordinary is a number that a cellar may meet.
func ordinary(x float64) bool { return math.Abs(x) > 1e-12 && math.Abs(x) < 1e12 }

// odd finds a number that is not as it should be: in what a caller can see, or
// with hidden in all of it.
func odd(v reflect.Value, is func(float64) bool, hidden bool) (where string, found bool) {
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		return fmt.Sprint(v.Float()), !is(v.Float())
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() || hidden {
				if where, found := odd(v.Field(i), is, hidden); found {
					return f.Name + " " + where, true
				}
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where, found := odd(v.Index(i), is, hidden); found {
				return fmt.Sprintf("[%d] %s", i, where), true
			}
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return odd(v.Elem(), is, hidden)
		}
	}
	return "", false
}

// spell is the arguments, structs with the names of their fields.
func spell(args []reflect.Value) string {
	var out []string
	for _, a := range args {
		for a.Kind() == reflect.Pointer && !a.IsNil() {
			a = a.Elem()
		}
		out = append(out, fmt.Sprintf("%.400s", fmt.Sprintf("%#v", a.Interface())))
	}
	return strings.Join(out, ", ")
}
