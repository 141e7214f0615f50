// Command worksheet is the page to keep open in the cellar: it reads what you
// have, calls the library, and prints what to do. It holds no arithmetic.
//
//	worksheet plan                 the demonstration batch, start to bottle
//	worksheet plan -batch FILE     your own (plan -template prints one to fill in)
//	worksheet blend  "3 L at 6.1 % vol with 142 g/L" "0.7 L at 75 % vol"
//	worksheet fortify "3 L at 6.1 % vol with 142 g/L" "at 75 % vol" -to "20 % vol"
//
// Exit codes: 0 done, 1 the data cannot be so, 2 the command was not understood,
// 3 done but for the rows whose column error says why.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/mutage/internal/fields"

	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/examples/worksheet/internal/rows"
)

// errUsage marks an error of the command line: exit code 2.
var errUsage = page.ErrUsage

// A command writes its page to out, or returns an error and has written none.
type command struct {
	name, answers, example string
	run                    func(set *flag.FlagSet, args []string, out io.Writer) error
}

var commands []command

func init() { // not a literal: the commands' help lists the commands
	commands = []command{
		{"plan", "What do I pour, weigh and watch for, from must to bottle?", "worksheet plan -batch cherry.json", plan},
		{"gravity", "What does this reading mean, at 20 C and on other scales?", `worksheet gravity 1.057 -at "26 C"`, readGravity},
		{"strength", "How strong is it?", "worksheet strength -og 1.092 -fg 1.046", strengthOf},
		{"blend", "What will these liquids make when poured together?", `worksheet blend "3 L at 6.1 % vol with 142 g/L" "26 fl oz at 40 % vol"`, blendCommand},
		{"fortify", "How much spirit brings my wine to the strength I want?", `worksheet fortify -to "20 % vol" "3 L at 6.1 % vol with 142 g/L" "at 75 % vol"`, fortify},
		{"dose", "What do I weigh or spoon?", `worksheet dose -volume "3 L" -sulfite "50 mg/L" -sorbate "200 mg/L"`, dose},
		{"watch", "When do I come back to stop it?", `worksheet watch -from "5 % vol" -to "6 % vol" cherry.csv`, watchCommand},
		{"column", "What do these rows of a spreadsheet come to?", "worksheet column fortify wines.csv > done.csv", column},
	}
}

func main() {
	err, code := run(os.Args[1:], os.Stdout), 1
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return
	case errors.Is(err, errUsage):
		code = 2
	case errors.Is(err, rows.ErrBad):
		code = 3
	}
	fmt.Fprintln(os.Stderr, err)
	os.Exit(code)
}

func run(args []string, out io.Writer) error {
	if len(args) == 0 {
		return fmt.Errorf("%w: worksheet COMMAND, one of: %s (COMMAND -h tells more)", errUsage, strings.Join(names(), ", "))
	}
	if slices.Contains([]string{"-h", "-help", "--help", "help"}, args[0]) {
		for _, c := range commands {
			fmt.Fprintf(out, "%-8s %s\n         %s\n", c.name, c.answers, c.example)
		}
		return flag.ErrHelp
	}
	i := slices.IndexFunc(commands, func(c command) bool { return c.name == args[0] })
	if i < 0 {
		return fmt.Errorf("%w: no command %q; did you mean %q? There are: %s", errUsage, args[0], fields.Nearest(args[0], names()), strings.Join(names(), ", "))
	}
	c := commands[i]
	set := flag.NewFlagSet(c.name, flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.Usage = func() {
		fmt.Fprintf(out, "%s\n\n  %s\n\n", c.answers, c.example)
		set.SetOutput(out)
		set.PrintDefaults()
		set.SetOutput(io.Discard)
	}
	return c.run(set, args[1:], out)
}

// parse reads flags, which may stand between the other arguments, and returns
// those.
func parse(set *flag.FlagSet, args []string) (rest []string, err error) {
	usage := set.Usage
	set.Usage = func() {} // package flag calls it for every mistake
	for {
		if err := set.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				usage()
				return nil, err
			}
			hint := ""
			if _, wrong, found := strings.Cut(err.Error(), "flag provided but not defined: -"); found {
				var known []string
				set.VisitAll(func(f *flag.Flag) { known = append(known, f.Name) })
				hint = fmt.Sprintf("; did you mean -%s?", fields.Nearest(wrong, known))
			}
			return nil, fmt.Errorf("%w: %s: %v%s", errUsage, set.Name(), err, hint)
		}
		args = set.Args()
		if len(args) == 0 {
			return rest, nil
		}
		rest, args = append(rest, args[0]), args[1:]
	}
}

// parseForm is parse for a command that prints a page.
func parseForm(f *page.Form, set *flag.FlagSet, args []string) (rest []string, err error) {
	if rest, err = parse(set, args); err == nil {
		err = f.Check()
	}
	return rest, err
}

func names() []string {
	var out []string
	for _, c := range commands {
		out = append(out, c.name)
	}
	return out
}
