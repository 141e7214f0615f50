// Package law holds what laws and standards say of a wine: limits, statements
// that a label must carry, hazards and cautions, and the log of what went in.
//
//	r, err := law.Check("US", law.Product{Levels: levels, Sugar: 80, Fruit: true})
//
// The tables are texts read at the dates beside them, not all of them, and they
// change. It is no legal advice: check your own law.
package law
