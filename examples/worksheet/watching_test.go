package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A log of our own invention; the fifth reading was not degassed.
const cherryLog = `time,reading,temperature
2026-10-01 08:00,1.0930,21 C
2026-10-01 20:00,1.0920,22 C
2026-10-02 08:00,1.0865,23 C
2026-10-02 20:00,1.0790,24 C
2026-10-03 08:00,1.0820,24 C
2026-10-03 20:00,1.0650,24 C
`

func logFile(t *testing.T, content string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(file, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestWatchPage(t *testing.T) {
	text := page80(t, "watch", "-zone", "UTC", "-now", "2026-10-03 20:00", logFile(t, cherryLog))
	for _, part := range []string{"Line 6 (2026-10-03 08:00) was set apart", "Come back Sun 4 Oct", "for 5.0 to 6.0 % vol", "Read again by", "window opens", "window closes"} {
		if !strings.Contains(text, part) {
			t.Errorf("no %q in\n%s", part, text)
		}
	}
	_, chart, _ := strings.Cut(text, "COURSE")
	chart, _, _ = strings.Cut(chart, "o reading")
	if n := strings.Count(chart, "\n"); n > 15 {
		t.Errorf("the chart takes %d lines", n)
	}
	for _, sign := range []string{"o", "x", "+", "...."} { // the labels hold single points
		if !strings.Contains(chart, sign) {
			t.Errorf("no %s in the chart", sign)
		}
	}
	f := figures(t, "watch", logFile(t, cherryLog))
	if !(f["window_from"] > f["window_to"] && f["gravity"] > f["window_from"] && f["rate"] > 0) {
		t.Errorf("%v", f)
	}
}

func TestWatchRefuses(t *testing.T) {
	for content, part := range map[string]string{
		"":                                    "line 1",
		"time,reading\nnoon,1.09\n":           "line 2",
		"time,reading\n2026-10-01 08:00,12\n": "line 2",
		strings.Replace(cherryLog, "2026-10-01 08:00,1.0930", "2026-10-01 08:00,1.0010", 1): "line 2",
	} {
		err := run([]string{"watch", logFile(t, content)}, &strings.Builder{})
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%.40q: %v; want %q", content, err, part)
		}
	}
}
