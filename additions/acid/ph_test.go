package acid

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"gonum.org/v1/gonum/stat"
)

// Every pK in use is a printed one, and lies with the other printed ones
// between the bounds its uncertainty rests on.
func TestPKTable(t *testing.T) {
	rows := handbook.Load(t, "testdata/pka_wine_acids.csv").Rows
	found, printed := map[[2]int]bool{}, map[[2]int][2]float64{}
	conditional := handbook.NewCheck(t, "pK at an ionic strength of 0.05 and 0.1 in water, Prenesti et al. 2012", "pK")
	shifts := handbook.NewCheck(t, "pK at 12 % vol over that in water, mean and deviation of six pairs, Prenesti et al. 2012", "pK")
	inWater, raised := map[string]float64{}, []float64{}
	for _, r := range rows {
		a, ok := acidNames[r.Text("acid")]
		if !ok || a.wine == 0 {
			continue
		}
		i, j, pK := a.wine-1, int(r.Number("step"))-1, r.Number("pKa")
		p := pkTable[i][j]
		at := fmt.Sprintf("%s %d", a.Name, j+1)
		if r.Text("ionic_strength_mol_L") == "" {
			bounds, known := printed[[2]int{i, j}]
			if !known {
				bounds = [2]float64{pK, pK}
			}
			printed[[2]int{i, j}] = [2]float64{min(bounds[0], pK), max(bounds[1], pK)}
			found[[2]int{i, j}] = found[[2]int{i, j}] || pK == p.value
			continue
		}
		key := at + " at " + r.Text("ionic_strength_mol_L")
		if r.Number("ethanol_pct_vol") == 0 {
			// The step's charges make 2, 4, 6 times the coefficient.
			inWater[key] = pK
			got := p.value - 2*float64(j+1)*davies(r.Number("ionic_strength_mol_L"))
			if a == Succinic {
				conditional.Except(got, fmt.Sprintf("%.2f", pK), key, "the study starts from a higher pK of succinic acid (4.21 and 5.64, from memory) than the book's 4.16 and 5.61")
				continue
			}
			conditional.Differs(got, pK, p.high-p.low+0.01, "the books' pKs in water differ by 0.05", key)
			continue
		}
		raised = append(raised, pK-inWater[key])
	}
	mean, spread := stat.MeanStdDev(raised, nil)
	shifts.Printed(12*ethanolShift, fmt.Sprintf("%.3f", mean), "mean")
	shifts.Printed(12*shiftSpread, fmt.Sprintf("%.2f", spread), "standard deviation")
	for i := range pkTable {
		for j, p := range pkTable[i] {
			if p.value > 0 && !found[[2]int{i, j}] {
				t.Errorf("acid %d, step %d: %v is not printed", i, j+1, p.value)
			}
			if bounds := printed[[2]int{i, j}]; p.value > 0 && bounds != [2]float64{p.low, p.high} {
				t.Errorf("acid %d, step %d: printed from %v to %v, not %v to %v", i, j+1, bounds[0], bounds[1], p.low, p.high)
			}
		}
	}
}

func TestAcidSolutionPH(t *testing.T) {
	c := handbook.NewCheck(t, "pH of acetic and malic acid in water, Food Additives Data Book", "pH")
	for _, r := range handbook.Load(t, "testdata/acid_solution_ph.csv").Rows {
		a, g := acidNames[strings.TrimSuffix(r.Text("acid"), " acid")], r.Number("concentration")
		if r.Text("unit") == "mol/L" {
			g *= a.MolarMass
		} else {
			g *= 10
		}
		b, err := Buffer{}.With(a, units.Concentration(g))
		if err != nil {
			t.Fatal(err)
		}
		b.k = constantsAt(0)
		pH, err := b.PH()
		at := r.Text("acid") + " " + r.Text("concentration") + " " + r.Text("unit")
		switch {
		case err != nil:
			t.Errorf("%s: %v", at, err)
		case r.Text("concentration") == "50.0":
			c.Except(pH, r.Text("pH_as_printed"), at, "does not follow from the rows above it")
		case r.Text("concentration") == "0.1":
			c.Except(pH, r.Text("pH_as_printed"), at, "printed below a heading of 50 C; the temperature is not sure")
		case r.Text("unit") == "mol/L":
			c.Printed(pH, r.Text("pH_as_printed"), at)
		default: // half of a change of the pK goes into the pH
			c.Differs(pH, r.Number("pH_as_printed"), 0.005+(3.46-3.40)/2, "the pK of malic acid is printed as 3.40 to 3.46", at)
		}
	}
}

