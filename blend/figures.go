package blend

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Methods of the results of Mix and of what stands on it.
var (
	byMasses      = figure.Method{Method: "balance of the masses of alcohol, extract and water, true volumes", Source: density.SourceMixture}
	byComponent   = figure.Method{Method: "as stated; of a must that fermented, the mass balance of its fermentation", Source: balance.Source + "; " + density.SourceMixture}
	byHand        = figure.Method{Method: "volumes simply added", Source: figure.CommonPractice}
	byAlligation  = figure.Method{Method: "alligation: the differences crosswise, volumes simply added", Source: figure.CommonPractice}
	byTrust       = figure.Method{Method: "balance of masses; uncertainty propagated", Source: density.SourceMixture + "; JCGM 100:2008"}
	byReading     = figure.Method{Method: "reading against what was poured, within twice the standard uncertainty", Source: "JCGM 100:2008; " + density.SourceMixture}
	bySearch      = figure.Method{Method: "the one error that alone would explain the reading", Source: density.SourceMixture}
	byCount       = figure.Method{Method: "largest bottles first, each full", Source: figure.CommonPractice}
	byLessExtract = figure.Method{Method: "extract less what of a wine's is not sugar; uncertainty propagated", Source: "sugar-free extract of wines: Cortez et al., Decis. Support Syst. 47:547 (2009); JCGM 100:2008"}
)

// Quantities that only this package has.
var (
	ofShare       = figure.Quantity{Key: "spirit_share", Name: "spirit as a share of the blend", Unit: "%", Places: 1}
	ofCost        = figure.Quantity{Key: "cost", Name: "cost", Unit: "", Places: 2}
	ofChoices     = figure.Quantity{Key: "choices", Name: "amounts that the wants left free"}
	ofStrength    = figure.Quantity{Key: "strength_by_hand", Name: "strength, volumes simply added", Unit: "% vol", Places: 3}
	ofExtract     = figure.Quantity{Key: "extract_by_hand", Name: "extract, volumes simply added", Unit: "g/L", Places: 1}
	ofAcid        = figure.Quantity{Key: "acid_by_hand", Name: "acidity, volumes simply added", Unit: "g/L", Places: 2}
	ofTarget      = figure.Quantity{Key: "target_strength", Name: "strength wanted", Unit: "% vol", Places: 2}
	ofBaseParts   = figure.Quantity{Key: "base_parts", Name: "parts of the base by volume", Places: 3}
	ofSpiritParts = figure.Quantity{Key: "spirit_parts", Name: "parts of the spirit by volume", Places: 3}
	ofSpirit      = figure.Quantity{Key: "spirit_by_hand", Name: "spirit, volumes simply added", Unit: "L", Places: 4}
	ofReading     = figure.Quantity{Key: "reading", Name: "hydrometer reading", Unit: "SG", Places: 4}
	ofDifference  = figure.Quantity{Key: "difference", Name: "reading less what was expected", Unit: "SG", Places: 4}
	ofBottle      = figure.Quantity{Key: "bottle_size", Name: "size of a bottle", Unit: "L", Places: 3}
	ofBottles     = figure.Quantity{Key: "bottles", Name: "number of bottles"}
)

// Figures are what the mixture is at 20 C. A solute that a component does not
// know is left out.
func (m Mixture) Figures() []units.Figure { return m.figures(byMasses) }

func (m Mixture) figures(by figure.Method) []units.Figure {
	out := append(contents(by, m.Volume, m.Strength, m.Extract),
		by.Give(figure.Mass, float64(m.Mass)),
		by.Give(figure.Gravity, float64(m.Gravity)),
		by.Give(figure.Contraction, m.Contraction.In(units.Millilitre)))
	for s := range solutes {
		if x, err := m.Known(s); err == nil {
			out = append(out, s.figure(by, x))
		}
	}
	return out
}

func contents(by figure.Method, v units.Volume, s units.Strength, e units.Concentration) []units.Figure {
	return []units.Figure{by.Give(figure.Volume, float64(v)), by.Give(figure.Strength, float64(s)), by.Give(figure.Extract, float64(e))}
}

