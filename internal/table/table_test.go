package table

import (
	"math"
	"testing"
)

func TestParseReadsByColumn(t *testing.T) {
	rows := Parse("# what it is\nname,limit,kind\n\"malic, racemic\",3.5,published\ncitric,,from memory\n")
	if len(rows) != 2 || rows[0]["name"] != "malic, racemic" || rows[0].Number("limit", 0) != 3.5 || rows[0].Evidence() != Published {
		t.Errorf("%v", rows)
	}
	if rows[1].Number("limit", -1) != -1 || rows[1].Evidence() != FromMemory {
		t.Errorf("%v", rows[1])
	}
}

func TestABrokenTableStopsTheBuild(t *testing.T) {
	for name, read := range map[string]func(){
		"a cell too many": func() { Parse("a,b\n1,2,3\n") },
		"no number":       func() { Parse("a\nx\n")[0].Number("a", 0) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is taken", name)
				}
			}()
			read()
		}()
	}
}

// A table is its rows at the rows, and a plane between them.
func TestBetweenTheRows(t *testing.T) {
	rows := [][2]float64{{0, 1}, {5, 3}, {20, 0}}
	for x, want := range map[float64]float64{0: 1, 2.5: 2, 5: 3, 10: 2, 20: 0} {
		if got := Linear(rows, x); math.Abs(got-want) > 1e-15 {
			t.Errorf("at %v: %v, want %v", x, got, want)
		}
	}
	plane := make([][5]float64, 4)
	for i := range plane {
		for j := range plane[i] {
			plane[i][j] = 2 + 3*float64(i) - 0.5*float64(j)
		}
	}
	for x := 0.0; x <= 3; x += 0.25 {
		for y := 0.0; y <= 4; y += 0.25 {
			if got, want := Bilinear(plane, x, y), 2+3*x-0.5*y; math.Abs(got-want) > 1e-14 {
				t.Errorf("at %v, %v: %v, want %v", x, y, got, want)
			}
		}
	}
}
