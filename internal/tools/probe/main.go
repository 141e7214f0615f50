// Command probe calls functions with arguments at and beyond any domain, and
// prints one JSON line for each that panics, does not return, or gives away NaN
// or an infinity: with no error where it has one to give, or made of ordinary
// arguments where it has none. A generated file, laid over this package when it is built, says
// which functions (see probe_test.go).
package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strings"
	"sync/atomic"
	"time"
)

// A function is what is probed: f is any func, a method as its expression.
type function struct {
	name string
	f    any
}

// The generated file fills these. Specimens are exported constants of a named
// text type, and exported variables.
var (
	functions []function
	specimens []any
)

var refusing []string

// A finding is what is wrong with one call. Fault is "panic", "hangs", "slow",
// "not finite" or "not probed".
type finding struct {
	Function, Fault, Arguments, Detail string
}

const (
	budget   = 4 * time.Second  // for all calls of one function
	patience = 20 * time.Second // for one call
	// prompt is how long any call may take, the fastest of so many: what a busy machine
	// does to one of them it does not do to all.
	prompt  = 100 * time.Millisecond
	repeats = 8
)

func main() {
	for _, s := range specimens {
		v := reflect.ValueOf(s)
		pool[v.Type()] = append(pool[v.Type()], v)
	}
	if len(os.Args) > 1 {
		map[string]func(){"variables": changed, "allocations": allocations}[os.Args[1]]()
		return
	}
	probe(1000) // what these calls return is argument to the next
	calls, findings := probe(8000)
	if len(refusing) > 0 {
		fmt.Fprintf(os.Stderr, "always an error: %s\n", strings.Join(refusing, ", "))
	}
	print := json.NewEncoder(os.Stdout)
	for _, f := range findings {
		_ = print.Encode(f)
	}
	fmt.Fprintf(os.Stderr, "%d functions, %d calls\n", len(functions), calls)
}

// probe calls each function up to so many times. One that hangs is left behind.
func probe(callsEach int) (calls int, findings []finding) {
	for _, f := range functions {
		p := &probing{function: f, do: reflect.ValueOf(f.f), most: callsEach, began: time.Now()}
		done := make(chan struct{})
		go func() { defer close(done); p.run() }()
		select {
		case <-done:
			calls += p.calls
			if !p.succeeded && callsEach > 1000 {
				refusing = append(refusing, f.name)
			}
			findings = append(findings, p.findings...)
		case <-time.After(budget + patience):
			p.gone.Store(true)
			findings = append(findings, finding{f.name, "hangs", spell(*p.last.Load()), fmt.Sprintf("no answer in %v", patience)})
		}
	}
	return calls, findings
}

// A probing is the work on one function.
type probing struct {
	function
	do          reflect.Value
	most, calls int
	began       time.Time
	succeeded   bool
	gone        atomic.Bool // nobody waits for it any more
	last        atomic.Pointer[[]reflect.Value]
	findings    []finding
}

func (p *probing) run() {
	t := p.do.Type()
	var choices [][]reflect.Value
	combinations := 1.0
	for i := range t.NumIn() {
		c := arguments(t.In(i), 0)
		if len(c) == 0 {
			p.findings = append(p.findings, finding{p.name, "not probed", "", "no way to make a " + t.In(i).String()})
			return
		}
		choices = append(choices, c)
		combinations *= float64(len(c))
	}
	at := make([]int, len(choices))
	if combinations <= float64(p.most) {
		for range int(combinations) {
			if time.Since(p.began) > budget {
				return
			}
			p.call(choices, at)
			for i := range at {
				if at[i]++; at[i] < len(choices[i]) {
					break
				}
				at[i] = 0
			}
		}
		return
	}
	// A sample, and from the calls that succeed each argument through all values.
	random := rand.New(rand.NewPCG(1, 2))
	for range p.most {
		if time.Since(p.began) > budget {
			return
		}
		for i := range at {
			at[i] = random.IntN(len(choices[i]))
			if random.IntN(2) == 0 {
				at[i] = 0 // the sane one
			}
		}
		if !p.call(choices, at) || p.calls > 2*p.most {
			continue
		}
		i := random.IntN(len(at))
		for at[i] = range choices[i] {
			p.call(choices, at)
		}
	}
}

// call says whether there was no error.
func (p *probing) call(choices [][]reflect.Value, at []int) (ok bool) {
	p.calls++
	args := make([]reflect.Value, len(at))
	for i := range at {
		args[i] = fresh(choices[i][at[i]])
	}
	p.last.Store(&args)
	defer func() {
		if r := recover(); r != nil {
			p.found("panic", args, fmt.Sprint(r))
		}
	}()
	do := p.do.Call
	if p.do.Type().IsVariadic() {
		do = p.do.CallSlice
	}
	began := time.Now()
	results := do(args)
	if took := time.Since(began); took > prompt {
		p.timed(do, choices, at, took)
	}
	if p.gone.Load() {
		return false
	}
	hasError := false
	for _, r := range results {
		if r.Type() == reflect.TypeFor[error]() {
			hasError = true
			if !r.IsNil() {
				_ = r.Interface().(error).Error()
				return false
			}
		}
	}
	for _, r := range results {
		if where, bad := odd(r, finite, false); bad {
			if hasError || !slices.ContainsFunc(args, strange) {
				p.found("not finite", args, where)
			}
			return true
		}
		harvest(r)
	}
	p.succeeded = true
	return true
}

// timed repeats a call that took long. Reading arguments that are used up, it makes
// them anew.
func (p *probing) timed(do func([]reflect.Value) []reflect.Value, choices [][]reflect.Value, at []int, least time.Duration) {
	args := make([]reflect.Value, len(at))
	for range repeats {
		for i := range at {
			args[i] = fresh(choices[i][at[i]])
		}
		began := time.Now()
		do(args)
		if least = min(least, time.Since(began)); least <= prompt || p.gone.Load() {
			return
		}
	}
	p.found("slow", args, fmt.Sprintf("%v, the fastest of %d", least.Round(time.Millisecond), repeats+1))
}

// strange is an argument of which a function that has no error to give may
// make anything.
func strange(arg reflect.Value) bool {
	_, is := odd(arg, ordinary, true)
	return is
}

// found keeps the first of each fault.
func (p *probing) found(fault string, args []reflect.Value, detail string) {
	if !slices.ContainsFunc(p.findings, func(f finding) bool { return f.Fault == fault }) {
		p.findings = append(p.findings, finding{p.name, fault, spell(args), detail})
	}
}
