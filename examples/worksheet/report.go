package main

import (
	"encoding/json"
	"fmt"
	"io"
	"regexp"

	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/internal/fault"
)

var asksJSON = regexp.MustCompile(`^--?json(=(true|1|t|T|TRUE|True))?$`)

// report writes an error and where to look; with -json as JSON.
func report(to io.Writer, err error, code int, args []string) {
	message, see := err.Error(), where(args, code)
	for _, a := range args {
		if asksJSON.MatchString(a) {
			_ = sheet.WriteJSON(faultJSON{Schema: 1, Exit: code, Message: message, See: see, Causes: causes(err)}, to)
			return
		}
	}
	fmt.Fprintf(to, "%s\nsee: %s\n", message, see)
}

// faultJSON is an error in JSON. Causes are those that programs can tell apart,
// each with its own fields.
type faultJSON struct {
	Schema  int           `json:"schema"` // 1
	Exit    int           `json:"exit"`
	Message string        `json:"error"`
	See     string        `json:"see"`
	Causes  []fault.Cause `json:"causes"`
}

// where is what helps against an error of this command line.
func where(args []string, code int) string {
	if len(args) == 0 {
		return "worksheet help"
	}
	c, err := commandNamed(args[0])
	switch {
	case err != nil:
		return "worksheet help"
	case code == 3:
		return "the column error of the output; worksheet " + c.name + " -h"
	case code == 1 && c.name == "plan":
		return "worksheet plan -fields, worksheet plan -h"
	}
	return "worksheet " + c.name + " -h"
}

// causes are the errors below err that write their own JSON.
func causes(err error) []fault.Cause {
	out := []fault.Cause{}
	var walk func(error)
	walk = func(err error) {
		if many, ok := err.(interface{ Unwrap() []error }); ok {
			for _, below := range many.Unwrap() {
				walk(below)
			}
			return
		}
		switch e := err.(type) {
		case json.Marshaler:
			out = append(out, fault.Cause{Err: err})
		case interface{ Unwrap() error }:
			if below := e.Unwrap(); below != nil {
				walk(below)
			}
		}
	}
	walk(err)
	return out
}
