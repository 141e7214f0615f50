package refraction

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
)

const crc = "testdata/crc_aqueous_solutions_20c.csv"

func TestSucroseCRC(t *testing.T) {
	c := handbook.NewCheck(t, "Refractive index of sucrose, CRC 102nd ed.", "1")
	for _, r := range handbook.Load(t, crc).Rows {
		if r.Text("solute") != "sucrose" {
			continue
		}
		// Printed to four decimals, a trailing zero left out.
		percent, printed := r.Number("mass_percent"), fmt.Sprintf("%.4f", r.Number("refractive_index_nD_20C"))
		got := Sucrose(percent / 100)
		switch percent {
		case 20:
			c.Except(got, printed, "20 %", "the five-digit rows print 1.36384, 6e-5 below")
		case 70:
			c.Except(got, printed, "70 %", "the five-digit row prints 1.46546, 6e-5 above")
		default:
			c.Printed(got, printed, r.Text("mass_percent")+" %")
		}
	}
}

// The dry-matter table is of an older scale than the five-digit rows: at 50 % it
// prints 1.4200 and they 1.42009, at 36 % it prints 1.3920 and CRC 1.3922. No error
// of it is published, so that what lies beyond half a digit is listed.
func TestSucroseOlderTable(t *testing.T) {
	c := handbook.NewCheck(t, "Refractive index of sucrose, older dry-matter table", "1")
	newer := map[float64]string{}
	for _, r := range handbook.Load(t, crc).Rows {
		if r.Text("solute") == "sucrose" {
			newer[r.Number("mass_percent")] = fmt.Sprintf("%.4f", r.Number("refractive_index_nD_20C"))
		}
	}
	alone := []float64{2.5, 3, 5.5, 7.1, 8.5, 11.5, 12.5, 17.5, 29, 33, 35, 39, 41, 45, 47}
	for _, r := range handbook.Load(t, "testdata/sucrose_refractive_index_20c.csv").Rows {
		percent, printed := r.Number("mass_percent_sucrose"), fmt.Sprintf("%.4f", r.Number("refractive_index_nD_20C"))
		if r.Text("note") != "" {
			percent = 15.5 // the misprint that the note names
		}
		got, at := Sucrose(percent/100), r.Text("mass_percent_sucrose")+" %"
		other, both := newer[percent]
		switch {
		case percent == 20:
			c.Except(got, printed, at, "the five-digit rows print 1.36384, 6e-5 below")
		case both && other != printed:
			c.Except(got, printed, at, "CRC, which is kept, prints another index for the same row")
		case slices.Contains(alone, percent):
			c.Except(got, printed, at, "an older scale, and a row that CRC lacks")
		default:
			c.Printed(got, printed, at)
		}
	}
}

func TestEthanolCRC(t *testing.T) {
	// Rounding alone leaves 2.9e-5 root mean square, give or take 15 % with 22 rows.
	c := handbook.NewCheck(t, "Refractive index of ethanol-water, CRC 102nd ed., to 49 %", "1")
	sum, n := 0.0, 0
	for _, r := range handbook.Load(t, crc).Rows {
		if r.Text("solute") != "ethanol" {
			continue
		}
		p := r.Number("mass_percent") / 100
		if p > MaxEthanol {
			continue
		}
		got, printed := Ethanol(p), r.Number("refractive_index_nD_20C")
		if r.Text("mass_percent") == "5" {
			c.Except(got, "1.3360", "5 %", "a trailing zero left out in print; off the curve of its neighbours")
			continue
		}
		c.Printed(got, r.Text("refractive_index_nD_20C"), r.Text("mass_percent")+" %")
		sum += (got - printed) * (got - printed)
		n++
	}
	if rms := math.Sqrt(sum / float64(n)); rms > 1.15*2.9e-5 {
		t.Errorf("root mean square %.2g: more than rounding leaves", rms)
	} else {
		t.Logf("root mean square %.2g over %d rows", rms, n)
	}
}

// Two coefficients a solute are the least squares of these very rows (fit_test.go),
// so that the rows test how far so few can follow them, and no more.
func TestOtherSolutesCRC(t *testing.T) {
	index := handbook.NewCheck(t, "Refractive index of glucose, fructose, glycerol and citric acid, CRC 102nd ed., to 40 %", "1")
	rho := handbook.NewCheck(t, "Density of glucose, fructose, glycerol and citric acid, CRC 102nd ed., to 40 %", "kg/m3")
	for _, r := range handbook.Load(t, crc).Rows {
		w := r.Number("mass_percent") / 100
		m := Solution{Water: 1 - w}
		switch r.Text("solute") {
		case "D-glucose":
			m.Glucose = w
		case "D-fructose":
			m.Fructose = w
		case "glycerol":
			m.Glycerol = w
		case "citric acid":
			m.Citric = w
		default:
			continue
		}
		if w > 0.40 {
			continue
		}
		at := r.Text("mass_percent") + " % " + r.Text("solute")
		const uneven = "two coefficients a solute, fitted to these rows: the last printed digit"
		index.Differs(m.Index20(), r.Number("refractive_index_nD_20C"), 1e-4, uneven, at)
		switch got := m.Mass() / m.Volume20(); at {
		case "6 % citric acid", "12 % citric acid", "6 % D-glucose", "9 % D-glucose", "32 % D-glucose", "40 % D-glucose":
			rho.Except(got/1000, fmt.Sprintf("%.4f", r.Number("density_g_per_cm3_20C")), at, "the two coefficients pass more than a digit beside the row; g/cm3")
		default:
			rho.Differs(got, 1000*r.Number("density_g_per_cm3_20C"), 0.1, uneven, at)
		}
	}
}

