package watch

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/mutage/abv"
)

// Severity is how grave a finding is.
type Severity int

// The severities.
const (
	Note Severity = iota // good to know
	Warn                 // may spoil the batch
	Stop                 // act first
)

var severityCodes = []string{"note", "warn", "stop"}

// String is the code.
func (s Severity) String() string { return word(int(s), severityCodes) }

// MarshalText is the code of the severity: "warn".
func (s Severity) MarshalText() ([]byte, error) { return encode("severity", int(s), severityCodes) }

// UnmarshalText reads what MarshalText wrote.
func (s *Severity) UnmarshalText(text []byte) error {
	return decode("severity", s, text, severityCodes)
}

// A Finding is something to know or to do. Text is one or more sentences. Key does
// not change between versions: instrument, set_apart, read_once_more, sensor,
// sugar_added, too_fast, sorted, drawn_back, read_now, not_read_since, not_stopped,
// arrest_ahead, stuck, chilled, passed, yeast_limit, chill_early, chill_rate,
// do_not_seal, carbon_dioxide.
type Finding struct {
	Key      string   `json:"key"`
	Severity Severity `json:"severity"`
	Text     string   `json:"text"`
}

func (f *follower) find(severity Severity, key, format string, values ...any) {
	f.Findings = append(f.Findings, Finding{key, severity, sentence(fmt.Sprintf(format, values...))})
}

// findings says what to know and what to do.
func (f *follower) findings(log []Reading) {
	f.suspectInstrument(log)
	first := len(f.Findings)
	for _, a := range f.Apart {
		what := fmt.Sprintf("reading %d", a.Index+1)
		if line := log[a.Index].Line; line > 0 {
			what = fmt.Sprintf("line %d", line)
		}
		f.find(Warn, "set_apart", "%s (%s) was set apart: %s", what, a.Time.Format(noted), a.Reason)
	}
	first += len(f.Apart)
	f.suspicions()
	if f.sorted {
		f.find(Note, "sorted", "the log was not in order of time; it was sorted")
	}
	if f.reads[0].index < 0 && f.setup.Started.IsZero() {
		f.find(Note, "drawn_back", "when the fermentation began is not stated: the first readings were drawn back to the original gravity")
	}
	if late := f.Overdue(f.Asked); late >= time.Hour {
		f.find(Warn, "read_now", "you are %s late: read now", lasts(late))
	}
	f.arrestFindings()
	switch f.State {
	case Stuck:
		f.find(Warn, "stuck", "%s", f.stuckAdvice())
	case Chilled:
		f.find(Warn, "chilled", "it is not stopped until it has held for %s at fermentation temperature (two equal readings, temperature noted): cold yeast only rests", hours(f.setup.Still))
	}
	f.windowFindings()
	switch f.State {
	case Chilled, Finished, Stopped:
		f.find(Note, "do_not_seal", "a gravity that holds is no proof that a sweet wine stays still: keep it under an airlock")
	case Stuck: // its advice says so
	default:
		f.find(Note, "carbon_dioxide", "the gas of fermenting must can kill in a closed cellar: air it; never close the vessel tight")
	}
	others := f.Findings[first:] // what does not count comes first
	slices.SortStableFunc(others, func(a, b Finding) int { return cmp.Compare(b.Severity, a.Severity) })
}

// arrestFindings says what the readings show of an arrest, and what to do.
func (f *follower) arrestFindings() {
	at := f.setup.Arrested
	switch {
	case at.IsZero():
	case !f.arrested():
		f.find(Note, "arrest_ahead", "it is to be arrested on %s, later than now: nothing here counts on that", at.Format(noted))
	case f.last().time.Before(at):
		f.find(Warn, "not_read_since", "it counts as fermenting until readings show that it has stopped: read it now and again after %s, both at fermentation temperature and with that noted. Do not seal it", hours(f.setup.Still))
	case f.State.falls():
		f.find(Stop, "not_stopped", "it was not stopped: since it was arrested on %s it went on to %.4f. Cool it further, and find out what is still missing: sulfite and sorbate by what is in it already, or spirit. Do not seal it",
			at.Format(noted), float64(f.must.at(f.last().used).Gravity))
	}
}

