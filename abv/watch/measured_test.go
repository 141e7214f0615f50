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

// batch is a measured fermentation: hours, and the share of its sugar that was used.
type batch struct {
	name        string
	sugar       float64 // g/L
	hours, used []float64
	noise       gravity.SG // of its readings, as a hydrometer
}

// hexose of the synthetic musts, g/L, and the carbon dioxide of it by Balling.
const hexose = 200

func gasOf(y abv.Yield) float64 { return hexose * y.CarbonDioxide / (1 + y.CarbonDioxide + y.Yeast) }

// syntheticMust is followed by its loss of weight: S. cerevisiae and other yeasts,
// alone and together. The noise is that of the weighing, 1 g/L.
func syntheticMust(t *testing.T) (batches []batch, gas [][]float64) {
	t.Helper()
	for _, r := range handbook.Load(t, "testdata/fermentation_co2_curves.csv").Rows {
		name := r.Text("round") + " " + r.Text("community")
		if n := len(batches); n == 0 || batches[n-1].name != name {
			batches, gas = append(batches, batch{name: name, sugar: hexose, noise: 0.001}), append(gas, nil)
		}
		b, g := &batches[len(batches)-1], r.Number("co2_released_g_per_L")
		b.hours, b.used = append(b.hours, r.Number("time_h")), append(b.used, min(max(g, 0)/gasOf(abv.Must), 1))
		gas[len(gas)-1] = append(gas[len(gas)-1], g)
	}
	return batches, gas
}

// agaveJuice is followed by its sugar. The musts that the prior was set with are
// none of it.
func agaveJuice(t *testing.T) (batches []batch) {
	t.Helper()
	for _, r := range handbook.Load(t, "testdata/fermentation_agave_juice.csv").Rows {
		left := r.Number("glucose_g_per_L") + r.Number("fructose_g_per_L")
		if n := len(batches); n == 0 || batches[n-1].name != r.Text("run") {
			batches = append(batches, batch{name: r.Text("run"), sugar: left, noise: 0.001})
		}
		b := &batches[len(batches)-1]
		b.hours, b.used = append(b.hours, r.Number("time_h")), append(b.used, max(1-left/b.sugar, 0))
	}
	return batches
}

// measuredForecasts asks at every reading for the next level that was measured, while
// that is at most 97 of 100 of the whole fall, behind which the time of a level has no
// meaning, and at least three uncertainties of a reading away.
func measuredForecasts(t *testing.T, batches []batch) *tally {
	t.Helper()
	s := &tally{}
	for _, b := range batches {
		must := simulation{sugar: b.sugar, other: 10}
		og, _ := must.gravity(t, 0)
		log := []watch.Reading{{Time: start, Reading: og}}
		for i := 1; i+1 < len(b.used); i++ {
			_, now := must.gravity(t, b.used[i])
			_, level := must.gravity(t, b.used[i+1])
			log = append(log, watch.Reading{Time: after(b.hours[i]), Reading: now})
			if b.used[i+1] > 0.97*slices.Max(b.used) {
				break
			}
			if now-level < 3*b.noise {
				continue
			}
			if f, ok := forecast(t, log, level, b.noise); ok {
				s.add(f, b.hours[i+1])
			}
		}
	}
	return s
}

// The 80 % interval holds on measured fermentations, as far as so few can show: the
// share lies within the binomial 99 % band about 80.
func TestIntervalsHoldOnMeasuredFermentations(t *testing.T) {
	synthetic, _ := syntheticMust(t)
	a, b := measuredForecasts(t, synthetic), measuredForecasts(t, agaveJuice(t))
	a.report(t, "Forecasts of measured fermentations: synthetic must, 34 (the prior was set with them)")
	b.report(t, "Forecasts of measured fermentations: agave juice, 3 (not fitted to)")
	all := (&tally{}).plus(a, b)
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
