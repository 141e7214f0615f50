package abv

import (
	"encoding/json"

	"example.org/mutage/internal/fault"
)

// The fields of types that have their own form, and none of their methods.
type (
	plainNoWindow NoWindowError
	plainEstimate Estimate
)

// MarshalJSON writes the fields in snake case and the sentence as "message".
func (e *NoWindowError) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		*plainNoWindow
		Message string `json:"message"`
	}{(*plainNoWindow)(e), e.Error()})
}

type estimateJSON struct {
	*plainEstimate
	Err fault.Cause `json:",omitzero"`
}

// MarshalJSON writes the fields, the error as errors are written.
func (e Estimate) MarshalJSON() ([]byte, error) {
	return json.Marshal(estimateJSON{(*plainEstimate)(&e), fault.Cause{Err: e.Err}})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *Estimate) UnmarshalJSON(text []byte) error {
	var plain plainEstimate
	in := estimateJSON{plainEstimate: &plain}
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	plain.Err = in.Err.Err
	*e = Estimate(plain)
	return nil
}
