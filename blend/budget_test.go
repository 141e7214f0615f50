package blend_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// line is the line of a budget with this key.
func line(t *testing.T, r uncertainty.Result, key string) uncertainty.Contribution {
	t.Helper()
	for _, c := range r.Budget {
		if c.Key == key {
			return c
		}
	}
	t.Fatalf("no %q in %+v", key, r.Budget)
	return uncertainty.Contribution{}
}

// spread is the distance of the model from Tabarie's rule, relative to the density;
// with water and one other thing alone the two are the same.
func spread(m blend.Mixture) float64 {
	if m.Strength == 0 || m.Extract == 0 {
		return 0
	}
	model := density.Water20 * float64(m.Gravity)
	return math.Abs(density.Tabarie20(float64(m.Strength), float64(m.Extract))-model) / model
}

func near(t *testing.T, what string, got, want, part float64) {
	t.Helper()
	if !handbook.Near(got, want, part) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// The model's uncertainty is that of the density of what was mixed: a blend that is
// denser fills less and holds more of everything in a litre.
func TestTheModelIsDoubtedByItsDistanceFromTheClassicSum(t *testing.T) {
	bottle := strong
	bottle.Volume = 0.25
	u, err := blend.MixWithin([]blend.Component{cherry, bottle}, make([]blend.Uncertainty, 2))
	if err != nil {
		t.Fatal(err)
	}
	model := spread(u.Mixture)
	if model < 1e-5 || model > 1e-3 { // 0.02 % to 20 % vol and 100 g/L
		t.Fatalf("spread %v", model)
	}
	for _, x := range []struct {
		name  string
		r     uncertainty.Result
		value float64 // and by how much a density that is higher by so much of itself moves it
		side  float64
	}{
		{"strength", u.Strength, float64(u.Mixture.Strength), 1}, {"extract", u.Extract, float64(u.Mixture.Extract), 1},
		{"volume", u.Volume, float64(u.Mixture.Volume), -1}, {"gravity", u.Gravity, float64(u.Mixture.Gravity), 1},
	} {
		c := line(t, x.r, blend.CauseDensity)
		near(t, x.name, x.r.Value, x.value, 1e-12)
		near(t, x.name+", spread", c.Standard, model, 1e-9)
		near(t, x.name+", sensitivity", c.Sensitivity, x.side*x.value, 1e-6)
		near(t, x.name+", standard", x.r.Standard, model*x.value, 1e-6)
	}
	for _, other := range []blend.Component{{Volume: 1, Strength: 40}, {Volume: 1, Extract: 300}, {Volume: 1}} {
		other.Name = fmt.Sprintf("%v %v", other.Strength, other.Extract)
		u, err := blend.MixWithin([]blend.Component{{Name: "water", Volume: 1}, other}, make([]blend.Uncertainty, 2))
		if err != nil || line(t, u.Gravity, blend.CauseDensity).Standard != 0 {
			t.Errorf("water and %s: %+v, %v", other.Name, u.Gravity, err)
		}
	}
}

// The lines of the budget are those of each component, by its place.
func TestTheBudgetOfABlendNamesEveryInput(t *testing.T) {
	bottle := strong
	bottle.Volume = 0.25
	u, err := blend.MixWithin([]blend.Component{cherry, bottle}, []blend.Uncertainty{{Volume: 0.01, Strength: 0.2, Extract: 3}, {Volume: 0.005, Strength: 0.17, Extract: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string][2]float64{"volume_1": {1, 0.01}, "strength_1": {6.094, 0.2}, "extract_1": {141.88, 3}, "volume_2": {0.25, 0.005}, "strength_2": {75, 0.17}, "extract_2": {0, 0.5}} {
		if c := line(t, u.Strength, key); c.Value != want[0] || c.Standard != want[1] {
			t.Errorf("%s: %+v, want %v", key, c, want)
		}
	}
	// Extract is the sum of volume times content over the volume.
	near(t, "extract by the wine's extract", line(t, u.Extract, "extract_1").Sensitivity, float64(cherry.Volume/u.Mixture.Volume), 1e-2)
	near(t, "extract by the spirit's extract", line(t, u.Extract, "extract_2").Sensitivity, float64(bottle.Volume/u.Mixture.Volume), 1e-2)
}

// The spirit it takes moves with every input as it does when that is moved; and a
// blend that the model makes too strong by a part takes as much less as a target
// that is lower by it.
func TestTheAmountOfSpiritMovesWithItsInputs(t *testing.T) {
	ofBase, ofSpirit := blend.Uncertainty{Volume: 0.01, Strength: 0.2, Extract: 3}, blend.Uncertainty{Volume: 1, Strength: 0.17, Extract: 0.5}
	f, amount, err := blend.FortifyWithin(cherry, strong, 20, ofBase, ofSpirit)
	if err != nil {
		t.Fatal(err)
	}
	by := func(step float64, move func(base, spirit *blend.Component, target *units.Strength, x float64)) float64 {
		var at [2]float64
		for i, x := range []float64{step, -step} {
			base, spirit, target := cherry, strong, units.Strength(20)
			move(&base, &spirit, &target, x)
			f, err := blend.Fortify(base, spirit, target)
			if err != nil {
				t.Fatal(err)
			}
			at[i] = float64(f.Spirit)
		}
		return (at[0] - at[1]) / (2 * step)
	}
	for key, want := range map[string]float64{
		"volume_1":   float64(f.Spirit / f.Base),
		"strength_1": by(0.2, func(b, _ *blend.Component, _ *units.Strength, x float64) { b.Strength += units.Strength(x) }),
		"extract_1":  by(3, func(b, _ *blend.Component, _ *units.Strength, x float64) { b.Extract += units.Concentration(x) }),
		"strength_2": by(0.17, func(_, s *blend.Component, _ *units.Strength, x float64) { s.Strength += units.Strength(x) }),
		blend.CauseDensity: by(spread(f.Result), func(_, _ *blend.Component, target *units.Strength, x float64) {
			*target *= units.Strength(1 - x)
		}),
	} {
		near(t, key, line(t, amount, key).Sensitivity, want, 1e-3)
	}
	near(t, "spread", line(t, amount, blend.CauseDensity).Standard, spread(f.Result), 1e-9)
	if line(t, amount, "strength_1").Sensitivity >= 0 || line(t, amount, blend.CauseDensity).Sensitivity >= 0 {
		t.Error("a stronger wine takes more spirit")
	}
	for _, c := range amount.Budget {
		if c.Key == "volume_2" {
			t.Error("the volume of the spirit is doubted, which is sought")
		}
	}
}

// So of a must that was stopped: the alcohol of the balance counts in full, the
// model by its distance from the classic sum where nothing is stated, and the sugar
// is the extract less what of the wine's is not sugar, in the volume it now fills.
func TestTheBudgetOfAnArrest(t *testing.T) {
	spirit := strong
	spirit.Volume = 0.75
	a := blend.Arrest{OG: 1.092, Stop: 1.046, Yield: abv.Must, Must: 3, Lees: 0.1, Spirit: spirit}
	within := func(d blend.ArrestUncertainty) blend.ArrestUncertain {
		t.Helper()
		s, err := a.Within(d)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	s := within(blend.ArrestUncertainty{Balance: 0.2, SpiritVolume: 0.01})
	near(t, "strength by the balance", line(t, s.BaseStrength, blend.CauseBalance).Sensitivity, 1, 1e-9)
	near(t, "extract by the balance", line(t, s.BaseExtract, blend.CauseBalance).Sensitivity, -abv.Must.PerPercent(), 1e-9)
	for _, x := range []struct {
		name        string
		r           uncertainty.Result
		value, side float64
	}{
		{"strength", s.BlendStrength, float64(s.Blend.Strength), 1}, {"extract", s.BlendExtract, float64(s.Blend.Extract), 1},
		{"volume", s.BlendVolume, float64(s.Blend.Volume), -1}, {"gravity", s.BlendGravity, float64(s.Blend.Gravity), 1},
	} {
		c := line(t, x.r, blend.CauseDensity)
		near(t, x.name, x.r.Value, x.value, 1e-12)
		near(t, x.name+", spread", c.Standard, spread(s.Blend), 1e-9)
		near(t, x.name+" by the model", c.Sensitivity, x.side*x.value, 1e-6)
	}
	if c := line(t, within(blend.ArrestUncertainty{Density: 0.001}).BlendGravity, blend.CauseDensity); c.Standard != 0.001 {
		t.Errorf("an uncertainty of the model of 0.001 was stated: %+v", c)
	}
	rest, err := abv.NotSugarOf("")
	if err != nil {
		t.Fatal(err)
	}
	thinner := float64(s.Base.Volume / s.Blend.Volume)
	near(t, "sugar", s.BlendSugar.Value, float64(s.Blend.Extract)-thinner*float64(rest.Likely), 1e-9)
	near(t, "sugar by the rest", line(t, s.BlendSugar, blend.CauseNotSugar).Sensitivity, -thinner, 1e-6)
	// Fermented until less is left than what is not sugar, none is sugar.
	a.Stop = 0.989
	s = within(blend.ArrestUncertainty{})
	if left := float64(s.Blend.Extract) - float64(rest.Likely)*float64(s.Base.Volume/s.Blend.Volume); left >= 0 || s.BlendSugar.Value != 0 {
		t.Errorf("%v g/L of sugar, by the extract %v", s.BlendSugar.Value, left)
	}
}
