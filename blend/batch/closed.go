package batch

import (
	"fmt"

	"example.org/mutage/additions/stability"
	"example.org/mutage/units"
)

// The bottle that a liquid which is not still is thought into: 75 cL with 25 mL of
// head space (common practice, no source), saturated with CO2 as under an airlock,
// kept in a warm room.
const (
	bottleBrimful   = 775 * units.Millilitre
	bottleHeadspace = 25 * units.Millilitre
)

var warmRoom = units.Celsius(25)

// closed is what a bottle of the liquid would come to; nothing where it is still,
// and where the liquid is beyond what stability.SealedPressure covers.
func (j *job) closed(l *Liquid) stability.Sealed {
	if l.Verdict.Outlook == stability.Still {
		return stability.Sealed{}
	}
	b := stability.Closed{Volume: bottleBrimful, Headspace: bottleHeadspace}
	var err error
	if b.CO2, err = stability.DissolvedCO2(l.Strength, l.Sugar.High, units.Celsius(20), units.Atmosphere); err != nil {
		return stability.Sealed{}
	}
	wine := j.wine(l, Stated[units.Temperature]{}, j.b.so2(), 0)
	s, err := stability.SealedPressure(wine, b, warmRoom)
	if err != nil {
		return stability.Sealed{}
	}
	return s
}

// bursts says what a bottle of the liquid would come to and, the first time, what
// a bottle of wine is made for.
func (j *job) bursts(l *Liquid, first *bool) string {
	if l.Closed.Overpressure <= 0 {
		return ""
	}
	text := fmt.Sprintf(" (closed, it could reach %s bar", units.Round(l.Closed.Overpressure.In(units.Bar), 0))
	if *first {
		text += fmt.Sprintf("; a still-wine cork is made for %s", units.Round(l.Closed.Limits[0].Limit.In(units.Bar), 0))
		*first = false
	}
	return text + ")"
}
