package acid_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/additions/acid"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Every result says of every figure how it was found and who says so.
func TestResultsGiveFiguresWithProvenance(t *testing.T) {
	buffer, err := acid.NewBuffer(acid.Acids{Tartaric: 1, Malic: 6}, 1.5, 12)
	if err != nil {
		t.Fatal(err)
	}
	predicted, err := acid.Predict(acid.Measurement{PH: 3.5, TA: 6, Strength: 12, Profile: acid.Acids{Malic: 6, Tartaric: 1}, StandardPH: 0.02},
		func(b acid.Buffer) (acid.Buffer, error) { return b.With(acid.Tartaric, 1) })
	if err != nil {
		t.Fatal(err)
	}
	tartar, err := acid.TartarFallen(2.5)
	if err != nil {
		t.Fatal(err)
	}
	for _, result := range []interface{ Figures() []units.Figure }{buffer, predicted, tartar} {
		figures := result.Figures()
		if err := formula.Check(figures); err != nil || len(figures) < 4 {
			t.Errorf("%T gives %d figures: %v", result, len(figures), err)
		}
	}
	if f := predicted.Figures()[0]; f.Key != "ph" || !f.Uncertainty.Valid {
		t.Errorf("the predicted pH has no uncertainty: %+v", f)
	}
}

// On 1,000 random doses the live formulas give what the library gives, to the
// places of the cell.
func TestFormulasOfDosesAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(75, 45))
	acids := []acid.Acid{acid.Tartaric, acid.Malic, acid.Citric, acid.CitricMonohydrate, acid.Lactic, {Name: "own", MolarMass: 100, Protons: 2}}
	carbonates := []acid.Carbonate{acid.PotassiumBicarbonate, acid.PotassiumCarbonate, acid.CalciumCarbonate}
	for range 1000 {
		by, v := units.Concentration(5*random.Float64()), units.Volume(500*random.Float64())
		raise, err := acid.RaiseTAFigures(by, v, acids[random.IntN(len(acids))])
		if err != nil {
			t.Fatal(err)
		}
		lower, err := acid.LowerTAFigures(by, v, carbonates[random.IntN(len(carbonates))])
		if err != nil {
			t.Fatal(err)
		}
		for _, figures := range [][]units.Figure{raise, lower} {
			if err := formula.Check(figures); err != nil {
				t.Fatal(err)
			}
		}
	}
	if _, err := acid.RaiseTAFigures(-1, 1, acid.Malic); err == nil {
		t.Error("a rise of -1 g/L is taken")
	}
	if _, err := acid.LowerTAFigures(1, 1, acid.Carbonate{}); err == nil {
		t.Error("a carbonate of nothing is taken")
	}
}
