package stability

import (
	"math"
	"testing"
)

// seeds are wines on and near thresholds.
func seeds(f *testing.F, more ...any) {
	for _, d := range []drawn{
		{strength: 20, u: 0.2, low: 40, likely: 60, high: 70, pH: 3.4, added: 50, sorbate: 200, limit: 16},
		{strength: 9.99, low: 100, likely: 100, high: 100, pH: 3.5, added: 60, sorbate: 200},
		{strength: 12, low: 0, likely: 1, high: 2, dry: true},
		{strength: 14.4, low: 101, likely: 110, high: 120, pH: 3.1, uPH: 0.1, free: 30, measured: true, sorbate: 60, limit: 14},
		{strength: 5.5, low: 150, likely: 160, high: 170, total: 90, sorbate: 197, stored: true, at: -1},
	} {
		f.Add(append([]any{d.strength, d.u, d.low, d.likely - d.low, d.high - d.likely, d.pH, d.uPH, d.added, d.total, d.free, d.sorbate, d.limit, d.at, d.measured, d.stored, d.dry}, more...)...)
	}
}

func rank(t *testing.T, d drawn) (Outlook, Bacteria, bool) {
	t.Helper()
	v, err := Judge(d.wine())
	if err != nil {
		return 0, 0, false
	}
	if math.IsNaN(v.DelleUnits) || math.IsNaN(float64(v.MolecularSO2Low)) || v.MolecularSO2Low > v.FreeSO2Low || v.FreeSO2Low > v.FreeSO2High {
		t.Errorf("%+v: %+v", d, v)
	}
	return v.Outlook, v.Bacteria, true
}

// More alcohol, sorbate or SO2, a lower pH or less uncertainty never makes it
// worse; nor does a colder cellar or a yeast that gives up earlier.
func FuzzMoreOfABarrierNeverMakesItWorse(f *testing.F) {
	seeds(f, 0.7)
	f.Fuzz(func(t *testing.T, strength, u, low, to1, to2, pH, uPH, added, total, free, sorbate, limit, at float64, measured, stored, dry bool, by float64) {
		d := drawn{strength, u, low, low + to1, low + to1 + to2, pH, uPH, added, total, free, 0, measured, stored, dry, sorbate, limit, at}
		was, bacteria, ok := rank(t, d)
		if by = math.Abs(by); !ok || !(by < 1e3) {
			return
		}
		for name, change := range map[string]func(*drawn){
			"more alcohol":    func(d *drawn) { d.strength += by },
			"more sorbate":    func(d *drawn) { d.sorbate += by },
			"more SO2 added":  func(d *drawn) { d.added += by },
			"more SO2 in all": func(d *drawn) { d.total += by },
			"more free SO2":   func(d *drawn) { d.free += by },
			"a surer free SO2": func(d *drawn) {
				if d.measured {
					d.freeLimit = math.Max(3, 0.1*d.free) / (1 + by)
				}
			},
			"a lower pH":                    func(d *drawn) { d.pH -= min(by, max(0, d.pH-2.5)) },
			"a surer strength":              func(d *drawn) { d.u /= 1 + by },
			"a surer pH":                    func(d *drawn) { d.uPH /= 1 + by },
			"a surer sugar, low end":        func(d *drawn) { d.low += (d.likely - d.low) * by / (1 + by) },
			"a surer sugar, high end":       func(d *drawn) { d.high -= (d.high - d.likely) * by / (1 + by) },
			"a colder cellar":               func(d *drawn) { d.at -= by },
			"a reading that has held":       func(d *drawn) { d.dry = true },
			"a yeast that gives up earlier": func(d *drawn) { d.limit -= min(by, d.limit/2) },
		} {
			c := d
			change(&c)
			is, then, ok := rank(t, c)
			if !ok { // out of the domain
				continue
			}
			// That there may be none left counts for a reading that has held; a surer low
			// end that finds some is news, not the same wine better known.
			if is < was && !(name == "a surer sugar, low end" && d.low == 0 && d.dry) {
				t.Errorf("%s: %+v to %+v: it %v, then it %v", name, d, c, was, is)
			}
			if then < bacteria {
				t.Errorf("%s: %+v to %+v: %v, then %v", name, d, c, bacteria, then)
			}
		}
	})
}

// More sugar betters the word through Delle units alone.
func FuzzMoreSugarHelpsThroughDelleAlone(f *testing.F) {
	seeds(f, 5.0)
	f.Fuzz(func(t *testing.T, strength, u, low, to1, to2, pH, uPH, added, total, free, sorbate, limit, at float64, measured, stored, dry bool, by float64) {
		d := drawn{strength, u, low, low + to1, low + to1 + to2, pH, uPH, added, total, free, 0, measured, stored, dry, sorbate, limit, at}
		if by = math.Abs(by); !(by < 1e3) {
			return
		}
		sweeter := d
		sweeter.low, sweeter.likely, sweeter.high = d.low+by, d.likely+by, d.high+by
		was, err := Judge(d.wine())
		is, err2 := Judge(sweeter.wine())
		if err != nil || err2 != nil || is.Outlook <= was.Outlook {
			return
		}
		if b := is.Barrier("alcohol_and_sugar"); b.Hold <= was.Barrier("alcohol_and_sugar").Hold {
			t.Errorf("%+v with %v g/L more: it %v, then it %v, and Delle units went from %+v to %+v", d, by, was.Outlook, is.Outlook, was.Barrier("alcohol_and_sugar"), b)
		}
	})
}

// The word is that of the written rules, and a last bit does not change it unless
// the rules themselves change within 1e-9.
func FuzzTheLastBitDecidesNothing(f *testing.F) {
	seeds(f, uint8(3))
	f.Fuzz(func(t *testing.T, strength, u, low, to1, to2, pH, uPH, added, total, free, sorbate, limit, at float64, measured, stored, dry bool, which uint8) {
		d := drawn{strength, u, low, low + to1, low + to1 + to2, pH, uPH, added, total, free, 0, measured, stored, dry, sorbate, limit, at}
		was, _, ok := rank(t, d)
		if !ok {
			return
		}
		if want := rules(d); int(was) != want && !edge(d) {
			t.Errorf("%+v: it %v, the rules say it %v", d, was, Outlook(want))
		}
		// Thresholds at which people arrive: the word at and around them is one.
		on := []float64{10, 17, 17.5, 20, limit, limit + 1}[which%6]
		if d.limit > 0 && d.limit < 5 || on < 5 || on > 30 || d.u > 0 {
			return
		}
		word := Outlook(9)
		for _, x := range []float64{on, math.Nextafter(on, 0), math.Nextafter(on, 100), on * (1 - 1e-10), on * (1 + 1e-10)} {
			c := d
			c.strength = x
			is, _, ok := rank(t, c)
			if ok && word != 9 && is != word && !edge(c) {
				t.Errorf("%+v: at %v %% vol it %v, beside it %v", d, x, word, is)
			}
			word = is
		}
	})
}

// edge says whether the rules change within 3e-9 of a wine, where two ways to
// write them may differ.
func edge(d drawn) bool {
	is := rules(d)
	for _, by := range []float64{-3e-9, 3e-9} {
		for _, x := range []*float64{&d.strength, &d.low, &d.high, &d.pH, &d.added, &d.total, &d.free, &d.freeLimit, &d.sorbate, &d.at, &d.u, &d.limit} {
			was := *x
			*x = was * (1 + by)
			changed := rules(d) != is
			*x = was
			if changed {
				return true
			}
		}
	}
	return false
}
