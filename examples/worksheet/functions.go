package main

import (
	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"

	"example.org/mutage/abv/spirit"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/examples/worksheet/internal/rows"
	"example.org/mutage/units"
)

// functions of the library as columns, each in the unit that its line says.
// Volumes are in L, strengths in % vol, extracts in g/L, SO2 and sorbic acid
// in mg/L, temperatures in C, masses in g.
var functions = []rows.Function{
	{Name: "fortify", Answers: "spirit to bring a wine to a strength (L, % vol, g/L)",
		In:  []string{"base_volume", "base_strength", "base_extract", "spirit_strength", "target"},
		Out: []rows.Output{rows.Out("spirit_volume", 6), rows.Out("volume", 6), rows.Out("strength", 4), rows.Out("extract", 3), rows.Out("gravity", 5)},
		Run: func(in, out []float64) error {
			f, err := blend.Fortify(blend.Component{Name: "base", Volume: units.Volume(in[0]), Strength: units.Strength(in[1]), Extract: units.Concentration(in[2])},
				blend.Component{Name: "spirit", Strength: units.Strength(in[3])}, units.Strength(in[4]))
			fill(out, float64(f.Spirit), float64(f.Result.Volume), float64(f.Result.Strength), float64(f.Result.Extract), float64(f.Result.Gravity))
			return err
		}},
	{Name: "mix", Answers: "what a wine and a spirit make (L, % vol, g/L)",
		In:  []string{"base_volume", "base_strength", "base_extract", "spirit_volume", "spirit_strength"},
		Out: []rows.Output{rows.Out("volume", 6), rows.Out("strength", 4), rows.Out("extract", 3), rows.Out("gravity", 5), rows.Out("contraction", 6)},
		Run: func(in, out []float64) error {
			m, err := blend.Mix(blend.Component{Name: "base", Volume: units.Volume(in[0]), Strength: units.Strength(in[1]), Extract: units.Concentration(in[2])},
				blend.Component{Name: "spirit", Volume: units.Volume(in[3]), Strength: units.Strength(in[4])})
			fill(out, float64(m.Volume), float64(m.Strength), float64(m.Extract), float64(m.Gravity), float64(m.Contraction))
			return err
		}},
	{Name: "ferment", Answers: "strength and extract between two gravities, must yield",
		In:  []string{"og", "fg"},
		Out: []rows.Output{rows.Out("strength", 3), rows.Out("extract", 2), rows.Out("carbon_dioxide", 2), rows.Out("volume_ratio", 5)},
		Run: func(in, out []float64) error {
			f, err := abv.MassBalance(gravity.SG(in[0]), gravity.SG(in[1]), abv.Must)
			fill(out, float64(f.Strength), float64(f.Extract), float64(f.CarbonDioxide), f.VolumeRatio)
			return err
		}},
	{Name: "stop", Answers: "the reading to wait for, must yield",
		In:  []string{"og", "target"},
		Out: []rows.Output{rows.Out("stop", 5)},
		Run: func(in, out []float64) error {
			f, err := abv.StopAt(gravity.SG(in[0]), units.Strength(in[1]), abv.Must)
			out[0] = float64(f.Gravity)
			return err
		}},
	{Name: "gravity", Answers: "true gravity and extract of must from a 20 C hydrometer (temperature in C)",
		In:  []string{"reading", "temperature"},
		Out: []rows.Output{rows.Out("gravity", 5), rows.Out("plato", 3)},
		Run: func(in, out []float64) error {
			if err := units.Check("temperature in C (is it in F?)", in[1], 0, 50, "C", "a bound against mistyping"); err != nil {
				return err
			}
			g, err := gravity.NewHydrometer(units.Celsius(20)).Correct(gravity.SG(in[0]), units.Celsius(in[1]))
			if err != nil {
				return err
			}
			p, err := g.Plato()
			fill(out, float64(g), float64(p))
			return err
		}},
	{Name: "instruments", Answers: "strength and extract from hydrometer and refractometer, both true at 20 C",
		In:  []string{"hydrometer", "refractometer"},
		Out: []rows.Output{rows.Out("strength", 2), rows.Out("extract", 1)},
		Run: func(in, out []float64) error {
			c, err := abv.TwoInstruments(gravity.SG(in[0]), gravity.Brix(in[1]))
			fill(out, float64(c.Strength), float64(c.Extract))
			return err
		}},
	{Name: "spirit", Answers: "strength by mass and density of a spirit at a temperature",
		In:  []string{"strength", "temperature"},
		Out: []rows.Output{rows.Out("mass_percent", 4), rows.Out("density", 3)},
		Run: func(in, out []float64) error {
			m, err := abv.ByMass(units.Strength(in[0]))
			if err != nil {
				return err
			}
			d, err := abv.Density(units.Strength(in[0]), units.Celsius(in[1]))
			fill(out, float64(m), float64(d))
			return err
		}},
	{Name: "alcoholometer", Answers: "true strength from a glass alcoholometer for 20 C",
		In:  []string{"apparent", "temperature"},
		Out: []rows.Output{rows.Out("strength", 3)},
		Run: func(in, out []float64) error {
			s, err := spirit.TrueStrength(units.Strength(in[0]), units.Celsius(in[1]))
			out[0] = float64(s)
			return err
		}},
	{Name: "sugar", Answers: "sugar (g) to raise must to a gravity, and its volume then (L)",
		In:  []string{"volume", "from", "to"},
		Out: []rows.Output{rows.Out("sugar", 2), rows.Out("volume_after", 5)},
		Run: func(in, out []float64) error {
			a, err := sugar.RaiseGravity(gravity.SG(in[1]), gravity.SG(in[2]), units.Volume(in[0]))
			fill(out, float64(a.Sugar), float64(a.Volume))
			return err
		}},
	{Name: "doses", Answers: "potassium metabisulfite and sorbate (g) for SO2 and sorbic acid (mg/L)",
		In:  []string{"volume", "so2", "sorbic_acid"},
		Out: []rows.Output{rows.Out("metabisulfite", 4), rows.Out("sorbate", 4)},
		Run: func(in, out []float64) error {
			salt, err := additions.Metabisulfite(units.Concentration(in[1])*units.MilligramPerLitre, units.Volume(in[0]))
			if err != nil {
				return err
			}
			sorbate, err := additions.Sorbate(units.Concentration(in[2])*units.MilligramPerLitre, units.Volume(in[0]))
			fill(out, float64(salt), float64(sorbate))
			return err
		}, Caution: carefulDose},
	{Name: "stability", Answers: "Delle units of a strength and what is given as extract: give the sugar alone",
		In:  []string{"strength", "extract"},
		Out: []rows.Output{rows.Out("delle_units", 2)},
		Run: func(in, out []float64) error {
			var err error
			out[0], err = stability.DelleUnits(units.Strength(in[0]), units.Concentration(in[1]))
			return err
		}, Caution: carefulStability},
}

func fill(out []float64, values ...float64) { copy(out, values) }
