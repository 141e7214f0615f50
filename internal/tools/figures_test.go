package main

import (
	"fmt"
	"go/types"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"example.org/mutage/abv"
	"example.org/mutage/abv/label"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// results are a value of every type that a function returns beside an error.
// TestEveryResultGivesFigures says which is missing.
var results = []any{
	abv.Comparison{}, abv.Composition{}, abv.Determination{}, abv.Evaporation{}, abv.Fermented{}, abv.NotSugar{}, abv.Portioned{}, abv.Sugars{}, abv.Window{}, abv.Yield{},
	spirit.Gauged{}, spirit.Reduction{},
	additions.Overdose{}, additions.Measure{}, additions.Pitching{}, additions.Practice{}, additions.Spooned{}, additions.Stage{}, additions.Wood{}, additions.WoodDosed{},
	label.Rule{}, label.Label{}, label.Classification{}, label.Energies{},
	law.Report{}, law.Answer{}, law.Additive{},
	stability.Verdict{}, stability.Remedy{}, stability.Sealed{}, stability.Priming{},
	acid.Buffer{}, acid.Carbonate{}, acid.Prediction{}, acid.Tartar{},
	sugar.Addition{}, sugar.Sweetener{},
	blend.ArrestUncertain{}, blend.Bottle{}, blend.Component{}, blend.Explanation{}, blend.Finding{}, blend.Fortification{}, blend.HandCheck{}, blend.Mixture{}, blend.Poured{}, blend.Recipe{}, blend.Square{}, blend.Uncertain{},
}

// scales have figures too, and no function returns them beside an error as a
// struct.
var scales = []any{gravity.SG(1.05), gravity.Plato(12), gravity.Brix(12), gravity.Oechsle(50), gravity.Points(50), gravity.Baume(7), gravity.Baume1443(7)}

// withoutFigures are packages whose results have none: what units and
// units/uncertainty return has no name of its own, a row of a batch is input.
var withoutFigures = []string{"units", "units/uncertainty"}

// notYet are packages whose results get their figures from who works in them.
// The list shrinks, and a package that needs no place on it fails the test.
var notYet = []string{"abv/watch", "blend/batch"}

const modulePath = "example.org/mutage/"

// resultTypes are the exported structs that exported functions return beside an
// error, by name with the package's path in the module.
func resultTypes(t *testing.T) map[string]*types.Named {
	t.Helper()
	found := map[string]*types.Named{}
	for _, p := range load(t, false) {
		for _, f := range exported(p) {
			out := f.Signature().Results()
			if out.Len() < 2 || out.At(out.Len()-1).Type().String() != "error" {
				continue
			}
			for i := range out.Len() - 1 {
				named, ok := element(out.At(i).Type()).(*types.Named)
				if !ok || !named.Obj().Exported() || !strings.HasPrefix(named.Obj().Pkg().Path(), modulePath) {
					continue
				}
				if _, ok := named.Underlying().(*types.Struct); ok {
					found[strings.TrimPrefix(named.String(), modulePath)] = named
				}
			}
		}
	}
	return found
}

// element is what a slice or a pointer is of.
func element(t types.Type) types.Type {
	for {
		switch of := t.(type) {
		case *types.Slice:
			t = of.Elem()
		case *types.Pointer:
			t = of.Elem()
		default:
			return t
		}
	}
}

func givesFigures(named *types.Named) bool {
	m, _, _ := types.LookupFieldOrMethod(named, true, named.Obj().Pkg(), "Figures")
	f, ok := m.(*types.Func)
	return ok && f.Signature().Params().Len() == 0 && f.Signature().Results().String() == "([]example.org/mutage/units.Figure)"
}

// Who adds a function with a result of a new type finds out here that the type
// needs figures.
func TestEveryResultGivesFigures(t *testing.T) {
	listed := map[string]bool{}
	for _, r := range results {
		listed[strings.TrimPrefix(reflect.TypeOf(r).PkgPath()+"."+reflect.TypeOf(r).Name(), modulePath)] = true
	}
	needed := map[string]bool{}
	found := resultTypes(t)
	if len(found) < 30 {
		t.Fatalf("only %d result types found", len(found))
	}
	for name, named := range found {
		room := name[:strings.LastIndex(name, ".")]
		switch {
		case slices.Contains(withoutFigures, room):
		case !givesFigures(named) && slices.Contains(notYet, room):
			needed[room] = true
		case !givesFigures(named):
			t.Errorf("%s is returned beside an error and has no Figures() []units.Figure", name)
		case !listed[name] && !slices.Contains(notYet, room):
			t.Errorf("%s is missing from results: its figures are not looked at", name)
		}
	}
	for _, room := range notYet {
		if !needed[room] {
			t.Errorf("every result of %s gives figures: take it off notYet and list its types in results", room)
		}
	}
}

// fill puts something into every exported field, so that Figures leaves out
// what it can only show where it is there.
func fill(v reflect.Value) {
	if v.Type() == reflect.TypeFor[decimal.Decimal]() {
		v.Set(reflect.ValueOf(decimal.New(125, -2)))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i))
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fill(v.Index(0))
	case reflect.Float64:
		v.SetFloat(1.25)
	case reflect.Int, reflect.Int64:
		v.SetInt(1)
	case reflect.String:
		v.SetString("morello_" + strings.ToLower(v.Type().Name())) // keys of two types differ
	case reflect.Bool:
		v.SetBool(true)
	}
}

