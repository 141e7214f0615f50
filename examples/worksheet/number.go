package main

import (
	"flag"
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// brix is a flag in Brix, with the unit or without.
type brix gravity.Brix

// Set reads it.
func (b *brix) Set(text string) error {
	x, err := units.ParseIn(text, gravity.Brix(1))
	if err == nil {
		*b = brix(x)
	}
	return err
}

// String prints it.
func (b *brix) String() string {
	if b == nil || *b == 0 {
		return ""
	}
	return gravity.Brix(*b).String()
}

// number is a flag without a unit.
type number float64

// Set reads it.
func (n *number) Set(text string) error {
	x, unit, err := units.Scan("number", text)
	if err == nil && unit != "" {
		err = &units.ParseError{Text: text, Quantity: "number", Expected: []string{"a number without a unit"}}
	}
	if err == nil {
		*n = number(x.InexactFloat64())
	}
	return err
}

// String prints it.
func (n *number) String() string {
	if n == nil {
		return "0"
	}
	return fmt.Sprint(float64(*n))
}

// numberWithin is a flag of a number that must lie from lo to hi.
func numberWithin(n *number, lo, hi float64) flag.Value { return &bounded{n, lo, hi} }

type bounded struct {
	*number
	lo, hi float64
}

// Set reads it.
func (l *bounded) Set(text string) error {
	var x number
	if err := x.Set(text); err != nil {
		return err
	}
	if err := units.Check("number", float64(x), l.lo, l.hi, "", ""); err != nil {
		return err
	}
	*l.number = x
	return nil
}

// String prints it.
func (l *bounded) String() string {
	if l == nil || l.number == nil {
		return "0"
	}
	return l.number.String()
}
