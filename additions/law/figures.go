package law

import (
	"strings"

	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// as is a number of the table in the unit that its key has everywhere: mg/L for
// an amount in a litre, and with _by_mass behind the key mg/kg.
func as(parameter Parameter, x float64, unit string) (key, name string, value float64, in string) {
	key, name = string(parameter), parameter.String()
	switch unit {
	case "g/L":
		return key, name, 1000 * x, "mg/L"
	case "mg/kg":
		return key + "_by_mass", name + ", by mass", x, unit
	}
	return key, name, x, unit
}

// figure is the figure of a row: "limit_so2_total".
func (l Limit) figure() units.Figure {
	m := figure.Method{Method: "read from the table of law", Source: l.Citation()}
	key, name, x, unit := as(l.Parameter, l.Value, l.Unit)
	f := m.Of("limit_"+key, "limit of "+name, x, 3, unit)
	f.Note = l.Comparison.String()
	return f
}

// Figures are how many limits are exceeded, the levels that were held against a
// limit, and those limits: "so2_total" and "limit_so2_total".
func (r Report) Figures() []units.Figure {
	count := figure.Method{Method: "levels held against the table of law", Source: "the texts named beside each limit"}
	out := []units.Figure{
		count.Of("limits_exceeded", "limits exceeded", float64(len(r.Having(Exceeded))), 0, ""),
		count.Of("limits_perhaps_exceeded", "limits that may be exceeded", float64(len(r.Having(MayExceed))), 0, ""),
	}
	for _, f := range r.Findings {
		if f.Limit.Unit == "" || f.Outcome == NotStated {
			continue
		}
		m := figure.Method{Method: "held against the limit of " + r.Jurisdiction + ": " + string(f.Outcome), Source: f.Limit.Citation()}
		if key, name, x, unit := as(f.Parameter, f.Value, f.Limit.Unit); f.Parameter != SulfiteStatement {
			out = append(out, m.Of(key, name, x, 3, unit))
		}
		out = append(out, f.Limit.figure())
	}
	return out
}

// Figures are how many rows there are, and the number of each: where there are
// several, their order is behind the key.
func (a Answer) Figures() []units.Figure {
	count := figure.Method{Method: "read from the table of law: " + string(a.Status), Source: "the texts named beside each limit"}
	out := []units.Figure{count.Of("limits_found", "limits found", float64(len(a.Limits)), 0, "")}
	for i, l := range a.Limits {
		if l.Unit == "" {
			continue
		}
		f := l.figure()
		if len(a.Limits) > 1 {
			row := string(rune('a' + i))
			f.Key, f.Name, f.Note = f.Key+"_"+row, f.Name+", row "+row, strings.TrimSpace(f.Note+" "+l.Colour)
		}
		out = append(out, f)
	}
	return out
}

// Figures are the share of the weight that counts.
func (a Additive) Figures() []units.Figure {
	m := figure.Method{Method: "molar masses", Source: "CRC Handbook, 102nd ed.; OIV Codex"}
	f := m.Of("share_that_counts", "share of the weight that counts towards a limit", a.Share, 4, "")
	f.Note = strings.TrimSpace(a.Name + ", as " + a.Parameter.String())
	return []units.Figure{f}
}
