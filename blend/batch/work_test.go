package batch

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/abv/watch"
	"example.org/mutage/additions"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func work(t *testing.T, b Batch) Plan {
	t.Helper()
	p, err := b.Work()
	if err != nil {
		t.Fatal(err)
	}
	finitePlan(t, p)
	return p
}

// scenario is a batch of the worked scenarios of the command.
func scenario(t *testing.T, name string) Batch {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "examples", "worksheet", "testdata", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	b, err := Read(name, f)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// finitePlan: what a plan says is numbers, and goes as JSON.
func finitePlan(t *testing.T, p Plan) {
	t.Helper()
	for _, g := range p.Figures() {
		if g.Method == "" || g.Source == "" || g.Key == "" || g.Name == "" {
			t.Errorf("%+v: not all of it is said", g)
		}
	}
	seen := map[string]bool{}
	for _, g := range p.Figures() {
		if seen[g.Key] {
			t.Errorf("two figures are called %q", g.Key)
		}
		seen[g.Key] = true
	}
	text, err := json.Marshal(p)
	var back Plan
	if err != nil || json.Unmarshal(text, &back) != nil {
		t.Fatalf("%v: %s", err, text)
	}
	again, err := json.Marshal(back)
	if err != nil || string(again) != string(text) {
		t.Errorf("%s came back as %s, %v", text, again, err)
	}
	if l, ok := p.Liquid("reachable"); !ok || !(l.Volume > 0) || !(l.Strength >= 0) || !(l.Extract >= 0) || !(l.Gravity > 0.7) {
		t.Errorf("what is poured is %+v", l)
	}
	if len(p.Answer) == 0 || len(p.Steps) == 0 {
		t.Error("a plan without an answer")
	}
}

func (p Plan) figure(t *testing.T, key string) float64 {
	t.Helper()
	for _, g := range p.Figures() {
		if g.Key == key {
			return g.Value.InexactFloat64()
		}
	}
	t.Fatalf("no figure %q", key)
	return 0
}

func (p Plan) found(key string) (Finding, bool) {
	for _, f := range p.Findings {
		if f.Key == key {
			return f, true
		}
	}
	return Finding{}, false
}

// same compares a figure of the plan with what the library's parts give, to half
// its last digit.
func same(t *testing.T, p Plan, key string, want float64) {
	t.Helper()
	for _, g := range p.Figures() {
		if g.Key == key {
			half := 0.5000001 * math.Pow(10, float64(g.Value.Exponent()))
			if got := g.Value.InexactFloat64(); math.Abs(got-want) > half {
				t.Errorf("%s: %v, the parts of the library give %v", key, got, want)
			}
			return
		}
	}
	t.Errorf("no figure %q", key)
}

// asMeasured is the volume at t of what has c.Volume at 20 C.
func asMeasured(c blend.Component, t units.Temperature) units.Volume {
	litre := c
	litre.Volume = 1
	return c.Volume / handbook.Must(litre.MeasuredAt(t)).Volume
}

// The demonstration, step by step from the parts of the library.
func TestTheDemonstrationIsTheSumOfItsParts(t *testing.T) {
	p := work(t, Demo())
	h := gravity.NewHydrometer(units.Celsius(20))
	before := handbook.Must(h.Correct(1.057, units.Celsius(26)))
	extract := handbook.Must(before.Extract())
	juice := handbook.Must(blend.Component{Volume: 3, Extract: extract}.MeasuredAt(units.Celsius(26)))
	grams := handbook.Must(sugar.Sucrose.ParseMass("1 3/4 cups"))
	og, volume, err := sugar.Add(before, juice.Volume, grams)
	if err != nil {
		t.Fatal(err)
	}
	same(t, p, "sugar", float64(grams))
	same(t, p, "original_gravity", float64(og))
	same(t, p, "original_reading", float64(handbook.Must(h.ReadingInMust(og, units.Celsius(26)))))
	stop := handbook.Must(abv.StopAt(og, 5.5, abv.Must))
	at := units.Celsius(18)
	same(t, p, "stop_reading", float64(handbook.Must(h.Shows(stop.Strength, stop.Extract, at))))
	window := handbook.Must(abv.StopWithin(og, abv.Goal{MinStrength: 5, MaxStrength: 6}, abv.Must))
	same(t, p, "stop_from_reading", float64(handbook.Must(h.Shows(window.From.Strength, window.From.Extract, at))))
	same(t, p, "stop_to_reading", float64(handbook.Must(h.Shows(window.To.Strength, window.To.Extract, at))))
	base := handbook.Must(blend.FromMust("wine", volume, stop, 0.150))
	same(t, p, "wine_volume", float64(base.Volume))
	same(t, p, "racked_measured", float64(asMeasured(base, at)))
	same(t, p, "wine_extract", float64(base.Extract))
	same(t, p, "potassium_metabisulfite", float64(handbook.Must(additions.Metabisulfite(0.050, base.Volume))))
	same(t, p, "potassium_sorbate", float64(handbook.Must(additions.Sorbate(0.200, base.Volume))))
	pour := handbook.Must(blend.Fortify(base, blend.Component{Strength: 40}, 20))
	same(t, p, "reachable_spirit_volume", float64(pour.Spirit))
	same(t, p, "spirit_to_pour", float64(handbook.Must(abv.VolumeAt(pour.Spirit, 40, units.Celsius(20), at))))
	same(t, p, "reachable_volume", float64(pour.Result.Volume))
	same(t, p, "volume_measured", float64(asMeasured(blend.Component{Volume: pour.Result.Volume, Strength: 20, Extract: pour.Result.Extract}, at)))
	same(t, p, "strength", 20)
	same(t, p, "extract", float64(pour.Result.Extract))
	same(t, p, "blend_reading", float64(handbook.Must(pour.Result.Shows(h, at))))
	same(t, p, "reachable_mass", float64(pour.Result.Mass))
	meant := blend.Component{Strength: 40, Volume: handbook.Must(abv.VolumeAt(26*units.USFluidOunce, 40, at, units.Celsius(20)))}
	planned := handbook.Must(blend.Mix(base, meant))
	same(t, p, "planned_strength", float64(planned.Strength))
	same(t, p, "planned_volume", float64(planned.Volume))
	n := handbook.Must(abv.NotSugarOf("morello cherry")) // per litre of juice
	s := handbook.Must(n.Sugars(pour.Result.Extract, float64(base.Volume/pour.Result.Volume*juice.Volume/volume)/stop.VolumeRatio))
	l, _ := p.Liquid("reachable")
	s = handbook.Must(s.Within(l.ExtractUncertainty))
	same(t, p, "reachable_sugar_low", float64(s.Low))
	same(t, p, "reachable_sugar_high", float64(s.High))
	if l.Verdict.Outlook != stability.Still {
		t.Errorf("at 20 %% vol: %v", l.Verdict.Outlook)
	}
	if l, _ := p.Liquid("planned"); l.Verdict.Outlook == stability.Still || l.Remedy == "" {
		t.Errorf("at 12.4 %% vol: %v, %q", l.Verdict.Outlook, l.Remedy)
	}
}

// (a) A US quart of sugared store juice, read at 75 F with a 60 F hydrometer: the
// jar is filled at 20 % vol, with room for the wood, and the rest is kept.
func TestAJarIsFilledAndTheRestIsKept(t *testing.T) {
	p := work(t, scenario(t, "quart"))
	h := gravity.NewHydrometer(units.Fahrenheit(60))
	og := handbook.Must(h.Correct(1.094, units.Fahrenheit(75)))
	juice := handbook.Must(blend.Component{Volume: units.USQuart, Extract: handbook.Must(og.Extract())}.MeasuredAt(units.Fahrenheit(75)))
	base := handbook.Must(blend.FromMust("wine", juice.Volume, handbook.Must(abv.StopAt(og, 5, abv.Must)), 0))
	jar := blend.Vessel{Size: units.USQuart, Headspace: units.USFluidOunce}
	free := float64(jar.Size - jar.Headspace)
	jar.Displaced = handbook.Must(blend.WoodDisplaces(units.Mass(free), soakedWood))
	room := handbook.Must(jar.Room())
	eighty := blend.Component{Strength: handbook.Must(spirit.FromUSProof(80))}
	like := handbook.Must(blend.Fortify(base, eighty, 20)).Result
	full := handbook.Must(blend.Component{Volume: room, Strength: 20, Extract: like.Extract}.MeasuredAt(units.Fahrenheit(70)))
	pour := handbook.Must(blend.FortifyTo(full.Volume, base, eighty, 20))
	same(t, p, "reachable_volume", float64(full.Volume))
	same(t, p, "volume_measured", float64(room))
	same(t, p, "reachable_strength", 20)
	same(t, p, "reachable_wine_volume", float64(pour.Base))
	same(t, p, "reachable_spirit_volume", float64(pour.Spirit))
	same(t, p, "kept_volume", float64(base.Volume-pour.Base))
	if l, ok := p.Liquid("kept"); !ok || l.Verdict.Outlook == stability.Still || !strings.Contains(l.Remedy, "airlock") {
		t.Errorf("the part kept: %+v", l)
	}
	if !strings.Contains(p.Answer[0], "fl oz") {
		t.Errorf("a US cellar reads %q", p.Answer[0])
	}
}

// An importer does the same in ten lines.
func ExampleBatch_Work() {
	b := Batch{Must: Litres(units.USQuart), OriginalReading: Is(gravity.SG(1.094)), MustTemperature: Is(units.Fahrenheit(75)),
		Hydrometer: Is(units.Fahrenheit(60)), StopAt: Is(units.Strength(5)), SpiritStrength: Is(units.Strength(40)),
		Target: Is(units.Strength(20)), Vessel: Is(units.Volume(units.USQuart)), Fortify: "fill the vessel"}
	p, err := b.Work()
	if err != nil {
		panic(err)
	}
	os.Stdout.WriteString(p.Answer[0] + "\n" + p.Answer[1] + "\n")
	// By hand, volumes simply added: 0.946 L at 20 % vol of 5 and 40 % vol are
	// 0.541 L and 0.406 L.

	// Output:
	// Pour 405 mL of spirit on 542 mL of wine: it makes 20.0 % vol.
	// Keep 401 mL of the wine without spirit, at 5.0 % vol, which yeast will ferment (closed, it could reach 62 bar; a still-wine cork is made for 1): cold, under an airlock, for two weeks at most.
}

// (b) Sugar in two portions, strong spirit, at least 100 g/L of sugar left.
func TestTheStopLeavesTheSugarWanted(t *testing.T) {
	p := work(t, scenario(t, "metric20"))
	l, _ := p.Liquid("reachable")
	if math.Abs(float64(l.Sugar.Low)-100) > 0.01 || math.Abs(float64(l.Strength)-18) > 1e-9 {
		t.Errorf("%v with %v of sugar at least, wanted 18 %% vol and 100 g/L", l.Strength, l.Sugar.Low)
	}
	before := handbook.Must(gravity.Hydrometer{}.Correct(1.050, units.Celsius(22)))
	juice := handbook.Must(blend.Component{Volume: 20, Extract: handbook.Must(before.Extract())}.MeasuredAt(units.Celsius(22)))
	og, volume, err := sugar.Add(before, juice.Volume, 3500)
	if err != nil {
		t.Fatal(err)
	}
	same(t, p, "original_gravity", float64(og))
	same(t, p, "must_volume", float64(volume))
	same(t, p, "sugar_2", 1500)
}

// (c) A dry wine known by two instruments, sweetened and fortified at once.
func TestAFinishedWineIsSweetenedAndFortified(t *testing.T) {
	b := scenario(t, "dry")
	p := work(t, b)
	wine := handbook.Must(abv.TwoInstruments(0.994, 7.2))
	same(t, p, "wine_strength", float64(wine.Strength))
	same(t, p, "wine_extract", float64(wine.Extract))
	l, _ := p.Liquid("reachable")
	if math.Abs(float64(l.Strength)-19) > 1e-9 || math.Abs(float64(l.Sugar.Likely)-90) > 1e-3 {
		t.Errorf("%v with %v of sugar, wanted 19 %% vol and 90 g/L", l.Strength, l.Sugar.Likely)
	}
	grams := p.figure(t, "sweetener")
	sweet := handbook.Must(sugar.Sweeten(wine, 5, sugar.Sucrose, units.Mass(p.pourOf("reachable", "sweetener").Mass)))
	pour := handbook.Must(blend.Fortify(blend.Component{Volume: sweet.Volume, Strength: sweet.After.Strength, Extract: sweet.After.Extract}, blend.Component{Strength: 60}, 19))
	same(t, p, "reachable_volume", float64(pour.Result.Volume))
	same(t, p, "reachable_extract", float64(pour.Result.Extract))
	if grams < 500 || grams > 650 { // by hand: 90 g/L x 6.3 L
		t.Errorf("%v g of sugar", grams)
	}
}

// (d) Poured, and the hydrometer says otherwise.
func TestAReadingThatDisagreesIsExplained(t *testing.T) {
	p := work(t, scenario(t, "otherwise"))
	if f, ok := p.found("blend_reading"); !ok || f.Severity != Warn {
		t.Errorf("findings %+v", p.Findings)
	}
	if f, ok := p.found("target_missed"); !ok || f.Severity != Stop || !strings.Contains(f.Text, "more") {
		t.Errorf("18.8 %% vol for 20: %+v", p.Findings)
	}
	var lines string
	for _, s := range p.Steps {
		if s.Key == "check" {
			lines = strings.Join(s.Lines, "\n")
		}
	}
	for _, part := range []string{"volume of neutral spirit", "mend it", "one to three points"} {
		if !strings.Contains(lines, part) {
			t.Errorf("no %q in\n%s", part, lines)
		}
	}
}

// (e) Only a kitchen scale.
func TestAKitchenScaleIsEnough(t *testing.T) {
	p := work(t, scenario(t, "scale"))
	for _, key := range []string{"wine", "spirit"} {
		q := p.pourOf("reachable", key)
		m := handbook.Must(blend.Mix(blend.Component{Volume: q.Volume, Strength: q.Strength, Extract: q.Extract}))
		if !(q.Mass > 0) || math.Abs(float64(q.Mass-m.Mass)) > 1e-6 {
			t.Errorf("%s: %v by weight, %v by its density", key, q.Mass, m.Mass)
		}
	}
	// 3.2 kg of must of 1.060 are 3.2 / (1.060 x 0.9982) L.
	if got := p.figure(t, "must_volume"); math.Abs(got-(3.2/(1.060*0.99820)+0.350*0.62)) > 0.005 {
		t.Errorf("must of %v L", got)
	}
}

// (f) Only the juice's label: printed sugar is sugar, not extract.
func TestTheLabelStatesSugarNotExtract(t *testing.T) {
	p := work(t, scenario(t, "label"))
	before := handbook.Must(gravity.OfExtract(units.Concentration(26/0.240) + 20))
	og, _, err := sugar.Add(before, 2, 300)
	if err != nil {
		t.Fatal(err)
	}
	same(t, p, "original_gravity", float64(og))
}

// (g) A liqueur as the spirit.
func TestALiqueurBringsItsSugar(t *testing.T) {
	p := work(t, scenario(t, "liqueur"))
	base := handbook.Must(blend.FromMust("wine", 2, handbook.Must(abv.StopAt(1.080, 9, abv.Must)), 0))
	pour := handbook.Must(blend.Fortify(base, blend.Component{Strength: 30, Extract: 300}, 17))
	same(t, p, "reachable_spirit_volume", float64(pour.Spirit))
	same(t, p, "reachable_extract", float64(pour.Result.Extract))
}

// (h) Spirit for 1 L at hand where 2.2 would be needed.
func TestTheStockDecidesWhatIsPoured(t *testing.T) {
	p := work(t, scenario(t, "short"))
	if f, ok := p.found("target_missed"); !ok || f.Severity != Stop || p.Answer[0] != f.Text {
		t.Errorf("first line %q, findings %+v", p.Answer[0], p.Findings)
	}
	reachable, _ := p.Liquid("reachable")
	fortified, ok := p.Liquid("fortified")
	if !ok || math.Abs(float64(fortified.Strength)-20) > 1e-9 || reachable.Strength > 14.1 || reachable.Verdict.Outlook == stability.Still {
		t.Errorf("reachable %v %v, fortified %v", reachable.Strength, reachable.Verdict.Outlook, fortified.Strength)
	}
	if got := float64(p.pourOf("reachable", "spirit").Measured); math.Abs(got-1) > 1e-9 {
		t.Errorf("%v L are poured of the litre there is", got)
	}
}

// No spirit at hand is not a stock that was not stated.
func TestNoSpiritAtHandPoursNone(t *testing.T) {
	b, err := read(t, `{"must": "3 L", "must_reading": "1.060", "stop_at": "5 % vol", "spirit_strength": "40 % vol", "target": "20 % vol", "spirit_stock": "0 L"}`)
	if err != nil {
		t.Fatal(err)
	}
	p := work(t, b)
	if f, ok := p.found("target_missed"); !ok || f.Severity != Stop {
		t.Errorf("findings %+v", p.Findings)
	}
	l, _ := p.Liquid("reachable")
	if math.Abs(float64(l.Strength)-5) > 1e-9 || p.pourOf("reachable", "spirit").Volume != 0 {
		t.Errorf("%v with no spirit", l.Strength)
	}
}

// (i) What happened is fed back: each plan goes on from the fact.
func TestReadingsFedBackReplaceWhatWasMeant(t *testing.T) {
	stop := work(t, scenario(t, "back1_stop"))
	wine, _ := stop.Liquid("wine")
	og := units.Concentration(stop.figure(t, "original_gravity"))
	b := scenario(t, "back1_stop")
	fg := handbook.Must(b.truly(gravity.SG(og), 1.055, units.Celsius(20), abv.Must))
	if f := handbook.Must(abv.MassBalance(gravity.SG(og), fg, abv.Must)); math.Abs(float64(f.Strength-wine.Strength)) > 0.02 {
		t.Errorf("stopped at %v, the reading gives %v", wine.Strength, f.Strength)
	}
	racked := work(t, scenario(t, "back2_racked"))
	if l, _ := racked.Liquid("wine"); l.Strength <= wine.Strength || math.Abs(float64(l.Volume)-3.02) > 0.02 || l.VolumeUncertainty > 0.02 {
		t.Errorf("racked: %v, %v ± %v", l.Strength, l.Volume, l.VolumeUncertainty)
	}
	poured := work(t, scenario(t, "back3_poured"))
	if got := float64(poured.pourOf("reachable", "spirit").Measured); math.Abs(got-2.2) > 1e-9 {
		t.Errorf("2.2 L were poured, the plan has %v", got)
	}
	l, _ := poured.Liquid("reachable")
	if low := float64(l.Verdict.FreeSO2Low) * 1000; low > 18*3.03/5.23 || low < 10*3.03/5.23 {
		t.Errorf("18 mg/L were measured in the wine: %v mg/L in the blend at least", low)
	}
	rested := work(t, scenario(t, "back4_rested"))
	if _, off := rested.found("blend_reading"); off {
		t.Errorf("1.012 was expected: %+v", rested.Findings)
	}
}

// (j) A start date gives the calendar.
func TestAStartGivesTheCalendar(t *testing.T) {
	p := work(t, scenario(t, "calendar"))
	last := time.Time{}
	for _, s := range p.Steps {
		if s.Key == "drink" || s.Key == "hand" || s.Key == "sure" {
			continue
		}
		if s.From.IsZero() || s.To.Before(s.From) || s.From.Before(last) {
			t.Errorf("%s: from %v to %v, after %v", s.Key, s.From, s.To, last)
		}
		last = s.From
	}
}

// The readings of a log are followed: when it is to be stopped comes from them, and
// the later steps move with it; a window that has passed is the first line.
func TestTheLogOfABatchIsFollowed(t *testing.T) {
	const start = `{"must": "3 L", "original_reading": "1.095", "must_temperature": "20 C", "stop_at": "5.5 % vol", "stop_from": "5 % vol", "stop_to": "6 % vol",
		"start": "2026-11-20 18:00", "spirit_strength": "40 % vol", "target": "20 % vol", "readings": [`
	b, err := read(t, start+`"2026-11-21 08:00 1.090 22 C", "2026-11-22 08:00 1.082 22 C", "2026-11-23 08:00 1.074 22 C"]}`)
	if err != nil {
		t.Fatal(err)
	}
	var log []watch.Reading
	for _, r := range b.Readings {
		log = append(log, watch.Reading{Time: r.Time, Reading: r.Reading, Temperature: r.Temperature})
	}
	p := work(t, b)
	c := handbook.Must(watch.Follow(log, watch.Setup{Original: 1.095, Started: b.Start, Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}))
	last := time.Time{}
	for _, s := range p.Steps {
		if s.Key == "stop" && (!s.From.Equal(c.Window.Opens.Likely) || !s.To.Equal(c.Window.Closes.Likely) || s.Usual) {
			t.Errorf("stop from %v to %v, the log says %v to %v", s.From, s.To, c.Window.Opens.Likely, c.Window.Closes.Likely)
		}
		if !s.From.IsZero() && s.From.Before(last.Add(-time.Hour)) {
			t.Errorf("%s is from %v, the step before from %v", s.Key, s.From, last)
		}
		if !s.From.IsZero() {
			last = s.From
		}
	}
	same(t, p, "log_strength", float64(c.Now.Likely.Strength))
	if b, err = read(t, start+`"2026-11-21 08:00 1.090 22 C", "2026-11-22 08:00 1.062 22 C", "2026-11-23 08:00 1.034 22 C"]}`); err != nil {
		t.Fatal(err)
	}
	p = work(t, b)
	if f, ok := p.found("window_passed"); !ok || f.Severity != Stop || p.Answer[0] != f.Text || !strings.Contains(f.Text, "Stopped now, it takes") {
		t.Errorf("answer %q, findings %+v", p.Answer, p.Findings)
	}
}

// What was read at the stop is held against the last reading of the log: the same is
// said to agree, less to have gone on, and more contradicts it.
func TestTheLogAndTheStopAreHeldAgainstEachOther(t *testing.T) {
	const start = `{"must": "3 L", "original_reading": "1.095", "must_temperature": "20 C", "stop_at": "5.5 % vol", "cellar_temperature": "20 C", "start": "2026-11-20 18:00",
		"spirit_strength": "40 % vol", "target": "20 % vol", "readings": ["2026-11-21 08:00 1.090 20 C", "2026-11-23 08:00 1.056 20 C"], `
	for end, want := range map[string]struct {
		line        string
		contradicts bool
	}{
		`"stop_reading": "1.0575"}`:                             {"It agrees with", false},
		`"stop_reading": "1.0545"}`:                             {"It agrees with", false},
		`"stop_reading": "1.0535"}`:                             {"It went on to 1.0535", false},
		`"stop_reading": "1.0585"}`:                             {"", true},
		`"stop_reading": "1.0560", "racked_reading": "1.0585"}`: {"", true},
		`"spirit_poured": "2 L"}`:                               {"It agrees with", false}, // 5.5 % vol is 1.054
	} {
		b, err := read(t, start+end)
		if err != nil {
			t.Fatal(end, err)
		}
		p := work(t, b)
		f, is := p.found("log_contradicts")
		if is != want.contradicts || is && (f.Severity != Warn || !strings.Contains(f.Text, "a gravity does not rise")) {
			t.Errorf("%s: %+v", end, f)
		}
		for _, s := range p.Steps {
			if s.Key == "stop" && !strings.Contains(strings.Join(s.Lines, " "), want.line) {
				t.Errorf("%s: %q, want %q", end, s.Lines, want.line)
			}
		}
	}
}

// The broken ones: the error names the field.
func TestBrokenBatchesSayWhatIsWrong(t *testing.T) {
	for change, parts := range map[[2]string][]string{
		{`"stop_at": "5.5 % vol",`, `"stop_at": "5.5 % vol", "lees": "9 L",`}:                         {"lees"},
		{`"1.057 ± 0.001"`, `"0.995"`}:                                                                {"below water", "already fermented"},
		{`"must_temperature": "26 C"`, `"must_temperature": "75 C"`}:                                  {"must_temperature", "out of range"},
		{`"cellar_temperature": "18 C"`, `"cellar_temperature": "-10 C"`}:                             {"cellar_temperature"},
		{`"stop_from": "5 % vol",`, ``}:                                                               nil,
		{`"jurisdiction": "US"`, `"jurisdiction": "Atlantis"`}:                                        {"jurisdiction"},
		{`"jurisdiction": "US"`, `"fruit": "boots"`}:                                                  {"fruit"},
		{`"ph": "3.4"`, `"ph": "7"`}:                                                                  {"ph"},
		{`"sugar": "1 3/4 cups"`, `"sugar": "20 kg"`}:                                                 {"sugar"},
		{`"spirit_strength": "40 % vol"`, `"spirit_strength": "95 % vol", "spirit_sugar": "250 g/L"`}: {"extract"},
	} {
		text := strings.Replace(string(demo), change[0], change[1], 1)
		if strings.Contains(change[1], `"lees"`) {
			text = strings.Replace(text, `"lees": "150 mL",`, "", 1)
		}
		b, err := read(t, text)
		if err == nil {
			_, err = b.Work()
		}
		if parts == nil {
			if err != nil {
				t.Errorf("%q: %v", change[1], err)
			}
			continue
		}
		for _, part := range parts {
			if err == nil || !strings.Contains(err.Error(), part) {
				t.Errorf("%q: %v\nwant %q in it", change[1], err, part)
			}
		}
	}
}

func TestGraveFindingsComeFirst(t *testing.T) {
	for change, key := range map[[2]string]string{
		{`"spirit_planned": "26 fl oz"`, `"spirit_planned": "1 gal"`}:      "overflow_planned",
		{`"yeast_limit": "16 % vol"`, `"yeast_limit": "4 % vol"`}:          "yeast_limit",
		{`"sulfite": "50 mg/L"`, `"sulfite": "5 g/L"`}:                     "dose_sulfite",
		{`"sulfite": "50 mg/L"`, `"sulfite": "500 mg/L"`}:                  "dose_sulfite",
		{`"sorbate": "200 mg/L"`, `"sorbate": "2 g/L"`}:                    "dose_sorbate",
		{`"target": "20 % vol"`, `"target": "20 % vol", "acid": "50 g/L"`}: "dose_acid",
		{`"spirit_strength": "40 % vol"`, `"spirit_strength": "18 % vol"`}: "target_missed",
		{`"vessel": "1 1/2 gal"`, `"vessel": "4 L"`}:                       "target_missed",
	} {
		b, err := read(t, strings.Replace(string(demo), change[0], change[1], 1))
		if err != nil {
			t.Fatal(err)
		}
		p := work(t, b)
		f, ok := p.found(key)
		if !ok || f.Severity != Stop || !strings.Contains(strings.Join(p.Answer[:len(p.Answer)-1], "\n"), f.Text) {
			t.Errorf("%q: answer %q, findings %+v", change[1], p.Answer, p.Findings)
		}
		if p.Findings[0].Severity != Stop {
			t.Errorf("%q: first of the findings is %+v", change[1], p.Findings[0])
		}
	}
}

// Each contradiction between what is wanted, what was read and what can be is a
// finding of the plan, with its severity.
func TestFindingsOfTheFerment(t *testing.T) {
	for text, want := range map[string]Finding{
		`"stop_at": "5.5 % vol", "stop_least_sugar": "150 g/L"`:                      {Key: "stop_outside_window", Severity: Stop},
		`"stop_at": "5.5 % vol", "stop_reading": "1.050", "racked_reading": "1.060"`: {Key: "reading_order", Severity: Warn},
		`"stop_at": "13.9 % vol"`:                                                                                                    {Key: "stop_beyond_sugar", Severity: Warn},
		`"stop_reading": "1.050", "racked": "4 L"`:                                                                                   {Key: "racked", Severity: Warn},
		`"stop_at": "5.5 % vol", "yeast_limit": "5 % vol"`:                                                                           {Key: "yeast_limit", Severity: Warn},
		`"stop_at": "5.5 % vol", "yeast_limit": "4 % vol"`:                                                                           {Key: "yeast_limit", Severity: Stop},
		`"stop_at": "5.5 % vol", "spirit_strength": "40 % vol", "target": "5 % vol"`:                                                 {Key: "target_missed", Severity: Stop},
		`"stop_at": "5.5 % vol", "spirit_strength": "40 % vol", "target": "18 % vol", "least_sugar": "150 g/L"`:                      {Key: "least_sugar", Severity: Warn},
		`"stop_at": "5.5 % vol", "spirit_strength": "40 % vol", "target": "18 % vol", "vessel": "9 L", "fortify": "fill the vessel"`: {Key: "vessel_not_full", Severity: Warn},
	} {
		b, err := read(t, `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", `+text+`}`)
		if err != nil {
			t.Fatal(err)
		}
		p := work(t, b)
		if f, ok := p.found(want.Key); !ok || f.Severity != want.Severity {
			t.Errorf("%s: findings %+v, want %s as %s", text, p.Findings, want.Key, want.Severity)
		}
	}
}

// The verdicts that were wrong where it hurts (each was called still once).
func TestTheLimitOfAYeastAloneKeepsNoSweetWineStill(t *testing.T) {
	for _, change := range [][2]string{{`"8 % vol"`, `"9.1 % vol"`}, {`"12 % vol"`, `"13.1 % vol"`}} {
		text := strings.NewReplacer(`"16 % vol"`, change[0], `"20 % vol"`, change[1], `"sulfite": "50 mg/L",`, "", `"sorbate": "200 mg/L",`, "", `"spirit_planned": "26 fl oz",`, "").Replace(string(demo))
		b, err := read(t, text)
		if err != nil {
			t.Fatal(err)
		}
		p := work(t, b)
		if l, _ := p.Liquid("reachable"); l.Verdict.Outlook == stability.Still || l.Remedy == "" {
			t.Errorf("%v with a yeast of %s: %v", l.Strength, change[0], l.Verdict.Outlook)
		}
	}
}

func TestTwentyGramsOfSugarDoNotTurnDoubtIntoStillness(t *testing.T) {
	for _, sugar := range []string{"1.00 kg", "1.02 kg", "1.05 kg", "1.20 kg"} {
		b, err := read(t, `{"must": "20 L", "must_reading": "1.040", "must_temperature": "20 C", "sugar": "`+sugar+`", "stop_at": "6 % vol", "spirit_strength": "96 % vol", "target": "18 % vol", "ph": "3.3", "yeast_limit": "20 % vol"}`)
		if err != nil {
			t.Fatal(err)
		}
		if l, _ := work(t, b).Liquid("reachable"); l.Verdict.Outlook == stability.Still {
			t.Errorf("%s of sugar: %v at %v with %v to %v of sugar", sugar, l.Verdict.Outlook, l.Strength, l.Sugar.Low, l.Sugar.High)
		}
	}
}

func TestWorkDoesNotChangeTheBatch(t *testing.T) {
	b := Demo()
	b.Sugar, b.GravityWanted = nil, Is(gravity.SG(1.096))
	p, q := work(t, b), work(t, b)
	if len(b.Sugar) != 0 || p.figure(t, "sugar") != q.figure(t, "sugar") {
		t.Error("the batch was changed by working it")
	}
	var c *ConflictError
	if _, err := (Batch{}).Work(); !errors.As(err, &c) {
		t.Errorf("an empty batch: %v", err)
	}
}

// Hardly any sugar by the likely extract; the strength of the wine is known to one
// per cent only, and its extract to 3 g/L.
func TestAWineIsNotDryWhileItsExtractIsNotKnown(t *testing.T) {
	for limit, dry := range map[string]bool{" ± 1 % vol": false, " ± 0.02 % vol": true} {
		b, err := read(t, `{"wine": "5 L", "wine_strength": "12.5 % vol`+limit+`", "wine_reading": "0.9904 ± 0.00005", "fruit": "juice"}`)
		if err != nil {
			t.Fatal(err)
		}
		l, _ := work(t, b).Liquid("wine")
		if got := l.Verdict.Barrier("no_sugar").Hold == stability.Holds; got != dry {
			t.Errorf("%q: extract %v ± %v, sugar %v to %v: no sugar left %v", limit, l.Extract, 1.96*l.ExtractUncertainty, l.Sugar.Low, l.Sugar.High, got)
		}
	}
}

// A free SO2 that was measured with its limits takes those.
func TestTheLimitOfAMeasuredFreeSO2Counts(t *testing.T) {
	lows := map[string]float64{}
	for _, limit := range []string{"", " ± 1 mg/L", " ± 8 mg/L"} {
		b, err := read(t, `{"wine": "5 L", "wine_strength": "12.5 % vol", "wine_reading": "1.020", "ph": "3.3", "sulfite_free": "20 mg/L`+limit+`"}`)
		if err != nil {
			t.Fatal(err)
		}
		l, _ := work(t, b).Liquid("wine")
		lows[limit] = l.Verdict.FreeSO2Low.In(units.MilligramPerLitre)
	}
	if math.Abs(lows[""]-17) > 1e-9 || math.Abs(lows[" ± 1 mg/L"]-19) > 1e-9 || math.Abs(lows[" ± 8 mg/L"]-12) > 1e-9 {
		t.Errorf("low ends of 20 mg/L: %v", lows)
	}
}

// A yeast that has fermented to 18 % vol does not give up at 16.
func TestALimitThatFermentationHasPassedHoldsNothing(t *testing.T) {
	b, err := read(t, `{"must": "3 L", "must_reading": "1.150 ± 0.0005", "must_temperature": "20 C", "stop_reading": "1.010 ± 0.0005", "yeast_limit": "16 % vol", "not_sugar": "25 g/L ± 5 g/L"}`)
	if err != nil {
		t.Fatal(err)
	}
	p := work(t, b)
	l, _ := p.Liquid("wine")
	if low := float64(l.Verdict.StrengthLow); low < 17.5 || l.Verdict.Outlook == stability.Still && l.Verdict.Barrier("alcohol").Hold == stability.Holds {
		t.Errorf("%v, judged at %v: yeast %v, alcohol %+v", l.Strength, low, l.Verdict.Outlook, l.Verdict.Barrier("alcohol"))
	}
	if f, ok := p.found("yeast_limit"); !ok || f.Severity != Stop || !strings.Contains(f.Text, "the limit is wrong") {
		t.Errorf("%+v", f)
	}
}

// Where no spirit is stated, or one that is too weak, what would do is counted
// with spirit of 40 % vol. By hand, volumes simply added: 5 L of 9.95 % vol take
// 1.87 L to 18.1 % vol.
func TestWhatWouldDoIsSaidWithoutASpirit(t *testing.T) {
	b, err := read(t, `{"wine": "5 L", "wine_strength": "9.95 % vol", "wine_reading": "1.030", "ph": "3.5", "sulfite": "50 mg/L", "sorbate": "200 mg/L"}`)
	if err != nil {
		t.Fatal(err)
	}
	l, _ := work(t, b).Liquid("wine")
	if !strings.HasPrefix(l.Remedy, "1.87 L of spirit of 40 % vol make it 18.1 % vol") {
		t.Errorf("%q", l.Remedy)
	}
	b, err = read(t, strings.Replace(string(demo), `"spirit_strength": "40 % vol"`, `"spirit_strength": "16 % vol"`, 1))
	if err != nil {
		t.Fatal(err)
	}
	l, _ = work(t, b).Liquid("wine")
	// Alcohol alone holds from 17.5 % vol at the low end: 17.5 + 1.645 x 0.25.
	if !strings.Contains(l.Remedy, "of spirit of 40 % vol make it 17.9 % vol") {
		t.Errorf("%q", l.Remedy)
	}
}
