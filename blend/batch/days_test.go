package batch

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/additions/stability"
	"example.org/mutage/units"
)

// The usual days of every step, counted by hand on a calendar from 25 November, ten
// at night (common practice, no source).
func TestEveryStepHasItsDays(t *testing.T) {
	p := planOf(t, `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "start": "2026-11-25 22:00", "stop_at": "5 % vol", "sulfite": "50 mg/L",
		"spirit_strength": "60 % vol", "target": "18 % vol", "vessel": "2 L", "fortify": "fill the vessel", "wood": "10 g", "bottles": ["500 mL"]}`)
	for key, want := range map[string][2]string{
		"sugar":  {"2026-11-25", "2026-11-25"},
		"watch":  {"2026-11-26", "2026-11-28"}, // the day after to day 3
		"stop":   {"2026-11-28", "2026-12-09"}, // day 3 to 14
		"rack":   {"2026-11-28", "2026-12-16"}, // day 3 to 21
		"dose":   {"2026-11-30", "2026-12-16"}, // day 5 to 21
		"pour":   {"2026-11-30", "2026-12-16"},
		"keep":   {"2026-11-30", "2026-12-14"}, // two weeks
		"rest":   {"2026-11-30", "2027-03-16"}, // 90 days after day 21
		"bottle": {"2027-01-13", "2027-03-16"}, // 28 days after day 21
		"hand":   {"0001-01-01", "0001-01-01"},
	} {
		s := p.stepOf(key)
		hour := "22:00"
		if key == "hand" {
			hour = "00:00"
		}
		if got := [2]string{s.From.Format("2006-01-02 15:04"), s.To.Format("2006-01-02 15:04")}; got[0] != want[0]+" "+hour || got[1] != want[1]+" "+hour {
			t.Errorf("%s: %v, by the calendar %v at %s", key, got, want, hour)
		}
		if usual := key != "sugar" && key != "hand"; s.Usual != usual {
			t.Errorf("%s: from %v to %v is the practice of the trade: %v", key, s.From, s.To, s.Usual)
		}
	}
	// A week after day 5.
	if note := p.stepOf("rest").given("oak").Note; !strings.HasPrefix(note, "taste weekly, from 7 Dec") {
		t.Errorf("wood: %q", note)
	}
	if lines := p.stepOf("keep").Lines; !slices.Contains(lines, "Drink it by 14 December 2026.") {
		t.Errorf("kept: %q", lines)
	}
}

// Without a start no step has a day, none is the usual one, and none is said.
func TestWithoutAStartNothingHasADay(t *testing.T) {
	p := planOf(t, `{"must": "3 L", "must_reading": "1.085", "must_temperature": "20 C", "stop_at": "5 % vol",
		"spirit_strength": "60 % vol", "target": "18 % vol", "vessel": "2 L", "fortify": "fill the vessel", "wood": "10 g"}`)
	for _, s := range p.Steps {
		if !s.From.IsZero() || !s.To.IsZero() || s.Usual {
			t.Errorf("%s: %v to %v, %v", s.Key, s.From, s.To, s.Usual)
		}
	}
	if note := p.stepOf("rest").given("oak").Note; !strings.HasPrefix(note, "taste weekly; keeps") {
		t.Errorf("wood: %q", note)
	}
	if lines := strings.Join(p.stepOf("keep").Lines, " "); strings.Contains(lines, "Drink it by") {
		t.Errorf("kept: %q", lines)
	}
}

// A rested blend is checked after it was poured and before it rests, is bottled or
// drunk.
func TestTheBlendIsCheckedBeforeItRests(t *testing.T) {
	const start = `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "sulfite": "50 mg/L", "spirit_strength": "40 % vol", "blend_reading": "1.020", "spirit_poured": `
	for more, next := range map[string]string{`"1 L"}`: "rest", `"1 L", "bottles": ["750 mL"]}`: "rest", `"0 L", "bottles": ["750 mL"]}`: "bottle", `"0 L"}`: "drink"} {
		p := planOf(t, start+more)
		i := slices.IndexFunc(p.Steps, func(s Step) bool { return s.Key == "check" })
		if i < 1 || p.Steps[i+1].Key != next {
			t.Errorf("%s: step %d, then %s", more, i, p.Steps[min(i+1, len(p.Steps)-1)].Key)
		}
	}
}

