package watch

import (
	"encoding/json"

	"example.org/mutage/internal/fault"
)

type logJSON struct {
	Index   int
	Err     fault.Cause
	Message string `json:"message"`
}

// MarshalJSON writes the index, the cause as errors are written, and the sentence as
// "message".
func (e *LogError) MarshalJSON() ([]byte, error) {
	text := ""
	if e.Err != nil {
		text = e.Error()
	}
	return json.Marshal(logJSON{e.Index, fault.Cause{Err: e.Err}, text})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *LogError) UnmarshalJSON(text []byte) error {
	var in logJSON
	err := json.Unmarshal(text, &in)
	if err == nil {
		*e = LogError{Index: in.Index, Err: in.Err.Err}
	}
	return err
}
