package watch

import (
	"fmt"
	"time"
)

// Forecast is when a gravity is reached: the likely time and the ends of the 80
// % interval. A time that lies beyond the horizon, or never comes, is zero and
// left out of the JSON form. Chance is the probability that it is reached within
// the horizon.
type Forecast struct {
	Early  time.Time `json:"early,omitzero"`
	Likely time.Time `json:"likely,omitzero"`
	Late   time.Time `json:"late,omitzero"`
	Chance float64   `json:"chance"`
}

// Text says the interval to a person who asks now, at the clock of place: no
// minutes where it spans more than six hours, no hours where it spans more than
// four days, and "has passed" for what lies before now.
func (f Forecast) Text(now time.Time, place *time.Location) string {
	if place == nil {
		place = time.UTC
	}
	form := "Mon 2 Jan 15:04"
	switch span := f.Late.Sub(f.Early); {
	case f.Late.IsZero() || span > 4*day:
		form = "Mon 2 Jan"
	case span > 6*time.Hour:
		form = "Mon 2 Jan 15 h"
	}
	say := func(t time.Time) string {
		if form == "Mon 2 Jan 15 h" {
			t = t.Round(time.Hour)
		}
		return t.In(place).Format(form)
	}
	switch {
	case f.Early.IsZero():
		return "not within the horizon"
	case !f.Late.IsZero() && f.Late.Before(now):
		return fmt.Sprintf("has passed (%s to %s)", say(f.Early), say(f.Late))
	case f.Late.IsZero() && f.Early.Before(now):
		return "may have passed already; no end within the horizon"
	case f.Late.IsZero():
		return "not before " + say(f.Early)
	case f.Early.Before(now):
		return fmt.Sprintf("may have passed already, by %s at the latest", say(f.Late))
	case say(f.Early) == say(f.Late):
		return "about " + say(f.Early)
	}
	return say(f.Early) + " to " + say(f.Late)
}

// Overdue is how long the next reading has been due at the time of asking; zero
// where it is not.
func (c Course) Overdue() time.Duration {
	if c.ReadAgainBy.IsZero() || !c.ReadAgainBy.Before(c.Asked) {
		return 0
	}
	return c.Asked.Sub(c.ReadAgainBy)
}
