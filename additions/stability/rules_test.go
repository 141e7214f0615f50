package stability

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// drawn is a wine as plain numbers: % vol, g/L, mg/L, C; 0 is not stated.
type drawn struct {
	strength, u           float64
	low, likely, high     float64
	pH, uPH               float64
	added, total, free    float64
	freeLimit             float64 // of a measured free SO2; 0 is not stated
	measured, stored, dry bool
	sorbate, limit        float64
	at                    float64
}

func (d drawn) wine() Wine {
	w := Wine{
		Strength: units.Strength(d.strength), StrengthUncertainty: units.Strength(d.u),
		Sugar: abv.Sugars{Low: units.Concentration(d.low), Likely: units.Concentration(d.likely), High: units.Concentration(d.high)},
		PH:    d.pH, PHUncertainty: d.uPH,
		SO2: additions.SO2{Added: units.Concentration(d.added) * mg, Total: units.Concentration(d.total) * mg,
			Free: units.Concentration(d.free) * mg, FreeMeasured: d.measured, FreeLimit: units.Concentration(d.freeLimit) * mg},
		Sorbate: units.Concentration(d.sorbate) * mg, YeastLimit: units.Strength(d.limit), Held: d.dry,
	}
	if d.stored {
		w.Temperature = units.Celsius(d.at)
	}
	return w
}

// rules are those of the verdict once more, from the written rules, by plain
// numbers and math alone: 2 still, 1 doubtful, 0 ferments. enough leaves 1e-9.
func rules(d drawn) int {
	enough := func(x, need float64) bool { return x >= need-1e-9*math.Abs(need) }
	atMost := func(x, limit float64) bool { return x <= limit+1e-9*math.Abs(limit) }
	still, doubtful := false, false
	s := math.Max(0, d.strength-1.645*d.u)

	// No sugar left.
	if atMost(d.high, 2) {
		still = true
	}
	if d.low == 0 && d.dry {
		doubtful = true
	}

	// Alcohol.
	if d.limit == 0 {
		still = still || enough(s, 20)
		doubtful = doubtful || enough(s, 17)
	} else {
		still = still || enough(s, math.Max(d.limit+1, 17.5))
		doubtful = doubtful || enough(s, d.limit)
	}

	// Alcohol and sugar: 85 units from 50 g/L on, below that 88.3 less a fifteenth of
	// the sugar, which is never below 85.
	units, fifty := 4.5*s+d.low/10, enough(d.low, 50)
	need := 85.0
	if !fifty {
		need = math.Max(need, 88.3-d.low/15)
	}
	if enough(units, need) && enough(s, 10) && enough(s, d.limit) {
		still = true
	}
	if fifty && enough(units, 75) {
		doubtful = true
	}

	// Free SO2 in mg/L at its low end.
	free := 0.35*d.added + 0.10*d.total
	if d.measured {
		limit := d.freeLimit
		if limit == 0 {
			limit = math.Max(3, 0.1*d.free)
		}
		free = math.Max(0, d.free-limit)
	}

	// Sorbate with sulfite.
	if d.sorbate > 0 && free > 0 {
		usual := 150.0
		pH := d.pH + 1.645*d.uPH
		if d.pH > 0 && enough(s, 10) && atMost(pH, 3.5) {
			table := underhill(math.Min(math.Max(s, 10), 14), math.Min(math.Max(pH, 3.1), 3.5))
			if enough(d.sorbate, table) && enough(free/(1+math.Pow(10, pH-1.81)), 0.5) {
				still = true
			}
			usual = math.Min(usual, table)
		}
		if enough(d.sorbate, usual) {
			doubtful = true
		}
	}

	// Cold.
	if d.stored && atMost(d.at, -1) {
		doubtful = true
	}
	switch {
	case still:
		return 2
	case doubtful:
		return 1
	}
	return 0
}

// underhill is the printed table in mg/L of sorbic acid: mL of 30 g/L potassium
// sorbate per litre, of which 112.13 / 150.22 is sorbic acid.
func underhill(strength, pH float64) float64 {
	printed := [][]float64{{5.5, 6, 7, 8, 9}, {4.5, 5, 6, 7, 7.5}, {3.2, 3.5, 4, 4.5, 5}, {2.6, 3, 3.2, 3.5, 4}, {2, 2.2, 2.4, 2.7, 3}}
	i, j := math.Min(3, math.Floor(strength-10)), math.Min(3, math.Floor((pH-3.1)*10))
	x, y := strength-10-i, (pH-3.1)*10-j
	a, b := printed[int(i)], printed[int(i)+1]
	k := int(j)
	ml := (1-x)*((1-y)*a[k]+y*a[k+1]) + x*((1-y)*b[k]+y*b[k+1])
	return ml * 30 * 112.13 / 150.22
}