// A thousandth of what is in it is how full a jar can be called: above and below it
// the room is said.
func TestAJarIsFullWithinAThousandth(t *testing.T) {
	j := &job{b: &Batch{Vessel: Is(units.Volume(10.5)), Headspace: Is(units.Volume(0.2))}, d: decision{room: 9.8}} // 0.5 L of wood
	for v, want := range map[units.Volume]string{
		10:     "the jar is full",
		9.9901: "the jar is full", // 9.9 mL are left, and 9.99 allowed
		9.9899: "10 mL left of 10.5 L jar",
		10.01:  "the jar is full",
		10.011: "11 mL too much for the jar",
		8:      "2.00 L left of 10.5 L jar",
	} {
		if got := j.leaves(v); got != want {
			t.Errorf("%v L: %q, by hand %q", v, got, want)
		}
	}
	if got := (&job{b: &Batch{}}).leaves(3); got != "" {
		t.Errorf("no jar: %q", got)
	}
	for room, is := range map[units.Volume]bool{0: false, 1: true} {
		if _, got := (&job{b: &Batch{}, d: decision{room: room}}).roomLeft(0.5); got != is {
			t.Errorf("a vessel with room for %v is one: %v", room, got)
		}
	}
}

// Two molecules of SO2 of 64.06 in potassium metabisulfite of 222.32, sorbic acid of
// 112.13 in the sorbate of 150.22.
func TestSaltsAreWeighedByTheirFormula(t *testing.T) {
	if got := sulfiting.Method; !strings.HasPrefix(got, "57.6 % SO2 by formula") {
		t.Errorf("%q", got)
	}
	if got := sorbating.Method; !strings.HasPrefix(got, "74.6 % sorbic acid by formula") {
		t.Errorf("%q", got)
	}
}

// Wood is tasted from the day on that is said, its losses are said from half a
// millilitre on: at most 1.2 mL a gram (common practice, no source).
func TestWhatWoodKeepsIsSaidFromHalfAMillilitre(t *testing.T) {
	for wood, said := range map[string]bool{"0.4133 g": false, "0.4233 g": true, "10 g": true} { // 0.496 and 0.508 mL
		s := planOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "spirit_strength": "40 % vol", "spirit_poured": "1 L", "wood": "`+wood+`"}`).stepOf("rest")
		if note := s.given("oak").Note; strings.Contains(note, "keeps") != said || s.Title != "Wood, rest" {
			t.Errorf("%s: %q, %q", wood, s.Title, note)
		}
	}
	s := planOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "spirit_strength": "40 % vol", "spirit_poured": "1 L"}`).stepOf("rest")
	if f := s.given("oak"); f.Key != "" || s.Title != "Rest" {
		t.Errorf("no wood: %q, %+v", s.Title, f)
	}
	if s := planOf(t, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046"}`).stepOf("rest"); s.Key != "" {
		t.Errorf("a wine without spirit: %+v", s)
	}
}

// What is still is bottled, what is not is not; a caution of the bottle stands there
// once, or at the end where there are no bottles.
func TestOnlyWhatIsStillIsBottled(t *testing.T) {
	const wine = `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "spirit_strength": "75 % vol", `
	for _, c := range []struct {
		more  string
		still bool
	}{{`"spirit_poured": "1.2 L"`, true}, {`"spirit_poured": "0.2 L"`, false}} {
		for bottles, step := range map[string]string{`, "bottles": ["750 mL"]}`: "bottle", `}`: "drink"} {
			p := planOf(t, wine+c.more+bottles)
			s := p.stepOf(step)
			if got := slices.Contains(s.Lines, stability.BurstWarning); got == c.still {
				t.Errorf("%s%s: said %v: %q", c.more, bottles, got, s.Lines)
			}
			if step == "bottle" && (s.Title == "Bottle") != c.still {
				t.Errorf("%s: %q", c.more, s.Title)
			}
			if step == "bottle" && slices.Contains(p.stepOf("drink").Lines, stability.BurstWarning) {
				t.Errorf("%s: said twice", c.more)
			}
		}
	}
}

// No step has a time between two hours.
func TestDaysAreRoundedToTheHour(t *testing.T) {
	j := &job{b: &Batch{Start: time.Date(2026, 11, 25, 18, 20, 0, 0, time.UTC)}}
	from, to := j.days(1.5, 2)
	if from != time.Date(2026, 11, 27, 6, 0, 0, 0, time.UTC) || to != time.Date(2026, 11, 27, 18, 0, 0, 0, time.UTC) {
		t.Errorf("%v, %v", from, to)
	}
}

// Five digits stand in any size of batch, and as many again when they come back.
func TestPlacesAreThoseOfWhatIsPrinted(t *testing.T) {
	for x, want := range map[float64]int32{3: 4, 12.5: 4, 0.5: 5, 0.0123: 6, 0.999994: 5, 0.999996: 4, 0.0999999: 5, 0: 4, 1e-30: 34} {
		if got := places(x, 4); got != want {
			t.Errorf("%v has %d places, by hand %d", x, got, want)
		}
	}
	for k := range 60 {
		x := []float64{1, 1.00001, 9.99994, 9.99996, 9.999999}[k%5] * math.Pow10(k/5-6)
		n := places(x, 1)
		if again := places(units.Round(x, n).InexactFloat64(), 1); again != n {
			t.Errorf("%v has %d places, and as it is printed %d", x, n, again)
		}
	}
}
