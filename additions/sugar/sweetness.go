package sugar

import (
	_ "embed"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A SweetnessClass is a name on a label and what it asks of the wine: sugar in
// g/L, or density at 20 C in kg/m3, from the first figure up to the second.
type SweetnessClass struct {
	Name, Jurisdiction string
	Sugar              [2]units.Concentration
	Density            [2]units.Density
	Source             string
	Evidence           additions.Evidence
}

//go:embed data/sweetness.csv
var sweetnessTable string

// openEnd stands where a class has no upper end: no liquid is so sweet or dense.
const openEnd = 2000

// SweetnessClasses lists the classes that SweetenTo knows by heart; another
// one can be written as a value.
func SweetnessClasses() []SweetnessClass {
	var out []SweetnessClass
	for _, r := range table.Parse(sweetnessTable) {
		c := SweetnessClass{Name: r["class"], Jurisdiction: r["jurisdiction"], Source: r["source"], Evidence: additions.Evidence(r.Evidence())}
		for i, bound := range []string{"from", "to"} {
			x := r.Number(bound, []float64{0, openEnd}[i])
			if r["unit"] == "kg/m3" {
				c.Density[i] = units.Density(x)
			} else {
				c.Sugar[i] = units.Concentration(x)
			}
		}
		out = append(out, c)
	}
	return out
}

// SweetenTo is the sweetener that takes v of wine to the lower end of a class;
// none where the wine is in the class already. For a class by sugar give the
// residual sugar as the wine's Extract. Error: *units.RangeError where the wine
// is sweeter than the class or the sweetener cannot reach it.
func SweetenTo(c SweetnessClass, wine abv.Composition, v units.Volume, s Sweetener) (Addition, error) {
	before, err := wineMasses(wine, v)
	if err := check.First(err, s.check()); err != nil {
		return Addition{}, err
	}
	now := before.Mass() / float64(v)
	a, slope, from, to, unit := before.Mass(), 1.0, float64(c.Density[0]), float64(c.Density[1]), "kg/m3"
	if c.Density[1] == 0 {
		now = before.Sucrose / float64(v)
		a, slope, from, to, unit = before.Sucrose, s.Extract, float64(c.Sugar[0]), float64(c.Sugar[1]), "g/L"
	}
	if err := units.Check("lower end of the class", from, 0, openEnd, unit, c.Source); err != nil {
		return Addition{}, err
	}
	if now > to {
		return Addition{}, units.OutOfRange("class "+c.Name, "sweetness of the wine", now, 0, to, unit, c.Source)
	}
	if now >= from {
		return addition(before, 0, v, s)
	}
	return raise(before, a, slope, from, v, s, "lower end of the class", unit)
}
