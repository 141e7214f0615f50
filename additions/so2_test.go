package additions

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Added, total and free are three things, and each way from one to the next has
// its range.
func TestFreeRangeKeepsAddedTotalAndFreeApart(t *testing.T) {
	const mg = units.MilligramPerLitre
	for _, x := range []struct {
		name      string
		so2       SO2
		low, high float64 // mg/L
	}{
		{"nothing stated", SO2{}, 0, 0},
		{"50 added", SO2{Added: 50 * mg}, 17.5, 37.5},
		{"100 in a finished wine", SO2{Total: 100 * mg}, 10, 66},
		{"50 added to a wine of 100", SO2{Added: 50 * mg, Total: 100 * mg}, 27.5, 103.5},
		{"20 measured: within 3", SO2{Free: 20 * mg, FreeMeasured: true}, 17, 23},
		{"60 measured: within a tenth", SO2{Free: 60 * mg, FreeMeasured: true}, 54, 66},
		{"2 measured", SO2{Free: 2 * mg, FreeMeasured: true}, 0, 5},
		{"measured replaces the range", SO2{Added: 50 * mg, Total: 100 * mg, Free: 20 * mg, FreeMeasured: true}, 17, 23},
		{"none measured", SO2{Added: 50 * mg, FreeMeasured: true}, 0, 3},
		{"60 ± 2 measured", SO2{Free: 60 * mg, FreeMeasured: true, FreeLimit: 2 * mg}, 58, 62},
		{"60 ± 2 measured, then twice the volume", SO2{Free: 60 * mg, FreeMeasured: true, FreeLimit: 2 * mg}.Times(0.5), 29, 31},
		{"22 measured, then twice the volume", SO2{Free: 22 * mg, FreeMeasured: true}.Times(0.5), 9.5, 12.5},
		{"50 added, then twice the volume", SO2{Added: 50 * mg}.Times(0.5), 8.75, 18.75},
		{"never above the total", SO2{Total: 30 * mg, Free: 30 * mg, FreeMeasured: true}, 27, 30},
	} {
		low, high, err := x.so2.FreeRange()
		if err != nil || math.Abs(low.In(mg)-x.low) > 1e-9 || math.Abs(high.In(mg)-x.high) > 1e-9 {
			t.Errorf("%s: %v to %v mg/L, %v; want %v to %v", x.name, low.In(mg), high.In(mg), err, x.low, x.high)
		}
	}
	for _, x := range []struct {
		so2   SO2
		words []string
	}{
		{SO2{Total: 30 * mg, Free: 50 * mg, FreeMeasured: true}, []string{"50", "30", "total"}},
		{SO2{Free: 50 * mg}, []string{"50", "not measured"}},
		{SO2{Added: -1}, []string{"added"}},
		{SO2{FreeLimit: 5 * mg}, []string{"not measured"}},
		{SO2{Free: 50 * mg, FreeMeasured: true, FreeLimit: -1}, []string{"limit of the free SO2"}},
		{SO2{Total: 11}, []string{"total"}},
		{SO2{Free: units.Concentration(math.NaN()), FreeMeasured: true}, []string{"free"}},
	} {
		low, high, err := x.so2.FreeRange()
		var r *units.RangeError
		if !errors.As(err, &r) || low != 0 || high != 0 {
			t.Errorf("%+v: %v to %v, %v", x.so2, low, high, err)
			continue
		}
		for _, word := range x.words {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%q does not say %q", err, word)
			}
		}
	}
	_, _, err := SO2{Total: 30 * mg, Free: 50 * mg, FreeMeasured: true}.FreeRange()
	var r *units.RangeError
	if !errors.As(err, &r) || math.Abs(r.Value-50) > 1e-9 || math.Abs(r.Max-30) > 1e-9 || r.Unit != "mg/L" || r.Key != "free_so2" {
		t.Errorf("%+v", r)
	}
	// What the spirit dilutes stays in proportion.
	half := SO2{Added: 50 * mg, Total: 20 * mg, Free: 10 * mg, FreeMeasured: true}.Times(0.5)
	if half != (SO2{Added: 25 * mg, Total: 10 * mg, Free: 5 * mg, FreeMeasured: true, FreeLimit: 1.5 * mg}) || half.InAll() != 35*mg {
		t.Errorf("%+v", half)
	}
}

