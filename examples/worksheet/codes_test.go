package main

import (
	"bytes"
	"flag"
	"io"
	"slices"
	"strings"
	"testing"
)

// A flag whose value cannot be read is a command that was not understood: exit code
// 2 and the flag's name, whatever the command and whatever else it was asked. The
// value of a flag that is a name of a file is one.
func TestAFlagThatCannotBeReadIsExitCode2(t *testing.T) {
	files, tried := []string{"batch", "html", "svg"}, 0
	for _, c := range commands {
		lines := [][]string{{c.name}}
		if c.name == "column" {
			lines = [][]string{{"column", "stability", "-"}}
		}
		for _, s := range flagSets {
			if s.command[0] == c.name {
				line := slices.Clone(s.command)
				if i := slices.Index(line, "@log"); i >= 0 {
					line[i] = logFile(t, cherryLog)
				}
				lines = append(lines, line)
			}
		}
		set := flag.NewFlagSet(c.name, flag.ContinueOnError)
		set.SetOutput(io.Discard)
		_ = c.run(set, []string{"-h"}, io.Discard)
		set.VisitAll(func(f *flag.Flag) {
			if b, ok := f.Value.(interface{ IsBoolFlag() bool }); ok && b.IsBoolFlag() || slices.Contains(files, f.Name) {
				return
			}
			for _, line := range lines {
				if slices.Contains(line, "-"+f.Name) {
					continue
				}
				args := append(slices.Clone(line), "-"+f.Name, "?no such thing?")
				tried++
				var out, errs bytes.Buffer
				if code := execute(args, &out, &errs); code != 2 || out.Len() > 0 {
					t.Errorf("%q: exit %d, %q, %q", args, code, errs.String(), out.String())
				}
				if len(line) == 1 && line[0] != "plan" {
					continue // what is missing may be said first
				}
				if !strings.Contains(errs.String(), f.Name) {
					t.Errorf("%q does not name -%s: %q", args, f.Name, errs.String())
				}
			}
		})
	}
	if tried < 300 {
		t.Errorf("only %d flags were tried", tried)
	}
}
