package gravity

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Hydrometer is an instrument that floats: at its calibration temperature its scale shows the
// gravity of the liquid against water of its reference temperature. The zero
// value is the common instrument: made for 20 C, water at 20 C, soda-lime
// glass, no scale error, read level with the surface. The With methods make
// another one; a setting outside its domain is reported when the hydrometer is
// used.
//
// A hydrometer divided in other units serves through SG: Brix by CorrectBrix,
// Baume and Oechsle by their SG methods.
//
// Degas the sample first (pour it to and fro, or shake and vent): bubbles of
// carbon dioxide lift the hydrometer and no formula removes that.
type Hydrometer struct {
	// Differences from the common instrument, so that the zero value is it.
	calibration float64 // C above 20
	water       float64 // density of the reference water above that of Water20
	glass       float64 // cubic expansion above that of soda-lime glass
	offset      float64 // scale error: added to the reading,
	slope       float64 // and this much more per unit above 1
	rise        float64 // meniscus
	err         error
}

// Domain of the readings by temperature: that of the sucrose formula.
const (
	coldest = density.MinSucroseTemperature
	hottest = density.MaxSucroseTemperature
)

// NewHydrometer is a hydrometer that reads true at this temperature, in water 1.000.
// Domain of the temperature: 0 to 40 C.
func NewHydrometer(calibration units.Temperature) Hydrometer {
	h := Hydrometer{calibration: calibration.Celsius() - 20}
	h.refuse(units.Check("calibration temperature", calibration.Celsius(), 0, warmestBasis, "C", ""))
	return h.WithWater(calibration)
}

// WithWater refers the scale to water of another temperature: 4 C for a hydrometer
// marked 20/4. Domain 0 to 40 C.
func (h Hydrometer) WithWater(reference units.Temperature) Hydrometer {
	h.refuse(units.Check("temperature of the reference water", reference.Celsius(), 0, warmestBasis, "C", ""))
	if h.err == nil {
		h.water = density.Water(reference.Celsius()) - density.Water20
	}
	return h
}

// WithGlass sets the cubic expansion of the hydrometer per C: 25e-6 for soda-lime
// glass unless set, about 10e-6 for borosilicate, 200e-6 for plastic (both
// from memory). Domain 0 to 300e-6.
func (h Hydrometer) WithGlass(expansion float64) Hydrometer {
	h.refuse(units.Check("cubic expansion", expansion, 0, 300e-6, "1/C", ""))
	h.glass = expansion - density.Glass
	return h
}

// WithMeniscus is for a hydrometer read where the liquid climbs the stem, as in
// coloured must where the level surface cannot be seen: rise is how much lower
// the scale reads there. It is 0.001 to 0.002 on common hydrometers (common
// practice, no source); read your own both ways in clear sugar water. Domain 0
// to 0.005.
func (h Hydrometer) WithMeniscus(rise SG) Hydrometer {
	h.refuse(units.Check("rise of the meniscus", float64(rise), 0, 0.005, "", ""))
	h.rise = float64(rise)
	return h
}

// refuse records an error unless an earlier one is recorded.
func (h *Hydrometer) refuse(err error) {
	if h.err == nil {
		h.err = err
	}
}

