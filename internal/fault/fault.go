// Package fault carries an error through JSON: errors that hold another error write
// it as Cause and read it back.
package fault

import (
	"encoding/json"
	"errors"

	"example.org/mutage/units"
)

// A Cause is an error in JSON: what the error itself writes, or its sentence as
// "message". The zero Cause is no error.
type Cause struct{ Err error }

// IsZero says whether there is no error.
func (c Cause) IsZero() bool { return c.Err == nil }

// MarshalJSON writes the error.
func (c Cause) MarshalJSON() ([]byte, error) {
	if c.Err == nil {
		return []byte("null"), nil
	}
	if own, ok := c.Err.(json.Marshaler); ok {
		return own.MarshalJSON()
	}
	return json.Marshal(struct {
		Message string `json:"message"`
	}{c.Err.Error()})
}

// UnmarshalJSON reads a *units.RangeError (it has a key), a *units.ParseError (it
// has a text), and any other error as its sentence.
func (c *Cause) UnmarshalJSON(text []byte) error {
	var in struct {
		Key, Text *string
		Message   string
	}
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	switch {
	case string(text) == "null":
		c.Err = nil
		return nil
	case in.Key != nil:
		return into(c, text, new(units.RangeError))
	case in.Text != nil:
		return into(c, text, new(units.ParseError))
	}
	c.Err = errors.New(in.Message)
	return nil
}

func into(c *Cause, text []byte, e error) error {
	err := json.Unmarshal(text, e)
	if err == nil {
		c.Err = e
	}
	return err
}
