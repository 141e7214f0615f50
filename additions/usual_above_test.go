package additions

import (
	"errors"
	"strings"
	"testing"

	"example.org/mutage/units"
)

// More than cellars dose at once is said at any size, the usual dose itself not.
func TestWhatIsAboveTheUsualDose(t *testing.T) {
	for _, x := range []struct {
		a     Addition
		level units.Concentration
		says  string
	}{
		{AddedAcid, 2, ""},
		{AddedAcid, 2.1, "2.1 g/L of acid is more than the 2 g/L that cellars dose at once (common practice, no source)"},
		{AddedAcid, 10.1, "10 g/L of acid"},
		{AddedAcid, 9.9, "9.9 g/L of acid"},
		{AddedCarbonate, 13.3, "13 g/L of carbonate is more than the 2 g/L"},
		{AddedSO2, 50 * units.MilligramPerLitre, ""},
		{AddedSO2, 60 * units.MilligramPerLitre, "60 mg/L of SO2 is more than the 50 mg/L"},
	} {
		o, above, err := x.a.AboveUsual(x.level)
		if err != nil || above != (x.says != "") || !strings.HasPrefix(o.Text, x.says) || above && o.Key != string(x.a)+"_above_usual" {
			t.Errorf("%v of %s: %+v, %v, %v", x.level, x.a, o, above, err)
		}
	}
	var out *units.RangeError
	if _, _, err := AddedAcid.AboveUsual(-1); !errors.As(err, &out) {
		t.Errorf("a dose below nothing: %v", err)
	}
	var p *units.ParseError
	if _, _, err := Addition("gunpowder").AboveUsual(1); !errors.As(err, &p) {
		t.Errorf("%v", err)
	}
}
