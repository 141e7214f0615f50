package batch

import (
	"encoding/json"
	"math"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/additions/stability"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// A Plan is a batch worked through, as data: what to do first, the steps in order
// of time, every liquid with its verdict, every pour, and what was found. It
// marshals to the JSON of the command.
type Plan struct {
	Schema   int       `json:"schema"` // 1
	Title    string    `json:"title"`
	Answer   []string  `json:"answer"` // the gravest first
	Liquids  []Liquid  `json:"liquids"`
	Pours    []Pour    `json:"pours"`
	Steps    []Step    `json:"steps"`
	Findings []Finding `json:"findings"` // the gravest first
}

// A Liquid is what is in a vessel at one point of the batch, at 20 C.
type Liquid struct {
	// Key is "wine" (racked, before the spirit), "planned" (with the amount
	// meant), "fortified" (with what the target takes; absent where nothing
	// reaches it), "reachable" (what will be poured, always there) or "kept" (the
	// part that is kept without spirit).
	Key      string
	Volume   units.Volume
	Mass     units.Mass
	Strength units.Strength
	Extract  units.Concentration // real extract, as sucrose
	Sugar    abv.Sugars          // the part of it that yeast can ferment
	Gravity  gravity.SG          // true, at 20 C
	Reading  gravity.SG          // of the batch's hydrometer at cellar temperature
	// Standard uncertainties.
	VolumeUncertainty   units.Volume
	StrengthUncertainty units.Strength
	ExtractUncertainty  units.Concentration
	// Coverage are the factors by which they are multiplied for the limits that
	// hold 19 times in 20, as that of a units.Figure: 0 is 1.96.
	Coverage struct{ Volume, Strength, Extract float64 }
	Verdict  stability.Verdict
	// Closed is what a bottle of a liquid that is not still could come to, at 25 C,
	// 75 cL with 25 mL of head space, saturated with CO2 at closing; zero where the
	// liquid is still or beyond what stability.SealedPressure covers.
	Closed stability.Sealed
	// Remedy is the smallest change that makes a liquid still that is not, or how
	// to keep it; empty where it is.
	Remedy string
}

// A Pour is one liquid or sweetener that goes into another liquid.
type Pour struct {
	Into, Key, Name string              // Key: "wine", "spirit", "sweetener"
	Volume          units.Volume        // at 20 C; 0 for a dry sweetener
	Measured        units.Volume        // as the cellar measures it, at its temperature
	Mass            units.Mass          // by the kitchen scale
	Strength        units.Strength      // % vol at 20 C
	Extract         units.Concentration // g/L
}

// A Step is something to do, with its figures and advice. From and To are zero
// where the batch has no start.
type Step struct {
	Key     string         `json:"key"`
	Title   string         `json:"title"`
	From    time.Time      `json:"from,omitzero"`
	To      time.Time      `json:"to,omitzero"`
	Usual   bool           `json:"usual,omitempty"` // From and To are the practice of the trade, not of this batch
	Figures []units.Figure `json:"figures"`
	Lines   []string       `json:"lines"`
	// Mind is the caution of the step in a few words, Cautions are all of them.
	Mind     string   `json:"mind,omitempty"`
	Cautions []string `json:"cautions,omitempty"`
}

// Severity is how grave a finding is.
type Severity string

// The severities. Stop: do not go on like this.
const (
	Stop Severity = "stop"
	Warn Severity = "warn"
	Note Severity = "note"
)

// A Finding is something that the plan does not wish away. Key does not change
// between versions.
type Finding struct {
	Key      string   `json:"key"`
	Severity Severity `json:"severity"`
	Text     string   `json:"text"`
}

var mixed = figure.Method{Method: "balance of masses, true volumes", Source: density.SourceMixture}

// places are the decimal places of a figure: the usual ones, and more where x is
// small, so that five digits stand in any size of batch. They are those of x as it is
// printed: 0.999999 is 1.0000, which comes back so.
func places(x float64, usual int32) int32 {
	if !(x > 0) {
		return usual
	}
	five := 4 - int32(math.Floor(math.Log10(x)))
	if math.Round(x*math.Pow10(int(five))) >= 1e5 {
		five--
	}
	return max(usual, five)
}

// Figures are the figures of the liquid.
func (l Liquid) Figures() []units.Figure {
	var uv, us, ux float64 = float64(l.VolumeUncertainty), float64(l.StrengthUncertainty), float64(l.ExtractUncertainty)
	out := []units.Figure{
		mixed.Within("volume", "volume at 20 C", float64(l.Volume), uv, places(float64(l.Volume), 4), "L"),
		mixed.Of("mass", "weight", float64(l.Mass), places(float64(l.Mass), 1), "g"),
		mixed.Within("strength", "strength", float64(l.Strength), us, 2, "% vol"),
		mixed.Within("extract", "extract", float64(l.Extract), ux, 1, "g/L"),
		sugarMethod.Of("sugar_low", "sugar, at least", float64(l.Sugar.Low), 1, "g/L"),
		sugarMethod.Of("sugar_high", "sugar, at most", float64(l.Sugar.High), 1, "g/L"),
		shown.Of("reading", "hydrometer reading", float64(l.Reading), 4, "SG"),
		delleMethod.Of("delle_units", "Delle units at the low ends", l.Verdict.DelleUnits, 1, "DU"),
	}
	out[0].Coverage, out[2].Coverage, out[3].Coverage = l.Coverage.Volume, l.Coverage.Strength, l.Coverage.Extract
	if l.Closed.Overpressure > 0 {
		for _, f := range l.Closed.Figures() {
			if f.Key == "overpressure" {
				f.Name = "overpressure in a closed bottle, at 25 C"
				out = append(out, f)
			}
		}
	}
	return out
}

var (
	sugarMethod = figure.Method{Method: "extract less what of it is not sugar, 5 and 95 % points", Source: "Cortez et al. 2009, by the density model; or as stated for the fruit"}
	shown       = figure.Method{Method: "density of the three components at the temperature of the sample, glass expansion", Source: density.SourceMixture + "; ISO 1768"}
	delleMethod = figure.Method{Method: "sugar in g/100 mL and 4.5 times the strength, both at the low end", Source: "Amerine & Kunkee, Vitis 5 (1965)"}
	atCellar    = figure.Method{Method: "volume at 20 C brought to the cellar's temperature at constant mass", Source: density.SourceMixture}
)

// Figures are the figures of the pour.
func (p Pour) Figures() []units.Figure {
	out := []units.Figure{}
	if p.Volume > 0 {
		out = append(out, mixed.Of("volume", "volume at 20 C", float64(p.Volume), places(float64(p.Volume), 4), "L"),
			atCellar.Of("volume_measured", "volume as the cellar measures it", float64(p.Measured), places(float64(p.Measured), 4), "L"))
	}
	out = append(out, mixed.Of("mass", "weight", float64(p.Mass), places(float64(p.Mass), 1), "g"))
	if p.Volume > 0 {
		out = append(out, mixed.Of("strength", "strength", float64(p.Strength), 2, "% vol"), mixed.Of("extract", "extract", float64(p.Extract), 1, "g/L"))
	}
	return out
}

// Figures are all figures of the plan, as the cells of one row: those of a liquid
// and of a pour carry its key in front of theirs, "fortified_strength",
// "fortified_spirit_volume".
func (p Plan) Figures() []units.Figure {
	var out []units.Figure
	add := func(prefix, name string, figures []units.Figure) {
		for _, f := range figures {
			f.Key, f.Name, f.Formula = prefix+"_"+f.Key, name+": "+f.Name, ""
			out = append(out, f)
		}
	}
	for _, l := range p.Liquids {
		add(l.Key, l.Key, l.Figures())
	}
	for _, q := range p.Pours {
		add(q.Into+"_"+q.Key, q.Name+" into "+q.Into, q.Figures())
	}
	for _, s := range p.Steps {
		out = append(out, s.Figures...)
	}
	return out
}

// Liquid is the liquid of this key, and whether there is one.
func (p Plan) Liquid(key string) (Liquid, bool) {
	for _, l := range p.Liquids {
		if l.Key == key {
			return l, true
		}
	}
	return Liquid{}, false
}

type barrierJSON struct {
	Key    string         `json:"key"`
	Hold   stability.Hold `json:"hold"`
	Value  float64        `json:"value"`
	Needed float64        `json:"needed"`
	Unit   string         `json:"unit"`
}

type liquidJSON struct {
	Key      string             `json:"key"`
	Outlook  stability.Outlook  `json:"outlook"`
	Bacteria stability.Bacteria `json:"bacteria"`
	Figures  []units.Figure     `json:"figures"`
	Barriers []barrierJSON      `json:"barriers"`
	Remedy   string             `json:"remedy,omitempty"`
}

// MarshalJSON writes key, outlook, bacteria, figures and barriers.
func (l Liquid) MarshalJSON() ([]byte, error) {
	out := liquidJSON{Key: l.Key, Outlook: l.Verdict.Outlook, Bacteria: l.Verdict.Bacteria, Figures: l.Figures(), Barriers: []barrierJSON{}, Remedy: l.Remedy}
	for _, b := range l.Verdict.Barriers {
		out.Barriers = append(out.Barriers, barrierJSON{b.Key, b.Hold, rounded(b.Value), rounded(b.Needed), b.Unit})
	}
	return json.Marshal(out)
}

// rounded is to the digits that mean something in a barrier.
func rounded(x float64) float64 { return units.Round(x, 4).InexactFloat64() }

type pourJSON struct {
	Into    string         `json:"into"`
	Key     string         `json:"key"`
	Name    string         `json:"name"`
	Figures []units.Figure `json:"figures"`
}

// MarshalJSON writes into, key, name and figures.
func (p Pour) MarshalJSON() ([]byte, error) {
	return json.Marshal(pourJSON{p.Into, p.Key, p.Name, p.Figures()})
}

// UnmarshalJSON reads what MarshalJSON wrote, to its digits.
func (p *Pour) UnmarshalJSON(text []byte) error {
	var in pourJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*p = Pour{Into: in.Into, Key: in.Key, Name: in.Name}
	for _, f := range in.Figures {
		x := f.Value.InexactFloat64()
		switch f.Key {
		case "volume":
			p.Volume = units.Volume(x)
		case "volume_measured":
			p.Measured = units.Volume(x)
		case "mass":
			p.Mass = units.Mass(x)
		case "strength":
			p.Strength = units.Strength(x)
		case "extract":
			p.Extract = units.Concentration(x)
		}
	}
	return nil
}

// UnmarshalJSON reads what MarshalJSON wrote, to its digits: the figures and the
// words and barriers of the verdict.
func (l *Liquid) UnmarshalJSON(text []byte) error {
	var in liquidJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*l = Liquid{Key: in.Key, Remedy: in.Remedy}
	l.Verdict.Outlook, l.Verdict.Bacteria = in.Outlook, in.Bacteria
	for _, b := range in.Barriers {
		l.Verdict.Barriers = append(l.Verdict.Barriers, stability.Barrier{Key: b.Key, Hold: b.Hold, Value: b.Value, Needed: b.Needed, Unit: b.Unit})
	}
	for _, f := range in.Figures {
		x, u := f.Value.InexactFloat64(), f.Uncertainty.Decimal.InexactFloat64()
		switch f.Key {
		case "volume":
			l.Volume, l.VolumeUncertainty, l.Coverage.Volume = units.Volume(x), units.Volume(u), f.Coverage
		case "mass":
			l.Mass = units.Mass(x)
		case "strength":
			l.Strength, l.StrengthUncertainty, l.Coverage.Strength = units.Strength(x), units.Strength(u), f.Coverage
		case "extract":
			l.Extract, l.ExtractUncertainty, l.Coverage.Extract = units.Concentration(x), units.Concentration(u), f.Coverage
		case "sugar_low":
			l.Sugar.Low = units.Concentration(x)
		case "sugar_high":
			l.Sugar.High = units.Concentration(x)
		case "reading":
			l.Reading = gravity.SG(x)
		case "delle_units":
			l.Verdict.DelleUnits = x
		case "overpressure":
			l.Closed.Overpressure = units.Pressure(x) * units.Bar
		}
	}
	return nil
}
