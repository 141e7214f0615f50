package watch_test

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

func TestCourseJSONComesBack(t *testing.T) {
	for name, log := range map[string][]watch.Reading{"falling": morello(), "crash": crash(), "must alone": morello()[:1]} {
		c, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}, Cooling: 10 * time.Hour})
		if err != nil {
			t.Fatal(name, err)
		}
		text, err := json.Marshal(c)
		if err != nil {
			t.Fatal(name, err)
		}
		var back watch.Course
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatal(name, err)
		}
		if d := cmp.Diff(c, back); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		var keys map[string]any
		if err := json.Unmarshal(text, &keys); err != nil {
			t.Fatal(err)
		}
		state, _ := c.State.MarshalText()
		if keys["state"] != string(state) {
			t.Errorf("%s: state %v", name, keys["state"])
		}
		if name != "falling" {
			continue
		}
		for _, key := range []string{"opens", "closes", "come_back"} {
			times, _ := keys[key].(map[string]any)
			for _, part := range []string{"early", "likely", "late", "chance"} {
				if times[part] == nil {
					t.Errorf("%s has no %s: %v", key, part, times)
				}
			}
		}
		if _, err := time.Parse(time.RFC3339, keys["read_again_by"].(string)); err != nil {
			t.Error(err)
		}
		var figures []string
		for _, f := range keys["figures"].([]any) {
			figures = append(figures, f.(map[string]any)["key"].(string))
		}
		for _, key := range []string{"gravity", "strength", "extract", "rate", "smoothed_gravity", "window_from", "window_to", "chill_by"} {
			if !slices.Contains(figures, key) {
				t.Errorf("no figure %s in %v", key, figures)
			}
		}
	}
	if c, err := watch.Follow(crash(), watch.Setup{Still: time.Hour, YeastLimit: 5}); err != nil {
		t.Error(err)
	} else if text, _ := json.Marshal(c); strings.Contains(string(text), "0001-01-01") {
		t.Errorf("a time that is none is written: %s", text)
	}
}

// Codes do not change between versions: programs compare them.
func TestCodes(t *testing.T) {
	for want, value := range map[string]interface{ MarshalText() ([]byte, error) }{
		"stuck": watch.Stuck, "not_begun": watch.NotBegun, "passed": watch.WindowPassed, "none": watch.NoForecast, "gompertz": watch.ByGompertz,
		"repeated_time": watch.RepeatedTime, "warn": watch.Warn, "day_first": watch.DayFirst, "F": watch.FahrenheitScale,
	} {
		if got, err := value.MarshalText(); err != nil || string(got) != want {
			t.Errorf("%v: %s, %v", value, got, err)
		}
	}
	if _, err := watch.State(99).MarshalText(); err == nil {
		t.Error("a state that is none has a code")
	}
	var o watch.DateOrder
	var scale watch.TemperatureScale
	if err := errors.Join(o.UnmarshalText([]byte("month_first")), scale.UnmarshalText([]byte("C"))); err != nil || o != watch.MonthFirst || scale != watch.CelsiusScale {
		t.Errorf("%v, %v, %v", o, scale, err)
	}
	var r watch.Reason
	if err := r.UnmarshalText([]byte("too_low")); err != nil || r != watch.TooLow {
		t.Errorf("%v, %v", r, err)
	}
	if watch.Stop.String() != "stop" {
		t.Errorf("%v", watch.Stop)
	}
	var s watch.State
	if err := s.UnmarshalText([]byte("asleep")); err == nil {
		t.Error("a code that is none has a state")
	}
}

func TestTimesAsRows(t *testing.T) {
	c, err := watch.Follow(morello(), watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}})
	if err != nil {
		t.Fatal(err)
	}
	keys := map[string][]string{}
	for _, row := range c.Times() {
		if len(row) != len(watch.TimesHeader()) {
			t.Errorf("%v", row)
		}
		keys[row[0]] = row
	}
	if keys["state"][2] != "fermenting" || keys["opens"][2] != c.Window.Opens.Likely.Format(time.RFC3339) || keys["come_back"][5] == "" || keys["opens"][3] != c.Window.Opens.Early.Format(time.RFC3339) || keys["read_again_by"][2] == "" {
		t.Errorf("%v", keys)
	}
}

