package blend

import (
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Shows is what a hydrometer shows in the mixture at temperature t, on its own
// scale. Domain 0 to 40 C. Errors as gravity.Hydrometer.Shows.
func (m Mixture) Shows(h gravity.Hydrometer, t units.Temperature) (gravity.SG, error) {
	return h.Shows(m.Strength, m.Extract, t)
}
