package watch_test

import (
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
)

// What a log asks for at once is the first sentence, and what does harm is nowhere.
func TestWhatIsUrgentIsSaidFirst(t *testing.T) {
	window := abv.Goal{MinStrength: 5, MaxStrength: 6}
	for name, c := range map[string]struct {
		log         []watch.Reading
		setup       watch.Setup
		first, says string
		never       []string
	}{
		"a day of cooling passes the window": {daily(1.095, 1.088, 1.076, 1.062), watch.Setup{Goal: window, Cooling: 24 * time.Hour},
			"Begin to chill now: it has 4.", "at the latest", []string{"Come back"}},
		"it holds within the window": {daily(1.095, 1.085, 1.070, 1.055, 1.052, 1.052, 1.052, 1.052), watch.Setup{Goal: window},
			"Stuck", "stop it there now", []string{"fresh yeast", "stir up"}},
		"it holds behind the window": {daily(1.095, 1.085, 1.070, 1.040, 1.030, 1.030, 1.030, 1.030), watch.Setup{Goal: window},
			"The window has passed: it has 8.", "Stuck: no fall in 72 h", []string{"fresh yeast", "By the forecast"}},
		"a little is left, which may be no sugar": {daily(1.095, 1.070, 1.040, 1.010, 1.008, 1.008, 1.008, 1.008), watch.Setup{},
			"Stuck", "measure the sugar first", nil},
		"it was stopped": {daily(1.095, 1.085, 1.070, 1.055, 1.052, 1.052, 1.052, 1.052), watch.Setup{Goal: window, Arrested: after(80)},
			"Stopped", "keep it under an airlock", []string{"Read again", "Stop it now"}},
		"a limit that nobody knows so well": {daily(1.095, 1.090, 1.080, 1.070), watch.Setup{Goal: window, YeastLimit: 5.5},
			"Come back", "It may not get there", []string{"100 %"}},
		"a limit far below": {daily(1.095, 1.090, 1.085, 1.080), watch.Setup{Goal: window, YeastLimit: 3.5},
			"It will not get there", "gives up at 3.5", nil},
	} {
		course, err := watch.Follow(c.log, c.setup)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		answer := course.Answer(time.Time{}, time.UTC)
		all := strings.Join(answer, "\n")
		if !strings.HasPrefix(answer[0], c.first) || !strings.Contains(all, c.says) {
			t.Errorf("%s: %q", name, answer)
		}
		for _, never := range c.never {
			if strings.Contains(all, never) {
				t.Errorf("%s says %q: %q", name, never, answer)
			}
		}
	}
}

// The wine a minute behind the last reading is as uncertain as at it, and what the
// window closes by is no surer than a reading.
func TestTheForecastBeginsAsUncertainAsTheReading(t *testing.T) {
	log := daily(1.095, 1.088, 1.076, 1.062)
	last := log[len(log)-1].Time
	at, err := watch.Follow(log, watch.Setup{})
	if err != nil {
		t.Fatal(err)
	}
	soon, err := watch.Follow(log, watch.Setup{Now: last.Add(time.Minute)})
	if err != nil {
		t.Fatal(err)
	}
	width := func(o watch.Outlook) gravity.SG { return o.Less.Gravity - o.More.Gravity }
	if a, b := width(at.Now), width(soon.Now); a < 0.0017 || b < 0.98*a {
		t.Errorf("%.5f at the reading, %.5f a minute later; want 2.56 times 0.0007 at least", float64(a), float64(b))
	}
}
