// Command worksheet is the page to keep open in the cellar: it reads what you
// have, calls the library, and prints what to do. It holds no arithmetic.
//
//	worksheet plan                 the demonstration batch, start to bottle
//	worksheet plan -batch FILE     your own (plan -template prints one to fill in)
//	worksheet blend  "3 L at 6.1 % vol with 142 g/L" "0.7 L at 75 % vol"
//	worksheet fortify "3 L at 6.1 % vol with 142 g/L" "at 75 % vol" -to "20 % vol"
//	worksheet help                 the other commands, help COMMAND, help words
//
// Exit codes: 0 done, 1 the data cannot be so or nothing reaches what is wanted,
// 2 the command was not understood: no such command or flag, flags that do not go
// together, or the value of a flag cannot be read; 3 done but for the rows whose
// column error says why. Readings and liquids that stand without a flag are data,
// as a file is.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	_ "time/tzdata" // machines of the cellar may have no zone database

	"example.org/mutage/examples/worksheet/internal/rows"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/internal/say"
)

// errUsage marks an error of the command line: exit code 2.
var errUsage = sheet.ErrUsage

// A command writes its page to out, or returns an error and has written none.
type command struct {
	name, answers string
	arguments     string    // what stands beside the flags
	examples      [2]string // that work as they stand, but for files
	groups        []group
	run           func(set *flag.FlagSet, args []string, out io.Writer) error
	more          func() string // of its help; nil for most
}

func main() { os.Exit(execute(os.Args[1:], os.Stdout, os.Stderr)) }

// execute runs a command line and returns its exit code.
func execute(args []string, out, errs io.Writer) int {
	o := &outlet{Writer: out}
	err := run(args, o)
	if err == nil || errors.Is(err, flag.ErrHelp) {
		if err = o.fault; err == nil {
			return 0
		}
	}
	code := exitCode(err)
	report(errs, err, code, args)
	return code
}

// An outlet keeps its first fault: a page or a help that did not come out is an
// exit code.
type outlet struct {
	io.Writer
	fault error
}

func (o *outlet) Write(b []byte) (n int, err error) {
	if n, err = o.Writer.Write(b); o.fault == nil {
		o.fault = err
	}
	return n, err
}

func exitCode(err error) int {
	switch {
	case errors.Is(err, errUsage):
		return 2
	case errors.Is(err, rows.ErrBad):
		return 3
	}
	return 1
}

func run(args []string, out io.Writer) error {
	if len(args) == 0 {
		return fmt.Errorf("%w: worksheet COMMAND, one of: %s\n\n%s", errUsage, strings.Join(names(), ", "), strings.TrimRight(list(), "\n"))
	}
	switch strings.ToLower(args[0]) {
	case "-h", "-help", "--help", "help":
		return help(args[1:], out)
	case "-version", "--version", "version":
		return version(args[1:], out)
	}
	c, err := commandNamed(args[0])
	if err != nil {
		return err
	}
	set := flag.NewFlagSet(c.name, flag.ContinueOnError)
	set.SetOutput(io.Discard)
	var unwritten error
	set.Usage = func() { _, unwritten = io.WriteString(out, c.help(set)) }
	if err = c.run(set, args[1:], out); unwritten != nil {
		return unwritten
	}
	return err
}

func commandNamed(name string) (command, error) {
	for _, c := range commands {
		if strings.EqualFold(c.name, name) {
			return c, nil
		}
	}
	return command{}, fmt.Errorf("%w: no command %q%s; there are: %s", errUsage, name, perhaps(name, names(), "%q"), strings.Join(names(), ", "))
}

// perhaps proposes a word where one is near.
func perhaps(word string, among []string, form string) string {
	if near, ok := say.Nearest(word, among); ok {
		return fmt.Sprintf("; did you mean "+form+"?", near)
	}
	return ""
}

// parse reads flags, which may stand between the other arguments, and returns
// those. A flag that is given twice is an error.
func parse(set *flag.FlagSet, args []string) (rest []string, err error) {
	usage := set.Usage
	set.Usage = func() {} // package flag calls it for every mistake
	var known []string
	set.VisitAll(func(f *flag.Flag) {
		known = append(known, f.Name)
		f.Value = &once{Value: f.Value}
	})
	args = slices.Clone(args)
	for i, a := range args { // "-3 L" is an amount below nothing and no flag
		if amount.MatchString(a) {
			args[i] = apart + a
		}
	}
	for {
		if err := set.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				usage()
				return nil, err
			}
			hint := ""
			if _, wrong, found := strings.Cut(err.Error(), "flag provided but not defined: -"); found {
				hint = perhaps(wrong, known, "-%s")
			}
			return nil, fmt.Errorf("%w: %s: %w%s", errUsage, set.Name(), err, hint)
		}
		args = set.Args()
		if len(args) == 0 {
			return rest, nil
		}
		rest, args = append(rest, strings.TrimPrefix(args[0], apart)), args[1:]
	}
}

var amount = regexp.MustCompile(`^-[.,]?[0-9]`)

const apart = " "

// once is a flag that can be given once.
type once struct {
	flag.Value
	given bool
}

// Set refuses the second value.
func (o *once) Set(text string) error {
	if o.given {
		return errors.New("given twice")
	}
	o.given = true
	return o.Value.Set(strings.TrimPrefix(text, apart))
}

// IsBoolFlag is that of the flag.
func (o *once) IsBoolFlag() bool {
	b, ok := o.Value.(interface{ IsBoolFlag() bool })
	return ok && b.IsBoolFlag()
}

// given are the flags of a command line.
func given(set *flag.FlagSet) map[string]bool {
	out := map[string]bool{}
	set.Visit(func(f *flag.Flag) { out[f.Name] = true })
	return out
}

// goesWith refuses a flag without any of those that give it a meaning.
func goesWith(given map[string]bool, name string, with ...string) error {
	if !given[name] {
		return nil
	}
	for _, w := range with {
		if given[w] {
			return nil
		}
	}
	return fmt.Errorf("%w: -%s goes with -%s", errUsage, name, strings.Join(with, " or -"))
}

// misread is a flag whose text cannot be read, or is no quantity of its kind: the
// command was not understood. What reads well and cannot be, alone or beside the
// rest, is an error of the data.
func misread(name string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%w: -%s: %w", errUsage, name, err)
}

// oneOf refuses two ways of asking at once.
func oneOf(given map[string]bool, names ...string) error {
	var found []string
	for _, n := range names {
		if given[n] {
			found = append(found, "-"+n)
		}
	}
	if len(found) > 1 {
		return fmt.Errorf("%w: %s: expected one of them", errUsage, strings.Join(found, " and "))
	}
	return nil
}

func names() []string {
	var out []string
	for _, c := range commands {
		out = append(out, c.name)
	}
	return out
}
