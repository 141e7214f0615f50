package stability_test

import (
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/internal/handbook"
)

// FuzzReads: codes as text, wines and verdicts as JSON.
func FuzzReads(f *testing.F) {
	w := stability.Wine{Strength: 18}
	v, err := stability.Judge(w)
	if err != nil {
		f.Fatal(err)
	}
	for _, x := range []any{w, v} {
		f.Add(handbook.JSON(f, x))
	}
	for _, code := range []string{"still", "doubtful", "ferments", "holds", "not_known", "none", "Still", ""} {
		f.Add([]byte(code))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		handbook.ReadsText(t, string(data), new(stability.Outlook), new(stability.Hold), new(stability.Bacteria))
		handbook.ReadsJSON(t, data, stability.Wine{}, stability.Verdict{}, stability.Closed{})
	})
}
