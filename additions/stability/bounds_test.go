package stability

import (
	"math"
	"strings"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// judge, sealed and prime are functions of one number of what they look at.
func judge(with func(w *Wine, x float64)) func(x float64) (float64, error) {
	return func(x float64) (float64, error) {
		w := Wine{Strength: 12}
		with(&w, x)
		v, err := Judge(w)
		return v.DelleUnits, err
	}
}

func sealed(with func(w *Wine, b *Closed, x float64)) func(x float64) (float64, error) {
	return func(x float64) (float64, error) {
		w, b := Wine{Strength: 12, Sugar: exactly(5)}, Closed{Volume: 1, Headspace: 0.03}
		with(&w, &b, x)
		s, err := SealedPressure(w, b, units.Celsius(20))
		return float64(s.CO2), err
	}
}

// What the documentation states as the domain begins and ends there, not two
// per cent beyond.
func TestStatedDomainsEndWhereTheyAreStated(t *testing.T) {
	prime := func(own, wanted float64) (float64, error) {
		p, err := Prime(Wine{Strength: 11}, units.Concentration(wanted), Closed{Volume: 0.775, Headspace: 0.025, CO2: units.Concentration(own), Rated: 1500})
		return float64(p.Sugar), err
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "Judge pH", Of: judge(func(w *Wine, x float64) { w.PH = x }), Good: []float64{2.5, 4.5}, Bad: []float64{2.49, 4.51}},
		{Name: "Judge uncertainty of the strength", Of: judge(func(w *Wine, x float64) { w.StrengthUncertainty = units.Strength(x) }), Good: []float64{0, 10}, Bad: []float64{-0.01, 10.01}},
		{Name: "Judge limit of the yeast", Of: judge(func(w *Wine, x float64) { w.YeastLimit = units.Strength(x) }), Good: []float64{30}, Bad: []float64{30.01}},
		{Name: "Judge uncertainty of the pH", Of: judge(func(w *Wine, x float64) { w.PH, w.PHUncertainty = 3.4, x }), Good: []float64{0, 1}, Bad: []float64{-0.01, 1.01}},
		{Name: "DissolvedCO2 strength", Of: func(x float64) (float64, error) {
			c, err := DissolvedCO2(units.Strength(x), 0, units.Celsius(20), 100)
			return float64(c), err
		}, Good: []float64{25}, Bad: []float64{25.01}},
		{Name: "DissolvedCO2 sugar", Of: func(x float64) (float64, error) {
			c, err := DissolvedCO2(12, units.Concentration(x), units.Celsius(20), 100)
			return float64(c), err
		}, Good: []float64{0, 400}, Bad: []float64{-0.01, 400.1}},
		{Name: "DissolvedCO2 pressure", Of: func(x float64) (float64, error) {
			c, err := DissolvedCO2(12, 0, units.Celsius(20), units.Pressure(x))
			return float64(c), err
		}, Good: []float64{0, 1500}, Bad: []float64{-0.01, 1500.1}},
		{Name: "DissolvedCO2 temperature", Of: func(x float64) (float64, error) {
			c, err := DissolvedCO2(12, 0, units.Celsius(x), 100)
			return float64(c), err
		}, Good: []float64{40}, Bad: []float64{40.1}},
		{Name: "SealedPressure limit of the yeast", Of: sealed(func(w *Wine, _ *Closed, x float64) { w.YeastLimit = units.Strength(x) }), Good: []float64{24}, Bad: []float64{24.1}},
		{Name: "SealedPressure volume", Of: sealed(func(_ *Wine, b *Closed, x float64) { b.Volume, b.Headspace = units.Volume(x), units.Volume(0.03*x) }),
			Good: []float64{1.001e-3, 1e4}, Bad: []float64{0.999e-3, 1.001e4}},
		{Name: "SealedPressure dissolved CO2", Of: sealed(func(_ *Wine, b *Closed, x float64) { b.CO2 = units.Concentration(x) }), Good: []float64{0, 20}, Bad: []float64{-0.01, 20.1}},
		{Name: "SealedPressure rated", Of: sealed(func(_ *Wine, b *Closed, x float64) { b.Rated = units.Pressure(x) }), Good: []float64{0, 2000}, Bad: []float64{-1, 2001}},
		// The headspace is a share of the bottle: 0.1 % at least, 95 % at most.
		{Name: "SealedPressure headspace of 10 L", Of: sealed(func(w *Wine, b *Closed, x float64) { w.Sugar, b.Volume, b.Headspace = exactly(0), 10, units.Volume(x) }),
			Good: []float64{0.0101, 9.49}, Bad: []float64{0.0099, 9.51}},
		{Name: "Prime CO2 wanted", Of: func(x float64) (float64, error) { return prime(0, x) }, Good: []float64{14}, Bad: []float64{14.01}},
		{Name: "Prime CO2 there", Of: func(x float64) (float64, error) { return prime(x, max(x, 1)) }, Good: []float64{0, 14}, Bad: []float64{-0.01, 14.01}},
	})
}

