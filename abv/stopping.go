package abv

import (
	"errors"
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/units"
)

// StopAtExtract is the wine when so much real extract is left per litre; its
// Gravity is the reading to wait for. Extract is not sugar: see Sugars. og 1 to
// 1.3499; extract from 0 to what the must holds. Error: *units.RangeError, whose
// Max is that.
func StopAtExtract(og gravity.SG, extract units.Concentration, y Yield) (Fermented, error) {
	must, err := mustOf(og, y)
	if err != nil {
		return Fermented{}, err
	}
	a, err := alcoholAtExtract(&must, extract)
	if err != nil {
		return Fermented{}, err
	}
	return fermented(&must, a), nil
}

// alcoholAtExtract is the grams of alcohol made from 100 g of must when extract
// is left.
func alcoholAtExtract(must *balance.Must, extract units.Concentration) (float64, error) {
	a, err := must.ForExtract(extract)
	if err != nil {
		return 0, units.OutOfRange(ofMust(must), "extract left", float64(extract), 0, must.ExtractPerLitre(), "g/L", "from all extract fermented to none")
	}
	return a, nil
}

// Goal is what the wine shall be when it is stopped, at 20 C. A zero Max means
// no upper limit, a zero Min no lower one.
type Goal struct {
	MinStrength units.Strength      `json:"min_strength"`
	MaxStrength units.Strength      `json:"max_strength"`
	MinExtract  units.Concentration `json:"min_extract"` // g per L of the wine
	MaxExtract  units.Concentration `json:"max_extract"`
}

// A Window is the two wines between which a goal holds: it begins to hold when
// the hydrometer has fallen to From.Gravity and holds until it reaches
// To.Gravity.
type Window struct {
	From Fermented `json:"from"`
	To   Fermented `json:"to"`
}

// ErrNoWindow says that a must never meets the strength and the extract of a
// goal at once. It is wrapped in a *NoWindowError.
var ErrNoWindow = errors.New("strength and extract are never both reached")

// NoWindowError says why there is no window, and which must would do.
type NoWindowError struct {
	Original gravity.SG `json:"original"`
	Goal     Goal       `json:"goal"`
	// At is the wine where the goal fails: the strength or the extract that is
	// reached first holds, the other has not come or has gone.
	At Fermented `json:"at"`
	// Needed is the original gravity from which the goal's nearest corner can
	// be reached; zero if no must of the domain will do.
	Needed gravity.SG `json:"needed"`
}

// Error names the wine that is had instead and the gravity that would do.
func (e *NoWindowError) Error() string {
	text := fmt.Sprintf("%v from original gravity %.4f: at %.4g g/L of extract the wine has %.4g %% vol (wanted %s and %s)",
		ErrNoWindow, float64(e.Original), float64(e.At.Extract), float64(e.At.Strength),
		interval(float64(e.Goal.MinStrength), float64(e.Goal.MaxStrength), "% vol"),
		interval(float64(e.Goal.MinExtract), float64(e.Goal.MaxExtract), "g/L"))
	if e.Needed > 0 {
		text += fmt.Sprintf("; original gravity %.4f would do", float64(e.Needed))
	}
	return text
}

// Unwrap is ErrNoWindow.
func (e *NoWindowError) Unwrap() error { return ErrNoWindow }

func interval(lo, hi float64, unit string) string {
	if hi == 0 {
		return fmt.Sprintf("%.4g %s or more", lo, unit)
	}
	return fmt.Sprintf("%.4g to %.4g %s", lo, hi, unit)
}

// StopWithin is the window for both strength and extract: the readings between
// which all limits of the goal hold. og 1 to 1.3499. Errors: *units.RangeError
// for a goal that contradicts itself or a limit that the must cannot meet;
// *NoWindowError (ErrNoWindow) where each limit can be met but not together.
func StopWithin(og gravity.SG, goal Goal, y Yield) (Window, error) {
	must, err := mustOf(og, y)
	if err != nil {
		return Window{}, err
	}
	if err := goal.check(); err != nil {
		return Window{}, err
	}
	// In grams of alcohol made: the goal opens at the later of two, closes at
	// the earlier of two.
	weak, err := alcoholAtStrength(&must, goal.MinStrength)
	if err != nil {
		return Window{}, err
	}
	sweet, err := alcoholAtExtract(&must, goal.MinExtract)
	if err != nil {
		return Window{}, err
	}
	opens, closes := weak, sweet
	if goal.MaxStrength > 0 && goal.MaxStrength < fermented(&must, must.Most()).Strength {
		strong, err := alcoholAtStrength(&must, goal.MaxStrength)
		if err != nil {
			return Window{}, err
		}
		closes = min(closes, strong)
	}
	if goal.MaxExtract > 0 && float64(goal.MaxExtract) < must.ExtractPerLitre() {
		dry, err := alcoholAtExtract(&must, goal.MaxExtract)
		if err != nil {
			return Window{}, err
		}
		opens = max(opens, dry)
	}
	if opens > closes {
		// Too little sugar for strength and sweetness, or too much.
		strength, extract := goal.MinStrength, goal.MinExtract
		if opens != weak {
			strength, extract = goal.MaxStrength, goal.MaxExtract
		}
		failed := &NoWindowError{Original: og, Goal: goal, At: fermented(&must, closes)}
		if other, err := OriginalExtract(Composition{Strength: strength, Extract: extract}, y); err == nil {
			failed.Needed, _ = other.SG()
		}
		return Window{}, failed
	}
	return Window{fermented(&must, opens), fermented(&must, closes)}, nil
}

func (g Goal) check() error {
	hi := units.Strength(100)
	if err := units.Check("greatest strength", float64(g.MaxStrength), 0, float64(hi), "% vol", ""); err != nil {
		return err
	}
	if g.MaxStrength > 0 {
		hi = g.MaxStrength
	}
	if err := units.Check("least strength", float64(g.MinStrength), 0, float64(hi), "% vol", "the greatest strength"); err != nil {
		return err
	}
	if err := units.Check("greatest extract", float64(g.MaxExtract), 0, 1000, "g/L", ""); err != nil {
		return err
	}
	most := units.Concentration(1000)
	if g.MaxExtract > 0 {
		most = g.MaxExtract
	}
	return units.Check("least extract", float64(g.MinExtract), 0, float64(most), "g/L", "the greatest extract")
}
