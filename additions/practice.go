package additions

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"time"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

//go:embed data/practice.csv
var practiceTable string

// A Practice is what the trade does: a range, never a rule. Most rows are common
// practice without a source and say so; try on a small sample first.
type Practice struct {
	Key         string // stable: "wood_first_tasting"
	Topic, Item string // Item is the key in words
	Low, High   float64
	Unit        string
	Note        string // a sentence or two
	// Source says so where there is none. Date is that of the source, or the year
	// in which a fact of the trade was written down.
	Source, Date string
	Evidence     Evidence
}

var practices = sync.OnceValue(func() []Practice {
	var out []Practice
	for _, r := range table.Parse(practiceTable) {
		out = append(out, Practice{r["key"], r["topic"], strings.ReplaceAll(r["key"], "_", " "), r.Number("low", 0), r.Number("high", 0), r["unit"],
			r["text"], r["source"], r["text_date"], Evidence(r.Evidence())})
	}
	return out
})

// PracticeOf is the row of this key: "rest_after_spirit". Error:
// *units.ParseError for another key, which lists all.
func PracticeOf(key string) (Practice, error) {
	keys := make([]string, 0, len(practices()))
	for _, p := range practices() {
		if p.Key == key {
			return p, nil
		}
		keys = append(keys, p.Key)
	}
	return Practice{}, &units.ParseError{Text: key, Quantity: "practice", Expected: keys}
}

// Practices lists the rows of a topic: "wood", "clearing", "vessel", "spirit",
// "yeast", "nutrient", "sulfite", "sorbate". Error: *units.ParseError for
// another topic, which lists all.
func Practices(topic string) ([]Practice, error) {
	var out []Practice
	var topics []string
	for _, p := range practices() {
		if !slices.Contains(topics, p.Topic) {
			topics = append(topics, p.Topic)
		}
		if p.Topic == topic {
			out = append(out, p)
		}
	}
	if out == nil {
		return nil, &units.ParseError{Text: topic, Quantity: "topic of practice", Expected: topics}
	}
	return out, nil
}

// For is the range in g for v of wine, of a row that is in g/L. Errors:
// *units.ParseError for a row in another unit, *units.RangeError for v.
func (p Practice) For(v units.Volume) (low, high units.Mass, err error) {
	if err := check.Treated(v); err != nil {
		return 0, 0, err
	}
	if p.Unit != "g/L" {
		return 0, 0, &units.ParseError{Text: p.Unit, Quantity: "unit of " + p.Item, Expected: []string{"g/L"}}
	}
	return units.Mass(p.Low * float64(v)), units.Mass(p.High * float64(v)), nil
}

const day = 24 * time.Hour

// times are the units of time of the table; a month is 30 days.
var times = map[string]time.Duration{"minutes": time.Minute, "days": day, "weeks": 7 * day, "months": 30 * day}

// Time is the range of a row that is in minutes, days, weeks or months (of 30
// days). Error: *units.ParseError for a row in another unit.
func (p Practice) Time() (low, high time.Duration, err error) {
	unit, ok := times[p.Unit]
	if !ok {
		return 0, 0, &units.ParseError{Text: p.Unit, Quantity: "unit of " + p.Item, Expected: []string{"minutes", "days", "weeks", "months"}}
	}
	return time.Duration(p.Low * float64(unit)), time.Duration(p.High * float64(unit)), nil
}

// known is the row of a key that the table has: the tests ask for each.
func known(key string) Practice {
	p, _ := PracticeOf(key)
	return p
}
