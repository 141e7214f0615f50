// Package say writes quantities as a cellar reads them: in its own units, and to
// the digits that its instruments can show.
package say

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/mutage/units"
)

// A System is the units of a cellar.
type System int

// The systems.
const (
	Metric System = iota
	US
	Imperial
)

var systems = [...]string{"metric", "us", "imperial"}

// ParseSystem reads "metric", "us" or "imperial". Error: *units.ParseError.
func ParseSystem(text string) (System, error) {
	for i, name := range systems {
		if strings.EqualFold(strings.TrimSpace(text), name) {
			return System(i), nil
		}
	}
	return Metric, &units.ParseError{Text: text, Quantity: "system of units", Expected: systems[:]}
}

// String is its name.
func (s System) String() string {
	if s < 0 || int(s) >= len(systems) {
		return "system " + strconv.Itoa(int(s))
	}
	return systems[s]
}

// MarshalText is the code that ParseSystem reads.
func (s System) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads what MarshalText wrote. Error: *units.ParseError.
func (s *System) UnmarshalText(text []byte) (err error) {
	*s, err = ParseSystem(string(text))
	return err
}

// number prints x to so many places, with commas between thousands.
func number(x float64, places int32) string {
	text := units.Round(x, places).StringFixed(places)
	sign, rest := "", text
	if strings.HasPrefix(rest, "-") {
		sign, rest = "-", rest[1:]
	}
	whole, fraction, _ := strings.Cut(rest, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if fraction != "" {
		whole += "." + fraction
	}
	return sign + whole
}

// A scale is a unit, from which size it is used, and the places it is read to.
type scale struct {
	from, unit float64 // in the base unit
	name       string
	places     int32
}

func pick(x float64, scales []scale) scale {
	size := x
	if size < 0 {
		size = -size
	}
	at := scales[len(scales)-1]
	for _, s := range scales {
		if size >= s.from*(1-1e-9) {
			return s
		}
	}
	return at
}

var volumes = map[System][]scale{
	Metric: {{100, 1, "L", 0}, {10, 1, "L", 1}, {0.995, 1, "L", 2}, {0.0095, 0.001, "mL", 0}, {0, 0.001, "mL", 1}},
	US: {{10 * float64(units.USGallon), float64(units.USGallon), "gal", 1}, {float64(units.USGallon), float64(units.USGallon), "gal", 2},
		{3 * float64(units.USFluidOunce), float64(units.USFluidOunce), "fl oz", 1}, {0, float64(units.USFluidOunce), "fl oz", 2}},
	Imperial: {{10 * float64(units.ImperialGallon), float64(units.ImperialGallon), "imp gal", 1}, {float64(units.ImperialGallon), float64(units.ImperialGallon), "imp gal", 2},
		{3 * float64(units.ImperialFluidOunce), float64(units.ImperialFluidOunce), "imp fl oz", 1}, {0, float64(units.ImperialFluidOunce), "imp fl oz", 2}},
}

var masses = map[System][]scale{
	Metric:   {{9995, 1000, "kg", 2}, {9.95, 1, "g", 0}, {0, 1, "g", 2}},
	US:       {{float64(units.Pound), float64(units.Pound), "lb", 2}, {100, float64(units.Ounce), "oz", 1}, {9.95, float64(units.Ounce), "oz", 2}, {0, 1, "g", 2}},
	Imperial: {{float64(units.Pound), float64(units.Pound), "lb", 2}, {100, float64(units.Ounce), "oz", 1}, {9.95, float64(units.Ounce), "oz", 2}, {0, 1, "g", 2}},
}

// known is the system, metric where it is none of them.
func (s System) known() System {
	if s < 0 || int(s) >= len(systems) {
		return Metric
	}
	return s
}

// VolumeIn is a volume as number and unit.
func (s System) VolumeIn(v units.Volume) (value, unit string) {
	at := pick(float64(v), volumes[s.known()])
	return number(float64(v)/at.unit, at.places), at.name
}

// Volume is a volume in words.
func (s System) Volume(v units.Volume) string { return join(s.VolumeIn(v)) }

// VolumeFrom is a volume in words, of which no less does, or with up false no more.
func (s System) VolumeFrom(v units.Volume, up bool) string {
	at := pick(float64(v), volumes[s.known()])
	return join(number(outward(float64(v)/at.unit, at.places, up), at.places), at.name)
}

// StrengthFrom is a strength in words, of which no less does, or with up false no
// more.
func StrengthFrom(s units.Strength, up bool) string {
	return number(outward(float64(s), 1, up), 1) + " % vol"
}

// outward rounds x to so many places, up or down, but for its last bits.
func outward(x float64, places int32, up bool) float64 {
	one := math.Pow10(int(places))
	if up {
		return math.Ceil(x*one-1e-9) / one
	}
	return math.Floor(x*one+1e-9) / one
}

// VolumeLimit is the limit of a volume, in the unit of the volume.
func (s System) VolumeLimit(v, limit units.Volume) string {
	at := pick(float64(v), volumes[s.known()])
	return number(float64(limit)/at.unit, at.places)
}

// MassIn is a mass as number and unit.
func (s System) MassIn(m units.Mass) (value, unit string) {
	at := pick(float64(m), masses[s.known()])
	return number(float64(m)/at.unit, at.places), at.name
}

// Mass is a mass in words.
func (s System) Mass(m units.Mass) string { return join(s.MassIn(m)) }

// Temperature is a temperature in words, to a degree.
func (s System) Temperature(t units.Temperature) string {
	degrees, name := t.Celsius(), " C"
	if s.known() != Metric {
		degrees, name = t.Fahrenheit(), " F"
	}
	return units.Round(degrees, 0).String() + name
}

// Strength is a strength in words.
func Strength(s units.Strength) string { return number(float64(s), 1) + " % vol" }

// Gravity is a specific gravity to the third place, as a hydrometer shows it.
func Gravity(g float64) string { return units.Round(g, 3).StringFixed(3) }

// Concentration is g/L in words, below 1 g/L in mg/L.
func Concentration(c units.Concentration) string {
	if c < 0.9995 && c > 0 {
		return number(c.In(units.MilligramPerLitre), 0) + " mg/L"
	}
	return number(float64(c), 0) + " g/L"
}

func join(value, unit string) string { return value + " " + unit }

// Name reads a name: 1 to 60 characters on one line, without control characters
// and without marks that turn the direction of writing. Error: *units.ParseError.
func Name(text string) (string, error) {
	t := strings.TrimSpace(text)
	bad := strings.ContainsFunc(t, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) })
	if n := utf8.RuneCountInString(t); n == 0 || n > 60 || bad || !utf8.ValidString(t) {
		return "", &units.ParseError{Text: strconv.QuoteToASCII(text), Quantity: "text", Expected: []string{"1 to 60 characters on one line, no control characters"}}
	}
	return t, nil
}

// Nearest is the word with the fewest letters to change; none where even that is
// far: more than half of its letters.
func Nearest(word string, among []string) (string, bool) {
	best, least := "", math.MaxInt
	for _, w := range among {
		if d := distance(strings.ToLower(word), strings.ToLower(w)); d < least {
			best, least = w, d
		}
	}
	return best, best != "" && 2*least <= max(len(word), len(best))
}

// distance counts the letters to insert, remove or change, and the neighbours to
// swap (Damerau & Levenshtein, each place touched once).
func distance(a, b string) int {
	before, row := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range len(b) {
			change := row[j]
			if a[i] != b[j] {
				change++
			}
			next[j+1] = min(change, row[j+1]+1, next[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(b)]
}

// MassLimit is the limit of a mass, in the unit of the mass.
func (s System) MassLimit(m, limit units.Mass) string {
	at := pick(float64(m), masses[s.known()])
	return number(float64(limit)/at.unit, at.places)
}
