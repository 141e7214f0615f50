package watch_test

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
)

// Every number of a date and of a time has its ends.
func TestTheEndsOfDatesAndHours(t *testing.T) {
	at := func(y, m, d, h, min, s int) time.Time {
		return time.Date(y, time.Month(m), d, h, min, s, 0, time.UTC)
	}
	for text, want := range map[string]time.Time{
		"20.11.2026 23:59:59":    at(2026, 11, 20, 23, 59, 59),
		"31.12.2026 0:00":        at(2026, 12, 31, 0, 0, 0),
		"1.1.2026":               at(2026, 1, 1, 0, 0, 0),
		"29.2.2028":              at(2028, 2, 29, 0, 0, 0),
		"4/4/2026":               at(2026, 4, 4, 0, 0, 0),
		"11/20/2026 12:30 AM":    at(2026, 11, 20, 0, 30, 0),
		"11/20/2026 12:30 PM":    at(2026, 11, 20, 12, 30, 0),
		"11/20/2026 1:00 am":     at(2026, 11, 20, 1, 0, 0),
		"11/20/2026 11:59:30 pm": at(2026, 11, 20, 23, 59, 30),
		"20.11.26":               at(2026, 11, 20, 0, 0, 0),
		"20.11.99":               at(2099, 11, 20, 0, 0, 0),
		"20.11.0100":             at(100, 11, 20, 0, 0, 0),
		"20-11-2026, 8.05":       at(2026, 11, 20, 8, 5, 0),
		"1795161600":             at(2026, 11, 20, 8, 0, 0),
		"1795161600500":          at(2026, 11, 20, 8, 0, 0).Add(time.Second / 2),
	} {
		if got, err := (watch.Format{}).ParseTime(text); err != nil || !got.Equal(want) {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"20.11.2026 24:00", "20.11.2026 8:60", "20.11.2026 8:30:60", "11/20/2026 0:30 AM", "11/20/2026 13:00 AM", "1.0.2026", "1.13.2026", "0.5.2026", "31.4.2026", "29.2.2026", "123456789"} {
		if got, err := (watch.Format{}).ParseTime(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

// blank is a file of blank lines without end.
type blank struct{}

func (blank) Read(to []byte) (int, error) {
	for i := range to {
		to[i] = '\n'
	}
	return len(to), nil
}

// A log too large to be read whole is refused, not cut: one byte, and one row, beyond what
// is read.
func TestALogIsNotCut(t *testing.T) {
	for n, says := range map[int64]string{100 * watch.MaxRows: "the log is empty", 100*watch.MaxRows + 1: "size of the log"} {
		if testing.Short() && says == "the log is empty" {
			continue // the other shows that none is cut
		}
		if _, err := watch.ReadLog(io.LimitReader(blank{}, n), nil); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%d bytes: %v", n, err)
		}
	}
	if watch.MaxRows <= 366*24*60 || watch.MaxRows != 600_000 {
		t.Errorf("%d rows are no year by the minute, or not what the page says", watch.MaxRows)
	}
	_, err := watch.ReadLog(strings.NewReader("sg,date\n"+strings.Repeat("1\n", watch.MaxRows+1)), nil)
	var all *watch.LogError
	if !errors.As(err, &all) || len(all.Faults) != 1 || all.Faults[0].Line != watch.MaxRows+2 || !strings.Contains(err.Error(), "number of rows") {
		t.Errorf("%.200v", err)
	}
}

// failing is a file that cannot be read.
type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errors.New("unplugged") }

// What is wrong with the log as a whole is the fault of no reading.
func TestFaultsOfTheWholeLogAreOfNoReading(t *testing.T) {
	faults := func(err error) []watch.LineError {
		var all *watch.LogError
		if !errors.As(err, &all) {
			t.Fatalf("%v", err)
		}
		return all.Faults
	}
	_, none := watch.ReadLog(nil, nil)
	_, broken := watch.ReadLog(failing{}, nil)
	if f := faults(none); f[0].Index != -1 || f[0].Line != 0 {
		t.Errorf("%+v", f)
	}
	if f := faults(broken); f[0].Index != -1 || f[0].Line != 0 || !strings.Contains(broken.Error(), "unplugged") {
		t.Errorf("%+v", f)
	}
	for text, line := range map[string]int{
		"":                       1,
		"time,reading\n":         2,
		"noon,reading\n1,1.09\n": 1,
		"time,reading\n2026-10-01,1.09\n2026-10-02,\"1.08\n2026-10-03,1.07\n":  3,
		"time,reading\n" + strings.Repeat("2026-10-01,1.09\n", watch.MaxLog+1): watch.MaxLog + 2,
	} {
		_, err := watch.ReadLog(strings.NewReader(text), nil)
		if f := faults(err); len(f) != 1 || f[0].Index != -1 || f[0].Line != line {
			t.Errorf("%.60q: %+v", text, f[0])
		}
	}
	for n, index := range map[int]int{0: -1, watch.MaxLog + 1: -1} {
		_, err := watch.Follow(make([]watch.Reading, n), watch.Setup{})
		if f := faults(err); f[0].Index != index {
			t.Errorf("%d readings: %+v", n, f[0])
		}
	}
	_, err := watch.ReadLog(strings.NewReader("date,sg\n2026-10-01,1.09\n2026-10-02,thin\n"), nil)
	if f := faults(err); f[0].Index != 1 || f[0].Line != 3 {
		t.Errorf("%+v", f)
	}
}

// UTF-16 is known by its zeros where it has no mark; a header stands on one of ten lines;
// what a refractometer shows lies between its ends; a hundred and twenty letters of a line
// are quoted.
func TestWhatALogMayLookLike(t *testing.T) {
	plain := "date,sg\n2026-11-20,1.095\n"
	var wide strings.Builder
	for _, b := range []byte(plain) {
		wide.Write([]byte{b, 0})
	}
	for name, c := range map[string]struct {
		text string
		good bool
	}{
		"UTF-16 without a mark":       {wide.String(), true},
		"header on line 10":           {strings.Repeat("a title\n", 9) + plain, true},
		"header on line 11":           {strings.Repeat("a title\n", 10) + plain, false},
		"unit behind the word":        {"date,sg,temp F\n2026-11-20,1.095,68\n", true},
		"one cell too many":           {"date,sg\n2026-11-20,1.095,7\n", false},
		"an empty cell too many":      {"date,sg\n2026-11-20,1.095,\n", true},
		"a cell missing":              {"date,sg,temp\n2026-11-20,1.095\n", true},
		"a word that is only a title": {"cherry\n" + plain, true},
		"date beside the whole time":  {"datum,time,sg\nx,2026-11-20,1.095\n", true},
	} {
		log, err := watch.ReadLog(strings.NewReader(c.text), nil)
		if (err == nil) != c.good || c.good && (len(log) != 1 || log[0].Reading != 1.095 || !log[0].Time.Equal(time.Date(2026, 11, 20, 0, 0, 0, 0, time.UTC))) {
			t.Errorf("%s: %+v, %v", name, log, err)
		}
	}
	for brix, good := range map[string]bool{"0.0099": false, "0.01": true, "70": true, "70.1": false, "17 C": false} {
		log, err := watch.ReadLog(strings.NewReader("date,sg,refractometer\n2026-11-20,,"+brix+"\n"), nil)
		if (err == nil) != good || good && (log[0].Reading != 0 || log[0].Refractometer == 0) {
			t.Errorf("%s Brix: %+v, %v", brix, log, err)
		}
	}
	for n, quoted := range map[int]string{120: strings.Repeat("x", 120), 121: strings.Repeat("x", 120) + "..."} {
		_, err := watch.ReadLog(strings.NewReader(strings.Repeat("x", n)), nil)
		if err == nil || !strings.Contains(err.Error(), `"`+quoted+`"`) {
			t.Errorf("%d letters: %v", n, err)
		}
	}
	log, err := watch.ReadLogAs(strings.NewReader("date,plato,temp\n2026-11-20,22.6,68\n"), watch.Format{Temperature: watch.FahrenheitScale, Refractometer: true})
	want, _ := gravity.Plato(22.6).SG()
	if err != nil || log[0].Reading != want || log[0].Refractometer != 0 || log[0].Brix {
		t.Errorf("Plato is a hydrometer's: %+v, %v", log, err)
	}
}
