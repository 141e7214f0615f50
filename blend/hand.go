package blend

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"example.org/mutage/units"
)

// A HandCheck is what paper and pencil give for a blend: volumes simply added,
// in exact decimals (inputs to 6 places, quotients to 6). Working is the
// calculation as lines to follow on paper; its last line sets the balance with
// contraction beside it. Balance is the same blend by Mix.
type HandCheck struct {
	Volume   decimal.Decimal // L
	Strength decimal.Decimal // % vol
	Extract  decimal.Decimal // g/L
	Acid     decimal.Decimal // g/L as tartaric acid
	Working  []string
	Poured   []Component // as they were given
	Balance  Mixture
}

// places of inputs and quotients in the hand check
const places = 6

// Additive is the hand check of a blend: every content is the sum of volume
// times content over the sum of the volumes. It runs high in strength, by the
// contraction. Errors as Mix.
func Additive(cs ...Component) (HandCheck, error) {
	m, err := Mix(cs...)
	if err != nil {
		return HandCheck{}, err
	}
	h := HandCheck{Poured: slices.Clone(cs), Balance: m}
	var alcohol, sugar, acid decimal.Decimal
	width := 0
	for i := range cs {
		width = max(width, len(cs[i].label()))
	}
	for i := range cs {
		v := units.Round(float64(cs[i].Volume), places)
		s := units.Round(float64(cs[i].Strength), places)
		h.Volume = h.Volume.Add(v)
		alcohol = alcohol.Add(v.Mul(s))
		sugar = sugar.Add(v.Mul(units.Round(float64(cs[i].Extract), places)))
		acid = acid.Add(v.Mul(units.Round(float64(cs[i].Acid), places)))
		h.Working = append(h.Working, fmt.Sprintf("%-*s  %9s L x %7s %% vol = %10s", width, cs[i].label(), short(v, 4), short(s, 3), short(v.Mul(s), 4)))
	}
	if h.Volume.IsZero() { // volumes below a millionth of a litre
		return HandCheck{}, ErrNothing
	}
	h.Strength = alcohol.DivRound(h.Volume, places)
	h.Extract = sugar.DivRound(h.Volume, places)
	h.Acid = acid.DivRound(h.Volume, places)
	h.Working = append(h.Working,
		fmt.Sprintf("%-*s  %9s L %15s %10s", width, "together", short(h.Volume, 4), "", short(alcohol, 4)),
		fmt.Sprintf("%s / %s = %s %% vol", short(alcohol, 4), short(h.Volume, 4), short(h.Strength, 3)))
	if !sugar.IsZero() {
		h.Working = append(h.Working, fmt.Sprintf("sugar likewise: %s g / %s L = %s g/L", short(sugar, 2), short(h.Volume, 4), short(h.Extract, 1)))
	}
	h.Working = append(h.Working, fmt.Sprintf("with contraction: %s %% vol in %s L", short(units.Round(float64(m.Strength), 3), 3), short(units.Round(float64(m.Volume), 4), 4)))
	return h, nil
}

func short(d decimal.Decimal, places int32) string { return d.Round(places).String() }

// A Square is the alligation of two liquids: how many parts of each by volume
// make the target, volumes simply added. Spirit is what all of the base's
// Volume needs by that rule; Balance is what it needs with contraction.
type Square struct {
	BaseParts, SpiritParts, Spirit decimal.Decimal
	Working                        []string
	Base, Poured                   Component // as they were given; Poured is the spirit
	Target                         units.Strength
	Balance                        Fortification
}

// Alligation is the hand check of Fortify: the difference crosswise. Errors as
// Fortify.
func Alligation(base, spirit Component, target units.Strength) (Square, error) {
	f, err := Fortify(base, spirit, target)
	if err != nil {
		return Square{}, err
	}
	a, s, t := units.Round(float64(base.Strength), places), units.Round(float64(spirit.Strength), places), units.Round(float64(target), places)
	q := Square{BaseParts: s.Sub(t).Abs(), SpiritParts: t.Sub(a).Abs(), Base: base, Poured: spirit, Target: target, Balance: f}
	if q.BaseParts.IsZero() {
		return Square{}, units.CheckOf(spirit.label(), "strength less the target", 0, 1e-6, 100, "% vol", "")
	}
	v := units.Round(float64(base.Volume), places)
	q.Spirit = v.Mul(q.SpiritParts).DivRound(q.BaseParts, places)
	const wanted = "% vol wanted"
	width := max(len(base.label()), len(spirit.label()))
	side := func(name string, strength, parts decimal.Decimal) string {
		return fmt.Sprintf("%-*s %8s %s %8s parts", width, name, short(strength, 3), strings.Repeat(" ", len(wanted)), short(parts, 3))
	}
	q.Working = []string{
		side(base.label(), a, q.BaseParts),
		fmt.Sprintf("%*s %s %s", width+9, "", short(t, 3), wanted),
		side(spirit.label(), s, q.SpiritParts),
		fmt.Sprintf("%s L x %s / %s = %s L of %s", short(v, 4), short(q.SpiritParts, 3), short(q.BaseParts, 3), short(q.Spirit, 4), spirit.label()),
		fmt.Sprintf("with contraction: %s L", short(units.Round(float64(f.Spirit), 4), 4)),
	}
	return q, nil
}
