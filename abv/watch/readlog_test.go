package watch_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
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
		"":                                      {1, "the log is empty"},
		"time,reading\n":                        {2, "no readings"},
		"noon,reading\n2026-10-01 08:00,1.09\n": {1, "no header with a column time"},
		"time,colour\n2026-10-01 08:00,1.09\n":  {1, "no column reading"},
		"time,reading\n2026-10-01 08:00,1.09\nnoon,1.08\n":                           {3, `time "noon"`},
		"time,reading\n2026-10-01 08:00,12\n":                                        {2, "gravity"},
		"time,reading,temperature\n2026-10-01 08:00,1.09,warm\n":                     {2, "temperature"},
		"time,reading\n2026-10-01 08:00\n":                                           {2, "a gravity such as"},
		"time,reading\n\n\n2026-10-01 08:00,1.09\n2026-10-02 08:00,nothing\n":        {5, "gravity"},
		"time,reading\n" + strings.Repeat("2026-10-01 08:00,1.09\n", watch.MaxLog+1): {watch.MaxLog + 2, "readings"},
	} {
		_, err := watch.ReadLog(strings.NewReader(text), nil)
		var line *watch.LogError
		if !errors.As(err, &line) || line.Faults[0].Unwrap() == nil || line.Faults[0].Line != want.line || !strings.Contains(err.Error(), want.part) {
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

// Logs as office programs and sensors write them. All of the cherry musts here are
// of our own invention.
func TestReadLogTakesWhatPeopleHave(t *testing.T) {
	vienna := time.FixedZone("cellar", 3600)
	noon := func(day int) time.Time { return time.Date(2026, 11, day, 12, 0, 0, 0, vienna) }
	utf16 := func(text string, big bool) string {
		out := []byte{0xff, 0xfe}
		if big {
			out = []byte{0xfe, 0xff}
		}
		for _, r := range text {
			if big {
				out = append(out, 0, byte(r))
			} else {
				out = append(out, byte(r), 0)
			}
		}
		return string(out)
	}
	plain := "time,reading,temperature\n2026-11-20 12:00,1.0950,22 C\n2026-11-21 12:00,1.0750,22 C\n"
	want := []watch.Reading{
		{Time: noon(20), Reading: 1.095, Temperature: units.Celsius(22), Line: 2},
		{Time: noon(21), Reading: 1.075, Temperature: units.Celsius(22), Line: 3},
	}
	for name, c := range map[string]struct {
		text   string
		format watch.Format
	}{
		"plain":              {plain, watch.Format{}},
		"byte order mark":    {"\ufeff" + plain, watch.Format{}},
		"UTF-16":             {utf16(plain, false), watch.Format{}},
		"UTF-16, big end":    {utf16(plain, true), watch.Format{}},
		"Windows lines":      {strings.ReplaceAll(plain, "\n", "\r\n"), watch.Format{}},
		"Windows-1252":       {"date;sg;temp (\xb0C)\n20.11.2026 12:00;1,0950;22\n21.11.2026 12:00;1,0750;22,0\n", watch.Format{}},
		"semicolons":         {"Date;Gravity;Temp C\n20.11.2026 12:00;1,0950;22\n21.11.2026 12:00;1,0750;22\n", watch.Format{}},
		"tabs":               {"When\tSG\tTemperature [C]\n20 Nov 2026 12:00\t1.0950\t22\n21 Nov 2026 12:00\t1.0750\t22\n", watch.Format{}},
		"commas in quotes":   {"time,gravity,temp\n2026-11-20 12:00,\"1,0950\",22 C\n2026-11-21 12:00,1075,\"22,0 C\"\n", watch.Format{}},
		"American":           {"Date,Time,Specific Gravity,Temp (F)\n11/20/2026,12:00 PM,1.0950,71.6\n11/21/2026,12:00 PM,1.0750,71.6\n", watch.Format{}},
		"day first":          {"time,reading,temperature\n20/11/2026 12:00,1.0950,22 C\n21/11/2026 12:00,1.0750,22 C\n", watch.Format{}},
		"Oechsle":            {"datum,date,oechsle,temp_c\nx,2026-11-20 12:00,95,22\nx,2026-11-21 12:00,75,22\n", watch.Format{}},
		"unit by the format": {"time,sg,temp\n2026-11-20 12:00,1.0950,22\n2026-11-21 12:00,1.0750,22\n", watch.Format{Temperature: watch.CelsiusScale}},
		"with a zone":        {"timestamp,sg,temp\n2026-11-20T11:00:00Z,1.0950,22 C\n2026-11-21T13:00:00+02:00,1.0750,22 C\n", watch.Format{}},
	} {
		c.format.Place = vienna
		log, err := watch.ReadLogAs(strings.NewReader(c.text), c.format)
		if err != nil || len(log) != 2 {
			t.Errorf("%s: %d readings, %v", name, len(log), err)
			continue
		}
		for i, l := range log {
			w := want[i]
			if !l.Time.Equal(w.Time) || l.Reading != w.Reading || math.Abs(float64(l.Temperature-w.Temperature)) > 1e-9 || l.Line != w.Line {
				t.Errorf("%s: %+v, want %+v", name, l, w)
			}
		}
	}
}

// A title above the header and blank rows are passed over, and lines count from
// the top of the file.
func TestReadLogCountsLinesOfTheFile(t *testing.T) {
	log, err := watch.ReadLog(strings.NewReader("Morello cherry\n\ndate;sg\n2026-11-20;1,095\n;\n2026-11-21;1,075\n"), nil)
	if err != nil || len(log) != 2 || log[0].Line != 4 || log[1].Line != 6 {
		t.Errorf("%+v, %v", log, err)
	}
	_, err = watch.ReadLog(strings.NewReader("Morello cherry\n\ndate;sg\n2026-11-20;1,095\n;\n2026-11-21;thin\n"), nil)
	if err == nil || !strings.Contains(err.Error(), "line 6: gravity") {
		t.Errorf("%v", err)
	}
}

// 3/4/2026 has two readings. One number above 12 in the log tells which is meant.
func TestDatesWithTwoReadingsAreRefused(t *testing.T) {
	log := "date,sg\n3/4/2026,1.095\n5/4/2026,1.075\n"
	_, err := watch.ReadLogAs(strings.NewReader(log), watch.Format{})
	if err == nil || !strings.Contains(err.Error(), "3 April 2026 or 4 March 2026") || !strings.Contains(err.Error(), "line 3") {
		t.Errorf("%v", err)
	}
	for _, c := range []struct {
		text   string
		format watch.Format
		month  time.Month
	}{
		{log, watch.Format{Order: watch.DayFirst}, time.April},
		{log, watch.Format{Order: watch.MonthFirst}, time.March},
		{log + "13/4/2026,1.06\n", watch.Format{}, time.April},
		{log + "5/13/2026,1.06\n", watch.Format{}, time.March},
	} {
		got, err := watch.ReadLogAs(strings.NewReader(c.text), c.format)
		if err != nil || got[0].Time.Month() != c.month {
			t.Errorf("%q %v: %v, %v", c.text, c.format.Order, got, err)
		}
	}
	for _, text := range []string{log + "13/4/2026,1.06\n5/13/2026,1.05\n", "date,sg\n13/13/2026,1.095\n", "date,sg\n31.2.2026,1.095\n", "date,sg\n1.2.2026 25:00,1.095\n", "date,sg\n13/4/2026 13:00 PM,1.095\n"} {
		if got, err := watch.ReadLogAs(strings.NewReader(text), watch.Format{}); !errors.Is(err, watch.ErrLog) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
}

// A date that cannot be in either order does not say which of them the log has.
func TestAnImpossibleDateDecidesNoOrder(t *testing.T) {
	for _, wrong := range []string{"13/13/2026", "14/13/2026", "13/14/2026"} {
		_, err := watch.ReadLog(strings.NewReader("date,sg\n"+wrong+",1.095\n4/5/2026,1.08\n"), nil)
		if err == nil || !strings.Contains(err.Error(), "4 May 2026 or 5 April 2026") {
			t.Errorf("%s: %v", wrong, err)
		}
	}
}

// A bare temperature without a unit could be either.
func TestBareTemperaturesNeedAUnit(t *testing.T) {
	_, err := watch.ReadLog(strings.NewReader("time,sg,temp\n2026-11-20 12:00,1.0950,22\n"), nil)
	if err == nil || !strings.Contains(err.Error(), `line 2: temperature "22" has no unit`) {
		t.Errorf("%v", err)
	}
	log, err := watch.ReadLogAs(strings.NewReader("time,sg,temp\n2026-11-20 12:00,1.0950,68\n"), watch.Format{Temperature: watch.FahrenheitScale})
	if err != nil || math.Abs(log[0].Temperature.Celsius()-20) > 1e-9 {
		t.Errorf("%v, %v", log, err)
	}
}

// A column "brix" is a hydrometer's scale, or a refractometer's where that is said.
func TestBrixIsOfTheInstrumentThatIsSaid(t *testing.T) {
	text := "time,brix\n2026-11-20 12:00,22.6\n2026-11-21 12:00,18.2\n"
	log, err := watch.ReadLogAs(strings.NewReader(text), watch.Format{})
	if err != nil || math.Abs(float64(log[0].Reading)-1.0947) > 5e-4 || log[0].Refractometer != 0 {
		t.Errorf("%+v, %v", log, err)
	}
	log, err = watch.ReadLogAs(strings.NewReader(text), watch.Format{Refractometer: true})
	if err != nil || log[1].Refractometer != 18.2 || log[1].Reading != 0 {
		t.Errorf("%+v, %v", log, err)
	}
	log, err = watch.ReadLog(strings.NewReader("time,sg,refractometer,weight (kg)\n2026-11-20 12:00,1.095,22.6,25\n2026-11-21 12:00,,18.2 Bx,\n2026-11-22 12:00,,,24.5\n"), nil)
	if err != nil || log[1].Refractometer != 18.2 || log[2].Mass != 24500 {
		t.Errorf("%+v, %v", log, err)
	}
}

// A sensor's minutes become means of an hour.
func TestASensorIsAveragedByTheHour(t *testing.T) {
	var b strings.Builder
	b.WriteString("timestamp,sg,temp (C)\n")
	begin := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	for i := range 84 * 60 {
		fmt.Fprintf(&b, "%s,%.4f,%d\n", begin.Add(time.Duration(i)*time.Minute).Format(time.RFC3339), 1.095-0.0005*float64(i/60)+0.002*float64(i%2), 20+2*(i%2))
	}
	if _, err := watch.ReadLog(strings.NewReader(b.String()), nil); err == nil || !strings.Contains(err.Error(), "averaged by the hour") {
		t.Errorf("5040 readings: %v", err)
	}
	log, err := watch.ReadLogAs(strings.NewReader(b.String()), watch.Format{Sensor: true})
	if err != nil || len(log) != 84 {
		t.Fatal(len(log), err)
	}
	if l := log[10]; math.Abs(float64(l.Reading)-(1.095-0.005+0.001)) > 1e-9 || math.Abs(l.Temperature.Celsius()-21) > 1e-9 || !l.Time.Equal(begin.Add(10*time.Hour+29*time.Minute+30*time.Second)) {
		t.Errorf("%+v", l)
	}
}

func TestAnErrorQuotesTheStartOfALongLine(t *testing.T) {
	for _, text := range []string{strings.Repeat("x", 1<<16), "time," + strings.Repeat("x", 1<<16)} {
		if _, err := watch.ReadLog(strings.NewReader(text), nil); err == nil || len(err.Error()) > 400 {
			t.Errorf("%.200v", err)
		}
	}
}

// What is missing from the header is said once, with every line, and every line is a
// fault for programs.
func TestAMissingUnitIsSaidOnce(t *testing.T) {
	for text, want := range map[string]string{
		"time,sg,temp\n2026-11-20,1.095,22\n2026-11-21,1.08,21\n2026-11-22,1.07,22\n":   `line 2: temperature "22" has no unit: degrees C or F? write it in the header, as in temperature (C); the same on lines 3, 4`,
		"time,sg,weight\n2026-11-20,1.095,30\n2026-11-21,,29\n":                         `line 2: mass "30" has no unit: write the unit in the header, as in weight (kg); the same on line 3`,
		"time,sg,temp\n2026-11-20,1.095,22\n2026-11-21,thin,21 C\n2026-11-22,1.07,20\n": "the same on line 4\nfermentation log, line 3: gravity",
	} {
		_, err := watch.ReadLog(strings.NewReader(text), nil)
		var all *watch.LogError
		if !errors.As(err, &all) || len(all.Faults) != strings.Count(text, "\n")-1 || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// More of what people and sensors write.
func TestReadLogTakesMoreOfWhatPeopleWrite(t *testing.T) {
	eight := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	for name, text := range map[string]string{
		"seconds since 1970":      "timestamp,gravity\n1795161600,1.095\n",
		"milliseconds since 1970": "timestamp,gravity\n1795161600000,1.095\n",
		"hours behind an h":       "date;sg\n20/11/2026 8h00;1,095\n",
		"nothing is a dash":       "time,sg,temp (C),weight\n2026-11-20 08:00,1.095,-,n/a\n",
		"German":                  "Datum;Uhrzeit;Dichte;Temperatur (°C)\n20.11.2026;08:00;1,095;?\n",
		"French":                  "Date;Heure;Densité (20/20)\n20/11/2026;8h00;1,095\n",
		"English before German":   "datum,time,zeit,sg\nfirst,2026-11-20 08:00,second,1.095\n",
		"and":                     "Date & Time,S.G.,Must temperature (°F)\n2026-11-20 08:00,1.095,-\n",
	} {
		log, err := watch.ReadLog(strings.NewReader(text), nil)
		if err != nil || len(log) != 1 || !log[0].Time.Equal(eight) || log[0].Reading != 1.095 || log[0].Temperature != 0 || log[0].Mass != 0 || log[0].Brix {
			t.Errorf("%s: %+v, %v", name, log, err)
		}
	}
	for text, want := range map[string]string{
		"day,sg\n0,1.095\n":                         "a count of days",
		"time,sg\n46346.333,1.095\n":                "a day number of a spreadsheet",
		"time,sg\n2026-11-20 08:00 CET,1.095\n":     "letters such as CET are more than one zone",
		"time,sg,temp (C)\n2026-11-20 08:00,-,22\n": "put # before the line",
	} {
		if _, err := watch.ReadLog(strings.NewReader(text), nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %q", text, err, want)
		}
	}
}

// A date has a form, the time behind it one, and the zone one.
func TestTimesInManyForms(t *testing.T) {
	at := time.Date(2026, 11, 20, 20, 0, 0, 0, time.UTC)
	for _, text := range []string{"20.11.2026, 20:00 Uhr", "20-Nov-2026 8:00 PM", "Nov 20, 2026, 8:00 pm", "2026/11/20 8:00 PM", "Fri 20 Nov 2026 20:00", "Friday, 20 November 2026 20:00",
		"20 Nov. 2026 20h00", "2026-11-20 20.00", "2026-11-20T21:00:00.000+0100", "2026-11-20 21:00 +01", "2026-11-20 8:00:00 PM GMT", "20261120T200000Z", "20/11/26 20:00:00", "2026-11-20 9:00 PM +01:00"} {
		if got, err := (watch.Format{}).ParseTime(text); err != nil || !got.Equal(at) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"2026-11-31", "2026-11-20 24:30", "2026-11-20 8am", "20-11", "Fri", ""} {
		if got, err := (watch.Format{}).ParseTime(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
	// A quote mark that stands alone ends the reading, at its line.
	_, err := watch.ReadLog(strings.NewReader("time,sg,notes\n2026-11-20,1.095,\n2026-11-21,1.08,12\" tube\n"), nil)
	if err == nil || !strings.Contains(err.Error(), "line 3: a quote mark stands alone") {
		t.Errorf("%v", err)
	}
}

// Brix has an instrument where the header, the format or the column says so.
func TestBrixSaysWhetherItsInstrumentWasNamed(t *testing.T) {
	row := "\n2026-11-20,18.2\n"
	for _, c := range []struct {
		text     string
		format   watch.Format
		unnamed  bool
		instance gravity.Brix
	}{
		{"date,brix" + row, watch.Format{}, true, 0},
		{"date,gravity (Bx)" + row, watch.Format{}, true, 0},
		{"date,reading\n2026-11-20,18.2 Bx\n", watch.Format{}, true, 0},
		{"date,brix" + row, watch.Format{Hydrometer: true}, false, 0},
		{"date,hydrometer (brix)" + row, watch.Format{}, false, 0},
		{"date,hydrometer brix" + row, watch.Format{}, false, 0},
		{"date,plato" + row, watch.Format{}, false, 0},
		{"date,brix" + row, watch.Format{Refractometer: true}, false, 18.2},
		{"date,brix (refractometer)" + row, watch.Format{}, false, 18.2},
		{"date,refractometer (brix)" + row, watch.Format{}, false, 18.2},
	} {
		log, err := watch.ReadLogAs(strings.NewReader(c.text), c.format)
		if err != nil || log[0].Brix != c.unnamed || log[0].Refractometer != c.instance || (log[0].Reading == 0) != (c.instance != 0) {
			t.Errorf("%q, %+v: %+v, %v", c.text, c.format, log, err)
		}
	}
	sensor, err := watch.ReadLogAs(strings.NewReader("date,brix"+row), watch.Format{Sensor: true})
	if err != nil || !sensor[0].Brix {
		t.Errorf("averaged: %+v, %v", sensor, err)
	}
}
