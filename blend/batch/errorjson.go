package batch

import (
	"encoding/json"

	"example.org/mutage/internal/fault"
)

// fileJSON is a FileError in JSON.
type fileJSON struct {
	File    string      `json:"file"`
	Line    int         `json:"line"`
	Column  int         `json:"column"`
	Field   string      `json:"field,omitempty"`
	Cause   fault.Cause `json:"cause"`
	Message string      `json:"message"`
}

// MarshalJSON writes the place, the cause and the sentence as "message".
func (e *FileError) MarshalJSON() ([]byte, error) {
	text := ""
	if e.Err != nil {
		text = e.Error()
	}
	return json.Marshal(fileJSON{e.File, e.Line, e.Column, e.Field, fault.Cause{Err: e.Err}, text})
}

// conflictJSON is a ConflictError in JSON.
type conflictJSON struct {
	Fields  []string `json:"fields"`
	Why     string   `json:"why"`
	Message string   `json:"message"`
}

// MarshalJSON writes the fields, why, and the sentence as "message".
func (e *ConflictError) MarshalJSON() ([]byte, error) {
	return json.Marshal(conflictJSON{e.Fields, e.Why, e.Error()})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *ConflictError) UnmarshalJSON(text []byte) error {
	var in conflictJSON
	err := json.Unmarshal(text, &in)
	if err == nil {
		*e = ConflictError{in.Fields, in.Why}
	}
	return err
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *FileError) UnmarshalJSON(text []byte) error {
	var in fileJSON
	err := json.Unmarshal(text, &in)
	if err == nil {
		*e = FileError{in.File, in.Line, in.Column, in.Field, in.Cause.Err}
	}
	return err
}
