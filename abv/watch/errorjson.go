package watch

import (
	"encoding/json"

	"example.org/mutage/internal/fault"
)

// plainLine has the fields of a LineError and none of its methods.
type plainLine LineError

type lineJSON struct {
	*plainLine
	Err     fault.Cause
	Message string `json:"message"`
}

// MarshalJSON writes the fields, the cause as errors are written, and the sentence as
// "message".
func (e *LineError) MarshalJSON() ([]byte, error) {
	text := ""
	if e.Err != nil {
		text = e.Error()
	}
	return json.Marshal(lineJSON{(*plainLine)(e), fault.Cause{Err: e.Err}, text})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *LineError) UnmarshalJSON(text []byte) error {
	var plain plainLine
	in := lineJSON{plainLine: &plain}
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	plain.Err = in.Err.Err
	*e = LineError(plain)
	return nil
}
