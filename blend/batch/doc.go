// Package batch works through a whole batch, from must (or a finished wine) to
// bottle: one value in, one plan out.
//
//	b := batch.Demo()                  // or batch.Read(name, file), or fields of one's own
//	p, err := b.Work()
//	fmt.Println(p.Answer[0])           // what to pour
//	rows := p.Figures()                // every figure, with its source and uncertainty
//
// The plan says what is in the vessel at every point, what to pour in litres and
// in grams, what to weigh, whether each liquid should stay still and why, what it
// would take where it should not, and what was not looked at. ± is the 95 %
// interval everywhere that people read or write; Uncertainty of a figure is the
// standard one, and Limit of a figure what is printed: 1.96 of them, or less where
// one tolerance leads, anywhere in which is as likely.
//
// It is arithmetic and published experience, no promise: wine that ferments in a
// closed bottle can burst it. Local codes and your own law come first.
package batch
