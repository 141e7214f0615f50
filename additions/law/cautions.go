package law

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"example.org/mutage/additions"
	"example.org/mutage/internal/limits"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A Step is where in the work a caution belongs: a stable code.
type Step string

// The steps, in the order of the work.
const (
	StepMust    Step = "must"
	StepFerment Step = "ferment"
	StepStop    Step = "stop" // of the fermentation
	StepDose    Step = "dose"
	StepPour    Step = "pour" // of the spirit
	StepRest    Step = "rest"
	StepWood    Step = "wood"
	StepBottle  Step = "bottle"
	StepDrink   Step = "drink"
	StepGive    Step = "give" // away, or sell
	StepDistil  Step = "distil"
	StepAny     Step = "any"
)

// What is what a batch does, as far as a caution depends on it.
type What struct {
	// Jurisdiction as in Check; empty or not known: only what holds everywhere.
	Jurisdiction string

	Must       bool // a must is prepared
	StoneFruit bool // of fruit with stones
	Fermenting bool // something ferments, or is to be stopped
	Sulfite    bool // sulfite goes in, or is in
	Sorbate    bool
	Acid       bool // acid goes in as powder
	Wood       bool
	Fortified  bool // the wine is or gets stronger than table wine
	Bottled    bool // it goes into a closed vessel

	SugarLeft units.Concentration // the most fermentable sugar that may be left
	Spirit    units.Strength      // the strongest spirit that is poured; zero: none
}

// A Caution is one whole sentence, or two, on one hazard.
type Caution struct {
	Key  string // stable: "flame_pour"
	Step Step
	Text string
	// Lead marks those that a short page must have.
	Lead bool
	// Date is that of the source, or the year in which a fact of the trade was
	// written down.
	Source, Date string
	Evidence     additions.Evidence
}

// String is the text.
func (c Caution) String() string { return c.Text }

//go:embed data/hazards.csv
var hazardTable string

var hazards = sync.OnceValue(func() []table.Record { return table.Parse(hazardTable) })

// sugarThatBursts is the sugar that makes more than 1 g/L of CO2; a still wine
// under straight cork may hold 1.2 g/L (CETIE Guide No. 1, 2008).
const sugarThatBursts = 2.0

// Cautions are the sentences that apply to a batch, each once, in the order of
// the work. Local codes and trained help come first. They are not all there is
// to know: what was not looked at is not covered.
func Cautions(w What) []Caution {
	where, _ := limits.Jurisdiction(w.Jurisdiction)
	own := map[string]bool{} // steps on which the jurisdiction has a sentence of its own
	for _, r := range hazards() {
		if r["jurisdiction"] != "" && r["jurisdiction"] == where {
			own[r["step"]] = true
		}
	}
	var out []Caution
	for _, r := range hazards() {
		if r["jurisdiction"] != "" && r["jurisdiction"] != where || !w.all(r["condition"], own[r["step"]]) ||
			limits.Compare(float64(w.Spirit), r.Number("from", 0)) < 0 {
			continue
		}
		out = append(out, Caution{r["key"], Step(r["step"]), w.fill(r["text"]), r["lead"] == "yes", r["source"], r["text_date"], additions.Evidence(r.Evidence())})
	}
	return out
}

// At is the cautions of these steps.
func At(all []Caution, steps ...Step) []Caution {
	return slices.DeleteFunc(slices.Clone(all), func(c Caution) bool { return !slices.Contains(steps, c.Step) })
}

// all tells whether every condition holds; a|b is one of the two.
func (w What) all(conditions string, ownRule bool) bool {
	for _, any := range strings.Fields(conditions) {
		if !slices.ContainsFunc(strings.Split(any, "|"), func(c string) bool { return w.is(c, ownRule) }) {
			return false
		}
	}
	return true
}

func (w What) is(condition string, ownRule bool) bool {
	switch condition {
	case "must":
		return w.Must
	case "stone_fruit":
		return w.StoneFruit
	case "fermenting":
		return w.Fermenting
	case "sulfite":
		return w.Sulfite
	case "no_sulfite":
		return !w.Sulfite
	case "sorbate":
		return w.Sorbate
	case "acid":
		return w.Acid
	case "wood":
		return w.Wood
	case "fortified":
		return w.Fortified
	case "bottled":
		return w.Bottled
	case "sugar_left":
		return limits.Compare(float64(w.SugarLeft), sugarThatBursts) > 0
	case "spirit":
		return w.Spirit > 0
	case "flash_point":
		_, _, err := FlashPoint(w.Spirit)
		return err == nil
	case "elsewhere":
		return !ownRule
	}
	return true // better said once too often
}

// fill puts the figures of the spirit into a sentence that has places for them.
func (w What) fill(text string) string {
	safe, other, err := FlashPoint(w.Spirit)
	if err != nil {
		return text
	}
	degrees := func(t units.Temperature) string { return units.Round(t.Celsius(), 0).String() + " C" }
	return strings.NewReplacer("{flash_point}", degrees(safe), "{other}", degrees(other), "{strength}", w.Spirit.String()).Replace(text)
}
