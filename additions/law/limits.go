package law

import (
	_ "embed"
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/mutage/additions"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A Parameter is what a limit speaks of, named as in the table; Parameters
// lists them.
type Parameter string

// Parameters that the additions of this package make.
const (
	TotalSO2                 Parameter = "total SO2"
	FreeSO2                  Parameter = "free SO2"
	SorbicAcidLevel          Parameter = "sorbic acid"
	AcidAdded                Parameter = "acid added" // as tartaric acid
	CitricAdded              Parameter = "citric acid added"
	FixedAcidRaised          Parameter = "fixed acid after adding acid"
	FixedAcidLowered         Parameter = "fixed acid after deacidification"
	DiammoniumPhosphateAdded Parameter = "diammonium phosphate"
	AmmoniumSulfateAdded     Parameter = "ammonium sulfate"
	VolatileAcidity          Parameter = "volatile acidity" // as acetic acid
	phAfterAcid              Parameter = "pH after adding acid"
)

// Levels are what is in a litre.
type Levels map[Parameter]units.Concentration

// A Batch is a wine as the law looks at it.
type Product struct {
	Levels    Levels
	Sugar     units.Concentration
	PH        float64 // after adding acid; 0: none added or not known
	Fruit     bool    // of other fruit than grapes
	Fortified bool
	Colour    string         // "red", "white" (rosé with it); empty: both are looked at
	Spirit    units.Strength // strongest liquid that is handled; 0: none
}

// A Finding holds a level against a limit.
type Finding struct {
	Parameter        Parameter
	Value, Limit, By float64 // By: beyond the limit, 0 where it is kept
	Unit             string
	Sense            string // most, least, declare
	Class, Note      string
	Source, Date     string // Date: of the text that was read
	Evidence         additions.Evidence
}

// Report is what one jurisdiction says of a batch.
type Report struct {
	Jurisdiction   string
	Exceeded, Kept []Finding
	Declare        []Finding   // a statement that the label must carry
	NoLimit        []Parameter // present, without a row in the table: not the same as allowed
	Cautions       []Fact
	Law            string
}

const ownLaw = "Check your own law: these texts were read at the dates beside them, not all of them, and they change."

//go:embed data/limits.csv
var limitTable string

var limitRows = sync.OnceValue(func() []table.Record { return table.Parse(limitTable) })

// Jurisdictions lists the names that CheckLimits knows.
func Jurisdictions() []string {
	return collect(func(r table.Record) []string { return strings.Split(r["jurisdiction"], "|") })
}

// Parameters lists the parameters that any jurisdiction limits.
func Parameters() []Parameter {
	var out []Parameter
	for _, p := range collect(func(r table.Record) []string { return []string{r["parameter"]} }) {
		out = append(out, Parameter(p))
	}
	return out
}

func collect(names func(table.Record) []string) []string {
	var out []string
	for _, r := range limitRows() {
		out = append(out, names(r)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// CheckLimits holds the levels of a batch against the rows of a jurisdiction:
// what is exceeded and by how much, what is kept, what the label must say, and
// what has no row. Rows for special wines (listed sweet wines, sparkling wine)
// are left out. Errors: *units.ParseError for a jurisdiction or a colour
// without rows, *units.RangeError for a level. Sources and dates: in each
// Finding. It is no legal advice.
func Check(jurisdiction string, b Product) (Report, error) {
	if known := Jurisdictions(); !slices.Contains(known, jurisdiction) {
		return Report{}, &units.ParseError{Text: jurisdiction, Quantity: "jurisdiction", Expected: known}
	}
	if !slices.Contains([]string{"", "red", "white"}, b.Colour) {
		return Report{}, &units.ParseError{Text: b.Colour, Quantity: "colour", Expected: []string{"red", "white", "nothing"}}
	}
	err := check.First(check.Level("sugar", b.Sugar, 1000), units.Check("pH", b.PH, 0, 14, "", ""),
		units.Check("strength of the spirit", float64(b.Spirit), 0, 100, "% vol", ""))
	for p, c := range b.Levels {
		err = check.First(err, check.Level(string(p), c, 1000))
	}
	if err != nil {
		return Report{}, err
	}
	report := Report{Jurisdiction: jurisdiction, Law: ownLaw, Cautions: b.cautions()}
	seen := map[Parameter]bool{}
	for _, r := range limitRows() {
		p := Parameter(r["parameter"])
		value, ok := b.value(p, r["unit"])
		if !ok || !slices.Contains(strings.Split(r["jurisdiction"], "|"), jurisdiction) || !b.is(r) {
			continue
		}
		f := Finding{p, value, r.Number("limit", 0), 0, r["unit"], r["sense"], r["class"], r["note"], r["source"], r["date"], additions.Evidence(r.Evidence())}
		seen[p] = seen[p] || f.Sense != "declare"
		switch f.Sense {
		case "most":
			f.By = max(0, value-f.Limit)
		case "least":
			f.By = max(0, f.Limit-value)
		}
		// The slack is for decimal fractions that float64 cannot hold.
		switch slack := 1e-9 * f.Limit; {
		case f.Sense == "declare" && value >= f.Limit-slack:
			report.Declare = append(report.Declare, f)
		case f.Sense != "declare" && f.By > slack:
			report.Exceeded = append(report.Exceeded, f)
		case f.Sense != "declare":
			report.Kept = append(report.Kept, f)
		}
	}
	for p, c := range b.Levels {
		if !seen[p] && c > 0 {
			report.NoLimit = append(report.NoLimit, p)
		}
	}
	slices.Sort(report.NoLimit)
	return report, nil
}

// value is the level in the row's unit.
func (b Product) value(p Parameter, unit string) (float64, bool) {
	if p == phAfterAcid {
		return b.PH, b.PH > 0
	}
	c, ok := b.Levels[p]
	if unit == "mg/L" {
		return c.In(units.MilligramPerLitre), ok
	}
	return float64(c), ok
}

// is tells whether the batch is of the row's class.
func (b Product) is(r table.Record) bool {
	class := strings.Fields(r["wine"])
	no := func(word string, is bool) bool { return slices.Contains(class, word) && !is }
	return !(no("special", false) || no("grape", !b.Fruit) || no("fruit", b.Fruit) || no("fortified", b.Fortified) || no("unfortified", !b.Fortified)) &&
		(r["colour"] == "" || b.Colour == "" || r["colour"] == b.Colour) &&
		float64(b.Sugar) >= r.Number("sugar_from", 0) && float64(b.Sugar) < r.Number("sugar_to", math.Inf(1))
}
