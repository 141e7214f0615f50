package additions_test

import (
	"math"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// FuzzDoses: what is weighed in is what comes out again, and nothing that is
// returned is no number.
func FuzzDoses(f *testing.F) {
	f.Add(50e-3, 3.0, 3.4, 12.0, 20.0, 0.2)
	f.Add(0.0, 1e-6, 2.5, 0.0, 0.0, 0.0)
	f.Add(1e9, 1e9, 14.0, 100.0, 100.0, 1e3)
	f.Fuzz(func(t *testing.T, dose, volume, pH, strength, celsius, sorbic float64) {
		c, v := units.Concentration(dose), units.Volume(volume)
		if m, err := additions.Metabisulfite(c, v); err == nil {
			handbook.Finite(t, "Metabisulfite", m)
			if want := dose * volume / 0.5761; math.Abs(float64(m)-want) > 1e-3*want { // 57.6 % SO2 in K2S2O5, molar masses
				t.Errorf("%v in %v: %v", c, v, m)
			}
		}
		if m, err := additions.Sorbate(units.Concentration(sorbic), v); err == nil {
			handbook.Finite(t, "Sorbate", m)
			back, err := additions.SorbicAcid(m, v)
			if err == nil && math.Abs(float64(back)-sorbic) > 1e-9*(sorbic+1e-9) {
				t.Errorf("%v g/L of sorbic acid come back as %v", sorbic, back)
			}
		}
		pK, err := additions.SO2PK(units.Strength(strength), units.Celsius(celsius))
		if err != nil {
			return
		}
		handbook.Finite(t, "SO2PK", pK)
		if molecular, err := additions.MolecularSO2(c, pH, pK); err == nil {
			handbook.Finite(t, "MolecularSO2", molecular)
			free, err := additions.FreeSO2For(molecular, pH, pK)
			if molecular > c || err == nil && math.Abs(float64(free)-dose) > 1e-9*(dose+1e-9) {
				t.Errorf("free %v at pH %v: molecular %v, back %v", c, pH, molecular, free)
			}
		}
		if need, err := additions.SorbicAcidNeeded(units.Strength(strength), pH); err == nil {
			handbook.Finite(t, "SorbicAcidNeeded", need)
			if need <= 0 || need > 0.4 {
				t.Errorf("%v %% vol at pH %v need %v of sorbic acid", strength, pH, need)
			}
		}
	})
}
