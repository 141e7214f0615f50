package additions

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A Substance is named as in the table of household measures; Substances
// lists it. Only what has a published weight is in it: anything else is
// weighed.
type Substance string

// Substances of the table that other functions here speak of.
const (
	GranulatedSugar     Substance = "sucrose, granulated"
	MetabisulfitePowder Substance = "potassium metabisulfite, powder"
	SorbatePowder       Substance = "potassium sorbate"
	HoneyJar            Substance = "honey"
)

// A Measure is a published weight of a level household measure. Spoons and
// cups are US customary.
type Measure struct {
	Name        string
	Volume      units.Volume
	Mass        units.Mass
	BulkDensity units.Density
	Source      string
}

type household struct {
	measures []Measure    // rising volume and mass
	byVolume [][2]float64 // L and g
	byMass   [][2]float64 // the same turned round
	spread   float64      // half-width of a spoon of it, relative
	scale    bool
}

//go:embed data/household.csv
var householdCSV string

var householdTable = sync.OnceValue(func() map[Substance]household {
	all := map[Substance]household{}
	for _, r := range table.Parse(householdCSV) {
		v, err := units.ParseVolume(r["measure"])
		if err != nil {
			panic(err)
		}
		m := units.Mass(r.Number("grams", 0))
		s := Substance(r["substance"])
		h := all[s]
		h.byVolume = append(h.byVolume, [2]float64{float64(v), float64(m)})
		h.byMass = append(h.byMass, [2]float64{float64(m), float64(v)})
		h.measures = append(h.measures, Measure{r["measure"], v, m, units.Density(float64(m) / float64(v)), r["source"]})
		h.spread, h.scale = r.Number("spread_pct", 0)/100, r["scale"] == "yes"
		all[s] = h
	}
	return all
})

// Substances lists the names that Weigh and Spoons know, in order.
func Substances() []Substance {
	var names []Substance
	for s := range householdTable() {
		names = append(names, s)
	}
	slices.Sort(names)
	return names
}

func (s Substance) find() (household, error) {
	h, ok := householdTable()[s]
	if ok {
		return h, nil
	}
	err := &units.ParseError{Text: string(s), Quantity: "substance with a published household weight"}
	for _, name := range Substances() {
		err.Expected = append(err.Expected, string(name))
	}
	return household{}, err
}

// Measures are the published weights of s, smallest first. Error:
// *units.ParseError for a substance that is not in the table.
func (s Substance) Measures() ([]Measure, error) {
	h, err := s.find()
	return slices.Clone(h.measures), err
}

// Weigh is the weight of a level household measure of s. It is the printed
// weight at the printed measures, straight between them, and in proportion
// beyond. What a spoon really holds differs by 10 to 20 %: see Spoons.
// Domain: volume 0 to 1e7 L. Errors: *units.ParseError for a substance without
// a row, *units.RangeError. Source: USDA National Nutrient Database, WEIGHT
// file, and the sources named in Measures.
func Weigh(s Substance, measure units.Volume) (units.Mass, error) {
	h, err := s.find()
	if err := check.First(err, check.Treated(measure)); err != nil {
		return 0, err
	}
	return units.Mass(follow(h.byVolume, float64(measure))), nil
}

// follow is straight between the rows and in proportion beyond them.
func follow(rows [][2]float64, x float64) float64 {
	first, last := rows[0], rows[len(rows)-1]
	switch {
	case x <= first[0]:
		return x * first[1] / first[0]
	case x >= last[0]:
		return x * last[1] / last[0]
	}
	return table.Linear(rows, x)
}

// Spooned is a weight as household measures. Where no level measure holds it
// within 20 %, Printed is 0 and Stock may help.
type Spooned struct {
	Substance Substance
	Mass      units.Mass   // meant
	Volume    units.Volume // what holds it exactly
	Printed   units.Volume // the measure that String names; 0: none
	Holds     units.Mass   // what Printed holds by the table; 0: none
	Low, High units.Mass   // what Printed may really hold; 0: none
	UseScale  bool         // the dose has a legal or a health limit: weigh it
	Stock     Stock        // for a dose below the spoons; zero: none
	Source    string
}

// Stock is a solution to measure a small dose from: Dissolve in water and fill up
// to FillTo, then take Pour. Use it the same day.
type Stock struct {
	Dissolve     units.Mass
	FillTo, Pour units.Volume
}

// stockSubstances dissolve to more than 10 g in 100 mL of cold water (from
// memory: 45 g of the metabisulfite, 58 g of the sorbate).
var stockSubstances = []Substance{MetabisulfitePowder, SorbatePowder}

// stockOf is the solution that gives m in a millilitre or more, if it can.
func stockOf(s Substance, m units.Mass) Stock {
	if !slices.Contains(stockSubstances, s) || m == 0 {
		return Stock{}
	}
	for _, k := range []Stock{{Dissolve: 10, FillTo: 0.1}, {Dissolve: 1, FillTo: 0.1}, {Dissolve: 1, FillTo: 1}} {
		if k.Pour = k.FillTo * units.Volume(m/k.Dissolve); k.Pour >= units.Millilitre {
			return k
		}
	}
	return Stock{} // nothing in a kitchen measures that
}

