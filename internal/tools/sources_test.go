package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// vague are names of a source by which nobody can find it.
var vague = regexp.MustCompile(`(?i)\b(engineering (reference )?table|general reference|as quoted|the literature|various sources|application note|press report|standard textbooks?|data sheets of)\b`)

// Whoever questions a figure can look up where it is from: a source has its full
// name, and what was not read says so.
func TestSourcesHaveTheirFullName(t *testing.T) {
	looked := 0
	err := filepath.WalkDir(root, func(path string, entry os.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && slices.Contains([]string{".git", "testdata", "tools"}, entry.Name()):
			return filepath.SkipDir
		case entry.IsDir() || strings.HasSuffix(path, "_test.go") || !slices.Contains([]string{".go", ".csv"}, filepath.Ext(path)):
			return nil
		}
		text, err := os.ReadFile(path)
		looked++
		for i, line := range strings.Split(string(text), "\n") {
			if found := vague.FindString(line); found != "" {
				t.Errorf("%s:%d: %q names no source", path, i+1, found)
			}
		}
		return err
	})
	if err != nil || looked < 100 {
		t.Errorf("%d files, %v", looked, err)
	}
}
