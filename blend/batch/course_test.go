package batch

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/additions"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// What is not stated of an instrument or a place is 20 C, which changes nothing.
func TestWhatIsNotStatedIsTwentyDegrees(t *testing.T) {
	var b Batch
	if b.hydrometer() != gravity.NewHydrometer(units.Celsius(20)) || b.mustAt() != units.Celsius(20) || b.cellar() != units.Celsius(20) {
		t.Errorf("%v, %v, %v", b.hydrometer(), b.mustAt(), b.cellar())
	}
	const wine = `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"`
	plain, stated := batchOf(t, wine+`}`), batchOf(t, wine+`, "wine_temperature": "20 C"}`)
	v := plain.values()
	if a, b := handbook.Must(plain.run(&v)), handbook.Must(stated.run(&v)); a != b {
		t.Errorf("not stated %+v, 20 C %+v", a, b)
	}
	for stop, never := range map[units.Strength]bool{0: true, 1: false} {
		if b := (Batch{StopAt: Is(stop)}); b.notFermented() != never {
			t.Errorf("stopped at %v: never fermented %v", stop, b.notFermented())
		}
	}
}

// What the balance is off goes to the strength, and at 15.8 g/L for each per cent out
// of the extract.
func TestMoreAlcoholIsLessExtract(t *testing.T) {
	b := batchOf(t, `{"must": "3 L", "original_reading": "1.085", "must_temperature": "20 C", "stop_reading": "1.045"}`)
	d := handbook.Must(b.decide())
	plain := handbook.Must(b.run(&d.v))
	d.v[qBalance] = 0.5
	more := handbook.Must(b.run(&d.v))
	if got := float64(more.wine.Strength - plain.wine.Strength); math.Abs(got-0.5) > 1e-12 {
		t.Errorf("0.5 %% vol more is %v", got)
	}
	if got := float64(plain.wine.Extract - more.wine.Extract); math.Abs(got-0.5*15.8) > 0.05 {
		t.Errorf("0.5 %% vol more leave %v g/L less", got)
	}
}

// What is not sugar goes by the juice or by the wine that is in a litre, and is no more
// than the wine had.
func TestSugarIsExtractLessTheShareOfTheRest(t *testing.T) {
	stated, kind := Batch{NotSugar: Is(units.Concentration(20))}, Batch{Fruit: "juice"}
	for _, c := range []struct {
		b                       *Batch
		base, low, likely, high units.Concentration
	}{
		{&stated, 100, 92.5, 92.5, 92.5}, // 3 L of juice in 4 of wine, 2 of which in 4: 20 x 0.375
		{&stated, 12, 94, 94, 94},        // 16 at most: 12 g/L of the wine
		{&kind, 100, 88.2, 90.5, 91.85},  // 23.6, 19 and 16.3, half of it
		{&kind, 10, 95, 95, 95},
	} {
		s := handbook.Must(c.b.sugars(&course{juice: 3, litres: 4, base: blend.Component{Extract: c.base}}, 100, 2, 4))
		for _, x := range [][2]units.Concentration{{s.Low, c.low}, {s.Likely, c.likely}, {s.High, c.high}} {
			if math.Abs(float64(x[0]-x[1])) > 1e-9 {
				t.Errorf("%q, %v g/L in the wine: %+v, by hand %v to %v", c.b.Fruit, c.base, s, c.low, c.high)
			}
		}
	}
}

