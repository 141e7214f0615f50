package law

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestCheckLimits(t *testing.T) {
	so2 := func(mg float64) Levels { return Levels{TotalSO2: units.Concentration(mg) * units.MilligramPerLitre} }
	for _, x := range []struct {
		name, jurisdiction string
		b                  Product
		exceeded           []string // parameter and limit
		declare            bool
	}{
		{"US wine", "US", Product{Levels: so2(349)}, nil, true},
		{"US wine, too much", "US", Product{Levels: so2(351)}, []string{"total SO2 350"}, true},
		{"traces", "US", Product{Levels: so2(9.9)}, nil, false},
		{"US sorbate", "US", Product{Levels: Levels{SorbicAcidLevel: 310 * units.MilligramPerLitre}}, []string{"sorbic acid 300"}, false},
		{"dry red", "EU", Product{Levels: so2(160), Sugar: 2, Colour: "red"}, []string{"total SO2 150"}, true},
		{"dry white", "EU", Product{Levels: so2(160), Sugar: 2, Colour: "white"}, nil, true},
		{"dry, colour not said", "EU", Product{Levels: so2(160), Sugar: 2}, []string{"total SO2 150"}, true},
		{"sweet red at the border", "UK", Product{Levels: so2(200), Sugar: 5, Colour: "red"}, nil, true},
		{"liqueur wine", "EU", Product{Levels: so2(201), Sugar: 84, Fortified: true}, []string{"total SO2 200"}, true},
		{"fortified cherry", "EU", Product{Levels: so2(201), Sugar: 84, Fortified: true, Fruit: true}, []string{"total SO2 200"}, true},
		{"cherry, Codex", "Codex", Product{Levels: Levels{SorbicAcidLevel: 400 * units.MilligramPerLitre, TotalSO2: 180 * units.MilligramPerLitre}, Fruit: true}, nil, false},
		{"grape, Codex", "Codex", Product{Levels: Levels{SorbicAcidLevel: 400 * units.MilligramPerLitre}}, []string{"sorbic acid 200"}, false},
		{"free SO2", "Austria 1992", Product{Levels: Levels{FreeSO2: 60 * units.MilligramPerLitre}, Fruit: true}, []string{"free SO2 50"}, false},
		{"deacidified too far", "US", Product{Levels: Levels{FixedAcidLowered: 4.5}}, []string{"fixed acid after deacidification 5"}, false},
		{"pH", "US", Product{PH: 2.9}, []string{"pH after adding acid 3"}, false},
		{"pH of cherry", "US", Product{PH: 2.9, Fruit: true}, nil, false},
		{"acid", "OIV", Product{Levels: Levels{AcidAdded: 4.1}}, []string{"acid added 4.052"}, false},
		{"sweet fruit wine acid", "US", Product{Levels: Levels{FixedAcidRaised: 10}, Sugar: 90, Fruit: true}, nil, false},
		{"dry fruit wine acid", "US", Product{Levels: Levels{FixedAcidRaised: 10}, Fruit: true}, []string{"fixed acid after adding acid 9"}, false},
	} {
		r, err := Check(x.jurisdiction, x.b)
		var got []string
		for _, f := range r.Exceeded {
			got = append(got, string(f.Parameter)+" "+strconv.FormatFloat(f.Limit, 'g', -1, 64))
			if f.By <= 0 || f.Source == "" || f.Date == "" {
				t.Errorf("%s: %+v", x.name, f)
			}
		}
		if err != nil || !slices.Equal(got, x.exceeded) || (len(r.Declare) > 0) != x.declare || !strings.Contains(r.Law, "own law") {
			t.Errorf("%s: exceeded %v, declare %v, %v; want %v, %v", x.name, got, r.Declare, err, x.exceeded, x.declare)
		}
	}
	r, err := Check("US", Product{Levels: Levels{"moonlight": 1, TotalSO2: 0.2}, Sugar: 84, Spirit: 40})
	if err != nil || !slices.Equal(r.NoLimit, []Parameter{"moonlight"}) || len(r.Kept) != 1 {
		t.Errorf("%+v, %v", r, err)
	}
	for _, hazard := range []string{"alcohol", "sulfite", "pressure", "flame"} {
		if !slices.ContainsFunc(r.Cautions, func(f Fact) bool { return f.Hazard == hazard }) {
			t.Errorf("no caution about %s", hazard)
		}
	}
	if _, err := Check("Atlantis", Product{}); err == nil || !strings.Contains(err.Error(), "Australia") {
		t.Errorf("unknown jurisdiction: %v", err)
	}
	if _, err := Check("US", Product{Colour: "green"}); err == nil {
		t.Error("a green wine was accepted")
	}
}

