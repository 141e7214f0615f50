package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// generated builds the program in directory name with one more file laid over it,
// and runs it with the arguments.
func generated(t *testing.T, name, content string, args ...string) (stdout, stderr *bytes.Buffer) {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "generated.go")
	place, err := filepath.Abs(filepath.Join(name, "generated.go"))
	if err != nil {
		t.Fatal(err)
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{place: file}})
	if err != nil {
		t.Fatal(err)
	}
	for path, text := range map[string][]byte{file: []byte(content), filepath.Join(dir, "overlay.json"): overlay} {
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	binary := filepath.Join(dir, name+".bin")
	if out, err := exec.Command("go", "build", "-overlay", filepath.Join(dir, "overlay.json"), "-o", binary, "./"+name).CombinedOutput(); err != nil {
		t.Fatalf("go build ./%s: %v\n%s", name, err, out)
	}
	stdout, stderr = new(bytes.Buffer), new(bytes.Buffer)
	run := exec.Command(binary, args...)
	run.Stdout, run.Stderr = stdout, stderr
	if err := run.Run(); err != nil {
		t.Errorf("%s: %v\n%.4000s", name, err, stderr.String())
	}
	t.Logf("%s", stderr.String())
	return stdout, stderr
}
