package abv

import (
	"fmt"
	"math"
	"slices"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// NotSugar is what of an extract is not fermentable sugar: acids, glycerol,
// salts, phenols. Low, Likely and High are the 5, 50 and 95 % points in g/L.
type NotSugar struct {
	Low, Likely, High units.Concentration
	// PerMust says what the litre is: of the must before sugar was added (a stated
	// value, a fruit), or else of the fermented wine before the spirit (kinds
	// computed from finished wines, whose glycerol is in the figures).
	PerMust      bool
	Name, Source string
}

const (
	sourceCortez  = "computed by the density model from Cortez et al., Decis. Support Syst. 47:547 (2009)"
	sourceForina  = "glycerol of 178 red wines: Forina et al. (1986)"
	sourceSwisher = "M. Dharmadhikari, Wines from Cherries and Soft Fruits, Table 1 (adapted from Swisher & Poe 1935): total solids less reducing sugars; " +
		"sugars other than reducing ones may be in that difference, so the low end is the acids alone"
	sourceFruit = "Belitz, Grosch & Schieberle, Food Chemistry, 4th ed. (2009), Table 18.3, averages of whole fruit: dry matter less sugar and insoluble fibre; " +
		"protein and what stays in the pulp may be in that difference, so the low end is the acids alone"
)

// grapes are the sugar-free extracts of finished grape wines, 5, 50 and 95 %.
// Fermented on the pulp, a fruit gives more to the wine, as red grapes do.
var grapes = []NotSugar{
	{16, 20, 37, false, "", "range of 5,320 grape wines, " + sourceCortez},
	{16.3, 19.0, 23.6, false, "juice", "3,961 white wines, " + sourceCortez},
	{24.7, 29.3, 36.9, false, "skins", "1,359 red wines, " + sourceCortez},
}

// A juice is a row of a composition table, in % by mass.
type juice struct {
	name                  string
	solids, sugars, acids float64
	source                string
}

var juices = []juice{
	{"bing cherry", 14.84, 10.56, 0.47, sourceSwisher},
	{"early richmond cherry", 13.37, 7.88, 1.51, sourceSwisher},
	{"montmorency cherry", 15.23, 9.70, 1.32, sourceSwisher},
	{"morello cherry", 18.00, 10.17, 1.86, sourceSwisher},
	fruit{"apple", 16.0, 11.1, 0.6, 2.1, 0.6}.juice(),
	fruit{"apricot", 14.7, 8.5, 1.4, 1.6, 1.0}.juice(),
	fruit{"blackberry", 15.3, 6.2, 1.7, 3.2, 0.5}.juice(),
	fruit{"black currant", 18.7, 6.3, 2.6, 6.8, 1.7}.juice(),
	fruit{"peach", 12.9, 8.5, 0.6, 1.9, 0.5}.juice(),
	fruit{"pear", 17.5, 12.4, 0.2, 3.1, 0.5}.juice(),
	fruit{"plum", 16.3, 10.2, 1.5, 1.6, 0.9}.juice(),
	fruit{"raspberry", 15.5, 4.5, 2.1, 4.7, 0.4}.juice(),
	fruit{"red currant", 15.3, 4.8, 2.3, 3.5, 0.9}.juice(),
	fruit{"sour cherry", 14.7, 9.9, 1.8, 1.0, 0.3}.juice(),
	fruit{"strawberry", 10.2, 5.7, 1.1, 1.6, 0.5}.juice(),
	fruit{"sweet cherry", 17.2, 13.3, 1.0, 1.3, 0.3}.juice(),
}

// A fruit is a row of a table of whole fruit, in % of the edible part: dry matter,
// total sugar, acids, dietary fibre and, of that, pectin.
type fruit struct {
	name                              string
	dry, sugars, acids, fibre, pectin float64
}

// juice is the fruit's, if all but the fibre that is not pectin goes into it.
func (f fruit) juice() juice {
	pulp := f.fibre - f.pectin
	in := 100 / (100 - pulp)
	return juice{f.name, (f.dry - pulp) * in, f.sugars * in, f.acids * in, sourceFruit}
}

// glycerolMade in g/L is the mean of 178 dry red wines, 8.8 (5.2 to 13.7); the
// table of a juice does not have it, and a wine stopped early has less.
const glycerolMade = 8.8

// notSugar is the juice's: at least its acids, at most all solids that are not
// its sugars and the glycerol of a full fermentation.
func (j juice) notSugar() NotSugar {
	perLitre := density.Sucrose20(j.solids/100) / 100 // g/L of a part in % by mass
	low, high := j.acids*perLitre, (j.solids-j.sugars)*perLitre+glycerolMade
	return NotSugar{units.Concentration(low), units.Concentration((low + high) / 2), units.Concentration(high), true, j.name, j.source + "; " + sourceForina}
}

// Poorer says whether a juice of so much sugar, in g/L, is poorer than that of every
// fruit of the table, mostly by a slip of the unit, and which has the least and how
// much: raspberry, 49 g/L. Source: that of the fruit in NotSugarOf.
func (NotSugar) Poorer(sugar units.Concentration) (fruit string, least units.Concentration, poorer bool) {
	for _, j := range juices {
		if c := units.Concentration(j.sugars * density.Sucrose20(j.solids/100) / 100); least == 0 || c < least {
			fruit, least = j.name, c
		}
	}
	return fruit, least, sugar < least
}

// NotSugarOf is what is not sugar in a wine of this kind: "" for the range of all
// grape wines, 16 / 20 / 37 g/L; "juice" for one fermented as juice; "skins" for
// one fermented on skins or pulp; or a fruit of the table, by its name in lower
// case. Error: *units.ParseError, which lists the kinds. The fruits hold more
// than grapes and differ by year: measure, and state it (StatedNotSugar), where
// the sugar decides.
func NotSugarOf(kind string) (NotSugar, error) {
	for _, n := range grapes {
		if n.Name == kind {
			return n, nil
		}
	}
	for _, j := range juices {
		if j.name == kind {
			return j.notSugar(), nil
		}
	}
	return NotSugar{}, &units.ParseError{Text: kind, Quantity: "kind of must", Expected: NotSugarKinds()}
}

// NotSugarKinds lists what NotSugarOf takes beside "", in order.
func NotSugarKinds() []string {
	var kinds []string
	for _, n := range grapes[1:] {
		kinds = append(kinds, n.Name)
	}
	for _, j := range juices {
		kinds = append(kinds, j.name)
	}
	slices.Sort(kinds)
	return kinds
}

// oneSided is how many standard uncertainties away the 5 and 95 % points lie of
// what is known within a limit 19 times in 20, in such limits.
const oneSided = 1.645 / 1.96

// StatedNotSugar is a value that was measured or read in a table, in g per litre
// of the must before sugar was added; it lies within the limit 19 times in 20.
// What yeast makes, 5 to 14 g/L of glycerol in a dry wine, belongs into it.
// Domain: both 0 to 500 g/L. What cannot be below nothing has a Low of 0.
// Error: *units.RangeError.
func StatedNotSugar(x, limit units.Concentration) (NotSugar, error) {
	const most = 500
	if err := check.First(check.Level("extract that is not sugar", x, most), check.Level("limit of the extract that is not sugar", limit, most)); err != nil {
		return NotSugar{}, err
	}
	return NotSugar{max(0, x-oneSided*limit), x, x + oneSided*limit, true, "stated", "as stated"}, nil
}

var lessNotSugar = figure.Method{Method: "real extract less what of it is not sugar, or as measured", Source: sourceCortez + "; the fruit's own where it is named: " + sourceSwisher}

// Standard is the standard uncertainty that the 5 and 95 % points stand for.
func (n NotSugar) Standard() units.Concentration { return (n.High - n.Low) / (2 * 1.645) }

func (n NotSugar) check() error {
	const what = "extract that is not sugar"
	return check.First(check.Level(what+", high", n.High, 1000), units.Check(what, float64(n.Likely), 0, float64(n.High), "g/L", "the high end"),
		units.Check(what+", low", float64(n.Low), 0, float64(n.Likely), "g/L", "the likely value"))
}

// Sugars is the fermentable sugar of a liquid in g/L: 5, 50 and 95 % points.
// Where safety asks, take the side that hurts: High for "is it dry" and for
// pressure, Low for Delle units.
type Sugars struct{ Low, Likely, High units.Concentration }

// Sugars is the fermentable sugar of a liquid with this real extract, of whose
// litre so many litres were wine before the spirit (with PerMust: must before
// sugar was added; of a wine before the spirit see Fermented.Sugars). Added sugar and spirit bring nothing else: a litre of juice
// that 0.3 kg of sugar raised to 1.19 L and spirit to 2 L has a share of 0.5. It lies
// within 0 and the extract. Domain: extract 0 to 1000 g/L, share 0 to 2. Error:
// *units.RangeError.
func (n NotSugar) Sugars(extract units.Concentration, share float64) (Sugars, error) {
	if err := check.First(n.check(), check.Level("extract", extract, 1000),
		units.Check("share of wine in the liquid", share, 0, 2, "", check.Bound)); err != nil {
		return Sugars{}, err
	}
	left := func(rest units.Concentration) units.Concentration {
		sugar := extract - rest*units.Concentration(share)
		if sugar <= extract*1e-12 { // none, but for rounding
			return 0
		}
		return sugar
	}
	return Sugars{left(n.High), left(n.Likely), left(n.Low)}, nil
}

// Times is what is not sugar in a must of which so much is juice: 0.84 where added
// sugar made a litre of juice 1.19 L. Domain of the share as of Sugars, which
// refuses another.
func (n NotSugar) Times(share float64) NotSugar {
	f := units.Concentration(share)
	n.Low, n.Likely, n.High = f*n.Low, f*n.Likely, f*n.High
	return n
}

// Sugars is the fermentable sugar left in a wine on its way. Where sugar was added
// to the must, give n.Times of the share that is juice. Error: *units.RangeError.
func (f Fermented) Sugars(n NotSugar) (Sugars, error) {
	share := 1.0
	if n.PerMust {
		if err := units.Check("litres of wine per litre of must", f.VolumeRatio, 0.5, 1.5, "", check.Bound); err != nil {
			return Sugars{}, err
		}
		share = 1 / f.VolumeRatio
	}
	return n.Sugars(f.Extract, share)
}

// Measured is the sugar where it was measured: it lies within the limit 19 times
// in 20. Domain: both 0 to 1000 g/L. Error: *units.RangeError.
func Measured(sugar, limit units.Concentration) (Sugars, error) {
	if err := check.First(check.Level("sugar", sugar, 1000), check.Level("limit of the sugar", limit, 1000)); err != nil {
		return Sugars{}, err
	}
	return Sugars{max(0, sugar-oneSided*limit), sugar, min(1000, sugar+oneSided*limit)}, nil
}

// Standard is the standard uncertainty that the 5 and 95 % points stand for.
func (s Sugars) Standard() units.Concentration { return (s.High - s.Low) / (2 * 1.645) }

// Times is the sugar when a litre becomes 1/share litres.
func (s Sugars) Times(share float64) Sugars {
	f := units.Concentration(share)
	return Sugars{f * s.Low, f * s.Likely, f * s.High}
}

// Within is the sugar where the extract that it was found from has this standard
// uncertainty: to both sides the root of the sum of squares. Domain: 0 to 1000 g/L.
// Error: *units.RangeError.
func (s Sugars) Within(extract units.Concentration) (Sugars, error) {
	if err := check.First(s.Check(0), check.Level("uncertainty of the extract", extract, 1000)); err != nil {
		return Sugars{}, err
	}
	wider := func(to units.Concentration) units.Concentration {
		return units.Concentration(math.Hypot(float64(to), 1.645*float64(extract)))
	}
	return Sugars{max(0, s.Likely-wider(s.Likely-s.Low)), s.Likely, min(1000, s.Likely+wider(s.High-s.Likely))}, nil
}

// Check refuses ends out of order and more sugar than extract, of which it is a
// part (0: not stated). Error: *units.RangeError.
func (s Sugars) Check(extract units.Concentration) error {
	if err := check.First(check.Level("sugar at the high end", s.High, 1000),
		units.Check("sugar", float64(s.Likely), 0, float64(s.High), "g/L", "the high end of the sugar"),
		units.Check("sugar at the low end", float64(s.Low), 0, float64(s.Likely), "g/L", "the likely sugar"),
		check.Level("extract", extract, 1000)); err != nil {
		return err
	}
	if extract == 0 || float64(s.High) <= float64(extract)*(1+1e-9) {
		return nil
	}
	e := units.OutOfRange("", "sugar at the high end", float64(s.High), 0, float64(extract), "g/L", "sugar is a part of the extract")
	e.Cause = fmt.Sprintf("sugar of %.4g g/L is above the extract of %.4g g/L, of which it is a part", float64(s.High), float64(extract))
	return e
}
