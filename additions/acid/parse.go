package acid

import (
	"fmt"
	"math"
	"strings"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// A Part is an acid and how much of it is in a blend, by weight.
type Part struct {
	Acid  Acid
	Parts float64
}

// A Blend is a powder of acids in stated parts by weight, as it is sold or
// weighed together. One part alone is that acid.
type Blend []Part

// what the cellar weighs in; the longer name stands before the one it holds.
var weighed = []*Acid{&citricMonohydrate, &tartaric, &malic, &citric, &lactic, &succinic}

var tartaric, malic, citric, lactic, succinic, citricMonohydrate = Tartaric, Malic, Citric, Lactic, Succinic, CitricMonohydrate

var potassiumBicarbonate, potassiumCarbonate, calciumCarbonate = PotassiumBicarbonate, PotassiumCarbonate, CalciumCarbonate

// ParseBlend reads an acid by name, "tartaric" or "malic acid", or a blend with
// its parts by weight: "50 % tartaric, 30 % malic, 20 % citric" or "5 tartaric, 3
// malic, 2 citric". Errors: *units.ParseError, *units.RangeError for a part that
// is not above zero, and for parts in per cent that do not make 100 within their
// roundings.
func ParseBlend(text string) (Blend, error) {
	var b Blend
	var percent, rounding float64
	inPercent := 0
	pieces := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '+' })
	for _, piece := range pieces {
		name, parts := strings.ToLower(strings.TrimSpace(piece)), 1.0
		if number, unit, err := units.Scan("parts", name); err == nil {
			parts, name = number.InexactFloat64(), strings.TrimSpace(strings.TrimLeft(strings.TrimPrefix(unit, "parts"), "% "))
			if strings.HasPrefix(unit, "%") {
				inPercent++
				percent += parts
				rounding += 0.5 * math.Pow10(int(number.Exponent()))
			}
		} else if len(pieces) > 1 {
			return nil, &units.ParseError{Text: text, Quantity: "acid blend", Offset: strings.Index(text, piece), Expected: []string{"50 % tartaric, 30 % malic, 20 % citric"}}
		}
		a, err := acidNamed(strings.TrimPrefix(name, "of "), text)
		if err != nil {
			return nil, err
		}
		if err := units.CheckOf(a.Name, "parts of a blend", parts, 1e-3, 1e6, "", ""); err != nil {
			return nil, err
		}
		b = append(b, Part{a, parts})
	}
	if len(b) == 0 || inPercent > 0 && inPercent < len(b) {
		return nil, expectedAcid(text)
	}
	if inPercent > 0 {
		rounding = min(rounding, 0.5*float64(len(b))) + 1e-9
		if err := units.CheckOf(text, "sum of the parts", percent, 100-rounding, 100+rounding, "%", "parts in per cent make 100; parts without the sign may make any sum"); err != nil {
			return nil, err
		}
	}
	return b, nil
}

func acidNamed(name, text string) (Acid, error) {
	for _, a := range weighed {
		if name == a.Name || name+" acid" == a.Name {
			return *a, nil
		}
	}
	return Acid{}, expectedAcid(text)
}

func expectedAcid(text string) error {
	names := []string{}
	for _, a := range weighed {
		names = append(names, strings.TrimSuffix(a.Name, " acid"))
	}
	return &units.ParseError{Text: text, Quantity: "acid", Expected: append(names, "50 % tartaric, 30 % malic, 20 % citric")}
}

// ParseCarbonate reads a carbonate by name: "potassium bicarbonate", "potassium
// carbonate", "calcium carbonate". Error: *units.ParseError.
func ParseCarbonate(text string) (Carbonate, error) {
	names := []string{}
	for _, c := range []*Carbonate{&potassiumBicarbonate, &potassiumCarbonate, &calciumCarbonate} {
		if strings.EqualFold(strings.TrimSpace(text), c.Name) {
			return *c, nil
		}
		names = append(names, c.Name)
	}
	return Carbonate{}, &units.ParseError{Text: text, Quantity: "carbonate", Expected: names}
}

// String is the blend with its parts in per cent of the weight: "tartaric acid",
// "50 % tartaric acid, 30 % malic acid, 20 % citric acid".
func (b Blend) String() string {
	if len(b) == 1 {
		return b[0].Acid.Name
	}
	var all float64
	for _, p := range b {
		all += p.Parts
	}
	var out []string
	for _, p := range b {
		out = append(out, fmt.Sprintf("%.3g %% %s", 100*p.Parts/all, p.Acid.Name))
	}
	return strings.Join(out, ", ")
}

// Raise is the weight of the blend that raises the TA of v by so much, potassium
// taking none of it. Domain and error as RaiseTA; 1e-3 to 1e6 parts of each acid.
func (b Blend) Raise(by units.Concentration, v units.Volume) (units.Mass, error) {
	if err := check.First(check.Level("rise of TA", by, maxAcid), check.Treated(v)); err != nil {
		return 0, err
	}
	_, each, err := b.Raised(1, 1) // by a gram in a litre
	if err != nil {
		return 0, err
	}
	return units.Mass(float64(by) / float64(each) * float64(v)), nil
}

// Raised is what a weighed blend does to the TA of v, from low to high: of
// tartaric acid crystals may take a part. Domain and error as RaisedTA.
func (b Blend) Raised(m units.Mass, v units.Volume) (low, high units.Concentration, err error) {
	var all float64
	for _, p := range b {
		if err := units.CheckOf(p.Acid.Name, "parts of a blend", p.Parts, 1e-3, 1e6, "", ""); err != nil {
			return 0, 0, err
		}
		all += p.Parts
	}
	if err := units.Check("acids of a blend", float64(len(b)), 1, 20, "", ""); err != nil {
		return 0, 0, err
	}
	for _, p := range b {
		l, h, err := RaisedTA(m*units.Mass(p.Parts/all), v, p.Acid)
		if err != nil {
			return 0, 0, err
		}
		low, high = low+l, high+h
	}
	return low, high, nil
}
