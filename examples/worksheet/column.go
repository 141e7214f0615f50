package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"

	"example.org/mutage/examples/worksheet/internal/files"
	"example.org/mutage/examples/worksheet/internal/rows"
)

// columnWords is the help of column, above its flags and functions.
const columnWords = `What do these rows of a spreadsheet come to?

  worksheet column fortify wines.csv > done.csv
  worksheet column ferment -decimal comma - < trials.csv

Reads CSV with a header line and writes it with the results added: every row,
every column and every byte of them as they came, then the result columns and a
column "error" with the reason where a row has none. Empty rows and lines that
begin with # stay. FILE is a path, or "-" or nothing for standard input.

Separator, line ends and byte order mark are those of the file; a first line
"sep=;" is obeyed, titles above the header are copied. UTF-16 is read and comes
out as UTF-8 with a byte order mark; other bytes are copied as they are.

The decimal mark is one for the whole file: the one its first rows show, else
the comma where semicolons separate and the point elsewhere. A number with the
other mark is an error of its row. A result column whose name is taken gets
"_result" behind it. A quoted cell that is not closed ends with its line, which
is an error of its row; a row may have 16 MB.

Rows whose result is to be taken with care (a slip of a unit, a limit of law, a
wine that may ferment) are counted on standard error, and the first is told.

Cells that begin with =, +, -, @ or a tab are copied as they came, and a
spreadsheet may execute them; -guard puts ' before those that are no numbers.
`

const columnCodes = `
Exit codes: 0 done, 1 the file cannot be read or written, 2 the command was not
understood, 3 done but for the rows whose column "error" says why.
`

// Flags of the other commands, and why column has none of them.
var notOfColumn = map[string]string{
	"json":   "the output is the file itself with results added, as CSV",
	"csv":    "the output is CSV always, with the separator of the file",
	"units":  "the columns have fixed units (column -h lists them)",
	"show":   "the output is the file itself with results added",
	"places": "every result column has its own places",
}

// column streams CSV rows through one function of the library.
func column(set *flag.FlagSet, args []string, out io.Writer) error {
	var o rows.Options
	set.Func("sep", "separator: comma, semicolon, tab or a `character` (default: that of the header)", separator(&o))
	set.Func("decimal", "decimal `mark`: point or comma (default: that of the first rows)", decimalMark(&o))
	set.BoolVar(&o.BOM, "bom", false, "write a byte order mark, by which office programs know UTF-8")
	set.BoolVar(&o.Guard, "guard", false, "put ' before cells that a spreadsheet would execute")
	var help bytes.Buffer
	set.Usage = func() { columnHelp(&help, set) }
	for name := range notOfColumn {
		set.Bool(name, false, "")
	}
	rest, err := parse(set, args)
	if help.Len() > 0 {
		if _, err := out.Write(help.Bytes()); err != nil {
			return err
		}
	}
	if err != nil {
		return err
	}
	if err := refused(set); err != nil {
		return err
	}
	f, err := functionNamed(rest)
	if err != nil {
		return err
	}
	path := "-"
	if len(rest) == 2 {
		path = rest[1]
	}
	in, name, err := files.Open(path)
	if err != nil {
		return err
	}
	defer in.Close()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := f.Stream(ctx, in, out, os.Stderr, o); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

func refused(set *flag.FlagSet) (err error) {
	set.Visit(func(f *flag.Flag) {
		if why := notOfColumn[f.Name]; why != "" && err == nil {
			err = fmt.Errorf("%w: column has no -%s: %s", errUsage, f.Name, why)
		}
	})
	return err
}

// functionNamed is the function that the first argument names.
func functionNamed(args []string) (rows.Function, error) {
	var known []string
	for _, f := range functions {
		known = append(known, f.Name)
	}
	if len(args) < 1 || len(args) > 2 {
		return rows.Function{}, fmt.Errorf("%w: column FUNCTION [FILE], with FUNCTION one of: %s", errUsage, strings.Join(known, ", "))
	}
	i := slices.Index(known, args[0])
	if i < 0 {
		return rows.Function{}, fmt.Errorf("%w: column: no function %q%s; there are: %s", errUsage, args[0], perhaps(args[0], known, "%q"), strings.Join(known, ", "))
	}
	return functions[i], nil
}

func columnHelp(to io.Writer, set *flag.FlagSet) {
	fmt.Fprint(to, columnWords, "\n")
	set.VisitAll(func(f *flag.Flag) {
		if notOfColumn[f.Name] != "" {
			return
		}
		value, usage := flag.UnquoteUsage(f)
		fmt.Fprintf(to, "  -%s\n        %s\n", strings.TrimSpace(f.Name+" "+value), usage)
	})
	for _, f := range functions {
		fmt.Fprintf(to, "\n  %s: %s\n    reads  %s\n    adds   %s, error\n", f.Name, f.Answers, strings.Join(f.In, ", "), strings.Join(f.Added(), ", "))
	}
	fmt.Fprint(to, columnCodes)
}

func separator(o *rows.Options) func(string) error {
	return func(text string) error {
		named := map[string]byte{"comma": ',', "semicolon": ';', "tab": '\t', `\t`: '\t'}
		c, ok := named[text]
		if !ok && len(text) == 1 {
			c, ok = text[0], rows.Separates(text[0])
		}
		if !ok {
			return fmt.Errorf("expected comma, semicolon, tab or one character such as |")
		}
		o.Separator = c
		return nil
	}
}

func decimalMark(o *rows.Options) func(string) error {
	return func(text string) error {
		switch text {
		case "point", ".":
			o.Decimal = '.'
		case "comma", ",":
			o.Decimal = ','
		default:
			return fmt.Errorf("expected point or comma")
		}
		return nil
	}
}
