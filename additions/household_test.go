package additions

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Rows of the printed table under the name they have here.
func TestHouseholdWeights(t *testing.T) {
	c := handbook.NewCheck(t, "Household weights, USDA and extension services", "g")
	for _, r := range handbook.Load(t, "testdata/household_weights.csv").Rows {
		s, measure := Substance(r.Text("food_or_substance")), r.Text("measure")
		if s == "sugar, granular" {
			s = GranulatedSugar
		}
		if strings.HasSuffix(measure, " sifted") {
			s += ", sifted"
		}
		name := strings.Join(strings.Fields(strings.Replace(measure, "level ", "", 1))[:2], " ")
		if strings.HasPrefix(measure, "1 fl oz") {
			name = "1 fl oz"
		}
		v, err := units.ParseVolume(name)
		if err != nil {
			t.Fatal(err)
		}
		m, err := Weigh(s, v)
		if err != nil {
			switch s {
			case "water, tap", "salt, table (NaCl)", "table wine, all", "table wine, red", "table wine, white", "dessert wine, sweet", "dessert wine, dry":
			default:
				if !strings.HasPrefix(string(s), "distilled spirit") {
					t.Errorf("%s: %v", s, err)
				}
			}
			continue // liquids have a density model, salt is not for wine
		}
		c.Printed(float64(m), r.Text("grams"), string(s)+", "+measure)
		back, err := Spoons(s, m)
		if err != nil || !handbook.Near(float64(back.Volume), float64(v), 1e-12) {
			t.Errorf("%s: %v g in %v, %v; want %v", s, m, back.Volume, err, v)
		}
	}
}

func TestSpooned(t *testing.T) {
	for _, c := range []struct {
		s     Substance
		grams units.Mass
		text  string
		scale bool
	}{
		{GranulatedSugar, 450, "2 1/4 cups", false},
		{GranulatedSugar, 200, "1 cup", false},
		{GranulatedSugar, 13, "1 tbsp", false},
		{MetabisulfitePowder, 7.1, "1 tsp", true},
		{GranulatedSugar, 475, "2 1/4 cups + 2 tbsp", false},
		{GranulatedSugar, 480, "2 1/4 cups + 2 tbsp + 1 1/4 tsp", false},
		{GranulatedSugar, 60, "1/4 cup + 2 1/2 tsp", false}, // 14.39 tsp
		{MetabisulfitePowder, 0.9, "1/8 tsp", true},
		{MetabisulfitePowder, 1.00, "1/8 tsp", true}, // holds 0.888 g
		{MetabisulfitePowder, 0.46, "no spoon holds it: dissolve 10 g in water to 100 mL; 4.6 mL of it", true},
		{MetabisulfitePowder, 0.50, "no spoon holds it: dissolve 10 g in water to 100 mL; 5 mL of it", true},
		{MetabisulfitePowder, 0.13, "no spoon holds it: dissolve 10 g in water to 100 mL; 1.3 mL of it", true},
		{MetabisulfitePowder, 0.04, "no spoon holds it: dissolve 1 g in water to 100 mL; 4 mL of it", true},
		{MetabisulfitePowder, 1.3, "no spoon holds it: dissolve 10 g in water to 100 mL; 13 mL of it", true}, // 1/8 tsp is 0.89 g, 1/4 is 1.78
		{SorbatePowder, 0.15, "no spoon holds it: dissolve 10 g in water to 100 mL; 1.5 mL of it", true},
		{"potassium bitartrate (cream of tartar)", 0.1, "no spoon holds it: use a scale", false},
		{GranulatedSugar, 0, "none", false},
		{SorbatePowder, 1.02, "1/2 tsp", true},
	} {
		p, err := Spoons(c.s, c.grams)
		if err != nil || p.String() != c.text || p.UseScale != c.scale {
			t.Errorf("%v of %s: %q, scale %v, %v; want %q", c.grams, c.s, p, p.UseScale, err, c.text)
		}
	}
	// Whatever is printed holds what is meant within 20 %, by the table, and its
	// range is that of the printed measure.
	for _, s := range Substances() {
		printed := 0
		for m := units.Mass(0.01); m < 3000; m *= 1.013 {
			p, err := Spoons(s, m)
			if err != nil {
				t.Fatal(err)
			}
			if p.Printed == 0 {
				if p.Low != 0 || p.High != 0 || p.Holds != 0 || !strings.HasPrefix(p.String(), "no spoon") {
					t.Errorf("%v of %s: %q holds %v to %v", m, s, p, p.Low, p.High)
				}
				continue
			}
			printed++
			sum := units.Volume(0)
			for _, part := range strings.Split(p.String(), " + ") {
				v, err := units.ParseVolume(part)
				if err != nil {
					t.Errorf("%v of %s: %q, %v", m, s, p, err)
				}
				sum += v
			}
			if !handbook.Near(float64(sum), float64(p.Printed), 1e-9) {
				t.Errorf("%v of %s: printed %q is not %v", m, s, p, p.Printed)
			}
			holds, err := Weigh(s, p.Printed)
			if err != nil || !handbook.Near(float64(p.Holds), float64(holds), 1e-12) || math.Abs(float64(holds/m-1)) > 0.2+1e-9 || !(p.Low < holds && holds < p.High) {
				t.Errorf("%v of %s: %q holds %v, %v to %v", m, s, p, holds, p.Low, p.High)
			}
		}
		if printed < 300 {
			t.Errorf("%s: only %d weights have a spoon", s, printed)
		}
	}
	// Heavier in a larger measure, always.
	for _, s := range Substances() {
		last := units.Mass(-1)
		for v := units.Volume(0); v < 1; v += 0.001 {
			m, err := Weigh(s, v)
			if err != nil || m <= last {
				t.Fatalf("%s: %v weighs %v after %v, %v", s, v, m, last, err)
			}
			last = m
		}
	}
	if rows, err := GranulatedSugar.Measures(); err != nil || len(rows) != 2 || !handbook.Near(float64(rows[1].BulkDensity), 845, 1e-3) {
		t.Errorf("%v, %v", rows, err)
	}
	_, err := Weigh("gunpowder", 1)
	var unknown *units.ParseError
	if !errors.As(err, &unknown) || len(unknown.Expected) != len(Substances()) {
		t.Errorf("unknown substance: %v", err)
	}
}

