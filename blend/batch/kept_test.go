package batch

import (
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/units"
)

// What is kept is judged at the temperature and with the doses of what is kept; the
// wine, which is not kept there, without them.
func TestKeptIsJudgedAsItIsKept(t *testing.T) {
	const start = `{"wine": "5 L", "wine_strength": "9 % vol", "wine_reading": "1.030", "cellar_temperature": "20 C", "spirit_strength": "40 % vol", "target": "20 % vol", "blend_volume": "2 L", "ph": "3.3", "sulfite": "30 mg/L", "sorbate": "50 mg/L"`
	hold := func(more, liquid, barrier string) (float64, stability.Hold) {
		t.Helper()
		b, err := read(t, start+more+"}")
		if err != nil {
			t.Fatal(err)
		}
		l, ok := work(t, b).Liquid(liquid)
		if !ok {
			t.Fatalf("no liquid %q", liquid)
		}
		for _, x := range l.Verdict.Barriers {
			if x.Key == barrier {
				return x.Value, x.Hold
			}
		}
		return 0, stability.NotKnown
	}
	// Cold.
	if _, h := hold(`, "kept_temperature": "2 C"`, "kept", "cold"); h == stability.NotKnown || h == stability.None {
		t.Error("what is kept at 2 C is not judged as cold")
	}
	if _, h := hold(`, "kept_temperature": "2 C"`, "wine", "cold"); h != stability.NotKnown {
		t.Error("the wine, which is not kept at 2 C, is judged as cold")
	}
	// Doses: more sulfite leaves more of it active, and more sorbate, too little still, is more.
	for barrier, more := range map[string]string{"sorbate_with_sulfite": `, "kept_sorbate": "90 mg/L"`, "sulfite": `, "kept_sulfite": "150 mg/L"`} {
		was, _ := hold("", "kept", barrier)
		is, _ := hold(more, "kept", barrier)
		wine, _ := hold(more, "wine", barrier)
		if !(is > was) || wine != was {
			t.Errorf("%s: kept %v, with more %v, the wine then %v", barrier, was, is, wine)
		}
	}
}

// A reading has held for days where a wine is there, and not in a must that ferments.
func TestAMustHasNotHeld(t *testing.T) {
	demo := Demo()
	_, c, f := worked(t, &demo)
	j := &job{b: &demo, c: c, f: f}
	l := Liquid{Strength: 6}
	if j.wine(&l, Stated[units.Temperature]{}, demo.so2(), 0).Held {
		t.Error("a must that ferments counts as held")
	}
	wine, err := read(t, `{"wine": "5 L", "wine_strength": "9 % vol", "wine_reading": "1.030", "cellar_temperature": "20 C", "spirit_strength": "40 % vol", "target": "20 % vol"}`)
	if err != nil {
		t.Fatal(err)
	}
	if !(&job{b: &wine}).wine(&l, Stated[units.Temperature]{}, wine.so2(), 0).Held {
		t.Error("a wine does not count as held")
	}
}
