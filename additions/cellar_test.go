package additions

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestYeastAndNutrient(t *testing.T) {
	c := handbook.NewCheck(t, "Yeast and nutrient, AWRI, OIV Codex, Megazyme", handbook.Mixed)
	p, err := Pitch(1.090, 0, units.Hectolitre)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(float64(p.Yeast), "25", "AWRI, g/hL")
	c.Printed(p.Cells/1e6, "5", "AWRI, million cells per mL")
	c.Printed(100*DiammoniumPhosphate.Nitrogen, "21.2", "N in DAP, %")
	c.Printed(ammoniaNitrogen, "0.8224", "N in ammonia")
	n, err := NitrogenAdded(0.1, 1, DiammoniumPhosphate)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(n.In(units.MilligramPerLitre), "21", "100 mg/L DAP, mg/L N")
	most, err := NitrogenAdded(units.Mass(0.96), 1, DiammoniumPhosphate)
	c.Except(most.In(units.MilligramPerLitre), "203", "US ceiling of 0.96 g/L DAP, mg/L N", "computed with 21.2 %; unrounded 21.21")
	m, err2 := NutrientDose(n, 1, DiammoniumPhosphate)
	if err != nil || err2 != nil || !handbook.Near(float64(m), 0.1, 1e-12) {
		t.Errorf("%v, %v, %v", m, err, err2)
	}
	for _, hard := range []Pitching{handbook.Must(Pitch(1.130, 0, 10)), handbook.Must(Pitch(1.090, 12*units.MilligramPerLitre, 10))} {
		if !hard.Difficult || hard.Yeast != 5 || hard.Water > hard.MostWater {
			t.Errorf("difficult juice: %+v", hard)
		}
	}
	for n := 1; n <= 3; n++ {
		parts, err := Staged(9, n)
		sum := units.Mass(0)
		for _, s := range parts {
			sum += s.Mass
		}
		if err != nil || !handbook.Near(float64(sum), 9, 1e-12) || len(parts) != n {
			t.Errorf("%d stages: %v, %v", n, parts, err)
		}
	}
	if w, err := NitrogenWanted(200, MediumNeed); err != nil || !handbook.Near(w.In(units.MilligramPerLitre), 180, 1e-12) {
		t.Errorf("%v, %v", w, err)
	}
}

// Five chips of the study: 2 g/L of each give a surface, and a dose a barrel's.
// BarrelSurface is what the five pairs imply, so that they test no more than that
// they imply one surface: each as far as the two prints go.
func TestWood(t *testing.T) {
	c := handbook.NewCheck(t, "Oak chips with a barrel's surface, Technical University of Moldova", "g/L")
	surface := map[string]float64{}
	for _, r := range handbook.Load(t, "testdata/practice_numbers.csv").Rows {
		q := r.Text("quantity")
		if _, sample, ok := strings.Cut(q, "contact surface of 2 g/L chips, sample "); ok {
			surface[sample] = r.Number("value")
		}
		if _, sample, ok := strings.Cut(q, "dose with the same surface as a barrel, "); ok {
			d, err := WoodDose(1, 1, 12, Wood{sample, surface[sample] / 2})
			if err != nil {
				t.Fatal(err)
			}
			dose := r.Number("value")
			c.Rounded(float64(d.Mass), dose, 0.005+dose*0.5/surface[sample], sample)
			back, err := Wooded(d.Mass, 1, 12, Wood{sample, surface[sample] / 2})
			if err != nil || !handbook.Near(back.Barrels, 1, 1e-12) {
				t.Errorf("%s: %+v, %v", sample, back, err)
			}
		}
	}
	// What does not come from them: of all vessels of 225 L a sphere has the least
	// surface, 79.5 cm2/L, and a barrel less than a cylinder twice as long as wide.
	const volume = 225e3 // cm3
	sphere := math.Cbrt(36*math.Pi*volume*volume) / 225
	wide := math.Cbrt(2 * volume / math.Pi)
	cylinder := 2.5 * math.Pi * wide * wide / 225
	if BarrelSurface < sphere || BarrelSurface > cylinder {
		t.Errorf("a barrel of %.1f cm2/L, a sphere has %.1f, a long cylinder %.1f", BarrelSurface, sphere, cylinder)
	}
	d, err := WoodDose(1, 5, 20, OakChips)
	if err != nil || d.LossLow >= d.LossHigh || d.ThinnedBy <= 0 || d.ThinnedBy > 0.02 {
		t.Errorf("%+v, %v", d, err)
	}
	cube, err := Block("cube", 10, 2, 2, 2)
	if err != nil || !handbook.Near(cube.Surface, 2.4, 1e-12) {
		t.Errorf("%v, %v", cube, err)
	}
}

