package additions

import (
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// pktTable[i][j] is pKT at 5 i % vol and 20 + 5 j C: OIV-MA-AS323-04C, Table 1.
var pktTable = [4][5]float64{
	{1.798, 2.000, 2.219, 2.334, 2.493},
	{1.897, 2.098, 2.299, 2.397, 2.527},
	{1.997, 2.198, 2.394, 2.488, 2.606},
	{2.099, 2.301, 2.503, 2.607, 2.728},
}

const sourcePKT = "OIV-MA-AS323-04C, Table 1"

// SO2PK is the thermodynamic pK of sulfurous acid by strength and temperature:
// the OIV's table, straight between its rows. Domain: 0 to 15 % vol, 20 to 40
// C; a fortified wine is outside, and no source here goes there. Error:
// *units.RangeError. Source: OIV-MA-AS323-04C, Table 1, where wine then gets
// the correction of InWine.
func SO2PK(s units.Strength, t units.Temperature) (float64, error) {
	if err := check.First(units.Check("strength", float64(s), 0, 15, "% vol", sourcePKT),
		units.Check("temperature", t.Celsius(), 20, 40, "C", sourcePKT)); err != nil {
		return 0, err
	}
	return table.Bilinear(pktTable[:], float64(s)/5, (t.Celsius()-20)/5), nil
}

// SO2PKInWine is the pK for a wine, InWine(SO2PK), with its standard uncertainty,
// above 15 % vol too: there the table's last two rows are continued straight, and
// the whole of what that adds is the uncertainty, because no source goes there.
// Below 15 % vol it is 0.02, of the ionic strength. Domain: 0 to 25 % vol, 20 to
// 40 C. Error: *units.RangeError. UsualPK, which is less, is the cautious choice
// for a wine above 5 % vol.
func SO2PKInWine(s units.Strength, t units.Temperature) (pK, standard float64, err error) {
	const last, row = 15, 5
	if err := units.Check("strength", float64(s), 0, 25, "% vol", sourcePKT); err != nil {
		return 0, 0, err
	}
	at, err := SO2PK(min(s, last), t)
	if err != nil {
		return 0, 0, err
	}
	beyond := 0.0
	if s > last {
		before, err := SO2PK(last-row, t)
		if err != nil {
			return 0, 0, err
		}
		beyond = (at - before) / row * float64(s-last)
	}
	pK, err = InWine(at+beyond, WineIonicStrength)
	return pK, math.Hypot(0.02, beyond), err
}

// InWine corrects a thermodynamic pK for the ionic strength in mol/L: pKM = pKT
// - A sqrt(I)/(1 + B sqrt(I)), the form of OIV-MA-AS323-04C. Its A and B by
// strength and temperature were not at hand: 0.509 and 1, those of Debye and
// Hueckel for water at 25 C, are from memory; the correction of 0.083 for wine
// is good to about 0.02. Domain: I 0 to 0.2. Error: *units.RangeError.
func InWine(pKT, ionicStrength float64) (float64, error) {
	if err := check.First(checkPK(pKT), units.Check("ionic strength", ionicStrength, 0, 0.2, "mol/L", check.Bound)); err != nil {
		return 0, err
	}
	root := math.Sqrt(ionicStrength)
	return pKT - molar.DebyeHueckel*root/(1+root), nil
}

const minSO2PH, maxSO2PH = 2.5, 4.5

func checkPK(pK float64) error {
	return units.Check("pK of sulfurous acid", pK, 1, 3.5, "", check.Bound)
}

func checkSO2(quantity string, c units.Concentration, pH, pK float64) error {
	return check.First(check.Level(quantity, c, check.MostSO2), units.Check("pH", pH, minSO2PH, maxSO2PH, "", "must and wine"), checkPK(pK))
}

// MolecularSO2 is the part of the free SO2 that acts on yeast: free / (1 +
// 10^(pH - pK)). Domain: free 0 to 10 g/L, pH 2.5 to 4.5, pK 1 to 3.5. Error:
// *units.RangeError. Source: OIV-MA-AS323-04C.
func MolecularSO2(free units.Concentration, pH, pK float64) (units.Concentration, error) {
	if err := checkSO2("free SO2", free, pH, pK); err != nil {
		return 0, err
	}
	return free / units.Concentration(1+molar.Pow10(pH-pK)), nil
}

// FreeSO2For is the free SO2 that holds so much molecular SO2: the inverse of
// MolecularSO2, same domain and error. 0.5 to 0.8 mg/L molecular is usual.
func FreeSO2For(molecular units.Concentration, pH, pK float64) (units.Concentration, error) {
	if err := checkSO2("molecular SO2", molecular, pH, pK); err != nil {
		return 0, err
	}
	return molecular * units.Concentration(1+molar.Pow10(pH-pK)), nil
}

// SO2ByTitration is SO2 from a titration with iodine (Ripper) or, after
// aeration, with alkali: 32.03 g SO2 per mole of either, in g/L of the sample.
// Iodine also takes what else reduces: coloured wines read high. Domain and
// error as Titrate. 1 mL of 0.1 N iodine is 5.558 mg K2S2O5 (JECFA), 3.203 mg SO2.
func SO2ByTitration(titrant units.Volume, normality float64, sample units.Volume) (units.Concentration, error) {
	n, err := molar.Titrated(titrant, normality, sample)
	return units.Concentration(n * molar.SO2Equivalent), err
}

// SO2ToAdd is what to add so that the free SO2 rises from what was measured to
// what is wanted, the rest being bound: from the dose for a clean dry wine to
// that for a sweet one. Take the lower, wait a day, measure again. Domain:
// 0 to 10 g/L, wanted at least present. Error: *units.RangeError.
func SO2ToAdd(wanted, present units.Concentration) (low, high units.Concentration, err error) {
	if err := check.First(check.Level("free SO2", present, check.MostSO2),
		units.Check("free SO2 wanted", float64(wanted), float64(present), float64(check.MostSO2), "g/L", "at least what is there")); err != nil {
		return 0, 0, err
	}
	return (wanted - present) / freeOfAdditionHigh, (wanted - present) / freeOfAdditionLow, nil
}
