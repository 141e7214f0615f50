package blend

import (
	"errors"
	"fmt"
	"strconv"

	"example.org/mutage/units"
)

// ErrUnreachable is wrapped by every *UnreachableError.
var ErrUnreachable = errors.New("not reachable")

// A Limit is what keeps a wish from being met.
type Limit int

const (
	LimitContent Limit = iota // no amounts of these components make it
	LimitStock                // there is not enough of a component
	LimitVessel               // the vessel is too small
)

// String names the limit.
func (l Limit) String() string {
	if l < 0 || l > LimitVessel {
		return fmt.Sprintf("limit %d", int(l))
	}
	return [...]string{"content", "stock", "vessel"}[l]
}

// An UnreachableError says that a wish cannot be met and what can: the
// interval of the wanted quantity that these components, stocks and vessel
// reach, the nearest blend, what binds, and the changes any one of which would
// do. It wraps ErrUnreachable.
//
// Want is the first that cannot be met beside those before it. Low, High and the
// nearest blend hold the size and all other wants, or where these cannot be met
// together either, those before it. The ends are found as Solve finds what is
// cheapest: exactly where the composition is fixed, else as local optima. Nearest
// is the end nearest to Want; it has no Volumes where it is only approached, the
// more the more is poured. Of two liquids (Fortify and its like) the ends are those
// with as much and as little of the second as can be.
type UnreachableError struct {
	Want    Want           `json:"want"`
	Low     float64        `json:"low"` // reachable, in the unit of the want
	High    float64        `json:"high"`
	Limit   Limit          `json:"limit"`
	Volumes []units.Volume `json:"volumes"` // of the nearest blend
	Nearest Mixture        `json:"nearest"`
	Changes []Change       `json:"changes"`
}

// Error is the whole of it in one line.
func (e *UnreachableError) Error() string {
	var room [320]byte
	b := e.Want.append(room[:0])
	b = append(b, " is not reachable"...)
	if e.Want.quantity != all {
		b = append(b, ": these components reach "...)
		b = strconv.AppendFloat(b, e.Low, 'g', 4, 64)
		b = append(b, " to "...)
		b = strconv.AppendFloat(b, e.High, 'g', 4, 64)
		b = append(append(b, ' '), e.Want.quantity.unit()...)
	}
	if e.Limit != LimitContent {
		b = append(append(append(b, " (bound by the "...), e.Limit.String()...), ')')
	}
	for i := range e.Changes {
		b = append(b, [2]string{"; possible ", ", or "}[min(i, 1)]...)
		b = e.Changes[i].append(b)
	}
	return string(b)
}

// Unwrap gives ErrUnreachable.
func (e *UnreachableError) Unwrap() error { return ErrUnreachable }

// Wanted is the wish in numbers: "strength", 20, "% vol".
func (e *UnreachableError) Wanted() (quantity string, value float64, unit string) {
	return e.Want.quantity.String(), e.Want.value, e.Want.quantity.unit()
}