// Correct is the gravity at 20 C of must or sugar solution in which the hydrometer
// shows reading at this temperature: the sucrose content w solves
//
//	rho(w, at) (1 + glass (at - calibration)) = reading rho_water(reference)
//
// Domain: 0 to 100 C; readings whose extract is -5 to 70 % mass (SG 0.98104 to
// 1.3499 at 20 C). Against a cane-sugar laboratory table, 11 to 25 Brix at 10
// to 30 C, it holds to 0.015 Brix up to 25 C and 0.032 at 30 C.
//
// Alcohol makes a liquid expand more. Away from 20 C this function then errs by
// 0.00007 to 0.00008 per C in a wine of 12 % vol and 0.00016 to 0.00017 at 18 % vol,
// low when warm and high when cold: CorrectIn takes the strength into account.
// Source: ICUMSA 1990, ISO 1768. Error: *units.RangeError.
func (h Hydrometer) Correct(reading SG, at units.Temperature) (SG, error) {
	if h.err != nil {
		return 0, h.err
	}
	t := at.Celsius()
	if !(t >= coldest && t <= hottest) {
		return 0, units.Check("temperature of the sample", t, coldest, hottest, "C", density.SourceSucrose)
	}
	w, ok := density.SucroseOfDensity(h.indicated(reading)/h.expansion(t), t, minApparent/100)
	if !ok {
		e := h.outside(reading, at, h.show(density.Sucrose(minApparent/100, t), t), h.show(density.Sucrose(density.MaxSucrose, t), t), sourceApparent)
		if e.Value < e.Min && e.Value > lightestRead {
			e.Cause = fmt.Sprintf("a reading of %.6g means much alcohol: use CorrectIn with the strength", float64(reading))
		}
		return 0, e
	}
	return SG(density.Sucrose20(w) / density.Water20), nil
}

// CorrectBrix is Correct for a hydrometer divided in Brix or Plato that reads true
// at the calibration temperature. Scale error and meniscus, where set, are in
// SG. Domain: 0 to 100 C; readings of 0 to 70 whose extract is 0 to 70.
// Error: *units.RangeError.
func (h Hydrometer) CorrectBrix(reading Brix, at units.Temperature) (Brix, error) {
	if err := units.Check("hydrometer reading", float64(reading), 0, maxExtract, "% mass", density.SourceSucrose); err != nil {
		return 0, err
	}
	onScale := density.Sucrose(float64(reading)/100, 20+h.calibration) / (density.Water20 + h.water)
	g, err := h.Correct(SG(onScale), at)
	if err != nil {
		return 0, err
	}
	return g.Brix()
}

// ReadingInMust is what the hydrometer shows in must or sugar solution of gravity g
// at this temperature, on its own scale: the inverse of Correct. In a liquid with
// alcohol it is another one, 0.003 in a fortified wine at 8 C: use Shows. Domain: 0
// to 100 C, g 0.98104 to 1.3499. Error: *units.RangeError.
func (h Hydrometer) ReadingInMust(g SG, at units.Temperature) (SG, error) {
	if h.err != nil {
		return 0, h.err
	}
	if err := units.Check("temperature of the sample", at.Celsius(), coldest, hottest, "C", density.SourceSucrose); err != nil {
		return 0, err
	}
	w, err := g.ApparentExtract()
	if err != nil {
		return 0, err
	}
	return h.show(density.Sucrose(float64(w)/100, at.Celsius()), at.Celsius()), nil
}

// indicated is the density that the reading stands for at calibration.
func (h Hydrometer) indicated(reading SG) float64 {
	r := float64(reading) + h.rise
	return (r + h.offset + h.slope*(r-1)) * (density.Water20 + h.water)
}

// show is the reading in a liquid of density rho at t, the inverse of indicated.
func (h Hydrometer) show(rho, t float64) SG {
	level := rho * h.expansion(t) / (density.Water20 + h.water)
	return SG((level-h.offset+h.slope)/(1+h.slope) - h.rise)
}

// expansion is the volume of the hydrometer at t over that at calibration.
func (h Hydrometer) expansion(t float64) float64 {
	return 1 + (density.Glass+h.glass)*(t-20-h.calibration)
}

func (h Hydrometer) outside(reading SG, at units.Temperature, lo, hi SG, source string) *units.RangeError {
	return units.OutOfRange(fmt.Sprintf("sample at %.4g C", at.Celsius()), "hydrometer reading", float64(reading), float64(lo), float64(hi), "", source)
}

// Compared says whether the corrections at this temperature were compared with a
// published table, which goes from 10 to 30 C. Outside they rest on the densities
// alone: let the sample come nearer to 20 C.
func (h Hydrometer) Compared(at units.Temperature) bool {
	const from, to = 10, 30
	return at.Celsius() >= from && at.Celsius() <= to
}
