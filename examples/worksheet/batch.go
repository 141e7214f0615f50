package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// demo is the demonstration batch. Every quantity in it is invented.
//
//go:embed demo.json
var demo []byte

// A batch is what the cellar hand writes down. The comment of a field in the
// table below says what it is.
type batch struct {
	name, spirit, jurisdiction text
	must                       units.Volume
	mustTemperature, cellar    units.Temperature
	hydrometer                 units.Temperature
	reading, wanted            gravity.SG
	sugar                      sugar
	yield                      yield
	stop, strength, target     units.Strength
	planned, stock             units.Volume
	lees, vessel, headspace    units.Volume
	wood                       units.Mass
	sulfite, sorbate           units.Concentration
	ph                         ph
	tolerance                  units.Strength
	bottles                    volumes
}

// A field is one line of the batch file.
type field struct {
	name, accepts string
	into          interface{ Set(string) error }
	required      bool
}

func (b *batch) fields() []field {
	return []field{
		{"name", "any text", &b.name, true},
		{"must", `volume of must before the sugar, "3 L"`, &b.must, true},
		{"must_reading", `hydrometer before the sugar, as read, "1.058"`, &b.reading, true},
		{"must_temperature", `of the must at that reading, "24 C"`, &b.mustTemperature, false},
		{"hydrometer", `temperature it is made for, "20 C" or "60 F"`, &b.hydrometer, false},
		{"sugar", `what is added, "2 1/2 cups" or "500 g"`, &b.sugar, false},
		{"original_gravity", `instead of sugar: the gravity wanted, "1.092"`, &b.wanted, false},
		{"yield", `"must" (fruit juice) or "wort"`, &b.yield, false},
		{"stop_at", `strength to stop fermentation at, "5.5 % vol"`, &b.stop, true},
		{"yeast_limit", `strength at which the yeast gives up, "16 % vol"`, &b.tolerance, false},
		{"lees", `left behind when racking, "150 mL"`, &b.lees, false},
		{"cellar_temperature", `of wine and spirit when measured, "18 C"`, &b.cellar, false},
		{"ph", `of the wine, "3.4"`, &b.ph, false},
		{"sulfite", `free SO2 to add before the spirit, "50 mg/L"`, &b.sulfite, false},
		{"sorbate", `sorbic acid to add before the spirit, "200 mg/L"`, &b.sorbate, false},
		{"spirit", `its name, any text`, &b.spirit, false},
		{"spirit_strength", `"40 % vol" or "80 proof"`, &b.strength, true},
		{"spirit_planned", `amount you meant to pour, "26 fl oz"`, &b.planned, false},
		{"spirit_stock", `amount at hand, "1 L"`, &b.stock, false},
		{"target", `strength wanted, "20 % vol"`, &b.target, true},
		{"vessel", `jar to the brim, "1 1/2 gal"`, &b.vessel, false},
		{"headspace", `to leave in it, "200 mL"`, &b.headspace, false},
		{"wood", `chips in it, "10 g"`, &b.wood, false},
		{"bottles", `sizes at hand, ["750 mL", "375 mL"]`, &b.bottles, false},
		{"jurisdiction", `whose limits to look at, "US"`, &b.jurisdiction, false},
	}
}

