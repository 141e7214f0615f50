package blend

import (
	"encoding/json"
	"strings"

	"example.org/mutage/internal/codes"
	"example.org/mutage/internal/exact"
)

// Codes in the order of the constants; they do not change between versions.
var (
	limitCodes  = []string{"content", "stock", "vessel"}
	soluteCodes = []string{"titratable_acidity", "total_so2", "sorbic_acid", "potassium"}
	wantCodes   = []string{"", "strength", "extract", "titratable_acidity", "all", "volume"}
)

// MarshalText is the code of the limit: "stock".
func (l Limit) MarshalText() ([]byte, error) { return codes.Text("limit", limitCodes, l) }

// UnmarshalText reads what MarshalText wrote. Error: *units.ParseError.
func (l *Limit) UnmarshalText(text []byte) error { return codes.Read("limit", limitCodes, text, l) }

// MarshalText is the code of the solute: "total_so2".
func (s Solute) MarshalText() ([]byte, error) { return codes.Text("solute", soluteCodes, s) }

// UnmarshalText reads what MarshalText wrote. Error: *units.ParseError.
func (s *Solute) UnmarshalText(text []byte) error { return codes.Read("solute", soluteCodes, text, s) }

// MarshalText is the codes of the members with a space between: "total_so2
// potassium". What is no solute is left out.
func (set Solutes) MarshalText() ([]byte, error) {
	var members []string
	for s := range solutes {
		if set.Has(s) {
			members = append(members, soluteCodes[s])
		}
	}
	return []byte(strings.Join(members, " ")), nil
}

// UnmarshalText reads what MarshalText wrote. Error: *units.ParseError.
func (set *Solutes) UnmarshalText(text []byte) error {
	var members []Solute
	for _, code := range strings.Fields(string(text)) {
		var s Solute
		if err := s.UnmarshalText([]byte(code)); err != nil {
			return err
		}
		members = append(members, s)
	}
	*set = Set(members...)
	return nil
}

// wantJSON is a Want in JSON.
type wantJSON struct {
	Quantity  string  `json:"quantity"`
	Value     float64 `json:"value"`
	Unit      string  `json:"unit,omitempty"`
	Component int     `json:"component"`
}

// MarshalJSON writes quantity, value and unit, of WantAll the index of the
// component: {"quantity":"strength","value":20,"unit":"% vol","component":0}.
func (w Want) MarshalJSON() ([]byte, error) {
	code, err := codes.Text("wanted quantity", wantCodes, w.quantity)
	if err != nil {
		return nil, err
	}
	return json.Marshal(wantJSON{string(code), w.value, w.quantity.unit(), w.index})
}

// UnmarshalJSON reads what MarshalJSON wrote. Error: *units.ParseError for another
// quantity.
func (w *Want) UnmarshalJSON(text []byte) error {
	var in wantJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	out := Want{value: in.Value, index: in.Component}
	if err := codes.Read("wanted quantity", wantCodes, []byte(in.Quantity), &out.quantity); err != nil {
		return err
	}
	*w = out
	return nil
}

// plainUnreachable has the fields of the error and none of its methods.
type plainUnreachable UnreachableError

// unreachableJSON is an UnreachableError in JSON: an end that is not finite is
// left out.
type unreachableJSON struct {
	*plainUnreachable
	Want    *Want    `json:"want"`
	Low     *float64 `json:"low,omitempty"`
	High    *float64 `json:"high,omitempty"`
	Message string   `json:"message"`
}

// MarshalJSON writes the fields in snake case and the sentence as "message".
func (e *UnreachableError) MarshalJSON() ([]byte, error) {
	end := func(x *float64) *float64 {
		if exact.Finite(*x) {
			return x
		}
		return nil
	}
	return json.Marshal(unreachableJSON{(*plainUnreachable)(e), &e.Want, end(&e.Low), end(&e.High), e.Error()})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *UnreachableError) UnmarshalJSON(text []byte) error {
	var plain plainUnreachable
	in := unreachableJSON{plainUnreachable: &plain, Want: &plain.Want, Low: &plain.Low, High: &plain.High}
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*e = UnreachableError(plain)
	return nil
}