// stuckAdvice is common practice, no source, save for the temperatures (Ough &
// Amerine, California Agr. Exp. Sta. Bulletin 827 (1966)): extremely slow below 10 C,
// sluggish above 29 C.
func (f *follower) stuckAdvice() string {
	if f.Window.State == WindowOpen {
		return "it holds within the window, which is what you want: stop it there now, while it does (cold, rack, sulfite and sorbate, or spirit). It may start again by itself: do not seal it."
	}
	text := "what to do: "
	switch at, known := f.temperature(len(f.reads)); {
	case !known:
		text += "note the temperature and bring it to 18 to 24 C"
	case at.Celsius() < 18:
		text += fmt.Sprintf("warm it from %.0f to 18 to 24 C", at.Celsius())
	case at.Celsius() > 29:
		text += fmt.Sprintf("cool it from %.0f to 18 to 24 C", at.Celsius())
	default:
		text += fmt.Sprintf("keep it at %.0f C", at.Celsius())
	}
	if f.Window.State == WindowPassed {
		return text + ", take the wine as it is, and see what blend it makes. It may start again by itself: do not seal it."
	}
	text += "; stir up the yeast gently, with the airlock open and the room aired (carbon dioxide); read again after 24 h. " +
		"Check the sulfite that was added, the pH and the nutrient. No fall in three days more: add fresh yeast that was started in diluted must, once"
	if f.Window.State != NoWindow && f.began < len(f.reads)-1 {
		text += "; or take the wine as it is and see what blend it makes"
	}
	if cherry, err := abv.NotSugarOf("morello cherry"); err == nil && f.must.at(f.last().used).Extract <= cherry.High {
		text += fmt.Sprintf("; but a wine of morello cherries keeps up to %.0f g/L of extract that is no sugar: measure the sugar first", float64(cherry.High))
	}
	return text + ". It may start again by itself: do not seal it."
}

// leastChill is the fall in points an hour below which cooling costs nothing that a
// hydrometer shows.
const leastChill = 0.1

// What a window asks of the yeast.
const (
	willNot = "It will not get there"
	mayNot  = "It may not get there"
)

func (f *follower) windowFindings() {
	w := f.Window
	switch w.State {
	case NoWindow:
		return
	case WindowPassed:
		if f.Asked.After(f.last().time) && f.Window.at(f.must.at(f.last().used).Gravity) != WindowPassed {
			f.find(Stop, "passed", "by the forecast the window has passed: %.1f %% vol with %.0f g/L of extract, the window ended at %.1f %% vol with %.0f. Read it before you go by that; then plan the blend that is still possible from this wine",
				float64(f.Now.Likely.Strength), float64(f.Now.Likely.Extract), float64(w.To.Strength), float64(w.To.Extract))
			return
		}
		f.find(Stop, "passed", "the window has passed: it has %.1f %% vol with %.0f g/L of extract, the window ended at %.1f %% vol with %.0f. Plan the blend that is still possible from this wine",
			float64(f.Now.Likely.Strength), float64(f.Now.Likely.Extract), float64(w.To.Strength), float64(w.To.Extract))
		return
	case WindowAhead:
		if w.From.Strength > f.setup.YeastLimit-limitKnown {
			gives := mayNot
			if w.From.Strength > f.setup.YeastLimit+limitKnown {
				gives = willNot
			}
			f.find(Warn, "yeast_limit", "%s: the window opens at %.1f %% vol, and the yeast gives up at %.4g. Take a window below that, or a yeast that tolerates more", gives, float64(w.From.Strength), float64(f.setup.YeastLimit))
			if gives == willNot {
				return
			}
		}
	}
	if !f.State.falls() || f.Rate <= 0 || f.Cold {
		return
	}
	if w.ChillBy == 0 {
		if f.Rate/24 < leastChill {
			return
		}
		f.find(Note, "chill_rate", "every hour of cooling may cost %.1f points of gravity at the present rate: begin to chill so much sooner", f.Rate/24)
		return
	}
	fall := f.Rate * f.setup.Cooling.Hours() / 24
	severity := Note
	if w.ChillBy >= w.From.Gravity {
		severity = Warn
	}
	f.find(severity, "chill_early", "in %s of cooling it may fall by %.0f points more: begin to chill at %.4f at the latest", lasts(f.setup.Cooling), fall, float64(w.ChillBy))
}

// lasts is a duration as people say it.
func lasts(d time.Duration) string {
	if d >= 2*day {
		return fmt.Sprintf("%.0f days", d.Hours()/24)
	}
	return hours(d)
}
