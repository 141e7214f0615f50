package spirit

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// USProof is the US proof of a spirit: twice the % vol whose volumes are
// measured at 60 F (27 CFR 5.1, 30.11). At 60 F the same spirit counts up to
// 0.073 % vol less than at 20 C (near 30 % vol): 40 % vol is 79.86 proof.
// Domain 0 to 100 % vol. Error: *units.RangeError.
func USProof(s units.Strength) (float64, error) {
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	return usProof(s), nil
}

func usProof(s units.Strength) float64 {
	return 2 * density.ByVolumeAt(density.ByMass(float64(s)), density.SixtyF)
}

var byUSProof = figure.Method{Method: "twice the % vol whose volumes are measured at 60 F", Source: "27 CFR 5.1; " + density.SourceEthanol}

// FromUSProof is the strength at 20 C of a spirit of this US proof: 80 proof is
// 40.07 % vol. Domain 0 to 200. Error: *units.RangeError.
func FromUSProof(proof float64) (units.Strength, error) {
	p, err := proofFraction("US proof", proof)
	if err != nil {
		return 0, err
	}
	return units.Strength(density.ByVolume(p)), nil
}

// proofFraction is the mass fraction of ethanol at this US proof.
func proofFraction(quantity string, proof float64) (float64, error) {
	if err := units.Check(quantity, proof, 0, 200, "proof", "27 CFR 5.1"); err != nil {
		return 0, err
	}
	return density.ByMassAt(proof/2, density.SixtyF), nil
}

// britishProofSpirit is the strength, on the basis of 60 F, of the spirit that
// at 51 F weighs 12/13 of an equal measure of distilled water (the statutory
// definition, from memory). By OIML R 22 it is 57.09; the handbooks of the time
// print 57.06, from older densities.
var britishProofSpirit = func() float64 {
	const at = (51.0 - 32) * 5 / 9
	p, _ := density.EthanolFraction(density.Ethanol(0, at)*12/13, at) // between water and ethanol
	return density.ByVolumeAt(p, density.SixtyF)
}()

// BritishProof is the strength in degrees of British (Sikes) proof: the
// volumes of proof spirit that hold the alcohol of 100 volumes. 100 is proof,
// 121 is "21 over proof", 70 is "30 under proof", about 40 % vol. Domain 0 to
// 100 % vol; within 0.1 degree of the old tables. Error: *units.RangeError.
func BritishProof(s units.Strength) (float64, error) {
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	return 100 * density.ByVolumeAt(density.ByMass(float64(s)), density.SixtyF) / britishProofSpirit, nil
}

// FromBritishProof is the strength at 20 C of a spirit of so many degrees of
// British proof. Domain 0 to 175.1, pure alcohol. Error: *units.RangeError.
func FromBritishProof(degrees float64) (units.Strength, error) {
	if err := units.Check("British proof", degrees, 0, 100*100/britishProofSpirit, "degrees", density.SourceEthanol); err != nil {
		return 0, err
	}
	return units.Strength(density.ByVolume(density.ByMassAt(degrees*britishProofSpirit/100, density.SixtyF))), nil
}

// ProofGallons is the number of US proof gallons in a volume at 60 F:
// wine gallons times proof over 100 (27 CFR 30.11). Domain 0 to 200 proof, v
// zero or more. Error: *units.RangeError.
func ProofGallons(at60F units.Volume, proof float64) (float64, error) {
	if err := check.Volume("volume at 60 F", at60F); err != nil {
		return 0, err
	}
	if _, err := proofFraction("US proof", proof); err != nil {
		return 0, err
	}
	return at60F.In(units.USGallon) * proof / 100, nil
}
