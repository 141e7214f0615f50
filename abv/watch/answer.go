package watch

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// mostApart is how many readings that were set apart the answer names.
const mostApart = 3

// Answer says to a person who asks now, at the clock of place, what the course
// comes to, in sentences: first what in the log may be wrong and what was set apart,
// then how late the next reading is, what to do, and when to read again. A now before
// Asked counts as Asked, and the last reading is said to lie ahead of the clock where
// it does; zero is not stated. What stands in it of the Findings is there in the same
// words.
func (c Course) Answer(now time.Time, place *time.Location) []string {
	if place == nil {
		place = time.UTC
	}
	out := c.said("instrument")
	if ahead := c.last().Sub(now); !now.IsZero() && ahead > early {
		out = append(out, fmt.Sprintf("The last reading, %s, lies %s ahead of the clock: is its date right, and the time zone? What follows takes it for now.",
			c.last().In(place).Format(noted), lasts(ahead)))
	}
	if now.Before(c.Asked) {
		now = c.Asked
	}
	apart := c.said("set_apart")
	if more := len(apart) - mostApart; more > 0 {
		apart = append(apart[:mostApart], fmt.Sprintf("More readings were set apart: %d, see below.", more))
	}
	out = append(append(out, apart...), c.said("sensor", "sugar_added", "too_fast", "read_once_more")...)
	late := c.Overdue(now)
	if late >= time.Hour {
		out = append(out, fmt.Sprintf("You are %s late: read now.", lasts(late)))
	}
	out = append(append(out, c.said("not_stopped")...), c.advice(now, place))
	if limit := c.finding("yeast_limit"); strings.HasPrefix(limit, mayNot) {
		out = append(out, limit)
	}
	out = append(out, c.said("not_read_since", "arrest_ahead", "stuck", "chilled", "chill_early", "chill_rate")...)
	switch {
	case late >= time.Hour || !c.ReadAgainBy.After(c.lastRead()):
	case late > 0:
		out = append(out, "Read it again now.")
	default:
		out = append(out, "Read again by "+c.ReadAgainBy.In(place).Format(minutes)+".")
	}
	if !c.State.falls() {
		out = append(out, c.said("do_not_seal")...)
	}
	return out
}

// early is how far the last reading may lie ahead of the clock: people note the
// full hour.
const early = 30 * time.Minute

// said are the texts of the findings of these keys.
func (c Course) said(keys ...string) (out []string) {
	for _, f := range c.Findings {
		if slices.Contains(keys, f.Key) {
			out = append(out, f.Text)
		}
	}
	return out
}

// advice is the one sentence that matters.
func (c Course) advice(now time.Time, place *time.Location) string {
	w, strength := c.Window, float64(c.Now.Likely.Strength)
	limit := c.finding("yeast_limit")
	alone := !c.last().After(c.Begins) // the must
	switch {
	case w.State == NoWindow || c.State == NotBegun || alone:
		return sentence(c.Why)
	case w.State == WindowPassed && (c.State.falls() || c.State == NotYetKnown):
		return c.finding("passed")
	case w.State == WindowPassed:
		return c.finding("passed") + " " + sentence(c.Why)
	case !c.State.falls():
		return sentence(c.Why) + " " + w.where()
	case w.State == WindowAhead && strings.HasPrefix(limit, willNot):
		return limit
	case w.State == WindowAhead && !c.Cold && w.ChillBy >= c.Now.Likely.Gravity:
		return fmt.Sprintf("Begin to chill now: it has %.1f %% vol, the window closes at %.1f, and it goes on falling while it cools.", strength, float64(w.To.Strength))
	case w.State == WindowOpen && c.Asked.After(c.last()) && c.Method == NoForecast:
		return fmt.Sprintf("At the last reading, %s, it was in the window, with %.1f %% vol: read it, and stop it at once if it still is. When the window closes is not known.", said(c.last(), minutes, place), strength)
	case w.State == WindowOpen && c.Asked.After(c.last()):
		return fmt.Sprintf("By the forecast it is in the window now, with %.1f %% vol: read it, and stop it if that shows so. The window closes: %s.", strength, w.Closes.Text(now, place))
	case w.State == WindowOpen && c.Cold:
		return fmt.Sprintf("Keep it cold and stop it now: it has %.1f %% vol, within the window, and cold yeast only rests.", strength)
	case w.State == WindowOpen && c.Overdue(now) >= time.Hour:
		return fmt.Sprintf("At the last reading, %s, it was in the window, with %.1f %% vol: read it, and stop it at once if it still is. The window closes: %s.", said(c.last(), minutes, place), strength, w.Closes.Text(now, place))
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

// sentence is a text with a capital and a mark at its end.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	text = strings.ToUpper(text[:1]) + strings.TrimSuffix(text[1:], ".")
	if strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}
