package main

import (
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
)

// printed is a plan as a page to print.
func printed(p batch.Plan, f *sheet.Form, b batch.Batch) string { return planText(p, f, b) }
