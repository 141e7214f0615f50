package watch

import "testing"

// Three standard uncertainties of the fermentation balance, 0.17 % vol, are half a
// per cent: nearer than that to its limit the yeast may have come to it.
func TestNearTheLimitIsWhatTheBalanceCannotTell(t *testing.T) {
	if shy < 2.8*0.17 || shy > 3.1*0.17 {
		t.Errorf("the limit counts as reached within %v %% vol", shy)
	}
}
