package units

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"
)

// Longest text and longest run of digits that are read, and the largest
// exponent: a number of the cellar needs none of them.
const (
	maxText     = 120
	maxDigits   = 30
	maxExponent = 18
)

// Vulgar fractions of Unicode that stand on measuring cups.
var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

var spaces = strings.NewReplacer("\u00a0", " ", "\u2009", " ", "\u202f", " ", "\u2212", "-", "\u2044", "/")

// Scan splits text into a number and the unit written behind it, the way
// people write both: "1 1/2 cups", "¾ gal", "750ml", "1,5 L", "1.2e3 g".
// The unit comes back in lower case with single spaces, empty where none is
// written. A comma is a decimal comma when one or two digits follow or a lone 0
// stands before it; groups of three are read only where a second separator settles the matter, so
// "1,500" is refused with both readings named. At most 30 digits and 120
// bytes are read. The error is a *ParseError.
func Scan(quantity, text string) (number decimal.Decimal, unit string, err error) {
	fail := func(at int, expected ...string) (decimal.Decimal, string, error) {
		return decimal.Zero, "", &ParseError{Text: text, Quantity: quantity, Offset: at, Expected: expected}
	}
	if len(text) > maxText {
		return fail(0, "at most 120 bytes of text")
	}
	if !utf8.ValidString(text) {
		return fail(0, "text in UTF-8")
	}
	s := strings.TrimSpace(spaces.Replace(text))
	negative := strings.HasPrefix(s, "-")
	s = strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(s, "-"), "+"), " ")

	end := strings.IndexFunc(s, func(r rune) bool { return !(r >= '0' && r <= '9' || r == '.' || r == ',') })
	if end < 0 {
		end = len(s)
	}
	digits, rest := s[:end], s[end:]
	if strings.HasSuffix(digits, ".") || strings.HasSuffix(digits, ",") {
		return fail(0, "a digit behind the separator")
	}
	if len(digits) > maxDigits {
		return fail(0, "at most 30 digits")
	}
	whole := digits
	if whole != "" {
		plain, choices := separators(digits)
		if choices != nil {
			return fail(0, choices...)
		}
		exponent, after := exponentOf(rest)
		rest = after
		if len(exponent) > 4 {
			return fail(end, "an exponent of at most 18")
		}
		number, err = decimal.NewFromString(plain + exponent)
		if err != nil || number.Exponent() > maxExponent || number.Exponent() < -maxDigits-maxExponent {
			return fail(0, "a number such as 1.5, 1,5, 1 1/2 or ¾")
		}
	}
	fraction, rest, found, ok := fractionOf(digits, rest)
	switch {
	case !ok:
		return fail(0, "a fraction such as 1/2 behind a whole number")
	case found == asWhole: // "1/2": the digits read so far were the numerator
		number = fraction
	case found == behind:
		number = number.Add(fraction)
	case digits == "":
		return fail(0, "a number such as 1.5, 1,5, 1 1/2 or ¾, then a unit")
	}
	if negative {
		number = number.Neg()
	}
	unit = strings.ToLower(strings.Join(strings.Fields(rest), " "))
	return number, unit, nil
}

// separators turns digits with "." and "," into plain digits with at most one
// ".". choices is not nil when the text has two readings or none.
func separators(s string) (plain string, choices []string) {
	dots, commas := strings.Count(s, "."), strings.Count(s, ",")
	switch {
	case commas == 0 && dots <= 1:
		return s, nil
	case commas == 1 && dots == 0:
		head, tail, _ := strings.Cut(s, ",")
		if len(tail) <= 2 || head == "0" { // no group of thousands begins with 0
			return head + "." + tail, nil
		}
		if len(tail) == 3 && head != "" {
			return "", []string{head + tail + " (thousands) or " + head + "." + tail + " (decimal) written without the comma"}
		}
		return "", []string{"one or two digits behind a decimal comma, or a decimal point"}
	}
	// Two or more separators: the last is decimal if it is of another kind
	// than the first; all others group by three.
	last := strings.LastIndexAny(s, ".,")
	group := s[strings.IndexAny(s, ".,")]
	whole, tail := s, ""
	if s[last] != group {
		whole, tail = s[:last], "."+s[last+1:]
	}
	parts := strings.Split(whole, string(group))
	for i, p := range parts {
		if strings.ContainsAny(p, ".,") || i > 0 && len(p) != 3 || len(p) == 0 || len(p) > 3 {
			return "", []string{"digits in groups of three, then at most one decimal mark"}
		}
	}
	return strings.Join(parts, "") + tail, nil
}

// exponentOf splits "e3 g" into "e3" and " g"; an e without digits belongs to
// the unit.
func exponentOf(s string) (exponent, rest string) {
	if s == "" || s[0] != 'e' && s[0] != 'E' {
		return "", s
	}
	i := 1
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	from := i
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	if i == from {
		return "", s
	}
	return s[:i], s[i:]
}

type place int

const (
	nowhere place = iota
	behind        // "1 1/2", "1½"
	asWhole       // "1/2", "½"
)

// fractionOf reads a fraction that stands behind digits or in their stead.
func fractionOf(digits, rest string) (value decimal.Decimal, after string, found place, ok bool) {
	isWhole := !strings.ContainsAny(digits, ".,")
	t := strings.TrimLeft(rest, " ")
	if r, n := utf8.DecodeRuneInString(t); n > 0 {
		if f, is := vulgar[r]; is {
			where := behind
			if digits == "" {
				where = asWhole
			}
			return ratio(f[0], f[1]), t[n:], where, isWhole
		}
	}
	if strings.HasPrefix(t, "/") && digits != "" && isWhole { // "1/2"
		den, after := leadingInt(t[1:])
		num, _ := leadingInt(digits)
		if den > 0 {
			return ratio(num, den), after, asWhole, len(digits) <= 6
		}
		return value, rest, nowhere, false
	}
	num, t := leadingInt(t) // "1 1/2"
	if num < 0 || !strings.HasPrefix(t, "/") {
		return value, rest, nowhere, num < 0
	}
	den, after := leadingInt(t[1:])
	return ratio(num, max(den, 1)), after, behind, den > 0 && isWhole && digits != ""
}

// leadingInt reads up to six digits; -1 where there is none.
func leadingInt(s string) (n int64, rest string) {
	i := 0
	for i < len(s) && i < 6 && unicode.IsDigit(rune(s[i])) {
		n = n*10 + int64(s[i]-'0')
		i++
	}
	if i == 0 {
		return -1, s
	}
	return n, s[i:]
}

func ratio(num, den int64) decimal.Decimal {
	return decimal.NewFromInt(num).DivRound(decimal.NewFromInt(den), 30)
}