var snake = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

// A key means one thing in the whole library, and every figure says how it was
// found and who published that.
func TestFiguresHaveProvenanceAndOneMeaningAKey(t *testing.T) {
	type meaning struct{ name, unit, in string }
	means := map[string]meaning{}
	look := func(of string, figures []units.Figure) {
		if len(figures) == 0 {
			t.Errorf("%s gives no figures", of)
		}
		here := map[string]bool{}
		for _, f := range figures {
			switch {
			case !snake.MatchString(f.Key):
				t.Errorf("%s: key %q is not snake_case", of, f.Key)
			case here[f.Key]:
				t.Errorf("%s: key %q stands twice", of, f.Key)
			case f.Name == "":
				t.Errorf("%s: %s has no name", of, f.Key)
			case f.Method == "":
				t.Errorf("%s: %s has no method", of, f.Key)
			case f.Source == "":
				t.Errorf(`%s: %s has no source; write "common practice, no source" where there is none`, of, f.Key)
			}
			here[f.Key] = true
			now := meaning{f.Name, f.Unit, of}
			if first, ok := means[f.Key]; !ok {
				means[f.Key] = now
			} else if first.name != now.name || first.unit != now.unit {
				t.Errorf("key %s is %q in %q in %s and %q in %q in %s", f.Key, first.name, first.unit, first.in, now.name, now.unit, of)
			}
		}
	}
	for _, r := range slices.Concat(results, scales) {
		v := reflect.New(reflect.TypeOf(r)).Elem()
		v.Set(reflect.ValueOf(r))
		for _, state := range []string{"empty", "filled"} {
			if state == "filled" && v.Kind() == reflect.Struct {
				fill(v)
			}
			look(fmt.Sprintf("%T, %s", r, state), v.Interface().(interface{ Figures() []units.Figure }).Figures())
		}
	}
	for of, figures := range liveFigures(t, morello) {
		look(of, figures)
	}
	t.Logf("%d keys", len(means))
}

// What is not a constant of a formula: temperatures, and the units of a cell.
var notConstants = regexp.MustCompile(`\b[0-9.]+ (C|F|L)\b|g/100 mL|kg/m3|pH [0-9.]+`)

var numbers = regexp.MustCompile(`[0-9]+(\.[0-9]+)?(E[+-]?[0-9]+)?`)

// Who changes a constant in the words of a method, or in the formula alone, is
// told so: each number of the words stands in a formula of that method.
func TestWordsOfAMethodHaveTheNumbersOfItsFormula(t *testing.T) {
	words, inFormulas := map[string]string{}, map[string][]float64{}
	for of, figures := range liveFigures(t, morello) {
		for _, f := range figures {
			if f.Formula == "" {
				continue
			}
			words[f.Method] = of
			for _, n := range numbers.FindAllString(f.Formula, -1) {
				x, err := strconv.ParseFloat(n, 64)
				if err != nil {
					t.Fatal(err)
				}
				inFormulas[f.Method] = append(inFormulas[f.Method], x)
			}
		}
	}
	compared := 0
	for method, of := range words {
		for _, said := range numbers.FindAllString(notConstants.ReplaceAllString(method, ""), -1) {
			_, decimals, _ := strings.Cut(said, ".")
			compared++
			if !slices.ContainsFunc(inFormulas[method], func(x float64) bool { return strconv.FormatFloat(x, 'f', len(decimals), 64) == said }) {
				t.Errorf("%s: the method says %q, but no formula of it has %s", of, method, said)
			}
		}
	}
	if compared < 15 {
		t.Errorf("only %d numbers compared", compared)
	}
}