func (s Solute) figure(by figure.Method, x units.Concentration) units.Figure {
	if s == Acid {
		return by.Give(figure.Acid, float64(x))
	}
	q := map[Solute]figure.Quantity{Sulfite: figure.TotalSO2, Sorbate: figure.SorbicAcid, Potassium: figure.Potassium}[s]
	return by.Give(q, x.In(units.MilligramPerLitre))
}

// Figures are what the component holds. A solute that is not known is left out.
func (c Component) Figures() []units.Figure {
	out := contents(byComponent, c.Volume, c.Strength, c.Extract)
	for s, x := range c.contents() {
		if !c.Unknown.Has(Solute(s)) {
			out = append(out, Solute(s).figure(byComponent, x))
		}
	}
	if c.Name != "" {
		for i := range out {
			out[i].Note = c.Name
		}
	}
	return out
}

// Figures are what to pour and those of the result.
func (f Fortification) Figures() []units.Figure {
	return append([]units.Figure{
		byMasses.Give(figure.Base, float64(f.Base)),
		byMasses.Give(figure.Spirit, float64(f.Spirit)),
		byMasses.Give(ofShare, 100*f.Share()),
	}, f.Result.Figures()...)
}

// Figures are what to pour of each component, in their order from 1, and those
// of the result.
func (r Recipe) Figures() []units.Figure {
	by := figure.Method{Method: "Newton's method on the true volumes, a linear programme a step", Source: density.SourceMixture}
	var out []units.Figure
	for i, v := range r.Volumes {
		out = append(out, by.Of(fmt.Sprintf("pour_%d", i+1), fmt.Sprintf("to pour of component %d, at 20 C", i+1), float64(v), 3, "L"))
	}
	out = append(out, by.Give(ofCost, r.Cost), by.Give(ofChoices, float64(r.Choices)))
	return append(out, r.Result.figures(by)...)
}

// Figures are the liquids as they were poured, numbered from 1, what they make
// by hand with live formulas, and the same by the balance.
func (h HandCheck) Figures() []units.Figure {
	var out []units.Figure
	var volumes []string
	sums := map[string][]string{}
	for i, c := range h.Poured {
		n := fmt.Sprint(i + 1)
		for _, q := range []struct {
			figure.Quantity
			x float64
		}{{figure.Volume, float64(c.Volume)}, {figure.Strength, float64(c.Strength)}, {figure.Extract, float64(c.Extract)}, {figure.Acid, float64(c.Acid)}} {
			of := q.Quantity
			of.Key, of.Name = of.Key+"_"+n, "liquid "+n+": "+of.Name
			out = append(out, figure.Noted(figure.Input(of, q.x), c.Name))
			if q.Key == figure.Volume.Key {
				volumes = append(volumes, formula.Cell(of.Key))
			} else {
				sums[q.Key] = append(sums[q.Key], "{volume_"+n+"}*"+formula.Cell(of.Key))
			}
		}
	}
	mean := func(of figure.Quantity, x decimal.Decimal, key string) units.Figure {
		text := ""
		if len(sums[key]) > 0 {
			text = "(" + strings.Join(sums[key], "+") + ")/{volume_by_hand}"
		}
		return byHand.Live(of, x.InexactFloat64(), text)
	}
	out = append(out, byHand.Live(figure.VolumeByHand, h.Volume.InexactFloat64(), strings.Join(volumes, "+")),
		mean(ofStrength, h.Strength, figure.Strength.Key),
		mean(ofExtract, h.Extract, figure.Extract.Key),
		mean(ofAcid, h.Acid, figure.Acid.Key))
	return append(out, h.Balance.Figures()...)
}

