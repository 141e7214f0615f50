package gravity_test

import (
	"encoding/json"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// A saved hydrometer is the instrument that was saved, not the common one.
func TestInstrumentsComeBackFromJSON(t *testing.T) {
	h := gravity.NewHydrometer(units.Fahrenheit(60)).WithGlass(2e-4).WithMeniscus(0.0015).WithTests(gravity.TestReading{Shown: 1.002, True: 1})
	for _, h := range []gravity.Hydrometer{{}, h} {
		text, err := json.Marshal(h)
		var back gravity.Hydrometer
		if err != nil || json.Unmarshal(text, &back) != nil {
			t.Fatalf("%s, %v", text, err)
		}
		want, _ := h.Correct(1.089, units.Celsius(27))
		got, err := back.Correct(1.089, units.Celsius(27))
		if err != nil || got-want > 1e-12 || want-got > 1e-12 {
			t.Errorf("%s reads %v, %v; was %v", text, got, err, want)
		}
	}
	var common gravity.Hydrometer
	if err := json.Unmarshal([]byte("{}"), &common); err != nil || common != (gravity.Hydrometer{}) {
		t.Errorf("%v, %v", common, err)
	}
	r := gravity.NewRefractometer().WithZero(0.2)
	text, err := json.Marshal(r)
	var back gravity.Refractometer
	if err != nil || json.Unmarshal(text, &back) != nil || back != r {
		t.Errorf("%s, %v, came back as %v", text, err, back)
	}
	for _, bad := range []any{gravity.NewHydrometer(units.Celsius(90)), gravity.NewRefractometer().WithZero(9)} {
		if text, err := json.Marshal(bad); err == nil {
			t.Errorf("a setting out of range is written as %s", text)
		}
	}
	for _, bad := range []string{`3`, `{"calibration":"90 C"}`, `{"reference_water_above_20_c":99}`, `{"scale_error_at_1":1}`, `{"expansion_above_soda_lime":1}`, `{"meniscus":1}`} {
		if json.Unmarshal([]byte(bad), &common) == nil {
			t.Errorf("%s was read", bad)
		}
	}
	for _, bad := range []string{`3`, `{"shown_in_water":"9 Bx"}`} {
		if json.Unmarshal([]byte(bad), &back) == nil {
			t.Errorf("%s was read", bad)
		}
	}
	if err := json.Unmarshal([]byte(`{"calibration":"90 C"}`), &common); !handbook.IsRange(err) {
		t.Error(err)
	}
}
