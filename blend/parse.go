package blend

import (
	"fmt"
	"strings"

	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// ParseComponent reads a component as one says it: "cherry: 3 L at 6.1 % vol
// with 142 g/L". Name and extract may be left out, and the volume where the
// stock does not matter ("at 75 % vol"); "measured at 8 C" may follow. Errors:
// *units.ParseError, *units.RangeError, each behind the text.
func ParseComponent(text string) (c Component, err error) {
	fail := func(err error) (Component, error) {
		return Component{}, fmt.Errorf("liquid %q: %w", text, err)
	}
	rest := text
	if name, after, found := strings.Cut(rest, ":"); found {
		if c.Name, err = nameOf(name); err != nil {
			return fail(err)
		}
		rest = after
	}
	rest, measured, warm := strings.Cut(rest, "measured at ")
	rest, extract, sweet := cut(rest, "with ")
	volume, strength, strong := cut(rest, "at ")
	if !strong && !sweet && strings.TrimSpace(volume) == "" {
		return fail(&units.ParseError{Text: text, Quantity: "liquid", Expected: []string{`text such as "cherry: 3 L at 6.1 % vol with 142 g/L"`}})
	}
	if volume = strings.TrimSpace(volume); volume != "" {
		if err := c.Volume.Set(volume); err != nil {
			return fail(err)
		}
	}
	if strong {
		if err := c.Strength.Set(strength); err != nil {
			return fail(err)
		}
	}
	if sweet {
		if err := c.Extract.Set(extract); err != nil {
			return fail(err)
		}
	}
	if warm {
		t, err := units.ParseTemperature(measured)
		if err != nil {
			return fail(err)
		}
		name := c.Name
		if c, err = c.MeasuredAt(t); err != nil {
			return fail(err)
		}
		c.Name = name
	}
	return c, nil
}

// nameOf is a name that a page can print, or none.
func nameOf(text string) (string, error) {
	if text = strings.TrimSpace(text); text == "" {
		return "", nil
	}
	return say.Name(text)
}

func cut(text, word string) (before, after string, found bool) {
	if i := strings.Index(" "+text, " "+word); i >= 0 {
		return text[:i], text[i+len(word):], true
	}
	return text, "", false
}
