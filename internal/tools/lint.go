package main

import (
	"archive/zip"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// lint runs the tools named in go.mod over the main module, and vet and
// staticcheck over this one too.
func lint(set *flag.FlagSet, args []string) error {
	if err := set.Parse(args); err != nil {
		return err
	}
	var faults error
	for _, dir := range []string{root, "."} {
		faults = errors.Join(faults, report("go vet", dir, "go", "vet", "./..."))
	}
	staticcheck, err := tool("staticcheck")
	if err != nil {
		return err
	}
	for _, dir := range []string{root, "."} { // U1000, unused code, is among its default checks
		faults = errors.Join(faults, report("staticcheck", dir, staticcheck, "-checks", "inherit,U1000,ST1000,ST1016,ST1020,ST1021,ST1022", "./..."))
	}
	return errors.Join(faults, vulnerabilities(), changes())
}

// tool builds a tool of this module, if need be, and says where it is.
func tool(name string) (string, error) {
	cmd := exec.Command("go", "tool", "-n", name)
	cmd.Stderr = os.Stderr // "go: downloading ..." is no part of the path
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go tool %s: %w", name, err)
	}
	return strings.TrimSpace(string(out)), nil
}

// output is what a command prints, both streams, and how it ended.
func output(dir, command string, args ...string) (string, error) {
	cmd := exec.Command(command, args...)
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	return strings.TrimSpace(string(out)), err
}

func report(name, dir, command string, args ...string) error {
	what := "main module"
	if dir == "." {
		what = "tools module"
	}
	out, err := output(dir, command, args...)
	if err != nil {
		return fmt.Errorf("%s, %s: %w\n%s", name, what, err, out)
	}
	fmt.Printf("%s, %s: nothing found\n", name, what)
	return nil
}

// vulnerabilities asks the database of known ones, where there is a way to it.
func vulnerabilities() error {
	govulncheck, err := tool("govulncheck")
	if err != nil {
		return err
	}
	out, err := output(root, govulncheck, "./...")
	switch {
	case err != nil && strings.Contains(out, "fetching vulnerabilities"):
		fmt.Println("govulncheck: no vulnerability database reachable, skipped")
		return nil
	case err != nil:
		return fmt.Errorf("govulncheck: %w\n%s", err, out)
	}
	fmt.Println("govulncheck: nothing found")
	return nil
}

// changes compares the public names with those of the last tag. Before 1.0
// they may change, so it only lists what would break an importer; from 1.0 on
// that is a fault.
func changes() error {
	tag, err := output(root, "git", "describe", "--tags", "--abbrev=0")
	if err != nil {
		fmt.Println("apidiff: no tag to compare with, skipped")
		return nil
	}
	apidiff, err := tool("apidiff")
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "apidiff")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	old := filepath.Join(dir, "old")
	if err := extract(tag, old); err != nil {
		return fmt.Errorf("apidiff: %s: %w", tag, err)
	}
	exported := filepath.Join(dir, "exported")
	if out, err := output(old, apidiff, "-m", "-w", exported, module); err != nil {
		return fmt.Errorf("apidiff: %s: %w\n%s", tag, err, out)
	}
	compare := exec.Command(apidiff, "-m", "-incompatible", exported, module)
	var log bytes.Buffer // names the internal packages it leaves out
	compare.Dir, compare.Stderr = root, &log
	gone, err := compare.Output()
	switch {
	case err != nil:
		return fmt.Errorf("apidiff: %w\n%s", err, &log)
	case len(gone) == 0:
		fmt.Printf("apidiff: nothing that %s offers is gone\n", tag)
		return nil
	case strings.HasPrefix(tag, "v0."):
		fmt.Printf("apidiff: gone or changed since %s, as may happen before 1.0:\n%s", tag, gone)
		return nil
	}
	return fmt.Errorf("apidiff: gone or changed since %s:\n%s", tag, gone)
}

// extract lays the files of a tag into dir.
func extract(tag, dir string) error {
	archive := exec.Command("git", "archive", "--format=zip", tag)
	archive.Dir, archive.Stderr = root, os.Stderr
	content, err := archive.Output()
	if err != nil {
		return err
	}
	files, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return err
	}
	return os.CopyFS(dir, files)
}
