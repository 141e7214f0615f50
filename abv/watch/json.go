package watch

import (
	"encoding/json"
	"strconv"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/units"
)

// courseJSON is a Course in JSON. Times are RFC 3339; what there is none of is left
// out.
type courseJSON struct {
	State           State          `json:"state"`
	Why             string         `json:"why"`
	Method          Method         `json:"method"`
	Figures         []units.Figure `json:"figures"`
	Opens           Forecast       `json:"opens,omitzero"`
	Closes          Forecast       `json:"closes,omitzero"`
	ComeBack        Forecast       `json:"come_back,omitzero"`
	ReadAgainBy     time.Time      `json:"read_again_by,omitzero"`
	Window          windowJSON     `json:"window,omitzero"`
	Findings        []Finding      `json:"findings,omitempty"`
	Begins          time.Time      `json:"begins"`
	Asked           time.Time      `json:"asked"`
	Since           time.Time      `json:"since,omitzero"`
	Horizon         time.Time      `json:"horizon"`
	Original        gravity.SG     `json:"original"`
	Smoothed        gravity.SG     `json:"smoothed,omitzero"`
	Cold            bool           `json:"cold,omitempty"`
	Rate            float64        `json:"rate"`
	RateUncertainty float64        `json:"rate_uncertainty"`
	Now             Outlook        `json:"now"`
	Points          []Point        `json:"points"`
	Apart           []SetApart     `json:"apart,omitempty"`
	Path            []Outlook      `json:"path"`
	Ends            []gravity.SG   `json:"ends,omitempty"`
}

// windowJSON is the window without its times.
type windowJSON struct {
	State   WindowState   `json:"state"`
	From    abv.Fermented `json:"from"`
	To      abv.Fermented `json:"to"`
	ChillBy gravity.SG    `json:"chill_by,omitzero"`
}

// MarshalJSON writes the course with its figures. The codes of states, methods and
// reasons do not change between versions.
func (c Course) MarshalJSON() ([]byte, error) {
	w := windowJSON{c.Window.State, c.Window.From, c.Window.To, c.Window.ChillBy}
	return json.Marshal(courseJSON{c.State, c.Why, c.Method, c.Figures(), c.Window.Opens, c.Window.Closes, c.Window.ComeBack, c.ReadAgainBy, w, c.Findings,
		c.Begins, c.Asked, c.Since, c.Horizon, c.Original, c.Smoothed, c.Cold, c.Rate, c.RateUncertainty, c.Now, c.Points, c.Apart, c.Path, c.Ends})
}

// UnmarshalJSON reads what MarshalJSON wrote. The figures are found again.
func (c *Course) UnmarshalJSON(text []byte) error {
	var in courseJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*c = Course{Original: in.Original, Begins: in.Begins, Asked: in.Asked, Points: in.Points, Apart: in.Apart, Now: in.Now, Smoothed: in.Smoothed,
		Rate: in.Rate, RateUncertainty: in.RateUncertainty, State: in.State, Why: in.Why, Cold: in.Cold, Since: in.Since, Method: in.Method,
		ReadAgainBy: in.ReadAgainBy, Horizon: in.Horizon, Path: in.Path, Ends: in.Ends, Findings: in.Findings,
		Window: Window{State: in.Window.State, Window: abv.Window{From: in.Window.From, To: in.Window.To},
			Opens: in.Opens, Closes: in.Closes, ComeBack: in.ComeBack, ChillBy: in.Window.ChillBy}}
	return nil
}