// No syrup makes a wine sweeter than it is: 104 g/L in one of 10 Bx.
func TestSugarThatASyrupDoesNotReachIsRefused(t *testing.T) {
	b := batchOf(t, dryWine+`"spirit_strength": "60 % vol", "target": "14 % vol", "target_sugar": "150 g/L", "sweetener": "syrup of 10 Bx"}`)
	var r *units.RangeError
	if _, err := b.Work(); !errors.As(err, &r) || !(r.Max > 20 && r.Max < 104) || r.Value != 150 || !strings.HasPrefix(err.Error(), "target_sugar") {
		t.Errorf("%v", err)
	}
	sweet := planOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "fruit": "juice", "spirit_strength": "75 % vol", "target": "18 % vol", "target_sugar": "50 g/L"}`)
	if q := sweet.pourOf("reachable", "sweetener"); q.Mass != 0 {
		t.Errorf("a sweet wine takes %v more", q.Mass)
	}
}

// What is poured keeps to the wine, the spirit and the vessel there are: it reaches the
// target exactly or says that it does not, fills what it is to fill, and weighs what
// went into it.
func TestWhatIsPouredKeepsToWhatThereIs(t *testing.T) {
	for _, vessel := range []string{``, `, "vessel": "4 L"`, `, "vessel": "4 L", "fortify": "fill the vessel"`, `, "vessel": "20 L", "headspace": "1 L", "fortify": "fill the vessel"`, `, "vessel": "9 L"`, `, "blend_volume": "3 L"`} {
		for _, stock := range []string{``, `, "spirit_stock": "0.2 L"`, `, "spirit_stock": "600 g"`, `, "spirit_stock": "8 L"`, `, "spirit_stock": "0 L"`} {
			for _, sugar := range []string{``, `, "target_sugar": "60 g/L"`} {
				text := dryWine + `"cellar_temperature": "14 C", "spirit_strength": "60 % vol", "target": "18 % vol"` + vessel + stock + sugar + `}`
				b := batchOf(t, text)
				d, c, _ := worked(t, &b)
				if c.unsweet > c.base.Volume*(1+1e-9) || c.blend.Volume > 0 && d.fits > 0 && c.blend.Volume > d.fits*(1+1e-6) {
					t.Errorf("%s: %v of wine, %v of blend", text, c.unsweet, c.blend.Volume)
				}
				if b.SpiritStock.Known() {
					if has := handbook.Must(b.stock(c.spirit)); c.spirit.Volume > has*(1+1e-9) {
						t.Errorf("%s: %v of %v spirit", text, c.spirit.Volume, has)
					}
				}
				reached := math.Abs(float64(c.blend.Strength)-18) < 1e-6
				if reached != (d.limit == nil) || reached && d.wanted == nil {
					t.Errorf("%s: %v, limit %v", text, c.blend.Strength, d.limit)
				}
				wine, spirit := c.base, c.spirit
				wine.Volume = c.unsweet
				mass := float64(c.sweetenG) + float64(handbook.Must(wine.Weight()))
				if spirit.Volume > 0 {
					mass += float64(handbook.Must(spirit.Weight()))
				}
				if math.Abs(mass/float64(c.blend.Mass)-1) > 1e-6 {
					t.Errorf("%s: %v g poured make %v", text, mass, c.blend.Mass)
				}
				enough := stock == `` || strings.Contains(stock, "8 L")
				filled := units.Volume(0)
				switch {
				case strings.Contains(vessel, `"4 L"`):
					filled = d.fits
				case strings.Contains(vessel, "blend_volume"):
					filled = 3
				}
				if enough && (!reached || filled > 0 && math.Abs(float64(c.blend.Volume/filled)-1) > 1e-6 || filled == 0 && math.Abs(float64(c.unsweet/c.base.Volume)-1) > 1e-9) {
					t.Errorf("%s: %v %v of %v, to fill %v", text, c.blend.Volume, c.blend.Strength, c.unsweet, filled)
				}
				if sugar != `` && reached {
					if s := handbook.Must(b.sugars(&c, c.blend.Extract, c.unsweet, c.blend.Volume)); math.Abs(float64(s.Likely)-60) > 1e-3 {
						t.Errorf("%s: %v of sugar", text, s.Likely)
					}
				}
			}
		}
	}
}

// A vessel that is full in a cold cellar is not quite full at 20 C: what fits is the
// volume at 20 C of what fills it there.
func TestWhatFitsFillsTheVesselInTheCellar(t *testing.T) {
	b := batchOf(t, dryWine+`"cellar_temperature": "4 C", "vessel": "4 L", "spirit_strength": "60 % vol", "target": "18 % vol", "fortify": "fill the vessel"}`)
	d, c, _ := worked(t, &b)
	full := handbook.Must(atTemperature(blend.Component{Volume: d.fits, Strength: c.blend.Strength, Extract: c.blend.Extract}, units.Celsius(4)))
	if math.Abs(float64(full)-4) > 1e-5 || d.fits <= 4.005 {
		t.Errorf("%v at 20 C are %v at 4 C", d.fits, full)
	}
}

// The window of the log is what is stated, or half a per cent from the aim on, or up to
// the stop that is reckoned.
func TestTheWindowOfAnAimIsHalfAPerCent(t *testing.T) {
	for _, c := range []struct {
		b        Batch
		from, to units.Strength
	}{
		{Batch{StopAt: Is(units.Strength(5))}, 5, 5.5}, {Batch{StopAt: Is(units.Strength(5)), StopFrom: Is(units.Strength(4)), StopTo: Is(units.Strength(6))}, 4, 6},
		{Batch{}, 6.5, 7},
	} {
		j := &job{b: &c.b, c: course{wine: abv.Fermented{Strength: 7}}}
		if g := handbook.Must(j.goal()); math.Abs(float64(g.MinStrength-c.from)) > 1e-12 || math.Abs(float64(g.MaxStrength-c.to)) > 1e-12 {
			t.Errorf("%+v, want %v to %v", g, c.from, c.to)
		}
	}
	j := &job{b: &Batch{}, c: course{wine: abv.Fermented{Strength: 0.2}}}
	if g := handbook.Must(j.goal()); g.MinStrength != 0 || g.MaxStrength != 0.2 {
		t.Errorf("%+v", g)
	}
}

const logged = `{"must": "3 L", "original_reading": "1.095", "must_temperature": "20 C", "stop_at": "5.5 % vol", "cellar_temperature": "20 C", "start": "2026-11-20 18:00",
	"sulfite": "50 mg/L", "spirit_strength": "40 % vol", "target": "20 % vol", "readings": [`

// What comes behind the stop comes as much later as the stop does; the figures of the
// log keep their own sources.
func TestTheDaysBehindTheStopMoveWithIt(t *testing.T) {
	p := planOf(t, logged+`"2026-11-21 08:00 1.090 22 C", "2026-11-22 08:00 1.082 22 C", "2026-11-23 08:00 1.074 22 C"]}`)
	start := time.Date(2026, 11, 20, 18, 0, 0, 0, time.UTC)
	late := p.stepOf("stop").From.Sub(start.AddDate(0, 0, 3))
	if late == 0 {
		t.Fatal("it stops on its usual day")
	}
	for key, days := range map[string][2]int{"rack": {3, 21}, "dose": {5, 21}, "pour": {5, 21}, "rest": {5, 111}} {
		s := p.stepOf(key)
		from, to := start.AddDate(0, 0, days[0]).Add(late).Round(time.Hour), start.AddDate(0, 0, days[1]).Add(late).Round(time.Hour)
		if !s.From.Equal(from) || !s.To.Equal(to) {
			t.Errorf("%s: %v to %v, counted %v to %v", key, s.From, s.To, from, to)
		}
	}
	for key, days := range map[string]int{"sugar": 0, "watch": 1} {
		if s := p.stepOf(key); !s.From.Equal(start.AddDate(0, 0, days)) {
			t.Errorf("%s: %v", key, s.From)
		}
	}
	j := jobOf(t, logged+`"2026-11-21 08:00 1.090 22 C", "2026-11-22 08:00 1.082 22 C", "2026-11-23 08:00 1.074 22 C"]}`)
	c, err := j.follow(handbook.Must(j.goal()))
	if err != nil {
		t.Fatal(err)
	}
	sources := map[string]string{}
	for _, f := range c.Figures() {
		sources["log_"+f.Key] = f.Source
	}
	named := 0
	for _, f := range p.stepOf("watch").Figures {
		if source, is := sources[f.Key]; is && (source != "" && f.Source != source || source == "" && f.Source != "the readings of the batch") {
			t.Errorf("%s: %q, by the log %q", f.Key, f.Source, source)
		} else if is {
			named++
		}
	}
	if named == 0 {
		t.Errorf("no figure of the log: %v", sources)
	}
}

// A plan beside the last reading of the log needs a reading; what the log set apart is
// said.
func TestAPlanBesideTheLogNeedsAReading(t *testing.T) {
	p := planOf(t, logged+`"2026-11-21 08:00 1.090 20 C", "2026-11-23 08:00 1.070 20 C"], "spirit_poured": "2 L"}`)
	if f, ok := p.found("log_contradicts"); !ok || f.Severity != Warn || !strings.Contains(f.Text, "State what was read as stop_reading") {
		t.Errorf("%+v", p.Findings)
	}
	const odd = `"2026-11-21 08:00 1.090 20 C", "2026-11-22 08:00 1.080 20 C", "2026-11-22 20:00 1.020 20 C", "2026-11-23 08:00 1.068 20 C", "2026-11-24 08:00 1.056 20 C"], "stop_reading": "1.0555"}`
	b := batchOf(t, logged+odd)
	j := jobOf(t, logged+odd)
	c, err := j.follow(abv.Goal{})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(c.Findings, func(f watch.Finding) bool { return f.Key == "set_apart" })
	if i < 0 {
		t.Fatalf("nothing was set apart: %+v", c.Findings)
	}
	lines := work(t, b).stepOf("stop").Lines
	if len(lines) != 2 || lines[0] != c.Findings[i].Text || !strings.HasPrefix(lines[1], "It agrees with") {
		t.Errorf("%q", lines)
	}
}

// The bottle that a wine is thought into: 775 mL to the brim with 25 mL of air, saturated
// at 20 C and an atmosphere, in a room of 25 C.
func TestTheBottleIsAnOrdinaryOne(t *testing.T) {
	p := planOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`)
	l, _ := p.Liquid("reachable")
	b := stability.Closed{Volume: 0.775, Headspace: 0.025, CO2: handbook.Must(stability.DissolvedCO2(l.Strength, l.Sugar.High, units.Celsius(20), units.Atmosphere))}
	w := stability.Wine{Strength: l.Strength, StrengthUncertainty: l.StrengthUncertainty, Sugar: l.Sugar, Extract: l.Extract + 1.645*l.ExtractUncertainty}
	want := handbook.Must(stability.SealedPressure(w, b, units.Celsius(25))).Overpressure
	if want <= 0 || math.Abs(float64(l.Closed.Overpressure/want)-1) > 1e-9 {
		t.Errorf("%v, want %v", l.Closed.Overpressure, want)
	}
	first := true
	j := &job{b: &Batch{}}
	if got := j.bursts(&Liquid{}, &first); got != "" || !first {
		t.Errorf("no pressure: %q", got)
	}
}

