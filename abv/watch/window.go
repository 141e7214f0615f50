package watch

import (
	"example.org/mutage/abv"
)

import "time"

// findWindow places the window of the goal on the course.
func (c *Course) findWindow() error {
	goal := c.must.plan.Goal
	if goal == (abv.Goal{}) {
		return nil
	}
	var err error
	w := &c.Window
	if w.Readings, err = abv.StopWithin(c.Original, goal, c.must.plan.Yield); err != nil {
		return err
	}
	if w.Opening, err = abv.MassBalance(c.Original, w.From, c.must.plan.Yield); err != nil {
		return err
	}
	if w.Closing, err = abv.MassBalance(c.Original, w.To, c.must.plan.Yield); err != nil {
		return err
	}
	if w.Opens, err = c.Reaches(w.From); err != nil {
		return err
	}
	if w.Closes, err = c.Reaches(w.To); err != nil {
		return err
	}
	switch g := c.must.at(c.last().used).Gravity; {
	case g > w.From:
		w.State = WindowAhead
	case g >= w.To:
		w.State = WindowOpen
	default:
		w.State = WindowPassed
	}
	return nil
}

// readAgain is when the next reading is due, not before now.
func (c *Course) readAgain(now time.Time) time.Time {
	last, by := c.last().time, now
	next := c.Window.Opens
	if c.Window.State != WindowAhead {
		next = c.Window.Closes
	}
	switch {
	case c.Window.State == WindowPassed:
	case c.State == NotYetKnown && c.Still == 0, c.State == NotBegun:
		by = last.Add(day)
	case c.Method == NoForecast:
		by = last.Add(c.must.plan.Still)
	case c.Window.State == NoWindow, next.Early.IsZero():
		by = last.Add(day)
	default:
		by = last.Add(next.Early.Sub(last) / 2)
		if !next.Late.IsZero() && next.Late.Sub(next.Early) < next.Early.Sub(last)/2 {
			by = next.Early // known well
		}
		if most := last.Add(2 * day); by.After(most) {
			by = most
		}
	}
	if by.Before(now) {
		by = now
	}
	return by
}
