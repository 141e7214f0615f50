package main

import (
	_ "embed"
	"errors"
	"fmt"
	"os"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/fields"
	"example.org/mutage/units"
)

// demo is the demonstration batch. Every quantity in it is invented.
//
//go:embed demo.json
var demo []byte

// A batch is what the cellar hand writes down. The comment of a field in the
// table below says what it is.
type batch struct {
	name, spirit, jurisdiction fields.Text
	must                       units.Volume
	mustTemperature, cellar    units.Temperature
	hydrometer                 units.Temperature
	reading, wanted            gravity.SG
	sugar                      units.Mass
	yield                      abv.Yield
	stop, strength, target     units.Strength
	planned, stock             units.Volume
	lees, vessel, headspace    units.Volume
	wood                       units.Mass
	sulfite, sorbate           units.Concentration
	ph                         fields.Number
	tolerance                  units.Strength
	bottles                    fields.Volumes
	stopFrom, stopTo           units.Strength

	half fields.Half
}

func (b *batch) fields() []fields.Field {
	return []fields.Field{
		fields.Must("name", "any text", &b.name, nil),
		fields.Must("must", `volume of must before the sugar, "3 L"`, &b.must, (*float64)(&b.must)),
		fields.Must("must_reading", `hydrometer before the sugar, as read, "1.058"`, &b.reading, (*float64)(&b.reading)),
		fields.May("must_temperature", `of the must at that reading, "24 C"`, &b.mustTemperature, (*float64)(&b.mustTemperature)),
		fields.May("hydrometer", `temperature it is made for, "20 C" or "60 F"`, &b.hydrometer, nil),
		fields.May("sugar", `what is added, "2 1/2 cups" or "500 g"`, fields.By(&b.sugar, additions.ParseSugar), (*float64)(&b.sugar)),
		fields.May("original_gravity", `instead of sugar: the gravity wanted, "1.092"`, &b.wanted, (*float64)(&b.wanted)),
		fields.May("yield", `"must" (fruit juice) or "wort"`, fields.By(&b.yield, abv.ParseYield), nil),
		fields.Must("stop_at", `strength to stop fermentation at, "5.5 % vol"`, &b.stop, nil),
		fields.May("stop_from", `or between this strength, "5 % vol",`, &b.stopFrom, nil),
		fields.May("stop_to", `and this one, "6 % vol"`, &b.stopTo, nil),
		fields.May("yeast_limit", `strength at which the yeast gives up, "16 % vol"`, &b.tolerance, nil),
		fields.May("lees", `left behind when racking, "150 mL"`, &b.lees, (*float64)(&b.lees)),
		fields.May("cellar_temperature", `of wine and spirit when measured, "18 C"`, &b.cellar, nil),
		fields.May("ph", `of the wine, "3.4"`, fields.Within(&b.ph, 2.5, 4.5), nil),
		fields.May("sulfite", `free SO2 to add before the spirit, "50 mg/L"`, &b.sulfite, nil),
		fields.May("sorbate", `sorbic acid to add before the spirit, "200 mg/L"`, &b.sorbate, nil),
		fields.May("spirit", `its name, any text`, &b.spirit, nil),
		fields.Must("spirit_strength", `"40 % vol" or "80 proof"`, &b.strength, (*float64)(&b.strength)),
		fields.May("spirit_planned", `amount you meant to pour, "26 fl oz"`, &b.planned, (*float64)(&b.planned)),
		fields.May("spirit_stock", `amount at hand, "1 L"`, &b.stock, nil),
		fields.Must("target", `strength wanted, "20 % vol"`, &b.target, nil),
		fields.May("vessel", `jar to the brim, "1 1/2 gal"`, &b.vessel, nil),
		fields.May("headspace", `to leave in it, "200 mL"`, &b.headspace, nil),
		fields.May("wood", `chips in it, "10 g"`, &b.wood, nil),
		{Name: "bottles", Accepts: `sizes at hand, ["750 mL", "375 mL"]`, Into: &b.bottles, List: true},
		fields.May("jurisdiction", `whose limits to look at, "US"`, &b.jurisdiction, nil),
	}
}

func readBatch(file string, content []byte) (batch, error) {
	b := batch{hydrometer: units.Celsius(20), mustTemperature: units.Celsius(20), cellar: units.Celsius(20), yield: abv.Must, spirit: "spirit"}
	var err error
	b.half, err = fields.Read(file, content, b.fields())
	if b.sugar != 0 && b.wanted != 0 {
		err = errors.Join(err, fmt.Errorf("%s: sugar and original_gravity: expected one of them", file))
	}
	return b, err
}

func (b *batch) scale(by float64) error {
	if err := units.Scale(by, (*float64)(&b.must), (*float64)(&b.sugar), (*float64)(&b.lees), (*float64)(&b.planned),
		(*float64)(&b.stock), (*float64)(&b.vessel), (*float64)(&b.headspace), (*float64)(&b.wood)); err != nil {
		return err
	}
	b.half.Scale(by, "must", "sugar", "lees", "spirit_planned")
	return nil
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
