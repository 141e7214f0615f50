package watch

import (
	"errors"
	"math"
	"slices"

	"example.org/mutage/units"
)

// MaxLog is the most readings that a log may have: the search for
// contradictions, which compares all pairs, then stays below a tenth of a second.
const MaxLog = 5000

var (
	errEmpty  = errors.New("no reading: the first is the original gravity")
	errNoTime = errors.New("no time")
)

// watchSift reads the log and sets apart what contradicts the rest. The first
// reading is always kept; used is then 0 to 1.
func sift(log []Reading, plan Setup) (must, []read, []SetApart, error) {
	fail := func(index int, err error) (must, []read, []SetApart, error) {
		return must{}, nil, nil, &LogError{index, err}
	}
	if len(log) == 0 {
		return fail(-1, errEmpty)
	}
	if err := units.Check("number of readings", float64(len(log)), 1, MaxLog, "", ""); err != nil {
		return fail(-1, err)
	}
	for i, l := range log {
		if l.Time.IsZero() {
			return fail(i, errNoTime)
		}
		if err := units.Check("time since the start", l.Time.Sub(log[0].Time).Hours()/24, math.Inf(-1), longest.Hours()/24, "days", ""); err != nil {
			return fail(i, err)
		}
	}
	if !plan.Now.IsZero() && log[0].Time.After(plan.Now) {
		return fail(0, errors.New(AfterNow.String()))
	}
	must, err := newWatchMust(log[0], plan)
	if err != nil {
		return fail(0, err)
	}
	reads := []read{{time: log[0].Time, at: log[0].Temperature, doubt: float64(plan.Doubt) / must.drop}}
	for i, l := range log[1:] {
		r, err := must.read(i+1, l)
		if err != nil {
			return fail(i+1, err)
		}
		reads = append(reads, r)
	}
	var apart []SetApart
	for _, pass := range []func([]read, Setup) []ApartReason{times, possible, falling} {
		reasons := pass(reads, plan)
		var kept []read
		for i, r := range reads {
			if reasons[i] == 0 {
				kept = append(kept, r)
			} else {
				apart = append(apart, SetApart{r.index, reasons[i]})
			}
		}
		reads = kept
	}
	slices.SortFunc(apart, func(a, b SetApart) int { return a.Index - b.Index })
	for i := range reads {
		reads[i].used = min(max(reads[i].used, 0), 1)
	}
	return must, reads, apart, nil
}

// watchTimes keeps the longest run of readings whose times rise, up to now.
func times(reads []read, plan Setup) []ApartReason {
	reasons := make([]ApartReason, len(reads))
	kept := chain(len(reads), func(i, j int) bool {
		return reads[i].time.Before(reads[j].time) && (plan.Now.IsZero() || !reads[j].time.After(plan.Now))
	}, func(int) float64 { return 0 })
	for i, r := range reads {
		switch {
		case kept[i]:
		case !plan.Now.IsZero() && r.time.After(plan.Now):
			reasons[i] = AfterNow
		default:
			reasons[i] = OutOfOrder
			for j := range reads {
				if kept[j] && reads[j].time.Equal(r.time) {
					reasons[i] = RepeatedTime
				}
			}
		}
	}
	return reasons
}

// watchPossible keeps what this must can read.
func possible(reads []read, _ Setup) []ApartReason {
	reasons := make([]ApartReason, len(reads))
	for i, r := range reads {
		switch slack := higher * r.doubt; {
		case r.used < -slack:
			reasons[i] = AboveOriginal
		case r.used > 1+slack:
			reasons[i] = BelowDry
		}
	}
	return reasons
}

// watchFalling keeps the longest run of readings that do not rise beyond their
// doubt. Of two such runs the more fermented one: gas lifts the spindle.
func falling(reads []read, _ Setup) []ApartReason {
	reasons := make([]ApartReason, len(reads))
	higher := func(i, j int) bool { // j than i
		return reads[j].used < reads[i].used-higher*max(reads[i].doubt, reads[j].doubt)
	}
	kept := chain(len(reads), func(i, j int) bool { return !higher(i, j) }, func(i int) float64 { return reads[i].used })
	for i := range reads {
		if kept[i] {
			continue
		}
		reasons[i] = TooLow
		for j := range i {
			if kept[j] && higher(j, i) {
				reasons[i] = Rising
			}
		}
	}
	return reasons
}

// watchChain marks the longest chain from element 0 in which each follows the
// one before it; among equally long ones that of the greatest total worth.
func chain(n int, follows func(i, j int) bool, worth func(i int) float64) []bool {
	length, total, before := make([]int, n), make([]float64, n), make([]int, n)
	length[0], before[0] = 1, -1
	best := 0
	for j := 1; j < n; j++ {
		for i := range j {
			if length[i] == 0 || !follows(i, j) {
				continue
			}
			if l, t := length[i]+1, total[i]+worth(j); l > length[j] || l == length[j] && t > total[j] {
				length[j], total[j], before[j] = l, t, i
			}
		}
		if length[j] > length[best] || length[j] == length[best] && total[j] > total[best] {
			best = j
		}
	}
	kept := make([]bool, n)
	for i := best; i >= 0; i = before[i] {
		kept[i] = true
	}
	return kept
}
