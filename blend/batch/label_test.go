package batch

import (
	"strings"
	"testing"

	"example.org/mutage/internal/handbook"
)

// A label of less sugar than any juice has is taken for a slip of the unit.
func TestALabelOfLittleSugarIsASlip(t *testing.T) {
	for label, found := range map[string]bool{"26 g per 240 mL": false, "26 mg per 240 mL": true, "12 g per 240 mL": false, "11 g per 240 mL": true} {
		p := work(t, handbook.Must(Read("label", strings.NewReader(`{"must": "3 L", "juice_label": "`+label+`", "sugar": "500 g", "stop_at": "5 % vol"}`))))
		if f, ok := finding(p, "juice_label"); ok != found || ok && !strings.Contains(f.Text, "raspberry") {
			t.Errorf("%s: %+v", label, f)
		}
	}
}
