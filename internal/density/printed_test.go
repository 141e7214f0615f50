package density

import (
	"math"
	"testing"

	"example.org/mutage/internal/handbook"
)

// The printed coefficients, power by power, against the density and against its
// slope: dV by differences, exact for a polynomial of this degree to 1e-5.
func TestSucroseIsThePrintedPolynomial(t *testing.T) {
	type term struct {
		row, power float64
		value      float64
	}
	var terms []term
	for _, r := range handbook.Load(t, "testdata/icumsa_sucrose_density_coefficients.csv").Rows {
		if name := r.Text("coefficient"); len(name) == 2 {
			terms = append(terms, term{float64(name[0] - 'a'), float64(name[1] - '0'), r.Number("value_kg_per_m3")})
		}
	}
	if len(terms) != 20 {
		t.Fatalf("%d coefficients", len(terms))
	}
	printed := func(w, at float64) float64 {
		rho := Water(at)
		for _, c := range terms {
			rho += c.value * math.Pow(w, c.power) * math.Pow((at-20)/100, c.row)
		}
		return rho
	}
	const h = 1e-5
	for at := 0.0; at <= 100; at += 12.5 {
		for w := 0.02; w < 0.7; w += 0.0397 {
			rho, slope := sucroseSlope(w, at)
			if want := printed(w, at); math.Abs(rho-want) > 1e-9*want || math.Abs(Sucrose(w, at)-want) > 1e-9*want {
				t.Errorf("%g at %g C: %.9g kg/m3, by the printed coefficients %.9g", w, at, rho, want)
			}
			if want := (printed(w+h, at) - printed(w-h, at)) / (2 * h); math.Abs(slope-want) > 1e-5*want {
				t.Errorf("%g at %g C: slope %.9g, by differences %.9g", w, at, slope, want)
			}
			if got, ok := SucroseOfDensity(printed(w, at), at, 0); !ok || math.Abs(got-w) > 1e-9 {
				t.Errorf("%g at %g C comes back as %.12g, %v", w, at, got, ok)
			}
		}
	}
	for w := 0.0; w <= 0.7; w += 0.035 {
		if got := SucroseByConcentration(w * printed(w, 20)); math.Abs(got-w) > 1e-9 {
			t.Errorf("a litre with %g g has %.12g, not %g", w*printed(w, 20), got, w)
		}
	}
}

// At infinite dilution the partial volumes are what a trace of each adds.
func TestPartialVolumesInWater(t *testing.T) {
	const w, h = 997.0, 1e-3
	p := VolumePartials20(0, 0, w)
	for name, x := range map[string][2]float64{
		"volume":  {p.V, Volume20(0, 0, w)},
		"ethanol": {p.E, (Volume20(h, 0, w) - w/Ethanol20(0)) / h},
		"sucrose": {p.S, (Volume20(0, h, w) - w/Water20) / h},
		"water":   {p.W, Volume20(0, 0, 1)},
	} {
		if math.Abs(x[0]/x[1]-1) > 1e-5 {
			t.Errorf("%s: %.9g, by differences %.9g", name, x[0], x[1])
		}
	}
}

// The freezing points (from memory), straight between them, and the bounds of
// the two formulas as their sources state them.
func TestStatedPoints(t *testing.T) {
	for at, p := range map[float64]float64{0: 0, 5: 0, -2.25: 0.05, -4.5: 0.10, -7.7: 0.15, -10.9: 0.20, -15.7: 0.25, -20: 0.20 + 0.10*9.1/9.6} {
		if got := FreezingFraction(at); math.Abs(got-p) > 1e-12 {
			t.Errorf("at %g C spirit below %g freezes, not below %g", at, got, p)
		}
	}
	if MinTemperature != -20 || MaxTemperature != 40 || MinSucroseTemperature != 0 || MaxSucroseTemperature != 100 || MaxSucrose != 0.70 {
		t.Error("OIML R 22: -20 to 40 C; ICUMSA 1990: 0 to 100 C")
	}
	if Glass != 25e-6 {
		t.Error("ISO 1768:1975, clause 3: 25e-6 per C")
	}
	if math.Abs(SixtyF-15.0-5.0/9) > 1e-12 {
		t.Errorf("60 F are 15.5556 C, not %v", SixtyF)
	}
	// A sugar solution of 70 % at 20 C is 1.3499 times as heavy as water.
	if math.Abs(HeaviestGravity-1.3499) > 5e-5 || math.Abs(MostConcentration-943) > 0.5 {
		t.Errorf("the heaviest is %v with %v g/L", HeaviestGravity, MostConcentration)
	}
}

