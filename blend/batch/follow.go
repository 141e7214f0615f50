package batch

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// follow is the course of the fermentation by the readings of the batch, to a goal;
// nil where there are none.
func (j *job) follow(goal abv.Goal) (*watch.Course, error) {
	b := j.b
	if len(b.Readings) == 0 {
		return nil, nil
	}
	s := watch.Setup{Hydrometer: b.hydrometer(), Original: j.c.og, Started: b.Start, YeastLimit: b.YeastLimit.Value, Goal: goal}
	log := make([]watch.Reading, len(b.Readings))
	for i, r := range b.Readings {
		log[i] = watch.Reading{Time: r.Time, Reading: r.Reading, Temperature: r.Temperature}
	}
	course, err := watch.Follow(log, s)
	return &course, inField("readings", err)
}

// goal is the window to stop in, or half a per cent from the aim on; before the last
// stop where that is reckoned from the sugar of the blend.
func (j *job) goal() (abv.Goal, error) {
	b, stop := j.b, j.c.wine.Strength
	switch {
	case b.StopFrom.Known || b.StopTo.Known || b.StopLeastSugar.Known:
		return b.stopGoal(&j.c)
	case b.StopAt.Known:
		return abv.Goal{MinStrength: b.StopAt.Value, MaxStrength: b.StopAt.Value + aimWidth}, nil
	}
	return abv.Goal{MinStrength: max(stop-aimWidth, 0), MaxStrength: stop}, nil
}

// aimWidth is how wide the window of a single aim is: what a hydrometer tells.
const aimWidth units.Strength = 0.5

// followed puts what the log says into the steps to watch and to stop, moves the
// dates of those behind, and finds a window that has passed.
func (j *job) followed(steps []Step) error {
	goal, err := j.goal()
	if err != nil {
		return err
	}
	c, err := j.follow(goal)
	if err != nil || c == nil {
		return err
	}
	watching, stop := &steps[0], &steps[1]
	watching.Lines = c.Answer(c.Asked, c.Asked.Location())
	if why := capital(c.Why) + "."; !slices.ContainsFunc(watching.Lines, func(l string) bool { return strings.HasPrefix(l, why) }) {
		watching.Lines = append([]string{why}, watching.Lines...)
	}
	for _, f := range figure.Part("log", "by the log", c.Figures()) {
		if f.Source == "" {
			f.Source = "the readings of the batch"
		}
		watching.Figures = append(watching.Figures, f)
	}
	w := c.Window
	if w.State == watch.WindowPassed {
		return j.passed(c)
	}
	if w.Opens.Likely.IsZero() {
		return nil
	}
	if late := w.Opens.Likely.Sub(stop.From); !stop.From.IsZero() {
		for i := range steps[2:] {
			if s := &steps[2+i]; !s.From.IsZero() {
				s.From, s.To = s.From.Add(late).Round(time.Hour), s.To.Add(late).Round(time.Hour)
			}
		}
	}
	stop.From, stop.To, stop.Usual = w.Opens.Likely, w.Closes.Likely, false
	return nil
}

// comparedWithLog holds what the plan takes for the stop against the last reading of
// the log: a gravity falls or holds, and never rises.
func (j *job) comparedWithLog(stop *Step) error {
	b := j.b
	if b.ferments() {
		return nil // see followed
	}
	c, err := j.follow(abv.Goal{})
	if err != nil || c == nil || len(c.Points) == 0 {
		return err
	}
	for _, f := range c.Findings {
		if f.Key == "set_apart" {
			stop.Lines = append(stop.Lines, f.Text)
		}
	}
	last, is := c.Points[len(c.Points)-1], j.c.wine
	field, stated := "the plan", true
	switch {
	case b.RackedReading.Known:
		field = "racked_reading"
	case b.StopReading.Known:
		field = "stop_reading"
	default:
		stated = false
	}
	read := fmt.Sprintf("the last reading of the log, %.4f at 20 C on %s", float64(last.Gravity), last.Time.Format("2006-01-02 15:04"))
	wine := fmt.Sprintf("%.4f at 20 C", float64(is.Gravity))
	switch fell := last.Gravity - is.Gravity; {
	case fell < -readsAlike:
		j.find("log_contradicts", Warn, "By %s it stopped at %s (%s), above %s (%s): a gravity does not rise. Either it went on after the stop, or one of them is misread: read it again before you go by this plan.",
			field, wine, say.Strength(is.Strength), read, say.Strength(c.Now.Likely.Strength))
	case fell > readsAlike && !stated:
		j.find("log_contradicts", Warn, "Nothing that was read says that it stopped at %s (%s), as the plan has it: %s, has %s. State what was read as stop_reading.",
			wine, say.Strength(is.Strength), read, say.Strength(c.Now.Likely.Strength))
	case fell > readsAlike:
		stop.Lines = append(stop.Lines, fmt.Sprintf("It went on to %s after %s.", wine, read))
	default:
		stop.Lines = append(stop.Lines, fmt.Sprintf("It agrees with %s.", read))
	}
	return nil
}

// passed finds that the window has passed, and what is still possible: the blend of
// the wine as the log has it.
func (j *job) passed(c *watch.Course) error {
	b, d := j.b, j.d
	now := c.Now.Likely
	text := fmt.Sprintf("By the log it has %s already, past the stop that you want. Read it: with that as stop_reading the plan goes on from there.", say.Strength(now.Strength))
	if b.Target.Known {
		d.v[qStop] = float64(now.Gravity)
		if err := b.pour(&d); err != nil {
			return err
		}
		then, err := b.run(&d.v)
		if err != nil {
			return err
		}
		sugars, err := b.sugars(&then, then.blend.Extract, then.unsweet, then.blend.Volume)
		if err != nil {
			return err
		}
		text += fmt.Sprintf(" Stopped now, it takes %s of %s and makes %s with %s g/L of sugar at least.", b.Units.Volume(then.spirit.Volume), then.spirit.Name, say.Strength(then.blend.Strength), units.Round(float64(sugars.Low), 0))
	}
	j.find("window_passed", Stop, "%s", text)
	return nil
}
