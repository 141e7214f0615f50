// Package abv says how strong the wine is: from two gravities, from the weight
// the vessel lost, from an alcoholometer, from a density; how sure that is;
// when to stop a fermentation; and what the strength means in the glass, on a
// label and before the law.
//
//	wine, err := abv.MassBalance(1.092, 1.046, abv.Must) // 6.2 % vol, 142 g/L left
//	stop, err := abv.StopAt(1.092, 5.5, abv.Must)        // the reading to wait for
//	all, err := abv.Compare(1.092, 1.046, abv.Must)      // every formula, side by side
//	course, err := abv.Watch(log, abv.WatchPlan{})       // how it goes, and when to come back
//
// Believe MassBalance when sugar is left. Use Must for fruit and sugar, Wort
// for malt. Gravities are true ones at 20 C (package gravity corrects them),
// of a sample that has lost its gas.
//
// Strength is % vol at 20 C. US and British proof are measured at 60 F.
//
// Distilling at home is forbidden in many countries, the United States among
// them (27 CFR 19.51): the functions for spirits serve spirit that was bought.
// Carbon dioxide of a fermentation can kill in a closed cellar. A standard
// drink is a measure, not advice; who must not drink should not.
package abv