// The liquid swells as it ferments and warms: less than a ten-thousandth of the
// bottle left is full, whatever the bottle.
func TestTheLiquidMustLeaveRoomInBottlesOfAnySize(t *testing.T) {
	for _, litres := range []float64{0.2, 1, 25} {
		w := Wine{Strength: 12, Sugar: exactly(0)}
		b := Closed{Volume: units.Volume(litres), Headspace: units.Volume(0.0011 * litres)}
		if _, err := SealedPressure(w, b, units.Celsius(20)); err != nil {
			t.Errorf("%g L, dry, 0.11 %% headspace at 20 C: %v", litres, err)
		}
		if _, err := SealedPressure(w, b, units.Celsius(30)); err == nil || !strings.Contains(err.Error(), "headspace") {
			t.Errorf("%g L swell by 0.2 %% to 30 C and have 0.11 %%: %v", litres, err)
		}
	}
}

// Regulation (EEC) 2676/90 ch. 37: 1.951 (0.86 - 0.01 A)(1 - 0.00144 S) g/L per bar
// at 20 C. By hand: 20 % vol and 250 g/L hold 1.951 x 0.66 x 0.64 = 0.82410.
func TestSugarKeepsCO2Out(t *testing.T) {
	c, err := DissolvedCO2(20, 250, units.Celsius(20), units.Bar)
	if err != nil || math.Abs(float64(c)-0.82410) > 5e-6 {
		t.Errorf("%.5f, %v; by hand 0.82410", float64(c), err)
	}
}

// The bottle must bear what it holds at 25 C, a warm room.
func TestPrimingIsJudgedAt25C(t *testing.T) {
	w, b := Wine{Strength: 11}, Closed{Volume: 0.775, Headspace: 0.025, Rated: 1500}
	p, err := Prime(w, 8, b)
	if err != nil {
		t.Fatal(err)
	}
	w.Sugar = exactly(8 / (2 * 44.0095 / 180.1559)) // hexose for 8 g/L of CO2, molar masses
	warm, err := SealedPressure(w, b, units.Celsius(25))
	if err != nil || math.Abs(float64(p.Pressure.Overpressure/warm.Overpressure)-1) > 1e-3 {
		t.Errorf("%v, at 25 C %v, %v", p.Pressure.Overpressure, warm.Overpressure, err)
	}
}