// draw gives wines of a home cellar, many of them near or on a threshold.
func draw(r *rand.Rand) drawn {
	or := func(p float64, edges []float64, lo, hi float64) float64 {
		if r.Float64() < p {
			return edges[r.IntN(len(edges))]
		}
		return lo + (hi-lo)*r.Float64()
	}
	d := drawn{
		strength: or(0.3, []float64{0, 5.5, 10, 14, 17, 17.5, 19, 20, 20 - 4e-15}, 0, 25),
		u:        or(0.5, []float64{0}, 0, 0.6),
		low:      or(0.4, []float64{0, 2, 30, 50, 100, 200}, 0, 250),
		pH:       or(0.4, []float64{0, 3.1, 3.3, 3.5}, 2.8, 4),
		uPH:      or(0.6, []float64{0}, 0, 0.2),
		added:    or(0.4, []float64{0, 50}, 0, 200),
		total:    or(0.7, []float64{0}, 0, 250),
		sorbate:  or(0.5, []float64{0, 150, 200}, 0, 260),
		limit:    or(0.6, []float64{0, 8, 12, 14, 16, 16.5, 18}, 5, 22),
		at:       or(0.2, []float64{-1, 10}, -5, 25),
		measured: r.Float64() < 0.3, stored: r.Float64() < 0.2, dry: r.Float64() < 0.3,
	}
	if d.limit > 0 && r.Float64() < 0.1 { // on the limit and its margin
		d.strength, d.u = d.limit+float64(r.IntN(2)), 0
	}
	d.likely = d.low + or(0.5, []float64{0, 2}, 0, 20)
	d.high = d.likely + or(0.5, []float64{0}, 0, 20)
	if d.measured {
		if d.free = or(0.2, []float64{0, 3, 30}, 0, 60); d.total > 0 {
			d.free = math.Min(d.free, d.total+d.added)
		}
		d.freeLimit = or(0.5, []float64{0}, 0.1, 10)
	}
	return d
}

// consistent says whether a barrier that holds has what it needs, and one that
// does not shows the quantity that lacks. Sulfite alone never holds, and cold is
// weak at best.
func (b Barrier) consistent() bool {
	met := reaches(b.Value, b.Needed)
	if strings.HasSuffix(b.Unit, "at most") {
		met = within(b.Value, b.Needed) && b.Value > 0 // 0 is not known
	}
	switch b.Key {
	case "sulfite", "cold":
		return b.Hold != Holds
	case "no_sugar":
		return within(b.Value, b.Needed) == (b.Hold == Holds)
	}
	return met == (b.Hold == Holds)
}

// The word is that of the rules for 100,000 wines, both ways.
func TestJudgeFollowsTheWrittenRules(t *testing.T) {
	r := rand.New(rand.NewPCG(2026, 11))
	counts := [3]int{}
	decided := map[string]int{}
	for range 100_000 {
		d := draw(r)
		v, err := Judge(d.wine())
		if err != nil {
			t.Fatalf("%+v: %v", d, err)
		}
		want := rules(d)
		if int(v.Outlook) != want {
			t.Fatalf("%+v: it %v, the rules say it %v: %+v", d, v.Outlook, Outlook(want), v.Barriers)
		}
		for _, b := range v.Barriers {
			if !b.consistent() {
				t.Fatalf("%+v: %s %v with %v %s of %v", d, b.Key, b.Hold, b.Value, b.Unit, b.Needed)
			}
		}
		counts[want]++
		if v.Outlook == Still {
			for _, b := range v.Barriers {
				if b.Hold == Holds {
					decided[b.Key]++
				}
			}
		}
	}
	t.Logf("ferments, doubtful, still: %v; held by %v", counts, decided)
	for _, key := range []string{"no_sugar", "alcohol", "alcohol_and_sugar", "sorbate_with_sulfite"} {
		if decided[key] < 100 {
			t.Errorf("%s held only %d times: the draw does not test it", key, decided[key])
		}
	}
}
