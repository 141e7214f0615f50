package batch

import (
	"testing"

	"example.org/mutage/internal/handbook"
)

// FuzzJSON: what another program reads of a batch and of its plan.
func FuzzJSON(f *testing.F) {
	b := Demo()
	p, err := b.Work()
	if err != nil {
		f.Fatal(err)
	}
	l, _ := p.Liquid("reachable")
	for _, x := range []any{b, l, p.Pours[0], &FileError{}, &ConflictError{}} {
		f.Add(handbook.JSON(f, x))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		handbook.ReadsJSON(t, data, Batch{}, Liquid{}, Pour{}, FileError{}, ConflictError{})
	})
}
