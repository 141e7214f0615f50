package gravity

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/refraction"
	"example.org/mutage/units"
)

// Refractometer is an instrument with a Brix scale that is true in sucrose
// solution at 20 C. The zero value is one without error. An instrument that
// compensates temperature by itself needs no Correct; compensation is made for
// sugar in water, and alcohol changes more with temperature: bring a wine to 20 C.
type Refractometer struct {
	zero float64
	err  error
}

// NewRefractometer is a refractometer that reads 0 in water at 20 C.
func NewRefractometer() Refractometer { return Refractometer{} }

// WithZero corrects an instrument that shows this much in water at 20 C.
// Domain -2 to 2; outside, set the instrument. The error is reported when the
// refractometer is used.
func (r Refractometer) WithZero(shownInWater Brix) Refractometer {
	if err := units.Check("refractometer reading in water", float64(shownInWater), -2, 2, "% mass", ""); err != nil && r.err == nil {
		r.err = err
	}
	r.zero = float64(shownInWater)
	return r
}

// Correct is the Brix at 20 C of must or sugar solution that reads so much at
// this temperature. Domain: 5 to 30 C, readings of at most 75 whose correction is
// not below 0. *units.RangeError outside.
//
// Against OIV-MA-AS2-02 Table I (10 to 75 % at 5 to 17 C) it holds to half the
// last digit, 0.005, at 8 C and above; below, where that table is uneven, single
// rows miss by up to 0.009 and one that stands off its column by 0.024. The older
// table in GOST differs from it by up to 0.04 at 70 % and 10 C, and by 0.02 at 5 %.
// No table was seen above 22 C: there the surface goes on, and stays within
// 0.02 of the 1936 international table as far as that is known from memory.
func (r Refractometer) Correct(reading Brix, at units.Temperature) (Brix, error) {
	if r.err != nil {
		return 0, r.err
	}
	t, b := at.Celsius(), float64(reading)-r.zero
	if err := units.Check("temperature of the refractometer", t, refraction.MinTemperature, refraction.MaxTemperature, "C", refraction.SourceTemperature); err != nil {
		return 0, err
	}
	if err := units.Check("refractometer reading", b, -1, refraction.MaxCorrected, "% mass", refraction.SourceTemperature); err != nil {
		return 0, err
	}
	corrected := b + refraction.Correction(b, t)
	if corrected < 0 {
		return 0, units.CheckOf(fmt.Sprintf("reading of %.4g at %.4g C", float64(reading), t), "refractometer reading at 20 C",
			corrected, 0, refraction.MaxCorrected, "% mass", "water reads 0")
	}
	return Brix(corrected), nil
}

// Extract is Correct for wort or fruit must, whose solutes bend light not quite
// as sucrose does: the corrected reading over factor. There is no usual factor:
// find yours as refractometer over hydrometer Brix in unfermented juice, both
// corrected. Domain of the factor: 0.9 to 1.15. *units.RangeError outside.
func (r Refractometer) Extract(reading Brix, at units.Temperature, factor float64) (Brix, error) {
	if err := CheckFactor(factor); err != nil {
		return 0, err
	}
	corrected, err := r.Correct(reading, at)
	return corrected / Brix(factor), err
}

// CheckFactor gives a *units.RangeError for a correction factor of a
// refractometer outside 0.9 to 1.15.
func CheckFactor(factor float64) error {
	return units.Check("correction factor of the refractometer", factor, 0.9, 1.15, "", "refractometer over hydrometer Brix in unfermented juice")
}

// Index is the refractive index of the sucrose solution of this Brix, at 20 C
// and the sodium D line. Domain 0 to 70; *units.RangeError outside. It keeps
// the five-digit indices of the French order of 2011 and of ICUMSA 1974 at half
// their last digit; an older four-digit dry-matter table parts from those by up
// to 0.0002, or 0.11 Brix, at 36 to 47 %.
func (b Brix) Index() (float64, error) {
	if err := units.Check("Brix", float64(b), 0, maxExtract, "% mass", refraction.SourceSucrose); err != nil {
		return 0, err
	}
	return refraction.Sucrose(float64(b) / 100), nil
}

// OfIndex is the Brix of the sucrose solution of this refractive index at 20 C
// and the sodium D line: the inverse of Brix.Index. Domain 1.33299 to 1.46546;
// *units.RangeError outside.
func OfIndex(n float64) (Brix, error) {
	w, ok := refraction.SucroseFraction(n, 0)
	if !ok {
		return 0, units.Check("refractive index", n, refraction.Sucrose(0), refraction.Sucrose(density.MaxSucrose), "", refraction.SourceSucrose)
	}
	return Brix(100 * w), nil
}
