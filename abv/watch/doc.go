// Package watch follows a fermentation from the log of its readings: what is in
// the vessel now, what state it is in, and when to come back to stop it.
//
//	course, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MaxStrength: 6}})
//	fmt.Println(course.Why, course.Window.Opens.Early, course.ReadAgainBy)
//
// A gravity that holds is no proof that a sweet wine stays still: do not seal it
// on that. Fermenting must gives off carbon dioxide, which can kill in a closed
// cellar.
package watch
