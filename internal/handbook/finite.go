package handbook

import (
	"fmt"
	"math"
	"reflect"
	"testing"
)

// Finite fails the test where a number in v, however deep, is none or has no end:
// what a function returns beside a nil error can be computed with.
func Finite(t testing.TB, name string, v any) {
	t.Helper()
	finite(t, name, reflect.ValueOf(v))
}

func finite(t testing.TB, at string, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s is %v", at, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, at+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finite(t, fmt.Sprintf("%s[%d]", at, i), v.Index(i))
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			finite(t, fmt.Sprintf("%s[%v]", at, key), v.MapIndex(key))
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			finite(t, at, v.Elem())
		}
	}
}
