package watch_test

import (
	"testing"

	"example.org/mutage/internal/handbook"
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