// Every row can be used: a number, a unit, a source, a date, a known sense.
func TestLimitRows(t *testing.T) {
	for i, r := range limitRows() {
		at := fmt.Sprintf("row %d, %s", i+1, r["parameter"])
		if r.Number("limit", -1) < 0 || r["source"] == "" || r["date"] == "" || r["class"] == "" {
			t.Errorf("%s: %v", at, r)
		}
		if !slices.Contains([]string{"most", "least", "declare"}, r["sense"]) || !slices.Contains([]string{"g/L", "mg/L", "pH"}, r["unit"]) {
			t.Errorf("%s: %v", at, r)
		}
		for _, word := range strings.Fields(r["wine"]) {
			if !slices.Contains([]string{"grape", "fruit", "fortified", "unfortified", "special"}, word) {
				t.Errorf("%s: %q", at, word)
			}
		}
		if k := additions.Evidence(r.Evidence()); k != additions.Published && k != additions.FromMemory {
			t.Errorf("%s: %q", at, k)
		}
		r.Number("sugar_from", 0)
		r.Number("sugar_to", 0)
	}
	for _, p := range []Parameter{TotalSO2, FreeSO2, SorbicAcidLevel, AcidAdded, CitricAdded, FixedAcidRaised, FixedAcidLowered, DiammoniumPhosphateAdded, AmmoniumSulfateAdded, VolatileAcidity} {
		if !slices.Contains(Parameters(), p) {
			t.Errorf("%s is limited nowhere", p)
		}
	}
}

func TestCautions(t *testing.T) {
	all, err := Cautions(Hazards()...)
	if err != nil || len(all) != len(facts()) {
		t.Errorf("%d of %d, %v", len(all), len(facts()), err)
	}
	for _, f := range all {
		if f.Fact == "" || f.Source == "" && f.Evidence == additions.Published {
			t.Errorf("%+v", f)
		}
	}
	if text, err := CautionText(1, "flame"); err != nil || text != all[slices.IndexFunc(all, func(f Fact) bool { return f.Hazard == "flame" })].String() {
		t.Errorf("the first fact about flame: %q, %v", text, err)
	}
	if _, err := Cautions("boredom"); err == nil {
		t.Error("a caution about nothing")
	}
}

func TestFlashPoint(t *testing.T) {
	c := handbook.NewCheck(t, "Flash points of ethanol and water, engineering table", "C")
	for _, r := range handbook.Load(t, "testdata/ethanol_water_flash_points.csv").Rows {
		got, err := FlashPoint(units.Strength(density.ByVolume(r.Number("ethanol_pct_as_labelled") / 100)))
		if err != nil {
			t.Fatal(err)
		}
		if r.Text("flash_point_C") == "17" && r.Text("ethanol_pct_as_labelled") == "96" {
			c.Except(got.Celsius(), "17", "96 %", "printed twice, 17 and 13 C; the lower stands")
			continue
		}
		c.Printed(got.Celsius(), r.Text("flash_point_C"), r.Text("ethanol_pct_as_labelled")+" % mass")
		// Either column is rounded to whole degrees.
		c.Rounded(got.Fahrenheit(), r.Number("flash_point_F"), 0.5*1.8+0.5, r.Text("ethanol_pct_as_labelled")+" % mass, F")
	}
	last := 100.0
	for s := units.Strength(7); s < 97; s++ {
		f, err := FlashPoint(s)
		if err != nil || f.Celsius() > last {
			t.Errorf("%v: %v after %v, %v", s, f, last, err)
		}
		last = f.Celsius()
	}
}

func TestJurisdictionsAreKnown(t *testing.T) {
	for _, j := range Jurisdictions() {
		if _, err := Check(j, Product{}); err != nil {
			t.Errorf("%s: %v", j, err)
		}
	}
	if !slices.Contains(Jurisdictions(), "US") {
		t.Error("no US")
	}
}
