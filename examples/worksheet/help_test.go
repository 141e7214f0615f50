package main

import (
	"regexp"
	"strings"
	"testing"
)

var shellWord = regexp.MustCompile(`"[^"]*"|[^ ]+`)

// The examples of the help work as they stand, but for those that read a file.
func TestExamplesOfTheHelpWork(t *testing.T) {
	run := 0
	for _, c := range commands {
		for _, e := range c.examples {
			if strings.Contains(e, "cherry") && !strings.Contains(e, `"cherry`) || strings.Contains(e, ".csv") {
				continue
			}
			var args []string
			for _, word := range shellWord.FindAllString(e, -1)[1:] {
				args = append(args, strings.Trim(word, `"`))
			}
			if text, err := output(args...); err != nil || text == "" {
				t.Errorf("%s: %v", e, err)
			}
			run++
		}
	}
	if run < 12 {
		t.Errorf("%d examples were run", run)
	}
}

// Help of each command has its flags in groups, two examples and the exit codes.
func TestHelpOfEveryCommand(t *testing.T) {
	for _, c := range commands {
		text, _ := output("help", c.name)
		for _, part := range []string{c.answers, c.examples[0], "xit codes: 0 done"} {
			if !strings.Contains(text, part) {
				t.Errorf("help %s: no %q in\n%s", c.name, part, text)
			}
		}
		if strings.Contains(text, "unless stated -1") || strings.Contains(text, "unless stated 0") {
			t.Errorf("help %s: a default that means nothing:\n%s", c.name, text)
		}
		for _, line := range strings.Split(text, "\n") {
			if len([]rune(line)) > 80 && c.name != "column" && !strings.Contains(line, "worksheet ") {
				t.Errorf("help %s: wider than 80: %q", c.name, line)
			}
		}
	}
	if text, err := output("help", "words"); err != nil || !strings.Contains(text, "Delle units") {
		t.Errorf("help words: %v", err)
	}
}
