package watch

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// MaxLog is the most readings that a log may have, after a sensor's were averaged.
const MaxLog = 5000

var (
	errEmpty  = errors.New("no reading")
	errNoTime = errors.New("no time")
)

// sifted is a log that was read: the must, the readings that agree in order of
// time, and the others.
type sifted struct {
	must   must
	reads  []read
	apart  []SetApart
	sorted bool // the log was not in order of time
}

// checkLog finds what is wrong with each reading by itself, and a weighed log whose
// volume of must was not stated.
func checkLog(log []Reading, setup Setup) error {
	var f faults
	if len(log) == 0 {
		f.add(0, -1, errEmpty)
		return f.err()
	}
	if err := units.Check("number of readings", float64(len(log)), 1, MaxLog, "", ""); err != nil {
		f.add(0, -1, err)
		return f.err()
	}
	for i, l := range log {
		if l.Time.IsZero() {
			f.add(l.Line, i, errNoTime)
		} else if !log[0].Time.IsZero() {
			f.add(l.Line, i, units.Check("time since the first reading", l.Time.Sub(log[0].Time).Hours()/24, -longest.Hours()/24, longest.Hours()/24, "days", ""))
		}
	}
	weighed := slices.IndexFunc(log, func(l Reading) bool { return l.Mass != 0 && l.Reading == 0 && l.Refractometer == 0 })
	if weighed >= 0 && setup.Must < leastMust {
		e := units.OutOfRange("", "volume of must", float64(setup.Must), float64(leastMust), check.MostVolume, "L", "")
		e.Cause = "the volume of must is not stated, and a log by weight needs it"
		f.add(log[weighed].Line, weighed, e)
	}
	return f.err()
}

// leastMust is the least volume of must of a weighed log.
const leastMust units.Volume = 1e-6

// inTime is the order of the log in time. A log that runs backwards, newest first,
// is turned round before, so that readings of one time keep the order in which
// they were made. The second result is the reading that the log itself puts first.
func inTime(log []Reading) (order []int, first int) {
	falls := 0
	for i := 1; i < len(log); i++ {
		switch {
		case log[i].Time.Before(log[i-1].Time):
			falls++
		case log[i].Time.After(log[i-1].Time):
			falls--
		}
	}
	order = make([]int, len(log))
	for i := range order {
		order[i] = i
	}
	if falls > 0 {
		slices.Reverse(order)
	}
	first = order[0]
	slices.SortStableFunc(order, func(a, b int) int { return log[a].Time.Compare(log[b].Time) })
	return order, first
}

// sift reads the log and sets apart what contradicts the rest.
func sift(log []Reading, setup Setup) (sifted, error) {
	if err := checkLog(log, setup); err != nil {
		return sifted{}, err
	}
	order, first := inTime(log)
	late := len(order)
	if !setup.Now.IsZero() {
		for late > 0 && log[order[late-1]].Time.After(setup.Now) {
			late--
		}
	}
	if late == 0 {
		earliest := log[order[0]].Time.Format(noted)
		return sifted{}, (&faults{{log[order[0]].Line, order[0], fmt.Errorf("every reading is later than now, the first by %s, and now is %s: is the year right, or the time of asking?", earliest, setup.Now.Format(noted))}}).err()
	}
	s, err := siftFrom(log, order[:late], setup)
	// A log that puts a later reading first may have a wrong date: the larger set
	// of readings that agree is believed, and the log's own order where both are
	// equal.
	if at := slices.Index(order[:late], first); at > 0 && log[first].Time.After(log[order[0]].Time) && setup.Original == 0 {
		if other, failed := siftFrom(log, order[at:late], setup); failed == nil && (err != nil || len(other.reads) >= len(s.reads)) {
			s, err = other, nil
			for _, i := range order[:at] {
				s.apart = append(s.apart, setApart(log, i, BeforeMust))
			}
		}
	}
	if err != nil {
		return sifted{}, err
	}
	for _, i := range order[late:] {
		s.apart = append(s.apart, setApart(log, i, AfterNow))
	}
	slices.SortFunc(s.apart, func(a, b SetApart) int { return a.Index - b.Index })
	s.sorted = !slices.IsSortedFunc(log, func(a, b Reading) int { return a.Time.Compare(b.Time) })
	return s, nil
}

