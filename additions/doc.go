// Package additions answers what to weigh and what to spoon: what is solid or
// dissolved and goes into the vessel, from a wanted level to a weight and back.
//
//		jar := 3.8 * units.Litre
//		pK, err := additions.SO2PK(6, units.Celsius(20))                    // 1.917
//		free, err := additions.FreeSO2For(0.6*units.MilligramPerLitre, 3.3, pK)
//		salt, err := additions.Metabisulfite(free, jar)                     // weigh this
//		spoon, err := additions.Spoons(additions.MetabisulfitePowder, salt) // or, worse, spoon it
//
//	  - sulfite and sorbate: [SO2], [MolecularSO2], [FreeSO2For], [Metabisulfite], [Sorbate]
//	  - yeast, nutrient, wood, clearing: [Pitch], [NutrientDose], [WoodDose], [Practices]
//	  - spoons and stock solutions: [Spoons], [Weigh]; a slip of a unit: [FarAboveUsual], [Addition.AboveUsual]
//	  - sugar, acid and pH, law and hazards, and whether it stays still: the packages
//	    sugar, acid, law and stability below this one
//
// A spooned powder is good to 10 or 20 %. Where a dose has a legal or a health
// limit, use a scale: [Spooned] says where. No figure of this package makes a
// bottle safe; a wine with sugar in it can ferment in glass, and glass bursts.
// Laws differ from place to place and change: check your own.
//
// Errors are *units.RangeError for a value outside its domain and
// *units.ParseError for a name that no table has. Functions are pure and safe
// for concurrent use.
package additions
