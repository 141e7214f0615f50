package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What a command says, and what it does not: a forecast is called one, a Fahrenheit
// column is refused, a reading is called what it is.
func TestWhatIsSaid(t *testing.T) {
	log := "time,gravity,temperature (C)\n2026-11-25 18:00,1.092,22\n2026-11-26 18:00,1.080,22\n2026-11-27 08:00,1.070,22\n"
	still := log + "2026-11-28 20:00,1.070,22\n2026-11-30 20:00,1.070,22\n2026-12-03 20:00,1.070,22\n"
	liquids := []string{"3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"}
	for _, c := range []struct {
		file, says, not string
		code            int
		args            []string
	}{
		{log, "By the forecast the window has passed", "it has 9", 0, []string{"watch", "-zone", "UTC", "-now", "2026-11-30T00:00:00Z", "@"}},
		{still, "Stuck", "smoothed", 0, []string{"watch", "-zone", "UTC", "-now", "2026-12-03T20:00:00Z", "@"}},
		{"reading,temperature\n1.057,75\n", "is it in F?", "1.081", 3, []string{"column", "gravity", "@"}},
		{"", "260 C is out of range", "model", 1, []string{"gravity", "1.057", "-at", "260 C"}},
		{"", "it would read 1.00", "more than expected", 0, append([]string{"explain", "-reads", "1.000", "-at", "26 C"}, liquids...)},
	} {
		path := filepath.Join(t.TempDir(), "file.csv")
		if err := os.WriteFile(path, []byte(c.file), 0o600); err != nil {
			t.Fatal(err)
		}
		for i := range c.args {
			c.args[i] = strings.ReplaceAll(c.args[i], "@", path)
		}
		var out, errs bytes.Buffer
		code := execute(c.args, &out, &errs)
		text := strings.Join(strings.Fields(out.String()+errs.String()), " ")
		if code != c.code || !strings.Contains(text, c.says) || strings.Contains(text, c.not) {
			t.Errorf("%q: exit %d, want %d, %q and no %q in\n%s", c.args, code, c.code, c.says, c.not, text)
		}
	}
}
