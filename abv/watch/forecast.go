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

// How exactly times are said.
const (
	minutes   = "Mon 2 Jan 15:04"
	fullHours = "Mon 2 Jan 15 h"
	days      = "Mon 2 Jan"
)

// form is how exactly the times of a forecast are said: no minutes where it spans
// more than six hours, no hours where it spans more than four days.
func (f Forecast) form() string {
	switch span := f.Late.Sub(f.Early); {
	case f.Late.IsZero() || span > 4*day:
		return days
	case span > 6*time.Hour:
		return fullHours
	}
	return minutes
}

// said is a time at the clock of place.
func said(t time.Time, form string, place *time.Location) string {
	if form == fullHours {
		t = t.Round(time.Hour)
	}
	return t.In(place).Format(form)
}

// Text says the interval to a person who asks now, at the clock of place: no
// minutes where it spans more than six hours, no hours where it spans more than
// four days, and "has passed" for what lies before now.
func (f Forecast) Text(now time.Time, place *time.Location) string {
	if place == nil {
		place = time.UTC
	}
	early, late := said(f.Early, f.form(), place), said(f.Late, f.form(), place)
	switch {
	case f.Early.IsZero():
		return "not within the horizon"
	case !f.Late.IsZero() && f.Late.Before(now):
		return fmt.Sprintf("has passed (%s to %s)", early, late)
	case f.Late.IsZero() && f.Early.Before(now):
		return "may have passed already; no end within the horizon"
	case f.Late.IsZero():
		return "not before " + early
	case f.Early.Before(now):
		return fmt.Sprintf("may have passed already, by %s at the latest", late)
	case early == late:
		return "about " + early
	}
	return early + " to " + late
}

// Overdue is how long the next reading has been due now, and not before the time of
// asking; zero where it is not.
func (c Course) Overdue(now time.Time) time.Duration {
	if now.Before(c.Asked) {
		now = c.Asked
	}
	if c.ReadAgainBy.IsZero() || !c.ReadAgainBy.Before(now) {
		return 0
	}
	return now.Sub(c.ReadAgainBy)
}
