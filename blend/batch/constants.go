package batch

import (
	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/units/uncertainty"
)

// What a plan assumes, read once: changing an exported variable of the library does
// not change it.
var (
	mustYield = abv.Must
	tartaric  = acid.Tartaric
	oakChips  = additions.OakChips

	ofHydrometer    = uncertainty.ToleranceHydrometer
	ofRefractometer = uncertainty.ToleranceRefractometer
	ofThermometer   = uncertainty.ToleranceThermometer
	ofJug           = uncertainty.ToleranceJug
	ofSpirit        = uncertainty.ToleranceSpirit
	ofCup           = uncertainty.ToleranceCup
)
