package mutants

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

// brew is the module of testdata/brew and what can be changed in it.
func brew(t *testing.T) (*Module, []Mutant) {
	t.Helper()
	m, err := Open("../testdata/brew")
	if err != nil {
		t.Fatal(err)
	}
	all, err := m.Find(func(folder string) bool { return folder == "" })
	if err != nil {
		t.Fatal(err)
	}
	return m, all
}

func TestEveryConstantSignAndCellIsFound(t *testing.T) {
	_, all := brew(t)
	var found []string
	for _, m := range all {
		found = append(found, fmt.Sprintf("%s %d %s", m.File, m.Line, m.Change))
	}
	want := []string{
		"brew.go 13 2 -> 2.04", // a whole number in print, used as a float
		"brew.go 16 24 -> 25",
		"brew.go 19 24 -> 25",
		"brew.go 19 - -> +",
		"brew.go 22 >= -> <",
		"brew.go 22 17 -> 17.34",
		"brew.go 25 > -> <=",
		"brew.go 25 25.0 -> 25.5",
		"brew.go 25 != -> ==",
		"brew.go 25 99 -> 100.98",
		"brew.go 28 * -> /",
		"brew.go 28 - -> +",
		"brew.go 28 0.5 -> 0.51",
		"brew.go 36 - -> +",
		"brew.go 46 < -> >=",
		"brew.go 47 *= -> /=",
		"limits.csv 3 200 -> 204",
		"limits.csv 4 0.3 -> 0.306",
	}
	if !slices.Equal(found, want) {
		t.Errorf("found\n%s\nexpected\n%s", strings.Join(found, "\n"), strings.Join(want, "\n"))
	}
}

func TestANumberIsChangedAsItIsPrinted(t *testing.T) {
	for text, want := range map[string]string{"17": "17.34", "0.50": "0.51", "1e-9": "1.02e-9", "-2.5E3": "-2.55e3", "0.0": "0.1", "1_000.": "1020", "x": ""} {
		if got := twoPercent(text); got != want {
			t.Errorf("%q is changed to %q, expected %q", text, got, want)
		}
	}
	for text, want := range map[string]string{"24": "25", "1000": "1020", "-3": "-4", "0": "1"} {
		if got := whole(text); got != want {
			t.Errorf("%q is changed to %q, expected %q", text, got, want)
		}
	}
	for text, want := range map[string]string{"4": "5", "0.7": "0.714", "": "", ".": "", "2015-01-01": "", "10-66": "", "1e2": "1.02e2"} {
		if got := cellNumber(text); got != want {
			t.Errorf("a cell %q is changed to %q, expected %q", text, got, want)
		}
	}
}

func TestSurvivorsAndTheKilledAreToldApart(t *testing.T) {
	before := content(t)
	m, all := brew(t)
	got := map[string]Outcome{}
	by := map[string]string{}
	r := Runner{Module: m, Limit: 2 * time.Second, Workers: 2}
	tried, err := r.Run(all, func(r Result) {
		at := fmt.Sprintf("%d %s", r.Line, r.Change)
		got[at], by[at] = r.Outcome, r.By
	})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]Outcome{
		"13 2 -> 2.04": Killed, "16 24 -> 25": Invalid, "19 24 -> 25": Survived, "19 - -> +": Survived,
		"22 >= -> <": Killed, "22 17 -> 17.34": Killed,
		"25 > -> <=": Killed, "25 25.0 -> 25.5": Survived, "25 != -> ==": Survived, "25 99 -> 100.98": Survived,
		"28 * -> /": Killed, "28 - -> +": Killed, "28 0.5 -> 0.51": Killed,
		"36 - -> +": Survived, "46 < -> >=": TimedOut, "47 *= -> /=": Survived,
		"3 200 -> 204": Killed, "4 0.3 -> 0.306": Survived,
	}
	if tried != len(all) || !maps.Equal(got, want) {
		t.Errorf("tried %d of %d:\n%v\nexpected\n%v", tried, len(all), got, want)
	}
	if by["13 2 -> 2.04"] != "jug" || by["22 17 -> 17.34"] != "" {
		t.Errorf("full was noticed by %q, expected the importer; 17 by %q, expected its own package", by["13 2 -> 2.04"], by["22 17 -> 17.34"])
	}
	if after := content(t); after != before {
		t.Error("the tree was changed")
	}
}

// What stands behind no switch: a cell, and a constant that another one uses.
func TestMutantsAreBuiltAtOnce(t *testing.T) {
	m, all := brew(t)
	built, err := m.switches(all, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	var apart []string
	for _, x := range all {
		if built.number[x.place()] == 0 {
			apart = append(apart, fmt.Sprintf("%d %s", x.Line, x.Change))
		}
	}
	if want := []string{"16 24 -> 25", "19 24 -> 25", "19 - -> +", "3 200 -> 204", "4 0.3 -> 0.306"}; !slices.Equal(apart, want) {
		t.Errorf("built one at a time: %q, expected %q", apart, want)
	}
}

func content(t *testing.T) string {
	t.Helper()
	var all string
	for _, name := range []string{"brew.go", "limits.csv"} {
		text, err := os.ReadFile("../testdata/brew/" + name)
		if err != nil {
			t.Fatal(err)
		}
		all += string(text)
	}
	return all
}

func TestNothingIsBegunAfterTheTimeIsUp(t *testing.T) {
	m, all := brew(t)
	r := Runner{Module: m, Limit: 2 * time.Second, Workers: 2, Until: time.Now()}
	tried, err := r.Run(all, func(Result) { t.Error("a mutant was tried") })
	if tried != 0 || err != nil {
		t.Errorf("tried %d, %v", tried, err)
	}
}

func TestTheSeedDecidesTheDraw(t *testing.T) {
	_, all := brew(t)
	a, again, b := Draw(all, 5, "a"), Draw(all, 5, "a"), Draw(all, 5, "b")
	if len(a) != 5 || !slices.Equal(a, again) || slices.Equal(a, b) {
		t.Errorf("seed a draws %v, then %v; seed b %v", a, again, b)
	}
	if len(Draw(all, 0, "a")) != len(all) || len(Draw(all, 1000, "a")) != len(all) {
		t.Error("a draw of all leaves some out")
	}
}

func TestAnAcceptedSurvivorThatMatchesNothingIsAnError(t *testing.T) {
	_, all := brew(t)
	const line = "brew.go\t24 -> 25\tconst shelves = 24\tno figure rests on it\n"
	for list, want := range map[string]string{
		"# comment\n\n" + line:                                         "",
		"brew.go\t*\tconst shelves = 24\tno figure rests on it":        "",
		"brew.go\t*\tconst shelves = 23\tno figure rests on it":        "stale",
		"brew.go\t24 -> 25\tconst shelves = 23\tno figure rests on it": "stale",
		"brew.go\t24 -> 25\tconst shelves = 24":                        "want file, change",
		"brew.go\t24 -> 25\tconst shelves = 24\t":                      "want file, change",
		line + line: "listed twice",
	} {
		entries, err := Accepted(list)
		var accepted List
		if err == nil {
			accepted, err = Match(all, entries)
		}
		if want == "" {
			if err != nil || len(accepted) != 1 {
				t.Errorf("%q: %v, %v", list, accepted, err)
			}
			for _, m := range all {
				if is, alone := accepted.Has(m); is != (m.Line == 16) || alone != (is && strings.Contains(list, "24 -> 25")) {
					t.Errorf("%v: accepted %v, alone %v", m, is, alone)
				}
			}
		} else if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, expected an error that says %q", list, err, want)
		}
	}
}