// A liquid as the verdict takes it: the extract at its high end, a limit of the pH as a
// standard uncertainty, and a yeast that has gone further than its maker says.
func TestTheVerdictTakesTheUnfavourableEnds(t *testing.T) {
	b := Batch{Must: Litres(3), PH: Within(3.4, 0.196), YeastLimit: Is(units.Strength(16))}
	j := &job{b: &b, c: course{wine: abv.Fermented{Strength: 14}}}
	w := j.wine(&Liquid{Extract: 100, ExtractUncertainty: 2}, Is(units.Celsius(5)), additions.SO2{}, 0.1)
	if math.Abs(float64(w.Extract)-103.29) > 1e-9 || math.Abs(w.PHUncertainty-0.1) > 1e-12 || w.PH != 3.4 || w.YeastLimit != 16 || w.Temperature != units.Celsius(5) {
		t.Errorf("%+v", w)
	}
	for made, want := range map[units.Strength]units.Strength{10: 16, 18: 18, 35: 30} {
		j.c.wine.Strength = made
		if got := j.yeastLimit(); got != want {
			t.Errorf("a yeast of 16 %% vol that made %v is taken for %v", made, got)
		}
	}
}

// A part that is kept is one from a thousandth of the wine and 5 mL on.
func TestAPartIsKeptFromAThousandthOn(t *testing.T) {
	j := jobOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`)
	for _, c := range []struct {
		base, kept units.Volume
		want       bool
	}{{100, 0.101, true}, {100, 0.099, false}, {3, 0.00505, true}, {3, 0.00495, false}, {0.001, 0.0049, false}, {3, 0, false}, {3, 1, true}} {
		j.c.base.Volume, j.c.kept.Volume, j.plan.Liquids = c.base, c.kept, nil
		if err := j.liquids(); err != nil {
			t.Fatal(err)
		}
		if _, got := j.plan.Liquid("kept"); got != c.want {
			t.Errorf("%v of %v L is kept: %v", c.kept, c.base, got)
		}
	}
}

// What was dosed is thinned in every liquid of the plan as in its wine: 35 % of it is
// free at least, and of the sorbate so much is there.
func TestEveryLiquidHasItsShareOfTheDose(t *testing.T) {
	p := planOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "ph": "3.4", "sulfite": "100 mg/L", "sorbate": "50 mg/L",
		"spirit_strength": "60 % vol", "spirit_planned": "0.5 L", "target": "15 % vol", "spirit_stock": "0.4 L"}`)
	for _, l := range p.Liquids {
		left := 3 / float64(l.Volume)
		if got := l.Verdict.FreeSO2Low.In(units.MilligramPerLitre); math.Abs(got-35*left) > 1e-6 {
			t.Errorf("%s: %v mg/L are free at least, by hand %v", l.Key, got, 35*left)
		}
		if got := l.Verdict.Barrier("sorbate_with_sulfite"); got.Unit != "mg/L sorbic acid" || math.Abs(got.Value-50*left) > 1e-6 {
			t.Errorf("%s: %+v, by hand %v mg/L", l.Key, got, 50*left)
		}
	}
	if len(p.Liquids) != 4 {
		t.Errorf("%d liquids", len(p.Liquids))
	}
}

