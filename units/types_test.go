package units_test

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"testing"

	"github.com/shopspring/decimal"

	"example.org/mutage/units"
)

// Every quantity does what every other does.
func TestEveryQuantity(t *testing.T) {
	quantity(t, "2.5 L", "0.3 hL", "1/8 cup", units.Litre, 2.5, units.ParseVolume, (units.Volume).In, (units.Volume).Decimal, (units.Volume).String, (units.Volume).MarshalText, (*units.Volume).UnmarshalText, (*units.Volume).Set)
	quantity(t, "250 g", "2 lb", "3 oz", units.Gram, 250, units.ParseMass, (units.Mass).In, (units.Mass).Decimal, (units.Mass).String, (units.Mass).MarshalText, (*units.Mass).UnmarshalText, (*units.Mass).Set)
	quantity(t, "1046 kg/m3", "1.046 g/mL", "8.7 lb/gal", units.KilogramPerCubicMetre, 1046, units.ParseDensity, (units.Density).In, (units.Density).Decimal, (units.Density).String, (units.Density).MarshalText, (*units.Density).UnmarshalText, (*units.Density).Set)
	quantity(t, "142 g/L", "50 mg/L", "14 g/100 mL", units.GramPerLitre, 142, units.ParseConcentration, (units.Concentration).In, (units.Concentration).Decimal, (units.Concentration).String, (units.Concentration).MarshalText, (*units.Concentration).UnmarshalText, (*units.Concentration).Set)
	quantity(t, "40 % vol", "80 proof", "12.5 %", units.PercentVol, 40, units.ParseStrength, (units.Strength).In, (units.Strength).Decimal, (units.Strength).String, (units.Strength).MarshalText, (*units.Strength).UnmarshalText, (*units.Strength).Set)
	quantity(t, "33.3 % mass", "1 % w/w", "5 %", units.PercentMass, 33.3, units.ParseMassPercent, (units.MassPercent).In, (units.MassPercent).Decimal, (units.MassPercent).String, (units.MassPercent).MarshalText, (*units.MassPercent).UnmarshalText, (*units.MassPercent).Set)
	quantity(t, "250 kPa", "2 bar", "30 psi", units.Kilopascal, 250, units.ParsePressure, (units.Pressure).In, (units.Pressure).Decimal, (units.Pressure).String, (units.Pressure).MarshalText, (*units.Pressure).UnmarshalText, (*units.Pressure).Set)
}

