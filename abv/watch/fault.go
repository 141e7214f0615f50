package watch

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// ErrLog says that a log cannot be read. It is wrapped in a *LogError.
var ErrLog = errors.New("fermentation log")

// LogError is every fault of a log, all at once. It is the one error that ReadLog,
// ReadLogAs and Follow have for a log.
type LogError struct{ Faults []LineError }

// LineError is one fault of a log.
type LineError struct {
	Line  int   // of the file, from 1; zero where the log came from none, or for the log as a whole
	Index int   // of the reading, from 0; -1 for the log as a whole, or where the line is no reading
	Err   error // a *units.RangeError, a *units.ParseError, or a sentence that says what is missing
}

// Error names the line, or counts readings from 1, as a person does.
func (e *LineError) Error() string {
	switch {
	case e.Line > 0:
		return fmt.Sprintf("line %d: %v", e.Line, e.Err)
	case e.Index >= 0:
		return fmt.Sprintf("reading %d: %v", e.Index+1, e.Err)
	}
	return e.Err.Error()
}

// Unwrap is the cause.
func (e *LineError) Unwrap() error { return e.Err }

// Error is all faults, one a line. That a unit is missing is said once, with the
// lines where it is.
func (e *LogError) Error() string {
	var texts []string
	said, more := map[error]int{}, map[error][]string{}
	for i := range e.Faults {
		f := &e.Faults[i]
		if cause := unitMissing(f.Err); cause != nil {
			if _, is := said[cause]; is {
				more[cause] = append(more[cause], strconv.Itoa(f.Line))
				continue
			}
			said[cause] = len(texts)
		}
		texts = append(texts, fmt.Sprintf("%v, %v", ErrLog, f))
	}
	for cause, lines := range more {
		word := "lines "
		if len(lines) == 1 {
			word = "line "
		}
		texts[said[cause]] += "; the same on " + word + strings.Join(lines, ", ")
	}
	return strings.Join(texts, "\n")
}

// unitMissing is the error by which a header lacks a unit; nil for all others.
func unitMissing(err error) error {
	for _, cause := range []error{ErrTemperatureUnit, errMassUnit} {
		if errors.Is(err, cause) {
			return cause
		}
	}
	return nil
}

// Unwrap is ErrLog and the faults.
func (e *LogError) Unwrap() []error {
	all := []error{ErrLog}
	for i := range e.Faults {
		all = append(all, &e.Faults[i])
	}
	return all
}

// faults gathers what is wrong with a log.
type faults []LineError

func (f *faults) add(line, index int, err error) {
	if err != nil {
		*f = append(*f, LineError{line, index, err})
	}
}

// mostFaults is how many faults are listed: more say no more.
const mostFaults = 100

func (f faults) err() error {
	if len(f) == 0 {
		return nil
	}
	if more := len(f) - mostFaults; more > 0 {
		f = append(f[:mostFaults:mostFaults], LineError{0, -1, fmt.Errorf("and %d faults more", more)})
	}
	return &LogError{f}
}
