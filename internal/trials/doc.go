// Package trials holds tests alone: that every uncertainty which the library
// states is what trials give. Inputs are drawn as they are stated, the whole
// chain is computed anew each time by the functions that state none, and the
// scatter is compared with what was stated.
package trials
