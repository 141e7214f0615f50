package mutants

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

// variable says in the environment which mutant a switched build is to be.
const variable = "MUTANT"

// A switched build holds many mutants at once, each behind a switch, so that tests
// are built once for all of them. What cannot stand behind one (table cells, the
// lengths of arrays, exported constants, which other packages use) is left out.
type switched struct {
	overlay string         // path of the list that the go command reads
	number  map[string]int // of a mutant, by its place
}

func (m Mutant) place() string { return fmt.Sprintf("%s:%d", m.path, m.start) }

// switches writes a switched build of the mutants into dir.
func (m *Module) switches(mutants []Mutant, dir string) (*switched, error) {
	s := &switched{number: map[string]int{}}
	var paths []string
	for _, x := range mutants {
		if filepath.Ext(x.path) == ".go" {
			s.number[x.place()] = len(s.number) + 1
			paths = append(paths, x.Package)
		}
	}
	slices.Sort(paths)
	if paths = slices.Compact(paths); len(paths) == 0 {
		return s, nil
	}
	original, err := packages.Load(&packages.Config{Dir: m.dir, Mode: packages.LoadSyntax}, paths...)
	if err != nil {
		return nil, err
	}
	by := map[string]Mutant{}
	for _, x := range mutants {
		by[x.place()] = x
	}
	// What does not compile behind a switch is taken out by its line, until all does.
	for {
		files := map[string][]byte{}
		stands := map[string][]string{}
		for _, p := range original {
			w := newSwitcher(p, s.number, by, stands)
			if err := w.write(files); err != nil {
				return nil, err
			}
		}
		s.keep(stands)
		changed, err := packages.Load(&packages.Config{Dir: m.dir, Mode: packages.LoadSyntax, Overlay: files}, paths...)
		if err != nil {
			return nil, err
		}
		var faults []error
		dropped := 0
		for _, p := range changed {
			for _, e := range p.TypeErrors {
				dropped += s.drop(e.Fset.Position(e.Pos), stands)
			}
			for _, e := range p.Errors {
				faults = append(faults, e)
			}
		}
		if len(faults) == 0 {
			s.overlay, err = writeOverlay(files, dir)
			return s, err
		}
		if dropped == 0 {
			return nil, fmt.Errorf("mutants: a switched build does not compile: %w", errors.Join(faults...))
		}
	}
}

// keep takes out of the build what stands behind no switch. stands are the places
// of mutants by the lines, file:line, on which they are switched.
func (s *switched) keep(stands map[string][]string) {
	all := map[string]bool{}
	for _, places := range stands {
		for _, place := range places {
			all[place] = true
		}
	}
	maps.DeleteFunc(s.number, func(place string, _ int) bool { return !all[place] })
}

// drop takes the mutants that are switched on a line out of the build, and says how
// many there were.
func (s *switched) drop(at token.Position, stands map[string][]string) (dropped int) {
	for _, place := range stands[fmt.Sprintf("%s:%d", at.Filename, at.Line)] {
		if s.number[place] > 0 {
			dropped++
		}
		delete(s.number, place)
	}
	return dropped
}

// writeOverlay writes files into dir and the list of what they stand for.
func writeOverlay(files map[string][]byte, dir string) (string, error) {
	replace := map[string]string{}
	for path, text := range files {
		to := filepath.Join(dir, fmt.Sprintf("%d_%s", len(replace), filepath.Base(path)))
		if err := os.WriteFile(to, text, 0o644); err != nil {
			return "", err
		}
		replace[path] = to
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": replace})
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, "overlay.json")
	return path, os.WriteFile(path, list, 0o644)
}

// A switcher puts the mutants of one package behind switches.
type switcher struct {
	p      *packages.Package
	number map[string]int
	by     map[string]Mutant
	stands map[string][]string
	consts map[types.Object][]Mutant // constants whose uses are switched

	in          *token.File
	content     []byte
	names       map[string]string // of the packages that the file imports, by path
	openings    []edit
	closings    []edit
	unspeakable bool // a type that the file cannot name
}

// An edit replaces bytes of a file; no line is added, so that lines keep their
// numbers.
type edit struct {
	at, end int
	text    string
}

