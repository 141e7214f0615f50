package main

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"example.org/mutage/additions/law"
	"example.org/mutage/examples/worksheet/internal/rows"
	"example.org/mutage/units"
)

// What dose says first of a level, column says of the row; what holds by strength
// and sugar is passed over.
func TestColumnIsCarefulWhereDoseAndPlanAre(t *testing.T) {
	for _, c := range []struct{ function, row, says string }{
		{"doses", "3,50,200", ""},
		{"doses", "3,0,0", ""},
		{"doses", "3,5000,200", "5000 mg/L of SO2 is 100 times the usual dose"},
		{"doses", "3,50,2500", "2500 mg/L of sorbic acid is 13 times the usual dose"},
		{"doses", "3,300,200", "total SO2 of 300 mg/L is above the limit"},
		{"doses", "3,50,450", "sorbic acid of 450 mg/L is above the limit"},
		{"doses", "3,0,200", "Never without sulfite"},
		{"stability", "20,84", ""},
		{"stability", "12,1", ""},
		{"stability", "17.6,84", ""},
		{"stability", "16,60", "yeast may ferment it"},
		{"stability", "12,100", "yeast will ferment it"},
	} {
		for _, f := range functions {
			if f.Name != c.function {
				continue
			}
			var out, notes bytes.Buffer
			err := f.Stream(context.Background(), strings.NewReader(strings.Join(f.In, ",")+"\n"+c.row+"\n"), &out, &notes, rows.Options{})
			if err != nil || (notes.Len() > 0) != (c.says != "") || !strings.Contains(notes.String(), c.says) {
				t.Errorf("%s %s: %v, %q, want %q", c.function, c.row, err, notes.String(), c.says)
			}
		}
	}
}

// The highest level that keeps all limits: a little less keeps them, a little more
// does not.
func TestTheLevelThatIsKeptEverywhere(t *testing.T) {
	for q, least := range map[law.Parameter]func() units.Concentration{law.TotalSO2: so2Limit, law.SorbicAcid: sorbicLimit} {
		for _, by := range []units.Concentration{0.999, 1.001} {
			where, err := exceeding(law.Product{Category: law.FruitWine, Levels: law.Levels{q: by * least()}}, law.Jurisdictions(), nil)
			if err != nil || (len(where) > 0) != (by > 1) {
				t.Errorf("%s at %v of %v: %v, %v", q, by, least(), where, err)
			}
		}
	}
}
