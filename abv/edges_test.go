package abv_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// refusal is the range error that err has to be.
func refusal(t *testing.T, err error) units.RangeError {
	t.Helper()
	var r *units.RangeError
	if !errors.As(err, &r) {
		t.Fatalf("want a range error, have %v", err)
	}
	return *r
}

// The domains that the documentation states: the last value that is taken and
// one less than 1 % beyond it.
func TestStatedDomains(t *testing.T) {
	plato := func(p gravity.Plato, err error) (float64, error) { return float64(p), err }
	// A wine with 69 parts of sucrose to 31 of water whose original extract is p.
	fullWine := func(p float64) abv.Composition {
		p /= 100
		e := (p - 0.69) / (2.0009 * (1 - p))
		return massComposition(t, 100*e/(1+e), 69/(1+e))
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "ApparentAttenuation", Of: func(x float64) (float64, error) { return abv.ApparentAttenuation(gravity.Plato(x), 0) }, Good: []float64{0.1, 70}, Bad: []float64{0.0999, 70.1}},
		{Name: "DegreeOfFermentation", Of: func(x float64) (float64, error) {
			return abv.DegreeOfFermentation(abv.Composition{Extract: units.Concentration(x)}, abv.Wort)
		}, Good: []float64{0.1}, Bad: []float64{0.0999}},
		{Name: "OriginalExtract", Of: func(x float64) (float64, error) {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return plato(abv.OriginalExtract(abv.Composition{Extract: units.Concentration(x)}, abv.Must))
			}
			return plato(abv.OriginalExtract(fullWine(x), abv.Must))
		}, Good: []float64{69.99}, Bad: []float64{70.01, 70.6}},
		{Name: "BallingBoilOff, apparent of a real extract of 60 %", Of: func(x float64) (float64, error) {
			p, _, err := abv.BallingBoilOff(gravity.Plato(x), 60)
			return float64(p), err
		}, Good: []float64{60 - 10*0.29 + 0.01}, Bad: []float64{60 - 10*0.29 - 0.01}}, // p of 70: (p - n)(0.22 + 0.001 p)
		{Name: "glycerol", Of: func(x float64) (float64, error) {
			d, err := abv.TwoInstrumentsIn(1.02, 17, abv.Solutes{Glycerol: units.Concentration(x)})
			return float64(d.Strength), err
		}, Good: []float64{0, 30}, Bad: []float64{-0.1, 30.1}},
		{Name: "acid", Of: func(x float64) (float64, error) {
			d, err := abv.TwoInstrumentsIn(1.02, 17, abv.Solutes{Acid: units.Concentration(x)})
			return float64(d.Strength), err
		}, Good: []float64{0, 40}, Bad: []float64{-0.1, 40.1}},
		{Name: "GasVolume", Of: func(x float64) (float64, error) {
			v, err := abv.GasVolume(1, units.Celsius(x))
			return float64(v), err
		}, Good: []float64{0, 40}, Bad: []float64{-0.1, 40.1}},
		{Name: "FromWeightLoss of 5 L", Of: func(x float64) (float64, error) {
			f, err := abv.FromWeightLoss(1.092, 5, units.Mass(x), abv.Must)
			return float64(f.Strength), err
		}, Good: []float64{0, 0.999 * allGas(t, 1.092, 5)}, Bad: []float64{-0.1, 1.001 * allGas(t, 1.092, 5)}},
	})
	if r := refusal(t, func() error { _, _, err := abv.BallingBoilOff(60, 70.5); return err }()); r.Max != 70 || !strings.Contains(r.Quantity, "real extract") {
		t.Errorf("a real extract of 70.5 %%: %+v", r)
	}
	must := units.Concentration(300)
	for _, x := range []struct {
		goal abv.Goal
		name string
	}{{abv.Goal{MaxExtract: 1001}, "greatest extract"}, {abv.Goal{MinExtract: 1001}, "least extract"}} {
		_, err := abv.StopWithin(1.092, x.goal, abv.Must)
		if r := refusal(t, err); r.Max != 1000 || !strings.Contains(r.Quantity, x.name) {
			t.Errorf("%+v: %+v", x.goal, r)
		}
	}
	if _, err := abv.StopWithin(1.15, abv.Goal{MaxExtract: 1000, MinExtract: must}, abv.Must); err != nil {
		t.Errorf("at most 1000 g/L: %v", err)
	}
}

