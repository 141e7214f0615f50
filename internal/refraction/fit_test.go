package refraction

import (
	"math"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"gonum.org/v1/gonum/mat"
)

// The coefficients of the other solutes are the least-squares ones of the CRC
// rows to 40 %: of the specific volume above sucrose's, and with that volume of
// the specific refraction.
func TestOtherSolutesAreTheLeastSquaresOfTheRows(t *testing.T) {
	for i, name := range []string{"D-glucose", "D-fructose", "glycerol", "citric acid"} {
		x := other[i]
		var powers, volumes, refractions []float64
		for _, r := range handbook.Load(t, crc).Rows {
			q := r.Number("mass_percent") / 100
			if r.Text("solute") != name || q > 0.40 {
				continue
			}
			n := r.Number("refractive_index_nD_20C")
			v := 1/density.Sucrose20(q) + q*(x.v0+x.v1*q)
			powers = append(powers, q, q*q)
			volumes = append(volumes, 1/(1000*r.Number("density_g_per_cm3_20C"))-1/density.Sucrose20(q))
			refractions = append(refractions, (n*n-1)/(n*n+2)*v-specificSucrose(q))
		}
		for _, c := range []struct {
			of    string
			got   [2]float64
			right []float64
		}{{"volume", [2]float64{x.v0, x.v1}, volumes}, {"refraction", [2]float64{x.r0, x.r1}, refractions}} {
			var fit mat.VecDense
			if err := fit.SolveVec(mat.NewDense(len(c.right), 2, powers), mat.NewVecDense(len(c.right), c.right)); err != nil {
				t.Fatal(err)
			}
			for k := range 2 {
				if want := fit.AtVec(k); math.Abs(c.got[k]/want-1) > 2e-3 {
					t.Errorf("%s, %s, coefficient %d: %g, the rows give %g", name, c.of, k, c.got[k], want)
				}
			}
		}
	}
}

// Half of the inverted sugar is glucose, half fructose, and what is left is
// sucrose.
func TestInvertedSugarIsHalfAndHalf(t *testing.T) {
	m := Others{Invert: 0.4, Glycerol: 6, Citric: 7}.with(100, 800, 90)
	if m.Glucose != 18 || m.Fructose != 18 || m.Sucrose != 54 || m.Glycerol != 6 || m.Citric != 7 || m.Mass() != 1003 {
		t.Errorf("%+v", m)
	}
}

// Driest, Lightest and the most sugar of OfDensity are what they say: a full
// litre of that density, without sugar, or with as much as there can be.
func TestEndsOfWhatADensityAllows(t *testing.T) {
	for _, x := range []Others{{}, {Glycerol: 6}, {Citric: 9}, {Invert: 1, Glycerol: 8, Citric: 12}} {
		rho := x.Lightest()
		rest := rho - x.Glycerol - x.Citric
		m := x.with(MaxEthanol*rest, (1-MaxEthanol)*rest, 0)
		if math.Abs(m.Volume20()-1) > 1e-8 {
			t.Errorf("%+v: the lightest, %g, fills %.9g L", x, rho, m.Volume20())
		}
		if _, ok := x.Driest(rho * 0.9999); ok {
			t.Errorf("%+v: a liquid lighter than the lightest has no sugar", x)
		}
		p, ok := x.Driest(970)
		rest = 970 - x.Glycerol - x.Citric
		m = x.with(p*rest, (1-p)*rest, 0)
		if !ok || math.Abs(m.Volume20()-1) > 1e-8 || p <= 0 {
			t.Errorf("%+v: dry, 970 kg/m3 is %g of ethanol, which fills %.9g L", x, p, m.Volume20())
		}
		if p, ok := x.Driest(1060); p != 0 || !ok {
			t.Errorf("%+v: 1060 kg/m3 needs no ethanol: %v, %v", x, p, ok)
		}
		for _, rho := range []float64{1060, 1200, 1300} {
			m, ok, over := x.OfDensity(rho, 0.05)
			if !ok || over || math.Abs(m.Mass()-rho) > 1e-6 || math.Abs(m.Volume20()-1) > 1e-8 {
				t.Errorf("%+v: %g kg/m3: %+v fills %.9g L, %v, %v", x, rho, m, m.Volume20(), ok, over)
			}
		}
		// The densest that is taken holds 70 parts of solutes in 100 with water.
		lo, hi := 1200.0, 1400.0
		var densest Solution
		for range 50 {
			rho := (lo + hi) / 2
			if m, ok, _ := x.OfDensity(rho, 0.05); ok {
				lo, densest = rho, m
			} else {
				hi = rho
			}
		}
		if share := densest.Solutes() / (densest.Solutes() + densest.Water); math.Abs(share-density.MaxSucrose) > 1e-6 {
			t.Errorf("%+v: the densest, %g, holds %.7f of solutes", x, lo, share)
		}
		if _, ok, over := x.OfDensity(1340, 0.2); ok || !over {
			t.Errorf("%+v: 1340 kg/m3 with 20 %% of ethanol in its ethanol and water takes too much sugar: %v, %v", x, ok, over)
		}
		if _, ok, over := x.OfDensity(970, 0.05); ok || over {
			t.Errorf("%+v: 970 kg/m3 with 5 %% takes less sugar than none: %v, %v", x, ok, over)
		}
	}
}