// atPH is the buffer at a pH: the alkali that holds it there.
func atPH(t *testing.T, b Buffer, pH float64) Buffer {
	t.Helper()
	b.alkali = b.alkaliAt(pH)
	return b
}

// The pH of the measurements is not printed; 3.8 is the one at which the model
// fits the four acids in water best, so that three of the four are a test.
// Mixtures of the same 40 mmol/L were measured from 9.4 to 29 meq/L where 22.8
// to 26.3 were expected by the authors: they are listed, not compared.
func TestBufferCapacity(t *testing.T) {
	c := handbook.NewCheck(t, "Buffer capacity of single acids in water, Handbook of Enology, over the model's", "ratio")
	const twice, why = 22.0/19.1 - 1, "the book's two tables print 19.1 and 22.0 for malic acid in 11 % vol; the pH they were measured at is not printed"
	const spirit, mixture = "no pH between 3 and 4 gives the four acids in 11 % vol together", "mixture, measured far from the sum of its acids"
	for _, r := range handbook.Load(t, "testdata/buffer_capacity_equations.csv").Rows {
		// beta = slope x + intercept at x = 40 mmol/L, the end of its range
		measured := 40*r.Number("slope_meq_per_mmol") + r.Number("intercept_meq_L")
		model, at := capacity40(t, r.Text("medium"), r.Text("acid")), r.Text("acid")+" 40 mmol/L, equation, "+r.Text("medium")
		if r.Text("medium") == "water" {
			c.Differs(measured/model, 1, twice, why, at)
		} else {
			c.Except(model, fmt.Sprintf("%.1f", measured), at, spirit)
		}
	}
	for _, r := range handbook.Load(t, "testdata/buffer_capacity.csv").Rows {
		acid, at := r.Text("acid_or_system"), r.Text("acid_or_system")+" 40 mmol/L, "+r.Text("medium")
		switch {
		case r.Text("quantity") == "measured buffer capacity" && r.Text("concentration_mmol_L") == "40":
			acids := strings.Split(strings.TrimSuffix(acid, " equimolar"), "+")
			model := capacity40(t, r.Text("medium"), acids...)
			switch {
			case len(acids) > 1:
				c.Except(model, r.Text("value_meq_L_per_pH"), at, mixture)
			case r.Text("medium") == "water":
				c.Differs(r.Number("value_meq_L_per_pH")/model, 1, twice, why, at)
			default:
				c.Except(model, r.Text("value_meq_L_per_pH"), at, spirit)
			}
		case strings.HasPrefix(r.Text("quantity"), "buffer capacity of 1 g/L"):
			b, err := NewBuffer(Acids{}, 0, 0)
			if err != nil {
				t.Fatal(err)
			}
			b, _ = b.With(acidNames[acid], 1)
			got, err := atPH(t, b, 3.8).Capacity()
			if err != nil {
				t.Fatal(err)
			}
			c.Differs(r.Number("value_meq_L_per_pH")/got, 1, twice, why, "1 g/L "+acid)
		}
	}
}

func capacity40(t *testing.T, medium string, names ...string) float64 {
	t.Helper()
	strength := units.Strength(0)
	if medium != "water" {
		strength = 11
	}
	b, err := NewBuffer(Acids{}, 0, strength)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		b.moles[acidNames[name].wine-1] = 0.040 / float64(len(names))
	}
	got, err := atPH(t, b, 3.8).Capacity()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

var cherry = Measurement{PH: 3.4, TA: 14, Strength: 6, Profile: Acids{Malic: 14, Citric: 0.3, Succinic: 0.4, Lactic: 0.1, Acetic: 0.2}, StandardPH: 0.02, StandardTA: 0.2}

func TestFit(t *testing.T) {
	for pH := 2.9; pH <= 4; pH += 0.1 {
		for _, ta := range []units.Concentration{4, 7, 10, 16} {
			for _, strength := range []units.Strength{0, 6, 12, 20} {
				m := Measurement{PH: pH, TA: ta, Strength: strength, Profile: Acids{Tartaric: 3, Malic: 4, Citric: 0.3, Lactic: 0.2, Succinic: 0.5, Acetic: 0.3}}
				b, err := Fit(m)
				if err != nil {
					t.Fatalf("%+v: %v", m, err)
				}
				got, err := b.PH()
				back, err2 := b.TA(8.2)
				if err != nil || err2 != nil || math.Abs(got-pH) > 1e-6 || math.Abs(float64(back-ta)) > 1e-6 {
					t.Errorf("%+v: pH %v, TA %v, %v, %v", m, got, back, err, err2)
				}
				if a := b.Acids(); !handbook.Near(float64(a.Malic/a.Tartaric), 4.0/3, 1e-9) || b.Potassium() <= 0 {
					t.Errorf("%+v: %+v, potassium %v", m, a, b.Potassium())
				}
				// What the buffer says of itself against what it does.
				beta, _ := b.Capacity()
				more := b
				more.alkali += 1e-5
				moved, _ := more.PH()
				if slope := 0.01 / (moved - got); math.Abs(slope/beta-1) > 1e-3 {
					t.Errorf("%+v: capacity %v, found %v", m, beta, slope)
				}
			}
		}
	}
	m := cherry
	m.PH = 2
	if _, err := Fit(m); err == nil || !strings.Contains(err.Error(), "without any potassium") {
		t.Errorf("pH 2 with TA 14: %v", err)
	}
}

