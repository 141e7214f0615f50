package watch_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
	"example.org/mutage/units"
)

func TestReadLog(t *testing.T) {
	vienna := time.FixedZone("cellar", 2*3600)
	log, err := watch.ReadLog(strings.NewReader("\ufefftemperature, Reading ,time\n21 C,1.0790,2026-10-01 08:00\n,1070,2026-10-01T20:00:00Z\n68 F,17 P,2026-10-02 08:00\n"), vienna)
	if err != nil || len(log) != 3 {
		t.Fatalf("%d readings, %v", len(log), err)
	}
	if want := time.Date(2026, 10, 1, 6, 0, 0, 0, time.UTC); !log[0].Time.Equal(want) || log[0].Reading != 1.079 {
		t.Errorf("%+v, want %v", log[0], want)
	}
	if log[0].Temperature != units.Celsius(21) {
		t.Errorf("temperature %v", log[0].Temperature)
	}
	if log[1].Temperature.Stated() || !log[1].Time.Equal(time.Date(2026, 10, 1, 20, 0, 0, 0, time.UTC)) || log[1].Reading != 1.07 {
		t.Errorf("%+v", log[1])
	}
	log, err = watch.ReadLog(strings.NewReader("time,reading,mass\n2026-10-01 08:00,1.09,5 kg\n2026-10-02 08:00,,4.9 kg\n"), nil)
	if err != nil || log[1].Mass != 4900 || log[1].Reading != 0 {
		t.Errorf("%+v, %v", log, err)
	}
}

func TestReadLogRefuses(t *testing.T) {
	for text, want := range map[string]struct {
		line int
		part string
	}{
		"":                                      {1, "no header"},
		"time,reading\n":                        {2, "no readings"},
		"when,reading\n2026-10-01 08:00,1.09\n": {1, "no column time"},
		"time,sg\n2026-10-01 08:00,1.09\n":      {1, "no column reading"},
		"time,reading\n2026-10-01 08:00,1.09\nnoon,1.08\n":                           {3, `time "noon"`},
		"time,reading\n2026-10-01 08:00,12\n":                                        {2, "gravity"},
		"time,reading,temperature\n2026-10-01 08:00,1.09,warm\n":                     {2, "temperature"},
		"time,reading\n2026-10-01 08:00\n":                                           {2, "a gravity such as"},
		"time,reading\n\n\n2026-10-01 08:00,1.09\n2026-10-02 08:00,nothing\n":        {5, "gravity"},
		"time,reading\n" + strings.Repeat("2026-10-01 08:00,1.09\n", watch.MaxLog+1): {watch.MaxLog + 2, "readings"},
	} {
		_, err := watch.ReadLog(strings.NewReader(text), nil)
		var line *watch.LineError
		if !errors.As(err, &line) || line.Unwrap() == nil || line.Line != want.line || !strings.Contains(err.Error(), want.part) {
			t.Errorf("%.60q: %v; want line %d, %q", text, err, want.line, want.part)
		}
	}
}

// All wrong lines are named, not the first.
func TestReadLogListsAllFaults(t *testing.T) {
	_, err := watch.ReadLog(strings.NewReader("time,reading\nnoon,1.09\n2026-10-01 08:00,1.08\n2026-10-02 08:00,12\n"), nil)
	if err == nil || !strings.Contains(err.Error(), "line 2: time") || !strings.Contains(err.Error(), "line 4: gravity") {
		t.Errorf("%v", err)
	}
}

func FuzzReadLog(f *testing.F) {
	f.Add("time,reading,temperature\n2026-10-01 08:00,1.0790,21 C\n")
	f.Add("time,mass\n2026-10-01T08:00:00Z,4 kg\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		log, err := watch.ReadLog(strings.NewReader(text), nil)
		if (err == nil) != (len(log) > 0) {
			t.Errorf("%d readings with %v", len(log), err)
		}
		if err == nil {
			_, _ = watch.Follow(log, watch.Setup{})
		}
	})
}
