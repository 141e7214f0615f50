package watch_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// batch is a measured fermentation: hours, what a hydrometer showed or would have
// shown in it, and the share of its sugar that was used where that was measured. The
// first is the must.
type batch struct {
	name  string
	hours []float64
	read  []gravity.SG
	used  []float64
	noise gravity.SG // of its readings
}

// batches are those of a table, which says how a row is read.
func batches(t *testing.T, path, name string, noise gravity.SG, read func(handbook.Row) gravity.SG) (all []batch) {
	t.Helper()
	for _, r := range handbook.Load(t, path).Rows {
		if n := len(all); n == 0 || all[n-1].name != r.Text(name) {
			all = append(all, batch{name: r.Text(name), noise: noise})
		}
		b := &all[len(all)-1]
		b.hours, b.read = append(b.hours, r.Number("time_h")), append(b.read, read(r))
	}
	return all
}

// ofBrix is the gravity that apparent Brix or Plato stand for; below 0 by the slope of
// the scale at 0.
func ofBrix(t *testing.T, b float64) gravity.SG {
	t.Helper()
	if b < 0 {
		return gravity.SG(1 + 0.00388*b)
	}
	g, err := gravity.Brix(b).SG()
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// hexose of the synthetic musts, g/L, and the carbon dioxide of it by Balling.
const hexose = 200

func gasOf(y abv.Yield) float64 { return hexose * y.CarbonDioxide / (1 + y.CarbonDioxide + y.Yeast) }

// syntheticMust is followed by its loss of weight: S. cerevisiae and other yeasts,
// alone and together. The noise is that of the weighing, 1 g/L.
func syntheticMust(t *testing.T) (all []batch, gas [][]float64) {
	t.Helper()
	for _, r := range handbook.Load(t, "testdata/fermentation_co2_curves.csv").Rows {
		name := r.Text("round") + " " + r.Text("community")
		if n := len(all); n == 0 || all[n-1].name != name {
			all, gas = append(all, batch{name: name, noise: 0.001}), append(gas, nil)
		}
		g := r.Number("co2_released_g_per_L")
		all[len(all)-1].add(t, hexose, r.Number("time_h"), min(max(g, 0)/gasOf(abv.Must), 1))
		gas[len(gas)-1] = append(gas[len(gas)-1], g)
	}
	return all, gas
}

// add notes the share of this much sugar that is used at an hour.
func (b *batch) add(t *testing.T, sugar, hour, used float64) {
	t.Helper()
	_, now := simulation{sugar: sugar, other: 10}.gravity(t, used)
	b.hours, b.used, b.read = append(b.hours, hour), append(b.used, used), append(b.read, now)
}

// agaveJuice is followed by its sugar.
func agaveJuice(t *testing.T) (all []batch) {
	t.Helper()
	sugar := 0.0
	for _, r := range handbook.Load(t, "testdata/fermentation_agave_juice.csv").Rows {
		left := r.Number("glucose_g_per_L") + r.Number("fructose_g_per_L")
		if n := len(all); n == 0 || all[n-1].name != r.Text("run") {
			all, sugar = append(all, batch{name: r.Text("run"), noise: 0.001}), left
		}
		all[len(all)-1].add(t, sugar, r.Number("time_h"), max(1-left/sugar, 0))
	}
	return all
}

// pinotNoir is followed in the tanks of a pilot winery.
func pinotNoir(t *testing.T) []batch {
	t.Helper()
	return batches(t, "testdata/fermentation_pinot_noir.csv", "batch", 0.001, func(r handbook.Row) gravity.SG { return ofBrix(t, r.Number("brix")) })
}

// wort is followed by sensors.
func wort(t *testing.T) []batch {
	t.Helper()
	return batches(t, "testdata/fermentation_wort.csv", "batch", 0.001, func(r handbook.Row) gravity.SG { return ofBrix(t, r.Number("plato")) })
}

// sauvignonBlanc is followed by its density, which scatters by 0.001, or by its sugar,
// which scatters by twice that.
func sauvignonBlanc(t *testing.T) (all []batch) {
	t.Helper()
	sugar := 0.0
	for _, r := range handbook.Load(t, "testdata/fermentation_sauvignon_blanc.csv").Rows {
		x, bySugar := r.Number("value"), r.Text("kind") == "sugar_g_per_L"
		if n := len(all); n == 0 || all[n-1].name != r.Text("batch") {
			all, sugar = append(all, batch{name: r.Text("batch"), noise: 0.001}), x
		}
		b := &all[len(all)-1]
		if bySugar {
			b.noise = 0.002
			b.add(t, sugar, r.Number("time_h"), min(max(1-x/sugar, 0), 1))
			continue
		}
		b.hours, b.read = append(b.hours, r.Number("time_h")), append(b.read, gravity.SG(x/998.2)) // kg/m3 of water at 20 C
	}
	return all
}

// measuredForecasts asks at every reading for the next level that was measured, while
// that is at most 97 of 100 of the whole fall, behind which the time of a level has no
// meaning, and at least three uncertainties of a reading away. The tallies are by the
// number of readings: one, two, three and more.
func measuredForecasts(t *testing.T, batches []batch) (by [3]*tally) {
	t.Helper()
	for i := range by {
		by[i] = &tally{}
	}
	for k, b := range batches {
		if testing.Short() && k%4 != 0 {
			continue
		}
		og, lowest := b.read[0], slices.Min(b.read)
		log := []watch.Reading{{Time: after(b.hours[0]), Reading: og}}
		for i := 1; i+1 < len(b.read); i++ {
			now, level := b.read[i], b.read[i+1]
			log = append(log, watch.Reading{Time: after(b.hours[i]), Reading: now})
			if og-level > 0.97*(og-lowest) {
				break
			}
			if now-level < 3*b.noise {
				continue
			}
			if f, ok := forecast(t, log, level, b.noise); ok {
				by[min(i, 3)-1].add(f, b.hours[i+1])
			}
		}
	}
	return by
}

// The 80 % interval holds on measured fermentations, as far as so few can show: the
// share lies within the binomial 99 % band about 80. Pinot noir, Sauvignon blanc and
// wort were looked at after the prior had been set; since then one of the model's errors
// was narrowed for the simulated musts (later, from 0.4), by which none of these changed.
func TestIntervalsHoldOnMeasuredFermentations(t *testing.T) {
	synthetic, _ := syntheticMust(t)
	all, byClass := &tally{}, [3]*tally{{}, {}, {}}
	for _, m := range []struct {
		name    string
		batches []batch
	}{
		{"synthetic must, 34 (the prior was set with them)", synthetic},
		{"agave juice, 3 (not fitted to)", agaveJuice(t)},
		{"Pinot noir, 56 tanks (not fitted to)", pinotNoir(t)},
		{"Sauvignon blanc, 9 (not fitted to)", sauvignonBlanc(t)},
		{"wort, 11 (not fitted to)", wort(t)},
	} {
		by := measuredForecasts(t, m.batches)
		s := (&tally{}).plus(by[:]...)
		s.report(t, "Forecasts of measured fermentations: "+m.name)
		all.plus(s)
		for i := range by {
			byClass[i].plus(by[i])
		}
	}
	for i, class := range []string{"one reading", "two readings", "three readings and more"} {
		byClass[i].report(t, "Forecasts of measured fermentations from "+class+": all")
	}
	all.report(t, "Forecasts of measured fermentations, all")
	if band := 2.576 * math.Sqrt(80*20/float64(all.n())); math.Abs(all.percent(all.held)-80) > band {
		t.Errorf("the interval holds %.1f %% of %d; 80 ± %.1f expected", all.percent(all.held), all.n(), band)
	}
}

// On a scale instead of a hydrometer the same forecast comes out, as nearly as two
// samples of 256 curves agree about the end of an interval: to a quarter of its width.
func TestAScaleForecastsAsAHydrometerDoes(t *testing.T) {
	synthetic, gas := syntheticMust(t)
	const part = 0.25
	must := simulation{sugar: hexose}
	og, level := must.gravity(t, 0.75)
	for k, b := range synthetic {
		if testing.Short() && k%4 != 0 {
			continue
		}
		read := []watch.Reading{{Time: start, Reading: og}}
		weighed := []watch.Reading{{Time: start, Reading: og, Mass: 1500}}
		for i := 1; i < len(b.used) && b.used[i] < 0.6; i++ {
			_, now := must.gravity(t, b.used[i])
			read = append(read, watch.Reading{Time: after(b.hours[i]), Reading: now})
			weighed = append(weighed, watch.Reading{Time: after(b.hours[i]), Mass: units.Mass(1500 - max(gas[k][i], 0))})
		}
		scale, err := watch.Follow(weighed, watch.Setup{Must: 1, WeighingUncertainty: 1.03, Horizon: farAhead})
		if err != nil {
			t.Fatal(b.name, err)
		}
		f, ok := forecast(t, read, level, 0.001)
		if !ok {
			continue
		}
		if f.Early.IsZero() { // a yeast that gives up before
			if w, err := scale.Reaches(level); err != nil || w.Chance > f.Chance+0.1 {
				t.Errorf("%s: %+v by the scale, %+v by the hydrometer; %v", b.name, w, f, err)
			}
			continue
		}
		o, ok := scale.At(f.Early)
		if !ok || math.Abs(float64(o.More.Gravity-level)) > part*float64(o.Less.Gravity-o.More.Gravity)+1e-3 {
			t.Errorf("%s: at %v %.4f by the scale, %.4f by the hydrometer", b.name, f.Early, float64(o.More.Gravity), float64(level))
		}
	}
}

// What 200 g/L of hexose give off, against the fermentations that were over: less
// than 1.5 g/L came in their last week. Gas that stays dissolved (1 to 1.5 g/L) is
// not in the measured figure.
func TestGasOfMeasuredFermentations(t *testing.T) {
	var ends []float64
	_, gas := syntheticMust(t)
	for _, g := range gas {
		if n := len(g); math.Abs(g[n-1]-g[n-2]) < 1.5 {
			ends = append(ends, g[n-1])
		}
	}
	mean, deviation := stat.MeanStdDev(ends, nil)
	standard := deviation / math.Sqrt(float64(len(ends)))
	gayLussac := hexose * 2 * 44.010 / 180.156 // C6H12O6 = 2 C2H5OH + 2 CO2
	t.Logf("rms | Carbon dioxide of 200 g/L of hexose, measured fermentations that were over | %d | %s; %s", len(ends),
		fmt.Sprintf("measured %.1f, standard error %.1f g/L", mean, standard),
		fmt.Sprintf("Balling's must %.1f, his wort %.1f, Gay-Lussac without yeast %.1f g/L", gasOf(abv.Must), gasOf(abv.Wort), gayLussac))
	// Dissolved gas and three standard errors.
	for name, y := range map[string]abv.Yield{"must": abv.Must, "wort": abv.Wort} {
		if math.Abs(gasOf(y)-mean) > 1.5+3*standard {
			t.Errorf("%s: %.1f g/L, measured %.1f", name, gasOf(y), mean)
		}
	}
}
