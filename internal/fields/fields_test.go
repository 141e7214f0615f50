package fields

import (
	"strings"
	"testing"

	"example.org/mutage/units"
)

func into(v *units.Volume, s *units.Strength) []Field {
	return []Field{Must("volume", `"3 L"`, v, (*float64)(v)), May("strength", `"40 % vol"`, s, nil)}
}

func TestLimits(t *testing.T) {
	var v units.Volume
	var s units.Strength
	half, err := Read("f", []byte(`{"volume": "3 L ± 2 %", "strength": "80 proof"}`), into(&v, &s))
	if err != nil || v != 3 || s != 40 || half["volume"] < 0.0599999 || half["volume"] > 0.0600001 {
		t.Errorf("%v, %v, %v, %v", v, s, half, err)
	}
}

func TestFaultsHavePlaces(t *testing.T) {
	var v units.Volume
	var s units.Strength
	_, err := Read("f", []byte("{\n \"volum\": \"3 L\",\n \"strength\": 40\n}"), into(&v, &s))
	for _, part := range []string{`f:2:2: no field "volum"; did you mean "volume"?`, `f:3:14: field "strength": found 40`, `field "volume" is missing`} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%v\nwant %q in it", err, part)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(`{"volume": "3 L ± 2 %", "strength": "80 proof"}`)
	f.Add(`{"volume": null, "volume": ["3 L"], "x": {"y": [1e999]}}`)
	f.Add("\ufeff{\"volume\":\"3 L\"} {")
	f.Fuzz(func(t *testing.T, text string) {
		var v units.Volume
		var s units.Strength
		half, err := Read("f", []byte(text), into(&v, &s))
		if err == nil && !(v >= 0 && s >= 0 && s <= 100 && half["volume"] >= 0) {
			t.Errorf("%q reads %v, %v, %v", text, v, s, half)
		}
	})
}

func TestLimitsGrowWithTheirAmounts(t *testing.T) {
	half := Half{"must": 0.1, "reading": 0.001}
	half.Scale(2, "must", "lees")
	if half["must"] != 0.2 || half["reading"] != 0.001 || len(half) != 2 {
		t.Errorf("%v", half)
	}
}

func TestByteOrderMarkAndCarriageReturns(t *testing.T) {
	var v units.Volume
	var s units.Strength
	if _, err := Read("f", []byte("\ufeff{\r\n\"volume\": \"3 L\",\r\n\"strength\": \"80 proof\"\r\n}\r\n"), into(&v, &s)); err != nil || v != 3 || s != 40 {
		t.Errorf("%v, %v, %v", v, s, err)
	}
}
