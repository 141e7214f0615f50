package stability

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Every exported function with a number in it, at both sides of its domain and
// with what is no number.
func TestStabilityDomains(t *testing.T) {
	type (
		vol  = units.Volume
		conc = units.Concentration
	)
	handbook.Domains(t, []handbook.Domain{
		{Name: "DelleUnits", Of: func(x float64) (float64, error) { return DelleUnits(units.Strength(x), 0) }, Good: []float64{0, 100}, Bad: []float64{-1, 101}},
		{Name: "DelleUnits sugar", Of: func(x float64) (float64, error) { return DelleUnits(10, conc(x)) }, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "Judge pH", Of: func(x float64) (float64, error) { v, err := Judge(Wine{Strength: 12, PH: x}); return v.DelleUnits, err }, Good: []float64{0, 2.5, 4.5}, Bad: []float64{2.4, 4.6}},
		{Name: "Judge limit of the yeast", Of: func(x float64) (float64, error) {
			v, err := Judge(Wine{Strength: 12, YeastLimit: units.Strength(x)})
			return v.DelleUnits, err
		}, Good: []float64{0, 30}, Bad: []float64{-1, 31}},
		{Name: "Judge sorbate", Of: func(x float64) (float64, error) {
			v, err := Judge(Wine{Strength: 12, Sorbate: conc(x)})
			return v.DelleUnits, err
		}, Good: []float64{0, 3}, Bad: []float64{-1, 3.1}},
		{Name: "Judge temperature", Of: func(x float64) (float64, error) {
			v, err := Judge(Wine{Strength: 12, Temperature: units.Celsius(x)})
			return v.DelleUnits, err
		}, Good: []float64{-20, 60}, Bad: []float64{-21, 61}},
		{Name: "DissolvedCO2", Of: func(x float64) (float64, error) {
			c, err := DissolvedCO2(units.Strength(x), 0, units.Celsius(20), 100)
			return float64(c), err
		}, Good: []float64{0, 25}, Bad: []float64{-1, 26}},
		{Name: "DissolvedCO2 temperature", Of: func(x float64) (float64, error) {
			c, err := DissolvedCO2(12, 0, units.Celsius(x), 100)
			return float64(c), err
		}, Good: []float64{0, 40}, Bad: []float64{-1, 41}},
		{Name: "SealedPressure headspace", Of: func(x float64) (float64, error) {
			s, err := SealedPressure(Wine{Strength: 12, Sugar: exactly(5)}, Closed{Volume: 1, Headspace: vol(x)}, units.Celsius(20))
			return float64(s.CO2), err
		}, Good: []float64{0.02, 0.9}, Bad: []float64{0, 0.96}},
		{Name: "SealedPressure temperature", Of: func(x float64) (float64, error) {
			s, err := SealedPressure(Wine{Strength: 12, Sugar: exactly(5)}, Closed{Volume: 1, Headspace: 0.03}, units.Celsius(x))
			return float64(s.CO2), err
		}, Good: []float64{0, 40}, Bad: []float64{-1, 41}},
		{Name: "SealedPressure filled to the brim", Of: func(x float64) (float64, error) {
			s, err := SealedPressure(Wine{Strength: 12, Sugar: exactly(5)}, Closed{Volume: 1, Headspace: 0.001}, units.Celsius(x))
			return float64(s.CO2), err
		}, Good: []float64{10}, Bad: []float64{25}},
		{Name: "Prime", Of: func(x float64) (float64, error) {
			p, err := Prime(Wine{Strength: 11}, conc(x), Closed{Volume: 0.775, Headspace: 0.025, Rated: 1500})
			return float64(p.Sugar), err
		}, Good: []float64{0, 12}, Bad: []float64{-1, 15}},
	})
}
