package fault

import (
	"encoding/json"
	"errors"
)

// Join is errors.Join with a form in JSON: nil where no error is left.
func Join(faults ...error) error {
	err := errors.Join(faults...)
	if err == nil {
		return nil
	}
	return &joined{err}
}

type joined struct{ error }

// Unwrap gives the errors.
func (j *joined) Unwrap() []error { return j.error.(interface{ Unwrap() []error }).Unwrap() }

// MarshalJSON writes the sentences as "message" and each error as "causes".
func (j *joined) MarshalJSON() ([]byte, error) {
	out := struct {
		Causes  []Cause `json:"causes"`
		Message string  `json:"message"`
	}{Message: j.Error()}
	for _, err := range j.Unwrap() {
		out.Causes = append(out.Causes, Cause{err})
	}
	return json.Marshal(out)
}
