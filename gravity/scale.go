package gravity

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/exact"
	"example.org/mutage/units"
)

// A scale is how one of the scales is written: the symbol that String prints,
// the other names that are read, and the range of what people write.
type scale struct {
	quantity, symbol string
	names            []string // lower case, without a degree sign
	lo, hi           float64
	source           string
	sg               func(float64) (SG, error)
}

var (
	plato   = &scale{"extract in Plato", "P", []string{"p", "plato", "bx", "brix"}, minApparent, maxExtract, sourceApparent, func(x float64) (SG, error) { return Plato(x).SG() }}
	brix    = &scale{"Brix", "Bx", []string{"bx", "brix", "p", "plato"}, minApparent, 75, "the scale of a refractometer", func(x float64) (SG, error) { return Brix(x).SG() }}
	oechsle = &scale{"Oechsle", "Oe", []string{"oe", "oechsle"}, 0, 1000 * (heaviest - 1), density.SourceSucrose, func(x float64) (SG, error) { return Oechsle(x).SG() }}
	points  = &scale{"gravity points", "points", []string{"points", "point", "gravity points"}, 1000 * (lightest - 1), 1000 * (heaviest - 1), sourceApparent, func(x float64) (SG, error) { return Points(x).SG() }}
	baume   = &scale{"Baume, modulus 145", "Be", []string{"be", "bé", "baume", "baumé"}, 0, modulus - modulus/heaviest, density.SourceSucrose, func(x float64) (SG, error) { return Baume(x).SG() }}
	// The symbol keeps it apart from the other Baume where gravity.Parse reads it.
	baume1443 = &scale{"Baume, modulus 144.3", "Be 144.3", []string{"be 144.3", "be", "bé", "baume", "baumé"}, 0, modulus1443 - modulus1443/heaviest, density.SourceSucrose, func(x float64) (SG, error) { return Baume1443(x).SG() }}
)

// parse reads a number on the scale.
func (s *scale) parse(text string) (float64, error) {
	number, unit, err := units.Scan(s.quantity, text)
	if err != nil {
		return 0, err
	}
	if !slices.Contains(s.names, plainUnit(unit)) {
		return 0, &units.ParseError{Text: text, Quantity: s.quantity, Offset: unitAt(text, unit), Expected: []string{"a number and " + s.symbol}}
	}
	x := number.InexactFloat64()
	return x, units.Check(s.quantity, x, s.lo, s.hi, s.symbol, s.source)
}

// plainUnit is a unit without degree signs and points.
func plainUnit(unit string) string { return strings.Trim(unit, " .°") }

// unitAt is where the unit stands in the text, its end where none is written.
func unitAt(text, unit string) int {
	if i := strings.LastIndex(strings.ToLower(text), unit); unit != "" && i >= 0 {
		return i
	}
	return len(text)
}

// format prints six significant digits and the symbol.
func (s *scale) format(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) + " " + s.symbol }

// marshal prints all digits of any finite number and the symbol.
func (s *scale) marshal(x float64) ([]byte, error) {
	if err := checkFinite(s.quantity, x); err != nil {
		return nil, err
	}
	return exact.Text(x, s.symbol), nil
}

func checkFinite(quantity string, x float64) error {
	return units.Check(quantity, x, math.Inf(-1), math.Inf(1), "", "a value to be written out")
}

func parseOn[T ~float64](s *scale, text string) (T, error) {
	x, err := s.parse(text)
	if err != nil {
		return 0, err
	}
	return T(x), nil
}

func setOn[T ~float64](to *T, s *scale, text string) error {
	x, err := s.parse(text)
	if err == nil {
		*to = T(x)
	}
	return err
}

// unmarshalOn reads what marshal wrote, as it is, and what parse reads.
func unmarshalOn[T ~float64](to *T, s *scale, text []byte) error {
	x, ok := exact.Number(text, s.symbol)
	if !ok {
		return setOn(to, s, string(text))
	}
	*to = T(x)
	return nil
}
