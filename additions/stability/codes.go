package stability

import "example.org/mutage/internal/codes"

// Outlook is the word of a verdict on yeast. Its text code does not change
// between versions; String is the sentence. Compare two to see which is better.
type Outlook int

// The three words, from bad to good. None of them says that a bottle is safe.
const (
	Ferments Outlook = iota
	Doubtful
	Still
)

var (
	outlookCodes     = []string{"ferments", "doubtful", "still"}
	outlookSentences = []string{"will ferment", "may ferment: doubtful", "should stay still"}
)

// String is the word as part of a sentence: "should stay still".
func (o Outlook) String() string { return sentence(outlookSentences, o) }

// MarshalText gives the code: "still", "doubtful", "ferments". Error:
// *units.RangeError for a value that is none.
func (o Outlook) MarshalText() ([]byte, error) { return codes.Text("outlook", outlookCodes, o) }

// UnmarshalText reads a code. Error: *units.ParseError.
func (o *Outlook) UnmarshalText(text []byte) error {
	return codes.Read("outlook", outlookCodes, text, o)
}

// Hold is how far a barrier goes.
type Hold int

// Holds: Holds is where the published figures and the margin are met at the
// unfavourable end, Weak part of the way, Helps counts only beside others, None
// is below, NotKnown where a figure is missing.
const (
	NotKnown Hold = iota
	None
	Helps
	Weak
	Holds
)

var (
	holdCodes     = []string{"not_known", "none", "helps", "weak", "holds"}
	holdSentences = []string{"not known", "no barrier", "helps others", "weak", "holds"}
)

// String is the hold in English.
func (h Hold) String() string { return sentence(holdSentences, h) }

// MarshalText gives the code: "holds", "weak", "helps", "none", "not_known".
// Error: *units.RangeError for a value that is none.
func (h Hold) MarshalText() ([]byte, error) { return codes.Text("hold", holdCodes, h) }

// UnmarshalText reads a code. Error: *units.ParseError.
func (h *Hold) UnmarshalText(text []byte) error { return codes.Read("hold", holdCodes, text, h) }

// Bacteria is the word of the verdict on lactic and acetic bacteria.
type Bacteria int

// The words on bacteria, from bad to good; BacteriaNotKnown is where the pH
// would decide and is not stated.
const (
	BacteriaOpen Bacteria = iota
	BacteriaNotKnown
	BacteriaSlowed
	BacteriaHeld
)

var (
	bacteriaCodes     = []string{"open", "not_known", "slowed", "held"}
	bacteriaSentences = []string{"bacteria can spoil it", "whether bacteria can spoil it is not known", "sulfite slows bacteria", "sulfite should hold bacteria"}
)

// String is the word as a sentence.
func (b Bacteria) String() string { return sentence(bacteriaSentences, b) }

// MarshalText gives the code: "held", "slowed", "open", "not_known". Error:
// *units.RangeError for a value that is none.
func (b Bacteria) MarshalText() ([]byte, error) { return codes.Text("bacteria", bacteriaCodes, b) }

// UnmarshalText reads a code. Error: *units.ParseError.
func (b *Bacteria) UnmarshalText(text []byte) error {
	return codes.Read("bacteria", bacteriaCodes, text, b)
}

func sentence[T ~int](words []string, x T) string {
	if x < 0 || int(x) >= len(words) {
		return "unknown"
	}
	return words[x]
}