// A remedy goes as far as it says, and no further: 25 % vol, 200 g/L more sugar,
// 200 mg/L of sorbic acid (the most that OIV and EU allow), 200 mg/L of free SO2.
func TestRemediesEndWhereTheyAreSaidTo(t *testing.T) {
	last := func(w Wine, key string) (to float64) {
		for _, c := range w.changes() {
			if c.key == key {
				to = c.to
			}
		}
		return to
	}
	w := Wine{Strength: 12, Sugar: exactly(30), PH: 3.4, PHUncertainty: 0.1, SO2: additions.SO2{Total: 0.05}}
	for key, want := range map[string]float64{"strength": 25, "sugar": 200, "sorbate": 200, "so2": 200} {
		if got := last(w, key); got != want {
			t.Errorf("%s is sought to %g, not %g", key, got, want)
		}
	}
	w.Sugar = exactly(900) // a litre holds 1000 g at most
	if got := last(w, "sugar"); got != 100 {
		t.Errorf("sugar is sought to %g g/L over 900", got)
	}
	// A pH is sought where fruit wines have it, or where the measured one may be.
	for _, x := range []struct{ pH, u, from, to float64 }{{0, 0, 3.8, 3.0}, {3.4, 0.1, 3.4 + 0.1645, 3.4 - 0.1645}, {4.45, 0.2, 4.5, 4.45 - 0.329}, {2.6, 0.2, 2.6 + 0.329, 2.5}} {
		w := Wine{Strength: 12, Sugar: exactly(30), PH: x.pH, PHUncertainty: x.u}
		for _, c := range w.changes() {
			if c.key == "measure_ph" && (math.Abs(-c.from-x.from) > 1e-9 || math.Abs(-c.to-x.to) > 1e-9) {
				t.Errorf("pH %g ± %g is sought from %g to %g, not from %g to %g", x.pH, x.u, -c.from, -c.to, x.from, x.to)
			}
		}
	}
	// Sugar measured as little counts where it is more than dry: 3 g/L at least.
	w.Sugar.Low, w.Sugar.Likely, w.Sugar.High = 0, 10, 40
	for _, c := range w.changes() {
		if strings.Contains(c.text, "at least %v g/L it") && c.key == "measure_sugar" && c.from != 3 {
			t.Errorf("measured sugar is sought from %g g/L", c.from)
		}
	}
}

// What a barrier rests on is named: the stated limit of the yeast, or that none is.
func TestAlcoholSaysWhatItRestsOn(t *testing.T) {
	for limit, want := range map[units.Strength]string{0: "limit of the yeast not stated", 14: "stated limit 14 % vol"} {
		v, err := Judge(Wine{Strength: 18, Sugar: exactly(60), YeastLimit: limit})
		if because := v.Barrier("alcohol").Because; err != nil || !strings.Contains(because, want) {
			t.Errorf("limit %v: %q, %v", limit, because, err)
		}
	}
}

// The cautions of sorbate stand with sorbate, and those about little sulfite go by
// the free SO2 there is.
func TestNotesOfSorbate(t *testing.T) {
	const mg = units.MilligramPerLitre
	count := func(sorbate, free units.Concentration) int {
		v, err := Judge(Wine{Strength: 12, Sugar: exactly(60), Sorbate: sorbate, SO2: additions.SO2{Free: free, FreeMeasured: true}})
		if err != nil {
			t.Fatal(err)
		}
		return len(v.Notes)
	}
	none := count(0, 50*mg)
	for free, want := range map[units.Concentration]int{
		0.5 * mg: len(additions.SorbateCautions(0)), // a measurement so small may be of none
		50 * mg:  len(additions.SorbateCautions(50 * mg)),
	} {
		if got := count(200*mg, free) - none; got != want {
			t.Errorf("%v free: %d cautions of sorbate, want %d", free, got, want)
		}
	}
}

// What bacteria are left by is said: some sulfite too little, or none stated.
func TestBacteriaSayWhetherSulfiteIsThere(t *testing.T) {
	const mg = units.MilligramPerLitre
	for free, want := range map[units.Concentration]string{0: "no sulfite is stated", 10 * mg: "less than 20 mg/L"} {
		v, err := Judge(Wine{Strength: 18, Sugar: exactly(60), PH: 4, SO2: additions.SO2{Free: free, FreeMeasured: free > 0}})
		if err != nil || !strings.Contains(v.BacteriaBecause, want) {
			t.Errorf("%v free: %q, %v", free, v.BacteriaBecause, err)
		}
	}
}

// The key of a figure names the remedy.
func TestFigureOfARemedyHasItsKey(t *testing.T) {
	for key, want := range map[string]string{"": "needed", "strength": "needed_strength"} {
		if f := (Remedy{Key: key, Value: 18, Unit: "% vol"}).Figures()[0]; f.Key != want {
			t.Errorf("%q has the key %q", key, f.Key)
		}
	}
}