// A solution of alcohol alone or of both is as heavy as the sum of what fills the
// litre, and the litre is full.
func TestAFullLitreIsFull(t *testing.T) {
	for e := 0.0; e <= 700; e += 70 {
		for s := 0.0; s <= 800; s += 80 {
			w := WaterIn(e, s)
			if math.IsNaN(w) {
				if s < MostExtract(100*e/PureEthanol)-1e-6 {
					t.Errorf("%g and %g g do not fit, %g g/L do", e, s, MostExtract(100*e/PureEthanol))
				}
				continue
			}
			if v := Volume20(e, s, w); math.Abs(v-1) > 1e-9 {
				t.Errorf("%g and %g g with %g g of water fill %.12g L", e, s, w, v)
			}
		}
	}
}

// The derivatives of the volume of a liquid, also where it has as much alcohol
// as sugar; and MostEthanol is MostExtract turned round.
func TestPartialVolumesByDifferences(t *testing.T) {
	const h = 1e-3
	for _, m := range [][3]float64{{150, 90, 760}, {100, 100, 800}, {300, 300, 400}, {20, 300, 700}} {
		e, s, w := m[0], m[1], m[2]
		p := VolumePartials20(e, s, w)
		for name, x := range map[string][2]float64{
			"ethanol": {p.E, (Volume20(e+h, s, w) - Volume20(e-h, s, w)) / (2 * h)},
			"sucrose": {p.S, (Volume20(e, s+h, w) - Volume20(e, s-h, w)) / (2 * h)},
			"water":   {p.W, (Volume20(e, s, w+h) - Volume20(e, s, w-h)) / (2 * h)},
			"volume":  {p.V, Volume20(e, s, w)},
		} {
			if math.Abs(x[0]/x[1]-1) > 1e-4 {
				t.Errorf("%v, %s: %.9g, by differences %.9g", m, name, x[0], x[1])
			}
		}
	}
	for strength := 5.0; strength < 100; strength += 9.5 {
		e := strength / 100 * PureEthanol
		if got := MostEthanol(MostExtract(strength)); math.Abs(got-e) > 1e-4 {
			t.Errorf("with %g g/L there is room for %g g/L of ethanol, not for %g", MostExtract(strength), e, got)
		}
	}
	for _, extract := range []float64{MostConcentration, MostConcentration + 1, 2000} {
		if got := MostEthanol(extract); got != 0 {
			t.Errorf("with %g g/L there is room for %g of ethanol", extract, got)
		}
	}
}

// The printed coefficients of water, power by power, over the whole domain.
func TestWaterIsThePrintedFormula(t *testing.T) {
	rows := handbook.Load(t, "testdata/bettin_spieweck_1990.csv").Rows
	for at := 0.0; at <= 100; at += 5 {
		above, below := 0.0, 1.0
		for _, r := range rows {
			name := r.Text("coefficient")
			x := r.Number("value") * math.Pow(at, float64(name[1]-'0'))
			if name[0] == 'd' {
				below += x
			} else {
				above += x
			}
		}
		if got := Water(at); math.Abs(got-above/below) > 1e-9 {
			t.Errorf("%g C: %.9f kg/m3, by the printed coefficients %.9f", at, got, above/below)
		}
	}
}