// allGas is the carbon dioxide of a must that ferments to the end: 0.9565 g with
// a gram of alcohol, and as much alcohol as Potential finds.
func allGas(t *testing.T, og gravity.SG, must float64) float64 {
	t.Helper()
	w, err := abv.FromWeightLoss(og, units.Volume(must), 0, abv.Must)
	if err != nil || w.Strength != 0 {
		t.Fatal(w, err)
	}
	plato, err := og.Plato()
	if err != nil {
		t.Fatal(err)
	}
	extract := float64(plato) / 100 * float64(og) * density.Water20 * must
	// Balling: every gram of alcohol takes 2.0009 g of extract, of which the gas
	// is 0.9565 g.
	return 0.9565 / 2.0009 * extract
}

// A range error states the bounds that are in force: what lies a little inside
// is taken, what lies a little outside is not.
func TestTheBoundsOfARefusalAreTheBounds(t *testing.T) {
	const little = 1e-5
	_, err := abv.BoilOff(0.85, 1.01)
	r := refusal(t, err)
	for _, wine := range []float64{r.Min + little, r.Max - little} {
		if _, err := abv.BoilOff(gravity.SG(wine), 1.01); err != nil {
			t.Errorf("between %v and %v: %v", r.Min, r.Max, err)
		}
	}
	for _, wine := range []float64{r.Min - little, r.Max + little} {
		if _, err := abv.BoilOff(gravity.SG(wine), 1.01); err == nil {
			t.Errorf("%v is taken, outside %v to %v", wine, r.Min, r.Max)
		}
	}
	// "strength up to 60 % vol"
	strong, err := abv.BoilOff(gravity.SG(r.Min+little), 1.01)
	if err != nil || strong.Strength < 59.8 || strong.Strength > 60 {
		t.Errorf("the strongest wine boiled: %v, %v", strong.Strength, err)
	}
	// Beside a heavy hydrometer the scale of the refractometer ends first.
	_, err = abv.TwoInstruments(1.345, 10)
	if r := refusal(t, err); r.Max != 70 {
		t.Errorf("a refractometer beside 1.345: %+v", r)
	}
}

// A weak wine is not water by Tabarie's rule either.
func TestTabarieOfAWeakWine(t *testing.T) {
	b, err := abv.BoilOffInFull(1.03-0.00006, 1.03, abv.Must)
	if err != nil || b.Tabarie < 0.03 || b.Tabarie > 0.05 {
		t.Errorf("0.00006 below the residue, 0.04 %% vol by 0.0015 per %% vol: %v, %v", b.Tabarie, err)
	}
}

// Of a refractometer too: a reading above that of the must may be, one below what is
// left when all is fermented is not.
func TestRefractometerReadingsMayBeSwapped(t *testing.T) {
	for current, swapped := range map[gravity.Brix]bool{22.5: true, 2: false} {
		_, err := abv.FromRefractometer(22, current, 1, abv.Must)
		if err == nil || strings.Contains(err.Error(), "swapped") != swapped {
			t.Errorf("%v: %v", current, err)
		}
	}
}

// The gravities are told to be swapped where they may be, and not where the
// final one is too low.
func TestSwappedGravitiesAreNamed(t *testing.T) {
	_, err := abv.MassBalance(1.046, 1.092, abv.Must)
	if err == nil || !strings.Contains(err.Error(), "swapped") {
		t.Errorf("1.046 to 1.092: %v", err)
	}
	_, err = abv.MassBalance(1.046, 0.90, abv.Must)
	if err == nil || strings.Contains(err.Error(), "swapped") {
		t.Errorf("1.046 to 0.9: %v", err)
	}
}

// A goal that cannot be had says which must would do, if one would, and which
// limits are open.
func TestAGoalOutOfReach(t *testing.T) {
	_, err := abv.StopWithin(1.080, abv.Goal{MinStrength: 8, MinExtract: 100}, abv.Must)
	if !errors.Is(err, abv.ErrNoWindow) || !strings.Contains(err.Error(), "would do") || !strings.Contains(err.Error(), "8 % vol or more and 100 g/L or more") {
		t.Errorf("8 %% vol with 100 g/L: %v", err)
	}
	_, err = abv.StopWithin(1.080, abv.Goal{MinStrength: 8, MaxStrength: 9, MinExtract: 100, MaxExtract: 120}, abv.Must)
	if !errors.Is(err, abv.ErrNoWindow) || !strings.Contains(err.Error(), "8 to 9 % vol and 100 to 120 g/L") {
		t.Errorf("8 to 9 %% vol with 100 to 120 g/L: %v", err)
	}
	if text := (&abv.NoWindowError{Original: 1.08}).Error(); strings.Contains(text, "would do") {
		t.Errorf("no must would do: %s", text)
	}
}

