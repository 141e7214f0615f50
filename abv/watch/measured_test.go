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

// watchBatch is a measured fermentation: hours, and g of carbon dioxide that had
// left per litre.
type batch struct {
	name       string
	hours, gas []float64
}

// watchSugar is the hexose of the measured musts, g/L.
const sugar = 200

func measured(t *testing.T) []batch {
	t.Helper()
	var batches []batch
	for _, r := range handbook.Load(t, "testdata/fermentation_co2_curves.csv").Rows {
		name := r.Text("round") + " " + r.Text("community")
		if n := len(batches); n == 0 || batches[n-1].name != name {
			batches = append(batches, batch{name: name})
		}
		b := &batches[len(batches)-1]
		b.hours, b.gas = append(b.hours, r.Number("time_h")), append(b.gas, r.Number("co2_released_g_per_L"))
	}
	return batches
}

// Each measured fermentation is read as a spindle would have shown it, by the
// mass balance, up to half of its gas; the forecast is of the next level that
// was measured, if that is not yet its end (93 of 100), where the time at which
// a level is reached has no meaning. Reading noise is that of the weighing, 1 g/L.
// On a scale instead of a spindle the same forecast comes out.
func TestWatchMeasured(t *testing.T) {
	og, err := gravity.OfExtract(sugar)
	if err != nil {
		t.Fatal(err)
	}
	wine := func(gas float64) abv.Fermented {
		w, err := abv.FromWeightLoss(og, 1, units.Mass(max(gas, 0)), abv.Must)
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	all, err := abv.Potential(og, abv.Must, abv.WithNotSugar(abv.NotSugar{}))
	if err != nil {
		t.Fatal(err)
	}
	var scores []score
	lines := 0
	for _, b := range measured(t) {
		half, end := slices.Max(b.gas)/2, 0.93*slices.Max(b.gas)
		spindle := []watch.Reading{{Time: start, Reading: og}}
		scale := []watch.Reading{{Time: start, Reading: og, Mass: 1500}}
		for i := 1; i+1 < len(b.gas) && b.gas[i] <= half; i++ {
			at := after(b.hours[i])
			spindle = append(spindle, watch.Reading{Time: at, Reading: wine(b.gas[i]).Gravity})
			scale = append(scale, watch.Reading{Time: at, Mass: units.Mass(1500 - b.gas[i])})
			if b.gas[i+1] > min(end, float64(all.CarbonDioxide)) { // one batch gave off more than its sugar holds
				continue
			}
			c, err := watch.Follow(spindle, watch.Setup{Doubt: 0.001})
			if err != nil {
				t.Fatal(err)
			}
			if c.Method == watch.NoForecast {
				if c.State != watch.NotBegun {
					t.Errorf("%s after %.0f h: %s", b.name, b.hours[i], c.Why)
				}
				continue
			}
			level := wine(b.gas[i+1]).Gravity
			f, err := c.Reaches(level)
			if err != nil {
				t.Fatal(err)
			}
			scores = append(scores, score{b.hours[i+1], f})
			if c.Method == watch.ByLine {
				lines++
			}
			weighed, err := watch.Follow(scale, watch.Setup{Must: 1, WeighingDoubt: 1.03})
			if err != nil {
				t.Fatal(err)
			}
			if w, err := weighed.Reaches(level); err != nil || math.Abs(w.Early.Sub(f.Early).Hours()) > 0.05*f.Early.Sub(at).Hours() {
				t.Errorf("%s after %.0f h: %v by the scale, %v by the spindle; %v", b.name, b.hours[i], w.Early, f.Early, err)
			}
		}
	}
	report(t, fmt.Sprintf("Fermentation watch half-way, measured fermentations (%d from two readings, the others from one)", lines), most, scores)
}

// What 200 g/L of hexose give off, against the fermentations that were over: less
// than 1.5 g/L came in their last week. Gas that stays dissolved (1 to 1.5 g/L) is
// not in the measured figure.
func TestWatchGasYield(t *testing.T) {
	var ends []float64
	for _, b := range measured(t) {
		if n := len(b.gas); math.Abs(b.gas[n-1]-b.gas[n-2]) < 1.5 {
			ends = append(ends, b.gas[n-1])
		}
	}
	mean, deviation := stat.MeanStdDev(ends, nil)
	standard := deviation / math.Sqrt(float64(len(ends)))
	gas := func(y abv.Yield) float64 { return sugar * y.CarbonDioxide / (1 + y.CarbonDioxide + y.Yeast) }
	gayLussac := sugar * 2 * 44.010 / 180.156 // C6H12O6 = 2 C2H5OH + 2 CO2
	t.Logf("rms | Carbon dioxide of 200 g/L of hexose, measured fermentations that were over | %d | %s; %s", len(ends),
		fmt.Sprintf("measured %.1f, standard error %.1f g/L", mean, standard),
		fmt.Sprintf("Balling's must %.1f, his wort %.1f, Gay-Lussac without yeast %.1f g/L", gas(abv.Must), gas(abv.Wort), gayLussac))
	// Dissolved gas and three standard errors.
	for name, y := range map[string]abv.Yield{"must": abv.Must, "wort": abv.Wort} {
		if math.Abs(gas(y)-mean) > 1.5+3*standard {
			t.Errorf("%s: %.1f g/L, measured %.1f", name, gas(y), mean)
		}
	}
}