func setApart(log []Reading, i int, why Reason) SetApart {
	return SetApart{i, log[i].Time, log[i].Reading, why}
}

// siftFrom takes the first of these readings for the must, unless its gravity was
// stated.
func siftFrom(log []Reading, order []int, setup Setup) (sifted, error) {
	var s sifted
	var f faults
	stated := setup.Original != 0
	head := 0 // of several readings at the start the densest is the must
	for k, i := range order {
		if l := log[i]; !stated && l.Time.Equal(log[order[0]].Time) && l.Reading > log[order[head]].Reading {
			head = k
		}
	}
	var err error
	if s.must, err = newMust(log[order[head]], setup); err != nil {
		f.add(log[order[head]].Line, order[head], err)
		return s, f.err()
	}
	var reads []read
	for k, i := range order {
		if k == head && !stated {
			reads = append(reads, read{index: i, time: log[i].Time, at: log[i].Temperature, uncertainty: float64(setup.Uncertainty) / s.must.drop})
			continue
		}
		r, err := s.must.read(i, log[i])
		f.add(log[i].Line, i, err)
		reads = append(reads, r)
	}
	if err := f.err(); err != nil {
		return s, err
	}
	if stated {
		reads = s.begin(log, reads, setup)
	}
	reads[0], reads[head] = reads[head], reads[0]
	s.keep(log, reads)
	return s, nil
}

// begin puts the must at the head of the readings of a log that begins later. Those
// before the start are of the must too, or set apart.
func (s *sifted) begin(log []Reading, reads []read, setup Setup) []read {
	start := s.must.began(reads, setup)
	var before, behind []read
	for _, r := range reads {
		switch {
		case !r.time.Before(start.time):
			behind = append(behind, r)
		case math.Abs(r.used) <= higher*r.uncertainty:
			r.used = 0
			before = append(before, r)
		default:
			s.apart = append(s.apart, setApart(log, r.index, BeforeMust))
		}
	}
	return slices.Concat(before, []read{start}, behind)
}

// began is the must itself where the log begins later: at the time that was
// stated, or where the line through the first two readings comes to it, a fortnight
// before at the most.
func (m *must) began(reads []read, setup Setup) read {
	start := read{index: -1, time: setup.Started, uncertainty: float64(setup.Uncertainty) / m.drop}
	if !start.time.IsZero() {
		return start
	}
	a := reads[0]
	start.time = a.time.Add(-day)
	for _, b := range reads[1:] {
		if b.used-a.used > higher*max(a.uncertainty, b.uncertainty) {
			back := float64(b.time.Sub(a.time)) * max(a.used, 0) / (b.used - a.used)
			start.time = a.time.Add(-time.Duration(min(back, float64(14*day))))
			break
		}
	}
	return start
}

// keep sets apart what the must cannot read and what contradicts the rest.
func (s *sifted) keep(log []Reading, reads []read) {
	possible := reads[:0:0]
	for i, r := range reads {
		switch slack := higher * r.uncertainty; {
		case i == 0 || r.used >= -slack && r.used <= 1+slack:
			possible = append(possible, r)
		case r.used < 0:
			s.apart = append(s.apart, setApart(log, r.index, AboveOriginal))
		default:
			s.apart = append(s.apart, setApart(log, r.index, BelowDry))
		}
	}
	kept := chain(possible)
	for i, why := range contradictions(possible, kept) {
		r := possible[i]
		if !kept[i] {
			s.apart = append(s.apart, setApart(log, r.index, why))
			continue
		}
		r.used = math.Min(math.Max(r.used, 0), 1)
		s.reads = append(s.reads, r)
	}
}
