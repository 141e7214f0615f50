package batch

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// planOf is the plan of a batch as it is written in a file.
func planOf(t *testing.T, text string) Plan {
	t.Helper()
	return work(t, batchOf(t, text))
}

func batchOf(t *testing.T, text string) Batch {
	t.Helper()
	b, err := read(t, text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return b
}

// stepOf is the step of this key; its zero value where there is none.
func (p Plan) stepOf(key string) Step {
	for _, s := range p.Steps {
		if s.Key == key {
			return s
		}
	}
	return Step{}
}

// given is the figure of this key; its zero value where there is none.
func (s Step) given(key string) units.Figure {
	for _, f := range s.Figures {
		if f.Key == key {
			return f
		}
	}
	return units.Figure{}
}

// jobOf is a batch worked through as far as its liquids.
func jobOf(t *testing.T, text string) *job {
	t.Helper()
	b := batchOf(t, text)
	j := &job{b: &b}
	j.d, j.c, j.f = worked(t, &b)
	if err := j.asWanted(); err != nil {
		t.Fatal(err)
	}
	if err := j.liquids(); err != nil {
		t.Fatal(err)
	}
	return j
}

// keys are those of the findings so far.
func (j *job) keys() string {
	var keys []string
	for _, f := range j.findings {
		keys = append(keys, f.Key)
	}
	return strings.Join(keys, " ")
}

// Soaked oak has 1050 kg/m3 (common practice, no source): 105 g take up a decilitre.
func TestOakTakesUpItsOwnVolume(t *testing.T) {
	for _, c := range []struct {
		b    Batch
		want float64
	}{
		{Batch{Vessel: Is(units.Volume(1)), Headspace: Is(units.Volume(0.2)), Wood: Is(units.Mass(105))}, 0.7},
		{Batch{Vessel: Is(units.Volume(1.2)), Headspace: Is(units.Volume(0.2)), WoodPerLitre: Is(units.Concentration(105))}, 0.9}, // 1 L without the head space
		{Batch{Vessel: Is(units.Volume(1.2))}, 1.2},
		{Batch{}, 0},
	} {
		if got := handbook.Must(c.b.room()); math.Abs(float64(got)-c.want) > 1e-9 {
			t.Errorf("%v with %v of wood has room for %v L, by hand %v", c.b.Vessel.Value, c.b.Wood.Value, got, c.want)
		}
	}
}

// Two careful readings of one gravity differ by 0.002 at most: so much more than the
// must had is the must that has not begun, more than that is another batch.
func TestAReadingAboveTheMustIsOfAnotherBatch(t *testing.T) {
	for reading, fits := range map[string]bool{"1.0590": true, "1.06198": true, "1.06202": false} {
		for _, field := range []string{"stop_reading", "racked_reading"} {
			for must, named := range map[string]string{`"original_reading": "1.060"`: "original_reading", `"must_reading": "1.060"`: "must_reading"} {
				b := batchOf(t, `{"must": "3 L", `+must+`, "must_temperature": "20 C", "`+field+`": "`+reading+`"}`)
				_, err := b.decide()
				var c *ConflictError
				if fits != (err == nil) || !fits && (!errors.As(err, &c) || c.Fields[0] != field || c.Fields[1] != named) {
					t.Errorf("%s, %s %s: %v", must, field, reading, err)
				}
			}
		}
	}
	b := batchOf(t, `{"must": "3 L", "juice_label": "26 g per 240 mL", "stop_reading": "1.100"}`)
	var c *ConflictError
	if _, err := b.decide(); !errors.As(err, &c) || c.Fields[1] != "juice_label" {
		t.Errorf("%v", err)
	}
}

// The stop that leaves so much sugar leaves the rest of the extract too: what is
// stated by the litre of juice, three quarters of which is the must's; what is known
// of wines, by the litre of wine (95 % point of white wines: 23.6 g/L).
func TestSugarLeftAtTheStopIsExtractLessTheRest(t *testing.T) {
	c := &course{juice: 3, must: 4}
	for _, at := range []struct {
		b    Batch
		want float64
	}{
		{Batch{NotSugar: Is(units.Concentration(20))}, 100 + 15},
		{Batch{Fruit: "juice"}, 100 + 23.6},
	} {
		at.b.StopLeastSugar, at.b.StopFrom = Is(units.Concentration(100)), Is(units.Strength(4))
		goal := handbook.Must(at.b.stopGoal(c))
		if math.Abs(float64(goal.MinExtract)-at.want) > 1e-9 || goal.MinStrength != 4 || goal.MaxStrength != 0 {
			t.Errorf("%+v, want %v g/L of extract", goal, at.want)
		}
	}
}

// More sugar than the unfermented must leaves is refused, with what it does leave;
// a little less is left exactly.
func TestMoreSugarThanTheMustHoldsIsRefused(t *testing.T) {
	const start = `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "fruit": "juice", "spirit_strength": "60 % vol", "target": "15 % vol", `
	l, _ := planOf(t, start+`"stop_at": "0.0001 % vol"}`).Liquid("reachable")
	most := float64(l.Sugar.Low)
	b := batchOf(t, start+`"least_sugar": "`+fmt.Sprint(most+1)+` g/L"}`)
	var outside *units.RangeError
	if _, err := b.Work(); !errors.As(err, &outside) || math.Abs(outside.Max-most) > 0.05 || !strings.HasPrefix(err.Error(), "least_sugar") {
		t.Errorf("%v; %v g/L are left", err, most)
	}
	b = batchOf(t, start+`"least_sugar": "`+fmt.Sprint(most-1)+` g/L"}`)
	l, _ = handbook.Must(b.Work()).Liquid("reachable")
	if math.Abs(float64(l.Sugar.Low)-(most-1)) > 1e-4 {
		t.Errorf("%v g/L are left of %v wanted", l.Sugar.Low, most-1)
	}
}

// Sugar by level US measures: 200 g to a cup, 4.2 g to a teaspoon (USDA), straight
// between them. From a quarter of a cup on it is said to the tablespoon, above a cup
// to the quarter, and then about.
func TestSugarIsSaidByTheCup(t *testing.T) {
	j := &job{b: &Batch{}}
	for grams, want := range map[units.Mass]string{
		0.1:   "",
		48.98: "3 tbsp + 2 3/4 tsp, level", // 4.2 + 10.75/47 x 195.8
		50:    "about 1/4 cup, level",      // 50.03
		137:   "about 1/2 cup + 3 tbsp, level",
		200:   "1 cup, level",
		270:   "about 1 1/4 cups, level", // 1.35
		279:   "about 1 1/2 cups, level", // 1.395
		350:   "1 3/4 cups, level",
	} {
		if got := j.cups(sucrose, grams); got != want {
			t.Errorf("%v g: %q, by hand %q", grams, got, want)
		}
	}
	if got := (&job{b: &Batch{Units: Imperial}}).cups(sucrose, 350); got != "1 3/4 US cups, level" {
		t.Errorf("in an imperial cellar: %q", got)
	}
}

// Each portion has its key, its name and its day; the first says into how much must
// where that is short.
func TestPortionsHaveTheirNames(t *testing.T) {
	for _, c := range []struct{ batch, names string }{
		{`"must": "3 L", "sugar": "300 g"`, "sugar: sugar into 3.00 L of must"},
		{`"must": "9.5 fl oz", "units": "us", "sugar": "30 g"`, "sugar: sugar into 9.5 fl oz of must"},
		{`"must": "12.5 fl oz", "units": "us", "sugar": "30 g"`, "sugar: sugar"}, // 29 letters
		{`"must": "3 kg", "sugar": "300 g"`, "sugar: sugar into 3,000 g of must"},
		{`"must": "3 L", "sugar": ["300 g", "100 g honey after 3 days", "50 g"]`, "sugar: sugar into 3.00 L of must; sugar_2: honey after 3 days; sugar_3: sugar"},
		{`"must": "3 L", "start": "2026-11-25", "sugar": ["300 g after 1.5 days"]`, "sugar: sugar on 26 November"},
	} {
		b := batchOf(t, `{"must_reading": "1.050", "stop_at": "5 % vol", `+c.batch+`}`)
		var s Step
		first := (&job{b: &b}).portions(&s)
		var names []string
		for _, f := range s.Figures {
			names = append(names, f.Key+": "+f.Name)
		}
		if got := strings.Join(names, "; "); got != c.names {
			t.Errorf("%s: %q, want %q", c.batch, got, c.names)
		}
		for _, p := range first.Sugar {
			if p.Days > 0 {
				t.Errorf("%s: %v goes in at the start", c.batch, p)
			}
		}
	}
}

// What the hydrometer shows at the start is said where some of the sugar comes later.
func TestTheFirstReadingIsThatOfTheFirstSugar(t *testing.T) {
	const start = `{"must": "3 L", "must_reading": "1.050", "must_temperature": "20 C", "stop_at": "5 % vol"`
	half := planOf(t, start+`, "sugar": "150 g"}`).stepOf("sugar")
	both := planOf(t, start+`, "sugar": ["150 g", "150 g after 3 days"]}`).stepOf("sugar")
	if a, b := half.given("original_reading").Value, both.given("first_reading").Value; !a.Equal(b) {
		t.Errorf("150 g of sugar are read as %v, and as the first of 300 g as %v", a, b)
	}
	if f := half.given("first_reading"); f.Key != "" || half.Title != "Sugar the must" {
		t.Errorf("%q: %v", half.Title, f)
	}
	if none := planOf(t, start+`}`).stepOf("sugar"); none.Title != "The must, without sugar" {
		t.Errorf("no sugar: %q", none.Title)
	}
}

// A gram of alcohol more than the balance has is more strength, a yeast that gives up
// stops before it.
func TestAMustLeftAloneEndsAtItsSugarOrItsYeast(t *testing.T) {
	b := batchOf(t, `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "stop_at": "5 % vol"}`)
	v := b.values()
	_, free, _, err := b.leftAlone(&v)
	// 1.085 has some 221 g/L of extract, 20 of it no sugar: at 2.07 g for a gram of alcohol
	// (Balling) 97 g, 12.3 % vol of the must, which shrinks.
	if err != nil || free < 12.3 || free > 13.2 {
		t.Errorf("%v %% vol, %v", free, err)
	}
	v[qBalance] = 0.3
	if _, more, _, _ := b.leftAlone(&v); math.Abs(more-free-0.3) > 1e-9 {
		t.Errorf("0.3 %% vol more than %v is %v", free, more)
	}
	b.YeastLimit = Is(units.Strength(8))
	if _, limited, _, _ := b.leftAlone(&v); limited != 8 {
		t.Errorf("a yeast that gives up at 8 %% vol goes to %v", limited)
	}
}

// The mean square of half normal distributions of 2 and 3 on either side is (4 + 9)/2,
// their mean 1/sqrt(2 pi); half a per cent off to the same side adds twice its product
// with that.
func TestTheTwoSidesOfTheEndAddUp(t *testing.T) {
	b := batchOf(t, `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "stop_at": "5 % vol"}`)
	v := b.values()
	w := v
	w[qYeast] = abv.YeastLikely
	_, middle, _, err := b.leftAlone(&w)
	if err != nil {
		t.Fatal(err)
	}
	plain := handbook.Must(b.leftAloneStandard(&v, middle, middle, middle))
	of := handbook.Must(propagated(&v, b.knows(&v), func(v *values) (float64, error) {
		_, likely, _, err := b.leftAlone(v)
		return likely, err
	}))
	if math.Abs(plain-of.Standard) > 1e-9 {
		t.Errorf("with no sides it is good to %v, its inputs give %v", plain, of.Standard)
	}
	likely := middle - 0.5
	wide := handbook.Must(b.leftAloneStandard(&v, likely-1.645*2, likely, likely+1.645*3))
	want := (4.+9)/2 + 2*0.5*1/math.Sqrt(2*math.Pi)
	if got := wide*wide - plain*plain; !(math.Abs(got-want) <= 1e-6) {
		t.Errorf("the sides add %v to the mean square, by hand %v", got, want)
	}
}

// Most yeasts stop before 15 % vol (common practice, no source): beyond that nothing
// is said of where it ends, unless the yeast is known.
func TestBeyondMostYeastsTheEndIsNotPromised(t *testing.T) {
	seen := map[bool]int{}
	for _, og := range []string{"1.095", "1.097", "1.098", "1.099", "1.100"} {
		start := `{"must": "3 L", "original_reading": "` + og + `", "must_temperature": "20 C", "fruit": "juice", "stop_at": "5 % vol"`
		s := planOf(t, start+`}`).stepOf("watch")
		alone := s.given("left_alone").Value.InexactFloat64()
		beyond := strings.Contains(strings.Join(s.Lines, " "), "to the limit of its yeast")
		if beyond != (alone > 15) {
			t.Errorf("%s makes %v %% vol left alone: %q", og, alone, s.Lines)
		}
		if alone > 14.7 && alone < 15.3 {
			seen[beyond]++
		}
		if s := planOf(t, start+`, "yeast_limit": "18 % vol"}`).stepOf("watch"); !strings.Contains(strings.Join(s.Lines, " "), "left alone it makes") {
			t.Errorf("%s with a known yeast: %q", og, s.Lines)
		}
	}
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("none lies near 15 %% vol: %v", seen)
	}
}

