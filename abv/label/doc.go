// Package label says what a strength means on a label and in the glass: the
// stated strength and its tolerance, the classes of products that a liquid's
// figures meet, servings and energy.
//
//	l, err := label.USWine().State(19.96)          // 20.0 % vol, with what it covers
//	c, err := label.Classes(label.Liquid{Strength: 20, Extract: 96, SugarLow: 60, SugarHigh: 85, MadeFrom: "fruit"})
//
// The tables are what their sources printed at their dates. Check your own law.
// A standard drink is a measure, not advice; who must not drink should not.
package label
