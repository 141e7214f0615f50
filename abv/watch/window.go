package watch

import (
	"time"

	"example.org/mutage/abv"
)

// findWindow places the window of the goal on the course.
func (c *Course) findWindow() error {
	goal := c.must.plan.Goal
	if goal == (abv.Goal{}) {
		return nil
	}
	var err error
	w := &c.Window
	if w.Window, err = abv.StopWithin(c.Original, goal, c.must.plan.Yield); err != nil {
		return err
	}
	if w.Opens, err = c.Reaches(w.From.Gravity); err != nil {
		return err
	}
	if w.Closes, err = c.Reaches(w.To.Gravity); err != nil {
		return err
	}
	switch g := c.must.at(c.last().used).Gravity; {
	case g > w.From.Gravity:
		w.State = WindowAhead
	case g >= w.To.Gravity:
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
