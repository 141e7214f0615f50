package blend

import (
	"fmt"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// spiritFrom is the strength from which a liquid without a stated extract is
// taken for a spirit without any: yeast makes no such strength, and neutral
// spirit, vodka and brandy hold next to none.
const spiritFrom units.Strength = 30

// A Poured is a liquid as somebody describes it, with what was left unsaid.
// Component holds what is known; a strength or an extract that was not stated is
// zero there and marked here.
type Poured struct {
	Component
	// Fill is the volume of the whole that this liquid fills up: "fill 1 quart".
	Fill units.Volume
	// Mass is the amount as it was weighed; zero where it was stated by volume.
	// Component.Volume then follows from it.
	Mass                            units.Mass
	StrengthStated, ExtractNotKnown bool
}

// ParsePoured reads a liquid as one says it: what ParseComponent reads; its amount
// by weight, "3 kg at 5 % vol with 130 g/L"; or what it fills up, "fill 1 quart at
// 40 % vol". "no extract" may stand for "with 0 g/L". A liquid below 30 % vol
// without an extract has one that is not known, a stronger one has none. A liquid
// without a strength has none: juice, syrup; "2 L water" is water. Errors: *units.ParseError,
// *units.RangeError, each behind the text.
func ParsePoured(text string) (Poured, error) {
	name, rest, named := strings.Cut(text, ":")
	if !named {
		name, rest = "", text
	}
	name, err := nameOf(name)
	if err != nil {
		return Poured{}, fmt.Errorf("liquid %q: %w", text, err)
	}
	rest = strings.TrimSpace(strings.Replace(rest, "no extract", "with 0 g/L", 1))
	p := Poured{StrengthStated: strings.Contains(" "+rest, " at ")}
	rest, fills := cutPrefixFold(rest, "fill ")
	amount, content := amountOf(rest)
	if content == "" {
		water, is := strings.CutSuffix(strings.ToLower(amount), "water")
		if !is && !strings.EqualFold(strings.TrimSpace(name), "water") {
			return Poured{}, &units.ParseError{Text: text, Quantity: "liquid", Offset: len(text), Expected: []string{"its strength and extract (3 L at 6.1 % vol with 142 g/L)", "2 L water"}}
		}
		if p.Name = "water"; named {
			p.Name = name
		}
		amount, content = strings.TrimSuffix(strings.TrimSpace(water), " of"), "with 0 g/L"
		rest, name = amount+" "+content, p.Name
	}
	m, weighed := units.Mass(0), false
	if v, err := units.ParseMass(amount); err == nil {
		m, weighed = v, true
		rest = content
	}
	c, err := ParseComponent(rest)
	if err != nil {
		return Poured{}, fmt.Errorf("liquid %q: %w", text, belowText(err))
	}
	p.Component = c
	p.Name = name
	p.ExtractNotKnown = !strings.Contains(" "+rest, " with ") && c.Strength < spiritFrom && p.StrengthStated
	if fills {
		p.Fill, p.Volume = p.Volume, 0
		if weighed || p.Fill == 0 {
			return Poured{}, &units.ParseError{Text: text, Quantity: "volume to fill", Expected: []string{"fill 1 quart at 40 % vol"}}
		}
	}
	if weighed {
		p.Mass = m
		if p.Volume, err = p.Component.VolumeOf(m); err != nil {
			return Poured{}, fmt.Errorf("liquid %q: %w", text, err)
		}
	}
	return p, nil
}

// Spirit says whether the liquid is strong enough to be taken for a spirit.
func (p Poured) Spirit() bool { return p.Strength >= spiritFrom }

// VolumeOf is the volume at 20 C of so much of the component by weight. Domain:
// m zero or more, a liquid that can exist. Error: *units.RangeError.
func (c Component) VolumeOf(m units.Mass) (units.Volume, error) {
	per, err := c.perLitre()
	if err != nil {
		return 0, err
	}
	v := units.Volume(float64(m) / per.Mass())
	c.Volume = v
	_, err = c.perLitre()
	return v, err
}

// Weight is what the component's volume weighs. Error: *units.RangeError for a
// liquid that cannot exist.
func (c Component) Weight() (units.Mass, error) {
	per, err := c.perLitre()
	return units.Mass(float64(c.Volume) * per.Mass()), err
}

// The tolerances as they are published; changing the exported ones changes nothing
// here.
var jugFill, bottleFill, labelled, hydrometerRead = uncertainty.ToleranceJug, uncertainty.ToleranceBottle, uncertainty.ToleranceSpirit, uncertainty.ToleranceHydrometer

// Tolerances are the standard uncertainties of a liquid of which nothing better
// is stated: measured with a jug, its extract known as well as a hydrometer tells
// it; a spirit by the fill and the strength of its bottle.
func (c Component) Tolerances() Uncertainty {
	standard := func(t uncertainty.Tolerance, x float64) float64 {
		return uncertainty.ToleranceInput(t.Name, x, t).Standard
	}
	if c.Strength >= spiritFrom {
		return Uncertainty{Volume: units.Volume(standard(bottleFill, float64(c.Volume))),
			Strength: units.Strength(standard(labelled, float64(c.Strength)))}
	}
	out := Uncertainty{Volume: units.Volume(standard(jugFill, float64(c.Volume)))}
	const at gravity.SG = 1.05 // the slope is the same to 2 % from 1.00 to 1.10
	if c.Strength > 0 {
		out.Strength = units.Strength(abv.BalanceUncertainty)
	}
	if c.Extract > 0 {
		low, _ := at.Extract()
		high, _ := (at + gravity.SG(standard(hydrometerRead, float64(at)))).Extract()
		out.Extract = high - low
	}
	return out
}

// amountOf divides "3 kg at 5 % vol with 130 g/L" behind the amount.
func amountOf(text string) (amount, content string) {
	at := len(text)
	for _, word := range []string{" at ", " with ", " measured at "} {
		if i := strings.Index(" "+text, word); i >= 0 {
			at = min(at, i)
		}
	}
	return strings.TrimSpace(text[:at]), strings.TrimSpace(text[at:])
}

// cutPrefixFold is strings.CutPrefix whatever the case.
func cutPrefixFold(text, prefix string) (string, bool) {
	if len(text) >= len(prefix) && strings.EqualFold(text[:len(prefix)], prefix) {
		return strings.TrimSpace(text[len(prefix):]), true
	}
	return text, false
}

// belowText is the error that ParseComponent put behind its text.
func belowText(err error) error {
	if below, ok := err.(interface{ Unwrap() error }); ok && below.Unwrap() != nil {
		return below.Unwrap()
	}
	return err
}
