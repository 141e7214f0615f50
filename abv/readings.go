package abv

import (
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// TrueFinal is the true gravity at 20 C of a must that ferments, in whose
// degassed sample the hydrometer shows reading at this temperature: alcohol makes
// a liquid expand more than must, and how much there is follows from the original
// gravity (true, at 20 C). Domain: og 1 to 1.3499, 0 to 40 C. Errors as
// MassBalance and gravity.Hydrometer.CorrectIn.
func (y Yield) TrueFinal(h gravity.Hydrometer, og, reading gravity.SG, at units.Temperature) (gravity.SG, error) {
	fg := reading
	for range 6 { // each round is nearer by the expansion that 1 % vol adds: a hundredfold
		f, err := MassBalance(og, min(fg, og), y)
		if err != nil {
			return 0, err
		}
		if fg, err = h.CorrectIn(f.Strength, reading, at); err != nil {
			return 0, err
		}
	}
	return fg, nil
}

// TrueReadings are the readings of hydrometer and refractometer at 20 C, from
// those of one degassed sample at another temperature; how much the hydrometer is
// to be corrected depends on the strength that the two tell. The refractometer is
// one that does not compensate temperature itself. Errors as TwoInstrumentsIn and
// the corrections of the two.
func (x Solutes) TrueReadings(h gravity.Hydrometer, reading gravity.SG, r gravity.Refractometer, brix gravity.Brix, at units.Temperature) (gravity.SG, gravity.Brix, error) {
	brix, err := r.Correct(brix, at)
	if err != nil {
		return 0, 0, err
	}
	is := reading
	for range 4 { // each round is nearer by a hundredfold, as for TrueFinal
		wine, err := TwoInstrumentsIn(is, brix, x)
		if err != nil {
			return 0, 0, err
		}
		if is, err = h.CorrectIn(wine.Strength, reading, at); err != nil {
			return 0, 0, err
		}
	}
	return is, brix, nil
}

// Must is the gravity of a juice of which its label states the sugar: the sugar
// and, on top of it, what else is dissolved. Low and high are those of the 5 and
// 95 % points of the latter. Domain: sugar 0 to 900 g/L. Error:
// *units.RangeError.
func (n NotSugar) Must(sugar units.Concentration) (low, likely, high gravity.SG, err error) {
	if err := units.Check("sugar of the juice", float64(sugar), 0, 900, "g/L", "a juice or syrup"); err != nil {
		return 0, 0, 0, err
	}
	if err := n.check(); err != nil {
		return 0, 0, 0, err
	}
	of := [3]gravity.SG{}
	for i, rest := range []units.Concentration{n.Low, n.Likely, n.High} {
		if of[i], err = gravity.OfExtract(sugar + rest); err != nil {
			return 0, 0, 0, err
		}
	}
	return of[0], of[1], of[2], nil
}

// TrueBoilOff are the gravities at 20 C of a wine and of its residue, from the
// readings of both at another temperature: the wine's correction depends on the
// strength that the two tell. Errors as BoilOff and the corrections.
func TrueBoilOff(h gravity.Hydrometer, wine, residue gravity.SG, at units.Temperature) (trueWine, trueResidue gravity.SG, err error) {
	if trueResidue, err = h.Correct(residue, at); err != nil {
		return 0, 0, err
	}
	trueWine = wine
	for range 6 { // each round is nearer by a hundredfold, as for TrueFinal
		c, err := BoilOff(trueWine, trueResidue)
		if err != nil {
			return 0, 0, err
		}
		if trueWine, err = h.CorrectIn(c.Strength, wine, at); err != nil {
			return 0, 0, err
		}
	}
	return trueWine, trueResidue, nil
}
