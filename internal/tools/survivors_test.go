package main

import (
	"testing"

	"example.org/mutage/internal/tools/mutants"
)

// Whoever changes a line that the list of accepted survivors names sees it
// here, in seconds, and not in a sample of mutants.
func TestEveryAcceptedSurvivorIsALineOfTheTree(t *testing.T) {
	module, err := mutants.Open(root)
	ok(t, err)
	all, err := module.Find(trade)
	ok(t, err)
	if _, err := acceptedAmong(all); err != nil {
		t.Error(err)
	}
}
