// Package jug imports brew.
package jug

import "example.org/brew"

// Content of three jugs.
func Content() float64 { return brew.Content(3) }
