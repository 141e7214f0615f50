package main

import (
	"fmt"

	"example.org/mutage/units"
)

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
