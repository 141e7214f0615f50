package refraction

import (
	"math"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
)

// Others are the g/L of glycerol and acid in a wine and the share of its sugar
// that is glucose and fructose, half each.
type Others struct{ Invert, Glycerol, Citric float64 }

// with is the solution with so much sugar.
func (x Others) with(ethanol, water, sugar float64) Solution {
	half := x.Invert * sugar / 2
	return Solution{Ethanol: ethanol, Water: water, Sucrose: sugar - 2*half, Glucose: half, Fructose: half,
		Glycerol: x.Glycerol, Citric: x.Citric}
}

// OfDensity is a litre at 20 C of density rho with p of ethanol in its ethanol
// and water: the sugar follows from the volume. ok is false where that takes
// less sugar than none or more than MaxSucrose of solutes in solutes and water;
// over then tells that it is more.
func (x Others) OfDensity(rho, p float64) (m Solution, ok, over bool) {
	rest := rho - x.Glycerol - x.Citric
	k := density.MaxSucrose / (1 - density.MaxSucrose) * (1 - p)
	most := k/(1+k)*rho - x.Glycerol - x.Citric
	at := func(sugar float64) Solution { return x.with(p*(rest-sugar), (1-p)*(rest-sugar), sugar) }
	// Sugar in place of as much ethanol-water takes this much less of a litre.
	slope := 1/density.Ethanol20(p) - 1/1620.0
	sugar, err := solve.Rising(func(sugar float64) (float64, float64) {
		m := at(sugar)
		return 1 - m.Volume20(), slope
	}, 0.1*most, 0, most, 1e-9, 3e-9)
	if err != nil {
		m := at(0)
		return m, false, m.Volume20() > 1
	}
	return at(sugar), true, false
}

// Driest is the p of OfDensity that leaves no sugar: zero in a liquid denser
// than its glycerol and acid alone make it. ok is false below Lightest.
func (x Others) Driest(rho float64) (p float64, ok bool) {
	rest := rho - x.Glycerol - x.Citric
	volume := func(p float64) float64 {
		m := x.with(p*rest, (1-p)*rest, 0)
		return m.Volume20()
	}
	if volume(0) >= 1 {
		return 0, true
	}
	p, err := solve.Rising(func(p float64) (float64, float64) { return volume(p) - 1, 0.15 },
		0.1, 0, MaxEthanol, 1e-12, 0)
	return p, err == nil
}

// Lightest is the density at MaxEthanol without sugar.
func (x Others) Lightest() float64 {
	if x.Glycerol == 0 && x.Citric == 0 {
		return density.Ethanol20(MaxEthanol)
	}
	rho, err := solve.Rising(func(rho float64) (float64, float64) {
		rest := rho - x.Glycerol - x.Citric
		m := x.with(MaxEthanol*rest, (1-MaxEthanol)*rest, 0)
		return m.Volume20() - 1, 1 / 920.0
	}, 930, 900, 1000, 1e-9, 0)
	if err != nil {
		return math.NaN() // more glycerol and acid than any wine has
	}
	return rho
}

// Solve is the litre at 20 C of density rho and index n. ok is false where n is not
// between the indices lo and hi, those without alcohol (or, in a liquid lighter
// than water, without sugar) and at MaxEthanol or with as much sugar as can be;
// all is zero below Lightest.
func (x Others) Solve(rho, n float64) (m Solution, lo, hi float64, ok bool) {
	if m, ok := x.newton(rho, n); ok {
		return m, 0, 0, true
	}
	dry, ok := x.Driest(rho)
	if !ok {
		return m, 0, 0, false
	}
	lo, hi = x.indexAt(rho, dry), x.indexAt(rho, MaxEthanol)
	const h = 1e-5 // of p: the slope need not be exact
	p, err := solve.Rising(func(p float64) (float64, float64) {
		there := x.indexAt(rho, p)
		return there - n, (x.indexAt(rho, p+h) - there) / h
	}, dry+0.1, dry, MaxEthanol, 1e-10, 1e-8) // the readings are rounded: 1e-6 Brix
	if err != nil {
		return m, lo, hi, false
	}
	m, ok, _ = x.OfDensity(rho, p)
	const jump = 1e-8 // no reading is as good
	if ok && math.Abs(m.Index20()-n) < jump {
		return m, lo, hi, true
	}
	// No root: above this p the liquid would need more sugar than can be.
	return Solution{}, lo, x.indexAt(rho, p-jump), false
}

// indexAt is the index of OfDensity; infinite where it takes too much sugar.
func (x Others) indexAt(rho, p float64) float64 {
	m, ok, over := x.OfDensity(rho, p)
	if !ok && over {
		return math.Inf(1)
	}
	return m.Index20() // with no sugar where it takes less than none: rounding
}
