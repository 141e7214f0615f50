// Package limits is the one table of law: what laws and standards allow in a
// wine, ask of its label, and call it, a row a limit, each with source, article,
// date of the text and evidence. Package label and package law read it.
//
// The columns: made_from is grapes, fruit or spirit, empty where it does not
// matter. A row is for sugar from sugar_from to below sugar_to (border "lower":
// above sugar_from up to sugar_to), and for a strength above strength_from up to
// strength_to. Rows of one jurisdiction and category with the same word in
// alternative are alternatives: keeping one is enough. looked_up is the day on
// which a row was read or judged; the bare year 2026 stands for rows that were
// carried over and not read again. status: as_read; superseded, where the text
// that was read has been amended or repealed since; not_read, where the row is
// from memory.
package limits
