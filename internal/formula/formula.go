// Package formula writes and reads the expressions that stand in
// units.Figure.Formula: the part of the grammar of OpenFormula (OASIS ODF 1.3
// part 4) that Office Open XML writes alike, with other figures' keys in
// braces where a spreadsheet has cells:
//
//	numbers   1.5  2E-05
//	cells     {gravity}
//	operators + - * / ^, and - before a value
//	functions ABS, EXP, INT, LN, SIGN, SQRT, of one argument each
//
// A function of two arguments is not in it: the two standards separate
// arguments by different signs.
package formula

import (
	"math"
	"strconv"
	"strings"
)

// Number writes a number with the digits that give the same float64 back.
func Number(x float64) string { return strconv.FormatFloat(x, 'G', -1, 64) }

// Cell writes the place of another figure.
func Cell(key string) string { return "{" + key + "}" }

// Polynomial writes c[0] + c[1] x + c[2] x^2 ... as nested products (Horner).
func Polynomial(c []float64, x string) string {
	if len(c) == 0 {
		return "0"
	}
	text := Number(c[len(c)-1])
	for i := len(c) - 2; i >= 0; i-- {
		if text[0] == '-' {
			text = "(" + text + ")"
		}
		text = Number(c[i]) + "+" + x + "*" + text
		if i > 0 {
			text = "(" + text + ")"
		}
	}
	return text
}

// A Fit is a polynomial through a function at Chebyshev's nodes of an interval.
// It writes a function that has no closed form, such as the inverse of a
// published polynomial.
type Fit struct {
	middle, half float64
	c            []float64 // in powers of (x - middle)/half
}

// NewFit fits f from lo to hi by a polynomial of this degree.
func NewFit(f func(float64) float64, lo, hi float64, degree int) Fit {
	fit := Fit{middle: (lo + hi) / 2, half: (hi - lo) / 2}
	n := degree + 1
	y := make([]float64, n)
	for i := range y {
		y[i] = f(fit.middle + fit.half*math.Cos(math.Pi*(float64(i)+0.5)/float64(n)))
	}
	fit.c = make([]float64, n)
	last, now := make([]float64, n), make([]float64, n) // T(k-1) and T(k) in powers of the argument
	now[0] = 1
	for k := range n {
		sum := 0.0
		for i := range y {
			sum += y[i] * math.Cos(math.Pi*float64(k)*(float64(i)+0.5)/float64(n))
		}
		sum *= 2 / float64(n)
		if k == 0 {
			sum /= 2
		}
		for i, t := range now {
			fit.c[i] += sum * t
		}
		next := make([]float64, n)
		for i, t := range now[:n-1] {
			next[i+1] = 2 * t
			if k == 0 {
				next[i+1] = t
			}
		}
		for i, t := range last {
			next[i] -= t
		}
		last, now = now, next
	}
	return fit
}

// Text writes the polynomial of x.
func (f Fit) Text(x string) string {
	middle := "-" + Number(f.middle)
	if f.middle < 0 {
		middle = "+" + Number(-f.middle)
	}
	return Polynomial(f.c, "(("+x+middle+")/"+Number(f.half)+")")
}

// Keys are the keys in braces of an expression, in order.
func Keys(text string) []string {
	var keys []string
	for {
		_, after, found := strings.Cut(text, "{")
		if !found {
			return keys
		}
		key, rest, _ := strings.Cut(after, "}")
		keys = append(keys, key)
		text = rest
	}
}
