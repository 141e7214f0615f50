package label

import "example.org/mutage/units"

// A LegalLimit is one limit of one law, as its source printed it.
type Limit struct {
	Jurisdiction, Product string
	Quantity              string
	Min, Max              float64 // zero: none
	Unit                  string
	Exclusive             bool // the value must lie above Min
	// The limit belongs to products above or up to this actual strength.
	OverStrength, UpToStrength units.Strength
	Remark, Source             string
	FromMemory                 bool
}

// Quantities that are judged on the finished liquid.
const (
	actualAlcohol = "actual alcohol"
	anyAlcohol    = "alcohol"
	totalAlcohol  = "total alcohol"
	totalSolids   = "total solids"
	sugars        = "sugars"
	densityAt20   = "density at 20 C"
)

const (
	euBefore2013 = "EU (pre-2013 text)"
	oivCode      = "OIV Code I.5.1 / I.6.1 / I.4.2 / I.3.1"
	portaria     = "Portaria 379/75"
	euTerm       = "EU term base entry 'liqueur wine, dessert wine' (pre-2013 Community text)"
	eu1308       = "Regulation (EU) 1308/2013 Annex VII Part II point (1)"
	cfr24179     = "27 CFR 24.179"
	usTax        = "26 USC 5041(b)"
)