func newSwitcher(p *packages.Package, number map[string]int, by map[string]Mutant, stands map[string][]string) *switcher {
	w := &switcher{p: p, number: number, by: by, stands: stands, consts: map[types.Object][]Mutant{}}
	within := map[types.Object]bool{} // used in another constant
	for _, f := range p.Syntax {
		ast.Inspect(f, func(n ast.Node) bool {
			g, ok := n.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				return true
			}
			for _, spec := range g.Specs {
				v := spec.(*ast.ValueSpec)
				for i, value := range v.Values {
					w.constant(p.TypesInfo.Defs[v.Names[i]], value)
					ast.Inspect(value, func(n ast.Node) bool {
						if id, ok := n.(*ast.Ident); ok {
							within[p.TypesInfo.Uses[id]] = true
						}
						return true
					})
				}
			}
			return false
		})
	}
	for o := range w.consts {
		if within[o] || o.Exported() {
			delete(w.consts, o)
		}
	}
	return w
}

// constant notes the mutants in the value of a constant.
func (w *switcher) constant(o types.Object, value ast.Expr) {
	file := w.p.Fset.File(value.Pos())
	for at := file.Offset(value.Pos()); at < file.Offset(value.End()); at++ {
		place := fmt.Sprintf("%s:%d", file.Name(), at)
		if w.number[place] > 0 {
			m := w.by[place]
			m.start, m.end = m.start-file.Offset(value.Pos()), m.end-file.Offset(value.Pos())
			content, err := os.ReadFile(file.Name())
			if err != nil {
				continue // it could be read a moment ago; then it stands behind no switch
			}
			text := string(content[file.Offset(value.Pos()):file.Offset(value.End())])
			m.replacement = text[:m.start] + m.replacement + text[m.end:]
			m.path = place
			w.consts[o] = append(w.consts[o], m)
		}
	}
}

// write adds the package's files with switches, and the file of the switch itself.
func (w *switcher) write(files map[string][]byte) error {
	before := len(files)
	for _, f := range w.p.Syntax {
		w.in, w.openings, w.closings = w.p.Fset.File(f.FileStart), nil, nil
		var err error
		if w.content, err = os.ReadFile(w.in.Name()); err != nil {
			return err
		}
		w.names = map[string]string{w.p.PkgPath: ""}
		for _, i := range f.Imports {
			path := strings.Trim(i.Path.Value, `"`)
			if of := w.p.Imports[path]; of != nil {
				w.names[path] = of.Name
			}
			if i.Name != nil {
				w.names[path] = i.Name.Name
			}
		}
		ast.Inspect(f, w.node)
		if len(w.openings) > 0 {
			files[w.in.Name()] = w.text()
		}
	}
	if len(files) > before {
		path := filepath.Join(filepath.Dir(w.in.Name()), "mutant_switch.go")
		files[path] = []byte("package " + w.p.Name + theSwitch)
	}
	return nil
}

// text is the file with its edits: at one place what ends there first, the inner
// before the outer, then what begins, the outer before the inner.
func (w *switcher) text() []byte {
	slices.Reverse(w.closings)
	byPlace := func(a, b edit) int { return cmp.Compare(a.at, b.at) }
	slices.SortStableFunc(w.closings, byPlace)
	slices.SortStableFunc(w.openings, byPlace)
	var out []byte
	last := 0
	for len(w.openings)+len(w.closings) > 0 {
		from := &w.openings
		if len(w.closings) > 0 && (len(w.openings) == 0 || w.closings[0].at <= w.openings[0].at) {
			from = &w.closings
		}
		e := (*from)[0]
		*from = (*from)[1:]
		out = append(append(out, w.content[last:e.at]...), e.text...)
		last = e.end
	}
	return append(out, w.content[last:]...)
}

// at is the number of the mutant whose change begins there, 0 where there is none.
func (w *switcher) at(pos token.Pos) (number int, place string) {
	place = fmt.Sprintf("%s:%d", w.in.Name(), w.in.Offset(pos))
	return w.number[place], place
}

// stand notes that the mutant of a place is switched on the lines of a node.
func (w *switcher) stand(n ast.Node, place string) {
	for line := w.in.Line(n.Pos()); line <= w.in.Line(n.End()); line++ {
		at := fmt.Sprintf("%s:%d", w.in.Name(), line)
		w.stands[at] = append(w.stands[at], place)
	}
}

func (w *switcher) open(from, to token.Pos, text string) {
	w.openings = append(w.openings, edit{w.in.Offset(from), w.in.Offset(to), text})
}

func (w *switcher) close(at token.Pos, text string) {
	w.closings = append(w.closings, edit{w.in.Offset(at), w.in.Offset(at), text})
}

// named is the type of an expression as the file writes it.
func (w *switcher) named(e ast.Expr) string {
	w.unspeakable = false
	name := types.TypeString(types.Default(w.p.TypesInfo.TypeOf(e)), func(o *types.Package) string {
		name, is := w.names[o.Path()]
		w.unspeakable = w.unspeakable || !is
		return name
	})
	return name
}

