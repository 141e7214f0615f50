package additions

import "example.org/mutage/internal/table"

// Evidence says how a value of a table is known.
type Evidence string

// Kinds of evidence.
const (
	Published      = Evidence(table.Published)      // seen in the source beside it
	Computed       = Evidence(table.Computed)       // follows from published values
	CommonPractice = Evidence(table.CommonPractice) // a fact of the trade
	FromMemory     = Evidence(table.FromMemory)     // known, not seen: check before relying on it
)
