package acid

import (
	"cmp"
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// Acids are the acids that set the pH of a wine, in g/L.
type Acids struct{ Tartaric, Malic, Citric, Lactic, Succinic, Acetic units.Concentration }

func (a Acids) array() [acids]units.Concentration {
	return [acids]units.Concentration{a.Tartaric, a.Malic, a.Citric, a.Lactic, a.Succinic, a.Acetic}
}

var wineAcids = [acids]Acid{Tartaric, Malic, Citric, Lactic, Succinic, Acetic}

// A Buffer is a liquid for its pH: acids, and the alkali that stands against
// them. NewBuffer and Fit make one.
type Buffer struct {
	moles    [acids]float64 // mol/L
	alkali   float64        // potassium and other metals, less mineral acids, mol/L
	strength float64
	k        constants
}

// NewBuffer is a liquid of known acids, and potassium as the measure of all its
// alkali. Domain: each acid 0 to 500 g/L, potassium 0 to 20 g/L, strength 0 to
// 22 % vol. Error: *units.RangeError.
func NewBuffer(a Acids, potassium units.Concentration, strength units.Strength) (Buffer, error) {
	b := Buffer{alkali: float64(potassium) / molar.Potassium, strength: float64(strength)}
	err := check.First(check.Level("potassium", potassium, 20),
		units.Check("strength", float64(strength), 0, maxPHStrength, "% vol", sourceStrength))
	for i, c := range a.array() {
		err = check.First(err, check.Level("acid", c, maxAcid))
		b.moles[i] = float64(c) / wineAcids[i].MolarMass
	}
	if err != nil {
		return Buffer{}, err
	}
	b.k = constantsAt(b.strength)
	return b, nil
}

// Acids are the acids in g/L.
func (b Buffer) Acids() Acids {
	g := func(i int) units.Concentration { return units.Concentration(b.moles[i] * wineAcids[i].MolarMass) }
	return Acids{g(0), g(1), g(2), g(3), g(4), g(5)}
}

// Potassium is the alkali, all of it reckoned as potassium.
func (b Buffer) Potassium() units.Concentration {
	return units.Concentration(b.alkali * molar.Potassium)
}

const maxPH = 10

// PH solves the charge balance: alkali and hydrogen ions against the ions of
// the acids, at 25 C, with activities by Davies. It meets the printed pH of
// pure acid solutions to 0.05; in wine see Predict for how
// sure it is. Domain: a pH of 0 to 10 comes out, at an ionic strength to 0.5
// mol/L; *units.RangeError where the alkali is more than all the acid. Source: pK values as in pkTable.
func (b Buffer) PH() (float64, error) {
	pH, _, err := b.solve(3.4, 0, settled)
	if err != nil {
		return 0, err
	}
	return pH, nil
}

// How far pH and activities settle, where that is the answer and where it is one of
// two that are compared; and in how many steps: each is a small part of the last.
const (
	settled   = 1e-9
	compared  = 1e-8
	mostSteps = 60
)

// solve finds the pH and the activity that belong together from a guess of both (g
// zero: none), settled to a step: Newton's method on the pH, the activity renewed at every step. Where
// that leaves the domain, one after the other.
func (b *Buffer) solve(guess, g, to float64) (pH, activityThere float64, err error) {
	if pH, g = guess, cmp.Or(g, activity(b.alkali, b.alkali)); g > 0 {
		for range mostSteps {
			n := b.ions(pH, g)
			step := (n.alkali - b.alkali) / (math.Ln10 * n.slope)
			if pH -= step; !(pH > 0 && pH < maxPH && math.Abs(step) < 1) {
				break
			}
			squares := n.squares - math.Ln10*n.rise*step // at the new pH
			next := activity(squares, b.alkali)
			if math.Abs(step)+math.Abs(next-g) < to {
				return pH, next, checkIonic(squares, b.alkali)
			}
			g = next
		}
	}
	return b.bracketed(guess)
}

// bracketed is solve from any guess, until the pH stands still to 1e-7.
func (b *Buffer) bracketed(guess float64) (pH, g float64, err error) {
	pH, g = guess, activity(b.alkali, b.alkali)
	for range mostSteps {
		last := pH
		pH, err = solve.Rising(func(x float64) (float64, float64) {
			n := b.ions(x, g)
			return n.alkali - b.alkali, math.Ln10 * n.slope
		}, pH, 0, maxPH, 1e-5, 0) // Newton: the error is the square of the last step
		if err != nil {
			return 0, 0, units.OutOfRange("", "alkali against the acids", 1000*b.alkali, 0, 1000*b.ions(maxPH, 1.5).alkali, "mmol/L", "charge balance at pH 10")
		}
		squares := b.ions(pH, g).squares
		if g = activity(squares, b.alkali); math.Abs(pH-last) < 1e-7 {
			return pH, g, checkIonic(squares, b.alkali)
		}
	}
	return 0, 0, fmt.Errorf("the pH of %.6g mmol/L of alkali does not settle", 1000*b.alkali)
}

// Capacity is the buffer capacity in meq/L per unit of pH, where the liquid
// stands: what strong alkali does to it, the ionic strength that rises with it
// included. Single acids in water were measured 0 to 15 % below it (at pH 3.8;
// the pH of the measurements is not printed), in 11 % vol from 28 % below to 11
// % above; measured mixtures scatter by more. Errors as PH.
func (b Buffer) Capacity() (float64, error) {
	pH, _, err := b.solve(3.4, 0, settled)
	if err != nil {
		return 0, err
	}
	const step = 0.01
	return 1000 * (b.alkaliAt(pH+step) - b.alkaliAt(pH-step)) / (2 * step), nil
}

// TA is the titratable acidity, as tartaric acid, to the given pH: 8.2 as wine
// laboratories titrate, 7 with the OIV. Domain: end point from the pH of the
// liquid to 10. Errors as PH.
func (b Buffer) TA(endPoint float64) (units.Concentration, error) {
	pH, _, err := b.solve(3.4, 0, settled)
	if err := check.First(err, units.Check("end point", endPoint, pH, maxPH, "pH", "above the pH of the liquid")); err != nil {
		return 0, err
	}
	return units.Concentration(molar.TartaricEquivalent * (b.alkaliAt(endPoint) - b.alkali)), nil
}

// alkaliAt is the alkali that holds the acids at this pH, mol/L.
func (b Buffer) alkaliAt(pH float64) float64 {
	g := 1.2
	for range 20 {
		n := b.ions(pH, g)
		next := activity(n.squares, n.alkali)
		if b.alkali = n.alkali; math.Abs(next-g) < 1e-12 {
			break
		}
		g = next
	}
	return b.alkali
}

// With is the liquid after so many g/L of one of the six acids (citric acid
// with or without its water). Its volume is taken as unchanged: 0.06 % per g/L.
// Domain: dose 0 to 500 g/L. Error: *units.RangeError.
func (b Buffer) With(a Acid, dose units.Concentration) (Buffer, error) {
	if err := check.First(check.Level("acid added", dose, maxAcid), a.check(),
		units.CheckOf(a.Name, "place among the acids of wine", float64(a.wine), 1, acids, "", "")); err != nil {
		return Buffer{}, err
	}
	b.moles[a.wine-1] += float64(dose) / a.MolarMass
	return b, nil
}

// WithCarbonate is the liquid after so many g/L of a carbonate, its CO2 gone
// and no crystals fallen yet. Domain: dose 0 to 500 g/L. Error:
// *units.RangeError.
func (b Buffer) WithCarbonate(c Carbonate, dose units.Concentration) (Buffer, error) {
	if err := check.First(check.Level("carbonate added", dose, maxAcid), c.check()); err != nil {
		return Buffer{}, err
	}
	b.alkali += float64(dose) * c.Neutralises() / molar.TartaricEquivalent
	return b, nil
}

// LessTartar is the liquid after so much potassium bitartrate has fallen.
// Domain: what MostTartar gives at most. Error: *units.RangeError.
func (b Buffer) LessTartar(bitartrate units.Concentration) (Buffer, error) {
	most := molar.PotassiumBitartrate * min(b.moles[0], max(0, b.alkali))
	if err := units.Check("fallen bitartrate", float64(bitartrate), 0, most, "g/L", "tartaric acid and potassium in the liquid"); err != nil {
		return Buffer{}, err
	}
	b.moles[0] -= float64(bitartrate) / molar.PotassiumBitartrate
	b.alkali -= float64(bitartrate) / molar.PotassiumBitartrate
	return b, nil
}

// Thinned is the liquid in grown times its volume, at a new strength: what a
// spirit or water without acid does. Domain: grown 1 to 100, strength 0 to 22 %
// vol. Error: *units.RangeError.
func (b Buffer) Thinned(grown float64, strength units.Strength) (Buffer, error) {
	if err := check.First(units.Check("growth in volume", grown, 1, 100, "", check.Bound),
		units.Check("strength", float64(strength), 0, maxPHStrength, "% vol", sourceStrength)); err != nil {
		return Buffer{}, err
	}
	for i := range b.moles {
		b.moles[i] /= grown
	}
	b.alkali /= grown
	b.strength, b.k = float64(strength), constantsAt(float64(strength))
	return b, nil
}
