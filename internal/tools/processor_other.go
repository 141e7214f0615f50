//go:build !unix

package main

import "time"

func processorTime() time.Duration { return time.Since(started) }