// The mixture is exactly either solution where the other solute is absent.
func TestEdgesOfTheMixture(t *testing.T) {
	for x := 0.0; x <= 0.49; x += 0.035 {
		e, s := Solution{Ethanol: x, Water: 1 - x}, Solution{Sucrose: x, Water: 1 - x}
		if got, want := e.Index20(), Ethanol(x); x > 0 && math.Abs(got-want) > 1e-12 {
			t.Errorf("ethanol %g: %.12g, alone %.12g", x, got, want)
		}
		if got, want := s.Index20(), Sucrose(x); math.Abs(got-want) > 1e-12 {
			t.Errorf("sucrose %g: %.12g, alone %.12g", x, got, want)
		}
	}
}

// Up to MaxEthanol the index rises and stays below that of pure ethanol.
func TestIndexIsUnique(t *testing.T) {
	last := 0.0
	for p := 0.0; p <= MaxEthanol; p += 0.001 {
		n := Ethanol(p)
		if n <= last || n > PureEthanolIndex {
			t.Fatalf("index %.6f at %.3f, before it %.6f", n, p, last)
		}
		last = n
	}
	if n := Ethanol(MaxEthanol + 0.01); n < PureEthanolIndex {
		t.Errorf("index %.6f one per cent above MaxEthanol: the domain ends too early", n)
	}
}

func TestSucroseFraction(t *testing.T) {
	for w := -0.005; w <= density.MaxSucrose; w += 0.005 {
		if got, ok := SucroseFraction(Sucrose(w), -0.005); !ok || math.Abs(got-w) > 1e-9 {
			t.Errorf("w %g comes back as %.12g, %v", w, got, ok)
		}
	}
	for _, n := range []float64{0, 1.3328, 1.466, 2, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if w, ok := SucroseFraction(n, 0); ok {
			t.Errorf("index %g gives %g", n, w)
		}
	}
}

// litre is a litre of this share of ethanol in its ethanol and water and this sugar,
// found by its water.
func litre(x Others, p, sugar float64) (m Solution) {
	lo, hi := 0.0, 1000.0
	for range 100 {
		w := (lo + hi) / 2
		if m = x.with(w*p/(1-p), w, sugar); m.Volume20() > 1 {
			hi = w
		} else {
			lo = w
		}
	}
	return m
}

// The litre found from density and index has both, for any wine.
func TestSolve(t *testing.T) {
	for _, x := range []Others{{}, {Invert: 1}, {Invert: 0.5, Glycerol: 6, Citric: 8}} {
		for p := 0.005; p < MaxEthanol; p += 0.04 {
			for sugar := 1.0; sugar < 400; sugar += 37 {
				m := litre(x, p, sugar)
				got, _, _, ok := x.Solve(m.Mass(), m.Index20())
				if !ok || math.Abs(got.Ethanol-m.Ethanol) > 1e-5 || math.Abs(got.Solutes()-m.Solutes()) > 1e-5 {
					t.Errorf("%+v: %+v comes back as %+v, %v", x, m, got, ok)
				}
			}
		}
		if _, _, _, ok := x.Solve(x.Lightest()*0.999, 1.36); ok {
			t.Errorf("%+v: a liquid lighter than Lightest is taken", x)
		}
	}
}

// A heavy liquid has no more alcohol than its sugar leaves room for: an index beyond
// is refused, and what is taken has the index asked for.
func TestIndexBeyondTheMostSugar(t *testing.T) {
	for _, x := range []Others{{}, {Invert: 1, Glycerol: 5, Citric: 8}} {
		_, lo, hi, ok := x.Solve(1.2*density.Water20, 1.46)
		if ok || !(lo > 1.40 && hi > lo && hi < 1.46) {
			t.Fatalf("%+v: index 1.46: %v, %v to %v", x, ok, lo, hi)
		}
		for n := lo; n < 1.46; n += 0.0005 {
			m, _, _, ok := x.Solve(1.2*density.Water20, n)
			if ok != (n <= hi) || ok && math.Abs(m.Index20()-n) > 1e-8 {
				t.Errorf("%+v: index %v of %v to %v: %v, found %v", x, n, lo, hi, ok, m.Index20())
			}
		}
	}
}

func TestNothingAllocates(t *testing.T) {
	m := Solution{Ethanol: 150, Water: 800, Sucrose: 20, Glucose: 20, Glycerol: 5}
	if n := testing.AllocsPerRun(100, func() {
		sink = m.Index20()
		sink, _ = SucroseFraction(1.36, 0)
		got, _, _, _ := Others{}.Solve(1014, 1.3582)
		sink = got.Ethanol
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

var sink float64

func BenchmarkSolve(b *testing.B) {
	b.ReportAllocs()
	rho := 1014.0
	for b.Loop() {
		rho += 1e-9
		m, _, _, _ := Others{}.Solve(rho, 1.3582)
		sink = m.Ethanol
	}
}
