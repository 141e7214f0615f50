package additions

import (
	"cmp"
	"strings"

	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// Methods of the tables and rates of this package.
var (
	byTable   = figure.Method{Method: "published weight of a level household measure"}
	bySpoon   = figure.Method{Method: "published weights, straight between them; a spoon holds 5 to 20 % more or less (from memory)"}
	byRate    = figure.Method{Method: "25 g/hL, twice that for a difficult juice"}
	byCells   = figure.Method{Method: "yeast dose times 2e10 viable cells a gram", Source: figure.CommonPractice}
	byWaking  = figure.Method{Method: "10 mL of water for a gram of yeast, and no more than the law has", Source: figure.CommonPractice + "; 27 CFR 24.176(a)"}
	byDoses   = figure.Method{Method: "range that the trade doses"}
	byStages  = figure.Method{Method: "equal parts, the last before a third of the sugar is gone", Source: figure.CommonPractice}
	bySurface = figure.Method{Method: "wetted wood per litre against that of a 225 L barrel, 91 cm2/L", Source: "chip surfaces and doses of one study, Technical University of Moldova"}
	bySoaking = figure.Method{Method: "0.5 to 1.2 mL of wine kept by a gram of wood", Source: figure.CommonPractice}
	byWetWood = figure.Method{Method: "the wood's own water, 12 % of its weight", Source: figure.CommonPractice}
	byBlock   = figure.Method{Method: "surface of a block over its dry mass", Source: figure.CommonPractice}
)

// Quantities that only this package has.
var (
	ofMeasure    = figure.Quantity{Key: "measure_volume", Name: "level household measure", Unit: "mL", Places: 1}
	ofWeight     = figure.Quantity{Key: "measure_mass", Name: "what it holds", Unit: "g", Places: 2}
	ofWeightLow  = figure.Quantity{Key: "measure_mass_low", Name: "what it may hold, at the least", Unit: "g", Places: 2}
	ofWeightHigh = figure.Quantity{Key: "measure_mass_high", Name: "what it may hold, at the most", Unit: "g", Places: 2}
	ofBulk       = figure.Quantity{Key: "bulk_density", Name: "bulk density", Unit: "kg/m3", Places: 0}

	ofPitch     = figure.Quantity{Key: "yeast_dose", Name: "active dry yeast", Unit: "g", Places: 2}
	ofCells     = figure.Quantity{Key: "cells", Name: "viable cells per mL of must", Unit: "1/mL", Places: -4}
	ofWaking    = figure.Quantity{Key: "rehydration_water", Name: "water to wake the yeast in", Unit: "mL", Places: 0}
	ofMostWater = figure.Quantity{Key: "rehydration_water_most", Name: "most water that may go in with the yeast", Unit: "mL", Places: 0}
	ofStage     = figure.Quantity{Key: "stage_dose", Name: "part of the dose", Unit: "g", Places: 2}

	ofWood     = figure.Quantity{Key: "wood", Name: "wood", Unit: "g", Places: 1}
	ofSurface  = figure.Quantity{Key: "wood_surface", Name: "wood in contact per litre", Unit: "cm2/L", Places: 0}
	ofBarrels  = figure.Quantity{Key: "barrel_share", Name: "surface as a share of a 225 L barrel's", Places: 2}
	ofLossLow  = figure.Quantity{Key: "wood_loss_low", Name: "wine kept back by the wood, at the least", Unit: "mL", Places: 0}
	ofLossHigh = figure.Quantity{Key: "wood_loss_high", Name: "wine kept back by the wood, at the most", Unit: "mL", Places: 0}
	ofThinned  = figure.Quantity{Key: "thinned_by", Name: "fall of strength by the wood's water, at most", Unit: "% vol", Places: 2}
	ofSpecific = figure.Quantity{Key: "wood_specific_surface", Name: "surface of the wood", Unit: "cm2/g", Places: 1}
)

// from is the method with the source that a result carries.
func from(m figure.Method, source string) figure.Method {
	if m.Source = source; source == "" {
		m.Source = figure.CommonPractice
	}
	return m
}

func noted(note string, figures ...units.Figure) []units.Figure {
	for i := range figures {
		figures[i].Note = note
	}
	return figures
}

// Figures are the measure and what it holds.
func (m Measure) Figures() []units.Figure {
	by := from(byTable, m.Source)
	return noted(m.Name, by.Give(ofMeasure, m.Volume.In(units.Millilitre)), by.Give(ofWeight, float64(m.Mass)), by.Give(ofBulk, float64(m.BulkDensity)))
}

// Figures are the measure, the mass that is meant and what it may hold.
func (p Spooned) Figures() []units.Figure {
	by, note := from(bySpoon, p.Source), string(p.Substance)
	if p.UseScale {
		note += ": use a scale, the dose has a legal or a health limit"
	}
	return noted(note, by.Give(ofMeasure, p.Volume.In(units.Millilitre)), by.Give(ofWeight, float64(p.Mass)),
		by.Give(ofWeightLow, float64(p.Low)), by.Give(ofWeightHigh, float64(p.High)))
}

// Figures are the yeast, its cells and its water.
func (p Pitching) Figures() []units.Figure {
	note := ""
	if p.Difficult {
		note = "the double rate: much sugar or sulfite"
	}
	return noted(note, from(byRate, p.Source).Give(ofPitch, float64(p.Yeast)), byCells.Give(ofCells, p.Cells),
		byWaking.Give(ofWaking, p.Water.In(units.Millilitre)), byWaking.Give(ofMostWater, p.MostWater.In(units.Millilitre)))
}

// Figures are the low and the high end; topic and item make the key.
func (p Practice) Figures() []units.Figure {
	by, key := from(byDoses, cmp.Or(p.Source, string(p.Evidence))), snake("practice "+p.Topic+" "+p.Item)
	return noted(p.Note, by.Of(key+"_low", p.Item+", low", p.Low, 3, p.Unit), by.Of(key+"_high", p.Item+", high", p.High, 3, p.Unit))
}

// snake makes a key of words.
func snake(words string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(words), func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') }), "_")
}

// Figures are the part of the dose; the note says when it goes in.
func (s Stage) Figures() []units.Figure {
	return noted(s.When, byStages.Give(ofStage, float64(s.Mass)))
}

// Figures are the surface of a gram.
func (w Wood) Figures() []units.Figure { return noted(w.Name, byBlock.Give(ofSpecific, w.Surface)) }

// Figures are the wood and what it does beside its taste.
func (w WoodDosed) Figures() []units.Figure {
	return []units.Figure{
		bySurface.Give(ofWood, float64(w.Mass)), bySurface.Give(ofSurface, w.Surface), bySurface.Give(ofBarrels, w.Barrels),
		bySoaking.Give(ofLossLow, w.LossLow.In(units.Millilitre)), bySoaking.Give(ofLossHigh, w.LossHigh.In(units.Millilitre)),
		byWetWood.Give(ofThinned, float64(w.ThinnedBy)),
	}
}
