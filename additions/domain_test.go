package additions

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

type (
	vol  = units.Volume
	gram = units.Mass
	conc = units.Concentration
)

// Every exported function with a number in it, at both sides of its domain and
// with what is no number: a *units.RangeError and zero, or a result that is
// finite.
func TestDomains(t *testing.T) {
	sum := func(x ...float64) float64 {
		total := 0.0
		for _, v := range x {
			total += math.Abs(v)
		}
		return total
	}
	wine := abv.Composition{Strength: 12, Extract: 30}
	buffer := handbook.Must(Fit(cherry))
	addition := func(a SugarAddition, err error) (float64, error) {
		return sum(float64(a.Sugar), float64(a.Volume), float64(a.After.Extract), float64(a.After.Gravity)), err
	}
	two := func(low, high float64, err error) (float64, error) { return low + high, err }
	for _, x := range []struct {
		name      string
		f         func(x float64) (float64, error)
		good, bad []float64
	}{
		{"MolecularSO2 free", func(x float64) (float64, error) { y, err := MolecularSO2(conc(x), 3.4, 1.8); return float64(y), err }, []float64{0, 10}, []float64{-1e-9, 10.01}},
		{"MolecularSO2 pH", func(x float64) (float64, error) { y, err := MolecularSO2(0.03, x, 1.8); return float64(y), err }, []float64{2.5, 4.5}, []float64{2.49, 4.51}},
		{"MolecularSO2 pK", func(x float64) (float64, error) { y, err := MolecularSO2(0.03, 3.4, x); return float64(y), err }, []float64{1, 3.5}, []float64{0.99, 3.51}},
		{"FreeSO2For", func(x float64) (float64, error) { y, err := FreeSO2For(0.0008, x, 1.8); return float64(y), err }, []float64{2.5, 4.5}, []float64{2.49, 4.51}},
		{"SO2PK strength", func(x float64) (float64, error) { return SO2PK(units.Strength(x), 20) }, []float64{0, 15}, []float64{-0.1, 15.1}},
		{"SO2PK temperature", func(x float64) (float64, error) { return SO2PK(10, units.Temperature(x)) }, []float64{20, 40}, []float64{19.9, 40.1}},
		{"InWine", func(x float64) (float64, error) { return InWine(2, x) }, []float64{0, 0.2}, []float64{-0.01, 0.21}},
		{"InWine pK", func(x float64) (float64, error) { return InWine(x, 0.1) }, []float64{1, 3.5}, []float64{0.9, 3.6}},
		{"SO2ByTitration", func(x float64) (float64, error) { y, err := SO2ByTitration(vol(x), 0.1, 0.05); return float64(y), err }, []float64{0, 10}, []float64{-1, 11}},
		{"Titrate normality", func(x float64) (float64, error) { y, err := Titrate(0.005, x, 0.005); return float64(y), err }, []float64{0.001, 2}, []float64{0, 2.1}},
		{"Titrate sample", func(x float64) (float64, error) { y, err := Titrate(0.005, 0.1, vol(x)); return float64(y), err }, []float64{1e-4, 10}, []float64{0, 11}},
		{"FreeFromTotal", func(x float64) (float64, error) {
			a, b, err := FreeFromTotal(conc(x))
			return two(float64(a), float64(b), err)
		}, []float64{0, 10}, []float64{-1, 11}},
		{"SO2ToAdd", func(x float64) (float64, error) {
			a, b, err := SO2ToAdd(conc(x), 0.01)
			return two(float64(a), float64(b), err)
		}, []float64{0.01, 10}, []float64{0, 11}},
		{"Metabisulfite", func(x float64) (float64, error) { y, err := Metabisulfite(conc(x), 1); return float64(y), err }, []float64{0, 10}, []float64{-1, 11}},
		{"Metabisulfite volume", func(x float64) (float64, error) { y, err := Metabisulfite(0.1, vol(x)); return float64(y), err }, []float64{0, 1e7}, []float64{-1, 1e8}},
		{"Sulfite.Dose", func(x float64) (float64, error) {
			y, err := SodiumMetabisulfite.Dose(0.1, 1, x)
			return float64(y), err
		}, []float64{0.5, 1}, []float64{0, 1.01}},
		{"Sulfite.Adds", func(x float64) (float64, error) {
			y, err := PotassiumBisulfite.Adds(gram(x), 1, 1)
			return float64(y), err
		}, []float64{0, 18}, []float64{-1, 20}},
		{"SulfiteSolution", func(x float64) (float64, error) { y, err := SulfiteSolution(0.1, 1, conc(x)); return float64(y), err }, []float64{1, 250}, []float64{0, 251}},
		{"SolutionAdds", func(x float64) (float64, error) { y, err := SolutionAdds(vol(x), 1, 50); return float64(y), err }, []float64{0, 0.2}, []float64{-1, 100}},
		{"Sorbate", func(x float64) (float64, error) { y, err := Sorbate(conc(x), 1); return float64(y), err }, []float64{0, 3}, []float64{-1, 3.1}},
		{"Sorbate volume", func(x float64) (float64, error) { y, err := Sorbate(0.2, vol(x)); return float64(y), err }, []float64{0, 1e7}, []float64{-1, 1e8}},
		{"SorbicAcid", func(x float64) (float64, error) { y, err := SorbicAcid(1, vol(x)); return float64(y), err }, []float64{1, 1e7}, []float64{0, -1, 1e8}},
		{"SorbicAcidNeeded strength", func(x float64) (float64, error) {
			y, err := SorbicAcidNeeded(units.Strength(x), 3.3)
			return float64(y), err
		}, []float64{10, 14}, []float64{9.9, 14.1}},
		{"SorbicAcidNeeded pH", func(x float64) (float64, error) { y, err := SorbicAcidNeeded(12, x); return float64(y), err }, []float64{3.1, 3.5}, []float64{3.09, 3.51}},
		{"SorbicAcidSoluble", func(x float64) (float64, error) {
			y, err := SorbicAcidSoluble(units.Strength(x), 3.3)
			return float64(y), err
		}, []float64{0, 20}, []float64{-1, 20.1}},
		{"RaiseTA", func(x float64) (float64, error) { y, err := RaiseTA(conc(x), 1, Malic); return float64(y), err }, []float64{0, 500}, []float64{-1, 501}},
		{"RaisedTA", func(x float64) (float64, error) {
			a, b, err := RaisedTA(gram(x), 1, Malic)
			return two(float64(a), float64(b), err)
		}, []float64{0, 500}, []float64{-1, 501}},
		{"LowerTA", func(x float64) (float64, error) {
			y, err := LowerTA(1, vol(x), CalciumCarbonate)
			return float64(y), err
		}, []float64{0, 1e7}, []float64{-1, 1e8}},
		{"LoweredTA", func(x float64) (float64, error) {
			a, b, err := LoweredTA(1, vol(x), CalciumCarbonate)
			return two(float64(a), float64(b), err)
		}, []float64{1, 1e7}, []float64{0, 1e8}},
		{"Express", func(x float64) (float64, error) { y, err := Express(conc(x), Malic, Citric); return float64(y), err }, []float64{0, 500}, []float64{-1, 501}},
		{"Milliequivalents", func(x float64) (float64, error) { return Milliequivalents(conc(x), Malic) }, []float64{0, 500}, []float64{-1, 501}},
		{"FromMilliequivalents", func(x float64) (float64, error) { y, err := FromMilliequivalents(x, Malic); return float64(y), err }, []float64{0, 1e4}, []float64{-1, 1e5}},
		{"TartarFallen", func(x float64) (float64, error) { y, err := TartarFallen(conc(x)); return float64(y.TA), err }, []float64{0, 500}, []float64{-1, 501}},
		{"MostTartar", func(x float64) (float64, error) { y, err := MostTartar(conc(x), 1); return float64(y.TA), err }, []float64{0, 500}, []float64{-1, 501}},
		{"NewBuffer", func(x float64) (float64, error) {
			b, err := NewBuffer(Acids{Malic: conc(x)}, 0, 0)
			return b.moles[1], err
		}, []float64{0, 500}, []float64{-1, 501}},
		{"NewBuffer strength", func(x float64) (float64, error) {
			b, err := NewBuffer(Acids{Malic: 1}, 0, units.Strength(x))
			return b.moles[1], err
		}, []float64{0, 22}, []float64{-1, 22.1}},
		{"Buffer.PH", func(x float64) (float64, error) { b := buffer; b.alkali = x; return b.PH() }, []float64{0, 0.1}, []float64{5}},
		{"Buffer.Capacity", func(x float64) (float64, error) { b := buffer; b.alkali = x; return b.Capacity() }, []float64{0, 0.1}, []float64{5}},
		{"Buffer.TA", func(x float64) (float64, error) { y, err := buffer.TA(x); return float64(y), err }, []float64{3.5, 10}, []float64{3, 10.1}},
		{"Buffer.With", func(x float64) (float64, error) { b, err := buffer.With(Malic, conc(x)); return b.moles[1], err }, []float64{0, 500}, []float64{-1, 501}},
		{"Buffer.WithCarbonate", func(x float64) (float64, error) {
			b, err := buffer.WithCarbonate(PotassiumBicarbonate, conc(x))
			return b.alkali, err
		}, []float64{0, 500}, []float64{-1, 501}},
		{"Buffer.LessTartar", func(x float64) (float64, error) { b, err := buffer.LessTartar(conc(x)); return b.alkali, err }, []float64{0}, []float64{-1, 0.1}},
		{"Buffer.Thinned", func(x float64) (float64, error) { b, err := buffer.Thinned(x, 20); return b.alkali, err }, []float64{1, 100}, []float64{0.9, 101}},
		{"Fit pH", func(x float64) (float64, error) { m := cherry; m.PH = x; b, err := Fit(m); return b.alkali, err }, []float64{3.3, 4}, []float64{1.9, 2.1, 5.1}},
		{"Fit TA", func(x float64) (float64, error) { m := cherry; m.TA = conc(x); b, err := Fit(m); return b.alkali, err }, []float64{1, 20}, []float64{0, 101}},
		{"Fit end point", func(x float64) (float64, error) { m := cherry; m.EndPoint = x; b, err := Fit(m); return b.alkali, err }, []float64{7, 8.5}, []float64{6.9, 8.6}},
		{"Predict", func(x float64) (float64, error) {
			m := cherry
			m.StandardPH = x
			p, err := Predict(m, func(b Buffer) (Buffer, error) { return b, nil })
			return p.PH, err
		}, []float64{0, 0.1}, []float64{-1, 0.6}},
		{"RaiseGravity from", func(x float64) (float64, error) { return addition(RaiseGravity(gravity.SG(x), 1.2, 1)) }, []float64{1, 1.2}, []float64{0.99, 1.21, 1.36}},
		{"RaiseGravity to", func(x float64) (float64, error) { return addition(RaiseGravity(1.05, gravity.SG(x), 1)) }, []float64{1.05, 1.3498}, []float64{1.04, 1.36}},
		{"RaiseGravity volume", func(x float64) (float64, error) { return addition(RaiseGravity(1.05, 1.06, vol(x))) }, []float64{0.001, 1e7}, []float64{0, -1, 1e8}},
		{"RaiseGravityWith", func(x float64) (float64, error) {
			return addition(RaiseGravityWith(Sweetener{"s", x, 0.1, ""}, 1.05, 1.06, 1))
		}, []float64{0.2, 1}, []float64{0, 0.14, 1.1}},
		{"AddSugar", func(x float64) (float64, error) {
			g, v, err := AddSugar(1.05, 1, gram(x))
			return float64(g) + float64(v), err
		}, []float64{0, 2000}, []float64{-1, 2200}},
		{"AddInPortions", func(x float64) (float64, error) {
			p, err := AddInPortions(1.05, 1, gram(x), 2)
			return float64(len(p)), err
		}, []float64{0, 2000}, []float64{-1, 2200}},
		{"LegalIncrease", func(x float64) (float64, error) { v, err := LegalIncrease(gram(x)); return float64(v), err }, []float64{0, 1e10}, []float64{-1, 1e11}},
		{"Sweeten", func(x float64) (float64, error) { return addition(Sweeten(wine, 1, Sucrose, gram(x))) }, []float64{0, 1900}, []float64{-1, 2200}},
		{"Sweeten strength", func(x float64) (float64, error) {
			return addition(Sweeten(abv.Composition{Strength: units.Strength(x)}, 1, Sucrose, 1))
		}, []float64{0, 96}, []float64{-1, 101}},
		{"RaiseExtract", func(x float64) (float64, error) { return addition(RaiseExtract(wine, conc(x), 1, Sucrose)) }, []float64{30, 700}, []float64{29, 950}},
		{"Syrup", func(x float64) (float64, error) { s, err := Syrup(gravity.Brix(x)); return s.Extract, err }, []float64{1, 85}, []float64{0.9, 86}},
		{"InvertSyrup", func(x float64) (float64, error) { s, err := InvertSyrup(gravity.Brix(x)); return s.Extract, err }, []float64{1, 85}, []float64{0.9, 86}},
		{"SweetenTo", func(x float64) (float64, error) {
			return addition(SweetenTo(SweetnessClass{Sugar: [2]conc{conc(x), 800}}, wine, 1, Sucrose))
		}, []float64{0, 700}, []float64{950}},
		{"Weigh", func(x float64) (float64, error) { m, err := Weigh(GranulatedSugar, vol(x)); return float64(m), err }, []float64{0, 1e7}, []float64{-1, 1e8}},
		{"Spoons", func(x float64) (float64, error) {
			p, err := Spoons(GranulatedSugar, gram(x))
			return float64(p.Volume), err
		}, []float64{0, 1e10}, []float64{-1, 1e11}},
		{"Packet.Holds", func(x float64) (float64, error) { m, err := Packet{"t", 0.4, 0.5}.Holds(x); return float64(m), err }, []float64{0, 1e6}, []float64{-1, 1e7}},
		{"Packet.For", func(x float64) (float64, error) { return Packet{"t", 0.4, x}.For(1) }, []float64{0.1, 1}, []float64{0, 1.1}},
		{"NutrientDose", func(x float64) (float64, error) {
			m, err := NutrientDose(conc(x), 1, AmmoniumSulfate)
			return float64(m), err
		}, []float64{0, 2}, []float64{-1, 2.1}},
		{"NitrogenAdded", func(x float64) (float64, error) {
			c, err := NitrogenAdded(gram(x), 1, AmmoniumSulfate)
			return float64(c), err
		}, []float64{0, 9}, []float64{-1, 10}},
		{"NitrogenWanted", func(x float64) (float64, error) { c, err := NitrogenWanted(conc(x), HighNeed); return float64(c), err }, []float64{0, 400}, []float64{-1, 401}},
		{"Staged", func(x float64) (float64, error) { s, err := Staged(gram(x), 2); return float64(len(s)), err }, []float64{0, 100}, []float64{-1}},
		{"Pitch", func(x float64) (float64, error) { p, err := Pitch(gravity.SG(x), 0, 1); return float64(p.Yeast), err }, []float64{1, 1.3}, []float64{0.99, 1.36}},
		{"Practice.For", func(x float64) (float64, error) {
			a, b, err := Practice{Low: 1, High: 2, Unit: "g/L"}.For(vol(x))
			return two(float64(a), float64(b), err)
		}, []float64{0, 1e7}, []float64{-1, 1e8}},
		{"WoodDose", func(x float64) (float64, error) { d, err := WoodDose(x, 1, 12, OakChips); return float64(d.Mass), err }, []float64{0, 5}, []float64{-1, 5.1}},
		{"Wooded", func(x float64) (float64, error) {
			d, err := Wooded(gram(x), 1, 12, OakChips)
			return float64(d.Mass), err
		}, []float64{0, 200}, []float64{-1, 201}},
		{"Block", func(x float64) (float64, error) { w, err := Block("b", 10, x, 1, 1); return w.Surface, err }, []float64{0.05, 300}, []float64{0, 301}},
		{"DelleUnits", func(x float64) (float64, error) { return DelleUnits(units.Strength(x), 0) }, []float64{0, 100}, []float64{-1, 101}},
		{"DelleUnits sugar", func(x float64) (float64, error) { return DelleUnits(10, conc(x)) }, []float64{0, 1000}, []float64{-1, 1001}},
		{"Judge pH", func(x float64) (float64, error) { v, err := Judge(Wine{Strength: 12, PH: x}); return v.DelleUnits, err }, []float64{0, 2.5, 4.5}, []float64{2.4, 4.6}},
		{"Judge tolerance", func(x float64) (float64, error) {
			v, err := Judge(Wine{Strength: 12, Tolerance: units.Strength(x)})
			return v.DelleUnits, err
		}, []float64{0, 30}, []float64{-1, 31}},
		{"Judge sorbate", func(x float64) (float64, error) {
			v, err := Judge(Wine{Strength: 12, Sorbate: conc(x)})
			return v.DelleUnits, err
		}, []float64{0, 3}, []float64{-1, 3.1}},
		{"Judge temperature", func(x float64) (float64, error) {
			v, err := Judge(Wine{Strength: 12, Temperature: units.Celsius(x)})
			return v.DelleUnits, err
		}, []float64{-20, 60}, []float64{-21, 61}},
		{"DissolvedCO2", func(x float64) (float64, error) {
			c, err := DissolvedCO2(units.Strength(x), 0, 20, 100)
			return float64(c), err
		}, []float64{0, 25}, []float64{-1, 26}},
		{"DissolvedCO2 temperature", func(x float64) (float64, error) {
			c, err := DissolvedCO2(12, 0, units.Celsius(x), 100)
			return float64(c), err
		}, []float64{0, 25}, []float64{-1, 26}},
		{"SealedPressure headspace", func(x float64) (float64, error) {
			s, err := SealedPressure(Wine{Strength: 12, Sugar: 5}, Bottle{Volume: 1, Headspace: vol(x)}, 20)
			return float64(s.CO2), err
		}, []float64{0.02, 0.9}, []float64{0, 0.96}},
		{"SealedPressure temperature", func(x float64) (float64, error) {
			s, err := SealedPressure(Wine{Strength: 12, Sugar: 5}, Bottle{Volume: 1, Headspace: 0.03}, units.Celsius(x))
			return float64(s.CO2), err
		}, []float64{0, 25}, []float64{-1, 26}},
		{"SealedPressure filled to the brim", func(x float64) (float64, error) {
			s, err := SealedPressure(Wine{Strength: 12, Sugar: 5}, Bottle{Volume: 1, Headspace: 0.001}, units.Celsius(x))
			return float64(s.CO2), err
		}, []float64{10}, []float64{25}},
		{"Prime", func(x float64) (float64, error) {
			p, err := Prime(Wine{Strength: 11}, conc(x), Bottle{Volume: 0.775, Headspace: 0.025, Rated: 1500})
			return float64(p.Sugar), err
		}, []float64{0, 12}, []float64{-1, 15}},
		{"FlashPoint", func(x float64) (float64, error) { f, err := FlashPoint(units.Strength(x)); return float64(f), err }, []float64{6.3, 97.3}, []float64{6, 98}},
		{"CheckLimits level", func(x float64) (float64, error) {
			r, err := CheckLimits("US", Batch{Levels: Levels{TotalSO2: conc(x)}})
			return float64(len(r.Exceeded) + len(r.Kept)), err
		}, []float64{0, 1000}, []float64{-1, 1001}},
		{"CheckLimits sugar", func(x float64) (float64, error) {
			r, err := CheckLimits("US", Batch{Sugar: conc(x)})
			return float64(len(r.Cautions)), err
		}, []float64{0, 1000}, []float64{-1, 1001}},
		{"Log.Levels", func(x float64) (float64, error) {
			l, err := Log{{Additive: LogPotassiumSorbate, Mass: gram(x), Volume: 1}}.Levels()
			return float64(l[SorbicAcidLevel]), err
		}, []float64{0, 10}, []float64{-1, 1e11}},
	} {
		for _, in := range x.good {
			if y, err := x.f(in); err != nil || math.IsNaN(y) || math.IsInf(y, 0) {
				t.Errorf("%s at %v: %v, %v", x.name, in, y, err)
			}
		}
		for _, in := range append(x.bad, math.NaN(), math.Inf(1), math.Inf(-1)) {
			y, err := x.f(in)
			var outside *units.RangeError
			if !errors.As(err, &outside) || y != 0 {
				t.Errorf("%s at %v: %v, %v; want zero and a *units.RangeError", x.name, in, y, err)
			}
		}
	}
}
