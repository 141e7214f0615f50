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

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *FileError) UnmarshalJSON(text []byte) error {
	var in fileJSON
	err := json.Unmarshal(text, &in)
	if err == nil {
		*e = FileError{in.File, in.Line, in.Column, in.Field, in.Cause.Err}
	}
	return err
}
