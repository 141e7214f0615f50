package blend

import (
	"math"
	"strconv"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// A Change is one change that alone would make the wish reachable: the
// quantity ("volume", "strength", "extract", "vessel") of the named component,
// from what it is to the least that would do. To has four digits, rounded to the
// side that does: what is typed from a printed page does.
type Change struct {
	Component string  `json:"component"`
	Quantity  string  `json:"quantity"`
	From      float64 `json:"from"`
	To        float64 `json:"to"`
	Unit      string  `json:"unit"`
}

// String is the change in words.
func (c Change) String() string { return string(c.append(nil)) }

// append writes them without fmt: a sheet may have an error in every row.
func (c *Change) append(b []byte) []byte {
	b = append(b, "with "...)
	switch c.Quantity {
	case "volume", "vessel":
		b = append(append(appendDigits(b, c.To), ' '), c.Unit...)
		if c.Quantity == "vessel" {
			b = append(b, " in the vessel"...)
		} else {
			b = append(append(b, " of "...), c.Component...)
		}
		return appendDigits(append(b, " instead of "...), c.From)
	}
	b = append(append(b, c.Component...), " of at least "...)
	if c.To < c.From {
		b = append(b[:len(b)-len("least ")], "most "...)
	}
	return append(append(appendDigits(b, c.To), ' '), c.Unit...)
}

// digits are four of them, without an exponent where people write none.
func digits(x float64) string { return string(appendDigits(nil, x)) }

func appendDigits(b []byte, x float64) []byte {
	if x >= 1e4 && x < 1e9 {
		return strconv.AppendFloat(b, x, 'f', 0, 64)
	}
	return strconv.AppendFloat(b, x, 'g', 4, 64)
}

// round brings To to four digits, up or down.
func (c *Change) round(up bool) {
	if c.To <= 0 {
		return
	}
	places := 3 - int(math.Floor(math.Log10(c.To)))
	by := math.Pow10(places)
	if places < 0 { // a power of ten below 1 is not exact
		by = math.Pow10(-places)
		c.To = whole(c.To/by, up) * by
		return
	}
	c.To = whole(c.To*by, up) / by
}

// whole is the next whole number, but for rounding.
func whole(x float64, up bool) float64 {
	if up {
		return math.Ceil(x * (1 - 1e-13))
	}
	return math.Floor(x * (1 + 1e-13))
}

// offer adds a change with its To rounded, where it is one.
func (e *UnreachableError) offer(c Change, up bool) {
	if c.round(up); up == (c.To > c.From) && c.To > 1e-6*c.From && c.To < check.MostVolume {
		e.Changes = append(e.Changes, c)
	}
}

// An end of what is reachable: the blend, what it is made of (litres; nil where it
// is only approached, with one liquid without limit) and what it has of the want.
type end struct {
	volumes []units.Volume
	mixture Mixture
	parts   amounts
	value   float64
}

// between takes over the ends, the least first, and which of them is nearest.
func (e *UnreachableError) between(ends [2]end) {
	if ends[0].value > ends[1].value { // by rounding, where they are one
		ends[0], ends[1] = ends[1], ends[0]
	}
	e.Low, e.High = ends[0].value, ends[1].value
	nearest := &ends[0]
	if e.Want.value > (e.Low+e.High)/2 {
		nearest = &ends[1]
	}
	e.Volumes, e.Nearest = nearest.volumes, nearest.mixture
}

// A search is for the content of one liquid, from what it is towards end, at which
// the nearest end of what is reachable comes to the want.
type search struct {
	from, end, want float64
	at, part        float64 // what is reached, and the liquid's part of that blend
}

// find gives the content on the side that does. reach is what is reached with a
// content.
func (s search) find(reach func(content float64) (float64, error)) (to float64, ok bool) {
	if s.from == s.end {
		return 0, false
	}
	// lo does not do, by what is missing; where ok, hi does, by what is over.
	sign := math.Copysign(1, s.want-s.at) // of what is missing
	lo, missing := s.from, math.Abs(s.want-s.at)
	hi := s.end
	var over float64
	x := s.inside(s.from + (s.want-s.at)/s.part) // the end where the part is nothing
	did, running := false, 0                     // how often running that was so
	for range 60 {
		y, err := reach(x)
		if err != nil {
			return 0, false
		}
		y = sign * (y - s.want)
		does := y >= -1e-9*s.want
		if running++; does != did {
			did, running = does, 1
		}
		if does {
			hi, over, ok = x, y, true
		} else {
			lo, missing = x, -y
		}
		switch next := s.inside(x + 1.5*(x-s.from)); { // as much again, and a little
		case does && y <= 1e-6*s.want, ok && math.Abs(hi-lo) <= 1e-5*(1+hi):
			return hi, true
		case !ok && next == x: // the end, or the other way
			return 0, false
		case !ok:
			x = next
		case running > 2: // one end creeps
			x = lo + (hi-lo)/2
		default:
			x = lo + (hi-lo)*min(0.95, max(0.05, 1.02*missing/(missing+over)))
		}
	}
	return hi, ok
}

// inside keeps to the way from from to end.
func (s search) inside(x float64) float64 {
	return min(max(x, min(s.from, s.end)), max(s.from, s.end))
}
