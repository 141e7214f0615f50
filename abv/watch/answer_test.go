package watch_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/units"
)

// A log that ends chilled is not told to be stopped, and a reader who comes days
// after the next reading was due is told how late it is.
func TestTheAnswerIsForWhoAsksNow(t *testing.T) {
	log, err := watch.ReadLog(strings.NewReader("time,gravity,temperature\n"+
		"2026-10-01 08:00,1.095,22 C\n2026-10-02 08:00,1.075,22 C\n2026-10-03 08:00,1.064,22 C\n"), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	c, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
	if err != nil {
		t.Fatal(err)
	}
	soon, late := c.Answer(log[2].Time, nil), c.Answer(c.ReadAgainBy.Add(14*time.Hour), nil)
	if !slices.ContainsFunc(soon, func(s string) bool { return strings.HasPrefix(s, "Read again by ") }) {
		t.Errorf("at the last reading: %q", soon)
	}
	if !slices.ContainsFunc(late, func(s string) bool { return strings.HasPrefix(s, "You are 14 h late: read now") }) {
		t.Errorf("14 hours after %v: %q", c.ReadAgainBy, late)
	}

	cold := slices.Clone(log)
	for i := range 2 {
		cold = append(cold, watch.Reading{Time: log[2].Time.Add(time.Duration(24*(i+1)) * time.Hour), Reading: 1.059, Temperature: units.Celsius(4)})
	}
	if c, err = watch.Follow(cold, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}); err != nil {
		t.Fatal(err)
	}
	if answer := c.Answer(c.Asked, nil); strings.Contains(strings.Join(answer, " "), "Stop it now") {
		t.Errorf("chilled and still: %q", answer)
	}
}

// A date of two readings is refused with both; the order settles it, and so does a
// number above 12.
func TestATimeIsReadAsThoseOfALog(t *testing.T) {
	day := time.Date(2026, 11, 20, 8, 30, 0, 0, time.UTC)
	for text, f := range map[string]watch.Format{
		"2026-11-20 08:30":     {},
		"20.11.2026 8:30":      {},
		"11/20/2026 8:30 AM":   {},
		"2026-11-20T08:30:00Z": {},
	} {
		if got, err := f.ParseTime(text); err != nil || !got.Equal(day) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if got, err := (watch.Format{}).ParseTime("03/04/2026"); !errors.Is(err, watch.ErrDateOrder) {
		t.Errorf("03/04/2026 is read as %v, %v", got, err)
	}
	for order, month := range map[watch.DateOrder]time.Month{watch.DayFirst: time.April, watch.MonthFirst: time.March} {
		if got, err := (watch.Format{Order: order}).ParseTime("03/04/2026"); err != nil || got.Month() != month {
			t.Errorf("03/04/2026, %v: %v, %v", order, got, err)
		}
	}
	if got, err := (watch.Format{}).ParseTime("tomorrow"); err == nil {
		t.Errorf("tomorrow is read as %v", got)
	}
}
