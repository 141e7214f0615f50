// Package additions answers what to weigh, what to spoon, whether the wine
// will stay still, whether it is safe and whether it is allowed: everything
// solid or dissolved that goes into the vessel, from a wanted level to a
// weight and back.
//
//		jar := 3.8 * units.Litre
//		pK, err := additions.SO2PK(6, units.Celsius(20))                    // 1.917
//		free, err := additions.FreeSO2For(0.6*units.MilligramPerLitre, 3.3, pK)
//		salt, err := additions.Metabisulfite(free, jar)                     // weigh this
//		spoon, err := additions.Spoons(additions.MetabisulfitePowder, salt) // or, worse, spoon it
//
//	  - sugar: [RaiseGravity], [AddSugar], [RaiseExtract], [Sweeten], [SweetenTo]
//	  - acid and pH: [RaiseTA], [LowerTA], [Titrate], [Fit], [Predict]
//	  - sulfite and sorbate: [MolecularSO2], [FreeSO2For], [Metabisulfite], [Sorbate]
//	  - yeast, nutrient, wood, clearing: [Pitch], [NutrientDose], [WoodDose], [Practices]
//	  - will it stay still, and what if not: [DelleUnits], [Judge], [SealedPressure], [Prime]
//	  - law and hazards: [CheckLimits], [Cautions], [FlashPoint]
//	  - what went in so far: [Log]
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