// The uncertainty of two instruments: 0.45 % vol of the method, and what the
// two models of density leave open, 0.36 % vol for every 0.001 SG.
func TestTwoInstrumentsStatesBothModels(t *testing.T) {
	for _, x := range []struct{ strength, extract float64 }{{20, 0}, {14, 0}, {35, 140}, {20, 142}, {30, 200}} {
		h, r := pairOf(t, x.strength, x.extract)
		d, err := abv.TwoInstrumentsIn(h, r, abv.Solutes{})
		if err != nil {
			t.Fatal(err)
		}
		apart := math.Abs(density.Tabarie20(x.strength, x.extract)/density.Water20 - float64(h))
		want := math.Hypot(0.45, 360*apart)
		if math.Abs(float64(d.Model)-want) > 0.005+0.08*(want-0.45) {
			t.Errorf("%+v: %.4f %% vol, by hand %.4f", x, d.Model, want)
		}
	}
}

// All the gas that a must can give off is a loss of weight that can be; what the
// balance gives as that gas is taken back as all its extract.
func TestAllTheGasCanBeLost(t *testing.T) {
	for _, og := range []gravity.SG{1.04, 1.0715, 1.092, 1.13} {
		whole, err := abv.Potential(og, abv.Must, abv.End{NotSugar: allSugar()})
		if err != nil {
			t.Fatal(err)
		}
		for _, litres := range []units.Volume{0.7, 1, 5, 31} {
			lost := units.Mass(float64(whole.CarbonDioxide) * float64(litres))
			if f, err := abv.FromWeightLoss(og, litres, lost, abv.Must); err != nil || math.Abs(float64(f.Strength-whole.Strength)) > 1e-9 {
				t.Errorf("%v, %v: %v of %v, %v", og, litres, f.Strength, whole.Strength, err)
			}
		}
	}
}

func TestTheLimitOfAYeastEndsAtThirty(t *testing.T) {
	handbook.Domains(t, []handbook.Domain{{Name: "limit of the yeast", Of: func(x float64) (float64, error) {
		f, err := abv.Potential(1.09, abv.Must, abv.End{Limit: units.Strength(x)})
		return float64(f.Strength), err
	}, Good: []float64{0, 30}, Bad: []float64{-0.1, 30.1}}})
}

// Constants that no table of the tests prints, with their source.
func TestStatedUncertainties(t *testing.T) {
	// No source: S. bayanus goes to 20 % vol (from memory), and 2 beyond that is no
	// wine of yeast.
	if abv.MostByYeast != 20+2 {
		t.Errorf("most by yeast %v", abv.MostByYeast)
	}
	// 34 worts and beers of USDA Bulletin 493, recomputed: 0.17 % vol rms.
	if abv.BalanceUncertainty != 0.17 {
		t.Errorf("balance %v", abv.BalanceUncertainty)
	}
	// 0.09 +- 0.05 g of yeast spans Balling's must and wort and, by 93 to 94 g/L of
	// gas from 200 g/L, measured fermentations.
	if abv.YeastLikely != 0.09 || abv.YeastUncertainty != 0.05 {
		t.Errorf("yeast %v, %v", abv.YeastLikely, abv.YeastUncertainty)
	}
	if u := (abv.Yield{Yeast: 0.09}).YeastStandard(); math.Abs(u-0.05/1.96) > 1e-12 {
		t.Errorf("the likely yield is uncertain by %v", u)
	}
	if u := abv.Must.YeastStandard(); math.Abs(u-math.Hypot(0.0255, 0.09-0.0444)) > 1e-4 {
		t.Errorf("Balling's must is uncertain by %v", u)
	}
}