// The aim carries its ± as the figure does.
func TestTheAimHasItsLimits(t *testing.T) {
	s := planOf(t, `{"must": "3 L", "must_reading": "1.085 ± 0.002", "must_temperature": "20 C", "stop_at": "5 % vol"}`).stepOf("stop")
	limit := s.given("stop_strength").Limit()
	if want := fmt.Sprintf("5.0 %% vol ± %.1f", limit); s.given("stop_reading").Note != want || limit < 0.2 || limit > 1 {
		t.Errorf("%q, want %q", s.given("stop_reading").Note, want)
	}
}

// What is racked is put down with the room it leaves in the jar, unless a part of it
// is kept elsewhere.
func TestRackedWineSaysWhatRoomItLeaves(t *testing.T) {
	const start = `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "cellar_temperature": "20 C", "stop_at": "5 % vol", "spirit_strength": "60 % vol", "target": "18 % vol", `
	all := planOf(t, start+`"vessel": "9 L"}`).stepOf("rack")
	if note := all.given("racked_measured").Note; !strings.Contains(note, "left of 9.00 L jar") {
		t.Errorf("all of it is fortified: %q", note)
	}
	part := planOf(t, start+`"vessel": "2 L", "fortify": "fill the vessel"}`).stepOf("rack")
	if note := part.given("racked_measured").Note; note != "" {
		t.Errorf("a part of it is fortified: %q", note)
	}
}

// A must known to 0.03 L and a racked wine known to 0.01 L may differ by three times
// the sum of both.
func TestMoreRackedThanTheMustMakesIsSaid(t *testing.T) {
	og := handbook.Must(abv.StopAt(1.085, 5, abv.Must))
	makes := 3 * og.VolumeRatio
	for more, found := range map[float64]bool{-0.1: false, 0.1195: false, 0.1208: true} {
		j := jobOf(t, fmt.Sprintf(`{"must": "3 L ± 0.0588 L", "must_reading": "1.085 ± 0.00001", "must_temperature": "20 C ± 0.01 C", "cellar_temperature": "20 C", "stop_reading": "%.6f ± 0.00001", "racked": "%.5f L ± 0.0196 L"}`,
			float64(og.Gravity), makes+more))
		if err := j.rackedIsThere(); err != nil || (j.keys() == "racked") != found {
			t.Errorf("%.4f L more than the must makes: %q, %v", more, j.keys(), err)
		}
	}
}
