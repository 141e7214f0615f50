package additions

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"example.org/mutage/units"
)

//go:embed data/*.csv
var files embed.FS

// Evidence says how a value of a table is known.
type Evidence string

// Kinds of evidence.
const (
	Published      Evidence = "published"                  // seen in the source beside it
	Computed       Evidence = "computed"                   // follows from published values
	CommonPractice Evidence = "common practice, no source" // a fact of the trade
	FromMemory     Evidence = "from memory"                // known, not seen: check before relying on it
)

// A record is one line of an embedded table, read by column name.
type record map[string]string

// load reads an embedded table. The files are part of the package and every
// one is read by its tests, so that a failure here is a build that went wrong.
func load(name string) []record {
	text, err := files.ReadFile("data/" + name)
	if err != nil {
		panic(err)
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	out := make([]record, 0, len(rows)-1)
	for _, cells := range rows[1:] {
		row := record{}
		for i, column := range rows[0] {
			row[column] = cells[i]
		}
		out = append(out, row)
	}
	return out
}

// number reads a cell; an empty cell is the given default.
func (r record) number(column string, empty float64) float64 {
	if r[column] == "" {
		return empty
	}
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		panic(fmt.Sprintf("%s: %v", column, err))
	}
	return x
}

func (r record) evidence() Evidence { return Evidence(r["kind"]) }

// Bounds that only keep nonsense out; no formula ends there.
const (
	maxVolume = 1e7 // L
	maxMass   = 1e10
	bound     = "a bound against mistyping, no law or chemistry"
)

func checkVolume(v units.Volume) error {
	return units.Check("volume", float64(v), 0, maxVolume, "L", bound)
}

// checkVessel refuses zero too: the volume divides.
func checkVessel(v units.Volume) error {
	return units.Check("volume", float64(v), 1e-6, maxVolume, "L", bound)
}

func checkMass(m units.Mass) error {
	return units.Check("mass", float64(m), 0, maxMass, "g", bound)
}

func checkLevel(quantity string, c, most units.Concentration) error {
	return units.Check(quantity, float64(c), 0, float64(most), "g/L", bound)
}

// first is the first error there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
