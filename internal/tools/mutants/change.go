package mutants

import (
	"go/ast"
	"go/token"
	"go/types"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"
)

var opposite = map[token.Token]token.Token{
	token.LSS: token.GEQ, token.GEQ: token.LSS, token.GTR: token.LEQ, token.LEQ: token.GTR,
	token.EQL: token.NEQ, token.NEQ: token.EQL,
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
	token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN,
}

// flips says whether flipping an operator is wanted and can compile: texts
// are not subtracted, and comparisons with nil are left alone.
func (r reader) flips(op token.Token, x, y ast.Expr) bool {
	info := r.info
	if info.Types[x].IsNil() || info.Types[y].IsNil() {
		return false
	}
	switch op {
	case token.ADD, token.ADD_ASSIGN:
		return is(info.TypeOf(x), types.IsNumeric)
	}
	return true
}

func is(t types.Type, what types.BasicInfo) bool {
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&what != 0
}

var (
	wholeNumber   = regexp.MustCompile(`^[+-]?[0-9][0-9_]*$`)
	decimalNumber = regexp.MustCompile(`^[+-]?([0-9][0-9_]*)?(\.[0-9_]*)?([eE][+-]?[0-9]+)?$`)
)

// literal is what a number in the source is changed to, "" where it is left
// alone.
func (r reader) literal(n *ast.BasicLit) string {
	switch {
	case n.Kind == token.FLOAT && decimalNumber.MatchString(n.Value):
		to := twoPercent(n.Value)
		if !strings.ContainsAny(to, ".e") {
			to += ".0" // 1e3/7 is no division of whole numbers
		}
		return to
	case n.Kind != token.INT || !wholeNumber.MatchString(n.Value) || len(n.Value) > 1 && n.Value[0] == '0':
		return ""
	case r.float(n) && n.Value != "0" && n.Value != "1":
		return twoPercent(n.Value)
	case len(n.Value) > 1:
		return whole(n.Value)
	}
	return ""
}

// A reader knows how the numbers of a package are used.
type reader struct {
	info     *types.Info
	declares map[ast.Expr]types.Object // the constant or variable that a number is given to
	floating map[types.Object]bool     // every use of it is as a floating-point number
}

func newReader(info *types.Info, files []*ast.File) reader {
	r := reader{info, map[ast.Expr]types.Object{}, map[types.Object]bool{}}
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok && len(spec.Names) == len(spec.Values) {
				for i, name := range spec.Names {
					r.declares[spec.Values[i]] = info.Defs[name]
				}
			}
			return true
		})
	}
	for name, object := range info.Uses {
		before, used := r.floating[object]
		r.floating[object] = is(info.TypeOf(name), types.IsFloat) && (before || !used)
	}
	return r
}

// float says whether a whole number is used as a floating-point number: by its
// type or, where a constant has none, by every use of the constant.
func (r reader) float(n *ast.BasicLit) bool {
	t := r.info.TypeOf(n)
	if t != types.Typ[types.UntypedInt] {
		return is(t, types.IsFloat)
	}
	return r.floating[r.declares[n]]
}

// cellNumber is what a cell of a table is changed to, "" where it is no number.
func cellNumber(cell string) string {
	switch {
	case wholeNumber.MatchString(cell):
		return whole(cell)
	case decimalNumber.MatchString(cell) && strings.ContainsAny(cell, "0123456789"):
		return twoPercent(cell)
	}
	return ""
}

// twoPercent is a number two per cent further from zero, with the exponent it
// is written with; zero becomes one unit of its last digit.
func twoPercent(text string) string {
	mantissa, exponent, found := strings.Cut(strings.ToLower(strings.ReplaceAll(text, "_", "")), "e")
	if found {
		exponent = "e" + exponent
	}
	d, err := decimal.NewFromString(strings.TrimSuffix(mantissa, "."))
	if err != nil {
		return ""
	}
	if d.IsZero() {
		return decimal.New(1, d.Exponent()).String() + exponent
	}
	return d.Mul(decimal.New(102, -2)).String() + exponent
}

// whole is a whole number two per cent further from zero, at least by one.
func whole(text string) string {
	d, err := decimal.NewFromString(strings.ReplaceAll(text, "_", ""))
	if err != nil {
		return ""
	}
	step := decimal.Max(d.Abs().Mul(decimal.New(2, -2)).Round(0), decimal.New(1, 0))
	if d.Sign() < 0 {
		step = step.Neg()
	}
	return d.Add(step).String()
}