// legalLimits: rows of one product stand together.
var limits = []Limit{
	{Jurisdiction: "OIV", Product: "liqueur wine", Quantity: actualAlcohol, Min: 15, Max: 22, Unit: "% vol",
		Remark: "a state may allow up to 24 on its own market", Source: "OIV International Code of Oenological Practices I.4.3"},
	{Jurisdiction: euBefore2013, Product: "liqueur wine", Quantity: actualAlcohol, Min: 15, Max: 22, Unit: "% vol",
		Source: euTerm},
	{Jurisdiction: euBefore2013, Product: "liqueur wine", Quantity: totalAlcohol, Min: 17.5, Unit: "% vol",
		Remark: "listed quality liqueur wines may be less than 17.5 but not less than 15: Reg. 1607/2000 art. 5 title", Source: euTerm},
	{Jurisdiction: euBefore2013, Product: "liqueur wine base must/wine", Quantity: "natural alcohol", Min: 12, Unit: "% vol",
		Source: euTerm},
	{Jurisdiction: euBefore2013, Product: "liqueur wine, neutral vinous alcohol added", Quantity: "strength of spirit", Min: 95, Unit: "% vol",
		Remark: "older text; Reg. 1308/2013 states 96", Source: euTerm},
	{Jurisdiction: euBefore2013, Product: "liqueur wine, unrectified wine distillate added", Quantity: "strength of spirit", Min: 52, Max: 80, Unit: "% vol",
		Remark: "Reg. 1308/2013 states 52-86", Source: euTerm},
	{Jurisdiction: "EU", Product: "wine", Quantity: actualAlcohol, Min: 8.5, Unit: "% vol",
		Remark: "zones A and B; 9 elsewhere; 4.5 for PDO/PGI", Source: eu1308},
	{Jurisdiction: "EU", Product: "wine", Quantity: totalAlcohol, Max: 15, Unit: "% vol",
		Remark: "20 for listed areas without enrichment", Source: eu1308},
	{Jurisdiction: "EU", Product: "liqueur wine", Quantity: actualAlcohol, Min: 15, Max: 22, Unit: "% vol",
		Remark: "Reg. 1308/2013 Annex VII Part II (3)(a); page seen only as far as point (1)", Source: "Regulation (EU) 1308/2013", FromMemory: true},
	{Jurisdiction: "OIV", Product: "mistelle", Quantity: "actual alcohol before fortifying", Max: 1, Unit: "% vol",
		Remark: "1 % vol tolerated in the unfermented must", Source: oivCode},
	{Jurisdiction: "OIV", Product: "wine for distillation", Quantity: anyAlcohol, Min: 18, Max: 24, Unit: "% vol",
		Source: oivCode},
	{Jurisdiction: "OIV", Product: "flor wine", Quantity: actualAlcohol, Min: 15, Unit: "% vol",
		Source: oivCode},
	{Jurisdiction: "OIV", Product: "wine", Quantity: actualAlcohol, Min: 8.5, Unit: "% vol",
		Source: oivCode},
	{Jurisdiction: "Portugal", Product: "Port", Quantity: actualAlcohol, Min: 19, Max: 22, Unit: "% vol",
		Remark: "general rule as stated by the IVDP president 2018 when a minimum of 18 for current ruby, tawny, white, rose was proposed", Source: "Lusa/Destak report"},
	{Jurisdiction: "Portugal", Product: "Port, light dry white", Quantity: actualAlcohol, Min: 16.5, Unit: "% vol",
		Source: "same report"},
	{Jurisdiction: "Portugal", Product: "must for Port", Quantity: "natural sugar as invert", Min: 204, Unit: "g/L",
		Remark: "= 12 % vol probable", Source: portaria},
	{Jurisdiction: "Portugal", Product: "Port, sweet", Quantity: densityAt20, Min: 1018, Unit: "kg/m3", Exclusive: true,
		Remark: "doce: above 1018", Source: portaria},
	{Jurisdiction: "Portugal", Product: "Port, half-dry", Quantity: densityAt20, Min: 1008, Max: 1018.5, Unit: "kg/m3",
		Source: portaria},
	{Jurisdiction: "Portugal", Product: "Port, dry", Quantity: densityAt20, Max: 1008, Unit: "kg/m3",
		Source: portaria},
	{Jurisdiction: "US", Product: "dessert wine", Quantity: anyAlcohol, Min: 14, Max: 24, Unit: "% vol", Exclusive: true,
		Remark: "in excess of 14, not in excess of 24", Source: "27 CFR 4.21"},
	{Jurisdiction: "US", Product: "wine (FAA Act)", Quantity: anyAlcohol, Min: 7, Max: 24, Unit: "% vol",
		Source: "27 CFR 1.10"},
	{Jurisdiction: "US", Product: "natural wine", Quantity: totalSolids, Max: 21, Unit: "% w/w",
		Source: "26 USC 5381"},
	{Jurisdiction: "US", Product: "natural grape wine sweetened, above 14 % vol", Quantity: totalSolids, Max: 17, Unit: "% w/w", OverStrength: 14,
		Source: cfr24179},
	{Jurisdiction: "US", Product: "natural fruit wine sweetened", Quantity: totalSolids, Max: 21, Unit: "% w/w", UpToStrength: 14,
		Remark: "alcohol not more than 14 % vol", Source: cfr24179},
	{Jurisdiction: "US", Product: "specially sweetened natural wine", Quantity: totalSolids, Min: 17, Max: 35, Unit: "% w/w", UpToStrength: 14,
		Remark: "alcohol not more than 14 % vol", Source: cfr24179},
	{Jurisdiction: "US", Product: "chaptalised juice", Quantity: "density", Max: 25, Unit: "degrees Brix",
		Source: "27 CFR 24.177"},
	{Jurisdiction: "US 1906 standard", Product: "wine", Quantity: anyAlcohol, Min: 7, Max: 16, Unit: "% vol",
		Source: "H.W. Wiley, Foods and Their Adulteration"},
	{Jurisdiction: "US 1906 standard", Product: "sweet wine", Quantity: sugars, Min: 1, Unit: "g/100 mL",
		Source: "same, /374"},
	{Jurisdiction: "US", Product: "pure dry sugar", Quantity: "volume displaced", Min: 13.5, Max: 13.5, Unit: "lb per US gallon",
		Source: "27 CFR 24.181"},
	{Jurisdiction: "historical", Product: "unfortified wine", Quantity: anyAlcohol, Min: 6, Max: 12, Unit: "%",
		Remark: "J.P. Battershall 1887", Source: "Food Adulteration and its Detection"},
	{Jurisdiction: "historical", Product: "fortified wine", Quantity: anyAlcohol, Min: 12, Max: 22, Unit: "%",
		Remark: "J.P. Battershall 1887", Source: "Food Adulteration and its Detection"},
	// Not in the table at hand; the label tolerance ends at them.
	{Jurisdiction: "US", Product: "still wine, first tax class", Quantity: anyAlcohol, Max: 16, Unit: "% vol", Source: usTax, FromMemory: true},
	{Jurisdiction: "US", Product: "still wine, second tax class", Quantity: anyAlcohol, Min: 16, Max: 21, Unit: "% vol", Exclusive: true, Source: usTax, FromMemory: true},
	{Jurisdiction: "US", Product: "still wine, third tax class", Quantity: anyAlcohol, Min: 21, Max: 24, Unit: "% vol", Exclusive: true, Source: usTax, FromMemory: true},
}
