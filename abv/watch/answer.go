package watch

import (
	"fmt"
	"strings"
	"time"
)

// mostApart is how many readings that were set apart the answer names.
const mostApart = 3

// Answer says to a person who asks now, at the clock of place, what the course
// comes to, in sentences: first what was set apart, then how late the next reading
// is, what to do, and when to read again. A now before Asked counts as Asked. What
// stands in it of the Findings is there in the same words.
func (c Course) Answer(now time.Time, place *time.Location) []string {
	if place == nil {
		place = time.UTC
	}
	if now.Before(c.Asked) {
		now = c.Asked
	}
	var out []string
	for _, f := range c.Findings {
		if f.Key == "set_apart" && len(out) < mostApart {
			out = append(out, f.Text)
		}
	}
	if more := len(c.Apart) - mostApart; more > 0 {
		out = append(out, fmt.Sprintf("More readings were set apart: %d, see below.", more))
	}
	late := c.Overdue(now)
	if late >= time.Hour {
		out = append(out, fmt.Sprintf("You are %s late: read now.", lasts(late)))
	}
	out = append(out, c.advice(now, place))
	for _, f := range c.Findings {
		switch f.Key {
		case "stuck", "chilled", "chill_early", "chill_rate":
			out = append(out, f.Text)
		}
	}
	if late < time.Hour && c.ReadAgainBy.After(c.last()) {
		out = append(out, "Read again by "+c.ReadAgainBy.In(place).Format(minutes)+".")
	}
	return out
}

// advice is the one sentence that matters.
func (c Course) advice(now time.Time, place *time.Location) string {
	w, strength := c.Window, float64(c.Now.Likely.Strength)
	limit := c.finding("yeast_limit")
	switch {
	case w.State == NoWindow || c.State == NotBegun || len(c.Points) < 2:
		return sentence(c.Why)
	case w.State == WindowPassed:
		return c.finding("passed")
	case !c.State.falls():
		return sentence(c.Why) + " " + w.where()
	case w.State == WindowAhead && limit != "":
		return limit
	case w.State == WindowOpen && c.Asked.After(c.last()):
		return fmt.Sprintf("By the forecast it is in the window now, with %.1f %% vol: read it, and stop it if that shows so. The window closes: %s.", strength, w.Closes.Text(now, place))
	case w.State == WindowOpen && w.Closes.Early.IsZero():
		return fmt.Sprintf("Stop it now: it has %.1f %% vol. When the window closes is not known.", strength)
	case w.State == WindowOpen:
		return fmt.Sprintf("Stop it now: it has %.1f %% vol. The window closes: %s.", strength, w.Closes.Text(now, place))
	case w.ComeBack.Likely.IsZero():
		return sentence(c.Why) + " When the window opens is not known."
	}
	return c.comeBackSaid(now, place)
}

func (c Course) comeBackSaid(now time.Time, place *time.Location) string {
	w, b := c.Window, c.Window.ComeBack
	form := b.form()
	window := fmt.Sprintf("%.1f to %.1f %% vol", float64(w.From.Strength), float64(w.To.Strength))
	switch {
	case b.Late.Before(now):
		return fmt.Sprintf("The time to come back for %s has passed: %s to %s.", window, said(b.Early, form, place), said(b.Late, form, place))
	case b.Early.Before(now):
		return fmt.Sprintf("Come back now, for %s; it may be too late from %s.", window, said(b.Late, form, place))
	}
	return fmt.Sprintf("Come back %s for %s: best about %s, when the chance of that is %.0f %%.", b.Text(now, place), window, said(b.Likely, form, place), 100*b.Chance)
}

// where says where a wine that does not fall stands to the window.
func (w Window) where() string {
	if w.State == WindowOpen {
		return fmt.Sprintf("That is within the window, %.1f to %.1f %% vol.", float64(w.From.Strength), float64(w.To.Strength))
	}
	return fmt.Sprintf("That is short of the window, which opens at %.1f %% vol.", float64(w.From.Strength))
}

// finding is the text of the first finding of this key; "" where there is none.
func (c Course) finding(key string) string {
	for _, f := range c.Findings {
		if f.Key == key {
			return f.Text
		}
	}
	return ""
}

// sentence is a text with a capital and a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + strings.TrimSuffix(text[1:], ".") + "."
}
