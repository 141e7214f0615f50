package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// The command knows time zones on a machine that has no database of them.
func TestTheCommandCarriesTheTimeZones(t *testing.T) {
	list := exec.Command("go", "list", "-deps", "./examples/worksheet")
	list.Dir = root
	out, err := list.Output()
	if err != nil || !slices.Contains(strings.Fields(string(out)), "time/tzdata") {
		t.Errorf("worksheet does not import time/tzdata: %v", err)
	}
}
