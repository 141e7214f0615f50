package page

import "example.org/mutage/internal/density"

// How figures are found and where that stands, by the name that is the same in
// every page, JSON and CSV.
var methods = map[string]struct{ method, source string }{
	"gravity":                  {"density at the reading's temperature, glass expansion", density.SourceSucrose + "; ISO 1768"},
	"original_reading":         {"density at the reading's temperature, glass expansion", density.SourceSucrose + "; ISO 1768"},
	"stop_reading":             {"fermentation mass balance, density of the three components", balling + "; " + density.SourceMixture},
	"blend_reading":            {"density of the three components at the cellar's temperature", density.SourceMixture},
	"window_from":              {"fermentation mass balance", balling},
	"window_to":                {"fermentation mass balance", balling},
	"base_strength":            {"fermentation mass balance", balling},
	"base_extract":             {"fermentation mass balance", balling},
	"base_volume":              {"fermentation mass balance", balling},
	"strength":                 {"balance of masses, true volumes", density.SourceMixture},
	"extract":                  {"balance of masses, true volumes", density.SourceMixture},
	"volume":                   {"balance of masses, true volumes", density.SourceMixture},
	"contraction":              {"balance of masses, true volumes", density.SourceMixture},
	"sugar_left":               {"extract less what of a wine's is not sugar", "median of 5320 wines, Cortez et al. 2009"},
	"spirit":                   {"balance of masses, true volumes", density.SourceMixture},
	"spirit_to_pour":           {"balance of masses, at the cellar's temperature", density.SourceEthanol},
	"spirit_by_hand":           {"alligation, volumes simply added", ""},
	"strength_by_hand":         {"volumes simply added", ""},
	"delle_units":              {"sugar in g/100 mL and 4.5 times the strength", "Amerine & Kunkee, Vitis 5 (1965)"},
	"potassium_metabisulfite":  {"57.6 % SO2 by formula", "FAO/WHO JECFA (53rd, 1999)"},
	"potassium_sorbate":        {"74.6 % sorbic acid by formula", "OIV Codex COEI-1-POTSOR"},
	"molecular_so2":            {"pK 1.81", "UC Cooperative Extension, Enology Briefs I no. 1 (1982)"},
	"sugar":                    {"balance of masses; cups by published weights", "USDA National Nutrient Database; " + density.SourceSucrose},
	"plato":                    {"sucrose solution of this density", density.SourceSucrose},
	"baume":                    {"145 - 145/SG", "Junk & Pancoast, Handbook of Sugars (1973)"},
	"us_proof":                 {"volumes at 60 F", "27 CFR 5.1; " + density.SourceEthanol},
	"stop_from_reading":        {"fermentation mass balance, density of the three components", balling + "; " + density.SourceMixture},
	"stop_to_reading":          {"fermentation mass balance, density of the three components", balling + "; " + density.SourceMixture},
	"planned_strength":         {"balance of masses, true volumes", density.SourceMixture},
	"planned_strength_by_hand": {"volumes simply added", ""},
	"spirit_share":             {"volume of spirit over that of the blend", ""},
	"spirit_to_be_sure":        {"acceptance limit with a guard band", "JCGM 106:2012, 8.3"},
	"chance_of_target":         {"propagation of uncertainty, Student's t", "JCGM 100:2008"},
	"oak":                      {"as stated", ""},
	"remainder":                {"what the bottles leave", ""},
	"density":                  {"specific gravity times water", density.SourceSucrose},
	"oechsle":                  {"1000 (SG - 1)", ""},
	"potential":                {"fermentation mass balance, all extract fermented", balling},
	"rate":                     {"fall of the true gravity at the last reading", ""},
	"carbon_dioxide":           {"fermentation mass balance", balling},
	"strength_tabarie":         {"classic sum of the two densities", "OIV-MA-AS2-03B"},
	"volume_after":             {"balance of masses, true volumes", density.SourceSucrose},
	"mass_percent":             {"density of ethanol and water", density.SourceEthanol},
}

const balling = "C. J. N. Balling (1865)"
