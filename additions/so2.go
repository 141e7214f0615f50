package additions

import (
	"fmt"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// SO2 is the sulfur dioxide of a wine. What was added, the total and what is free
// are three things; the molecular part follows from the free SO2, the pH and the
// pK (MolecularSO2). Zero is not stated, but for a Free that was measured.
type SO2 struct {
	// Added is what was put into this batch, in addition to Total.
	Added units.Concentration
	// Total is what was in it before, free and bound: that of a finished wine.
	Total units.Concentration
	// Free is what was measured after all additions, where FreeMeasured says so.
	Free         units.Concentration
	FreeMeasured bool
	// FreeLimit is how far the truth may be from Free, 19 times in 20. Not stated,
	// it is 3 mg/L or 10 % of Free, whichever is more.
	FreeLimit units.Concentration
}

// Shares that are free. Of a fresh addition: 35 % in turbid or sweet wine to 75 %
// in clean dry wine (Henderson, Practical Winery & Vineyard Journal, Jan 2014).
// Of the total of a finished wine: 10 to 66 %, the 5 and 95 % points of 5,320
// wines, of white 10 to 41, of red 15 to 66 % (computed from Cortez et al., Decis.
// Support Syst. 47:547 (2009)).
const (
	freeOfAdditionLow  = 0.35
	freeOfAdditionHigh = 0.75
	freeOfTotalLow     = 0.10
	freeOfTotalHigh    = 0.66
)

// A measured free SO2 is good to 3 mg/L or 10 %, whichever is more (from memory,
// for aeration or a careful titration; iodine reads coloured wines higher still).
const (
	freeMethodLeast units.Concentration = 3 * units.MilligramPerLitre
	freeMethodShare                     = 0.10
)

// FreeFromTotal is the range of free SO2 in a finished wine of this total: of
// finished wine 10 to 66 % is free. Domain: 0 to 10 g/L. Error:
// *units.RangeError.
func FreeFromTotal(total units.Concentration) (low, high units.Concentration, err error) {
	if err := check.Level("total SO2", total, check.MostSO2); err != nil {
		return 0, 0, err
	}
	return freeOfTotalLow * total, freeOfTotalHigh * total, nil
}

// InAll is the total with what was added: what a law limits.
func (s SO2) InAll() units.Concentration { return s.Added + s.Total }

// Times is the SO2 when a litre becomes 1/share litres: a wine that is half of its
// blend has a share of 0.5. Spirit has none.
func (s SO2) Times(share float64) SO2 {
	f := units.Concentration(share)
	return SO2{f * s.Added, f * s.Total, f * s.Free, s.FreeMeasured, f * s.limit()}
}

// limit is how far the truth may be from a measured Free.
func (s SO2) limit() units.Concentration {
	if s.FreeLimit > 0 || !s.FreeMeasured {
		return s.FreeLimit
	}
	return max(freeMethodLeast, freeMethodShare*s.Free)
}

// Check refuses what cannot be: more free than in all, or a free SO2 that was not
// measured. Domain: each 0 to 10 g/L. Error: *units.RangeError.
func (s SO2) Check() error {
	if err := check.First(check.Level("SO2 added", s.Added, check.MostSO2), check.Level("total SO2", s.Total, check.MostSO2),
		check.Level("free SO2", s.Free, check.MostSO2), check.Level("limit of the free SO2", s.FreeLimit, check.MostSO2)); err != nil {
		return err
	}
	const mg = float64(units.MilligramPerLitre)
	free := float64(s.Free)
	if s.Free+s.FreeLimit > 0 && !s.FreeMeasured {
		e := units.OutOfRange("", "free SO2", free/mg, 0, 0, "mg/L", "")
		e.Cause = fmt.Sprintf("free SO2 of %.4g mg/L that was not measured: say what was added, or that it was measured", free/mg)
		return e
	}
	if all := float64(s.InAll()); s.Total > 0 && free > all*(1+1e-9) {
		e := units.OutOfRange("", "free SO2", free/mg, 0, all/mg, "mg/L", "free SO2 is a part of the total")
		e.Cause = fmt.Sprintf("free SO2 of %.4g mg/L is above the total of %.4g mg/L, of which it is a part: swapped?", free/mg, all/mg)
		return e
	}
	return nil
}

// FreeRange is the free SO2 between its low and high ends. Measured, it is that
// within its limit. Otherwise it is 35 to 75 % of what was
// added and 10 to 66 % of the total that was there before. Advice takes the low
// end, a limit the high one. Domain and error as Check.
func (s SO2) FreeRange() (low, high units.Concentration, err error) {
	if err := s.Check(); err != nil {
		return 0, 0, err
	}
	if s.FreeMeasured {
		limit := s.limit()
		high = s.Free + limit
		if s.Total > 0 {
			high = min(high, max(s.Free, s.InAll()))
		}
		return max(0, s.Free-limit), high, nil
	}
	return freeOfAdditionLow*s.Added + freeOfTotalLow*s.Total, freeOfAdditionHigh*s.Added + freeOfTotalHigh*s.Total, nil
}