// The ends of what is taken of a sugar and of what is not sugar, and a little
// beyond each.
func TestEndsOfSugars(t *testing.T) {
	conc := func(x float64) units.Concentration { return units.Concentration(x) }
	sugars := func(s abv.Sugars, err error) (float64, error) { return float64(s.High), err }
	none := abv.NotSugar{PerMust: true}
	handbook.Domains(t, []handbook.Domain{
		{Name: "StatedNotSugar", Of: func(x float64) (float64, error) {
			n, err := abv.StatedNotSugar(conc(x), 0)
			return float64(n.High), err
		}, Good: []float64{0, 500}, Bad: []float64{-0.1, 501}},
		{Name: "limit of StatedNotSugar", Of: func(x float64) (float64, error) {
			n, err := abv.StatedNotSugar(20, conc(x))
			return float64(n.High), err
		}, Good: []float64{0, 500}, Bad: []float64{-0.1, 501}},
		{Name: "high end of what is not sugar", Of: func(x float64) (float64, error) {
			return sugars(abv.NotSugar{High: conc(x)}.Sugars(90, 1))
		}, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "extract", Of: func(x float64) (float64, error) { return sugars(none.Sugars(conc(x), 1)) }, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "share", Of: func(x float64) (float64, error) { return sugars(none.Sugars(90, x)) }, Good: []float64{0, 2}, Bad: []float64{-0.1, 2.01}},
		{Name: "wine per must", Of: func(x float64) (float64, error) {
			return sugars(abv.Fermented{Extract: 90, VolumeRatio: x}.Sugars(none))
		}, Good: []float64{0.5, 1.5}, Bad: []float64{0.499, 1.501}},
		{Name: "measured", Of: func(x float64) (float64, error) { return sugars(abv.Measured(conc(x), 0)) }, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "limit of what was measured", Of: func(x float64) (float64, error) { return sugars(abv.Measured(0, conc(x))) }, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "uncertainty of the extract", Of: func(x float64) (float64, error) { return sugars(abv.Sugars{}.Within(conc(x))) }, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "sugar at the high end", Of: func(x float64) (float64, error) { return 0, abv.Sugars{High: conc(x)}.Check(0) }, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
		{Name: "extract beside it", Of: func(x float64) (float64, error) { return 0, abv.Sugars{}.Check(conc(x)) }, Good: []float64{0, 1000}, Bad: []float64{-0.1, 1001}},
	})
	// No liquid holds more than 1000 g/L, however wide the limits.
	if s, err := abv.Measured(990, 100); err != nil || s.High != 1000 {
		t.Errorf("990 g/L within 100: %v, %v", s, err)
	}
	if s, err := (abv.Sugars{Low: 990, Likely: 990, High: 990}).Within(100); err != nil || s.High != 1000 {
		t.Errorf("990 g/L from an extract within 196: %v, %v", s, err)
	}
	// As much sugar as extract is all of it; a thousandth more is refused.
	for high, taken := range map[units.Concentration]bool{90: true, 90 * (1 + 5e-10): true, 90.09: false} {
		if err := (abv.Sugars{High: high}).Check(90); (err == nil) != taken {
			t.Errorf("%.12g g/L of sugar in 90 of extract: %v", float64(high), err)
		}
	}
}

// Of a litre of a finished grape wine with 90 g/L of extract 16 to 37 g are not
// sugar, likely 20; spirit that doubles the volume leaves half of each.
func TestSugarsOfAFinishedWine(t *testing.T) {
	n, err := abv.NotSugarOf("")
	if err != nil {
		t.Fatal(err)
	}
	s, err := abv.Fermented{Extract: 90, VolumeRatio: 0.97}.Sugars(n)
	if want := (abv.Sugars{Low: 90 - 37, Likely: 90 - 20, High: 90 - 16}); err != nil || s != want {
		t.Errorf("%+v, %v; want %+v", s, err, want)
	}
	if half := s.Times(0.5); half != (abv.Sugars{Low: 26.5, Likely: 35, High: 37}) {
		t.Errorf("half of it: %+v", half)
	}
}

// A wine that is too light is told to be stronger; one that is too heavy is not.
func TestAWineTooLightMayBeStronger(t *testing.T) {
	for gravity, stronger := range map[gravity.SG]bool{0.95: true, 1.4: false} {
		_, err := abv.RealExtract(12, gravity)
		if r := refusal(t, err); strings.Contains(r.Error(), "means more alcohol than 12 % vol") != stronger {
			t.Errorf("12 %% vol at %v: %v", gravity, err)
		}
	}
}

// Balling: 0.9565 g of gas with a gram of alcohol, whatever the must.
func TestTheGasIsBallings(t *testing.T) {
	for name, y := range map[string]abv.Yield{"wort": abv.Wort, "must": abv.Must, "fruit": abv.Fruit} {
		if y.CarbonDioxide != 0.9565 {
			t.Errorf("%s gives off %v g", name, y.CarbonDioxide)
		}
	}
}

// What is not sugar says whose value it is; one without a source is as stated.
func TestWhatIsNotSugarSaysItsSource(t *testing.T) {
	n, err := abv.NotSugarOf("")
	if err != nil {
		t.Fatal(err)
	}
	if source := n.Figures()[0].Source; !strings.Contains(source, "Cortez") {
		t.Errorf("grape wines are from %q", source)
	}
	if source := (abv.NotSugar{}).Figures()[0].Source; source == "" {
		t.Error("no source")
	}
}

// The domain of the apparent extract of a beer, and what its error says of it.
func TestApparentExtractOfABeer(t *testing.T) {
	if _, _, err := abv.BallingBoilOff(-5, 4); err != nil {
		t.Error(err)
	}
	var out *units.RangeError
	if _, _, err := abv.BallingBoilOff(-5.01, 4); !errors.As(err, &out) || out.Min != -5 || out.Max != 4 {
		t.Errorf("%+v", out)
	}
}
