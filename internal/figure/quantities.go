package figure

// Quantities that more than one result has.
var (
	Volume      = Quantity{"volume", "volume at 20 C", "L", 3}
	Mass        = Quantity{"mass", "weight", "g", 1}
	Strength    = Quantity{"strength", "strength", "% vol", 2}
	Extract     = Quantity{"extract", "extract", "g/L", 1}
	Gravity     = Quantity{"gravity", "specific gravity 20/20 C", "SG", 4}
	Acid        = Quantity{"acid", "titratable acidity as tartaric acid", "g/L", 2}
	Contraction = Quantity{"contraction", "volume lost by mixing", "mL", 1}

	OriginalGravity = Quantity{"original_gravity", "original gravity, at 20 C", "SG", 4}
	OriginalExtract = Quantity{"original_extract", "original extract", "% mass", 2}
	StrengthByMass  = Quantity{"strength_by_mass", "strength by mass", "% mass", 3}

	Sugar     = Quantity{"sugar_likely", "sugar, likely", "g/L", 1}
	SugarLow  = Quantity{"sugar_low", "sugar, at least", "g/L", 1}
	SugarHigh = Quantity{"sugar_high", "sugar, at most", "g/L", 1}

	DelleUnits = Quantity{"delle_units", "Delle units", "DU", 1}

	Density = Quantity{"density", "density at 20 C", "kg/m3", 1}

	TotalSO2     = Quantity{"total_so2", "total SO2", "mg/L", 0}
	FreeSO2      = Quantity{"free_so2", "free SO2", "mg/L", 0}
	MolecularSO2 = Quantity{"molecular_so2", "molecular SO2", "mg/L", 2}
	SorbicAcid   = Quantity{"sorbic_acid", "sorbic acid", "mg/L", 0}
	Potassium    = Quantity{"potassium", "potassium", "mg/L", 0}
	PH           = Quantity{"ph", "pH", "", 2}

	Treated = Quantity{"treated_volume", "volume treated", "L", 3}

	Spirit        = Quantity{"spirit", "spirit to pour, at 20 C", "L", 3}
	Base          = Quantity{"base", "base to pour, at 20 C", "L", 3}
	VolumeByHand  = Quantity{"volume_by_hand", "volume, volumes simply added", "L", 4}
	CarbonDioxide = Quantity{"carbon_dioxide", "carbon dioxide given off, per litre of must", "g/L", 1}
)
