package law

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"example.org/mutage/additions"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A Fact is one thing to know about a hazard; Value and Unit are empty where
// the fact has no figure.
type Fact struct {
	Hazard, Fact string
	Value, Unit  string
	Source       string
	Evidence     additions.Evidence
}

// String is the fact as a sentence behind the name of its hazard.
func (f Fact) String() string {
	return strings.TrimSpace(f.Hazard+": "+f.Fact+" "+f.Value+" "+f.Unit) + "."
}

//go:embed data/safety.csv
var safetyTable string

var facts = sync.OnceValue(func() []Fact {
	var out []Fact
	for _, r := range table.Parse(safetyTable) {
		out = append(out, Fact{r["hazard"], r["fact"], r["value"], r["unit"], r["source"], additions.Evidence(r.Evidence())})
	}
	return out
})

// Hazards lists the hazards that Cautions knows.
func Hazards() []string {
	var out []string
	for _, f := range facts() {
		if !slices.Contains(out, f.Hazard) {
			out = append(out, f.Hazard)
		}
	}
	return out
}

// Cautions are the facts about the named hazards. Local codes and trained help
// come first. Error: *units.ParseError for another name.
func Cautions(hazards ...string) ([]Fact, error) {
	var out []Fact
	for _, h := range hazards {
		if !slices.Contains(Hazards(), h) {
			return nil, &units.ParseError{Text: h, Quantity: "hazard", Expected: Hazards()}
		}
		out = append(out, about(h)...)
	}
	return out, nil
}

// CautionText is the first so many facts of each hazard, as sentences. Errors as
// Cautions.
func CautionText(most int, hazards ...string) (string, error) {
	var said []string
	for _, h := range hazards {
		facts, err := Cautions(h)
		if err != nil {
			return "", err
		}
		for _, f := range facts[:min(max(most, 0), len(facts))] {
			said = append(said, f.String())
		}
	}
	return strings.Join(said, " "), nil
}

func about(hazard string) []Fact {
	return slices.DeleteFunc(slices.Clone(facts()), func(f Fact) bool { return f.Hazard != hazard })
}

// pressureFrom is the sugar that makes more than 1 g/L of CO2; a still wine under
// straight cork may hold 1.2 g/L (CETIE Guide No. 1, 2008).
const pressureFrom units.Concentration = 2

// cautions are those of what the batch holds.
func (b Product) cautions() []Fact {
	out := about("alcohol")
	if b.Levels[TotalSO2]+b.Levels[FreeSO2] > 0 {
		out = append(out, about("sulfite")...)
	}
	if b.Sugar > pressureFrom {
		out = append(out, about("pressure")...)
	}
	if b.Spirit > 0 {
		if t, err := FlashPoint(b.Spirit); err == nil {
			out = append(out, Fact{"flame", "the vapour takes fire from here up", units.Round(t.Celsius(), 0).String(), "C, at " + b.Spirit.String(), sourceFlash, additions.Published})
		}
		out = append(out, about("flame")...)
	}
	return out
}

// flashPoints are % mass of ethanol in water and C; 96 % mass is printed with
// 17 and with 13 C, and the lower stands.
var flashPoints = [][2]float64{{5, 62}, {10, 49}, {20, 36}, {30, 29}, {40, 26}, {50, 24}, {60, 22}, {70, 21}, {80, 20}, {90, 17}, {96, 13}}

const sourceFlash = "engineering table, Ethanol freeze protected water solutions, flash points: 5 to 96 % mass"

// FlashPoint is the temperature from which the vapour over a spirit takes fire
// from a flame, straight between the rows of a table for ethanol and water;
// sugar is not in it. Domain: 6.3 to 97.4 % vol, the table's 5 to 96 % mass.
// Error: *units.RangeError. Warm spirit, mist and rags burn below it: keep
// flames away at any figure.
func FlashPoint(s units.Strength) (units.Temperature, error) {
	low, high := density.ByVolume(flashPoints[0][0]/100), density.ByVolume(flashPoints[len(flashPoints)-1][0]/100)
	if err := units.Check("strength", float64(s), low, high, "% vol", sourceFlash); err != nil {
		return 0, err
	}
	return units.Celsius(table.Linear(flashPoints, 100*density.ByMass(float64(s)))), nil
}
