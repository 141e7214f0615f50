package abv

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// Yield says what becomes of the extract for every gram of alcohol made: this
// many grams of carbon dioxide and of new yeast leave the liquid. The extract
// used is their sum and the gram of alcohol, so mass is conserved.
// Domain: CarbonDioxide 0.8 to 1.2, Yeast 0 to 0.5.
type Yield struct{ CarbonDioxide, Yeast float64 }

// Balling's yields: 2.0665 g of extract of wort (Die Gaerungschemie, 3rd ed.
// 1865) and 2.0009 g of extract of grape must (the wine volume) make 1 g of
// alcohol. Fruit is in the middle of what was measured in musts: see YeastLikely.
var (
	Wort = Yield{CarbonDioxide: 0.9565, Yeast: 0.11}
	Must = Yield{CarbonDioxide: 0.9565, Yeast: 0.0444}

	Fruit = Yield{CarbonDioxide: 0.9565, Yeast: YeastLikely}
)

// What the package itself reads, which nobody else can change.
var wortYield, mustYield, fruitYield = Wort, Must, Fruit

var yields = figure.Method{Method: "yields of Balling's measured fermentations, or as stated", Source: balance.Source}

// ParseYield reads "must", "wort" or "fruit". Error: *units.ParseError.
func ParseYield(text string) (Yield, error) {
	switch text {
	case "must":
		return mustYield, nil
	case "wort":
		return wortYield, nil
	case "fruit":
		return fruitYield, nil
	}
	return Yield{}, &units.ParseError{Text: text, Quantity: "yield", Expected: []string{"must (grape must)", "fruit (the middle of what was measured)", "wort"}}
}

// PerPercent is the grams of extract per litre of wine that one % vol of alcohol
// is made of: 16.3 for wort, 15.8 for must.
func (y Yield) PerPercent() float64 { return balance.Yield(y).Extract() * density.PureEthanol / 100 }

// Fermented is what fermentation has made of a must, at 20 C.
type Fermented struct {
	Strength      units.Strength      `json:"strength"`
	Extract       units.Concentration `json:"extract"`        // real extract left, per litre of the wine
	SugarUsed     units.Concentration `json:"sugar_used"`     // extract used, per litre of the must as it was at the start
	CarbonDioxide units.Concentration `json:"carbon_dioxide"` // given off, per litre of the must as it was at the start
	Yeast         units.Concentration `json:"yeast"`          // grown, dry, per litre of the must as it was at the start
	VolumeRatio   float64             `json:"volume_ratio"`   // litres of wine per litre of must
	Gravity       gravity.SG          `json:"gravity"`        // what a hydrometer shows in the wine, degassed, at 20 C
}

// mustOf is the must of this gravity.
func mustOf(og gravity.SG, y Yield) (balance.Must, error) {
	return balance.Of(float64(og), balance.Yield(y))
}

// fermented is the must when a grams of alcohol have been made from 100 g of it.
func fermented(m *balance.Must, a float64) Fermented {
	return Fermented(balance.Ferment[gravity.SG](m, a))
}

var byBalance = figure.Method{Method: "mass balance of the fermentation, density of the three components", Source: balance.Source + "; " + density.SourceMixture}

// MassBalance is the wine that must of gravity og has become when the hydrometer
// shows fg: the one amount of alcohol for which the mass that is left has that
// density (carbon dioxide and yeast gone; density of the three components
// together). og 1 to 1.3499; fg from dry to og.
//
// Against 17 measured American beers (USDA Bulletin 493) its root-mean-square
// error is 0.16 % vol with the wort yield. Errors: *units.RangeError for either
// gravity or a yield outside its domain; fg above og names both.
func MassBalance(og, fg gravity.SG, y Yield) (Fermented, error) {
	must, err := mustOf(og, y)
	if err != nil {
		return Fermented{}, err
	}
	a, err := must.ForGravity(float64(fg))
	if err != nil {
		return Fermented{}, finalGravity(og, fg, must.Dry(), "from all extract fermented to none, "+balance.Source)
	}
	return fermented(&must, a), nil
}

// StopAt is the wine when must of gravity og has reached the target strength. Its
// Gravity is the reading to wait for: what a hydrometer shows in the degassed
// wine at 20 C. Fermentation runs on while it is being stopped: act before that
// reading. og 1 to 1.3499; target from 0 to the strength with all extract
// fermented. Error: *units.RangeError, whose Max is the strength that is reachable.
func StopAt(og gravity.SG, target units.Strength, y Yield) (Fermented, error) {
	must, err := mustOf(og, y)
	if err != nil {
		return Fermented{}, err
	}
	a, err := alcoholAtStrength(&must, target)
	if err != nil {
		return Fermented{}, err
	}
	return fermented(&must, a), nil
}

// ofMust names a must in an error.
func ofMust(must *balance.Must) string { return fmt.Sprintf("must of %.5g", must.Gravity) }

// finalGravity is the error for a pair of gravities that no fermentation gives.
func finalGravity(og, fg gravity.SG, driest float64, source string) error {
	e := units.OutOfRange(fmt.Sprintf("must of %.5g", float64(og)), "final gravity", float64(fg), driest, float64(og), "", source)
	if fg > og {
		e.Cause = fmt.Sprintf("final gravity %.5g is above the original gravity %.5g: swapped?", float64(fg), float64(og))
	}
	return e
}

// alcoholAtStrength is the grams of alcohol made from 100 g of must at this
// strength.
func alcoholAtStrength(must *balance.Must, target units.Strength) (float64, error) {
	a, err := must.ForStrength(target)
	if err != nil {
		return 0, units.OutOfRange(ofMust(must), "strength by fermentation", float64(target), 0, float64(fermented(must, must.Most()).Strength), "% vol", "all extract fermented, "+balance.Source)
	}
	return a, nil
}
