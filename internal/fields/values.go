package fields

import (
	"flag"
	"fmt"
	"strings"

	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Standard is the standard uncertainty of a field: from the limits stated in the
// file, within which the value lies 19 times in 20, or else from the trade's
// tolerance, which is then noted as assumed.
func (h Half) Standard(field string, value float64, t uncertainty.Tolerance, assumed *[]string) float64 {
	if limit, stated := h[field]; stated {
		return uncertainty.LimitInput(field, value, limit).Standard
	}
	in := uncertainty.ToleranceInput(field, value, t)
	if in.Standard > 0 {
		*assumed = append(*assumed, fmt.Sprintf("%s: %s (%s)", field, t.Name, t.Source))
	}
	return in.Standard
}

// Scale makes the limits of these fields grow with their amounts.
func (h Half) Scale(by float64, fields ...string) {
	for _, name := range fields {
		if half, stated := h[name]; stated {
			h[name] = by * half
		}
	}
}

// By reads into anything through its parser.
func By[T any](into *T, parse func(string) (T, error)) Setter { return by[T]{into, parse} }

type by[T any] struct {
	into  *T
	parse func(string) (T, error)
}

func (b by[T]) Set(text string) error {
	x, err := b.parse(text)
	if err == nil {
		*b.into = x
	}
	return err
}

// Text is a name: 1 to 60 characters on one line.
type Text string

// Set reads it.
func (t *Text) Set(s string) error {
	if s = strings.TrimSpace(s); s == "" || len(s) > 60 || strings.ContainsFunc(s, func(r rune) bool { return r < ' ' }) {
		return fmt.Errorf("text %q: expected 1 to 60 characters on one line", s)
	}
	*t = Text(s)
	return nil
}

// Number is a number without a unit; on the command line, too.
type Number float64

// Set reads it.
func (n *Number) Set(text string) error {
	x, unit, err := units.Scan("number", text)
	if err == nil && unit != "" {
		err = &units.ParseError{Text: text, Quantity: "number", Expected: []string{"a number without a unit"}}
	}
	if err == nil {
		*n = Number(x.InexactFloat64())
	}
	return err
}

// String prints it.
func (n *Number) String() string {
	if n == nil {
		return "0"
	}
	return fmt.Sprint(float64(*n))
}

// Within is a number that must lie from lo to hi.
func Within(n *Number, lo, hi float64) flag.Value { return within{n, lo, hi} }

type within struct {
	*Number
	lo, hi float64
}

func (w within) Set(text string) error {
	if err := w.Number.Set(text); err != nil {
		return err
	}
	return units.Check("number", float64(*w.Number), w.lo, w.hi, "", "")
}

// Volumes is a list of volumes; Set adds one.
type Volumes []units.Volume

// Set reads one more.
func (v *Volumes) Set(text string) error {
	x, err := units.ParseVolume(text)
	if err == nil {
		*v = append(*v, x)
	}
	return err
}
