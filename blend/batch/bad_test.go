package batch

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Every broken batch says in its first line what its error must hold: "// error: "
// and the parts, with semicolons between. No broken batch gives a plan.
func TestBrokenFilesSayWhatIsWrong(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "worksheet", "testdata", "bad", "*.json"))
	if err != nil || len(files) < 30 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		first, _, _ := strings.Cut(string(text), "\n")
		parts, is := strings.CutPrefix(first, "// error: ")
		if !is {
			t.Errorf("%s does not say what is wrong", file)
			continue
		}
		b, err := Read(filepath.Base(file), bytes.NewReader(text))
		if err == nil {
			_, err = b.Work()
		}
		for part := range strings.SplitSeq(parts, "; ") {
			if err == nil || !strings.Contains(err.Error(), part) {
				t.Errorf("%s: %v\nwant %q in it", filepath.Base(file), err, part)
			}
		}
	}
}