// String is the recipe: "dissolve 10 g in water to 100 mL; 4.6 mL of it".
func (k Stock) String() string {
	if k.Dissolve == 0 {
		return ""
	}
	places := int32(1)
	if k.Pour >= 10*units.Millilitre {
		places = 0
	}
	return fmt.Sprintf("dissolve %v g in water to %v mL; %v mL of it", float64(k.Dissolve), k.FillTo.Decimal(units.Millilitre, 0), k.Pour.Decimal(units.Millilitre, places))
}

// spoonGood is how far what a printed measure holds may lie from what is meant.
const spoonGood = 0.20

// Spoons is the level measure that holds m of s: to a quarter of a teaspoon, below
// one to an eighth, and only if by the table it holds m within 20 %. Otherwise it
// gives the stock solution of what dissolves well. What a printed measure may hold
// is 20 % either way for measuring spoons of powder, 10 % from a cup upward, 5 % for
// liquids (common practice, from memory); teaspoons of cutlery were found to hold
// 2.5 to 7.3 mL. Errors as Weigh.
func Spoons(s Substance, m units.Mass) (Spooned, error) {
	h, err := s.find()
	if err := check.First(err, check.Weighed(m)); err != nil {
		return Spooned{}, err
	}
	v := units.Volume(follow(h.byMass, float64(m)))
	p := Spooned{Substance: s, Mass: m, Volume: v, UseScale: h.scale, Source: h.measures[0].Source}
	printed := units.Volume(math.Round(4*v.In(units.USTeaspoon))) / 4 * units.USTeaspoon
	if eighths := int(math.Round(8 * v.In(units.USTeaspoon))); eighths < 8 {
		printed = units.Volume(eighths) / 8 * units.USTeaspoon
	}
	holds := units.Mass(follow(h.byVolume, float64(printed)))
	if off := math.Abs(float64(holds - m)); printed == 0 || off > spoonGood*float64(m)*(1+1e-9) {
		p.Stock = stockOf(s, m)
		return p, nil
	}
	spread := units.Mass(h.spread)
	if printed >= units.USCup {
		spread = min(spread, 0.10)
	}
	p.Printed, p.Holds, p.Low, p.High = printed, holds, holds*(1-spread), holds*(1+spread)
	return p, nil
}

// String is the printed measure in cups, tablespoons and teaspoons, or else the
// stock solution or that it takes a scale.
func (p Spooned) String() string {
	if p.Mass == 0 {
		return "none"
	}
	if p.Printed == 0 {
		if p.Stock != (Stock{}) {
			return "no spoon holds it: " + p.Stock.String()
		}
		return "no spoon holds it: use a scale"
	}
	if p.Printed < units.USTeaspoon {
		return fraction(int(math.Round(8*p.Printed.In(units.USTeaspoon))), 8) + " tsp"
	}
	var parts []string
	rest := int(math.Round(4 * p.Printed.In(units.USTeaspoon)))
	for _, u := range []struct {
		name  string
		parts int // that it is printed in
		part  int // in quarters of a teaspoon
	}{{"cup", 4, 48}, {"tbsp", 1, 12}, {"tsp", 4, 1}} {
		if n := rest / u.part; n > 0 {
			name := u.name
			if name == "cup" && n > u.parts {
				name = "cups"
			}
			parts = append(parts, fraction(n, u.parts)+" "+name)
			rest -= n * u.part
		}
	}
	return strings.Join(parts, " + ")
}

// fraction writes n/d with the whole number in front.
func fraction(n, d int) string {
	whole, n := n/d, n%d
	for n > 0 && n%2 == 0 {
		n, d = n/2, d/2
	}
	switch {
	case n == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", n, d)
	}
	return fmt.Sprintf("%d %d/%d", whole, n, d)
}

// A Packet is a tablet or a sachet of stated weight and content; read both
// off its label. Active is the share of its weight that acts, 0 to 1.
type Packet struct {
	Name   string
	Mass   units.Mass
	Active float64
}

// Holds is the active substance in n packets. Domain: n 0 to 1e6, Mass above
// 0, Active above 0 to 1. Error: *units.RangeError.
func (p Packet) Holds(n float64) (units.Mass, error) {
	if err := check.First(p.check(), units.Check("number of packets", n, 0, 1e6, "", check.Bound)); err != nil {
		return 0, err
	}
	return units.Mass(n*p.Active) * p.Mass, nil
}

// For is the number of packets that hold m of the active substance. Domain: m 0
// to 1e10 g, the packet as for Holds. Error: *units.RangeError.
func (p Packet) For(m units.Mass) (float64, error) {
	if err := check.First(p.check(), check.Weighed(m)); err != nil {
		return 0, err
	}
	return float64(m/p.Mass) / p.Active, nil
}

func (p Packet) check() error {
	return check.First(units.Check("mass of a packet", float64(p.Mass), 1e-6, check.MostDose, "g", check.Bound),
		units.Check("active share of a packet", p.Active, 1e-6, 1, "", ""))
}