func TestPacket(t *testing.T) {
	// A tablet of 0.44 g, all potassium metabisulfite: a made-up label.
	tablet := Packet{"tablet", 0.44, 1}
	salt, err := tablet.Holds(2)
	if err != nil || !handbook.Near(float64(salt), 0.88, 1e-12) {
		t.Errorf("two tablets hold %v, %v", salt, err)
	}
	if n, err := tablet.For(salt); err != nil || !handbook.Near(n, 2, 1e-12) {
		t.Errorf("%v tablets, %v", n, err)
	}
	// Three sachets of 5 g, half of them active, hold 7.5 g.
	sachet := Packet{"sachet", 5, 0.5}
	if m, err := sachet.Holds(3); err != nil || !handbook.Near(float64(m), 7.5, 1e-12) {
		t.Errorf("three sachets hold %v, %v", m, err)
	}
	if n, err := sachet.For(7.5); err != nil || !handbook.Near(n, 3, 1e-12) {
		t.Errorf("%v sachets, %v", n, err)
	}
	if _, err := (Packet{}).For(1); err == nil {
		t.Error("a packet without weight was used")
	}
}

// 341 g in a cup of 48 teaspoons are 7.104 g in one. Below 15/16 of a teaspoon an
// eighth is nearer; at 0.93 it is 7/8.
func TestSpoonsBelowOne(t *testing.T) {
	for part, want := range map[float64]string{0.93: "7/8 tsp", 0.94: "1 tsp", 1.1: "1 tsp", 1.13: "1 1/4 tsp"} {
		if p, err := Spoons(MetabisulfitePowder, units.Mass(part*341/48)); err != nil || p.String() != want {
			t.Errorf("%v of a teaspoon: %q, %v; want %q", part, p, err, want)
		}
	}
}

// A fifth more than is meant is still a spoon of it; 1/8 teaspoon holds 341/384 g.
func TestASpoonMayHoldAFifthMore(t *testing.T) {
	const eighth = 341. / 384
	for m, printed := range map[float64]bool{eighth / 1.2: true, eighth / 1.2001: false, eighth / 1.203: false} {
		if p, err := Spoons(MetabisulfitePowder, units.Mass(m)); err != nil || (p.Printed > 0) != printed {
			t.Errorf("%v g: %q, %v", m, p, err)
		}
	}
}

// From a cup upward a measure holds 10 % more or less, below that what the table
// says of powders, 20 %.
func TestACupIsBetterThanASpoon(t *testing.T) {
	for m, part := range map[units.Mass]float64{200: 0.10, 400: 0.10, 150: 0.20} {
		p, err := Spoons(GranulatedSugar, m)
		if err != nil || !handbook.Near(float64(p.Low), float64(p.Holds)*(1-part), 1e-12) || !handbook.Near(float64(p.High), float64(p.Holds)*(1+part), 1e-12) {
			t.Errorf("%v g of sugar: %v, %v to %v, %v", m, p.Holds, p.Low, p.High, err)
		}
	}
}

// From 10 mL upward whole millilitres do, and less than one is not poured.
func TestStockSolutions(t *testing.T) {
	for pour, want := range map[units.Volume]string{0.0101: "10", 0.0096: "9.6", 0.001: "1"} {
		if s := (Stock{Dissolve: 10, FillTo: 0.1, Pour: pour}).String(); s != "dissolve 10 g in water to 100 mL; "+want+" mL of it" {
			t.Errorf("%v: %q", pour, s)
		}
	}
	// 0.098 g are 0.98 mL of the strong solution: too little, so 9.8 mL of the weak.
	// 0.0098 g are 9.8 mL of 1 g to a litre; 0.0009 g nothing measures.
	for m, want := range map[units.Mass]Stock{0.098: {1, 0.1, 0.0098}, 0.0098: {1, 1, 0.0098}, 0.0009: {}} {
		p, err := Spoons(SorbatePowder, m)
		if err != nil || math.Abs(float64(p.Stock.Pour-want.Pour)) > 1e-12 || p.Stock.Dissolve != want.Dissolve || p.Stock.FillTo != want.FillTo {
			t.Errorf("%v g: %+v, %v; want %+v", m, p.Stock, err, want)
		}
	}
}

// A cup of 236.588 mL holds 200 g of sugar: 845 kg/m3.
func TestBulkDensity(t *testing.T) {
	rows, err := GranulatedSugar.Measures()
	if err != nil || math.Abs(float64(rows[1].BulkDensity)-200/0.2365882365) > 0.01 {
		t.Errorf("%v, %v", rows, err)
	}
}
