package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"

	"example.org/mutage/internal/fields"
)

// column streams CSV rows through one function of the library.
func column(set *flag.FlagSet, args []string, out io.Writer) error {
	usage := set.Usage
	set.Usage = func() {
		usage()
		for _, f := range functions {
			fmt.Fprintf(out, "\n  %s: %s\n    reads  %s\n    adds   %s, error\n", f.Name, f.Answers, strings.Join(f.In, ", "), strings.Join(f.Added(), ", "))
		}
	}
	rest, err := parse(set, args)
	if err != nil {
		return err
	}
	var known []string
	for _, f := range functions {
		known = append(known, f.Name)
	}
	if len(rest) < 1 || len(rest) > 2 {
		return fmt.Errorf("%w: column FUNCTION [FILE], with FUNCTION one of: %s", errUsage, strings.Join(known, ", "))
	}
	i := slices.Index(known, rest[0])
	if i < 0 {
		return fmt.Errorf("%w: column: no function %q; did you mean %q? There are: %s", errUsage, rest[0], fields.Nearest(rest[0], known), strings.Join(known, ", "))
	}
	in := io.Reader(os.Stdin)
	if len(rest) == 2 {
		file, err := os.Open(rest[1])
		if err != nil {
			return err
		}
		defer file.Close()
		in = file
	}
	stop := make(chan os.Signal, 1)
	signal.Notify(stop, os.Interrupt)
	defer signal.Stop(stop)
	return functions[i].Stream(in, out, os.Stderr, stop)
}
