// Package sugar is what to weigh in to raise a gravity or to sweeten a wine, and
// what there is then. Mass is conserved; volumes are true ones at 20 C.
//
//	a, err := sugar.RaiseGravity(1.057, 1.092, 3)  // the sugar for 3 L of must
//	g, v, err := sugar.Add(1.057, 3, 350)          // gravity and volume with 350 g in it
//
// Sugar that is added to a wine with live yeast in it ferments: see package
// stability before a bottle is closed.
package sugar
