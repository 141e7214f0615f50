package batch

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
	"gonum.org/v1/gonum/stat"
)

// someBatch is a batch that a cellar may have, with limits on some of its
// numbers and none on others, so that normal and rectangular inputs both lead.
func someBatch(r *rand.Rand) Batch {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	limit := func(lo, hi float64) float64 { // half of them are not stated
		if r.IntN(2) == 0 {
			return 0
		}
		return between(lo, hi)
	}
	b := Demo()
	must := between(2, 20)
	b.Must = Amount{Volume: Within(units.Volume(must), must*limit(0.005, 0.03))}
	b.Lees = Within(units.Volume(must*between(0.03, 0.08)), must*limit(0.005, 0.02))
	b.MustReading = Within(gravity.SG(between(1.050, 1.064)), limit(0.0005, 0.002))
	for i, p := range b.Sugar {
		mass := between(0.85, 1.05) * float64(p.Mass.Value) * must / 3
		b.Sugar[i].Mass = Within(units.Mass(mass), mass*limit(0.01, 0.05))
	}
	b.SpiritStock = Amount{}
	b.Vessel, b.Headspace = Stated[units.Volume]{}, Stated[units.Volume]{}
	b.SpiritStrength = Within(units.Strength(between(38, 80)), limit(0.1, 0.5))
	b.Target = Is(units.Strength(between(15, 20)))
	planned := must * between(0.2, 0.6)
	b.SpiritPlanned = Amount{Volume: Within(units.Volume(planned), planned*limit(0.005, 0.03))}
	if r.IntN(2) == 0 { // the rest is kept
		poured := must * between(0.4, 0.7)
		b.PouredWine = Amount{Volume: Within(units.Volume(poured), poured*limit(0.005, 0.03))}
	}
	return b
}

// flatLeads says whether an input that is anywhere within a tolerance alike has
// three tenths of the variance or more: four of a quarter each still make 1.96
// right to 1 % (JCGM 101:2008, 9.2.3), one alone does not (9.2.4).
func flatLeads(r uncertainty.Result, knows []knowledge) bool {
	return slices.ContainsFunc(r.Budget, func(c uncertainty.Contribution) bool {
		return c.Share >= 0.3 && slices.ContainsFunc(knows, func(k knowledge) bool { return k.flat && k.name == c.Name })
	})
}

// Fifty batches: what is stated is what plain draws of the whole course give
// within 5 %, in which the volume of the must enters once, of every liquid and of
// the must; the printed interval holds 94 to 96 in 100 of them, also of those that a
// rectangle leads; and the amount that is 95 % sure is.
func TestFiftyBatchesAreAsSureAsTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("a million courses: they take a quarter of a minute")
	}
	const batches, draws = 50, 6000
	inside, all, below, sure, pours := map[string]float64{}, map[string]int{}, map[string][]float64{}, 0, 0
	for k := range batches {
		b := someBatch(rand.New(rand.NewPCG(uint64(k), 1865)))
		name := fmt.Sprintf("batch %d: %.1f L, target %.1f", k, float64(b.Must.Volume.Value), float64(b.Target.Value))
		d, _, f := worked(t, &b)
		of := statedFor(&f)
		for what, drawn := range trials(t, &b, d.v, f.knows, draws, uint64(k)) {
			stated := of[what]
			u, share := spread(stated, drawn)
			// The deviation of 6000 draws is known to 0.9 %.
			if math.Abs(stated.Standard/u-1) > 0.05 {
				t.Errorf("%s: %s %.4g states a standard uncertainty of %.4g, draws give %.4g", name, what, stated.Value, stated.Standard, u)
			}
			if flatLeads(stated, f.knows) {
				what += ", led by a rectangle"
			}
			if share < 0.935 || share > 0.965 { // 6000 draws scatter by 0.28 %
				t.Errorf("%s: %s %.4g ± %.4g times %.4g holds %.1f %% of the draws", name, what, stated.Value, stated.Coverage(), stated.Standard, 100*share)
			}
			inside[what] += share * draws
			all[what]++
			if strings.Contains(what, "strength") {
				below[what] = append(below[what], shareBelow(drawn, stated.Value-1.645*stated.Standard))
			}
		}
		amount, ok := b.sure(&d.v, &f)
		if !ok {
			t.Errorf("%s: no amount is sure", name)
			continue
		}
		v, knows := d.v, slices.Clone(f.knows)
		for i, k := range knows {
			if k.q == qSpirit { // grows with the volume
				knows[i].standard *= float64(amount) / v[qSpirit]
			}
		}
		v[qSpirit] = float64(amount)
		poured := trials(t, &b, v, knows, draws, uint64(k)+1000)["strength"]
		reached := 0
		for _, s := range poured {
			if s >= float64(b.Target.Value) {
				reached++
			}
		}
		// Draws scatter by 0.28 %, the amount by 0.2 %.
		if share := float64(reached) / float64(len(poured)); math.Abs(share-0.95) > 0.0125 {
			t.Errorf("%s: %.3f L reach it in %.1f %% of the draws, 95 were promised", name, float64(amount), 100*share)
		}
		sure, pours = sure+reached, pours+len(poured)
	}
	for _, what := range slices.Sorted(maps.Keys(all)) {
		share := inside[what] / float64(all[what]*draws)
		t.Logf("coverage | %s | %d | %.2f %%", what, all[what], 100*share)
		if share < 0.94 || share > 0.96 {
			t.Errorf("%s: the intervals hold %.2f %% of the draws", what, 100*share)
		}
	}
	// A verdict judges by the strength less 1.645 standard uncertainties. These hold the
	// distance b of Balling's yield from the likely one and the scatter u; where b is
	// 0.766 u, the worst, the low end is passed in 9.6 of 100 draws and not in 5. They
	// scatter by 0.4.
	for _, what := range slices.Sorted(maps.Keys(below)) {
		t.Logf("below the low end | %s | %d | %.1f %%, at most %.1f", what, len(below[what]), 100*stat.Mean(below[what], nil), 100*slices.Max(below[what]))
		if slices.Max(below[what]) > 0.096+3*0.004 {
			t.Errorf("%s: %.1f %% lie below the low end", what, 100*slices.Max(below[what]))
		}
	}
	if share := float64(sure) / float64(pours); math.Abs(share-0.95) > 0.005 {
		t.Errorf("the sure amounts reach their targets in %.2f %% of the draws", 100*share)
	} else {
		t.Logf("the sure amounts reach their targets in %.2f %% of the draws", 100*share)
	}
}

// shareBelow is the share of the draws below a value.
func shareBelow(drawn []float64, low float64) float64 {
	n := 0
	for _, y := range drawn {
		if y < low {
			n++
		}
	}
	return float64(n) / float64(len(drawn))
}

// spread is how far draws lie from what is stated: the root mean square, and the
// share of them within the limits that are printed.
func spread(stated uncertainty.Result, drawn []float64) (u, share float64) {
	inside, limit := 0, stated.Coverage()*stated.Standard
	for _, y := range drawn {
		off := math.Abs(y - stated.Value)
		u += off * off
		if off <= limit {
			inside++
		}
	}
	return math.Sqrt(u / float64(len(drawn))), float64(inside) / float64(len(drawn))
}
