// Package spirit is what is done with bought spirit: reading an alcoholometer,
// US and British proof, gauging by weight, the effect of sugar on a reading, and
// reducing with water.
//
//	s, err := spirit.FromUSProof(80)           // % vol at 20 C; the label's 60 F is converted
//	r, err := spirit.Reduce(1, 96, 40)         // the water that makes a litre of 96 % vol 40 % vol
//
// Strengths are % vol at 20 C (OIML R 22), US and British proof at 60 F.
// Distilling at home is forbidden in many countries. Spirit and its vapour burn.
package spirit
