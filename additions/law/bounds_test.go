package law

import (
	"errors"
	"math"
	"testing"

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

// No source was read in a time to come, none was written after it was read.
func TestNoSourceIsOfATimeToCome(t *testing.T) {
	for _, r := range hazards() {
		handbook.Dated(t, r["key"], r["source"], r["text_date"], r["looked_up"])
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

// Both ends of the sugar have a bound of their own, and the error says which was
// broken.
func TestAnErrorNamesTheEndOfTheSugar(t *testing.T) {
	for name, p := range map[string]Product{
		"sugar":           {Category: GrapeWine, SugarLow: 1010, SugarHigh: 1010},
		"sugar, high end": {Category: GrapeWine, SugarLow: 80, SugarHigh: 1010},
	} {
		var outside *units.RangeError
		if _, err := Check("US", p); !errors.As(err, &outside) || outside.Quantity != name || outside.Max != 1000 {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Halfway between 5 and 10 % the point is halfway between 62 and 49 C. The least
// strength is 5 % mass: with 989.4 kg/m3 of that mixture and 789.24 of ethanol at
// 20 C (OIML R 22) it has 5*989.4/789.24 = 6.268 % vol.
func TestTheLowEndOfTheFlashPoints(t *testing.T) {
	if safe, _, err := FlashPoint(7.5); err != nil || math.Abs(safe.Celsius()-55.5) > 1e-9 {
		t.Errorf("7.5 %% vol: %v, %v", safe, err)
	}
	handbook.Domains(t, []handbook.Domain{{Name: "FlashPoint", Of: func(x float64) (float64, error) {
		safe, _, err := FlashPoint(units.Strength(x))
		return float64(safe), err
	}, Good: []float64{6.27}, Bad: []float64{6.26, 96.01}}})
}

// 210 mg/L are 200 mg/kg at 1050 kg/m3. Without a density they lie between
// 210/1.12 = 187.5 and 210/0.97 = 216.49.
func TestLevelsByMass(t *testing.T) {
	p := Product{Density: 1050, Levels: so2(210)}
	if r, ok := p.holds(TotalSO2, "mg/kg"); !ok || math.Abs(r.Low-200) > 1e-9 || math.Abs(r.High-200) > 1e-9 {
		t.Errorf("at 1050 kg/m3: %v, %v", r, ok)
	}
	p.Density = 0
	if r, ok := p.holds(TotalSO2, "mg/kg"); !ok || math.Abs(r.Low-187.5) > 1e-9 || math.Abs(r.High-210/0.97) > 1e-9 {
		t.Errorf("without a density: %v, %v", r, ok)
	}
}
