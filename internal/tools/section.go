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

// A section is a part of the README that this program writes, between two
// marks.
type section struct{ name, body string }

func (s section) marks() (begin, end string) {
	return "<!-- " + s.name + ": begin, written by internal/tools -->", "<!-- " + s.name + ": end -->"
}

// in is the document with the section's body between its marks.
func (s section) in(document string) (string, error) {
	begin, end := s.marks()
	for _, mark := range []string{begin, end} {
		if n := strings.Count(document, mark); n != 1 {
			return "", fmt.Errorf("README.md: %q stands %d times, expected once", mark, n)
		}
	}
	before, rest, _ := strings.Cut(document, begin)
	_, after, found := strings.Cut(rest, end)
	if !found {
		return "", fmt.Errorf("README.md: %q stands before %q", end, begin)
	}
	return before + begin + "\n" + s.body + end + after, nil
}

// write rewrites the README; with check it changes nothing and fails where the
// section would change.
func (s section) write(check bool) error {
	path := filepath.Join(root, "README.md")
	old, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	renewed, err := s.in(string(old))
	if err != nil {
		return err
	}
	switch {
	case renewed == string(old):
		fmt.Printf("README.md: section %s is up to date\n", s.name)
		return nil
	case check:
		is, should := difference(string(old), renewed)
		return fmt.Errorf("README.md: section %s is stale; in internal/tools run: go run . %[1]s\nfirst difference, as it is:\n  %s\nas it should be:\n  %s", s.name, is, should)
	}
	fmt.Printf("README.md: section %s rewritten\n", s.name)
	return os.WriteFile(path, []byte(renewed), 0o644)
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