// The picture is XML without a colour, shows every reading, and refers to nothing
// outside itself.
func TestPicture(t *testing.T) {
	for name, log := range map[string][]watch.Reading{"falling": append(morello(), readings(50, 1.2)...), "crash": crash(), "must alone": morello()[:1]} {
		c, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		if err := c.SVG(&b, nil); err != nil {
			t.Fatal(err)
		}
		text := b.String()
		for dec := xml.NewDecoder(strings.NewReader(text)); ; {
			if _, err := dec.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		if n := strings.Count(text, "<circle"); n != len(c.Points) {
			t.Errorf("%s: %d rings for %d readings", name, n, len(c.Points))
		}
		for _, part := range []string{">days<", ">SG<", "window opens", "<title>"} {
			if !strings.Contains(text, part) {
				t.Errorf("%s: no %s", name, part)
			}
		}
		for _, part := range []string{"NaN", "Inf", "href", "url("} {
			if strings.Contains(text, part) {
				t.Errorf("%s: %s in the picture", name, part)
			}
		}
		if line, over := strings.Index(text, "window opens"), strings.Index(text, "<polygon"); line < over {
			t.Errorf("%s: the band hides the window", name)
		}
		if beyond := strings.Contains(text, "set apart (1 not in the picture)"); beyond != (name == "falling") {
			t.Errorf("%s: a reading of 1.2 is beyond the picture, said %v", name, beyond)
		}
		if band := strings.Contains(text, "<polygon"); band != (c.Method != watch.NoForecast) {
			t.Errorf("%s: interval drawn %v, %v", name, band, c.Method)
		}
	}
}

// Less and more hold what is likely four times in five: 1.2816 standard
// uncertainties of a normal distribution either way.
func TestFiguresTurnFourTimesInFiveIntoStandardUncertainties(t *testing.T) {
	of := func(gravity gravity.SG) abv.Fermented { return abv.Fermented{Gravity: gravity} }
	c := watch.Course{Now: watch.Outlook{Less: of(1.060), Likely: of(1.050), More: of(1.040)}}
	for _, f := range c.Figures() {
		if f.Key != "gravity" {
			continue
		}
		if want := units.Round(0.02/2/1.2816, 5); !f.Uncertainty.Valid || !f.Uncertainty.Decimal.Equal(want) {
			t.Errorf("1.040 to 1.060: %v, by hand %v", f.Uncertainty, want)
		}
	}
}

// What the wine is stands in the figures with its uncertainty, to a place more than the
// value; what there is none of has no figure.
func TestFiguresOfACourse(t *testing.T) {
	figures := func(c watch.Course) map[string]units.Figure {
		out := map[string]units.Figure{}
		for _, f := range c.Figures() {
			out[f.Key] = f
		}
		return out
	}
	wine := func(g gravity.SG, strength units.Strength, extract units.Concentration) abv.Fermented {
		return abv.Fermented{Gravity: g, Strength: strength, Extract: extract}
	}
	c := within()
	c.Now = watch.Outlook{Less: wine(1.058, 5.2, 160), Likely: wine(1.0561, 5.51, 151.6), More: wine(1.052, 6.1, 140)}
	c.Smoothed, c.Rate, c.RateUncertainty, c.Window.ChillBy = 1.0559, 12.34, 1.234, 1.0577
	// By hand: half of the 80 % interval over 1.2816.
	for key, want := range map[string][2]string{"gravity": {"1.0561", "0.00234"}, "strength": {"5.5", "0.35"}, "extract": {"152", "7.8"}, "rate": {"12.3", "1.23"},
		"original_gravity": {"1.095", ""}, "smoothed_gravity": {"1.0559", ""}, "window_from": {"1.06", ""}, "window_to": {"1.053", ""}, "chill_by": {"1.0577", ""}} {
		f, is := figures(c)[key]
		uncertainty := ""
		if f.Uncertainty.Valid {
			uncertainty = f.Uncertainty.Decimal.String()
		}
		if !is || f.Value.String() != want[0] || uncertainty != want[1] {
			t.Errorf("%s: %v ± %q, by hand %v", key, f.Value, uncertainty, want)
		}
	}
	if f := figures(c); !strings.Contains(f["gravity"].Method, "the last reading") || f["original_gravity"].Note != "the first reading" {
		t.Errorf("%q, %q", f["gravity"].Method, f["original_gravity"].Note)
	}
	later := c
	later.Asked = after(60)
	if f := figures(later); !strings.Contains(f["gravity"].Method, "forecast: two readings") || !strings.Contains(f["strength"].Method, "forecast: two readings") {
		t.Errorf("%q", f["gravity"].Method)
	}
	later.Method = watch.NoForecast
	if f := figures(later); !strings.Contains(f["gravity"].Method, "the last reading") || f["smoothed_gravity"].Key != "" {
		t.Errorf("%q, %v", f["gravity"].Method, f["smoothed_gravity"])
	}
	for name, change := range map[string]func(*watch.Course){
		"no reading is of the start":     func(c *watch.Course) { c.Points = c.Points[1:] },
		"the first is not the must":      func(c *watch.Course) { c.Points[0].Gravity = 1.094 },
		"there is no reading":            func(c *watch.Course) { c.Points = nil },
		"no window, nothing to chill by": func(c *watch.Course) { c.Window, c.Points = watch.Window{}, nil },
	} {
		other := c
		other.Points = slices.Clone(c.Points)
		change(&other)
		f := figures(other)
		if f["original_gravity"].Method != "as stated" || (f["window_from"].Key == "") != (other.Window.State == watch.NoWindow) || (f["chill_by"].Key == "") != (other.Window.ChillBy == 0) {
			t.Errorf("%s: %+v", name, f)
		}
	}
	c.RateUncertainty = 0
	if f := figures(c)["rate"]; f.Uncertainty.Valid {
		t.Errorf("a rate of no uncertainty: %v", f.Uncertainty)
	}
}

// The rows of a table: times of the forecasts with their chance to two places; without a
// window the state and the next reading alone.
func TestRowsOfTimes(t *testing.T) {
	c := within()
	c.Window.Opens = watch.Forecast{}
	want := [][]string{
		{"state", "state", "fermenting", "", "", ""},
		{"read_again_by", "read again by", "2026-10-03T20:00:00Z", "", "", ""},
		{"window", "state of the window", "open", "", "", ""},
		{"opens", "window opens", "", "", "", ""},
		{"closes", "window closes", "", "2026-10-03T10:00:00Z", "2026-10-03T14:00:00Z", "1.00"},
		{"come_back", "come back", "2026-10-03T12:00:00Z", "2026-10-03T10:00:00Z", "2026-10-03T14:00:00Z", "0.54"},
	}
	if d := cmp.Diff(want, c.Times()); d != "" {
		t.Error(d)
	}
	c.Window, c.ReadAgainBy = watch.Window{}, time.Time{}
	want = [][]string{want[0], {"read_again_by", "read again by", "", "", "", ""}}
	if d := cmp.Diff(want, c.Times()); d != "" {
		t.Error(d)
	}
}

// Every code is read back, and what has none is refused.
func TestEveryCodeComesBack(t *testing.T) {
	text := func(value interface{ MarshalText() ([]byte, error) }) string {
		code, err := value.MarshalText()
		if err != nil {
			return "none"
		}
		return string(code)
	}
	for i := range 9 {
		var s watch.State
		if err := s.UnmarshalText([]byte(text(watch.State(i)))); (err == nil && s == watch.State(i)) != (i < 8) {
			t.Errorf("state %d: %v, %v", i, s, err)
		}
		var m watch.Method
		if err := m.UnmarshalText([]byte(text(watch.Method(i)))); (err == nil && m == watch.Method(i)) != (i < 6) {
			t.Errorf("method %d: %v, %v", i, m, err)
		}
		var w watch.WindowState
		if err := w.UnmarshalText([]byte(text(watch.WindowState(i)))); (err == nil && w == watch.WindowState(i)) != (i < 4) {
			t.Errorf("window %d: %v, %v", i, w, err)
		}
	}
	if watch.State(8).String() != "value 8" || watch.Stopped.String() != "stopped" || watch.NotYetKnown.String() != "not yet known" || watch.State(-1).String() != "value -1" {
		t.Error("words")
	}
}
