package batch

import (
	"strings"
	"testing"

	"example.org/mutage/units"
)

// Where nothing reaches the target, what was meant is poured as far as there is stock
// and room, and none on a wine that is too strong without it.
func TestWhatIsPouredWhereNothingReachesTheTarget(t *testing.T) {
	const wine = `{"wine": "5 L", "wine_reading": "1.010", "cellar_temperature": "15 C", `
	for name, c := range map[string]struct {
		text                 string
		wine, spirit, within float64 // L at 20 C
	}{
		"too strong, none at hand":  {`"wine_strength": "16 % vol", "spirit_strength": "63 % vol", "target": "15.5 % vol", "spirit_stock": "0 L", "spirit_planned": "2 L"`, 5, 0, 6},
		"too strong":                {`"wine_strength": "16 % vol", "spirit_strength": "63 % vol", "target": "15.5 % vol", "spirit_planned": "2 L"`, 5, 0, 6},
		"weak, less at hand":        {`"wine_strength": "13 % vol", "spirit_strength": "18 % vol", "target": "20 % vol", "spirit_stock": "0.5 L", "spirit_planned": "2 L"`, 5, 0.5, 6},
		"weak, as meant":            {`"wine_strength": "13 % vol", "spirit_strength": "18 % vol", "target": "20 % vol", "spirit_planned": "2 L"`, 5, 2, 8},
		"weak, small vessel":        {`"wine_strength": "13 % vol", "spirit_strength": "18 % vol", "target": "20 % vol", "vessel": "3 L"`, 3, 0, 3},
		"weak, small vessel, meant": {`"wine_strength": "13 % vol", "spirit_strength": "18 % vol", "target": "20 % vol", "vessel": "3 L", "spirit_planned": "1 L"`, 2, 1, 3},
		"weak, room for the wine":   {`"wine_strength": "13 % vol", "spirit_strength": "18 % vol", "target": "20 % vol", "vessel": "5.5 L", "spirit_planned": "1 L"`, 4.5, 1, 5.5},
		"weak, a smaller blend":     {`"wine_strength": "13 % vol", "spirit_strength": "18 % vol", "target": "20 % vol", "blend_volume": "2 L"`, 2, 0, 2},
	} {
		b, err := read(t, wine+c.text+"}")
		if err != nil {
			t.Fatal(name, err)
		}
		p := work(t, b)
		got := map[string]float64{}
		for _, q := range p.Pours {
			if q.Into == "reachable" {
				got[q.Key] += float64(q.Volume)
			}
		}
		l, _ := p.Liquid("reachable")
		kept, _ := p.Liquid("kept")
		// The volumes of the vessel and of what is meant are at 15 C.
		if off := got["wine"] - c.wine; off > 0.02 || off < -0.02 || got["spirit"]-c.spirit > 0.01 || got["spirit"]-c.spirit < -0.01 || float64(l.Volume) > c.within*1.004 {
			t.Errorf("%s: %.3f L of wine and %.3f L of spirit make %.3f L; expected %v and %v within %v L", name, got["wine"], got["spirit"], float64(l.Volume), c.wine, c.spirit, c.within)
		}
		if left := 5 - c.wine; float64(kept.Volume)-left > 0.03 || left-float64(kept.Volume) > 0.03 {
			t.Errorf("%s: %.3f L are kept, expected %.3f", name, float64(kept.Volume), left)
		}
		for _, f := range p.Findings {
			if strings.Contains(f.Text, "What is poured") && strings.Contains(f.Text, "overflows") {
				t.Errorf("%s: %s", name, f.Text)
			}
		}
	}
}

// The spirit that would do is what the vessel takes, also where there is none.
func TestTheSpiritThatWouldDoFitsTheVessel(t *testing.T) {
	for _, stock := range []string{"0 L", "0.1 L"} {
		b, err := read(t, `{"wine": "5 L", "wine_strength": "13 % vol", "wine_reading": "1.010", "cellar_temperature": "20 C", "spirit_strength": "40 % vol", "target": "20 % vol", "vessel": "3 L", "spirit_stock": "`+stock+`"}`)
		if err != nil {
			t.Fatal(err)
		}
		// By hand, but for contraction: 3 L (20 - 13)/(40 - 13) are 778 mL.
		if p := work(t, b); !strings.Contains(strings.Join(p.Answer, " "), "It would do with 777 mL of spirit") {
			t.Errorf("stock of %s: %q", stock, p.Answer)
		}
		b.SpiritStock = Amount{Volume: Is(units.Volume(0.777))}
		if l, _ := work(t, b).Liquid("reachable"); l.Strength < 20-1e-9 {
			t.Errorf("777 mL make %v", l.Strength)
		}
	}
}

// Sugar that is in the wine is not taken out: what is wanted of it and cannot be is said.
func TestLessSugarThanThereIsIsSaid(t *testing.T) {
	for target, said := range map[string]bool{"5 g/L": true, "60 g/L": false} {
		b, err := read(t, `{"wine": "5 L", "wine_strength": "13 % vol", "wine_reading": "1.020", "cellar_temperature": "20 C", "spirit_strength": "60 % vol", "target": "18 % vol", "target_sugar": "`+target+`"}`)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range work(t, b).Findings {
			found = found || f.Key == "sugar_above_target"
		}
		if found != said {
			t.Errorf("%s wanted: said %v", target, found)
		}
	}
}
