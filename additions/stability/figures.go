package stability

import (
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// Quantities that only this package has.
var (
	ofStrengthLow  = figure.Quantity{Key: "strength_low", Name: "strength that was judged, low end (5 %)", Unit: "% vol", Places: 2}
	ofFreeLow      = figure.Quantity{Key: "free_so2_low", Name: "free SO2, low end", Unit: "mg/L", Places: 0}
	ofFreeHigh     = figure.Quantity{Key: "free_so2_high", Name: "free SO2, high end", Unit: "mg/L", Places: 0}
	ofMolecularLow = figure.Quantity{Key: "molecular_so2_low", Name: "molecular SO2, low end", Unit: "mg/L", Places: 2}

	ofFormed       = figure.Quantity{Key: "carbon_dioxide_formed", Name: "carbon dioxide formed, per litre bottled", Unit: "g/L", Places: 1}
	ofHeadspace    = figure.Quantity{Key: "headspace", Name: "headspace at the temperature asked", Unit: "L", Places: 4}
	ofOverpressure = figure.Quantity{Key: "overpressure", Name: "overpressure in the closed bottle", Unit: "bar", Places: 1}

	ofPriming = figure.Quantity{Key: "priming_sugar", Name: "sucrose, per litre of wine", Unit: "g/L", Places: 1}
	ofEach    = figure.Quantity{Key: "priming_sugar_each", Name: "sucrose, for one bottle", Unit: "g", Places: 1}
)

var (
	atLowEnds  = figure.Method{Method: "at the unfavourable ends, one-sided 95 %", Source: sourceDelle}
	freeMethod = figure.Method{Method: "share of the SO2 that is free, or as measured",
		Source: "of an addition 35 to 75 %: Henderson, Practical Winery & Vineyard Journal, Jan 2014; of a total 10 to 66 %: computed from Cortez et al. (2009)"}
	molecularMethod = figure.Method{Method: "low end of the free SO2 at the high end of the pH, pK 1.81", Source: "OIV-MA-AS323-04C; " + sourceMolecular}
	sealedMethod    = figure.Method{Method: "carbon dioxide between wine and headspace, fermented on as far as yeast goes", Source: sourceCO2 + "; " + sourceCarroll}
	bySmallest      = figure.Method{Method: "smallest change, judged again", Source: "the barriers of the verdict"}
	primingMethod   = figure.Method{Method: "stoichiometry of the fermentation in the bottle", Source: sourceCO2}
)

// sealedNote says how good the pressure is, and what an ordinary closure is made for.
var sealedNote = "5 to 10 % high against beer tables; " + pressureLimits[0].Name + ": " +
	units.Round(pressureLimits[0].Limit.In(units.Bar), 1).String() + " bar (" + pressureLimits[0].Source + ")"

// Figures are what the verdict rests on: the strength and Delle units at the low
// ends and the SO2. Reasons are in the Barriers.
func (v Verdict) Figures() []units.Figure {
	const mg = units.MilligramPerLitre
	return []units.Figure{
		atLowEnds.Give(ofStrengthLow, float64(v.StrengthLow)),
		atLowEnds.Give(figure.DelleUnits, v.DelleUnits),
		freeMethod.Give(ofFreeLow, v.FreeSO2Low.In(mg)),
		freeMethod.Give(ofFreeHigh, v.FreeSO2High.In(mg)),
		molecularMethod.Give(ofMolecularLow, v.MolecularSO2Low.In(mg)),
	}
}

// Figure is the value of the barrier, with what it would have to be and who says
// so in its note.
func (b Barrier) Figure() units.Figure {
	f := figure.Method{Method: b.Because, Source: b.Source}.Of(b.Key, b.Name, b.Value, 2, b.Unit)
	f.Note = b.Hold.String() + ", needs " + units.Round(b.Needed, 2).String()
	return f
}

// Figures is what is needed, under the key "needed_" and the remedy's.
func (r Remedy) Figures() []units.Figure {
	key, name := "needed", "needed for the wine to stay still"
	if r.Key != "" {
		key += "_" + r.Key
	}
	return []units.Figure{figure.Noted(bySmallest.Of(key, name, r.Value, 2, r.Unit), r.Text)}
}

// Figures are what the bottle comes to.
func (s Sealed) Figures() []units.Figure {
	return []units.Figure{
		sealedMethod.Give(figure.Strength, float64(s.Strength)),
		sealedMethod.Give(figure.Sugar, float64(s.Sugar)),
		sealedMethod.Give(ofFormed, float64(s.CO2)),
		sealedMethod.Give(ofHeadspace, float64(s.Headspace)),
		figure.Noted(sealedMethod.Give(ofOverpressure, s.Overpressure.In(units.Bar)), sealedNote),
	}
}

// Figures are the sugar to weigh in and what the bottle comes to at 25 C.
func (p Priming) Figures() []units.Figure {
	return append([]units.Figure{primingMethod.Give(ofPriming, float64(p.Sugar)), primingMethod.Give(ofEach, float64(p.Each))},
		figure.Part("closed", "in the closed bottle at 25 C", p.Pressure.Figures())...)
}
