package stability

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// FuzzFinite: verdict, remedies and the pressure of a bottle are finite, and what
// a remedy makes is judged still.
func FuzzFinite(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, strength, u, low, more, most, pH, uPH, added, total, free, sorbate, limit, at float64, measured, stored, dry bool) {
		w := drawn{strength: strength, u: u, low: low, likely: low + more, high: low + more + most, pH: pH, uPH: uPH, added: added, total: total, free: free,
			measured: measured, stored: stored, dry: dry, sorbate: sorbate, limit: limit, at: at}.wine()
		v, err := Judge(w)
		if err != nil {
			return
		}
		handbook.Finite(t, "Judge", v)
		all, err := Remedies(w)
		if err != nil {
			t.Fatalf("%+v is judged, but has no remedies: %v", w, err)
		}
		handbook.Finite(t, "Remedies", all)
		for _, r := range all {
			if word, err := Judge(r.Wine); err != nil || word.Outlook != Still {
				t.Errorf("%s makes it %v, %v", r.Text, word.Outlook, err)
			}
		}
		if s, err := SealedPressure(w, Closed{Volume: 0.775, Headspace: 0.025}, units.Celsius(20)); err == nil {
			handbook.Finite(t, "SealedPressure", s)
			if s.Overpressure < -units.Atmosphere || s.Sugar < 0 {
				t.Errorf("%+v", s)
			}
		}
	})
}
