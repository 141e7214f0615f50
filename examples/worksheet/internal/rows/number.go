package rows

import (
	"bytes"
	"errors"
	"math"
	"strconv"
	"strings"
)

var (
	errNumber  = errors.New("is not a number")
	errEmpty   = errors.New("is empty")
	errLarge   = errors.New("is too large")
	errBoth    = errors.New("has a thousands separator: write it without")
	errComma   = errors.New("has a comma, and the decimal mark of this file is the point (-decimal comma, if it is not)")
	errPoint   = errors.New("has a point, and the decimal mark of this file is the comma (-decimal point, if it is not)")
	errEither  = errors.New("may be read with a decimal comma or a thousands separator (-decimal comma or -decimal point says which)")
	powersOf10 = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}
)

// bare is the cell without the spaces and quotation marks around it.
func bare(cell []byte) []byte {
	if len(cell) >= 2 && cell[0] == '"' && cell[len(cell)-1] == '"' {
		cell = cell[1 : len(cell)-1]
	}
	if len(cell) > 0 && (cell[0] <= ' ' || cell[len(cell)-1] <= ' ' || cell[0] >= 0x80) {
		cell = bytes.TrimSpace(cell)
	}
	return cell
}

// number reads decimal digits with at most one decimal mark, a sign and an
// exponent: what people and spreadsheets write. strconv reads more (1_0,
// 0x1p3, Inf), which is no number here.
func number(cell []byte, mark byte) (float64, error) {
	cell = bare(cell)
	if len(cell) == 0 {
		return 0, errEmpty
	}
	i, negative := 0, cell[0] == '-'
	if negative || cell[0] == '+' {
		i++
	}
	var digits uint64
	count, places, seen := 0, -1, 0
	for ; i < len(cell); i++ {
		c := cell[i]
		if c-'0' <= 9 {
			seen++
			if count > 0 || c != '0' {
				count++
			}
			if count <= 19 {
				digits = digits*10 + uint64(c-'0')
			}
			if places >= 0 {
				places++
			}
			continue
		}
		if c != mark || places >= 0 {
			break
		}
		places = 0
	}
	if i < len(cell) && (cell[i] == '.' || cell[i] == ',') {
		return 0, marked(cell, mark)
	}
	if seen == 0 || places == 0 || !exponent(cell[i:]) {
		return 0, errNumber
	}
	if i == len(cell) && count <= 15 && places <= 22 { // exact in a float64, as is the power: one rounding
		x := float64(digits)
		if places > 0 {
			x /= powersOf10[places]
		}
		if negative {
			x = -x
		}
		return x, nil
	}
	x, err := strconv.ParseFloat(strings.Replace(string(cell), ",", ".", 1), 64)
	if err != nil {
		return 0, errLarge // the digits are in order
	}
	return x, nil
}

// exponent says whether there is none or one of one to three digits.
func exponent(s []byte) bool {
	if len(s) == 0 {
		return true
	}
	if s[0] != 'e' && s[0] != 'E' {
		return false
	}
	s = s[1:]
	if len(s) > 0 && (s[0] == '+' || s[0] == '-') {
		s = s[1:]
	}
	for _, c := range s {
		if c-'0' > 9 {
			return false
		}
	}
	return len(s) > 0 && len(s) <= 3
}

// marked says why a number with a mark too many is none.
func marked(cell []byte, mark byte) error {
	m, w := evidence(cell)
	switch {
	case m == 0:
		return errNumber
	case bytes.Count(cell, []byte("."))+bytes.Count(cell, []byte(",")) > 1:
		return errBoth
	case w == weak && m == ',':
		return errEither
	case mark == '.':
		return errComma
	}
	return errPoint
}

type weight int

const (
	none weight = iota
	weak
	strong
)

// evidence is the decimal mark that a cell shows. It is weak where the mark may
// group thousands: 1,500 and 1.500, but neither 0.500 nor 1.50.
func evidence(cell []byte) (mark byte, w weight) {
	cell = bytes.TrimLeft(bare(cell), "+-")
	at := bytes.LastIndexAny(cell, ".,")
	if at < 0 {
		return 0, none
	}
	before, after := cell[:at], cell[at+1:]
	if e := bytes.IndexAny(after, "eE"); e >= 0 && exponent(after[e:]) {
		after = after[:e]
	}
	if !digitsOnly(after) || len(after) == 0 {
		return 0, none
	}
	first := bytes.IndexAny(before, ".,")
	if first < 0 {
		if !digitsOnly(before) {
			return 0, none
		}
		if len(after) == 3 && len(before) > 0 && len(before) <= 3 && before[0] != '0' {
			return cell[at], weak
		}
		return cell[at], strong
	}
	groups := bytes.FieldsFunc(cell[:at+1+len(after)], func(r rune) bool { return r == '.' || r == ',' })
	if before[first] != cell[at] { // 1.234,5: the last is no group
		groups = groups[:len(groups)-1]
	}
	for i, g := range groups {
		if !digitsOnly(g) || len(g) > 3 || i > 0 && len(g) != 3 {
			return 0, none
		}
	}
	if before[first] == cell[at] { // 1.234.567: the mark is the other one
		return '.' + ',' - cell[at], weak
	}
	return cell[at], strong
}

func digitsOnly(s []byte) bool {
	for _, c := range s {
		if c-'0' > 9 {
			return false
		}
	}
	return true
}

// appendFixed writes x with so many places, as strconv does, faster where the
// last digit is beyond question. What rounds to zero has no sign.
func appendFixed(b []byte, x float64, places int, mark byte) []byte {
	from := len(b)
	if x < 0 {
		b, x = append(b, '-'), -x
	}
	if scaled := x * powersOf10[places]; scaled < 1e9 {
		whole := math.Floor(scaled)
		// The product is off by less than 1e-6, so the side of the half is certain.
		if rest := scaled - whole; math.Abs(rest-0.5) > 1e-6 {
			n := uint64(whole)
			if rest > 0.5 {
				n++
			}
			if n == 0 {
				b = b[:from]
			}
			return appendPlaces(b, n, places, mark)
		}
	}
	digits := len(b)
	b = strconv.AppendFloat(b, x, 'f', places, 64)
	if at := bytes.IndexByte(b[digits:], '.'); at >= 0 {
		b[digits+at] = mark
	}
	if b[from] == '-' && !bytes.ContainsAny(b[from:], "123456789") {
		b = append(b[:from], b[from+1:]...)
	}
	return b
}

func appendPlaces(b []byte, n uint64, places int, mark byte) []byte {
	var digits [24]byte
	i := len(digits)
	for k := 0; n > 0 || k <= places; k++ {
		if k == places && places > 0 {
			i--
			digits[i] = mark
		}
		i--
		digits[i] = byte('0' + n%10)
		n /= 10
	}
	return append(b, digits[i:]...)
}
