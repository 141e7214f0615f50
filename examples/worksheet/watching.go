package main

import (
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/files"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// watching is what the flags of the command say.
type watching struct {
	sheet.Form
	setup                     watch.Setup
	format                    watch.Format
	hydrometer                units.Temperature
	started, arrested, now    string
	zone, dates, degrees, svg string
	factor                    number
}

func (w *watching) flags(set *flag.FlagSet) {
	w.setup.Goal = abv.Goal{MinStrength: 5, MaxStrength: 6}
	w.hydrometer = units.Celsius(20)
	w.Flags(set)
	set.Var(&w.setup.Goal.MinStrength, "from", "least strength wanted")
	set.Var(&w.setup.Goal.MaxStrength, "to", "greatest strength wanted")
	set.Var(&w.setup.Goal.MinExtract, "least-sugar", `least extract wanted, such as "120 g/L"`)
	set.Var(&w.setup.Original, "og", "original gravity, true at 20 C, of a log that begins after the start")
	set.StringVar(&w.started, "started", "", "time of the start, beside -og")
	set.Var(&w.setup.Must, "must", "volume of must, where the vessel was weighed")
	set.Var(&w.setup.YeastLimit, "yeast-limit", "strength up to which the yeast ferments")
	set.Var(&w.hydrometer, "hydrometer", "temperature the hydrometer is made for; a column brix is then of one")
	set.BoolVar(&w.format.Refractometer, "refractometer", false, "a column brix is of a refractometer")
	set.Var(&w.factor, "factor", "of the refractometer in this must, 0.9 to 1.15")
	set.BoolVar(&w.format.Sensor, "sensor", false, "read by a floating sensor: averaged by the hour, uncertainty 0.002")
	set.Func("cooling", "how long the vessel takes to get cold, such as 12h", func(text string) (err error) {
		w.setup.Cooling, err = time.ParseDuration(strings.ReplaceAll(text, " ", ""))
		return err
	})
	set.StringVar(&w.arrested, "arrested", "", "time at which it was stopped")
	set.StringVar(&w.now, "now", "", "time of asking, or clock; without it the last reading is now")
	set.StringVar(&w.zone, "zone", "Local", `time zone of times without one, such as "Europe/Vienna"`)
	set.StringVar(&w.dates, "dates", "", "day or month: what stands first in dates such as 3/4/2026")
	set.StringVar(&w.degrees, "degrees", "", "C or F: unit of temperatures without one")
	set.StringVar(&w.svg, "svg", "", "draw the course in a `file`")
}

// settle reads the flags that are texts.
func (w *watching) settle() error {
	wrong := func(name string, err any) error { return fmt.Errorf("%w: -%s: %v", errUsage, name, err) }
	var err error
	if w.format.Place, err = time.LoadLocation(w.zone); err != nil {
		return wrong("zone", err)
	}
	one := func(name, text string, codes ...string) (int, error) {
		i := slices.Index(append([]string{""}, codes...), text)
		if i < 0 {
			return 0, wrong(name, fmt.Sprintf("%q: expected %s", text, strings.Join(codes, " or ")))
		}
		return i, nil
	}
	order, err := one("dates", strings.ToLower(w.dates), "day", "month")
	if err != nil {
		return err
	}
	degrees, err := one("degrees", strings.ToUpper(w.degrees), "C", "F")
	if err != nil {
		return err
	}
	w.format.Order, w.format.Temperature = watch.DateOrder(order), watch.TemperatureScale(degrees)
	if w.now == "clock" {
		w.setup.Now, w.now = clock(), ""
	}
	for _, t := range []struct {
		name, text string
		to         *time.Time
	}{{"started", w.started, &w.setup.Started}, {"arrested", w.arrested, &w.setup.Arrested}, {"now", w.now, &w.setup.Now}} {
		if t.text == "" {
			continue
		}
		if *t.to, err = w.format.ParseTime(t.text); err != nil {
			return wrong(t.name, err)
		}
	}
	if g := w.setup.Goal; g.MinStrength >= g.MaxStrength {
		return fmt.Errorf("%w: the window is -from %v -to %v: say both, the greater behind -to (5 to 6 %% vol where none is said)", errUsage, g.MinStrength, g.MaxStrength)
	}
	if w.started != "" && w.setup.Original == 0 {
		return wrong("started", "it goes with -og")
	}
	w.setup.Hydrometer, w.setup.Factor = gravity.NewHydrometer(w.hydrometer), float64(w.factor)
	if w.format.Sensor {
		w.setup.Uncertainty = watch.SensorUncertainty
	}
	return nil
}

// clock is when the command is asked.
var clock = time.Now

// watchCommand says from the log of a fermentation when to come back.
func watchCommand(set *flag.FlagSet, args []string, out io.Writer) error {
	var w watching
	w.flags(set)
	rest, err := parse(set, args)
	if err != nil {
		return err
	}
	if err := w.Check(); err != nil {
		return err
	}
	if len(rest) > 1 {
		return fmt.Errorf("%w: watch [FILE]: one log, or standard input; found %q", errUsage, rest)
	}
	if err := w.settle(); err != nil {
		return err
	}
	in, name, err := files.Open(append(rest, "-")[0])
	if err != nil {
		return err
	}
	defer in.Close()
	w.format.Hydrometer = given(set)["hydrometer"]
	reader, content := kept(files.Bounded(in), given(set))
	log, err := watch.ReadLogAs(reader, w.format)
	if err != nil {
		return fmt.Errorf("%s: %w%s", name, err, hint(err))
	}
	if err := w.unused(given(set), log, content.Bytes()); err != nil {
		return err
	}
	c, err := watch.Follow(log, w.setup)
	if err != nil {
		return fmt.Errorf("%s: %w%s", name, err, hint(err))
	}
	if w.svg != "" {
		if err := draw(c, w.svg, w.format.Place); err != nil {
			return err
		}
	}
	s := w.sheet(c, log)
	switch {
	case w.JSON:
		return sheet.WriteJSON(w.json(c, s), out)
	case w.CSV:
		return courseCSV(c, s, out)
	}
	return w.Print(s, out)
}

// hint names the flags that settle an error.
func hint(err error) string {
	var r *units.RangeError
	switch {
	case errors.Is(err, watch.ErrDateOrder):
		return "\n-dates day or -dates month settles it"
	case errors.Is(err, watch.ErrTemperatureUnit):
		return "\n-degrees C or -degrees F settles it"
	case errors.As(err, &r) && r.Key == "volume_of_must":
		return "\n-must states it"
	}
	return ""
}

func draw(c watch.Course, path string, place *time.Location) error {
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := c.SVG(file, place); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

// courseJSON is a sheet with the times and codes of a course.
type courseJSON struct {
	sheet.Sheet
	State       watch.State       `json:"state"`
	Method      watch.Method      `json:"method"`
	Window      watch.WindowState `json:"window"`
	Opens       watch.Forecast    `json:"opens,omitzero"`
	Closes      watch.Forecast    `json:"closes,omitzero"`
	ComeBack    watch.Forecast    `json:"come_back,omitzero"`
	ReadAgainBy time.Time         `json:"read_again_by,omitzero"`
	Asked       time.Time         `json:"asked"`
}

func (w *watching) json(c watch.Course, s sheet.Sheet) courseJSON {
	return courseJSON{s.Whole(), c.State, c.Method, c.Window.State, c.Window.Opens, c.Window.Closes, c.Window.ComeBack, c.ReadAgainBy, c.Asked}
}

// courseCSV writes the figures, and the times under the same header and three
// columns more.
func courseCSV(c watch.Course, s sheet.Sheet, out io.Writer) error {
	header := append([]string{"section"}, units.FigureHeader()...)
	all := [][]string{append(header, "early", "late", "chance")}
	for _, step := range s.Steps {
		for _, g := range step.Figures {
			all = append(all, append(append([]string{step.Key}, g.Cells()...), "", "", ""))
		}
	}
	for _, t := range c.Times() {
		row := append([]string{"times", t[0], t[1], t[2]}, make([]string, len(header)-4)...)
		all = append(all, append(row, t[3:]...))
	}
	return csv.NewWriter(out).WriteAll(all)
}

func (w *watching) sheet(c watch.Course, log []watch.Reading) sheet.Sheet {
	place := w.format.Place
	said := clock()
	if w.setup.Now != (time.Time{}) {
		said = w.setup.Now
	}
	s := sheet.Sheet{Title: "Watch", Answer: c.Answer(said, place)}
	if c.Window.State == watch.WindowPassed {
		s.Answer = append(s.Answer, `For that: worksheet plan -batch FILE, with this log in its field "readings".`)
	}
	title := "At the last reading, "
	if c.Method != watch.NoForecast && c.Asked.After(c.Points[len(c.Points)-1].Time) {
		title = "Forecast for "
	}
	var now, window []units.Figure
	for _, g := range c.Figures() {
		switch g.Key {
		case "window_from", "window_to", "chill_by":
			window = append(window, g)
		default:
			now = append(now, g)
		}
	}
	lines := []string{readBy(log), fmt.Sprintf("The forecast rests on: %v.", c.Method)}
	if c.Method != watch.NoForecast {
		why := c.Why + "."
		if title == "Forecast for " {
			why = "At the last reading: " + why
		}
		lines = append([]string{why}, lines...)
	}
	s.Add("now", title+c.Now.Time.In(place).Format("Monday 2 January 2006 15:04 MST"), now, lines...)
	if c.Window.State != watch.NoWindow {
		lines := []string{"Opens: " + c.Window.Opens.Text(said, place) + ".", "Closes: " + c.Window.Closes.Text(said, place) + "."}
		if c.Method == watch.NoForecast {
			lines = nil
		}
		s.Add("window", "The window", window, lines...)
	}
	band := [2]float64{float64(c.Window.To.Gravity), float64(c.Window.From.Gravity)}
	chart := sheet.Chart(marks(c, log), band, 14, 3)
	s.Add("course", "Course", nil, append(chart, "o reading, x set apart, + course and forecast, dots the window")...)
	for _, f := range c.Findings {
		text := f.Text
		if flag := settles[f.Key]; flag != "" {
			text += " " + flag
		}
		if i := slices.Index(s.Answer, f.Text); i >= 0 {
			s.Answer[i] = text
		}
		s.Findings = append(s.Findings, batch.Finding{Key: f.Key, Severity: batch.Severity(f.Severity.String()), Text: text})
	}
	return s
}

// settles names the flags that settle a finding.
var settles = map[string]string{
	"instrument": "-refractometer or -hydrometer 20C says it.",
	"sensor":     "-sensor does that.",
}

// readBy says of which instruments a log was taken to be.
func readBy(log []watch.Reading) string {
	var n [3]int
	for _, l := range log {
		switch {
		case l.Reading != 0:
			n[0]++
		case l.Refractometer != 0:
			n[1]++
		default:
			n[2]++
		}
	}
	var out []string
	for i, name := range []string{"hydrometer", "refractometer", "scale"} {
		if n[i] > 0 {
			out = append(out, fmt.Sprintf("%d of a %s", n[i], name))
		}
	}
	return "Readings: " + strings.Join(out, ", ") + "."
}

func marks(c watch.Course, log []watch.Reading) []sheet.Mark {
	start := c.Begins
	mark := func(t time.Time, g gravity.SG, sign rune) sheet.Mark {
		return sheet.Mark{X: t.Sub(start).Hours(), Y: float64(g), Sign: sign}
	}
	var out []sheet.Mark
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
