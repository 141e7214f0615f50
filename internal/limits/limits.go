package limits

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/mutage/internal/table"
)

// A Row is one limit as its text has it.
type Row struct {
	Jurisdiction string
	Category     string // code: "fortified_fruit_wine"
	Product      string // the category as the table writes it: "fortified fruit wine"
	MadeFrom     string // grapes, fruit, spirit; empty: any
	Parameter    string // code: "so2_total"
	Scope        string // all, sale, home
	Colour       string // red, white (with rosé); empty: any

	SugarFrom, SugarTo       float64 // g/L; SugarTo +Inf: open
	BorderIsLower            bool    // a sugar of SugarTo belongs to this row
	StrengthFrom, StrengthTo float64 // % vol

	Alternative string
	Limit       float64
	Unit        string
	Comparison  Comparison
	Basis       string

	Source, Article, Date, LookedUp string
	Superseded                      bool
	Evidence                        table.Evidence
	Note                            string
}

//go:embed limits.csv
var text string

type key struct{ jurisdiction, category, parameter string }

// index is the table by what is asked of it.
type index struct {
	rows  []Row
	byKey map[key][]Row

	jurisdictions, categories, parameters []string
}

var parsed = sync.OnceValue(func() index {
	var t index
	t.byKey = map[key][]Row{}
	for _, r := range table.Parse(text) {
		if err := complete(r); err != nil {
			panic(err)
		}
		row := rowOf(r)
		t.rows = append(t.rows, row)
		k := key{row.Jurisdiction, row.Category, row.Parameter}
		t.byKey[k] = append(t.byKey[k], row)
	}
	t.jurisdictions = distinct(t.rows, func(r Row) string { return r.Jurisdiction })
	t.categories = distinct(t.rows, func(r Row) string { return r.Category })
	t.parameters = distinct(t.rows, func(r Row) string { return r.Parameter })
	return t
})

// complete refuses a record that does not say whose law it is, where that stands,
// from when the text is and how the row is known.
func complete(r table.Record) error {
	for _, column := range []string{"jurisdiction", "category", "parameter", "scope", "comparison", "source", "article", "text_date", "looked_up", "status", "kind"} {
		if strings.TrimSpace(r[column]) == "" {
			return fmt.Errorf("table of law: no %s: %v", column, r)
		}
	}
	return nil
}

func rowOf(r table.Record) Row {
	open := math.Inf(1)
	return Row{
		Jurisdiction: r["jurisdiction"], Category: Code(r["category"]), Product: r["category"], MadeFrom: r["made_from"],
		Parameter: r["parameter"], Scope: r["scope"], Colour: r["colour"],
		SugarFrom: r.Number("sugar_from", 0), SugarTo: r.Number("sugar_to", open), BorderIsLower: r["border"] == "lower",
		StrengthFrom: r.Number("strength_from", 0), StrengthTo: r.Number("strength_to", open),
		Alternative: r["alternative"], Limit: r.Number("limit", 0), Unit: r["unit"], Comparison: Comparison(r["comparison"]), Basis: r["basis"],
		Source: r["source"], Article: r["article"], Date: r["text_date"], LookedUp: r["looked_up"],
		Superseded: r["status"] == "superseded", Evidence: r.Evidence(), Note: r["note"],
	}
}

// Code is the stable code of a category's name: snake case.
func Code(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	}), "_")
}

// Rows are the rows in the order of the table. The slice is the caller's own.
func Rows() []Row { return slices.Clone(parsed().rows) }

// distinct are the values of a column, sorted.
func distinct(rows []Row, column func(Row) string) []string {
	var out []string
	for _, r := range rows {
		out = append(out, column(r))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Jurisdictions lists whose law the table has, sorted.
func Jurisdictions() []string { return slices.Clone(parsed().jurisdictions) }

// Categories lists the codes of the products, sorted.
func Categories() []string { return slices.Clone(parsed().categories) }

// Parameters lists what is limited or asked for, sorted.
func Parameters() []string { return slices.Clone(parsed().parameters) }

// Jurisdiction is the table's name for what somebody wrote, whatever the case:
// "us", and "Australia" for "Australia/New Zealand".
func Jurisdiction(written string) (string, bool) {
	written = strings.TrimSpace(written)
	for _, j := range parsed().jurisdictions {
		for _, name := range append(strings.Split(j, "/"), j) {
			if strings.EqualFold(written, name) {
				return j, true
			}
		}
	}
	return "", false
}

// Categories that stand for others.
const (
	AnyWine  = "any_wine"
	HomeMade = "home_made"
)

// nearest is the category whose rows are nearest where a category has none of
// its own. They are not its law.
var nearest = map[string]string{"fortified_fruit_wine": "fruit_wine", "liqueur_or_fortified_wine": "grape_wine"}

// noWine are the categories to which the rows of "any wine" do not apply.
var noWine = []string{"spirit", "chaptalised_juice", "grape_must", "must", "must_for_port"}

// Find are the rows of a jurisdiction for a category and a parameter: the
// category's own, else those of any wine, else those of the nearest category,
// which near then names. No rows: not known here.
func Find(jurisdiction, category, parameter string) (rows []Row, near string) {
	t := parsed()
	if rows = t.byKey[key{jurisdiction, category, parameter}]; rows != nil {
		return rows, ""
	}
	if !slices.Contains(noWine, category) {
		if rows = t.byKey[key{jurisdiction, AnyWine, parameter}]; rows != nil {
			return rows, ""
		}
	}
	if near = nearest[category]; near != "" {
		if rows = t.byKey[key{jurisdiction, near, parameter}]; rows != nil {
			return rows, near
		}
	}
	return nil, ""
}

// Own are the rows of the category itself.
func Own(jurisdiction, category, parameter string) []Row {
	return parsed().byKey[key{jurisdiction, category, parameter}]
}

// Citation names the text, the place in it, its date and how far it can be
// relied on.
func (r Row) Citation() string { return Cite(r.Source, r.Article, r.Date, r.Superseded, r.Evidence) }

// Cite is the citation of a row of these cells.
func Cite(source, article, date string, superseded bool, evidence table.Evidence) string {
	s := source + ", " + article
	if superseded {
		s += ", as of " + date + ", amended since"
	} else {
		s += ", text of " + date
	}
	if evidence == table.FromMemory {
		s += ", from memory"
	}
	return s
}

// Alternatives are the rows of a category that share the word.
func Alternatives(jurisdiction, category, word string) []Row {
	var out []Row
	for _, r := range parsed().rows {
		if r.Jurisdiction == jurisdiction && r.Category == category && r.Alternative == word {
			out = append(out, r)
		}
	}
	return out
}

// IsLevel tells whether the parameter is an amount in the wine: in the table by
// volume or mass, or not in the table at all.
func IsLevel(parameter string) bool {
	for _, r := range parsed().rows {
		if r.Parameter == parameter && r.Comparison != NoneInText {
			return r.Unit == "g/L" || r.Unit == "mg/L" || r.Unit == "mg/kg"
		}
	}
	return true
}
