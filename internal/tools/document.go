package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// root is the main module, seen from this one.
const root = "../.."

// module is its path.
const module = "example.org/mutage"

// A document is a file that a subcommand of this program writes in full.
type document struct{ path, command, title, body string }

func (d document) text() string {
	return "# " + d.title + "\n\nWritten by `go run . " + d.command + "` in internal/tools: do not edit.\n\n" + d.body
}

// write renews the file; with check it changes nothing and fails where the
// file would change.
func (d document) write(check bool) error {
	path := filepath.Join(root, filepath.FromSlash(d.path))
	old, err := os.ReadFile(path)
	if err != nil && (check || !os.IsNotExist(err)) {
		return err
	}
	switch {
	case string(old) == d.text():
		fmt.Printf("%s is up to date\n", d.path)
		return nil
	case check:
		is, should := difference(string(old), d.text())
		return fmt.Errorf("%s is stale; in internal/tools run: go run . %s\nfirst difference, as it is:\n  %s\nas it should be:\n  %s", d.path, d.command, is, should)
	}
	fmt.Printf("%s rewritten\n", d.path)
	return os.WriteFile(path, []byte(d.text()), 0o644)
}

// difference is the first line in which two texts differ.
func difference(a, b string) (string, string) {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return x[i], y[i]
		}
	}
	return fmt.Sprintf("%d lines", len(x)), fmt.Sprintf("%d lines", len(y))
}

// table sets rows, the first of them the heading, as Markdown. Columns named
// in right are set flush right.
func table(rows [][]string, right ...int) string {
	var b strings.Builder
	line := func(cells []string) {
		for i, c := range cells {
			cells[i] = strings.ReplaceAll(c, "|", `\|`)
		}
		fmt.Fprintf(&b, "| %s |\n", strings.Join(cells, " | "))
	}
	rule := make([]string, len(rows[0]))
	for i := range rule {
		rule[i] = "---"
	}
	for _, i := range right {
		rule[i] = "---:"
	}
	line(rows[0])
	line(rule)
	for _, row := range rows[1:] {
		line(row)
	}
	return b.String()
}
