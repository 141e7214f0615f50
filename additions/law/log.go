package law

import (
	"math"
	"time"

	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// An Additive is what a log entry can hold: a share of its weight counts
// towards a parameter.
type Additive struct {
	Name      string
	Parameter Parameter
	Share     float64
}

// Additives of the log. Others are written in the same way; AcidAdditive makes
// those of acids.
var (
	LogPotassiumMetabisulfite = Additive{"potassium metabisulfite", TotalSO2, additions.PotassiumMetabisulfite.SO2}
	LogSodiumMetabisulfite    = Additive{"sodium metabisulfite", TotalSO2, additions.SodiumMetabisulfite.SO2}
	LogPotassiumSorbate       = Additive{"potassium sorbate", SorbicAcid, molar.SorbicOfSorbate}
	LogDiammoniumPhosphate    = Additive{"diammonium phosphate", DiammoniumPhosphateAdded, 1}
)

// AcidAdditive counts an acid as tartaric acid towards the acid added. Error:
// *units.RangeError for an Acid that was not filled in.
func AcidAdditive(a acid.Acid) (Additive, error) {
	return Additive{a.Name, AcidAdded, molar.TartaricEquivalent / a.Equivalent()}, check.Equivalent(a.Equivalent())
}

// An Entry is one thing that happened to the vessel. An entry without an
// additive only sets the volume: spirit or water poured in, wine drawn off.
type Entry struct {
	When     time.Time
	Additive Additive
	Mass     units.Mass
	Volume   units.Volume // in the vessel afterwards
	Note     string
}

// Log is what went in and when, oldest first. It is a plain value: append to it,
// write it as JSON.
type Log []Entry

// Levels are what all entries together leave in a litre, so that a second dose
// counts the first. A larger volume thins what was there, a smaller one has
// been drawn off and changes nothing. Nothing is taken as lost: for total SO2
// that is the safe side, and free SO2 must be measured. Error: *units.RangeError
// for an entry that is out of order in time or has no volume.
func (l Log) Levels() (Levels, error) {
	levels := Levels{}
	for i, e := range l {
		if err := check.First(check.Vessel(e.Volume), check.Weighed(e.Mass)); err != nil {
			return nil, err
		}
		if i > 0 {
			before := l[i-1]
			if err := units.Check("hours since the entry before", e.When.Sub(before.When).Hours(), 0, math.Inf(1), "h", "entries stand in order of time"); err != nil {
				return nil, err
			}
			if e.Volume > before.Volume {
				for p := range levels {
					levels[p] *= units.Concentration(before.Volume / e.Volume)
				}
			}
		}
		if e.Mass == 0 && e.Additive.Name == "" {
			continue
		}
		if err := units.CheckOf(e.Additive.Name, "share that counts", e.Additive.Share, 1e-9, 10, "", check.Bound); err != nil {
			return nil, err
		}
		levels[e.Additive.Parameter] += units.Concentration(float64(e.Mass) * e.Additive.Share / float64(e.Volume))
	}
	return levels, nil
}