// Every row is a range with a unit, a sentence, a date and its evidence.
func TestPractices(t *testing.T) {
	n := 0
	for _, key := range []string{"wood_chips_dose", "wood_barrel_surface", "wood_barrel_surface_5", "wood_chips_time", "wood_first_tasting", "wood_loss_per_gram",
		"clear_after_spirit", "headspace_still", "headspace_ferment", "top_up", "racking_first", "racking_next"} {
		if _, err := PracticeOf(key); err != nil {
			t.Error(err)
		}
	}
	for _, topic := range []string{"clearing", "wood", "nutrient", "yeast", "vessel", "spirit", "sulfite", "sorbate"} {
		rows, err := Practices(topic)
		if err != nil || len(rows) == 0 {
			t.Fatalf("%s: %v", topic, err)
		}
		for _, r := range rows {
			n++
			if r.Low > r.High || r.Unit == "" || r.Date == "" || !strings.HasSuffix(r.Note, ".") || r.Source == "" {
				t.Errorf("%+v", r)
			}
			if !slices.Contains([]Evidence{Published, Computed, CommonPractice, FromMemory}, r.Evidence) {
				t.Errorf("%s: evidence %q", r.Key, r.Evidence)
			}
			if same, err := PracticeOf(r.Key); err != nil || same != r {
				t.Errorf("%s twice: %+v, %v", r.Key, same, err)
			}
			low, high, err := r.For(10)
			if (err == nil) != (r.Unit == "g/L") || err == nil && (float64(low) != 10*r.Low || float64(high) != 10*r.High) {
				t.Errorf("%s: %v to %v, %v", r.Item, low, high, err)
			}
		}
	}
	if n != len(practices()) {
		t.Errorf("%d rows of %d are in a known topic", n, len(practices()))
	}
	if _, err := Practices("magic"); err == nil || !strings.Contains(err.Error(), "clearing") {
		t.Errorf("unknown topic: %v", err)
	}
	if _, err := PracticeOf("magic"); err == nil || !strings.Contains(err.Error(), "wood_first_tasting") {
		t.Errorf("unknown key: %v", err)
	}
}

// What a batch asks for is there, in a unit that it can use.
func TestABatchFindsItsPractices(t *testing.T) {
	for _, key := range []string{"wood_first_tasting", "wood_first_tasting_cubes", "wood_chips_time", "clear_after_chill", "clear_after_spirit",
		"rest_after_spirit", "read_after_spirit", "stir_after_spirit", "racking_first", "racking_next", "top_up"} {
		low, high, err := known(key).Time()
		if err != nil || low <= 0 || high < low {
			t.Errorf("%s: %v to %v, %v", key, low, high, err)
		}
	}
	for key, unit := range map[string]string{"wood_loss_per_gram": "mL/g", "wood_water": "% of weight", "headspace_ferment": "% of volume", "headspace_still": "cm",
		"headspace_bottle": "cm", "racking_loss": "% of volume", "ullage_most": "% of volume", "wood_chips_dose": "g/L", "pour_in_parts": "% of the amount", "warming": "% of volume"} {
		if p := known(key); p.Unit != unit || p.High <= 0 {
			t.Errorf("%s is in %q, want %q", key, p.Unit, unit)
		}
	}
	if _, _, err := known("wood_chips_dose").Time(); err == nil {
		t.Error("a dose is a time")
	}
	if low, _, _ := known("wood_first_tasting").Time(); low != 3*day {
		t.Errorf("chips are tasted first after %v", low)
	}
}

// The rows of small barrels are the cube root that their note names.
func TestASmallBarrelShowsMoreWood(t *testing.T) {
	c := handbook.NewCheck(t, "Surface of barrels of one shape, computed rows of the table of practice", "cm2/L")
	for key, v := range map[string]units.Volume{"wood_barrel_surface_50": 50, "wood_barrel_surface_20": 20, "wood_barrel_surface_5": 5} {
		surface, time, err := Barrel(v)
		if err != nil || time >= 1 || !handbook.Near(surface*time, BarrelSurface, 1e-12) {
			t.Errorf("%v: %v, %v, %v", v, surface, time, err)
		}
		c.Printed(surface, units.Round(known(key).Low, 0).String(), key)
	}
	if _, _, err := Barrel(0.5); err == nil {
		t.Error("a barrel of half a litre")
	}
}