// readBatch reads a batch file: one JSON object whose values are texts as
// people write them. The error lists every fault with its line and column.
func readBatch(file string, content []byte) (batch, error) {
	b := batch{hydrometer: units.Celsius(20), mustTemperature: units.Celsius(20), cellar: units.Celsius(20), yield: yield{abv.Must}, spirit: "spirit"}
	fields := b.fields()
	var faults []error
	fault := func(offset int64, format string, args ...any) {
		before := content[:min(int(offset), len(content))]
		line := bytes.Count(before, []byte("\n")) + 1
		column := len(before) - (bytes.LastIndexByte(before, '\n') + 1) + 1
		faults = append(faults, fmt.Errorf("%s:%d:%d: %s", file, line, column, fmt.Sprintf(format, args...)))
	}
	content = bytes.TrimPrefix(content, []byte("\ufeff"))
	dec := json.NewDecoder(bytes.NewReader(content))
	dec.UseNumber()
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		fault(dec.InputOffset(), "expected a JSON object { \"name\": ..., }")
		return batch{}, errors.Join(faults...)
	}
	var seen []string
	for dec.More() {
		key, err := dec.Token()
		at := start(content, dec.InputOffset(), key)
		if err != nil {
			fault(at, "%v", err)
			return batch{}, errors.Join(faults...)
		}
		var raw json.RawMessage
		if err := dec.Decode(&raw); err != nil {
			fault(dec.InputOffset(), "field %q: %v", key, err)
			return batch{}, errors.Join(faults...)
		}
		name := key.(string)
		i := slices.IndexFunc(fields, func(f field) bool { return f.name == name })
		switch {
		case i < 0:
			var known []string
			for _, f := range fields {
				known = append(known, f.name)
			}
			fault(at, "no field %q; did you mean %q? The fields are: %s", name, nearest(name, known), strings.Join(known, ", "))
			continue
		case slices.Contains(seen, name):
			fault(at, "field %q stands twice", name)
			continue
		}
		seen = append(seen, name)
		at = dec.InputOffset() - int64(len(raw))
		for _, err := range fields[i].set(raw) {
			fault(at, "field %q: %v; accepted is: %s", name, err, fields[i].accepts)
		}
	}
	if _, err := dec.Token(); err != nil {
		fault(dec.InputOffset(), "%v", err)
	} else if _, err := dec.Token(); err != io.EOF {
		fault(dec.InputOffset(), "something follows the closing brace")
	}
	for _, f := range fields {
		if f.required && !slices.Contains(seen, f.name) {
			fault(int64(len(content)), "field %q is missing; accepted is: %s", f.name, f.accepts)
		}
	}
	if b.sugar != 0 && b.wanted != 0 {
		fault(int64(len(content)), "sugar and original_gravity: expected one of them")
	}
	return b, errors.Join(faults...)
}

// start is where a token that ends at offset begins.
func start(content []byte, end int64, token json.Token) int64 {
	if s, ok := token.(string); ok {
		if quoted, err := json.Marshal(s); err == nil {
			return max(0, end-int64(len(quoted)))
		}
	}
	return end
}

func (f field) set(raw json.RawMessage) []error {
	var one string
	if json.Unmarshal(raw, &one) == nil {
		if err := f.into.Set(one); err != nil {
			return []error{err}
		}
		return nil
	}
	var many []string
	list, isList := f.into.(*volumes)
	if !isList || json.Unmarshal(raw, &many) != nil {
		return []error{fmt.Errorf("found %.40s, expected text in quotation marks", raw)}
	}
	var errs []error
	for _, s := range many {
		if err := list.Set(s); err != nil {
			errs = append(errs, err)
		}
	}
	return errs
}

func loadBatch(path string) (batch, error) {
	if path == "" {
		return readBatch("demo.json", demo)
	}
	content, err := os.ReadFile(path)
	if err != nil {
		return batch{}, err
	}
	return readBatch(path, content)
}

type text string

func (t *text) Set(s string) error {
	if s = strings.TrimSpace(s); s == "" || len(s) > 60 || strings.ContainsFunc(s, func(r rune) bool { return r < ' ' }) {
		return fmt.Errorf("text %q: expected 1 to 60 characters on one line", s)
	}
	*t = text(s)
	return nil
}

// sugar in grams, weighed or by the cup.
type sugar units.Mass

func (s *sugar) Set(text string) error {
	var m units.Mass
	if m.Set(text) == nil {
		*s = sugar(m)
		return nil
	}
	v, err := units.ParseVolume(text)
	if err != nil {
		return fmt.Errorf("sugar %q: expected a weight (500 g, 1 lb) or a measure (2 1/2 cups)", text)
	}
	m, err = additions.Weigh(additions.GranulatedSugar, v)
	*s = sugar(m)
	return err
}

type yield struct{ abv.Yield }

func (y *yield) Set(text string) error {
	switch text {
	case "must":
		y.Yield = abv.Must
	case "wort":
		y.Yield = abv.Wort
	default:
		return fmt.Errorf("yield %q: expected must or wort", text)
	}
	return nil
}

type ph float64

func (p *ph) Set(text string) error {
	number, unit, err := units.Scan("pH", text)
	if err != nil {
		return err
	}
	if unit != "" {
		return &units.ParseError{Text: text, Quantity: "pH", Expected: []string{"a number such as 3.4"}}
	}
	*p = ph(number.InexactFloat64())
	return units.Check("pH", float64(*p), 2.5, 4.5, "", "")
}

type volumes []units.Volume

func (v *volumes) Set(text string) error {
	x, err := units.ParseVolume(text)
	*v = append(*v, x)
	return err
}
