package law

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"
	"time"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// The rows of the table as printed, by mass as its heading says: between 10 and
// 90 % the row itself, where the strength has that mass. The safe reading has them
// for % vol.
func TestFlashPointsAreTheRowsReadEitherWay(t *testing.T) {
	c := handbook.NewCheck(t, sourceFlash+", by mass", "C")
	for _, r := range handbook.Load(t, "testdata/ethanol_water_flash_points.csv").Rows {
		percent, want := r.Number("ethanol_pct_as_labelled"), r.Number("flash_point_C")
		if percent < 10 || percent == 96 && want == 17 { // printed twice, 17 and 13 C: the lower stands
			continue
		}
		if safe, _, err := FlashPoint(units.Strength(percent)); err != nil || math.Abs(safe.Celsius()-want) > 1e-9 {
			t.Errorf("%v %% vol: %v, %v; printed %v", percent, safe, err, want)
		}
		// The strength whose mass fraction is percent, by halving.
		lo, hi := units.Strength(6.4), units.Strength(96)
		for range 60 {
			if mid := (lo + hi) / 2; fractionOf(t, mid) < percent {
				lo = mid
			} else {
				hi = mid
			}
		}
		if percent > 90 {
			continue // stronger than the table by volume
		}
		_, other, err := FlashPoint(lo)
		if err != nil || math.Abs(other.Celsius()-want) > 1e-4 {
			t.Errorf("%v %% mass: %v, %v; printed %v", percent, other, err, want)
		}
		c.Printed(other.Celsius(), r.Text("flash_point_C"), r.Text("ethanol_pct_as_labelled")+" % mass")
	}
}

// fractionOf is % mass of a strength.
func fractionOf(t *testing.T, s units.Strength) float64 {
	t.Helper()
	return 100 * density.ByMass(float64(s))
}

// No source was read, and none was written, in a year to come.
func TestNoSourceIsOfAYearToCome(t *testing.T) {
	text, err := os.ReadFile("data/hazards.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, year := range regexp.MustCompile(`,(\d{4})(-\d\d-\d\d)?,`).FindAllStringSubmatch(string(text), -1) {
		if y, _ := strconv.Atoi(year[1]); y < 1800 || y > time.Now().Year()+1 {
			t.Errorf("a source of the year %d", y)
		}
	}
}

func TestProductDomains(t *testing.T) {
	of := func(with func(p *Product, x float64)) func(x float64) (float64, error) {
		return func(x float64) (float64, error) {
			p := Product{Category: GrapeWine, Levels: Levels{}}
			with(&p, x)
			return 0, p.check()
		}
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "sugar", Of: of(func(p *Product, x float64) { p.SugarLow, p.SugarHigh = units.Concentration(x), 1000 }), Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "sugar, high end", Of: of(func(p *Product, x float64) { p.SugarHigh = units.Concentration(x) }), Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "pH", Of: of(func(p *Product, x float64) { p.PH = x }), Good: []float64{0, 14}, Bad: []float64{-0.1, 14.1}},
		{Name: "uncertainty of the pH", Of: of(func(p *Product, x float64) { p.PHUncertainty = x }), Good: []float64{0, 7}, Bad: []float64{-0.1, 7.1}},
		{Name: "density", Of: of(func(p *Product, x float64) { p.Density = units.Density(x) }), Good: []float64{700, 1600}, Bad: []float64{699, 1601}},
	})
	// 24 % vol without extract has 0.970 kg/L; 10 % vol with 300 g/L has 1.10.
	if anyDensity.Low != 0.970 || anyDensity.High != 1.120 {
		t.Errorf("densities of wine from %v to %v", anyDensity.Low, anyDensity.High)
	}
	if sugarThatBursts != 2.0 { // makes 1 g/L of CO2; a still wine may hold 1.2 (CETIE Guide No. 1)
		t.Errorf("%v g/L burst", sugarThatBursts)
	}
}

// Total, free and combined SO2 by hand: the third from two, low and high.
func TestTheThirdOfTotalFreeAndCombined(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: %v, by hand %v", what, got, want)
		}
	}
	total, _, _, _ := Product{Levels: Levels{FreeSO2: 0.03, CombinedSO2: 0.08}}.sulfite()
	near("total, low", total.Low, 0.11)
	near("total, high", total.High, 0.11)
	_, free, _, _ := Product{Levels: Levels{TotalSO2: 0.11, CombinedSO2: 0.08}}.sulfite()
	near("free, low", free.Low, 0.03)
	near("free, high", free.High, 0.03)
	_, _, combined, _ := Product{Levels: Levels{TotalSO2: 0.11, FreeSO2: 0.03}}.sulfite()
	near("combined, low", combined.Low, 0.08)
	near("combined, high", combined.High, 0.08)
	if err := (Product{Category: GrapeWine, Levels: Levels{TotalSO2: 0.1, FreeSO2: 0.06, CombinedSO2: 0.06}}).check(); err == nil {
		t.Error("parts of 120 mg/L pass for a total of 100")
	}
	if _, stated := (Product{}).holds(PHAfterAcid, ""); stated {
		t.Error("a pH is stated that is none")
	}
	if r, stated := (Product{PH: 3.2}).holds(PHAfterAcid, ""); !stated || math.Abs(r.Low-3.2) > 1e-12 {
		t.Errorf("pH 3.2 is %v, %v", r, stated)
	}
}