// known says whether an expression is a constant.
func (w *switcher) known(e ast.Expr) bool { return w.p.TypesInfo.Types[e].Value != nil }

var arithmetic = map[token.Token]string{
	token.ADD: "mutantAdd", token.SUB: "mutantSub", token.MUL: "mutantMul", token.QUO: "mutantQuo",
	token.ADD_ASSIGN: "mutantAdd", token.SUB_ASSIGN: "mutantSub", token.MUL_ASSIGN: "mutantMul", token.QUO_ASSIGN: "mutantQuo",
}

// node puts the mutants of one node behind switches.
func (w *switcher) node(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok != token.CONST && n.Tok != token.IMPORT
	case *ast.Ident:
		if changes := w.consts[w.p.TypesInfo.Uses[n]]; len(changes) > 0 {
			w.use(n, changes)
		}
	case *ast.BasicLit:
		if k, place := w.at(n.Pos()); k > 0 {
			if t := w.named(n); !w.unspeakable {
				w.open(n.Pos(), n.End(), fmt.Sprintf("mutantOr(%d, %s(%s), %s(%s))", k, t, n.Value, t, w.by[place].replacement))
				w.stand(n, place)
			}
		}
	case *ast.BinaryExpr:
		w.binary(n)
	case *ast.UnaryExpr:
		if k, place := w.at(n.OpPos); k > 0 && n.Op == token.SUB {
			if t := w.named(n); !w.unspeakable {
				w.open(n.OpPos, n.OpPos+1, fmt.Sprintf("%s(mutantNeg(%d, ", t, k))
				w.close(n.End(), "))")
				w.stand(n, place)
			}
		}
	case *ast.AssignStmt:
		if k, place := w.at(n.TokPos); k > 0 {
			left := w.content[w.in.Offset(n.Lhs[0].Pos()):w.in.Offset(n.Lhs[0].End())]
			end := n.TokPos + token.Pos(len(n.Tok.String()))
			w.open(n.TokPos, end, fmt.Sprintf("= %s(%d, %s, ", arithmetic[n.Tok], k, left))
			w.close(n.End(), ")")
			w.stand(n, place)
		}
	}
	return true
}

// use is a constant where it is used.
func (w *switcher) use(n *ast.Ident, changes []Mutant) {
	t := w.named(n)
	if w.unspeakable {
		return
	}
	text := t + "(" + n.Name + ")"
	for _, m := range changes {
		text = fmt.Sprintf("mutantOr(%d, %s, %s(%s))", w.number[m.path], text, t, m.replacement)
		w.stand(n, m.path)
	}
	w.open(n.Pos(), n.End(), text)
}

func (w *switcher) binary(n *ast.BinaryExpr) {
	k, place := w.at(n.OpPos)
	if k == 0 {
		return
	}
	end := n.OpPos + token.Pos(len(n.Op.String()))
	name, is := arithmetic[n.Op]
	if !is { // a comparison
		w.open(n.Pos(), n.Pos(), "((")
		w.close(n.End(), fmt.Sprintf(") != mutantIs(%d))", k))
		w.stand(n, place)
		return
	}
	opening, closing := fmt.Sprintf("%s(%d, ", name, k), ")"
	if w.known(n.X) && w.known(n.Y) {
		t := w.named(n)
		if w.unspeakable {
			return
		}
		opening, closing = t+"("+opening, "))"
	}
	w.open(n.Pos(), n.Pos(), opening)
	w.open(n.OpPos, end, ",")
	w.close(n.End(), closing)
	w.stand(n, place)
}

// theSwitch follows the package clause.
const theSwitch = `

import (
	"os"
	"strconv"
)

var mutantNow, _ = strconv.Atoi(os.Getenv("` + variable + `"))

type mutantNumber interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~float32 | ~float64
}

func mutantIs(k int) bool { return mutantNow == k }

func mutantOr[T any](k int, a, b T) T {
	if mutantNow == k {
		return b
	}
	return a
}

func mutantAdd[T mutantNumber](k int, a, b T) T {
	if mutantNow == k {
		return a - b
	}
	return a + b
}

func mutantSub[T mutantNumber](k int, a, b T) T {
	if mutantNow == k {
		return a + b
	}
	return a - b
}

func mutantMul[T mutantNumber](k int, a, b T) T {
	if mutantNow == k {
		return a / b
	}
	return a * b
}

func mutantQuo[T mutantNumber](k int, a, b T) T {
	if mutantNow == k {
		return a * b
	}
	return a / b
}

func mutantNeg[T mutantNumber](k int, a T) T {
	if mutantNow == k {
		return a
	}
	return -a
}
`
