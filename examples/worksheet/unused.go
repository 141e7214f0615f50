package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"

	"example.org/mutage/abv/watch"
)

// unused refuses flags of watch that the log leaves nothing to do.
func (w *watching) unused(is map[string]bool, log []watch.Reading, content []byte) error {
	has := func(of func(watch.Reading) bool) bool { return slices.ContainsFunc(log, of) }
	brix := has(func(r watch.Reading) bool { return r.Refractometer != 0 })
	nothing := func(name, why string) error {
		return fmt.Errorf("%w: -%s does nothing: %s", errUsage, name, why)
	}
	switch {
	case is["refractometer"] && !brix:
		return nothing("refractometer", "the log has no column brix")
	case is["factor"] && !brix:
		return nothing("factor", "it goes with a column brix and -refractometer")
	case is["must"] && !has(func(r watch.Reading) bool { return r.Mass != 0 }):
		return nothing("must", "it goes with a log of weights (a column mass)")
	}
	for _, k := range []struct {
		name, why string
		without   func(*watch.Format)
	}{
		{"dates", "no date of the log can be read in two ways", func(f *watch.Format) { f.Order = watch.OrderNotStated }},
		{"degrees", "each temperature of the log has its unit", func(f *watch.Format) { f.Temperature = watch.ScaleNotStated }},
	} {
		if !is[k.name] {
			continue
		}
		format := w.format
		k.without(&format)
		if same, err := watch.ReadLogAs(bytes.NewReader(content), format); err == nil && slices.Equal(same, log) {
			return nothing(k.name, k.why)
		}
	}
	return nil
}

// kept reads on and keeps what was read where it is needed twice.
func kept(in io.Reader, is map[string]bool) (io.Reader, *bytes.Buffer) {
	var content bytes.Buffer
	if is["dates"] || is["degrees"] {
		return io.TeeReader(in, &content), &content
	}
	return in, &content
}
