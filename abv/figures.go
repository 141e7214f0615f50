package abv

import (
	"sync"

	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Quantities that only this package has.
var (
	ofSugarUsed   = figure.Quantity{Key: "sugar_used", Name: "extract used, per litre of must", Unit: "g/L", Places: 1}
	ofYeast       = figure.Quantity{Key: "yeast_grown", Name: "dry yeast grown, per litre of must", Unit: "g/L", Places: 1}
	ofVolumeRatio = figure.Quantity{Key: "volume_ratio", Name: "litres of wine per litre of must", Places: 4}

	ofPerAlcohol = figure.Quantity{Key: "extract_per_alcohol", Name: "extract used per gram of alcohol", Unit: "g", Places: 4}
	ofGas        = figure.Quantity{Key: "carbon_dioxide_per_alcohol", Name: "carbon dioxide per gram of alcohol", Unit: "g", Places: 4}
	ofGrown      = figure.Quantity{Key: "yeast_per_alcohol", Name: "dry yeast per gram of alcohol", Unit: "g", Places: 4}

	ofMustVolume = figure.Quantity{Key: "must_volume", Name: "must with all portions, before fermentation", Unit: "L", Places: 3}
	ofWine       = figure.Quantity{Key: "wine_volume", Name: "wine in the vessel, at 20 C", Unit: "L", Places: 3}
	ofAlcohol    = figure.Quantity{Key: "alcohol", Name: "pure alcohol", Unit: "g", Places: 1}
	ofSugarMass  = figure.Quantity{Key: "sugar_fermented", Name: "extract used, in the whole vessel", Unit: "g", Places: 1}

	ofFinal    = figure.Quantity{Key: "final_gravity", Name: "final gravity 20/20 C", Unit: "SG", Places: 4}
	ofLost     = figure.Quantity{Key: "gravity_lost", Name: "original less final gravity, thousandths", Places: 1}
	ofApparent = figure.Quantity{Key: "apparent_extract", Name: "apparent extract", Unit: "% mass", Places: 2}
	ofSpread   = figure.Quantity{Key: "spread", Name: "highest less lowest method", Unit: "% vol", Places: 2}
	ofTabarie  = figure.Quantity{Key: "strength_tabarie", Name: "strength by Tabarie's rule", Unit: "% vol", Places: 2}

	ofNotSugar     = figure.Quantity{Key: "not_sugar", Name: "extract that is not sugar", Unit: "g/L", Places: 1}
	ofNotSugarLow  = figure.Quantity{Key: "not_sugar_low", Name: "extract that is not sugar, low end (5 %)", Unit: "g/L", Places: 1}
	ofNotSugarHigh = figure.Quantity{Key: "not_sugar_high", Name: "extract that is not sugar, high end (95 %)", Unit: "g/L", Places: 1}
)

// Figures are strength, extract and gravity.
func (c Composition) Figures() []units.Figure {
	m := c.found.Or(composed)
	return []units.Figure{m.Give(figure.Strength, float64(c.Strength)), m.Give(figure.Extract, float64(c.Extract)), m.Give(figure.Gravity, float64(c.Gravity))}
}

// Figures are those of the composition, the strength with the model's
// uncertainty, and the sugar.
func (d Determination) Figures() []units.Figure {
	m := d.found.Or(twoInstrumentsMethod)
	out := d.Composition.Figures()
	out[0] = m.GiveWithin(figure.Strength, float64(d.Strength), float64(d.Model))
	return append(out, m.Give(figure.Sugar, float64(d.Sugar)))
}

// Figures are those of the composition, the strength with the model's
// uncertainty, Tabarie's strength and the must that the wine was.
func (b Evaporation) Figures() []units.Figure {
	out := b.Composition.Figures()
	out[0] = b.found.Or(boiledOff).GiveWithin(figure.Strength, float64(b.Strength), float64(b.Model))
	return append(out, byTabarie.Give(ofTabarie, float64(b.Tabarie)),
		turnedBack.Give(figure.OriginalExtract, float64(b.Original)), turnedBack.Give(figure.OriginalGravity, float64(b.OriginalGravity)))
}

// Figures are what the must has become; the strength has the uncertainty of the
// yield and of the balance. Those of two readings come on top: MassBalanceWithin.
func (f Fermented) Figures() []units.Figure {
	return []units.Figure{
		byBalance.GiveWithin(figure.Strength, float64(f.Strength), f.strengthStandard()),
		byBalance.Give(figure.Extract, float64(f.Extract)),
		byBalance.Give(figure.Gravity, float64(f.Gravity)),
		byBalance.Give(ofSugarUsed, float64(f.SugarUsed)),
		byBalance.Give(figure.CarbonDioxide, float64(f.CarbonDioxide)),
		byBalance.Give(ofYeast, float64(f.Yeast)),
		byBalance.Give(ofVolumeRatio, f.VolumeRatio),
	}
}

// Figures are those of the wine, and of all portions together.
func (p Portioned) Figures() []units.Figure {
	return append(p.Fermented.Figures(),
		byPortions.Give(figure.OriginalGravity, float64(p.Original)),
		byPortions.Give(ofMustVolume, float64(p.Must)),
		byPortions.Give(ofWine, float64(p.Wine)),
		byPortions.Give(ofAlcohol, float64(p.Alcohol)),
		byPortions.Give(ofSugarMass, float64(p.Sugar)))
}

// Figures are the two wines between which the goal holds, under "from" and "to".
func (w Window) Figures() []units.Figure {
	return append(figure.Part("from", "where the goal begins to hold", w.From.Figures()),
		figure.Part("to", "where the goal ends", w.To.Figures())...)
}

// Figures are the yields and their sum.
func (y Yield) Figures() []units.Figure {
	gas, grown := figure.Input(ofGas, y.CarbonDioxide), figure.Input(ofGrown, y.Yeast)
	gas.Method, gas.Source, grown.Method, grown.Source = yields.Method, yields.Source, yields.Method, yields.Source
	return []units.Figure{gas, grown,
		yields.Live(ofPerAlcohol, balance.Yield(y).Extract(), "1+{carbon_dioxide_per_alcohol}+{yeast_per_alcohol}")}
}

// Figures are the low, likely and high sugar.
func (s Sugars) Figures() []units.Figure {
	return []units.Figure{lessNotSugar.Give(figure.SugarLow, float64(s.Low)),
		lessNotSugar.GiveWithin(figure.Sugar, float64(s.Likely), float64(s.Standard())), lessNotSugar.Give(figure.SugarHigh, float64(s.High))}
}

// Figures are the low, likely and high value, per litre of what PerMust says.
func (n NotSugar) Figures() []units.Figure {
	m := figure.Method{Method: "difference of extract and sugar in analyses, per litre of the fermented wine", Source: n.Source}
	if n.PerMust {
		m.Method = "difference of extract and sugar, per litre of the must before sugar"
	}
	if n.Source == "" {
		m.Source = figure.Stated.Source
	}
	return []units.Figure{m.Give(ofNotSugarLow, float64(n.Low)), m.GiveWithin(ofNotSugar, float64(n.Likely), float64(n.Standard())), m.Give(ofNotSugarHigh, float64(n.High))}
}

// Fits of the extract that a gravity stands for, within 1e-6 % mass, down to the
// driest gravity that the formulas take.
var originalFit, apparentFit = extractFit("{original_gravity}"), extractFit("{final_gravity}")

func extractFit(cell string) func() string {
	return sync.OnceValue(func() string {
		return formula.NewFit(extractOf, driest, density.HeaviestGravity, 10).Text(cell)
	})
}

func extractOf(g float64) float64 { return 100 * density.SucroseOfGravity(g) }

// Figures are the recommended strength, the gravities, and the strength by each
// method, with live formulas for all but the mass balance. A method outside its
// domain is left out.
func (c Comparison) Figures() []units.Figure {
	og, fg := float64(c.Original), float64(c.Final)
	out := []units.Figure{
		byBalance.GiveWithin(figure.Strength, float64(c.Recommended.Strength), BalanceUncertainty),
		figure.Input(figure.OriginalGravity, og),
		figure.Input(ofFinal, fg),
		byOfficialFactor.Live(ofLost, 1000*(og-fg), "1000*({original_gravity}-{final_gravity})"),
	}
	if og <= density.HeaviestGravity && min(og, fg) >= driest {
		out = append(out, byBallingWort.Live(figure.OriginalExtract, extractOf(og), originalFit()), byBallingWort.Live(ofApparent, extractOf(fg), apparentFit()))
	}
	for _, e := range c.Estimates {
		if e.Err == nil {
			out = append(out, e.figures(og, fg)...)
		}
	}
	return append(out, byBalance.Give(ofSpread, float64(c.Spread)))
}

func (e Estimate) figures(og, fg float64) []units.Figure {
	q := figure.Quantity{Key: e.Key, Name: "strength, " + e.Method, Unit: "% vol", Places: 2}
	live := func(m figure.Method, text string) []units.Figure {
		f := m.Live(q, float64(e.Strength), text)
		f.Note = e.Assumes
		return []units.Figure{f}
	}
	balling := func(m figure.Method, b ballingEquations, name string) []units.Figure {
		real := figure.Quantity{Key: "real_extract_" + name, Name: "real extract, Balling, " + name, Unit: "% mass", Places: 2}
		return append(live(m, b.strengthFormula(real.Key)), m.Live(real, b.realExtract(extractOf(og), extractOf(fg)), b.realExtractFormula()))
	}
	switch e.Key {
	case "strength_simple":
		return live(bySimple, simpleFormula)
	case "strength_alternative":
		return live(byAlternative, alternativeFormula)
	case "strength_official_factor":
		return live(byOfficialFactor, officialFormula())
	case "strength_balling_wort":
		return balling(byBallingWort, ballingWort, "wort")
	case "strength_balling_must":
		return balling(byBallingMust, ballingMust, "must")
	}
	return live(byBalance, "")
}
