package label

import (
	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/limits"
	"example.org/mutage/units"
)

// A Fit says how sure it is that a liquid meets a class: a stable code.
type Fit string

// The fits.
const (
	Met     Fit = "met"
	MayMeet Fit = "may_meet" // a limit lies within the uncertainty of strength or sugar
)

// A Liquid is what Classes looks at.
type Liquid struct {
	Strength            units.Strength
	StrengthUncertainty units.Strength      // standard; zero: taken as exact
	Extract             units.Concentration // real extract, as sucrose
	// SugarLow and SugarHigh hold the fermentable sugar, which is less than the
	// extract: the same twice where it is known. Total alcohol counts it.
	SugarLow, SugarHigh units.Concentration
	// MadeFrom is "grapes" or "fruit" (other than grapes), and leaves out the
	// classes of the other; empty: all are looked at.
	MadeFrom string
}

// A Class is a product of some law whose limits of strength, sugar, solids and
// density a liquid meets.
type Class struct {
	Jurisdiction, Product string
	MadeFrom              string
	Fit                   Fit
	Limits                []Limit // those that were compared
}

// A Classification is what a liquid's figures would let it be called.
type Classification struct {
	Classes []Class
	// What was compared: alcohol with the sugar counted as alcohol, solids in
	// % mass, density at 20 C.
	Strength            units.Strength
	TotalLow, TotalHigh units.Strength
	Solids              units.MassPercent
	Density             units.Density
	Advice              string
}

const classAdvice = "Only figures are compared: most of these products are defined for grapes, a place and a way of making them. " +
	"The table is what its sources printed at their dates. Check your own law."

// mostSugar is sugar over extract: sucrose that is inverted weighs 5.3 % more
// than the sucrose that an extract is stated as (molar masses).
const mostSugar = 1.06

// Classes are the classes of the table whose every limit on the finished liquid
// is met, or may be. Total alcohol is actual alcohol and the sugar by the EU
// convention, 16.83 g/L for 1 % vol. Limits on must, base wine or spirit are not
// judged. Domain: strength and extract as Compose, sugar from 0 to 1.06 times the
// extract, low end first. Errors: *units.RangeError; *units.ParseError for
// MadeFrom. Sources and dates: in each Limit.
func Classes(l Liquid) (Classification, error) {
	whole, err := l.check()
	if err != nil {
		return Classification{}, err
	}
	out := Classification{
		Strength: l.Strength, Advice: classAdvice,
		TotalLow:  l.Strength + units.Strength(l.SugarLow/euSugar),
		TotalHigh: l.Strength + units.Strength(l.SugarHigh/euSugar),
		Solids:    units.MassPercent(float64(l.Extract) / (float64(whole.Gravity) * density.Water20) * 100),
		Density:   units.Density(float64(whole.Gravity) * float64(gravity.Water20)),
	}
	for _, rows := range classRows() {
		first := rows[0]
		if l.MadeFrom != "" && first.MadeFrom != "" && l.MadeFrom != first.MadeFrom {
			continue
		}
		class, worst := Class{Jurisdiction: first.Jurisdiction, Product: first.Product, MadeFrom: first.MadeFrom, Fit: Met}, limits.Yes
		for _, r := range rows {
			applies := r.Applies("", limits.Range{}, l.strength())
			if applies == limits.No {
				continue
			}
			answer := r.Judge(out.of(r.Parameter, l))
			if answer == limits.No && applies == limits.Perhaps {
				answer = limits.Perhaps
			}
			worst = max(worst, answer)
			class.Limits = append(class.Limits, limitOf(r))
		}
		if worst == limits.Perhaps {
			class.Fit = MayMeet
		}
		if worst != limits.No && len(class.Limits) > 0 {
			out.Classes = append(out.Classes, class)
		}
	}
	return out, nil
}

func (l Liquid) check() (abv.Composition, error) {
	whole, err := abv.Compose(l.Strength, l.Extract)
	if err != nil {
		return whole, err
	}
	if l.MadeFrom != "" && l.MadeFrom != "grapes" && l.MadeFrom != "fruit" {
		return whole, &units.ParseError{Text: l.MadeFrom, Quantity: "what it is made from", Expected: []string{"grapes", "fruit", "nothing"}}
	}
	return whole, check.First(
		units.Check("uncertainty of the strength", float64(l.StrengthUncertainty), 0, 50, "% vol", check.Bound),
		units.Check("sugar", float64(l.SugarLow), 0, mostSugar*float64(l.Extract), "g/L", "no more sugar than extract"),
		units.Check("sugar, high end", float64(l.SugarHigh), float64(l.SugarLow), mostSugar*float64(l.Extract), "g/L", "no more sugar than extract"))
}

func (l Liquid) strength() limits.Range {
	return limits.Around(float64(l.Strength), float64(l.StrengthUncertainty))
}

// of is the range of the figure that a limit speaks of.
func (c Classification) of(parameter string, l Liquid) limits.Range {
	s := l.strength()
	switch parameter {
	case totalStrengthMin, totalStrengthMax:
		return limits.Range{Low: s.Low + float64(c.TotalLow-c.Strength), High: s.High + float64(c.TotalHigh-c.Strength)}
	case totalSolidsMin, totalSolidsMax:
		return limits.Range{Low: float64(c.Solids), High: float64(c.Solids)}
	case densityMin, densityMax:
		return limits.Range{Low: float64(c.Density), High: float64(c.Density)}
	}
	return s
}