// The OIV's table less 0.083 to 15 % vol; by hand at 20 % vol and 20 C: 2.099 and
// one step of 0.102 more.
func TestPKAboveTheTableIsAsUnsureAsWhatIsContinued(t *testing.T) {
	for _, x := range []struct {
		s     units.Strength
		pK, u float64
	}{{0, 1.715, 0.02}, {10, 1.914, 0.02}, {15, 2.016, 0.02}, {20, 2.118, math.Hypot(0.02, 0.102)}, {25, 2.220, math.Hypot(0.02, 0.204)}} {
		pK, u, err := SO2PKInWine(x.s, units.Celsius(20))
		if err != nil || math.Abs(pK-x.pK) > 0.0006 || math.Abs(u-x.u) > 1e-9 {
			t.Errorf("%v: %v, u %v, %v; want %v, %v", x.s, pK, u, err, x.pK, x.u)
		}
	}
	for _, s := range []units.Strength{-1, 25.1, units.Strength(math.NaN())} {
		if pK, u, err := SO2PKInWine(s, units.Celsius(20)); err == nil || pK != 0 || u != 0 {
			t.Errorf("%v: %v, %v", s, pK, u)
		}
	}
	if _, _, err := SO2PKInWine(20, units.Celsius(12)); err == nil {
		t.Error("12 C: the table begins at 20")
	}
}

// 5,000 mg/L of SO2 and 50 g/L of acid are a slip of the unit.
func TestTenTimesTheUsualDoseIsAFinding(t *testing.T) {
	const mg = units.MilligramPerLitre
	for _, x := range []struct {
		a     Addition
		level units.Concentration
		key   string
	}{
		{AddedSO2, 5, "so2_far_above_usual"},
		{AddedSO2, 500 * mg, "so2_far_above_usual"},
		{AddedSO2, 499 * mg, ""},
		{AddedSO2, 0, ""},
		{AddedSorbicAcid, 2, "sorbic_acid_far_above_usual"},
		{AddedSorbicAcid, 1.99, ""},
		{AddedAcid, 20, "acid_far_above_usual"},
		{AddedAcid, 19.9, ""},
		{AddedCarbonate, 20, "carbonate_far_above_usual"},
		{AddedCarbonate, 19.9, ""},
		{AddedNitrogen, 1.99, ""},
		{AddedYeast, 2.5, "yeast_far_above_usual"},
		{AddedYeast, 2.49, ""},
		{AddedSorbicAcid, 200 * mg, ""},
		{AddedAcid, 50, "acid_far_above_usual"},
		{AddedAcid, 5, ""},
		{AddedCarbonate, 25, "carbonate_far_above_usual"},
		{AddedNitrogen, 2, "nitrogen_far_above_usual"},
		{AddedYeast, 25, "yeast_far_above_usual"},
	} {
		f, found, err := FarAboveUsual(x.a, x.level)
		if err != nil || found != (x.key != "") || f.Key != x.key || found && (f.Text == "" || f.Source == "") {
			t.Errorf("%v of %s: %+v, %v, %v", x.level, x.a, f, found, err)
		}
	}
	if f, _, _ := FarAboveUsual(AddedSO2, 5); !strings.HasPrefix(f.Text, "5000 mg/L of SO2 is 100 times the usual dose of 50 mg/L") {
		t.Errorf("%q", f.Text)
	}
	f, _, _ := FarAboveUsual(AddedSO2, 5)
	if err := formula.Check(f.Figures()); err != nil || f.Figures()[0].Fixed() != "5.000" || f.Figures()[1].Fixed() != "0.050" {
		t.Errorf("%v, %v", f.Figures(), err)
	}
	if source := f.Figures()[1].Source; !strings.Contains(source, "Understanding Wine Chemistry") {
		t.Errorf("the usual dose of SO2 is from %q", source)
	}
	var p *units.ParseError
	if _, _, err := FarAboveUsual("gunpowder", 1); !errors.As(err, &p) || len(p.Expected) != len(usualDoses) {
		t.Errorf("%v", err)
	}
	if _, _, err := FarAboveUsual(AddedAcid, -1); err == nil {
		t.Error("a dose below nothing passes")
	}
}
