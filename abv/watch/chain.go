package watch

import (
	"cmp"
	"slices"
	"sort"
)

// A link is the end of a chain of readings: how many it holds, and what their
// shares used add up to. Of two chains the longer is better, of equally long ones
// the more fermented: gas lifts the hydrometer.
type link struct {
	length int
	total  float64
	at     int // its last reading
}

func (a link) better(b link) bool {
	return cmp.Or(cmp.Compare(a.length, b.length), cmp.Compare(a.total, b.total)) > 0
}

// bests answers what the best link is among those put in with a key up to x: a
// tree of partial maxima over the keys (P. M. Fenwick, Softw. Pract. Exp. 24:327
// (1994)), so that a chain costs n log n.
type bests struct {
	keys []float64
	tree []link
}

func newBests(keys []float64) *bests {
	slices.Sort(keys)
	return &bests{keys, make([]link, len(keys)+1)}
}

func (b *bests) put(key float64, l link) {
	for i := sort.SearchFloat64s(b.keys, key) + 1; i < len(b.tree); i += i & -i {
		if l.better(b.tree[i]) {
			b.tree[i] = l
		}
	}
}

func (b *bests) upTo(x float64) (best link) {
	for i := sort.Search(len(b.keys), func(i int) bool { return b.keys[i] > x }); i > 0; i -= i & -i {
		if b.tree[i].better(best) {
			best = b.tree[i]
		}
	}
	return best
}

// above says whether b lies above a beyond their uncertainty.
func above(b, a read) bool {
	return b.used < a.used-higher*max(a.uncertainty, b.uncertainty)
}

// chain marks the best chain of readings from the first, of which none lies above
// the one before it and none has its time. The readings are in order of time.
func chain(reads []read) []bool {
	n := len(reads)
	exact, low := make([]float64, n), make([]float64, n)
	for i, r := range reads {
		exact[i], low[i] = r.used, r.used-higher*r.uncertainty
	}
	// b follows a where a.used - 2 a.uncertainty <= b.used, or where a.used <=
	// b.used + 2 b.uncertainty: the larger of the two uncertainties counts.
	byExact, byLow := newBests(exact), newBests(low)
	links, before := make([]link, n), make([]int, n)
	put := func(i int) {
		byExact.put(reads[i].used, links[i])
		byLow.put(reads[i].used-higher*reads[i].uncertainty, links[i])
	}
	links[0] = link{1, 0, 0}
	put(0)
	best := links[0]
	for i := 1; i < n; {
		next := i
		for ; next < n && reads[next].time.Equal(reads[i].time); next++ {
			r := reads[next]
			if r.time.Equal(reads[0].time) {
				continue
			}
			from := byLow.upTo(r.used)
			if other := byExact.upTo(r.used + higher*r.uncertainty); other.better(from) {
				from = other
			}
			if from.length > 0 {
				links[next], before[next] = link{from.length + 1, from.total + r.used, next}, from.at
			}
		}
		for ; i < next; i++ {
			if links[i].length == 0 {
				continue
			}
			put(i)
			if links[i].better(best) {
				best = links[i]
			}
		}
	}
	kept := make([]bool, n)
	kept[0] = true
	for i := best.at; i > 0; i = before[i] {
		kept[i] = true
	}
	return kept
}

// contradictions says why the readings off the chain were set apart.
func contradictions(reads []read, kept []bool) []Reason {
	reasons := make([]Reason, len(reads))
	least, last := 0, 0 // the most fermented and the latest reading kept so far
	for i, r := range reads {
		switch {
		case kept[i]:
			last = i
			if r.used > reads[least].used {
				least = i
			}
		case above(r, reads[least]) || above(r, reads[last]):
			reasons[i] = Rising
		default:
			reasons[i] = TooLow
		}
	}
	for i := range reads { // another reading of its time was kept
		for _, j := range []int{-1, 1} {
			for k := i + j; reasons[i] != 0 && k >= 0 && k < len(reads) && reads[k].time.Equal(reads[i].time); k += j {
				if kept[k] {
					reasons[i] = RepeatedTime
				}
			}
		}
	}
	return reasons
}
