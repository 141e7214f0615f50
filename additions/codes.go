package additions

import "example.org/mutage/internal/codes"

// MarshalText is the code of the substance: "sucrose_granulated", and empty where
// none is named. Error: *units.ParseError for one that Substances does not list.
func (s Substance) MarshalText() ([]byte, error) {
	return codes.NameText("substance", Substances(), s)
}

// UnmarshalText reads what MarshalText wrote, and the name. Error: *units.ParseError.
func (s *Substance) UnmarshalText(text []byte) error {
	return codes.ReadName("substance", Substances(), text, s)
}

var evidences = []Evidence{Published, Computed, CommonPractice, FromMemory}

// MarshalText is the code of the evidence: "common_practice_no_source", and empty
// where none is stated. Error: *units.ParseError for another than the constants.
func (e Evidence) MarshalText() ([]byte, error) { return codes.NameText("evidence", evidences, e) }

// UnmarshalText reads what MarshalText wrote. Error: *units.ParseError.
func (e *Evidence) UnmarshalText(text []byte) error {
	return codes.ReadName("evidence", evidences, text, e)
}
