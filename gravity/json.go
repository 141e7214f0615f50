package gravity

import (
	"encoding/json"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// hydrometerJSON is a Hydrometer in JSON: how it differs from the common one.
type hydrometerJSON struct {
	Calibration units.Temperature `json:"calibration"`
	Water       float64           `json:"reference_water_above_20_c,omitempty"` // kg/m3
	Glass       float64           `json:"expansion_above_soda_lime,omitempty"`  // 1/C
	Offset      float64           `json:"scale_error_at_1,omitempty"`
	Slope       float64           `json:"scale_error_per_gravity,omitempty"`
	Rise        float64           `json:"meniscus,omitempty"`
}

// MarshalJSON writes the calibration temperature and how the instrument differs from
// the common one. Error: *units.RangeError for a setting outside its domain.
func (h Hydrometer) MarshalJSON() ([]byte, error) {
	if h.err != nil {
		return nil, h.err
	}
	return json.Marshal(hydrometerJSON{units.Celsius(20 + h.calibration), h.water, h.glass, h.offset, h.slope, h.rise})
}

// UnmarshalJSON reads what MarshalJSON wrote; without a calibration it is the common
// hydrometer. Error: *units.RangeError for a setting outside its domain.
func (h *Hydrometer) UnmarshalJSON(text []byte) error {
	in := hydrometerJSON{Calibration: units.Celsius(20)}
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	out := NewHydrometer(in.Calibration).WithGlass(density.Glass + in.Glass).WithMeniscus(SG(in.Rise))
	out.refuse(units.Check("density of the reference water above that at 20 C", in.Water, density.Water(warmestBasis)-density.Water20, 2, "kg/m3", ""))
	out.refuse(checkScaleError(in.Offset, in.Slope))
	if out.err != nil {
		return out.err
	}
	out.glass = in.Glass // without the rounding of a sum and its difference
	out.water, out.offset, out.slope = in.Water, in.Offset, in.Slope
	*h = out
	return nil
}

type refractometerJSON struct {
	ShownInWater Brix `json:"shown_in_water"`
}

// MarshalJSON writes what the instrument shows in water. Error: *units.RangeError
// where that is outside its domain.
func (r Refractometer) MarshalJSON() ([]byte, error) {
	if r.err != nil {
		return nil, r.err
	}
	return json.Marshal(refractometerJSON{Brix(r.zero)})
}

// UnmarshalJSON reads what MarshalJSON wrote. Error: *units.RangeError.
func (r *Refractometer) UnmarshalJSON(text []byte) error {
	var in refractometerJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	out := NewRefractometer().WithZero(in.ShownInWater)
	if out.err != nil {
		return out.err
	}
	*r = out
	return nil
}