// Figures are base, spirit and target, the parts and the spirit by hand with live
// formulas, and the same by the balance.
func (q Square) Figures() []units.Figure {
	base := figure.Part("base", "base", []units.Figure{figure.Input(figure.Volume, float64(q.Base.Volume)), figure.Input(figure.Strength, float64(q.Base.Strength))})
	spirit := figure.Part("spirit", "spirit", []units.Figure{figure.Input(figure.Strength, float64(q.Poured.Strength))})
	out := append(append(base, spirit...), figure.Input(ofTarget, float64(q.Target)),
		byAlligation.Live(ofBaseParts, q.BaseParts.InexactFloat64(), "ABS({spirit_strength}-{target_strength})"),
		byAlligation.Live(ofSpiritParts, q.SpiritParts.InexactFloat64(), "ABS({target_strength}-{base_strength})"),
		byAlligation.Live(ofSpirit, q.Spirit.InexactFloat64(), "{base_volume}*{spirit_parts}/{base_parts}"))
	return append(out, q.Balance.Figures()...)
}

// uncertain puts a result in the place of the figure of the same quantity.
func uncertain(figures []units.Figure, q figure.Quantity, r uncertainty.Result) {
	for i := range figures {
		if figures[i].Key == q.Key {
			figures[i] = byTrust.Result(q.Key, q.Name, r, q.Places, q.Unit)
		}
	}
}

// Figures are those of the mixture; strength, extract, volume and gravity have
// their uncertainty.
func (u Uncertain) Figures() []units.Figure {
	out := u.Mixture.figures(byTrust)
	uncertain(out, figure.Strength, u.Strength)
	uncertain(out, figure.Extract, u.Extract)
	uncertain(out, figure.Volume, u.Volume)
	uncertain(out, figure.Gravity, u.Gravity)
	return out
}

// Figures are those of the blend and its sugar, and under "base" those of the
// wine before the spirit, with their uncertainties.
func (a ArrestUncertain) Figures() []units.Figure {
	out := a.Blend.figures(byTrust)
	uncertain(out, figure.Strength, a.BlendStrength)
	uncertain(out, figure.Extract, a.BlendExtract)
	uncertain(out, figure.Volume, a.BlendVolume)
	uncertain(out, figure.Gravity, a.BlendGravity)
	out = append(out, byLessExtract.Result(figure.Sugar.Key, figure.Sugar.Name, a.BlendSugar, figure.Sugar.Places, figure.Sugar.Unit))
	base := a.Base.Figures()
	uncertain(base, figure.Strength, a.BaseStrength)
	uncertain(base, figure.Extract, a.BaseExtract)
	uncertain(base, figure.Volume, a.BaseVolume)
	return append(out, figure.Part("base", "base", base)...)
}

// Figures are the reading, what was expected and the difference with its
// uncertainty; then, numbered from 1, the errors that would explain it.
func (f Finding) Figures() []units.Figure {
	reading := figure.Input(ofReading, float64(f.Reading))
	out := []units.Figure{reading, byReading.Give(figure.Gravity, float64(f.Expected.Gravity)),
		byReading.GiveWithin(ofDifference, float64(f.Reading-f.Expected.Gravity), float64(f.Standard))}
	for i, e := range f.Explanations {
		out = append(out, figure.Part(fmt.Sprintf("explanation_%d", i+1), fmt.Sprintf("explanation %d", i+1), e.Figures())...)
	}
	return out
}

// Figures are what the quantity of the component would be and how far that is
// from what was assumed, then the blend that this would make.
func (e Explanation) Figures() []units.Figure {
	key, places := "suspect_"+e.Quantity, map[string]int32{"volume": 3, "strength": 2, "extract": 1}[e.Quantity]
	if e.Quantity == "" {
		key = "suspect"
	}
	who := e.Quantity + " of " + e.Component
	return append([]units.Figure{
		figure.Noted(bySearch.Of(key, "what would explain it: "+e.Quantity, e.To, places, e.Unit), who),
		figure.Noted(bySearch.Of("deviations", "standard uncertainties from what was assumed", e.Deviations, 1, ""), who),
	}, e.Result.Figures()...)
}

// Figures are the size and the number.
func (b Bottle) Figures() []units.Figure {
	return []units.Figure{byCount.Give(ofBottle, float64(b.Size)), byCount.Give(ofBottles, float64(b.Count))}
}
