package batch

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// What a batch can say, each by hand: densities of tables, volumes and masses on
// paper. The bound beside each is what the hand leaves out.
func TestEveryInputComesOutAsByHand(t *testing.T) {
	const dry = `"wine": "5 L", "wine_reading": "0.994", `
	for _, c := range []struct {
		what, batch, key string
		want, bound      float64
	}{
		// The residue of 1.010 holds 26 g/L (10 points at 2.6 g/L a point); Tabarie: 0.994 - 1.010 + 1 = 0.984, 982.2 kg/m3. 12.5 % vol
		// are 981.78 and 14.0 are 980.08 (OIML R 22): 12.1.
		{"boiled off, strength", `{` + dry + `"wine_boiled": "1.010"}`, "wine_strength", 12.1, 0.05},
		{"boiled off, extract", `{` + dry + `"wine_boiled": "1.010"}`, "wine_extract", 26, 0.5},
		{"known strength", `{` + dry + `"wine_strength": "13 % vol"}`, "wine_strength", 13, 0.005},
		// 33.3 % mass has 948.0 kg/m3 (OIML R 22): 0.333 x 948.0 / 789.24 = 40.0 % vol.
		{"spirit by mass", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "33.3 % mass", "target": "20 % vol"}`, "reachable_spirit_strength", 40.00, 0.03},
		// 80 US proof is 40 % vol at 60 F, 0.05 more at 20 C (27 CFR 30, table 1).
		{"US proof", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "80 proof", "target": "20 % vol"}`, "reachable_spirit_strength", 40.05, 0.04},
		// 100 degrees British proof is 57.1 % vol at 60 F: 70 are 40.0.
		{"British proof", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "70 British proof", "target": "20 % vol"}`, "reachable_spirit_strength", 40.05, 0.08},
		// At 15 C ethanol has 793.5 and spirit of 40 % vol 951.8 kg/m3: 0.40 x 793.5 / 951.8 = 33.35 % mass, which at 20 C (948.0, 789.2) is 40.06 % vol.
		{"strength at 15 C", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol at 15 C", "target": "20 % vol"}`, "reachable_spirit_strength", 40.06, 0.04},
		// 20 x (5 + s) = 13 x 5 + 40 s, s = 1.75 L; they shrink by some millilitres.
		{"spirit by hand", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "target": "20 % vol"}`, "reachable_spirit_volume", 1.75, 0.012},
		{"its price", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "target": "20 % vol", "spirit_price": "18"}`, "spirit_cost", 31.4, 0.2},
		// 3.2 kg of 1.060 are 3.2/(1.060 x 0.99823) = 3.024 L.
		{"must by weight", `{"must": "3.2 kg", "must_reading": "1.060", "must_temperature": "20 C", "stop_at": "0 % vol"}`, "wine_volume", 3.024, 0.001},
		// 26 g in 240 mL and 19 g/L that is not sugar (the median of Cortez et al.) are 127.3 g/L.
		{"label", `{"must": "2 L", "juice_label": "26 g per 240 mL", "stop_at": "0 % vol", "fruit": "juice"}`, "wine_extract", 127.3, 0.2},
		// 127.3 g/L in 2 L, and 100 g of sugar that takes 0.062 L: 354.6 / 2.062.
		{"sugar", `{"must": "2 L", "juice_label": "26 g per 240 mL", "stop_at": "0 % vol", "fruit": "juice", "sugar": "100 g"}`, "wine_extract", 172.0, 0.3},
		// 1.050 holds 129 g/L; 50 g of sugar take 0.031 L, and 100 g of syrup of 65 Bx (1.316 kg/L) 0.076 L with 65 g in them.
		{"portions", `{"must": "2 L", "must_reading": "1.050", "must_temperature": "20 C", "stop_at": "0 % vol", "sugar": ["50 g", "100 g syrup of 65 Bx after 3 days"]}`, "wine_extract", (2*129.0 + 50 + 65) / (2 + 0.031 + 0.076), 1},
		{"wood per litre", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "target": "20 % vol", "wood": "2 g/L"}`, "oak", 13.5, 0.1},
		// 1 L of 20 % vol of 13 and 40: 20/27 and 7/27 of it.
		{"so much of the blend", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "target": "20 % vol", "blend_volume": "1 L"}`, "reachable_wine_volume", 20 / 27., 0.006},
		{"and the rest is kept", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "target": "20 % vol", "blend_volume": "1 L"}`, "kept_volume", 5 - 20/27., 0.006},
		// 50 mg/L more in 4.26 L are 0.213 g of SO2: 0.213 / 0.576 = 0.370 g.
		{"the rest is dosed", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "target": "20 % vol", "blend_volume": "1 L", "sulfite": "50 mg/L", "kept_sulfite": "100 mg/L"}`, "keep_metabisulfite", 0.370, 0.005},
		// 0.2 g/L x 5 L / 0.746.
		{"sorbate", `{` + dry + `"wine_strength": "13 % vol", "sorbate": "200 mg/L"}`, "potassium_sorbate", 1.340, 0.005},
		{"acid", `{` + dry + `"wine_strength": "13 % vol", "acid": "1 g/L"}`, "tartaric_acid", 5, 0.01},
		// 2 kg of 40 % vol: 2 / 0.948 L.
		{"meant by weight", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "40 % vol", "spirit_planned": "2 kg"}`, "planned_spirit_volume", 2.110, 0.002},
		// 3 L of liqueur with 300 g/L bring 900 g to 8 L.
		{"liqueur", `{` + dry + `"wine_strength": "13 % vol", "spirit_strength": "30 % vol", "spirit_sugar": "300 g/L", "spirit_poured": "3 L"}`, "reachable_extract", 900/8. + 5*29/8., 3},
	} {
		b, err := read(t, c.batch)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		if got := work(t, b).figure(t, c.key); math.Abs(got-c.want) > c.bound {
			t.Errorf("%s: %s is %v, by hand %v ± %v", c.what, c.key, got, c.want, c.bound)
		}
	}
}

// What is poured reaches the sugar and the
// strength together whatever the sweetener.
func TestSweetenersReachStrengthAndSugarTogether(t *testing.T) {
	for _, sweetener := range []string{"sugar", "honey", "brown sugar", "dextrose", "syrup of 65 Bx", "concentrate of 65 Bx"} {
		b, err := read(t, `{"wine": "5 L", "wine_reading": "0.994", "wine_strength": "13 % vol", "spirit_strength": "60 % vol", "target": "19 % vol", "target_sugar": "90 g/L", "sweetener": "`+sweetener+`"}`)
		if err != nil {
			t.Fatal(err)
		}
		p := work(t, b)
		l, _ := p.Liquid("reachable")
		if math.Abs(float64(l.Strength)-19) > 1e-6 || math.Abs(float64(l.Sugar.Likely)-90) > 1e-3 {
			t.Errorf("%s: %v with %v of sugar", sweetener, l.Strength, l.Sugar.Likely)
		}
		var mass units.Mass
		for _, q := range p.Pours {
			if q.Mass <= 0 {
				t.Errorf("%s: %s weighs %v", sweetener, q.Key, q.Mass)
			}
			mass += map[bool]units.Mass{true: q.Mass}[q.Into == "reachable"]
		}
		if math.Abs(float64(mass-l.Mass)) > 1e-6*float64(mass) {
			t.Errorf("%s: %v poured, the blend weighs %v", sweetener, mass, l.Mass)
		}
	}
}

// A free SO2 that was measured is what the verdict takes; without one it takes the
// low end of what a dose leaves free.
func TestMeasuredFreeSO2IsTaken(t *testing.T) {
	low := func(free string) float64 {
		b, err := read(t, `{"wine": "5 L", "wine_reading": "1.020", "wine_strength": "13 % vol", "ph": "3.4", "sulfite": "60 mg/L"`+free+`}`)
		if err != nil {
			t.Fatal(err)
		}
		l, _ := work(t, b).Liquid("reachable")
		return float64(l.Verdict.FreeSO2Low) * 1000
	}
	if got := low(""); math.Abs(got-0.35*60) > 0.01 {
		t.Errorf("60 mg/L added: at least %v mg/L free, 35 %% are 21", got)
	}
	if got := low(`, "sulfite_free": "30 mg/L ± 5 mg/L"`); got < 20 || got > 30 {
		t.Errorf("30 mg/L measured: at least %v", got)
	}
}

// Fermenting wine is strengthened in one pour by the classical way as well: the
// same masses, whatever stopped it.
func TestJuiceThatNeverFermentsIsFortified(t *testing.T) {
	b, err := read(t, `{"must": "2 L", "must_reading": "1.070", "must_temperature": "20 C", "stop_at": "0 % vol", "spirit_strength": "96 % vol", "target": "18 % vol"}`)
	if err != nil {
		t.Fatal(err)
	}
	p := work(t, b)
	extract := handbook.Must(gravity.SG(1.070).Extract())
	pour := handbook.Must(blend.Fortify(blend.Component{Volume: 2, Extract: extract}, blend.Component{Strength: 96}, 18))
	same(t, p, "reachable_spirit_volume", float64(pour.Spirit))
	for _, s := range p.Steps {
		if s.Key == "watch" || s.Key == "stop" || s.Key == "rack" {
			t.Errorf("juice that never ferments is told to %s", s.Title)
		}
	}
	if grams := handbook.Must(abv.ByMass(96)); grams < 93.8 || grams > 94 { // OIML R 22, table I
		t.Errorf("96 %% vol is %v", grams)
	}
	if b, err = read(t, `{"must": "2 L", "must_reading": "1.050", "stop_at": "5 % vol", "sugar": "2 cups brown sugar"}`); err != nil || math.Abs(float64(b.Sugar[0].Mass.Value)-440) > 1 {
		t.Errorf("two packed cups, 440 g (USDA): %+v, %v", b.Sugar, err)
	}
}

// A year that JSON cannot write would leave a plan that no reply can hold.
func TestAStartInNoYearOfACellarIsRefused(t *testing.T) {
	for _, year := range []int{1, 1899, 2201, 12026} {
		b := Demo()
		b.Start = time.Date(year, 10, 1, 8, 0, 0, 0, time.UTC)
		var outside *units.RangeError
		if _, err := b.Work(); !errors.As(err, &outside) || outside.Of != "start" {
			t.Errorf("year %d: %v", year, err)
		}
	}
}
