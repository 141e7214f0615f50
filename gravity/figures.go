package gravity

import (
	"sync"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

var (
	ofPoints    = figure.Quantity{Key: "gravity_points", Name: "gravity points", Places: 1}
	ofOechsle   = figure.Quantity{Key: "oechsle", Name: "Oechsle", Places: 1}
	ofBaume     = figure.Quantity{Key: "baume", Name: "Baume, modulus 145", Places: 2}
	ofBaume1443 = figure.Quantity{Key: "baume_144_3", Name: "Baume, modulus 144.3", Places: 2}
	ofPlato     = figure.Quantity{Key: "plato", Name: "Plato or Brix, apparent extract", Unit: "% mass", Places: 2}
	ofSolution  = figure.Quantity{Key: "extract_of_solution", Name: "sucrose in the solution of this gravity", Unit: "g/L", Places: 1}
	ofBasis     = figure.Quantity{Key: "gravity_on_basis", Name: "specific gravity on another basis", Unit: "SG", Places: 4}

	here = formula.Cell(figure.Gravity.Key)
)

// Methods, each beside the formula it describes.
var (
	byPoints    = figure.Method{Method: "1000 (SG - 1)", Source: figure.CommonPractice}
	byPointsOff = figure.Method{Method: "SG is 1 + points/1000", Source: figure.CommonPractice}
	byBaume     = figure.Method{Method: "145 - 145/SG", Source: "Junk & Pancoast, Handbook of Sugars (1973)"}
	byBaume1443 = figure.Method{Method: "144.3 - 144.3/SG", Source: "NBS Circular 440; its use in Europe is " + figure.CommonPractice}
	byBaumeOff  = figure.Method{Method: "SG is 145/(145 - Be)", Source: byBaume.Source}
	by1443Off   = figure.Method{Method: "SG is 144.3/(144.3 - Be)", Source: byBaume1443.Source}
	bySucrose   = figure.Method{Method: "density of the sucrose solution", Source: density.SourceSucrose}
	bySolution  = figure.Method{Method: "share of sucrose times the density", Source: density.SourceSucrose}
	byWater     = figure.Method{Method: "specific gravity times the density of water at 20 C", Source: "Bettin & Spieweck (1990)"}
)

const pointsFormula = "1000*({gravity}-1)"

// platoFit is the inverse of the sucrose polynomial, within 1e-6 % mass.
var platoFit = sync.OnceValue(func() string {
	return formula.NewFit(func(g float64) float64 { return 100 * density.SucroseOfGravity(g) }, lightest, heaviest, 10).Text(here)
})

// ofSucrose writes the density at t of a sucrose solution over that of water,
// with the extract in % mass in the cell.
func ofSucrose(extract string, t, water float64) string {
	c := density.SucrosePolynomial(t)
	for i := range c {
		c[i] /= water
	}
	return formula.Polynomial(c, "("+extract+"/100)")
}

// Figures are the gravity and what it is on each scale, with live formulas. A
// scale that does not go there is left out: Oechsle and Baume below water, all
// but points and density outside 0.98104 to 1.3499.
func (g SG) Figures() []units.Figure {
	return append([]units.Figure{figure.Input(figure.Gravity, float64(g))}, g.onScales()...)
}

func (g SG) onScales() []units.Figure {
	x := float64(g)
	out := []units.Figure{
		byPoints.Live(ofPoints, 1000*(x-1), pointsFormula),
		byWater.Live(figure.Density, x*density.Water20, here+"*"+formula.Number(density.Water20)),
	}
	if plato, err := g.ApparentExtract(); err == nil {
		out = append(out, bySucrose.Live(ofPlato, float64(plato), platoFit()))
	}
	if oechsle, err := g.Oechsle(); err == nil {
		out = append(out, byPoints.Live(ofOechsle, float64(oechsle), pointsFormula))
	}
	if baume, err := g.Baume(); err == nil {
		out = append(out, byBaume.Live(ofBaume, float64(baume), "145-145/{gravity}"))
	}
	if baume, err := g.Baume1443(); err == nil {
		out = append(out, byBaume1443.Live(ofBaume1443, float64(baume), "144.3-144.3/{gravity}"))
	}
	if extract, err := g.Extract(); err == nil {
		out = append(out, bySolution.Live(ofSolution, float64(extract), "{plato}/100*{gravity}*"+formula.Number(density.Water20)))
	}
	return out
}

// from is a reading on a scale and, where the scale goes there, its gravity.
func from(q figure.Quantity, reading float64, m figure.Method, g SG, err error, text string) []units.Figure {
	out := []units.Figure{figure.Input(q, reading)}
	if err == nil {
		out = append(out, m.Live(figure.Gravity, float64(g), text))
	}
	return out
}

// Figures are the extract and its gravity by a live formula; the extract alone
// outside -5 to 70.
func (p Plato) Figures() []units.Figure {
	g, err := p.ApparentSG()
	return from(ofPlato, float64(p), bySucrose, g, err, ofSucrose("{plato}", 20, density.Water20))
}

// Figures are the same as those of Plato.
func (b Brix) Figures() []units.Figure { return Plato(b).Figures() }

// Figures are the reading and its gravity by a live formula; the reading alone
// outside the domain of SG.
func (o Oechsle) Figures() []units.Figure {
	g, err := o.SG()
	return from(ofOechsle, float64(o), byPointsOff, g, err, "1+{oechsle}/1000")
}

// Figures are the reading and its gravity by a live formula; the reading alone
// outside the domain of SG.
func (p Points) Figures() []units.Figure {
	g, err := p.SG()
	return from(ofPoints, float64(p), byPointsOff, g, err, "1+{gravity_points}/1000")
}

// Figures are the reading and its gravity by a live formula; the reading alone
// outside the domain of SG.
func (b Baume) Figures() []units.Figure {
	g, err := b.SG()
	return from(ofBaume, float64(b), byBaumeOff, g, err, "145/(145-{baume})")
}

// Figures are the reading and its gravity by a live formula; the reading alone
// outside the domain of SG.
func (b Baume1443) Figures() []units.Figure {
	g, err := b.SG()
	return from(ofBaume1443, float64(b), by1443Off, g, err, "144.3/(144.3-{baume_144_3})")
}

// Figures are a reading on this basis, its extract and its gravity, with live
// formulas. Domain and error as SG.
func (b Basis) Figures(reading float64) ([]units.Figure, error) {
	g, err := b.SG(reading)
	if err != nil {
		return nil, err
	}
	w, err := g.ApparentExtract()
	if err != nil {
		return nil, err
	}
	t, water := b.Liquid.Celsius(), density.Water(b.Water.Celsius())
	fit := formula.NewFit(func(reading float64) float64 {
		w, _ := density.SucroseOfDensity(reading*water, t, minApparent/100) // inside, save by rounding at the ends
		return 100 * w
	}, density.Sucrose(minApparent/100, t)/water, density.Sucrose(density.MaxSucrose, t)/water, 10)
	return []units.Figure{
		figure.Noted(figure.Input(ofBasis, reading), "basis "+b.String()),
		bySucrose.Live(ofPlato, float64(w), fit.Text("{gravity_on_basis}")),
		bySucrose.Live(figure.Gravity, float64(g), ofSucrose("{plato}", 20, density.Water20)),
	}, nil
}

// FiguresOf are a gravity, its extract and what it is on this basis, with live
// formulas. Domain and error as Of.
func (b Basis) FiguresOf(g SG) ([]units.Figure, error) {
	reading, err := b.Of(g)
	if err != nil {
		return nil, err
	}
	w, err := g.ApparentExtract()
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(figure.Gravity, float64(g)),
		bySucrose.Live(ofPlato, float64(w), platoFit()),
		figure.Noted(bySucrose.Live(ofBasis, reading, ofSucrose("{plato}", b.Liquid.Celsius(), density.Water(b.Water.Celsius()))), "basis "+b.String()),
	}, nil
}
