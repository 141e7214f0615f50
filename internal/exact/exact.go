// Package exact writes a number and its unit with all digits and reads back what
// it wrote: the text form of every quantity and scale in JSON and configuration.
// It checks no range; what people write goes through the parsers, which do.
package exact

import (
	"math"
	"strconv"
	"strings"
)

// Text is x with the fewest digits that give the same float64 back, then the unit.
func Text(x float64, unit string) []byte { return TextOf(x, unit, -1) }

// TextOf is Text with so many significant digits.
func TextOf(x float64, unit string, digits int) []byte {
	return append(strconv.AppendFloat(nil, x, 'g', digits, 64), " "+unit...)
}

// Number reads what Text wrote. Any other text, and a number that is not finite,
// is not ok.
func Number(text []byte, unit string) (x float64, ok bool) {
	digits, has := strings.CutSuffix(string(text), " "+unit)
	if !has || strings.ContainsFunc(digits, notDecimal) {
		return 0, false
	}
	x, err := strconv.ParseFloat(digits, 64)
	return x, err == nil && Finite(x)
}

// notDecimal keeps out what strconv reads beside decimals: "0x1p4", "1_0", "inf".
func notDecimal(r rune) bool { return !(r >= '0' && r <= '9') && !strings.ContainsRune(".eE+-", r) }

// Finite says whether x is a number.
func Finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
