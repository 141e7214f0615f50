// Package importer shows the library from outside, to each of its three users:
// other software, a person who checks a blend by hand, and an exporter of
// spreadsheets. It holds examples only.
package importer
