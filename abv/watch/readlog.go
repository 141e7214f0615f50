package watch

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// forms of a time that a log may have; one without a zone is in the log's own
var logTimes = []string{time.RFC3339, "2006-01-02 15:04:05Z07:00", "2006-01-02 15:04Z07:00", "2006-01-02 15:04 -0700", "2006-01-02 15:04:05", "2006-01-02 15:04", "2006-01-02T15:04"}

// ReadLog reads a fermentation log: CSV with the header "time,reading,temperature",
// as in "2026-10-01 08:00,1.0790,21 C". The columns are found by their names; a
// column "mass" may stand for the weighed vessel; temperature may be left out or
// empty. Gravities are read by gravity.Parse, temperatures and masses by units.
// A time without a zone is in place. Errors: *LogLineError, which names the line;
// several of them joined where several lines are wrong.
func ReadLog(in io.Reader, place *time.Location) ([]Reading, error) {
	if in == nil {
		return nil, &LineError{1, errors.New("no log was given to read")}
	}
	if place == nil {
		place = time.UTC
	}
	r := csv.NewReader(in)
	r.FieldsPerRecord, r.TrimLeadingSpace, r.Comment = -1, true, '#'
	fail := func(err error) ([]Reading, error) {
		line, _ := r.FieldPos(0)
		return nil, &LineError{line, err}
	}
	header, err := r.Read()
	if err != nil {
		return nil, &LineError{1, fmt.Errorf("no header: expected time,reading,temperature (%w)", err)}
	}
	columns := map[string]int{}
	for i, name := range header {
		columns[strings.ToLower(strings.TrimSpace(strings.TrimPrefix(name, "\ufeff")))] = i
	}
	if _, ok := columns["time"]; !ok {
		return fail(fmt.Errorf("no column time: the header is %q, expected time,reading,temperature", strings.Join(header, ",")))
	}
	_, read := columns["reading"]
	if _, weighed := columns["mass"]; !read && !weighed {
		return fail(fmt.Errorf("no column reading or mass: the header is %q, expected time,reading,temperature", strings.Join(header, ",")))
	}
	var log []Reading
	var faults []error
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, &LineError{len(log) + 2, err}
		}
		if len(log) == MaxLog {
			return fail(units.Check("readings", float64(len(log)+1), 1, MaxLog, "", ""))
		}
		reading, err := logReading(func(column string) string {
			if i, ok := columns[column]; ok && i < len(row) {
				return strings.TrimSpace(row[i])
			}
			return ""
		}, place)
		if err != nil {
			line, _ := r.FieldPos(0)
			faults = append(faults, &LineError{line, err})
		}
		log = append(log, reading)
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	if len(log) == 0 {
		return nil, &LineError{2, errors.New("no readings: the first line behind the header is the original gravity")}
	}
	return log, nil
}

func logReading(cell func(column string) string, place *time.Location) (l Reading, err error) {
	if l.Time, err = logTime(cell("time"), place); err != nil {
		return l, err
	}
	if text := cell("reading"); text != "" {
		if l.Reading, err = gravity.Parse(text); err != nil {
			return l, err
		}
	}
	if text := cell("temperature"); text != "" {
		t, err := units.ParseTemperature(text)
		if err != nil {
			return l, err
		}
		l.Temperature = t
	}
	if text := cell("mass"); text != "" {
		if l.Mass, err = units.ParseMass(text); err != nil {
			return l, err
		}
	}
	if l.Reading == 0 && l.Mass == 0 {
		return l, &units.ParseError{Text: "", Quantity: "reading", Expected: []string{"a gravity such as 1.0790, or a mass"}}
	}
	return l, nil
}

func logTime(text string, place *time.Location) (time.Time, error) {
	for _, form := range logTimes {
		if t, err := time.ParseInLocation(form, text, place); err == nil {
			return t, nil
		}
	}
	return time.Time{}, &units.ParseError{Text: text, Quantity: "time", Expected: []string{"2026-10-01 08:00", "2026-10-01T08:00:00+02:00"}}
}

// LogLineError says which line of a log file is wrong.
type LineError struct {
	Line int
	Err  error
}

// Error names the line.
func (e *LineError) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Err) }

// Unwrap is the cause.
func (e *LineError) Unwrap() error { return e.Err }
