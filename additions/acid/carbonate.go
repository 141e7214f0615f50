package acid

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// A Carbonate takes acid away. Low and High bracket what 1 g does to the TA in
// g as tartaric acid; LowerTA reckons with Neutralises.
type Carbonate struct {
	Name        string
	MolarMass   float64
	Charges     int     // mol of acid that 1 mol neutralises
	Low, High   float64 // share of Neutralises that is seen in practice
	Crystals    string  // what falls afterwards
	RangeSource string
}

const handbook144 = "Handbook of Enology vol. 2, 3rd ed. (2021), section 1.4.4"

// Carbonates of the cellar; molar masses from memory. Potassium ones lower the
// TA once by neutralising and, when bitartrate has fallen, as much again.
var (
	PotassiumBicarbonate = Carbonate{"potassium bicarbonate", 100.12, 1, 1, 2, "potassium bitartrate", handbook144}
	PotassiumCarbonate   = Carbonate{"potassium carbonate", 138.21, 2, 1, 2, "potassium bitartrate", handbook144}
	CalciumCarbonate     = Carbonate{"calcium carbonate", 100.09, 2, 0.85, 1, "calcium tartrate, over weeks", handbook144}
)

// Neutralises is the TA in g, as tartaric acid, that 1 g neutralises before
// anything falls: 0.75 for KHCO3, 1.50 for CaCO3.
func (c Carbonate) Neutralises() float64 {
	if !(c.MolarMass > 0) {
		return 0
	}
	return molar.TartaricEquivalent * float64(c.Charges) / c.MolarMass
}

func (c Carbonate) check() error {
	return check.First(units.Check("TA that 1 g of the carbonate neutralises", c.Neutralises(), 0.01, 10, "g", check.Bound),
		units.Check("greatest share of it seen in practice", c.High, 0, 2, "", "neutralised once, and as much again as crystals fall"),
		units.Check("least share of it seen in practice", c.Low, 0, c.High, "", "the greatest share"))
}

// LowerTA is the carbonate that neutralises so much TA in v, before bitartrate
// falls. Twice the effect may follow in the cold with the potassium ones:
// dose for less, wait, measure. Domain: by 0 to 500 g/L, volume 0 to 1e7 L.
// Error: *units.RangeError.
func LowerTA(by units.Concentration, v units.Volume, c Carbonate) (units.Mass, error) {
	if err := check.First(check.Level("fall of TA", by, maxAcid), check.Treated(v), c.check()); err != nil {
		return 0, err
	}
	return units.Mass(float64(by) * float64(v) / c.Neutralises()), nil
}

// LoweredTA is what a weighed carbonate takes off the TA of v, from low to
// high: what falls as crystals makes the difference. Domain: 0 to 500 g per
// litre, volume above 0. Error: *units.RangeError.
func LoweredTA(m units.Mass, v units.Volume, c Carbonate) (low, high units.Concentration, err error) {
	if err := check.First(check.Weighed(m), check.Vessel(v), c.check(), check.Level("carbonate added", units.Concentration(float64(m)/float64(v)), maxAcid)); err != nil {
		return 0, 0, err
	}
	once := units.Concentration(float64(m) / float64(v) * c.Neutralises())
	return once * units.Concentration(c.Low), once * units.Concentration(c.High), nil
}

// Tartar is what potassium bitartrate takes with it when it falls, per litre.
type Tartar struct{ Bitartrate, TA, TartaricAcid, Potassium units.Concentration }

// TartarFallen is the effect of so much fallen potassium bitartrate: 2.5 g/L
// take 1 g/L of TA, 2 g/L of tartaric acid, 0.52 g/L of potassium. Domain: 0
// to 500 g/L. Error: *units.RangeError.
func TartarFallen(bitartrate units.Concentration) (Tartar, error) {
	if err := check.Level("fallen bitartrate", bitartrate, maxAcid); err != nil {
		return Tartar{}, err
	}
	n := bitartrate / molar.PotassiumBitartrate
	return Tartar{bitartrate, n * molar.TartaricEquivalent, n * molar.TartaricAcid, n * molar.Potassium}, nil
}

// MostTartar is the upper end of what can fall: all of the tartaric acid or all
// of the potassium, whichever is less. The lower end is nothing; the cold, the
// pH and the strength decide, and no formula for them is used here. Domain: both
// 0 to 500 g/L. Error: *units.RangeError.
func MostTartar(tartaric, potassium units.Concentration) (Tartar, error) {
	if err := check.First(check.Level("tartaric acid", tartaric, maxAcid), check.Level("potassium", potassium, maxAcid)); err != nil {
		return Tartar{}, err
	}
	return TartarFallen(molar.PotassiumBitartrate * min(tartaric/molar.TartaricAcid, potassium/molar.Potassium))
}
