package units_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

func TestTableHasARowABatchAndAColumnAKey(t *testing.T) {
	figure := func(key string, x float64, places int32, unit string) units.Figure {
		return units.Figure{Key: key, Value: units.Round(x, places), Unit: unit}
	}
	header, cells := units.FigureTable([][]units.Figure{
		{figure("strength", 20, 1, "% vol"), figure("gravity", 1.0301, 4, "")},
		{},
		{figure("volume", 3, 2, "L"), figure("strength", 19.46, 1, "% vol")},
		{figure("volume", 0.8, 2, "gal")},
	})
	if d := cmp.Diff([]string{"strength, % vol", "gravity", "volume, L", "volume, gal"}, header); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([][]string{{"20.0", "1.0301", "", ""}, {"", "", "", ""}, {"19.5", "", "3.00", ""}, {"", "", "", "0.80"}}, cells); d != "" {
		t.Error(d)
	}
	if header, cells := units.FigureTable(nil); len(header)+len(cells) > 0 {
		t.Errorf("no batches give %v and %v", header, cells)
	}
}

func TestFormulaGetsAddresses(t *testing.T) {
	f := units.Figure{Key: "delle_units", Formula: "{strength}*4.5+{sugar}/10"}
	cells := map[string]string{"strength": "B2", "sugar": "$C$3"}
	address := func(key string) (string, bool) { c, ok := cells[key]; return c, ok }
	if got, err := f.FormulaAt(address); err != nil || got != "B2*4.5+$C$3/10" {
		t.Errorf("%q, %v", got, err)
	}
	delete(cells, "sugar")
	if got, err := f.FormulaAt(address); err == nil || !strings.Contains(err.Error(), "sugar") {
		t.Errorf("without a cell for the sugar: %q, %v", got, err)
	}
	if got, err := (units.Figure{}).FormulaAt(address); err != nil || got != "" {
		t.Errorf("no formula gives %q, %v", got, err)
	}
}

// Every pair of units of a quantity: what the formula gives is what parsing in
// one unit and reading in the other gives.
func TestConversionFormulasAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for _, q := range []struct {
		names string
		parse func(string) (float64, error)
	}{
		{"L|mL|hL|m3|US gallon|quart|pint|cup|fl oz|tbsp|tsp|imperial gallon|imperial pint|label tbsp", func(s string) (float64, error) { v, err := units.ParseVolume(s); return float64(v), err }},
		{"g|mg|kg|oz|lb|t", func(s string) (float64, error) { m, err := units.ParseMass(s); return float64(m), err }},
		{"g/L|mg/L|g/hL|g/100mL|oz/gal|lb/1000gal", func(s string) (float64, error) { c, err := units.ParseConcentration(s); return float64(c), err }},
		{"C|F|K", func(s string) (float64, error) { x, err := units.ParseTemperature(s); return float64(x), err }},
		{"kPa|bar|psi|atm", func(s string) (float64, error) { p, err := units.ParsePressure(s); return float64(p), err }},
		{"% vol|proof", func(s string) (float64, error) { x, err := units.ParseStrength(s); return float64(x), err }},
	} {
		names := strings.Split(q.names, "|")
		for range 1000 {
			from, to := names[random.IntN(len(names))], names[random.IntN(len(names))]
			text, err := units.ConversionFormula("x", from, to)
			if err != nil {
				t.Fatal(err)
			}
			x := units.Round(1+99*random.Float64(), 6)
			y, err := formula.Eval(text, func(string) (float64, error) { return x.InexactFloat64(), nil })
			if err != nil {
				t.Fatalf("%s to %s: %v", from, to, err)
			}
			here, err := q.parse(x.String() + " " + from)
			if err != nil {
				t.Fatal(err)
			}
			there, err := q.parse(units.Round(y, 17).String() + " " + to)
			if err != nil || math.Abs(here-there) > 1e-9*math.Abs(here)+1e-9 {
				t.Fatalf("%s %s is %v %s by %s: %v and %v in the base unit, %v", x, from, y, to, text, here, there, err)
			}
		}
	}
	for _, pair := range [][2]string{{"L", "g"}, {"firkin", "L"}, {"L", ""}} {
		if text, err := units.ConversionFormula("x", pair[0], pair[1]); err == nil {
			t.Errorf("%q to %q: %s", pair[0], pair[1], text)
		}
	}
	if text, _ := units.ConversionFormula("spirit", "L", "US gallon"); text != "{spirit}/3.785411784" {
		t.Error(text)
	}
}

// ± on a page is 1.96 standard uncertainties, or the figure's own factor of them,
// and the factor survives JSON.
func TestLimitOfAFigure(t *testing.T) {
	f := units.Figure{Key: "volume", Value: decimal.RequireFromString("3.05"), Unit: "L"}
	if f.Limit() != 0 {
		t.Errorf("no uncertainty: ± %v", f.Limit())
	}
	f.Uncertainty = decimal.NullDecimal{Decimal: decimal.RequireFromString("0.05"), Valid: true}
	for factor, limit := range map[float64]float64{0: 0.098, 1.645: 0.08225} {
		f.Coverage = factor
		text, err := json.Marshal(f)
		var back units.Figure
		if err == nil {
			err = json.Unmarshal(text, &back)
		}
		if err != nil || math.Abs(back.Limit()-limit) > 1e-12 || strings.Contains(string(text), "coverage_factor") != (factor > 0) {
			t.Errorf("factor %v: ± %v, %v, %s", factor, back.Limit(), err, text)
		}
	}
}
