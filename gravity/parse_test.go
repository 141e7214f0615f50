package gravity_test

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestParse(t *testing.T) {
	same := func(g gravity.SG, err error) float64 { return float64(must[gravity.SG](t)(g, err)) }
	for text, want := range map[string]float64{
		"1.070": 1.070, "1070": 1.070, " 1,070 ": 1.070, "1.070 SG": 1.070, "0.996": 0.996, "996": 0.996,
		"17.1 P":       same(gravity.Plato(17.1).SG()),
		"17,1 °P":      same(gravity.Plato(17.1).SG()),
		"17.1 Bx":      same(gravity.Brix(17.1).SG()),
		"17.1 Brix":    same(gravity.Brix(17.1).SG()),
		"70 Oe":        1.070,
		"70 °Oe":       1.070,
		"9.5 Be":       145 / (145 - 9.5),
		"9.5 Baumé":    145 / (145 - 9.5),
		"9.5 Be 144.3": 144.3 / (144.3 - 9.5),
		"46 points":    1.046,
		"1068 kg/m3":   1068 / float64(gravity.Water20),
	} {
		g, err := gravity.Parse(text)
		if err != nil || math.Abs(float64(g)-want) > 1e-12 {
			t.Errorf("%q: %v, %v; want %v", text, float64(g), err, want)
		}
	}
	for _, text := range []string{"", "70", "17.1", "107", "1.4", "1351", "1,07,0", "P", "1.070 kg", "-1.070", "1.07 1.08", "1e9 P"} {
		g, err := gravity.Parse(text)
		var parse *units.ParseError
		if !handbook.IsRange(err) && !errors.As(err, &parse) || g != 0 {
			t.Errorf("%q: %v, %v", text, float64(g), err)
		}
	}
	for _, text := range []string{"71 P", "-1 Bx", "351 Oe", "39 Be", "1400 kg/m3", "600 kg/m3"} {
		if _, err := gravity.Parse(text); !handbook.IsRange(err) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestText(t *testing.T) {
	var g gravity.SG
	if err := g.Set("70 Oe"); err != nil || g.String() != "1.07" {
		t.Errorf("%v, %v", g, err)
	}
	if err := g.Set("nothing"); err == nil || g != 1.07 {
		t.Errorf("%v, %v", g, err)
	}
	if err := g.UnmarshalText([]byte("1.0123456789")); err != nil || g != 1.0123456789 {
		t.Errorf("%v, %v", float64(g), err)
	}
	for _, x := range []gravity.SG{0, 1.0123456789, 0.3, 2, -1, 700, 1070, 5e-324, 1e21, -math.MaxFloat64} {
		text, err := x.MarshalText()
		back := gravity.SG(1)
		if err != nil || back.UnmarshalText(text) != nil || back != x {
			t.Errorf("%v is written as %q, %v, and comes back as %v", float64(x), text, err, float64(back))
		}
	}
	if text, err := gravity.SG(0).MarshalText(); err != nil || len(text) != 0 {
		t.Errorf("a gravity that was not stated is written as %q, %v", text, err)
	}
	for _, bad := range []gravity.SG{gravity.SG(math.NaN()), gravity.SG(math.Inf(1))} {
		if text, err := bad.MarshalText(); !handbook.IsRange(err) {
			t.Errorf("%v: %q, %v", float64(bad), text, err)
		}
	}
	for _, bad := range []units.Density{697, 1348, units.Density(math.NaN()), units.Density(math.Inf(-1))} {
		if _, err := gravity.Of(bad); !handbook.IsRange(err) {
			t.Errorf("%v: %v", float64(bad), err)
		}
	}
}

// What is parsed is finite, in the domain, and reads back from its own text.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"1.070", "1070", "1,070", "17.1 P", "17.1 Bx", "70 Oe", "9.5 Be", "1068 kg/m3", "½", "1e3", "1.0.7"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		g, err := gravity.Parse(text)
		if err != nil {
			if g != 0 || err.Error() == "" {
				t.Errorf("%q: %v with %v", text, float64(g), err)
			}
			return
		}
		if !(g >= 0.7 && g < 1.35) {
			t.Fatalf("%q: %v", text, float64(g))
		}
		written, err := g.MarshalText()
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		var back gravity.SG
		if err := back.UnmarshalText(written); err != nil || back != g {
			t.Errorf("%q: %s reads back as %v, %v", text, written, float64(back), err)
		}
	})
}
