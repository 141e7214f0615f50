package main

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"time"

	"example.org/mutage/additions/acid"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"github.com/shopspring/decimal"
)

var random = rand.New(rand.NewPCG(3, 7))

// codes are the values of the enumerations.
var codes = map[reflect.Type][]reflect.Value{}

// makers make values that have no exported fields to fill.
var makers = map[reflect.Type]func() any{
	reflect.TypeFor[decimal.Decimal](): func() any { return decimal.New(random.Int64N(2e9)-1e9, int32(random.IntN(12)-9)) },
	reflect.TypeFor[decimal.NullDecimal](): func() any {
		return []decimal.NullDecimal{{}, decimal.NewNullDecimal(decimal.New(random.Int64N(2e9)-1e9, int32(random.IntN(12)-9)))}[random.IntN(2)]
	},
	reflect.TypeFor[acid.Buffer](): func() any {
		some := func(most float64) units.Concentration { return units.Concentration(most * random.Float64()) }
		b, err := acid.NewBuffer(acid.Acids{Tartaric: some(5), Malic: some(5), Acetic: some(1)}, some(2), units.Strength(some(20)))
		if err != nil {
			panic(err)
		}
		return b
	},
	reflect.TypeFor[time.Time](): func() any { return time.Unix(random.Int64N(4e9), 0).UTC() },
	reflect.TypeFor[gravity.Hydrometer](): func() any {
		return gravity.NewHydrometer(units.Celsius(10+20*random.Float64())).WithWater(units.Celsius(4)).WithGlass(3e-4*random.Float64()).WithMeniscus(0.001).
			WithTests(gravity.TestReading{Shown: 1.002, True: 1}, gravity.TestReading{Shown: 1.101, True: 1.1})
	},
	reflect.TypeFor[gravity.Refractometer](): func() any { return gravity.NewRefractometer().WithZero(gravity.Brix(2*random.Float64() - 1)) },
	reflect.TypeFor[blend.Want](): func() any {
		return []blend.Want{{}, blend.WantStrength(units.Strength(number())), blend.WantExtract(units.Concentration(number())), blend.WantAcid(5), blend.WantAll(random.IntN(9))}[random.IntN(5)]
	},
}

// number is any finite one: of the cellar, or any bits at all.
func number() float64 {
	switch random.IntN(4) {
	case 0:
		return []float64{0, 1, -1, 20, 1.05, 1050, -4e-16, 5e-324, 1e21, math.MaxFloat64, -math.MaxFloat64}[random.IntN(11)]
	case 1:
		if x := math.Float64frombits(random.Uint64()); !math.IsNaN(x) && !math.IsInf(x, 0) {
			return x
		}
	}
	return (random.Float64() - 0.3) * math.Pow(10, float64(random.IntN(6)-2))
}

func fill(v reflect.Value, depth int) error {
	t := v.Type()
	if make, ok := makers[t]; ok {
		v.Set(reflect.ValueOf(make()))
		return nil
	}
	if values := codes[t]; len(values) > 0 && t.Kind() != reflect.Float64 {
		v.Set(values[random.IntN(len(values))])
		return nil
	}
	switch t.Kind() {
	case reflect.Float64:
		v.SetFloat(number())
	case reflect.Int, reflect.Int8, reflect.Int32, reflect.Int64:
		v.SetInt(random.Int64N(200) - 100)
	case reflect.Uint8:
		v.SetUint(random.Uint64N(16))
	case reflect.Bool:
		v.SetBool(random.IntN(2) == 0)
	case reflect.String:
		v.SetString([]string{"", "morello \"cherry\"", "± 5 % vol <Oe>\n", "a_b"}[random.IntN(4)])
	case reflect.Struct:
		return fillStruct(v, depth)
	case reflect.Array:
		for i := range v.Len() {
			if err := fill(v.Index(i), depth+1); err != nil {
				return err
			}
		}
	case reflect.Slice:
		for range min(random.IntN(3), 4-depth) {
			e := reflect.New(t.Elem()).Elem()
			if err := fill(e, depth+1); err != nil {
				return err
			}
			v.Set(reflect.Append(v, e))
		}
	case reflect.Map:
		return fillMap(v, depth)
	case reflect.Pointer:
		v.Set(reflect.New(t.Elem()))
		return fill(v.Elem(), depth+1)
	case reflect.Interface:
		if t != reflect.TypeFor[error]() {
			return fmt.Errorf("%v is an interface: no JSON brings it back", t)
		}
		v.Set(reflect.ValueOf(units.OutOfRange("a thing", "strength", 120, 0, 100, "% vol", "")))
	default:
		return fmt.Errorf("%v: no JSON holds that", t)
	}
	return nil
}