func quantity[T ~float64](t *testing.T, first, second, third string, unit T, number float64, parse func(string) (T, error), in func(T, T) float64,
	places func(T, T, int32) decimal.Decimal, text func(T) string, marshal func(T) ([]byte, error), unmarshal func(*T, []byte) error, set func(*T, string) error) {
	t.Helper()
	x, err := parse(first)
	if err != nil || in(x, unit) != number || places(x, unit, 1).InexactFloat64() != number || text(x) != first {
		t.Errorf("%s: %v, %v, printed %q", first, float64(x), err, text(x))
	}
	for _, s := range []string{second, third} {
		x, err := parse(s)
		if err != nil {
			t.Error(err)
			continue
		}
		written, err := marshal(x)
		var y T
		if err != nil || unmarshal(&y, written) != nil || x != y {
			t.Errorf("%s: %v written as %q reads %v", s, float64(x), written, float64(y))
		}
		if set(&y, text(x)) != nil || math.Abs(float64(y-x)) > 1e-5*math.Abs(float64(x)) {
			t.Errorf("%s: printed as %q reads %v", s, text(x), float64(y))
		}
	}
	for _, s := range []string{"", "much", "1 furlong", "NaN", "1e99 " + text(unit)} {
		kept := x
		if err := set(&kept, s); err == nil || kept != x {
			t.Errorf("%q: %v, %v", s, float64(kept), err)
		}
	}
	for _, x := range []float64{0, 5e-324, 1e21, -4e-16, -1e9, math.MaxFloat64} {
		kept := unit
		written, err := marshal(T(x))
		if err != nil || unmarshal(&kept, written) != nil || float64(kept) != x {
			t.Errorf("%v is written as %q, %v, and comes back as %v", x, written, err, float64(kept))
		}
		if x < 0 && set(&kept, string(written)) == nil {
			t.Errorf("%q was read from a person", written)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if written, err := marshal(T(bad)); err == nil {
			t.Errorf("%v is written as %q", bad, written)
		}
		if d := places(T(bad), unit, 2); math.IsInf(bad, 0) && !d.IsZero() {
			t.Errorf("%v as decimal: %v", bad, d)
		}
	}
}

func TestFigure(t *testing.T) {
	g := units.Figure{Name: "strength", Value: units.Round(20, 1), Unit: "% vol",
		Uncertainty: decimal.NullDecimal{Decimal: units.Round(0.5, 2), Valid: true}, Key: "strength", Source: "here", Formula: "{a}+1"}
	if g.Fixed() != "20.0" || g.FixedUncertainty() != "0.50" || g.NumberFormat() != "0.0" {
		t.Error(g.Fixed(), g.FixedUncertainty(), g.NumberFormat())
	}
	if cells := g.Cells(); len(cells) != len(units.FigureHeader()) || cells[2] != "20.0" || cells[4] != "0.50" || cells[6] != "here" {
		t.Error(cells)
	}
	text, err := json.Marshal(g)
	if err != nil || string(text) != `{"key":"strength","name":"strength","value":20.0,"unit":"% vol","uncertainty":0.50,"method":"","source":"here","formula":"{a}+1"}` {
		t.Errorf("%s, %v", text, err)
	}
	var back units.Figure
	if err := json.Unmarshal(text, &back); err != nil || !reflect.DeepEqual(back.Cells(), g.Cells()) || back.Formula != g.Formula {
		t.Errorf("%s came back as %+v, %v", text, back, err)
	}
	bare := units.Figure{Value: units.Round(1234, -2)}
	if bare.Fixed() != "1200" || bare.FixedUncertainty() != "" || bare.NumberFormat() != "0" {
		t.Error(bare.Fixed(), bare.NumberFormat())
	}
}

// An error of a domain goes to a program in another place and comes back, open
// ends and all.
func TestRangeErrorsComeBackFromJSON(t *testing.T) {
	for _, e := range []*units.RangeError{
		units.OutOfRange("wine", "original gravity", 1.5, 1, 1.3499, "", "ICUMSA"),
		units.OutOfRange("", "volume", -1, 0, math.Inf(1), "L", ""),
		units.OutOfRange("", "pH", 20, math.Inf(-1), 14, "", ""),
		{Key: "final_gravity", Quantity: "final gravity", Value: 1.092, Min: 0.99, Max: 1.046, Cause: "swapped?"},
	} {
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		var back units.RangeError
		if err := json.Unmarshal(text, &back); err != nil || back != *e {
			t.Errorf("%s came back as %+v, %v", text, back, err)
		}
	}
	text, err := json.Marshal(units.OutOfRange("", "strength", math.NaN(), 0, 100, "% vol", ""))
	var back units.RangeError
	if err != nil || json.Unmarshal(text, &back) != nil || !math.IsNaN(back.Value) || back.Max != 100 {
		t.Errorf("%s, %v, came back as %+v", text, err, back)
	}
	e := units.OutOfRange("wine", "original gravity", 1.5, 1, 1.3499, "", "ICUMSA")
	if e.Key != "original_gravity" || e.Error() != "wine: original gravity 1.5 is out of range: 1 to 1.3499 (ICUMSA)" {
		t.Errorf("%s: %v", e.Key, e)
	}
	if err := units.CheckOf("wine", "original gravity", 1.5, 1, 1.3499, "", "ICUMSA"); err == nil || err.Error() != e.Error() {
		t.Error(err)
	}
	e.Cause = "the gravity was read in wine"
	if e.Error() != "wine: the gravity was read in wine; possible: 1 to 1.3499 (ICUMSA)" {
		t.Error(e)
	}
}

func TestATemperatureNotStatedIsNoTemperature(t *testing.T) {
	var none units.Temperature
	if none.Stated() || none.String() != "not stated" || none.Celsius() != -273.15 {
		t.Errorf("the zero value is %v, %v C", none, none.Celsius())
	}
	if bare := units.Temperature(68); bare.Celsius() > -200 {
		t.Errorf("a bare 68 is %v", bare)
	}
	text, err := none.MarshalText()
	back := units.Celsius(20)
	if err != nil || len(text) != 0 || back.UnmarshalText(text) != nil || back != 0 {
		t.Errorf("not stated is written as %q, %v, and comes back as %v", text, err, back)
	}
	for _, x := range []units.Temperature{-3, 1e-300, 1e300, -math.MaxFloat64, 293.15} {
		written, err := x.MarshalText()
		if err != nil || back.UnmarshalText(written) != nil || math.Abs(float64(back/x-1)) > 1e-11 && math.Abs(float64(back-x)) > 1e-9 {
			t.Errorf("%v K is written as %q, %v, and comes back as %v K", float64(x), written, err, float64(back))
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		if written, err := units.Temperature(bad).MarshalText(); err == nil {
			t.Errorf("%v is written as %q", bad, written)
		}
	}
}

// What is typed in degrees comes back to twelve digits, and as typed to ten
// decimals.
func TestTemperaturesComeBackAsTyped(t *testing.T) {
	for i := range 20000 {
		c := float64(i-5000) / 100
		at := units.Celsius(c)
		if at.Celsius() != c {
			t.Fatalf("%v C gives %v", c, at.Celsius())
		}
		text, err := at.MarshalText()
		var back units.Temperature
		if err != nil || back.UnmarshalText(text) != nil || back != at {
			t.Fatalf("%v is written as %q and comes back as %v, %v", c, text, back.Celsius(), err)
		}
	}
	if s := units.Celsius(21.5).String(); s != "21.5 C" {
		t.Error(s)
	}
	at, err := units.ParseTemperature("68 F")
	if err != nil || at != units.Celsius(20) || at != units.Fahrenheit(68) || math.Abs(at.Fahrenheit()-68) > 1e-12 {
		t.Errorf("68 F is %v, %v", at, err)
	}
	if _, err := units.ParseTemperature("-300 C"); err == nil {
		t.Error("-300 C was read")
	}
	var set units.Temperature
	if err := set.Set("warm"); err == nil || set != 0 {
		t.Error("warm was read")
	}
}

func TestParseErrorsComeBackFromJSON(t *testing.T) {
	_, err := units.ParseVolume("3 hands")
	var e *units.ParseError
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	text, err := e.MarshalJSON()
	var back units.ParseError
	if err != nil || back.UnmarshalJSON(text) != nil || !reflect.DeepEqual(back, *e) {
		t.Errorf("%s came back as %+v, %v", text, back, err)
	}
}
