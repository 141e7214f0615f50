package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// The code of README and DEVELOPERS compiles: the blocks of a file in turn are
// one function, with the packages that they name imported.
func TestCodeInTheDocumentsCompiles(t *testing.T) {
	standard := []string{"encoding/csv", "encoding/json", "errors", "fmt", "log", "math", "os", "slices", "strings", "time"}
	for _, document := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile(filepath.Join(root, document))
		if err != nil {
			t.Fatal(err)
		}
		var body strings.Builder
		for _, block := range regexp.MustCompile("(?s)```go\n(.*?)```").FindAllSubmatch(text, -1) {
			body.Write(block[1])
		}
		if body.Len() == 0 {
			continue
		}
		dir, err := filepath.Abs(filepath.Join(root, "examples", "importer"))
		if err != nil {
			t.Fatal(err)
		}
		loaded, err := packages.Load(&packages.Config{Dir: root, Mode: packages.NeedName}, "./...")
		if err != nil {
			t.Fatal(err)
		}
		paths := slices.Clone(standard)
		for _, p := range loaded {
			if !strings.Contains(p.PkgPath, "/internal") && p.Name != "main" {
				paths = append(paths, p.PkgPath)
			}
		}
		var source strings.Builder
		source.WriteString("package importer\n")
		for _, path := range paths {
			if name := path[strings.LastIndex(path, "/")+1:]; regexp.MustCompile(`\b` + name + `\.[A-Z]`).MatchString(body.String()) {
				fmt.Fprintf(&source, "import %q\n", path)
			}
		}
		fmt.Fprintf(&source, "func document() {\n%s}\n", body.String())
		checked, err := packages.Load(&packages.Config{Dir: root, Mode: packages.LoadSyntax,
			Overlay: map[string][]byte{filepath.Join(dir, "document.go"): []byte(source.String())}}, "./examples/importer")
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, p := range checked {
			for _, file := range p.GoFiles {
				found = found || filepath.Base(file) == "document.go"
			}
			for _, fault := range p.Errors {
				if !strings.Contains(fault.Msg, "declared and not used") { // the reader goes on from there
					t.Errorf("%s: %v\n%s", document, fault, source.String())
				}
			}
		}
		if !found {
			t.Errorf("%s was not compiled", document)
		}
	}
}
