package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestWorksheet runs the scripts of testdata/script with the worksheet command
// on the path. Beside testscript's own commands they have:
//
//	exits CODE COMMAND...  run it and compare the exit code
//	answers COMMAND...     exit code 0, output on stdout and none on stderr
//	refuses COMMAND...     exit code 1, nothing on stdout, no trace of a panic
//	misread COMMAND...     the same with exit code 2
//	json FILE              the file is one valid JSON value
//	csv FILE COLUMNS       it is valid CSV with a heading and rows of so many columns
//	fits WIDTH FILE        no line is wider
//	recode AS FILE TO      write the text of a file with other ends of line or
//	                       letters: crlf, bom, utf16, windows1252
//
// FILE may be stdout. A new script is a new file; nothing else is to be done.
func TestWorksheet(t *testing.T) {
	bin := t.TempDir()
	build := exec.Command("go", "build", "-o", bin+string(filepath.Separator), "./examples/worksheet")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("PATH", bin+string(os.PathListSeparator)+e.Getenv("PATH"))
			demo, err := filepath.Abs(filepath.Join(root, "examples", "worksheet", "testdata"))
			e.Setenv("DEMO", demo) // the batches that README names
			return err
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"exits": func(ts *testscript.TestScript, neg bool, args []string) {
				need(ts, !neg && len(args) > 1, "exits CODE COMMAND...")
				runFor(ts, args[0], args[1:])
			},
			"answers": func(ts *testscript.TestScript, neg bool, args []string) {
				need(ts, !neg && len(args) > 0, "answers COMMAND...")
				runFor(ts, "0", args)
				need(ts, ts.ReadFile("stdout") != "", "nothing on stdout")
				need(ts, ts.ReadFile("stderr") == "", "something on stderr")
			},
			"refuses": refusal("1"),
			"misread": refusal("2"),
			"json": func(ts *testscript.TestScript, neg bool, args []string) {
				need(ts, !neg && len(args) == 1, "json FILE")
				need(ts, json.Valid([]byte(ts.ReadFile(args[0]))), "%s is not valid JSON", args[0])
			},
			"csv":    csvCommand,
			"fits":   fits,
			"recode": recode,
		},
	})
}

func need(ts *testscript.TestScript, ok bool, format string, args ...any) {
	if !ok {
		ts.Fatalf(format, args...)
	}
}

func runFor(ts *testscript.TestScript, want string, command []string) {
	err := ts.Exec(command[0], command[1:]...)
	code := 0
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		code = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	need(ts, strconv.Itoa(code) == want, "exit code %d, expected %s", code, want)
}

// refusal is a command that runs another, which has to end with an error.
func refusal(code string) func(*testscript.TestScript, bool, []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		need(ts, !neg && len(args) > 0, "expected a command")
		runFor(ts, code, args)
		need(ts, ts.ReadFile("stdout") == "", "something on stdout beside an error")
		message := ts.ReadFile("stderr")
		need(ts, message != "", "no message on stderr")
		need(ts, !strings.Contains(message, "goroutine "), "a panic on stderr")
	}
}

// recode writes a text as office programs do: all of them end lines with CR LF.
func recode(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 3, "recode AS FILE TO")
	text := strings.ReplaceAll(ts.ReadFile(args[1]), "\n", "\r\n")
	var out []byte
	switch args[0] {
	case "crlf":
		out = []byte(text)
	case "bom":
		out = []byte("\ufeff" + text)
	case "utf16":
		for _, unit := range utf16.Encode([]rune("\ufeff" + text)) {
			out = append(out, byte(unit), byte(unit>>8))
		}
	case "windows1252": // as Latin-1, which has the degree sign at the same place
		for _, r := range text {
			need(ts, r < 0x100, "%q is not in Latin-1", r)
			out = append(out, byte(r))
		}
	default:
		ts.Fatalf("no encoding %s", args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), out, 0o600))
}

func csvCommand(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 2, "csv FILE COLUMNS")
	columns, err := strconv.Atoi(args[1])
	ts.Check(err)
	r := csv.NewReader(strings.NewReader(ts.ReadFile(args[0])))
	r.FieldsPerRecord = columns
	rows, err := r.ReadAll()
	ts.Check(err)
	need(ts, len(rows) > 1, "%d rows", len(rows))
}

func fits(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 2, "fits WIDTH FILE")
	width, err := strconv.Atoi(args[0])
	ts.Check(err)
	for line := range strings.Lines(ts.ReadFile(args[1])) {
		line = strings.TrimSuffix(line, "\n")
		need(ts, utf8.RuneCountInString(line) <= width, "wider than %d: %q", width, line)
	}
}
