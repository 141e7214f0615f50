package additions

import (
	_ "embed"
	"slices"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

//go:embed data/practice.csv
var practiceTable string

// A Practice is what the trade doses: a range, never a rule. Most rows are
// common practice without a source and say so; try on a small sample first.
type Practice struct {
	Topic, Item string
	Low, High   float64
	Unit, Note  string
	Source      string
	Evidence    Evidence
}

// Practices lists the rows of a topic: "clearing", "wood", "nutrient", "yeast".
// Error: *units.ParseError for another topic.
func Practices(topic string) ([]Practice, error) {
	var out []Practice
	var topics []string
	for _, r := range table.Parse(practiceTable) {
		if !slices.Contains(topics, r["topic"]) {
			topics = append(topics, r["topic"])
		}
		if r["topic"] == topic {
			out = append(out, Practice{topic, r["item"], r.Number("low", 0), r.Number("high", 0), r["unit"], r["note"], r["source"], Evidence(r.Evidence())})
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
