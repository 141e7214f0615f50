package spirit

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// Air and weights of the US gauging tables. The Gauging Manual's pages at hand
// state no convention: with brass weights of 8400 kg/m3 (the usual value, from
// memory) this density of air gives the weight of water that it prints,
// 0.120074 gal per lb or 8.32823 lb per gallon at 60 F.
const (
	airDensity   = 1.2125 // kg/m3
	brassDensity = 8400.0 // kg/m3
)

// WeightInAir is what a scale that is right for brass weights shows for a mass
// of liquid of density d: the air carries 0.11 % of water and 0.14 % of strong
// spirit. Domain: d from 700 to 1400 kg/m3, m zero or more.
// Error: *units.RangeError.
func WeightInAir(m units.Mass, d units.Density) (units.Mass, error) {
	if err := check.Mass("mass", m); err != nil {
		return 0, err
	}
	if err := units.Check("density", float64(d), 700, 1400, "kg/m3", ""); err != nil {
		return 0, err
	}
	return m * units.Mass(buoyancy(float64(d))), nil
}

// buoyancy is the weight in air of a unit of mass.
func buoyancy(rho float64) float64 { return (1 - airDensity/rho) / (1 - airDensity/brassDensity) }

// VolumeOfWeight is the volume at 20 C of a spirit without sugar that a scale
// shows to weigh this much, in air: no measuring vessel and no thermometer
// needed. Domain 0 to 100 % vol, weight zero or more. Error: *units.RangeError.
func VolumeOfWeight(weight units.Mass, s units.Strength) (units.Volume, error) {
	if err := check.Mass("weight", weight); err != nil {
		return 0, err
	}
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	rho := density.Ethanol20(density.ByMass(float64(s)))
	return units.Volume(float64(weight) / (rho * buoyancy(rho))), nil
}

// Gauged are the figures of the US Gauging Manual for a proof, all at 60 F and
// weighed in air.
type Gauged struct {
	Alcohol, Water       float64 // parts in 100 parts by volume before mixing, Table 6
	SpecificGravity      float64 // in air, 60 F / 60 F, Table 6
	WineGallonsPerPound  float64 // Table 4; its reciprocal is the weight of a gallon in Table 5
	ProofGallonsPerPound float64 // Tables 3 and 4; its reciprocal is the weight of a proof gallon in Table 5
}

var byGauging = figure.Method{Method: "densities of ethanol and water at 60 F, weighed in air", Source: "US Gauging Manual, Tables 3 to 6; " + density.SourceEthanol}

// Gauge gives the figures of Tables 3 to 6 for a proof. Domain 0 to 200. The
// tables rest on older densities: against OIML R 22 the printed spirit is
// 0.005 % heavier at 190 and 0.013 % at 200 proof, and holds 0.007 gallons of
// water less per 100 near 100 proof. Error: *units.RangeError.
func Gauge(proof float64) (Gauged, error) {
	p, err := proofFraction("US proof", proof)
	if err != nil {
		return Gauged{}, err
	}
	rho, water := density.Ethanol(p, density.SixtyF), density.Ethanol(0, density.SixtyF)
	perPound := units.Pound.In(units.Kilogram) / (rho * buoyancy(rho)) * 1000 * units.Litre.In(units.USGallon)
	return Gauged{
		Alcohol:              proof / 2,
		Water:                100 * (1 - p) * rho / water,
		SpecificGravity:      rho * buoyancy(rho) / (water * buoyancy(water)),
		WineGallonsPerPound:  perPound,
		ProofGallonsPerPound: perPound * proof / 100,
	}, nil
}

// VolumeFactor60F is US Gauging Table 7: what to multiply a volume at this
// temperature by to have it at 60 F. Domain 0 to 200 proof, -20 to 40 C, not
// frozen. Error: *units.RangeError.
func VolumeFactor60F(proof float64, at units.Temperature) (float64, error) {
	p, err := proofFraction("US proof", proof)
	if err != nil {
		return 0, err
	}
	if err := check.Unfrozen(p, at); err != nil {
		return 0, err
	}
	return density.Ethanol(p, at.Celsius()) / density.Ethanol(p, density.SixtyF), nil
}
