package batch

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/mutage/abv/spirit"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// A Field is one name of a batch file: what it is, and how it is written.
type Field struct {
	Group, Name, Help, Example string
}

// field is a Field with its way in and out of a Batch. Texts of a list field are
// set one after the other.
type field struct {
	Field
	list bool
	set  func(b *Batch, text string) error
	get  func(b *Batch) []string // nothing where it is not stated
}

// Fields lists the fields of a batch file in the order of the work.
func Fields() []Field {
	out := make([]Field, len(fields))
	for i, f := range fields {
		out[i] = f.Field
	}
	return out
}

const (
	starts = "where it starts"
	wine   = "or a finished wine"
	wanted = "what is wanted"
	kept   = "a part kept sweet and weak"
	facts  = "what has happened"
)

var fields = []field{
	text(starts, "name", "any text", "Morello cherry, fortified", func(b *Batch) *string { return &b.Name }),
	{Field: Field{starts, "units", "of the words: metric, us or imperial", "metric"},
		set: func(b *Batch, s string) (err error) { b.Units, err = say.ParseSystem(s); return },
		get: func(b *Batch) []string {
			if b.Units == say.Metric {
				return nil
			}
			return []string{b.Units.String()}
		}},
	{Field: Field{starts, "start", "date and time the yeast goes in; dates of the plan follow", "2026-11-25 18:00"},
		set: func(b *Batch, s string) (err error) { b.Start, err = parseTime(s); return },
		get: func(b *Batch) []string {
			if b.Start.IsZero() {
				return nil
			}
			return []string{b.Start.Format(time.RFC3339)}
		}},
	amount(starts, "must", "juice before the sugar, by volume or by weight", "3 L ± 2 %", func(b *Batch) *Amount { return &b.Must }),
	stated(starts, "must_reading", "hydrometer in the juice before the sugar, as read", "1.057 ± 0.001", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.MustReading }),
	stated(starts, "must_temperature", "of the must when it was read and measured", "26 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.MustTemperature }),
	stated(starts, "hydrometer", "temperature that stands on it", "20 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.Hydrometer }),
	stated(starts, "original_reading", "instead of must_reading: as read with the sugar in", "1.092", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.OriginalReading }),
	{Field: Field{starts, "juice_label", "instead of a reading: the sugar that the juice's label states", "26 g per 240 mL"},
		set: func(b *Batch, s string) (err error) { b.JuiceLabel, err = parseLabel(s); return },
		get: func(b *Batch) []string {
			if b.JuiceLabel == (Label{}) {
				return nil
			}
			return []string{fmt.Sprintf("%s per %s", massText(b.JuiceLabel.Sugar), volumeText(b.JuiceLabel.In))}
		}},
	text(starts, "fruit", "juice, skins (fermented on them) or a fruit: how much of the extract is not sugar", "morello cherry", func(b *Batch) *string { return &b.Fruit }),
	stated(starts, "not_sugar", "the same as measured: extract that is not sugar, per litre of juice", "25 g/L ± 5 g/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.NotSugar }),
	{Field: Field{starts, "sugar", "what is added, by weight or by the cup; a list for portions; honey, brown sugar, syrup of 65 Bx", `1 3/4 cups`}, list: true,
		set: func(b *Batch, s string) error {
			p, err := parsePortion(s)
			if err == nil {
				b.Sugar = append(b.Sugar, p)
			}
			return err
		},
		get: func(b *Batch) (out []string) {
			for _, p := range b.Sugar {
				out = append(out, p.String())
			}
			return out
		}},
	stated(starts, "gravity_wanted", "instead of sugar: the original gravity to reach with it", "1.092", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.GravityWanted }),

	amount(wine, "wine", "a finished wine, by volume or by weight, instead of must", "5 L", func(b *Batch) *Amount { return &b.Wine }),
	stated(wine, "wine_strength", "where it is known", "13 % vol", units.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.WineStrength }),
	stated(wine, "wine_reading", "hydrometer in it, degassed", "0.994", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.WineReading }),
	stated(wine, "wine_refractometer", "in it, in Brix: with the hydrometer it gives the strength", "7.2 Bx", parseBrix, brixText, func(b *Batch) *Stated[gravity.Brix] { return &b.WineRefractometer }),
	stated(wine, "wine_boiled", "hydrometer in it after the alcohol was boiled off and water filled up: the same", "1.010", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.WineBoiled }),
	stated(wine, "wine_temperature", "of these readings", "20 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.WineTemperature }),
	stated(wine, "sulfite_total", "SO2 already in it, total", "60 mg/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.SulfiteTotal }),

	stated(wanted, "stop_at", "strength to stop the fermentation at; 0 % vol for juice that never ferments", "5.5 % vol", units.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.StopAt }),
	stated(wanted, "stop_from", "or between this strength", "5 % vol", units.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.StopFrom }),
	stated(wanted, "stop_to", "and this one", "6 % vol", units.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.StopTo }),
	stated(wanted, "stop_least_sugar", "and with at least this much sugar left", "120 g/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.StopLeastSugar }),
	stated(wanted, "yeast_limit", "strength at which its maker says the yeast gives up", "16 % vol", units.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.YeastLimit }),
	stated(wanted, "lees", "left behind when racking", "150 mL", units.ParseVolume, volumeText, func(b *Batch) *Stated[units.Volume] { return &b.Lees }),
	stated(wanted, "cellar_temperature", "of wine and spirit when they are measured", "18 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.CellarTemperature }),
	stated(wanted, "ph", "of the wine", "3.4", parseNumber, numberText, func(b *Batch) *Stated[float64] { return &b.PH }),
	stated(wanted, "sulfite", "SO2 to add before the spirit", "50 mg/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.Sulfite }),
	stated(wanted, "sorbate", "sorbic acid to add before the spirit", "200 mg/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.Sorbate }),
	stated(wanted, "acid", "tartaric acid to add", "1 g/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.Acid }),
	text(wanted, "spirit", "its name", "neutral spirit", func(b *Batch) *string { return &b.Spirit }),
	stated(wanted, "spirit_strength", "as the bottle says it: 40 % vol, 40 % vol at 15 C, 33.3 % mass, 80 proof, 70 British proof", "40 % vol", spirit.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.SpiritStrength }),
	stated(wanted, "spirit_sugar", "sugar in it, for a liqueur", "0 g/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.SpiritExtract }),
	amount(wanted, "spirit_planned", "amount you meant to pour", "26 fl oz", func(b *Batch) *Amount { return &b.SpiritPlanned }),
	amount(wanted, "spirit_stock", "amount at hand", "3 L", func(b *Batch) *Amount { return &b.SpiritStock }),
	stated(wanted, "spirit_price", "for a litre, in any money", "18", parseNumber, numberText, func(b *Batch) *Stated[float64] { return &b.SpiritPrice }),
	stated(wanted, "target", "strength of the blend", "20 % vol", units.ParseStrength, strengthText, func(b *Batch) *Stated[units.Strength] { return &b.Target }),
	stated(wanted, "target_sugar", "sugar of the blend: what lacks is added as sweetener", "90 g/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.TargetSugar }),
	stated(wanted, "least_sugar", "least sugar of the blend: a warning where it has less", "80 g/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.LeastSugar }),
	text(wanted, "sweetener", "sugar, honey, or syrup of so many Bx", "sugar", func(b *Batch) *string { return &b.Sweetener }),
	stated(wanted, "vessel", "the jar, to the brim", "1 1/2 gal", units.ParseVolume, volumeText, func(b *Batch) *Stated[units.Volume] { return &b.Vessel }),
	stated(wanted, "headspace", "to leave in it", "200 mL", units.ParseVolume, volumeText, func(b *Batch) *Stated[units.Volume] { return &b.Headspace }),
	{Field: Field{wanted, "fortify", `all of the wine, or "fill the vessel" and keep the rest`, "all"},
		set: func(b *Batch, s string) error {
			switch s = strings.ToLower(strings.TrimSpace(s)); s {
			case fortifyAll, fillVessel:
				b.Fortify = s
				return nil
			}
			return &units.ParseError{Text: s, Quantity: "fortify", Expected: []string{fortifyAll, fillVessel}}
		},
		get: func(b *Batch) []string { return some(b.Fortify) }},
	stated(wanted, "blend_volume", "or so much of the blend, and keep the rest", "1 L", units.ParseVolume, volumeText, func(b *Batch) *Stated[units.Volume] { return &b.BlendVolume }),
	{Field: Field{wanted, "wood", "chips in the blend: weight, or weight per litre", "10 g"},
		set: func(b *Batch, s string) error {
			if c, half, err := uncertainty.Within(units.ParseConcentration, "wood", s); err == nil {
				b.WoodPerLitre = Within(c, half)
				return nil
			}
			m, half, err := uncertainty.Within(units.ParseMass, "wood", s)
			if err == nil {
				b.Wood = Within(m, half)
			}
			return err
		},
		get: func(b *Batch) []string {
			if b.WoodPerLitre.Known {
				return []string{statedText(b.WoodPerLitre, concentrationText, "g/L")}
			}
			if !b.Wood.Known {
				return nil
			}
			return []string{statedText(b.Wood, massText, "g")}
		}},
	{Field: Field{wanted, "bottles", "sizes at hand", `["750 mL", "375 mL"]`}, list: true,
		set: func(b *Batch, s string) error {
			v, err := units.ParseVolume(s)
			if err == nil {
				b.Bottles = append(b.Bottles, v)
			}
			return err
		},
		get: func(b *Batch) (out []string) {
			for _, v := range b.Bottles {
				out = append(out, volumeText(v))
			}
			return out
		}},
	text(wanted, "jurisdiction", "whose limits to look at", "US", func(b *Batch) *string { return &b.Jurisdiction }),

	stated(kept, "kept_sulfite", "SO2 to add to the part kept, if another than sulfite", "50 mg/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.KeptSulfite }),
	stated(kept, "kept_sorbate", "sorbic acid to add to it, if another than sorbate", "200 mg/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.KeptSorbate }),
	stated(kept, "kept_temperature", "the warmest it will be kept", "4 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.KeptTemperature }),

	{Field: Field{facts, "readings", `of the fermentation so far: time, gravity, temperature`, `["2026-11-25 18:00 1.092 22 C"]`}, list: true,
		set: func(b *Batch, s string) error {
			n, err := parseNoted(s)
			if err == nil {
				b.Readings = append(b.Readings, n)
			}
			return err
		},
		get: func(b *Batch) (out []string) {
			for _, n := range b.Readings {
				out = append(out, n.String())
			}
			return out
		}},
	stated(facts, "stop_reading", "hydrometer when it was stopped, degassed", "1.056", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.StopReading }),
	stated(facts, "stop_temperature", "of that sample", "18 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.StopTemperature }),
	stated(facts, "racked_reading", "hydrometer after racking", "1.054", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.RackedReading }),
	stated(facts, "racked_temperature", "of that sample", "18 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.RackedTemperature }),
	amount(facts, "racked", "wine after racking, by volume or by weight", "3.05 L", func(b *Batch) *Amount { return &b.Racked }),
	stated(facts, "sulfite_free", "free SO2 as measured in the racked wine", "22 mg/L", units.ParseConcentration, concentrationText, func(b *Batch) *Stated[units.Concentration] { return &b.FreeSulfite }),
	amount(facts, "wine_poured", "wine that really went into the blend", "3.05 L", func(b *Batch) *Amount { return &b.PouredWine }),
	amount(facts, "spirit_poured", "spirit that really went in", "2.2 L", func(b *Batch) *Amount { return &b.PouredSpirit }),
	stated(facts, "blend_reading", "hydrometer in the rested blend", "1.013", gravity.Parse, sgText, func(b *Batch) *Stated[gravity.SG] { return &b.BlendReading }),
	stated(facts, "blend_temperature", "of that sample", "18 C", units.ParseTemperature, temperatureText, func(b *Batch) *Stated[units.Temperature] { return &b.BlendTemperature }),
}

const (
	fortifyAll = "all"
	fillVessel = "fill the vessel"
)

func some(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}

func text(group, name, help, example string, into func(*Batch) *string) field {
	return field{Field: Field{group, name, help, example},
		set: func(b *Batch, s string) error {
			s, err := say.Name(s)
			if err == nil {
				*into(b) = s
			}
			return err
		},
		get: func(b *Batch) []string { return some(*into(b)) }}
}

// stated is a quantity that may carry limits.
func stated[T ~float64](group, name, help, example string, parse func(string) (T, error), write func(T) string, into func(*Batch) *Stated[T]) field {
	return field{Field: Field{group, name, help, example},
		set: func(b *Batch, s string) error {
			x, half, err := uncertainty.Within(parse, name, s)
			if err == nil {
				*into(b) = Within(x, half)
			}
			return err
		},
		get: func(b *Batch) []string {
			s := *into(b)
			if !s.Known {
				return nil
			}
			return []string{statedText(s, write, unitOf(write(s.Value)))}
		}}
}

// amount is a liquid by volume or by weight.
func amount(group, name, help, example string, into func(*Batch) *Amount) field {
	return field{Field: Field{group, name, help, example},
		set: func(b *Batch, s string) error {
			if v, half, err := uncertainty.Within(units.ParseVolume, name, s); err == nil {
				*into(b) = Amount{Volume: Within(v, half)}
				return nil
			} else if m, half, asMass := uncertainty.Within(units.ParseMass, name, s); asMass == nil {
				*into(b) = Amount{Mass: Within(m, half)}
				return nil
			} else {
				return err
			}
		},
		get: func(b *Batch) []string {
			switch a := *into(b); {
			case a.Volume.Known:
				return []string{statedText(a.Volume, volumeText, "L")}
			case a.Mass.Known:
				return []string{statedText(a.Mass, massText, "g")}
			}
			return nil
		}}
}

func statedText[T ~float64](s Stated[T], write func(T) string, unit string) string {
	out := write(s.Value)
	if s.Limit != 0 {
		out += strings.TrimRight(" ± "+digits(s.Limit)+" "+unit, " ")
	}
	return out
}

// unitOf is what stands behind the number of a text.
func unitOf(text string) string {
	_, unit, _ := strings.Cut(text, " ")
	return unit
}

func digits(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func sgText(g gravity.SG) string                     { return digits(float64(g)) }
func brixText(b gravity.Brix) string                 { return digits(float64(b)) + " Bx" }
func numberText(x float64) string                    { return digits(x) }
func volumeText(v units.Volume) string               { return digits(float64(v)) + " L" }
func massText(m units.Mass) string                   { return digits(float64(m)) + " g" }
func strengthText(s units.Strength) string           { return digits(float64(s)) + " % vol" }
func concentrationText(c units.Concentration) string { return digits(float64(c)) + " g/L" }
func temperatureText(t units.Temperature) string {
	return strconv.FormatFloat(t.Celsius(), 'g', 12, 64) + " C"
}
func parseNumber(text string) (float64, error) {
	x, unit, err := units.Scan("number", text)
	if err == nil && unit != "" {
		err = &units.ParseError{Text: text, Quantity: "number", Offset: len(text) - len(unit), Expected: []string{"a number without a unit"}}
	}
	return x.InexactFloat64(), err
}