func fillMap(v reflect.Value, depth int) error {
	v.Set(reflect.MakeMap(v.Type()))
	for range random.IntN(3) {
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		if err := fill(key, depth+1); err != nil {
			return err
		}
		if err := fill(value, depth+1); err != nil {
			return err
		}
		v.SetMapIndex(key, value)
	}
	return nil
}

func fillStruct(v reflect.Value, depth int) error {
	hidden := 0
	for i := range v.NumField() {
		if !v.Type().Field(i).IsExported() {
			hidden++
			continue
		}
		if err := fill(v.Field(i), depth+1); err != nil {
			return fmt.Errorf("%s: %w", v.Type().Field(i).Name, err)
		}
	}
	if hidden == v.NumField() && hidden > 0 {
		return fmt.Errorf("%v has only unexported fields: it needs MarshalJSON and a maker in roundtrip, or a comment that it is not data", v.Type())
	}
	return nil
}

// compare finds what differs. An empty list is like none; what has its own form in
// JSON and unexported fields is compared by that form.
func compare(a, b reflect.Value) (where string, differ bool) {
	t := a.Type()
	switch t {
	case reflect.TypeFor[units.Temperature](): // twelve digits of degrees Celsius
		x, y := a.Interface().(units.Temperature), b.Interface().(units.Temperature)
		return fmt.Sprintf("%v, was %v K", float64(y), float64(x)), math.Abs(float64(x-y)) > 1e-11*math.Abs(float64(x))+1e-9
	case reflect.TypeFor[decimal.Decimal]():
		x, y := a.Interface().(decimal.Decimal), b.Interface().(decimal.Decimal)
		return fmt.Sprintf("%v, was %v", y, x), !x.Equal(y)
	case reflect.TypeFor[time.Time]():
		x, y := a.Interface().(time.Time), b.Interface().(time.Time)
		return fmt.Sprintf("%v, was %v", y, x), !x.Equal(y)
	}
	switch t.Kind() {
	case reflect.Struct:
		return compareStructs(a, b)
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return fmt.Sprintf("%d elements, were %d", b.Len(), a.Len()), true
		}
		for i := range a.Len() {
			if where, differ := compare(a.Index(i), b.Index(i)); differ {
				return fmt.Sprintf("[%d] %s", i, where), true
			}
		}
		return "", false
	case reflect.Map:
		if a.Len() != b.Len() {
			return fmt.Sprintf("%d entries, were %d", b.Len(), a.Len()), true
		}
		for _, key := range a.MapKeys() {
			if !b.MapIndex(key).IsValid() {
				return fmt.Sprintf("%v is gone", key), true
			}
			if where, differ := compare(a.MapIndex(key), b.MapIndex(key)); differ {
				return fmt.Sprintf("%v %s", key, where), true
			}
		}
		return "", false
	case reflect.Pointer, reflect.Interface:
		if a.IsNil() || b.IsNil() {
			return fmt.Sprintf("nil: %v, was %v", b.IsNil(), a.IsNil()), a.IsNil() != b.IsNil()
		}
		if e, ok := a.Interface().(error); ok && t.Kind() == reflect.Interface { // any error that says the same
			return fmt.Sprintf("%v, was %v", b.Interface(), e), b.Interface().(error).Error() != e.Error()
		}
		return compare(a.Elem(), b.Elem())
	}
	return fmt.Sprintf("%v, was %v", b.Interface(), a.Interface()), a.Interface() != b.Interface()
}

func compareStructs(a, b reflect.Value) (where string, differ bool) {
	t := a.Type()
	if _, own := makers[t]; own {
		x, _ := json.Marshal(a.Interface())
		y, _ := json.Marshal(b.Interface())
		return fmt.Sprintf("%s, was %s", y, x), string(x) != string(y)
	}
	for i := range t.NumField() {
		if !t.Field(i).IsExported() {
			continue
		}
		if where, differ := compare(a.Field(i), b.Field(i)); differ {
			return t.Field(i).Name + " " + where, true
		}
	}
	return "", false
}