// The handbook found -0.14 for 1.5 g/L of tartaric acid in a Chardonnay of the
// second pressing; its pH and TA are not printed, nor how much tartar fell. From
// usual ones it lies between what the model gives where none falls and where
// 1 g/L does.
func TestPredictTartaric(t *testing.T) {
	c := handbook.NewCheck(t, "1.5 g/L tartaric acid in base wine, Handbook of Enology, Table 1.10", "pH")
	for _, pH := range []float64{3.0, 3.1, 3.2} {
		m := Measurement{PH: pH, TA: 9, Strength: 10.5, Profile: Acids{Tartaric: 4, Malic: 4.5, Citric: 0.3, Lactic: 0.2, Succinic: 0.5, Acetic: 0.2}, StandardPH: 0.02}
		p, err := Predict(m, func(b Buffer) (Buffer, error) { return b.With(Tartaric, 1.5) })
		if err != nil {
			t.Fatal(err)
		}
		cold, err := p.Buffer.LessTartar(1)
		if err != nil {
			t.Fatal(err)
		}
		lower, err := cold.PH()
		if err != nil {
			t.Fatal(err)
		}
		c.Differs((p.PH+lower)/2-pH, -0.14, (p.PH-lower)/2, "how much tartar fell is not printed: none to 1 g/L", fmt.Sprintf("from pH %.1f", pH))
		if p.Standard < 0.01 || p.Standard > 0.1 {
			t.Errorf("standard uncertainty %v", p.Standard)
		}
	}
}

func TestPredictDirections(t *testing.T) {
	none, err := Predict(cherry, func(b Buffer) (Buffer, error) { return b, nil })
	if err != nil || math.Abs(none.PH-cherry.PH) > 1e-6 {
		t.Fatalf("%+v, %v", none, err)
	}
	// With nothing added the constants cancel: the meter's own uncertainty is left.
	if math.Abs(none.Standard-cherry.StandardPH) > 1e-4 {
		t.Errorf("standard uncertainty %v, the meter has %v", none.Standard, cherry.StandardPH)
	}
	for name, change := range map[string]func(Buffer) (Buffer, error){
		"-malic":     func(b Buffer) (Buffer, error) { return b.With(Malic, 2) },
		"+carbonate": func(b Buffer) (Buffer, error) { return b.WithCarbonate(PotassiumBicarbonate, 2) },
		"+spirit":    func(b Buffer) (Buffer, error) { return b.Thinned(1.69, 20) },
	} {
		p, err := Predict(cherry, change)
		if err != nil || (p.PH > cherry.PH) != (name[0] == '+') || p.Standard < none.Standard/2 || p.Standard > 0.2 {
			t.Errorf("%s: %v, standard %v, %v", name, p.PH, p.Standard, err)
		}
	}
}

func FuzzFit(f *testing.F) {
	f.Add(3.4, 14.0, 6.0, 14.0, 0.3, 2.0)
	f.Add(2.0, 0.1, 22.0, 1e-6, 500.0, 0.0)
	f.Add(5.0, 100.0, 0.0, 0.0, 1e-9, 500.0)
	f.Fuzz(func(t *testing.T, pH, ta, strength, malic, tartaric, dose float64) {
		m := Measurement{PH: pH, TA: units.Concentration(ta), Strength: units.Strength(strength),
			Profile: Acids{Malic: units.Concentration(malic), Tartaric: units.Concentration(tartaric)}}
		b, err := Fit(m)
		if err != nil {
			return
		}
		if got, err := b.PH(); err != nil || math.Abs(got-pH) > 1e-5 {
			t.Errorf("%+v: pH %v, %v", m, got, err)
		}
		if more, err := b.With(Malic, units.Concentration(dose)); err == nil {
			if got, err := more.PH(); err != nil || got > pH+1e-5 {
				t.Errorf("%+v: acid took the pH to %v, %v", m, got, err)
			}
		}
	})
}
