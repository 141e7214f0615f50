package watch

import (
	"errors"
	"fmt"
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// LogReading is one line of the log of a fermentation. The first line is the
// must before it ferments: its Reading is the original gravity.
type Reading struct {
	Time time.Time
	// Reading is what the spindle showed in a degassed sample; zero where the
	// vessel was weighed instead.
	Reading gravity.SG
	// Temperature of that sample, and so of the must; of the must where the
	// vessel was weighed. Zero is not stated: the reading is then taken as made at
	// 20 C, and nothing is said that rests on the temperature of the must.
	Temperature units.Temperature
	// Mass of the vessel with all in it where it was weighed. It serves where
	// Reading is zero, and on the first line, which then needs both.
	Mass units.Mass
}

// ErrLog says that a log cannot be read. It is wrapped in a *LogError.
var ErrLog = errors.New("fermentation log")

// LogError says which reading of the log is wrong, and what would be accepted.
type LogError struct {
	Index int   // into the log, from 0; -1 for the log as a whole
	Err   error // a *units.RangeError, or a sentence that says what is missing
}

// Error counts readings from 1, as a person does.
func (e *LogError) Error() string {
	if e.Index < 0 {
		return fmt.Sprintf("%v: %v", ErrLog, e.Err)
	}
	return fmt.Sprintf("%v, reading %d: %v", ErrLog, e.Index+1, e.Err)
}

// Unwrap is ErrLog and the cause.
func (e *LogError) Unwrap() []error { return []error{ErrLog, e.Err} }

// ApartReason says why a reading was set apart. Its text is String.
type ApartReason int

// The reasons. A reading is set apart where it contradicts the others; of two
// sets that contradict each other the larger is believed.
const (
	OutOfOrder    ApartReason = iota + 1 // in time
	RepeatedTime                         // a second reading of one time; the first is used
	AfterNow                             // its time has not come
	AboveOriginal                        // above the original gravity, or heavier than at the start
	BelowDry                             // lighter than the must gets with all extract fermented
	Rising                               // above a reading before it
	TooLow                               // below the readings after it
)

var reasons = [...]string{
	OutOfOrder:    "out of order in time",
	RepeatedTime:  "a second reading of the same time",
	AfterNow:      "later than now",
	AboveOriginal: "above the original gravity: gas in the sample, sugar added, or misread",
	BelowDry:      "below the gravity of this must fermented out: misread, or the original gravity was",
	Rising:        "higher than before: gas in the sample, sugar added, or misread",
	TooLow:        "lower than the readings after it: misread",
}

// String is the reason in words.
func (r ApartReason) String() string {
	if r < OutOfOrder || int(r) >= len(reasons) {
		return fmt.Sprintf("reason %d", int(r))
	}
	return reasons[r]
}

// SetApart names a reading that was not used.
type SetApart struct {
	Index  int // into the log
	Reason ApartReason
}
