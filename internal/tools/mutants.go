package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"time"

	"example.org/mutage/internal/tools/mutants"
)

// trade says whether a folder of the main module holds what the figures rest
// on.
func trade(folder string) bool {
	room, rest, _ := strings.Cut(folder, "/")
	if room == "internal" {
		rest, _, _ = strings.Cut(rest, "/")
		return rest != "handbook"
	}
	return slices.Contains([]string{"gravity", "abv", "blend", "additions"}, room)
}

// survivors is the list of changes that no test has to notice.
const survivors = "testdata/survivors.txt"

// mutate changes the trade's constants, comparisons, signs and table cells, one
// at a time, and lists the changes that no test notices.
func mutate(set *flag.FlagSet, args []string) error {
	sample := set.Int("sample", 0, "how many to draw; 0 is all")
	seed := set.String("seed", "", "what the draw depends on; the hash of the commit where it is not given")
	only := set.String("only", "", "`regexp` of the files to change")
	fail := set.String("fail", "", "`regexp` of the files whose survivors fail the run; those of others are listed")
	list := set.Bool("list", false, "run nothing; list what would be changed")
	verbose := set.Bool("v", false, "name every change with its outcome")
	within := set.Duration("within", 0, "begin no further change after this time")
	limit := set.Duration("limit", time.Minute, "time for the tests of one package")
	if err := set.Parse(args); err != nil {
		return err
	}
	begun := time.Now()
	pattern, err := regexp.Compile(*only)
	if err != nil {
		return err
	}
	failing, err := regexp.Compile(*fail)
	if err != nil {
		return err
	}
	if *seed == "" {
		if *seed, err = output(root, "git", "rev-parse", "HEAD"); err != nil {
			return fmt.Errorf("no commit to draw by: give -seed: %w\n%s", err, *seed)
		}
	}
	module, err := mutants.Open(root)
	if err != nil {
		return err
	}
	all, err := module.Find(trade)
	if err != nil {
		return err
	}
	accepted, err := acceptedAmong(all)
	if err != nil {
		return err
	}
	all = slices.DeleteFunc(all, func(m mutants.Mutant) bool { return !pattern.MatchString(m.File) })
	drawn := all
	if *sample > 0 || !*list { // what a time limit leaves out is left to the draw
		drawn = mutants.Draw(all, *sample, *seed)
	}
	if *list {
		show(drawn, len(all))
		return nil
	}
	runner := mutants.Runner{Module: module, Limit: *limit, Workers: 2,
		Known: func(m mutants.Mutant) bool { known, _ := accepted.Has(m); return known }}
	if *within > 0 {
		runner.Until = begun.Add(*within)
	}
	t := tally{accepted: accepted, failing: failing, verbose: *verbose, count: map[mutants.Outcome]int{}}
	tried, err := runner.Run(drawn, t.add)
	fmt.Printf("mutants: %d of %d drawn by %q, %d tried in %v: %s\n", len(drawn), len(all), *seed, tried, time.Since(begun).Round(time.Second), &t)
	if n := t.count[mutants.Survived] - t.expected - t.listed; n > 0 {
		err = errors.Join(err, fmt.Errorf("mutants: no test notices %d changes: write one, or list them in internal/tools/%s with the reason", n, survivors))
	}
	return errors.Join(err, t.faults)
}

// show lists the changes that were drawn.
func show(drawn []mutants.Mutant, all int) {
	for _, m := range drawn {
		fmt.Println(m)
	}
	fmt.Printf("%d of %d\n", len(drawn), all)
}

// String counts the outcomes.
func (t *tally) String() string {
	return fmt.Sprintf("%d killed (%d by the time limit), %d accepted survivors, %d survived, %d do not compile",
		t.count[mutants.Killed]+t.count[mutants.TimedOut], t.count[mutants.TimedOut], t.expected, t.count[mutants.Survived]-t.expected, t.count[mutants.Invalid])
}

func acceptedAmong(all []mutants.Mutant) (mutants.List, error) {
	text, err := os.ReadFile(survivors)
	if err != nil {
		return nil, err
	}
	entries, err := mutants.Accepted(string(text))
	if err != nil {
		return nil, err
	}
	return mutants.Match(all, entries)
}

// A tally counts outcomes and names what should not be.
type tally struct {
	accepted mutants.List
	failing  *regexp.Regexp // files
	verbose  bool
	count    map[mutants.Outcome]int
	expected int // survivors on the list
	listed   int // survivors of other files than the failing
	faults   error
}

func (t *tally) add(r mutants.Result) {
	t.count[r.Outcome]++
	accepted, alone := t.accepted.Has(r.Mutant)
	switch {
	case r.Outcome == mutants.Survived && accepted:
		t.expected++
	case r.Outcome == mutants.Survived:
		fmt.Println("SURVIVED", r.Mutant)
		if !t.failing.MatchString(r.File) {
			t.listed++
		}
	case alone && r.Outcome != mutants.TimedOut: // time proves nothing on a busy machine
		err := fmt.Errorf("%s: accepted as a survivor, but %s %s: take it off the list", r.Mutant, r.Outcome, r.By)
		if t.failing.MatchString(r.File) {
			t.faults = errors.Join(t.faults, err)
		} else {
			fmt.Println(err)
		}
	}
	if t.verbose {
		fmt.Printf("%-8s %5.1fs %s %v\n", r.Outcome, r.Took.Seconds(), r.By, r.Mutant)
	}
}
