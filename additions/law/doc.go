// Package law holds what laws and standards say of a wine: limits, statements
// that a label must carry, cautions at the step they belong to, and the log of
// what went in.
//
//	r, err := law.Check("US", law.Product{Category: law.FortifiedFruitWine, Levels: levels, SugarLow: 60, SugarHigh: 85})
//	a, err := law.Find("EU", law.FruitWine, law.SorbicAcid) // a limit, none in this text, or not known here
//	c := law.Cautions(law.What{Jurisdiction: "US", Sulfite: true, Spirit: 40})
//
// The table is texts read at the dates beside them, not all of them, and they
// change: a row that was amended since says so, and what could not be read is
// from memory or not known here. "Not known here" never means that there is no
// limit. It is no legal advice: check your own law.
package law