// Figures are what the wine is at the time of asking, each with its standard
// uncertainty. That of gravity, strength and extract is of the readings and of the
// forecast, not of the yield.
func (c Course) Figures() []units.Figure {
	how := "the last reading, corrected to 20 C for the strength it has come to"
	if c.Asked.After(c.last()) && c.Method != NoForecast {
		how = "forecast: " + c.Method.String()
	}
	figure := func(key, name string, value, uncertainty float64, places int32, unit, method, source string) units.Figure {
		f := units.Figure{Key: key, Name: name, Value: units.Round(value, places), Unit: unit, Method: method, Source: source}
		if uncertainty > 0 {
			f.Uncertainty.Decimal, f.Uncertainty.Valid = units.Round(uncertainty, places+1), true
		}
		return f
	}
	n := c.Now
	either := func(a, b float64) float64 { return max(a-b, b-a) / (2 * ninth) }
	found := "fermentation balance; " + how
	out := []units.Figure{
		figure("gravity", "true gravity at 20 C", float64(n.Likely.Gravity), either(float64(n.Less.Gravity), float64(n.More.Gravity)), 4, "SG", how, balance.Source),
		figure("strength", "alcohol", float64(n.Likely.Strength), either(float64(n.Less.Strength), float64(n.More.Strength)), 1, "% vol", found, balance.Source),
		figure("extract", "extract left", float64(n.Likely.Extract), either(float64(n.Less.Extract), float64(n.More.Extract)), 0, "g/L", found, balance.Source),
		figure("rate", "falling by", c.Rate, c.RateUncertainty, 1, "points a day", "fall of the true gravity at the last reading", ""),
	}
	og := figure("original_gravity", "original gravity", float64(c.Original), 0, 4, "SG", "as stated", "")
	if len(c.Points) > 0 && c.Points[0].Time.Equal(c.Begins) && c.Points[0].Gravity == c.Original {
		og.Method, og.Note = "the first reading, corrected to 20 C", "the first reading"
	}
	out = append(out, og)
	if c.Smoothed != 0 && c.Method != NoForecast { // where it holds, the reading is what is
		out = append(out, figure("smoothed_gravity", "smoothed, at 20 C", float64(c.Smoothed), 0, 4, "SG", "fitted course at the last reading", ""))
	}
	if c.Window.State != NoWindow {
		out = append(out, figure("window_from", "window opens, at 20 C", float64(c.Window.From.Gravity), 0, 4, "SG", "fermentation balance", balance.Source),
			figure("window_to", "window closes, at 20 C", float64(c.Window.To.Gravity), 0, 4, "SG", "fermentation balance", balance.Source))
	}
	if c.Window.ChillBy != 0 {
		out = append(out, figure("chill_by", "begin to chill, at 20 C", float64(c.Window.ChillBy), 0, 4, "SG", "present rate over the time that cooling takes", ""))
	}
	return out
}

// last is the time of the last reading.
func (c Course) last() time.Time {
	if len(c.Points) == 0 {
		return c.Begins
	}
	return c.Points[len(c.Points)-1].Time
}

// TimesHeader names the columns of Times.
func TimesHeader() []string { return []string{"key", "name", "value", "early", "late", "chance"} }

// Times are the codes and times of the course as rows of a table, for CSV: state,
// window (its state), opens, closes, come_back and read_again_by. The value of a
// forecast is its likely time; times are RFC 3339. What there is none of is empty,
// and of a course without a window only state and read_again_by have rows.
func (c Course) Times() [][]string {
	when := func(t time.Time) string {
		if t.IsZero() {
			return ""
		}
		return t.Format(time.RFC3339)
	}
	row := func(key, name string, f Forecast) []string {
		chance := ""
		if f != (Forecast{}) {
			chance = strconv.FormatFloat(f.Chance, 'f', 2, 64)
		}
		return []string{key, name, when(f.Likely), when(f.Early), when(f.Late), chance}
	}
	code, _ := c.State.MarshalText() // a state of ours has a code
	out := [][]string{{"state", "state", string(code), "", "", ""}, {"read_again_by", "read again by", when(c.ReadAgainBy), "", "", ""}}
	if c.Window.State != NoWindow {
		code, _ := c.Window.State.MarshalText()
		out = append(out, []string{"window", "state of the window", string(code), "", "", ""},
			row("opens", "window opens", c.Window.Opens), row("closes", "window closes", c.Window.Closes), row("come_back", "come back", c.Window.ComeBack))
	}
	return out
}
