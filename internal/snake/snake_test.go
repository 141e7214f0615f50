package snake

import "testing"

func TestNamesBecomeKeys(t *testing.T) {
	for name, want := range map[string]string{
		"original gravity": "original_gravity", "SO2, total": "so2_total", "(AZaz09)": "azaz09", "a/b:c`d{e": "a_b_c_d_e", "  ": "", "Baumé": "baum",
	} {
		if got := Case(name); got != want {
			t.Errorf("%q: %q, expected %q", name, got, want)
		}
	}
}
