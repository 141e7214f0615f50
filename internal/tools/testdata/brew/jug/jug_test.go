package jug

import "testing"

func TestContent(t *testing.T) {
	if Content() != 5.5 {
		t.Error("three jugs of 2 less 0.5 hold 5.5")
	}
}
