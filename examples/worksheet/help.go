package main

import (
	"flag"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"

	"example.org/mutage/examples/worksheet/internal/sheet"
)

// A group is flags that serve one purpose.
type group struct {
	title string
	flags []string
}

var formGroup = group{"the page", []string{"units", "show", "places", "json", "csv"}}

const codes = `Exit codes: 0 done (for plan also where a target is missed and a plan stands);
1 the data cannot be so, or nothing reaches what is wanted; 2 the command or the
value of a flag was not understood; 3 done but for some rows of a table. With
-json errors are JSON.
`

// list is the commands, a line and an example each.
func list() string {
	var b strings.Builder
	for _, c := range commands {
		fmt.Fprintf(&b, "%-9s%s\n         %s\n", c.name, c.answers, c.examples[0])
	}
	b.WriteString("\nworksheet help COMMAND   its flags, with examples\n" +
		"worksheet help words     the words of the trade\n" +
		"worksheet -version       which version this is\n")
	return b.String()
}

// help is "help", "help COMMAND" and "help words".
func help(args []string, out io.Writer) error {
	switch {
	case len(args) == 0:
		if _, err := io.WriteString(out, list()+"\n"+codes); err != nil {
			return err
		}
		return flag.ErrHelp
	case len(args) > 1:
		return fmt.Errorf("%w: help takes one command, found %q", errUsage, args[1])
	case strings.EqualFold(args[0], "words"):
		_, err := io.WriteString(out, words())
		return err
	}
	c, err := commandNamed(args[0])
	if err != nil {
		return fmt.Errorf("%w, words", err)
	}
	return run([]string{c.name, "-h"}, out)
}

// help is the help of a command: its flags in groups of use.
func (c command) help(set *flag.FlagSet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n", c.answers)
	for _, e := range c.examples {
		fmt.Fprintf(&b, "  %s\n", e)
	}
	if c.arguments != "" {
		b.WriteString("\n")
		for _, line := range strings.Split(c.arguments, "\n") {
			sheet.Wrap(&b, line, "", "")
		}
	}
	var seen []string
	write := func(title string, flags []string) {
		title = "\n" + strings.ToUpper(title) + "\n"
		for _, name := range flags {
			if f := set.Lookup(name); f != nil {
				b.WriteString(title)
				title = ""
				flagHelp(&b, f)
				seen = append(seen, name)
			}
		}
	}
	for _, g := range c.groups {
		write(g.title, g.flags)
	}
	var others []string
	set.VisitAll(func(f *flag.Flag) {
		if !slices.Contains(append(formGroup.flags, seen...), f.Name) {
			others = append(others, f.Name)
		}
	})
	title := "others"
	if len(seen) == 0 {
		title = "flags"
	}
	write(title, others)
	write(formGroup.title, formGroup.flags)
	if c.more != nil {
		b.WriteString("\n" + c.more())
	}
	b.WriteString("\n" + codes + "The words of the trade: worksheet help words\n")
	return b.String()
}

// flagHelp is one flag: its value, its use, and what it is where it is not stated.
func flagHelp(b *strings.Builder, f *flag.Flag) {
	value, usage := flag.UnquoteUsage(f)
	if value == "value" {
		value = "..."
	}
	head := strings.TrimSpace("-" + f.Name + " " + value)
	if unless := f.DefValue; !slices.Contains([]string{"", "0", "false", "-1", "not stated", "0s"}, unless) && !strings.HasPrefix(unless, "0 ") {
		usage += "; unless stated " + unless
	}
	const indent = 19
	if len(head) < indent-3 {
		sheet.Wrap(b, usage, fmt.Sprintf("  %-*s", indent-2, head), strings.Repeat(" ", indent))
		return
	}
	fmt.Fprintf(b, "  %s\n", head)
	sheet.Wrap(b, usage, strings.Repeat(" ", indent), strings.Repeat(" ", indent))
}

// version is the version of the module that the command was built from.
func version(args []string, out io.Writer) error {
	if len(args) > 0 {
		return fmt.Errorf("%w: -version stands alone, found %q", errUsage, args[0])
	}
	module, built := "example.org/mutage (devel)", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		module, built = strings.TrimSpace(info.Main.Path+" "+info.Main.Version), ", "+info.GoVersion
	}
	_, err := fmt.Fprintf(out, "worksheet of %s%s\n", module, built)
	return err
}
