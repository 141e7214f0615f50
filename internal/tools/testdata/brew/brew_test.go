package brew

import "testing"

func TestStrongFrom17(t *testing.T) {
	if Strong(16.99) || !Strong(17) {
		t.Error("the threshold is not 17")
	}
}

func TestTwentyIsCool(t *testing.T) {
	if Warm(20) {
		t.Error("20 is warm")
	}
}

func TestLimits(t *testing.T) {
	if l := Limits(); l[0] != `sulfur dioxide,"200",the law` {
		t.Errorf("%q", l[0])
	}
}

func TestWaitEnds(t *testing.T) { Wait(3) }
