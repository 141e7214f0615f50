package handbook

import (
	"regexp"
	"testing"
	"time"
)

var yearInBrackets = regexp.MustCompile(`\((\d{4})\)`)

// Dated tests the dates of a row, each a year, a month or a day: its text was
// read by today and written before that, and where the source ends a title with
// a year in brackets the text is of that year.
func Dated(t testing.TB, row, source, written, read string) {
	t.Helper()
	later := func(a, b string) bool {
		n := min(len(a), len(b))
		return a[:n] > b[:n]
	}
	today := time.Now().Format(time.DateOnly)
	if written < "1800" || later(written, read) || later(read, today) {
		t.Errorf("%s: written %q, read %q, today is %s", row, written, read, today)
	}
	if year := yearInBrackets.FindStringSubmatch(source); year != nil && year[1] != written {
		t.Errorf("%s: the text of %q is dated %q", row, source, written)
	}
}
