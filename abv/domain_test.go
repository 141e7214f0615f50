package abv_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/label"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// result pairs what a function gave with its error.
func result[T any](x T, err error) (any, error) { return x, err }

// Every exported function of these files, argument by argument: the ends of the
// domain are taken; beyond them, NaN and both infinities are a *RangeError with
// the zero value beside it, and no result holds NaN or Inf.
func TestStrengthDomains(t *testing.T) {
	inf := math.Inf(1)
	must, sg, pct := abv.Must, func(x float64) gravity.SG { return gravity.SG(x) }, func(x float64) units.Strength { return units.Strength(x) }
	conc, vol, temp := func(x float64) units.Concentration { return units.Concentration(x) }, func(x float64) units.Volume { return units.Volume(x) },
		func(x float64) units.Temperature { return units.Celsius(x) }
	dry, err := abv.Potential(1.09, must, abv.End{NotSugar: allSugar()})
	if err != nil {
		t.Fatal(err)
	}
	densest := 1.3498 // 70 % sucrose: 1.34989
	for _, f := range []struct {
		name   string
		lo, hi float64 // taken
		under  float64 // refused; NaN where nothing under lo is
		over   float64
		call   func(x float64) (any, error)
	}{
		{"ByMass", 0, 100, -1e-9, 100.001, func(x float64) (any, error) { return result(abv.ByMass(pct(x))) }},
		{"ByVolume", 0, 100, -1e-9, 100.001, func(x float64) (any, error) { return result(abv.ByVolume(units.MassPercent(x))) }},
		{"AlcoholPerLitre", 0, 100, -1e-9, 100.001, func(x float64) (any, error) { return result(abv.AlcoholPerLitre(pct(x))) }},
		{"Density, strength", 0, 100, -1e-9, 100.001, func(x float64) (any, error) { return result(abv.Density(pct(x), units.Celsius(15))) }},
		{"Density, temperature", -20, 40, -20.1, 40.1, func(x float64) (any, error) { return result(abv.Density(60, temp(x))) }},
		{"Density, freezing", 40, 100, 30, 100.1, func(x float64) (any, error) { return result(abv.Density(pct(x), units.Celsius(-20))) }},
		{"FromDensity, density", 789.24, 998.2, 789.23, 998.3, func(x float64) (any, error) { return result(abv.FromDensity(units.Density(x), units.Celsius(20))) }},
		{"FromDensity, temperature", -20, 40, -20.1, 40.1, func(x float64) (any, error) { return result(abv.FromDensity(900, temp(x))) }},
		{"VolumeAt, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) {
			return result(abv.VolumeAt(vol(x), 40, units.Celsius(20), units.Celsius(8)))
		}},
		{"VolumeAt, strength", 0, 100, -1, 101, func(x float64) (any, error) {
			return result(abv.VolumeAt(1, pct(x), units.Celsius(20), units.Celsius(8)))
		}},
		{"VolumeAt, from", -20, 40, -21, 41, func(x float64) (any, error) { return result(abv.VolumeAt(1, 60, temp(x), units.Celsius(8))) }},
		{"VolumeAt, to", -20, 40, -21, 41, func(x float64) (any, error) { return result(abv.VolumeAt(1, 60, units.Celsius(20), temp(x))) }},
		{"PureAlcohol, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) { return result(abv.PureAlcohol(vol(x), 40)) }},
		{"PureAlcohol, strength", 0, 100, -1, 101, func(x float64) (any, error) { return result(abv.PureAlcohol(1, pct(x))) }},
		{"TrueStrength, reading", 0, 100, -1, 101, func(x float64) (any, error) { return result(spirit.TrueStrength(pct(x), units.Celsius(20))) }},
		{"TrueStrength, cold", 0, 96, -1, 99.9, func(x float64) (any, error) { return result(spirit.TrueStrength(pct(x), units.Celsius(10))) }},
		{"TrueStrength, warm", 5, 100, 0.1, 101, func(x float64) (any, error) { return result(spirit.TrueStrength(pct(x), units.Celsius(30))) }},
		{"TrueStrength, temperature", -20, 40, -20.1, 40.1, func(x float64) (any, error) { return result(spirit.TrueStrength(60, temp(x))) }},
		{"ApparentStrength, strength", 1, 100, 0.1, 100.1, func(x float64) (any, error) { return result(spirit.ApparentStrength(pct(x), units.Celsius(15))) }},
		{"ApparentStrength, temperature", -20, 40, -20.1, 40.1, func(x float64) (any, error) { return result(spirit.ApparentStrength(60, temp(x))) }},
		{"TrueUSProof, reading", 0, 200, -1, 201, func(x float64) (any, error) { return result(spirit.TrueUSProof(x, units.Fahrenheit(60))) }},
		{"TrueUSProof, temperature", -20, 40, -20.1, 40.1, func(x float64) (any, error) { return result(spirit.TrueUSProof(120, temp(x))) }},
		{"USProof", 0, 100, -1, 101, func(x float64) (any, error) { return result(spirit.USProof(pct(x))) }},
		{"FromUSProof", 0, 200, -1, 201, func(x float64) (any, error) { return result(spirit.FromUSProof(x)) }},
		{"BritishProof", 0, 100, -1, 101, func(x float64) (any, error) { return result(spirit.BritishProof(pct(x))) }},
		{"FromBritishProof", 0, 175.1, -1, 175.3, func(x float64) (any, error) { return result(spirit.FromBritishProof(x)) }},
		{"ProofGallons, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) { return result(spirit.ProofGallons(vol(x), 80)) }},
		{"ProofGallons, proof", 0, 200, -1, 201, func(x float64) (any, error) { return result(spirit.ProofGallons(1, x)) }},
		{"WeightInAir, mass", 0, 1e15, -1, 1e16, func(x float64) (any, error) { return result(spirit.WeightInAir(units.Mass(x), 950)) }},
		{"WeightInAir, density", 700, 1400, 699, 1401, func(x float64) (any, error) { return result(spirit.WeightInAir(1, units.Density(x))) }},
		{"VolumeOfWeight, weight", 0, 1e15, -1, 1e16, func(x float64) (any, error) { return result(spirit.VolumeOfWeight(units.Mass(x), 40)) }},
		{"VolumeOfWeight, strength", 0, 100, -1, 101, func(x float64) (any, error) { return result(spirit.VolumeOfWeight(1, pct(x))) }},
		{"Gauge", 0, 200, -1, 201, func(x float64) (any, error) { return result(spirit.Gauge(x)) }},
		{"VolumeFactor60F, proof", 0, 200, -1, 201, func(x float64) (any, error) { return result(spirit.VolumeFactor60F(x, units.Celsius(20))) }},
		{"VolumeFactor60F, temperature", -20, 40, -20.1, 40.1, func(x float64) (any, error) { return result(spirit.VolumeFactor60F(120, temp(x))) }},
		{"Reduce, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) { return result(spirit.Reduce(vol(x), 60, 40)) }},
		{"Reduce, from", 40, 100, 39.9, 100.1, func(x float64) (any, error) { return result(spirit.Reduce(1, pct(x), 40)) }},
		{"Reduce, to", 0.01, 40, 0, 40.1, func(x float64) (any, error) { return result(spirit.Reduce(1, 40, pct(x))) }},
		{"ReduceByMass, mass", 0, 1e15, -1, 1e16, func(x float64) (any, error) { return result(spirit.ReduceByMass(units.Mass(x), 60, 40)) }},
		{"ReduceByMass, to", 0.01, 40, 0, 40.1, func(x float64) (any, error) { return result(spirit.ReduceByMass(1, 40, pct(x))) }},
		{"ReduceUSProof, from", 80, 200, 79, 201, func(x float64) (any, error) { return result(spirit.ReduceUSProof(1, x, 80)) }},
		{"ReduceUSProof, to", 0.03, 80, -1, 81, func(x float64) (any, error) { return result(spirit.ReduceUSProof(1, 80, x)) }},
		{"Simple, og", 1.03, densest, 1.02, 1.36, func(x float64) (any, error) { return result(abv.Simple(sg(x), 1.03)) }},
		{"Simple, fg", 0.97, 1.09, 0.96, 1.091, func(x float64) (any, error) { return result(abv.Simple(1.09, sg(x))) }},
		{"Alternative, og", 1.03, densest, 1.02, 1.36, func(x float64) (any, error) { return result(abv.Alternative(sg(x), 1.03)) }},
		{"Alternative, fg", 0.97, 1.09, 0.96, 1.091, func(x float64) (any, error) { return result(abv.Alternative(1.09, sg(x))) }},
		{"Balling, og", 1.03, densest, 1.02, 1.36, func(x float64) (any, error) { return result(abv.Balling(sg(x), 1.03)) }},
		{"Balling, fg", 0.97, 1.09, 0.96, 1.091, func(x float64) (any, error) { return result(abv.Balling(1.09, sg(x))) }},
		{"BallingMust, og", 1.03, densest, 1.02, 1.36, func(x float64) (any, error) { return result(abv.BallingMust(sg(x), 1.03)) }},
		{"BallingMust, fg", 0.97, 1.09, 0.96, 1.091, func(x float64) (any, error) { return result(abv.BallingMust(1.09, sg(x))) }},
		{"OfficialFactor, og", 1.03, 1.1307, 1.02, 1.1308, func(x float64) (any, error) { return result(abv.OfficialFactor(sg(x), 1.03)) }},
		{"OfficialFactor, fg", 1.0193, 1.12, 1.0192, 1.121, func(x float64) (any, error) { return result(abv.OfficialFactor(1.12, sg(x))) }},
		{"Compare, fg", float64(dry.Gravity), 1.09, float64(dry.Gravity) - 1e-6, 1.091, func(x float64) (any, error) { return result(abv.Compare(1.09, sg(x), must)) }},
		{"MassBalance, og", 1.03, densest, 1.02, 1.36, func(x float64) (any, error) { return result(abv.MassBalance(sg(x), 1.03, must)) }},
		{"MassBalance, fg", float64(dry.Gravity), 1.09, float64(dry.Gravity) - 1e-6, 1.091, func(x float64) (any, error) { return result(abv.MassBalance(1.09, sg(x), must)) }},
		{"MassBalance, gas", 0.8, 1.2, 0.79, 1.21, func(x float64) (any, error) {
			return result(abv.MassBalance(1.09, 1.04, abv.Yield{CarbonDioxide: x, Yeast: 0.05}))
		}},
		{"MassBalance, yeast", 0, 0.5, -0.01, 0.51, func(x float64) (any, error) {
			return result(abv.MassBalance(1.09, 1.04, abv.Yield{CarbonDioxide: 0.9565, Yeast: x}))
		}},
		{"Potential", 1, densest, 0.999, 1.36, func(x float64) (any, error) { return result(abv.Potential(sg(x), must)) }},
		{"StopAt, og", 1.05, densest, 1.04, 1.36, func(x float64) (any, error) { return result(abv.StopAt(sg(x), 7, must)) }},
		{"StopAt, target", 0, float64(dry.Strength), -1, float64(dry.Strength) + 1e-6, func(x float64) (any, error) { return result(abv.StopAt(1.09, pct(x), must)) }},
		{"StopAtExtract, og", 1.09, densest, 1.03, 1.36, func(x float64) (any, error) { return result(abv.StopAtExtract(sg(x), 100, must)) }},
		{"StopAtExtract, extract", 0, 234.8, -1, 234.9, func(x float64) (any, error) { return result(abv.StopAtExtract(1.09, conc(x), must)) }},
		{"StopWithin, og", 1.09, densest, 1.03, 1.36, func(x float64) (any, error) {
			return result(abv.StopWithin(sg(x), abv.Goal{MinExtract: 100}, must))
		}},
		{"MassBalancePortions, og", 1.05, densest, 0.99, 1.36, func(x float64) (any, error) {
			return result(abv.MassBalancePortions(sg(x), 1, 1.05, must))
		}},
		{"MassBalancePortions, volume", 1e-6, 1e12, 0, 1e13, func(x float64) (any, error) {
			return result(abv.MassBalancePortions(1.09, vol(x), 1.04, must))
		}},
		{"MassBalancePortions, sugar", 0, 1000, -1, 3000, func(x float64) (any, error) {
			return result(abv.MassBalancePortions(1.09, 1, 1.09, must, abv.Portion{Sugar: units.Mass(x)}))
		}},
		{"MassBalancePortions, water", 0, 1000, -1, 1e16, func(x float64) (any, error) {
			return result(abv.MassBalancePortions(1.09, 1, 1.03, must, abv.Portion{Water: units.Mass(x)}))
		}},
		{"FromWeightLoss, og", 1.05, densest, 1.04, 1.36, func(x float64) (any, error) { return result(abv.FromWeightLoss(sg(x), 1, 56, must)) }},
		{"FromWeightLoss, volume", 0.5, 1e12, 0, 1e13, func(x float64) (any, error) { return result(abv.FromWeightLoss(1.09, vol(x), 50, must)) }},
		{"FromWeightLoss, loss", 0, 112, -1, 115, func(x float64) (any, error) { return result(abv.FromWeightLoss(1.09, 1, units.Mass(x), must)) }},
		{"GasVolume, mass", 0, 1e15, -1, 1e16, func(x float64) (any, error) { return result(abv.GasVolume(units.Mass(x), units.Celsius(20))) }},
		{"GasVolume, temperature", 0, 40, -1, 41, func(x float64) (any, error) { return result(abv.GasVolume(1, temp(x))) }},
		{"AlcoholMass, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) { return result(label.AlcoholMass(vol(x), 20)) }},
		{"AlcoholMass, strength", 0, 100, -1, 101, func(x float64) (any, error) { return result(label.AlcoholMass(1, pct(x))) }},
		{"Drink.In, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) { return result(label.DrinkUS.In(vol(x), 20)) }},
		{"Drink.In, drink", 1, 100, 0, 101, func(x float64) (any, error) { return result(label.Drink{Alcohol: units.Mass(x)}.In(1, 20)) }},
		{"EnergyIn, volume", 0, 1e12, -1, 1e13, func(x float64) (any, error) { return result(label.EnergyIn(vol(x), label.Nutrients{Strength: 20})) }},
		{"EnergyIn, strength", 0, 100, -1, 101, func(x float64) (any, error) { return result(label.EnergyIn(1, label.Nutrients{Strength: pct(x)})) }},
		{"EnergyIn, sugar", 0, 1000, -1, 1001, func(x float64) (any, error) { return result(label.EnergyIn(1, label.Nutrients{Sugar: conc(x)})) }},
		{"EnergyIn, polyols", 0, 1000, -1, 1001, func(x float64) (any, error) { return result(label.EnergyIn(1, label.Nutrients{Polyols: conc(x)})) }},
		{"EnergyIn, acids", 0, 1000, -1, 1001, func(x float64) (any, error) { return result(label.EnergyIn(1, label.Nutrients{Acids: conc(x)})) }},
		{"LabelRule.State", 0, 100, -1, 101, func(x float64) (any, error) { return result(label.EUWine().State(pct(x))) }},
		{"Classes, strength", 0, 99, -1, 101, func(x float64) (any, error) { return result(label.Classes(label.Liquid{Strength: pct(x)})) }},
		{"Classes, extract", 0, 600, -1, 1001, func(x float64) (any, error) {
			return result(label.Classes(label.Liquid{Strength: 20, Extract: conc(x)}))
		}},
		{"Compose, strength", 0, 100, -1, 101, func(x float64) (any, error) { return result(abv.Compose(pct(x), 0)) }},
		{"Compose, extract", 0, 600, -1, 1001, func(x float64) (any, error) { return result(abv.Compose(20, conc(x))) }},
		{"Obscured, strength", 20, 95, 5, 101, func(x float64) (any, error) { return result(spirit.Obscured(pct(x), 30)) }},
		{"Obscured, extract", 0, 100, -1, 200, func(x float64) (any, error) { return result(spirit.Obscured(40, conc(x))) }},
		{"Unobscured, apparent", 0, 90, -1, 99.9, func(x float64) (any, error) { return result(spirit.Unobscured(pct(x), 30)) }},
		{"Unobscured, extract", 0, 300, -1, 901, func(x float64) (any, error) { return result(spirit.Unobscured(10, conc(x))) }},
		{"USObscuration", 4, 6, 3.9, 6.1, func(x float64) (any, error) { return result(spirit.USObscuration(conc(x))) }},
	} {
		for _, x := range []float64{f.lo, f.hi} {
			got, err := f.call(x)
			if err != nil || !finite(reflect.ValueOf(got)) {
				t.Errorf("%s: %v refused: %v, %v", f.name, x, got, err)
			}
		}
		for _, x := range []float64{f.under, f.over, math.NaN(), inf, -inf} {
			got, err := f.call(x)
			var r *units.RangeError
			if !errors.As(err, &r) {
				t.Errorf("%s: %v gives %v, %v", f.name, x, got, err)
			} else if !reflect.ValueOf(got).IsZero() {
				t.Errorf("%s: %v gives %+v beside %v", f.name, x, got, err)
			} else if r.Quantity == "" || math.IsNaN(r.Min) || math.IsNaN(r.Max) || r.Min > r.Max {
				t.Errorf("%s: %v: %+v", f.name, x, r)
			}
		}
	}
}

// finite says that no float in x is NaN or infinite.
func finite(x reflect.Value) bool {
	switch x.Kind() {
	case reflect.Float64:
		return !math.IsNaN(x.Float()) && !math.IsInf(x.Float(), 0)
	case reflect.Struct:
		for i := range x.NumField() {
			if x.Type().Field(i).IsExported() && !finite(x.Field(i)) {
				return false
			}
		}
	case reflect.Slice:
		for i := range x.Len() {
			if !finite(x.Index(i)) {
				return false
			}
		}
	}
	return true
}
