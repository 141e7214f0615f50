package formula

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/mutage/units"
)

// Eval is the value of an expression; cell gives that of a key in braces. The
// error says where the expression leaves the grammar of the package.
func Eval(text string, cell func(key string) (float64, error)) (float64, error) {
	r := reader{text: text, cell: cell}
	x, err := r.sum()
	if err == nil && r.at < len(text) {
		err = r.fault("an operator or the end")
	}
	return x, err
}

// Value is that of the figure with this key: its formula, with what the
// formulas of other figures give in its cells, or the number it holds.
func Value(figures []units.Figure, key string) (float64, error) {
	return sheet{figures, map[string]float64{}}.value(key, len(figures))
}

// A sheet is figures, and what their formulas gave so far.
type sheet struct {
	figures []units.Figure
	known   map[string]float64
}

func (s sheet) value(key string, depth int) (float64, error) {
	if x, ok := s.known[key]; ok {
		return x, nil
	}
	i := slices.IndexFunc(s.figures, func(f units.Figure) bool { return f.Key == key })
	if i < 0 {
		return 0, fmt.Errorf("no figure has the key %q", key)
	}
	if depth < 0 {
		return 0, fmt.Errorf("%s: the formula leads back to itself", key)
	}
	f := s.figures[i]
	x := f.Value.InexactFloat64()
	if f.Formula != "" {
		var err error
		if x, err = Eval(f.Formula, func(key string) (float64, error) { return s.value(key, depth-1) }); err != nil {
			return 0, fmt.Errorf("%s: %w", key, err)
		}
	}
	s.known[key] = x
	return x, nil
}

type reader struct {
	text string
	at   int
	cell func(string) (float64, error)
}

func (r *reader) fault(expected string) error {
	return fmt.Errorf("formula %q, at %d: expected %s", r.text, r.at, expected)
}

func (r *reader) next(signs string) byte {
	if r.at < len(r.text) && strings.IndexByte(signs, r.text[r.at]) >= 0 {
		r.at++
		return r.text[r.at-1]
	}
	return 0
}

func (r *reader) sum() (float64, error) {
	x, err := r.product()
	for err == nil {
		sign := r.next("+-")
		if sign == 0 {
			break
		}
		var y float64
		if y, err = r.product(); sign == '-' {
			y = -y
		}
		x += y
	}
	return x, err
}

func (r *reader) product() (float64, error) {
	x, err := r.power()
	for err == nil {
		sign := r.next("*/")
		if sign == 0 {
			break
		}
		var y float64
		if y, err = r.power(); sign == '/' {
			x /= y
		} else {
			x *= y
		}
	}
	return x, err
}

// power refuses what programs read differently: -x^y and x^y^z.
func (r *reader) power() (float64, error) {
	negative := r.next("-") != 0
	x, err := r.operand()
	if err == nil && !negative && r.next("^") != 0 {
		var y float64
		if y, err = r.operand(); err == nil {
			x = math.Pow(x, y)
		}
	}
	if err == nil && r.at < len(r.text) && r.text[r.at] == '^' {
		err = r.fault("parentheses around the power")
	}
	if negative {
		x = -x
	}
	return x, err
}

var functions = map[string]func(float64) float64{
	"ABS": math.Abs, "EXP": math.Exp, "INT": math.Floor, "LN": math.Log, "SQRT": math.Sqrt,
	"SIGN": func(x float64) float64 {
		if x == 0 {
			return 0
		}
		return math.Copysign(1, x)
	},
}

func (r *reader) operand() (float64, error) {
	rest := r.text[r.at:]
	switch {
	case strings.HasPrefix(rest, "{"):
		key, _, closed := strings.Cut(rest[1:], "}")
		if !closed {
			return 0, r.fault("a closing brace")
		}
		r.at += len(key) + 2
		return r.cell(key)
	case strings.HasPrefix(rest, "("):
		return r.parentheses()
	}
	word := 0
	for word < len(rest) && rest[word] >= 'A' && rest[word] <= 'Z' {
		word++
	}
	if f, ok := functions[rest[:word]]; ok {
		r.at += word
		x, err := r.parentheses()
		return f(x), err
	}
	return r.number()
}

func (r *reader) parentheses() (float64, error) {
	if r.next("(") == 0 {
		return 0, r.fault("an opening parenthesis")
	}
	x, err := r.sum()
	if err == nil && r.next(")") == 0 {
		err = r.fault("a closing parenthesis")
	}
	return x, err
}

func (r *reader) number() (float64, error) {
	end := r.at
	for end < len(r.text) && (strings.IndexByte("0123456789.E", r.text[end]) >= 0 ||
		end > r.at && r.text[end-1] == 'E' && strings.IndexByte("+-", r.text[end]) >= 0) {
		end++
	}
	x, err := strconv.ParseFloat(r.text[r.at:end], 64)
	if err != nil {
		return 0, r.fault("a number, a cell or a function")
	}
	r.at = end
	return x, nil
}
