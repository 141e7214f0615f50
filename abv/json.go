package abv

import "encoding/json"

// plainNoWindow has the fields of the error and none of its methods.
type plainNoWindow NoWindowError

// MarshalJSON writes the fields and the sentence as "message".
func (e *NoWindowError) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		*plainNoWindow
		Message string `json:"message"`
	}{(*plainNoWindow)(e), e.Error()})
}
