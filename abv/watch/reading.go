package watch

import (
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Reading is one line of the log of a fermentation. The earliest is the must
// before it ferments, unless Setup.Original says what that was: its Reading is the
// original gravity.
//
// It is of one instrument: of the hydrometer where Reading is not zero, else of the
// refractometer, else of the scale.
type Reading struct {
	Time time.Time `json:"time"`
	// Reading is what the hydrometer showed in a degassed sample.
	Reading gravity.SG `json:"reading,omitzero"`
	// Refractometer is what it showed, true at 20 C (most correct themselves).
	// Alcohol raises it: that is reckoned with.
	Refractometer gravity.Brix `json:"refractometer,omitzero"`
	// Temperature of that sample, and so of the must; of the must where the
	// vessel was weighed, 0 to 40 C. Zero is not stated: the reading is then taken
	// as made at 20 C, and nothing is said that rests on the temperature of the must.
	Temperature units.Temperature `json:"temperature,omitzero"`
	// Mass of the vessel with all in it where it was weighed. The earliest
	// reading needs it too then, beside its gravity.
	Mass units.Mass `json:"mass,omitzero"`
	// Brix says that Reading was noted in Brix and that nobody named the instrument. It
	// counts as a hydrometer's; where a refractometer's would mean another wine, a
	// finding says so before all else.
	Brix bool `json:"brix,omitzero"`
	// Line of the file that it came from; zero where it came from none.
	Line int `json:"line,omitzero"`
}

// Reason says why a reading was set apart. Its text is String.
type Reason int

// The reasons. A reading is set apart where it contradicts the others; of two
// sets that contradict each other the larger is believed.
const (
	BeforeMust    Reason = iota + 1 // its time lies before that of the must, or before Setup.Started
	RepeatedTime                    // another reading of its time agrees better with the rest
	AfterNow                        // its time has not come
	AboveOriginal                   // above the original gravity, or heavier than at the start
	BelowDry                        // lighter than the must gets with all extract fermented
	Rising                          // above a reading before it
	TooLow                          // below the readings after it
)

var (
	reasonCodes = []string{"", "before_must", "repeated_time", "after_now", "above_original", "below_dry", "rising", "too_low"}
	reasonWords = []string{"",
		"its time lies before the start: is the date right?",
		"another reading of the same time: give the hour",
		"later than now: is the date right?",
		"above the original gravity: gas in the sample, sugar added, or misread",
		"below the gravity of this must fermented out: misread, or the original gravity was",
		"higher than before: gas in the sample, sugar added, or misread",
		"lower than the readings after it: misread",
	}
)

// String is the reason in words.
func (r Reason) String() string { return word(int(r), reasonWords) }

// MarshalText is the code of the reason: "rising".
func (r Reason) MarshalText() ([]byte, error) { return encode("reason", int(r), reasonCodes) }

// UnmarshalText reads what MarshalText wrote.
func (r *Reason) UnmarshalText(text []byte) error { return decode("reason", r, text, reasonCodes) }

// SetApart is a reading that was not used, and why.
type SetApart struct {
	Index   int        `json:"index"` // into the log
	Time    time.Time  `json:"time"`
	Reading gravity.SG `json:"reading,omitzero"` // zero where the hydrometer was not read
	Reason  Reason     `json:"reason"`
}
