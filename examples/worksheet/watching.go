package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"

	"example.org/mutage/abv/watch"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
	"github.com/shopspring/decimal"
)

// watchCommand says from the log of a fermentation when to come back.
func watchCommand(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	plan := watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}}
	made := units.Celsius(20)
	f.Flags(set)
	set.Var(&plan.Goal.MinStrength, "from", "least strength wanted")
	set.Var(&plan.Goal.MaxStrength, "to", "greatest strength wanted")
	set.Var(&plan.Goal.MinExtract, "least-sugar", `least sugar wanted, such as "120 g/L"`)
	set.Var(&plan.Must, "must", "volume of must, where the vessel was weighed")
	set.Var(&plan.YeastLimit, "yeast-limit", "alcohol tolerance of the yeast")
	set.Var(&made, "hydrometer", "temperature the hydrometer is made for")
	zone := set.String("zone", "Local", `time zone of times without one, such as "Europe/Vienna"`)
	rest, err := parseForm(&f, set, args)
	if err != nil {
		return err
	}
	if len(rest) > 1 {
		return fmt.Errorf("%w: watch [FILE]: one log, or standard input; found %q", errUsage, rest)
	}
	place, err := time.LoadLocation(*zone)
	if err != nil {
		return fmt.Errorf("%w: -zone: %v", errUsage, err)
	}
	in, name := io.Reader(os.Stdin), "standard input"
	if len(rest) == 1 {
		file, err := os.Open(rest[0])
		if err != nil {
			return err
		}
		defer file.Close()
		in, name = file, rest[0]
	}
	log, err := watch.ReadLog(in, place)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	plan.Hydrometer = gravity.NewHydrometer(made)
	c, err := watch.Follow(log, plan)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return f.Print(coursePage(c, log, &f), out)
}

func coursePage(c watch.Course, log []watch.Reading, f *page.Form) page.Page {
	p := page.Page{Title: "Watch", Answer: []string{windowSaid(c, f)}}
	s := page.Section{Title: "Now"}
	now := c.Now.Likely
	s.Add("true gravity", f.Gravity("gravity", float64(now.Gravity)))
	s.Add("alcohol", f.Strength("strength", now.Strength))
	s.Add("sugar left", f.Plain("extract", float64(now.Extract), 0, "g/L"))
	rate := f.Plain("rate", c.Rate, 1, "points a day")
	if c.RateUncertainty > 0 {
		rate.Uncertainty = decimal.NullDecimal{Decimal: units.Round(c.RateUncertainty, 1), Valid: true}
	}
	s.Add("falling by", rate)
	s.Say("%s. The forecast rests on: %v.", c.Why, c.Method)
	for _, a := range c.Apart {
		s.Say("Set apart: the reading of %s (%v).", when(log[a.Index].Time), a.Reason)
	}
	p.Sections = append(p.Sections, s)
	if w := c.Window; w.State != watch.NoWindow {
		s := page.Section{Title: "The window"}
		s.Add("opens at", f.Gravity("window_from", float64(w.From.Gravity)))
		s.Add("closes at", f.Gravity("window_to", float64(w.To.Gravity)))
		s.Say("Opens %s; closes %s (8 times in 10).", between(w.Opens), between(w.Closes))
		p.Sections = append(p.Sections, s)
	}
	course := page.Section{Title: "Course: o reading, x set apart, + forecast, dots the window"}
	course.Lines = page.Chart(marks(c, log), [2]float64{float64(c.Window.To.Gravity), float64(c.Window.From.Gravity)}, 14, 3)
	p.Sections = append(p.Sections, course)
	return p
}

func windowSaid(c watch.Course, f *page.Form) string {
	again := "Read again by " + when(c.ReadAgainBy) + "."
	switch c.Window.State {
	case watch.WindowPassed:
		return fmt.Sprintf("The window has passed: it has %s now.", page.Said(f.Strength("", c.Now.Likely.Strength)))
	case watch.WindowOpen:
		return fmt.Sprintf("Stop it now: it has %s. The window closes %s.", page.Said(f.Strength("", c.Now.Likely.Strength)), between(c.Window.Closes))
	case watch.WindowAhead:
		if !c.Window.Opens.Likely.IsZero() && !c.Window.Closes.Likely.IsZero() {
			return fmt.Sprintf("Come back %s to %s; by then %s to %s. %s", when(c.Window.Opens.Likely), when(c.Window.Closes.Likely),
				f.Strength("", c.Window.From.Strength).Fixed(), page.Said(f.Strength("", c.Window.To.Strength)), again)
		}
	}
	return fmt.Sprintf("It is %v. %s", c.State, again)
}

func when(t time.Time) string { return t.Format("Monday 2 January 15:04") }

func between(w watch.Forecast) string {
	switch {
	case w.Early.IsZero():
		return "not within the horizon"
	case w.Late.IsZero():
		return "not before " + when(w.Early)
	}
	return when(w.Early) + " to " + when(w.Late)
}

func marks(c watch.Course, log []watch.Reading) []page.Mark {
	start := c.Begins
	mark := func(t time.Time, g gravity.SG, sign rune) page.Mark {
		return page.Mark{X: t.Sub(start).Hours(), Y: float64(g), Sign: sign}
	}
	var out []page.Mark
	end := c.Horizon
	if close := c.Window.Closes.Late; !close.IsZero() && close.Before(end) {
		end = close
	}
	for t := start; !t.After(end); t = t.Add(max(end.Sub(start)/64, time.Minute)) {
		if o, ok := c.At(t); ok {
			out = append(out, mark(t, o.Likely.Gravity, '+'))
		}
	}
	for _, a := range c.Apart {
		if g := log[a.Index].Reading; g > 0 && !log[a.Index].Time.Before(start) {
			out = append(out, mark(log[a.Index].Time, g, 'x'))
		}
	}
	for _, q := range c.Points {
		out = append(out, mark(q.Time, q.Gravity, 'o'))
	}
	return out
}
