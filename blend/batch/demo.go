package batch

import (
	"bytes"
	_ "embed"
	"fmt"
	"math"
	"reflect"
	"strings"
	"time"

	"example.org/mutage/units"
)

//go:embed demo.json
var demo []byte

// Demo is the demonstration: a morello cherry wine, fortified. Every quantity in
// it is invented.
func Demo() Batch {
	b, err := Read("demo.json", bytes.NewReader(demo))
	if err != nil {
		panic(err) // the file is part of the package, and a test reads it
	}
	return b
}

// Template is the demonstration as a file to fill in: it runs as it is. Lines
// that begin with // say what each field is, and which others there are.
func Template() []byte {
	var out bytes.Buffer
	out.WriteString("// A batch for \"plan -batch FILE\". Lines that begin with // are not read.\n// Limits go behind the value: \"3 L ± 2 %\" lies within them 19 times in 20.\n{\n")
	lines := strings.Split(strings.TrimSpace(string(demo)), "\n")
	set := map[string]string{}
	var order []string
	for _, l := range lines[1 : len(lines)-1] {
		name := strings.Split(l, `"`)[1]
		set[name] = l
		order = append(order, name)
	}
	last, group := order[len(order)-1], ""
	for _, f := range fields {
		if f.Group != group {
			group = f.Group
			fmt.Fprintf(&out, "\n  // %s\n", strings.ToUpper(group))
		}
		if l, ok := set[f.Name]; ok {
			if l = strings.TrimSuffix(l, ","); f.Name != last {
				l += ","
			}
			fmt.Fprintf(&out, "  // %s\n%s\n", f.Help, l)
			continue
		}
		example := fmt.Sprintf("%q", f.Example)
		if strings.HasPrefix(f.Example, "[") {
			example = f.Example
		}
		fmt.Fprintf(&out, "  // %s\n  // %q: %s,\n", f.Help, f.Name, example)
	}
	out.WriteString("}\n")
	return out.Bytes()
}

// Scale is the batch so many times as large: every amount with its limits, the
// vessel and the readings of volumes too. by is 0.001 to 1000; *units.RangeError
// outside.
func (b Batch) Scale(by float64) (Batch, error) {
	if err := units.Check("scale", by, 0.001, 1000, "", "a bound against mistyping"); err != nil {
		return Batch{}, err
	}
	for _, a := range []*Amount{&b.Must, &b.Wine, &b.SpiritPlanned, &b.SpiritStock, &b.Racked, &b.PouredWine, &b.PouredSpirit} {
		times(&a.Volume, by)
		times(&a.Mass, by)
	}
	for _, v := range []*Stated[units.Volume]{&b.Lees, &b.Vessel, &b.Headspace, &b.BlendVolume} {
		times(v, by)
	}
	times(&b.Wood, by)
	portions := make([]Portion, len(b.Sugar))
	for i, p := range b.Sugar {
		times(&p.Mass, by)
		portions[i] = p
	}
	if b.Sugar != nil {
		b.Sugar = portions
	}
	if !finite(reflect.ValueOf(b)) { // what was not, is not now
		return Batch{}, units.Check("a number of the batch", math.NaN(), math.Inf(-1), math.Inf(1), "", "a batch to scale")
	}
	return b, nil
}

func times[T ~float64](s *Stated[T], by float64) {
	s.Value *= T(by)
	s.Limit *= by
}

// finite says whether every number in v is one.
func finite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			return true
		}
		for i := range v.NumField() {
			if !finite(v.Field(i)) {
				return false
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if !finite(v.Index(i)) {
				return false
			}
		}
	}
	return true
}
