package main

import (
	"sync"

	"example.org/mutage/additions"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// carefulDose is what dose would say first of the SO2 and sorbic acid of a row.
func carefulDose(in, _ []float64) string {
	so2, sorbic := units.Concentration(in[1])*units.MilligramPerLitre, units.Concentration(in[2])*units.MilligramPerLitre
	for _, x := range []struct {
		of    additions.Addition
		level units.Concentration
	}{{additions.AddedSO2, so2}, {additions.AddedSorbicAcid, sorbic}} {
		if o, far, err := additions.FarAboveUsual(x.of, x.level); err == nil && far {
			return o.Text
		}
	}
	for _, x := range []struct {
		of    law.Parameter
		level units.Concentration
		least func() units.Concentration
	}{{law.TotalSO2, so2, so2Limit}, {law.SorbicAcid, sorbic, sorbicLimit}} {
		if x.level > 0 && x.level > x.least() {
			return x.of.String() + " of " + say.Concentration(x.level) + " is above the limit for " + law.FruitWine.String() + " of some jurisdiction, or it may be: worksheet dose says of which"
		}
	}
	if sorbic > 0 && so2 == 0 {
		notes := additions.SorbateCautions(so2)
		return notes[len(notes)-1].Text
	}
	return ""
}

// carefulStability says what strength and sugar alone do not hold.
func carefulStability(in, _ []float64) string {
	hold, err := stability.HoldOf(units.Strength(in[0]), units.Concentration(in[1]))
	if err != nil || hold == stability.Holds {
		return ""
	}
	if hold == stability.Weak {
		return "by strength and sugar alone yeast may ferment it: do not bottle it before worksheet plan has judged it"
	}
	return "by strength and sugar alone yeast will ferment it: do not bottle it before worksheet plan has judged it"
}

// so2Limit and sorbicLimit are the highest level that keeps the limits of every
// jurisdiction for fruit wine.
var so2Limit, sorbicLimit = keptEverywhere(law.TotalSO2), keptEverywhere(law.SorbicAcid)

// keptEverywhere asks the law by halving, once: a sheet may have many rows.
func keptEverywhere(q law.Parameter) func() units.Concentration {
	return sync.OnceValue(func() units.Concentration {
		kept, over := units.Concentration(0), 10*units.GramPerLitre
		for range 40 {
			level := (kept + over) / 2
			where, err := exceeding(law.Product{Category: law.FruitWine, Levels: law.Levels{q: level}}, law.Jurisdictions(), nil)
			if err != nil || len(where) > 0 {
				over = level
			} else {
				kept = level
			}
		}
		return over
	})
}
