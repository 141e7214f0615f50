package watch

import (
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// WatchPlan says what is awaited and how the readings were taken. Each field
// says what its zero stands for; the zero plan watches without a window.
type Setup struct {
	// Hydrometer that took the readings; zero: the common one, made for 20 C.
	Hydrometer gravity.Hydrometer
	// Yield of alcohol; zero: Must.
	Yield abv.Yield
	// Goal of the wine when it is stopped; zero: no window is looked for.
	Goal abv.Goal
	// Must is the volume at the start, at 20 C. It is needed where the vessel
	// was weighed; zero otherwise.
	Must units.Volume
	// YeastLimit is the strength the yeast bears, 1 to 30; zero: 17.5 % vol, which
	// inhibits by itself (Margalit 2012, as quoted).
	YeastLimit units.Strength
	// Doubt is the standard uncertainty of a reading, 0.00001 to 0.01; zero:
	// 0.0007, half a division of 0.001 for the eye and as much for gas and
	// temperature (common practice, no source). Two readings are equal within 1.5
	// times that, one is higher than another beyond twice that.
	Doubt gravity.SG
	// WeighingDoubt is the standard uncertainty of the mass lost, gas that is
	// still dissolved included; zero: 1 g per litre of must (stated for a
	// published series of weighed fermentations).
	WeighingDoubt units.Mass
	// Still is how long readings must hold before the fermentation is called
	// stuck, finished or stopped, from 1 h; zero: 48 h (common practice, no source).
	Still time.Duration
	// Arrested is when it was stopped with cold, sulfite and sorbate or spirit;
	// zero: it was not. That is an intention: the readings must show it.
	Arrested time.Time
	// Now is the time of asking; zero: that of the last reading.
	Now time.Time
	// Horizon is how far beyond the last reading the course is forecast, 1 h to
	// five years; zero: 14 days.
	Horizon time.Duration
}

const (
	limit    = 17.5   // % vol
	doubt    = 0.0007 // SG
	weighing = 1.0    // g per litre of must
	still    = 48 * time.Hour
	horizon  = 14 * day
	longest  = 5 * 365 * day
	day      = 24 * time.Hour
	equal    = 1.5 // times Doubt
	higher   = 2.0 // times Doubt
)

// settled is the plan with every zero replaced by what it stands for.
func (w Setup) settled() (Setup, error) {
	defaultSetup(&w.Yield, abv.Must)
	defaultSetup(&w.YeastLimit, limit)
	defaultSetup(&w.Doubt, doubt)
	defaultSetup(&w.Still, still)
	defaultSetup(&w.Horizon, horizon)
	defaultSetup(&w.WeighingDoubt, units.Mass(weighing*float64(w.Must)))
	for _, c := range [...]struct {
		quantity  string
		x, lo, hi float64
		unit      string
	}{
		{"strength the yeast bears", float64(w.YeastLimit), 1, 30, "% vol"},
		{"doubt of a reading", float64(w.Doubt), 1e-5, 0.01, ""},
		{"volume of must", float64(w.Must), 0, check.MostVolume, "L"},
		{"doubt of the mass lost", float64(w.WeighingDoubt), 0, check.MostVolume, "g"},
		{"time that readings must hold", w.Still.Hours(), 1, longest.Hours(), "h"},
		{"horizon of the forecast", w.Horizon.Hours(), 1, longest.Hours(), "h"},
	} {
		if err := units.Check(c.quantity, c.x, c.lo, c.hi, c.unit, ""); err != nil {
			return w, err
		}
	}
	return w, balance.Yield(w.Yield).Check()
}

func defaultSetup[T comparable](field *T, standsFor T) {
	var zero T
	if *field == zero {
		*field = standsFor
	}
}
