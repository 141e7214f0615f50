package acid

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// An Acid is one that the cellar weighs or titrates. Titratable acidity (TA)
// is in g/L as tartaric acid everywhere in this package; Express changes the
// expression.
type Acid struct {
	Name      string
	MolarMass float64 // g/mol
	Protons   int     // titrated to pH 8.2
	Source    string
	wine      int // 1 + its place among the acids of a Buffer
}

const (
	awri   = "AWRI Technical Note TN14, Interconversion of acidity units"
	fadb   = "Food Additives Data Book (Smith & Hong-Shum eds.)"
	memory = "from memory"
)

// Acids of wine, and others that results are expressed in.
var (
	Tartaric          = Acid{"tartaric acid", molar.TartaricAcid, 2, awri, 1}
	Malic             = Acid{"malic acid", 134.09, 2, fadb, 2}
	Citric            = Acid{"citric acid", 192.12, 3, fadb, 3}
	Lactic            = Acid{"lactic acid", 90.08, 1, fadb, 4}
	Succinic          = Acid{"succinic acid", 118.09, 2, memory, 5}
	Acetic            = Acid{"acetic acid", 60.05, 1, awri, 6}
	CitricMonohydrate = Acid{"citric acid monohydrate", 210.1, 3, "OIV Codex, citric acid monohydrate (Oeno 23/2000)", 3}
	Sulfuric          = Acid{"sulfuric acid", molar.SulfuricAcid, 2, awri, 0}
	Phosphoric        = Acid{"phosphoric acid", 97.99, 2, "from memory; two of its three protons are titrated to pH 8.2", 0}
)

// Equivalent is the mass in g that neutralises one mole of alkali; 0 for an
// Acid that was not filled in, which every function here refuses.
func (a Acid) Equivalent() float64 {
	if a.Protons <= 0 {
		return 0
	}
	return a.MolarMass / float64(a.Protons)
}

func (a Acid) check() error {
	return check.Equivalent(a.Equivalent())
}

const maxAcid units.Concentration = 500

// Express changes an acidity from one expression to another: 1 g/L as sulfuric
// is 1.53 g/L as tartaric. Domain: 0 to 500 g/L. Error: *units.RangeError.
func Express(acidity units.Concentration, from, to Acid) (units.Concentration, error) {
	if err := check.First(check.Level("acidity", acidity, maxAcid), from.check(), to.check()); err != nil {
		return 0, err
	}
	return acidity * units.Concentration(to.Equivalent()/from.Equivalent()), nil
}

// Milliequivalents is an acidity in meq/L. Domain and error as Express.
func Milliequivalents(acidity units.Concentration, as Acid) (float64, error) {
	if err := check.First(check.Level("acidity", acidity, maxAcid), as.check()); err != nil {
		return 0, err
	}
	return float64(acidity) / as.Equivalent() * 1000, nil
}

// FromMilliequivalents is meq/L in g/L of an acid. Domain: 0 to 10000 meq/L.
// Error: *units.RangeError.
func FromMilliequivalents(meq float64, as Acid) (units.Concentration, error) {
	if err := check.First(units.Check("acidity", meq, 0, 1e4, "meq/L", check.Bound), as.check()); err != nil {
		return 0, err
	}
	return units.Concentration(meq / 1000 * as.Equivalent()), nil
}

// Titrate is the TA from a titration: alkali of the given normality (mol/L)
// used by a sample. Drive off CO2 first. Domain: alkali 0 to 10 L, normality
// 0.001 to 2, sample 0.1 mL to 10 L. Error: *units.RangeError. Source: Missouri
// State University MS-28 (75 for the 75.045 used here).
func Titrate(alkali units.Volume, normality float64, sample units.Volume) (units.Concentration, error) {
	n, err := molar.Titrated(alkali, normality, sample)
	return units.Concentration(n * molar.TartaricEquivalent), err
}

// RaiseTA is the acid that raises the TA of v by so much, potassium taking
// none of it. Domain: by 0 to 500 g/L, volume 0 to 1e7 L. Error:
// *units.RangeError. What tartaric acid does in a wine is less: see RaisedTA.
func RaiseTA(by units.Concentration, v units.Volume, a Acid) (units.Mass, error) {
	if err := check.First(check.Level("rise of TA", by, maxAcid), check.Treated(v), a.check()); err != nil {
		return 0, err
	}
	return units.Mass(float64(by) * float64(v) * a.Equivalent() / molar.TartaricEquivalent), nil
}

// Share of an addition of tartaric acid that stays as TA in wine: 0.5 g/L as
// H2SO4 of the 0.653 in 1 g/L; potassium takes the rest to the crystals.
// Handbook of Enology vol. 2, 3rd ed. (2021), comment on Table 1.10.
const tartaricKept = 0.5 * molar.TartaricEquivalent / molar.SulfuricEquivalent

// RaisedTA is what a weighed acid does to the TA of v: from low to high. They
// differ for tartaric acid only, of which crystals may take a part (0.77 of it
// was found to stay). Domain: mass 0 to 500 g per litre, volume above 0. Error:
// *units.RangeError.
func RaisedTA(m units.Mass, v units.Volume, a Acid) (low, high units.Concentration, err error) {
	if err := check.First(check.Weighed(m), check.Vessel(v), a.check(), check.Level("acid added", units.Concentration(float64(m)/float64(v)), maxAcid)); err != nil {
		return 0, 0, err
	}
	high = units.Concentration(float64(m) / float64(v) * molar.TartaricEquivalent / a.Equivalent())
	if low = high; a.wine == 1 {
		low *= tartaricKept
	}
	return low, high, nil
}
