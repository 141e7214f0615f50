package watch

import (
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// Setup says what is awaited and how the readings were taken. Each field says what
// its zero stands for; the zero Setup follows without a window.
type Setup struct {
	// Hydrometer that took the readings; zero: the common one, made for 20 C.
	Hydrometer gravity.Hydrometer
	// Factor of the refractometer in this must, 0.9 to 1.15 (see
	// gravity.Refractometer.Extract); zero: 1.
	Factor float64
	// Yield of alcohol; zero: that of must.
	Yield abv.Yield
	// Goal of the wine when it is stopped; zero: no window is looked for.
	Goal abv.Goal
	// Original is the original gravity, true at 20 C, where the log begins after
	// the start; zero: the earliest reading is the must.
	Original gravity.SG
	// Started is when the yeast was added, not later than Now. It serves beside Original
	// only, and readings before it are set apart unless they are the must's; zero: the
	// first two readings are drawn back to the must.
	Started time.Time
	// Must is the volume at the start, at 20 C. It is needed where the vessel
	// was weighed; zero otherwise.
	Must units.Volume
	// YeastLimit is the strength up to which the yeast ferments, 1 to 30; zero: 17.5
	// % vol, which inhibits by itself (Y. Margalit, Concepts in Wine Technology, 3rd ed., 2012; summary read).
	YeastLimit units.Strength
	// Uncertainty is the standard uncertainty of a hydrometer reading, 0.00001 to 0.01;
	// zero: 0.0007, half a division of 0.001 for the eye and as much for gas and
	// temperature (common practice, no source). A floating sensor needs
	// SensorUncertainty. Two readings are equal within 1.5 times that, one is higher
	// than another beyond twice that.
	Uncertainty gravity.SG
	// RefractometerUncertainty is that of a refractometer, 0.01 to 2 Brix; zero: 0.2,
	// a division for the eye and as much for what is no sugar (common practice, no
	// source).
	RefractometerUncertainty gravity.Brix
	// WeighingUncertainty is the standard uncertainty of the mass lost, gas that is
	// still dissolved included; zero: 1 g per litre of must (stated for a
	// published series of weighed fermentations).
	WeighingUncertainty units.Mass
	// Still is how long readings must hold before the fermentation is called
	// stuck, finished or stopped, from 1 h; zero: 48 h (common practice, no source).
	Still time.Duration
	// Cooling is how long the vessel takes to get cold, to five days; zero: not
	// stated, and the fall while it cools is given for an hour.
	Cooling time.Duration
	// Arrested is when it was stopped with cold, sulfite and sorbate or spirit;
	// zero: it was not. Not before the must. That is an intention: the readings must show it.
	Arrested time.Time
	// Now is the time of asking, to Horizon after the last reading before it; zero: that of
	// the last reading.
	Now time.Time
	// Horizon is how far beyond the last reading the course is forecast, 1 h to
	// five years; zero: 14 days.
	Horizon time.Duration
}

// SensorUncertainty is the Setup.Uncertainty of a sensor that floats in the must, by
// the hour: yeast and bubbles cling to it. With it the forecasts of one batch logged
// by a sensor held in 36 of 36 cases, with that of a hydrometer in 36 of 48.
const SensorUncertainty gravity.SG = 0.002

const (
	day              = 24 * time.Hour
	usualLimit       = 17.5   // % vol
	usualUncertainty = 0.0007 // SG
	usualRefractive  = 0.2    // Brix
	usualWeighing    = 1.0    // g per litre of must
	usualStill       = 48 * time.Hour
	usualHorizon     = 14 * day
	longest          = 5 * 365 * day
	longestCooling   = 5 * day
	equal            = 1.5 // times the uncertainty
	higher           = 2.0 // times the uncertainty
	leastFactor      = 0.9
	greatestFactor   = 1.15
)

// mustYield is the usual yield; changing abv.Must does not change it.
var mustYield = abv.Must

// settled is the setup with every zero replaced by what it stands for.
func (s Setup) settled() (Setup, error) {
	usual(&s.Yield, mustYield)
	usual(&s.YeastLimit, usualLimit)
	usual(&s.Uncertainty, usualUncertainty)
	usual(&s.RefractometerUncertainty, usualRefractive)
	usual(&s.Factor, 1)
	usual(&s.Still, usualStill)
	usual(&s.Horizon, usualHorizon)
	usual(&s.WeighingUncertainty, units.Mass(usualWeighing*float64(s.Must)))
	for _, c := range [...]struct {
		quantity  string
		x, lo, hi float64
		unit      string
	}{
		{"yeast limit", float64(s.YeastLimit), 1, 30, "% vol"},
		{"uncertainty of a reading", float64(s.Uncertainty), 1e-5, 0.01, ""},
		{"uncertainty of a refractometer reading", float64(s.RefractometerUncertainty), 0.01, 2, "Brix"},
		{"correction factor of the refractometer", s.Factor, leastFactor, greatestFactor, ""},
		{"volume of must", float64(s.Must), 0, check.MostVolume, "L"},
		{"uncertainty of the mass lost", float64(s.WeighingUncertainty), 0, check.MostVolume, "g"},
		{"time that readings must hold", s.Still.Hours(), 1, longest.Hours(), "h"},
		{"time that cooling takes", s.Cooling.Hours(), 0, longestCooling.Hours(), "h"},
		{"horizon of the forecast", s.Horizon.Hours(), 1, longest.Hours(), "h"},
	} {
		if err := units.Check(c.quantity, c.x, c.lo, c.hi, c.unit, ""); err != nil {
			return s, err
		}
	}
	return s, balance.Yield(s.Yield).Check()
}

func usual[T comparable](field *T, standsFor T) {
	var zero T
	if *field == zero {
		*field = standsFor
	}
}