// Every liquid has its pours; nothing is poured of what there is none of, and the amount
// that was only meant is not sweetened.
func TestPoursAreThoseOfTheirLiquids(t *testing.T) {
	pours := func(text string) string {
		var keys []string
		for _, q := range planOf(t, dryWine+text+`}`).Pours {
			keys = append(keys, q.Into+" "+q.Key)
		}
		return strings.Join(keys, ", ")
	}
	for text, want := range map[string]string{
		`"fruit": ""`: "reachable wine",
		`"spirit_strength": "60 % vol", "spirit_planned": "1 L"`:                                                 "planned wine, planned spirit, reachable wine, reachable spirit",
		`"spirit_strength": "60 % vol", "target": "18 % vol"`:                                                    "fortified wine, fortified spirit, reachable wine, reachable spirit",
		`"spirit_strength": "60 % vol", "spirit_planned": "1 L", "target": "18 % vol", "target_sugar": "60 g/L"`: "planned wine, planned spirit, fortified wine, fortified spirit, fortified sweetener, reachable wine, reachable spirit, reachable sweetener",
	} {
		if text == `"fruit": ""` {
			text = `"ph": "3.5"`
		}
		if got := pours(text); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

// No sugar at all is none.
func TestNoSugarIsNoPortion(t *testing.T) {
	const must = `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "stop_at": "5 % vol", "sugar": `
	if s := planOf(t, must+`"0 g"}`).stepOf("sugar"); s.given("sugar").Key != "" || s.Title != "The must, without sugar" {
		t.Errorf("%+v", s)
	}
	if s := planOf(t, must+`["0 g", "100 g"]}`).stepOf("sugar"); s.given("sugar").Value.String() != "100" {
		t.Errorf("%+v", s)
	}
}

// The law looks at a liquid with its density, what is free within half of its limits,
// and a dose as well as the volume that it went into is known.
func TestTheLawTakesWhatIsKnown(t *testing.T) {
	b := Batch{Sulfite: Within(units.Concentration(0.1), 0.0196), Sorbate: Within(units.Concentration(0.2), 0.0392), SulfiteTotal: Within(units.Concentration(0.05), 0.0196),
		FreeSulfite: Within(units.Concentration(0.03), 0.00392), KeptSulfite: Within(units.Concentration(0.2), 0.0784), KeptSorbate: Is(units.Concentration(0.2))}
	j := &job{b: &b}
	j.c.unsweet, j.c.blend.Volume = 3, 6
	p := j.product(&Liquid{Key: "reachable", Volume: 6, VolumeUncertainty: 0.18, Mass: 6300})
	near := func(what string, got units.Concentration, want float64) {
		t.Helper()
		if math.Abs(float64(got)-want) > 1e-12 {
			t.Errorf("%s: %v, by hand %v", what, got, want)
		}
	}
	if p.Density != 1050 {
		t.Errorf("6.3 kg in 6 L: %v", p.Density)
	}
	near("total", p.Levels[law.TotalSO2], 0.075) // of 100 and 50 mg/L, half
	near("free", p.Levels[law.FreeSO2], 0.015)
	near("free, ±", p.Uncertainty[law.FreeSO2], 0.001)
	// 3 % of the volume and 10 % of the dose; 20 % of the 50 mg/L.
	near("total, ±", p.Uncertainty[law.TotalSO2], math.Hypot(0.05*math.Hypot(0.03, 0.1), 0.025*0.2))
	near("sorbate, ±", p.Uncertainty[law.SorbicAcid], 0.1*math.Hypot(0.03, 0.1))
	p = j.product(&Liquid{Key: "kept", Volume: 6, VolumeUncertainty: 0.18, Mass: 6300})
	near("kept, total, ±", p.Uncertainty[law.TotalSO2], math.Hypot(0.2*math.Hypot(0.03, 0.2), 0.05*0.2))
	near("kept, sorbate, ±", p.Uncertainty[law.SorbicAcid], 0.2*0.03)
	b = Batch{Sulfite: Within(units.Concentration(0), 0.01)}
	near("none, ±", j.product(&Liquid{Key: "kept", Volume: 6, VolumeUncertainty: 0.18, Mass: 6300}).Uncertainty[law.TotalSO2], 0)
}

// What a caution depends on is what goes in and what is there.
func TestCautionsAreThoseOfTheBatch(t *testing.T) {
	if got := (&job{b: &Batch{}}).what(); got != (law.What{}) {
		t.Errorf("of nothing: %+v", got)
	}
	dose := Is(units.Concentration(0.1))
	b := Batch{Must: Litres(3), Sulfite: dose, Sorbate: dose, Acid: dose, Wood: Is(units.Mass(10)), Bottles: []units.Volume{0.75}, Fruit: "morello cherry"}
	j := &job{b: &b}
	j.c.spirit = blend.Component{Volume: 1, Strength: 40}
	l := Liquid{Key: "reachable"}
	l.Sugar.High = 90
	j.plan.Liquids = []Liquid{l}
	want := law.What{Must: true, StoneFruit: true, Fermenting: true, Sulfite: true, Sorbate: true, Acid: true, Wood: true, Fortified: true, Bottled: true, SugarLeft: 90, Spirit: 40}
	if got := j.what(); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	// Each is put to its step; what has none is put to the last.
	j.plan.Steps = []Step{{Key: "sugar"}, {Key: "pour"}, {Key: "drink"}}
	j.caution()
	last := 0
	for _, c := range law.Cautions(want) {
		s := map[law.Step]int{law.StepMust: 0, law.StepPour: 1}
		i, is := s[c.Step]
		if !is {
			i, last = 2, last+1
		}
		if !slices.Contains(j.plan.Steps[i].Cautions, c.Text) {
			t.Errorf("%s is not at step %d", c.Key, i)
		}
	}
	if last == 0 || len(j.plan.Steps[2].Cautions) != last {
		t.Errorf("%d cautions at the end, %d belong there", len(j.plan.Steps[2].Cautions), last)
	}
}

// 75 mL of 21 % vol hold 12.4 g of alcohol of 0.7892 kg/L; 2.5 US fluid ounces are
// 73.9 mL, imperial ones 71.0. Below half a gram nothing is said of a glass.
func TestAGlassHoldsItsAlcohol(t *testing.T) {
	for _, c := range []struct {
		system   System
		strength units.Strength
		size     string
		grams    string
	}{
		{Metric, 21, "75 mL", "12"}, {US, 21.3, "2.5 fl oz", "12"}, {Imperial, 22, "2.5 fl oz", "12"}, {Metric, 0.85, "75 mL", "1"}, {Metric, 0.84, "", ""},
	} {
		b := Batch{Units: c.system}
		j := &job{b: &b, plan: Plan{Liquids: []Liquid{{Key: "reachable", Strength: c.strength, Verdict: stability.Verdict{Outlook: stability.Still}}}}}
		s := handbook.Must(j.drinkStep())
		want := "Local law comes first."
		if c.size != "" {
			want = fmt.Sprintf("A glass of %s holds %s g of alcohol.", c.size, c.grams)
		}
		if len(s.Lines) != 1 || !strings.HasPrefix(s.Lines[0], want) {
			t.Errorf("%v of %v: %q, by hand %q", c.system, c.strength, s.Lines, want)
		}
		if c.system == Metric && c.strength == 21 && s.given("alcohol_in_75_ml").Value.String() != "12" {
			t.Errorf("%+v", s.Figures)
		}
	}
}

// Of the law a note is said only where it is of the label; of the part that is kept none.
func TestNotesOfTheLawAreThoseOfTheLabel(t *testing.T) {
	const more = `{"wine": "5 L ± 0.1 %", "wine_strength": "12 % vol", "wine_reading": "0.996", "fruit": "juice", "sulfite": "50 mg/L", "spirit_strength": "40 % vol", "target": "14 % vol", "blend_volume": "1 L"`
	keys := func(text string) string {
		j := jobOf(t, text)
		if err := j.limits(); err != nil {
			t.Fatal(err)
		}
		return j.keys()
	}
	if got := keys(more + `, "jurisdiction": "US"}`); got != "limit_declare_sulfites" {
		t.Errorf("%q", got)
	}
	if got := keys(more + `, "kept_sulfite": "400 mg/L", "jurisdiction": "US"}`); got != "limit_declare_sulfites kept_limit_so2_total" {
		t.Errorf("%q", got)
	}
	// No limit of fortified fruit wine is known there: that is for who asks.
	if got := keys(more + `, "jurisdiction": "EU"}`); got != "limit_declare_sulfites" {
		t.Errorf("%q", got)
	}
	if got := keys(more + `}`); got != "" {
		t.Errorf("nowhere: %q", got)
	}
}

// A trace of sugar is reached, and so is much of it in a blend that is mostly spirit.
func TestSugarIsReachedWhereverItIs(t *testing.T) {
	for text, want := range map[string]float64{
		`{"wine": "5 L", "wine_strength": "13 % vol", "wine_reading": "0.987", "fruit": "juice", "spirit_strength": "40 % vol", "target": "18 % vol", "target_sugar": "0.5 g/L"}`:   0.5,
		`{"wine": "0.3 L", "wine_strength": "5 % vol", "wine_reading": "0.995", "fruit": "juice", "spirit_strength": "20 % vol", "target": "18.5 % vol", "target_sugar": "40 g/L"}`: 40,
		`{"wine": "1 L", "wine_strength": "5 % vol", "wine_reading": "0.995", "fruit": "juice", "spirit_strength": "20 % vol", "target": "18.5 % vol", "target_sugar": "76 g/L"}`:   76, // syrup of nearly 70 % mass
	} {
		b := batchOf(t, text)
		d, c, _ := worked(t, &b)
		s := handbook.Must(b.sugars(&c, c.blend.Extract, c.unsweet, c.blend.Volume))
		if d.limit != nil || math.Abs(float64(s.Likely)-want) > 1e-3 {
			t.Errorf("%s: %v g/L of sugar, %v", text, s.Likely, d.limit)
		}
	}
}
