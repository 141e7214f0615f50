package abv_test

import (
	"fmt"
	"math"
	"sort"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Ten litres of 1.070, 679.4 g of sugar later on: as much as 10.42 L of 1.092.
// It reads 1.046 now.
func ExampleMassBalancePortions() {
	w, _ := abv.MassBalancePortions(1.070, 10, 1.046, abv.Must, abv.Portion{Sugar: 400 * units.Gram}, abv.Portion{Sugar: 279.4 * units.Gram})
	fmt.Printf("as if from %.3f: %.3f %% vol, %.1f g/L, %.2f L\n", float64(w.Original), float64(w.Strength), float64(w.Extract), float64(w.Wine))
	// Output: as if from 1.092: 6.235 % vol, 142.4 g/L, 10.39 L
}

// In how many portions does not matter, nor whether the sugar was there from
// the start; a portion's water thins.
func TestPortionsBalance(t *testing.T) {
	p, _ := gravity.SG(1.080).Plato()
	mass := 1.080 * density.Water20 * 10 // g in 10 L
	one, err := abv.MassBalance(1.080, 1.030, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	// Take 800 g of its sugar out, give it back in three portions.
	thin := (mass*float64(p)/100 - 800) / (mass - 800)
	og := gravity.SG(density.Sucrose20(thin) / density.Water20)
	must := units.Volume((mass - 800) / (float64(og) * density.Water20))
	w, err := abv.MassBalancePortions(og, must, 1.030, abv.Must, abv.Portion{Sugar: 300}, abv.Portion{Sugar: 100}, abv.Portion{Sugar: 400})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(w.Original)-1.080) > 1e-9 || math.Abs(float64(w.Must)-10) > 1e-9 || math.Abs(float64(w.Strength-one.Strength)) > 1e-7 {
		t.Errorf("in portions %+v, at once %+v", w, one)
	}
	if math.Abs(float64(w.Alcohol)-float64(w.Wine)*float64(w.Strength)/100*density.PureEthanol) > 1e-9 ||
		math.Abs(float64(w.Sugar)-10*float64(w.SugarUsed)) > 1e-6 {
		t.Errorf("sums: %+v", w)
	}
	none, err := abv.MassBalancePortions(1.080, 10, 1.030, abv.Must)
	if err != nil || math.Abs(float64(none.Strength-one.Strength)) > 1e-9 {
		t.Errorf("no portions: %+v, %v", none, err)
	}
	syrup, err := abv.MassBalancePortions(1.080, 10, 1.030, abv.Must, abv.Portion{Sugar: 300, Water: 300})
	if err != nil || syrup.Must <= 10.3 {
		t.Errorf("syrup: %+v, %v", syrup, err)
	}
}

// Weighing tells the same wine as the hydrometer does.
func TestWeightLossAgreesWithSpindle(t *testing.T) {
	for _, fg := range []gravity.SG{1.092, 1.046, 1.000, 0.990} {
		f, err := abv.MassBalance(1.092, fg, abv.Must)
		if err != nil {
			t.Fatal(err)
		}
		w, err := abv.FromWeightLoss(1.092, 5, units.Mass(5*float64(f.CarbonDioxide)), abv.Must)
		if err != nil || math.Abs(float64(w.Gravity-fg)) > 1e-9 || math.Abs(float64(w.Strength-f.Strength)) > 1e-7 {
			t.Errorf("%v: %+v, %v", fg, w, err)
		}
	}
}

// A check on the hydrometer that needs no sample: 5 L that lost 234.6 g.
func ExampleFromWeightLoss() {
	w, _ := abv.FromWeightLoss(1.092, 5*units.Litre, 234.6*units.Gram, abv.Must)
	gas, _ := abv.GasVolume(234.6*units.Gram, units.Celsius(20))
	fmt.Printf("%.1f %% vol, it should read %.3f; %.0f L of gas went\n", float64(w.Strength), float64(w.Gravity), float64(gas))
	// Output: 6.2 % vol, it should read 1.046; 127 L of gas went
}

// Measured fermentations of 200 g/L of sugar, by weight loss: where they end is
// where Balling's must yield puts it.
func TestWeightLossMeasuredGas(t *testing.T) {
	last := map[string]float64{}
	for _, r := range handbook.Load(t, "watch/testdata/fermentation_co2_curves.csv").Rows {
		batch := r.Text("round") + " " + r.Text("community")
		last[batch] = max(last[batch], r.Number("co2_released_g_per_L"))
	}
	var ends []float64
	for _, end := range last {
		ends = append(ends, end)
	}
	sort.Float64s(ends)
	want := 200 / (1 + abv.Must.CarbonDioxide + abv.Must.Yeast) * abv.Must.CarbonDioxide
	c := handbook.NewCheck(t, "Carbon dioxide from 200 g/L, Balling's must yield against the median of measured fermentations", "g/L")
	// Of the gas 1 to 2 g/L stay dissolved and 200 g/L of sugar are not printed to
	// more than 1 %.
	c.Differs(want, ends[len(ends)/2], 2+0.01*want, "2 g/L of the gas stay dissolved, the sugar is known to 1 %", fmt.Sprintf("%d batches", len(ends)))
}
