package stability

import (
	"errors"
	"strings"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// A wine of which nothing is stated is refused with what a strength may be.
func TestAnEmptyWineIsRefusedWithTheDomain(t *testing.T) {
	_, err := Judge(Wine{})
	var bounds *units.RangeError
	if !errors.As(err, &bounds) || bounds.Min != 0 || bounds.Max != 100 {
		t.Errorf("%v: a strength is from 0 to 100 %% vol", err)
	}
}

// A dose of sorbate that is enough beside little sulfite says how little; with no
// sulfite at all it says that sorbate alone is no barrier.
func TestEnoughSorbateSaysWhatSulfiteLacks(t *testing.T) {
	const mg = units.MilligramPerLitre
	for free, want := range map[units.Concentration]string{0: "sorbate without sulfite", 10 * mg: "mg/L of molecular SO2 beside it"} {
		v, err := Judge(Wine{Strength: 12, Sugar: exactly(60), PH: 3.4, Sorbate: 200 * mg, SO2: additions.SO2{Free: free, FreeMeasured: free > 0}})
		if because := v.Barrier("sorbate_with_sulfite").Because; err != nil || !strings.Contains(because, want) {
			t.Errorf("%v free: %q, %v", free, because, err)
		}
	}
}
