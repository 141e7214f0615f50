package additions

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A row is low, high and unit of a row of practice.
type row struct {
	low, high float64
	unit      string
}

func (r row) is(t *testing.T, key, why string) {
	t.Helper()
	if p := known(key); (row{p.Low, p.High, p.Unit}) != r {
		t.Errorf("%s is %v to %v %s, want %+v: %s", key, p.Low, p.High, p.Unit, r, why)
	}
}

// The rows that a source prints, or that follow from what it prints.
func TestPracticeIsWhatTheSourcesPrint(t *testing.T) {
	printed := map[string]string{}
	var doses, surfaces []float64
	for _, r := range handbook.Load(t, "testdata/practice_numbers.csv").Rows {
		q := r.Text("quantity")
		printed[q] = r.Text("value")
		if strings.HasPrefix(q, "dose with the same surface as a barrel") {
			doses = append(doses, r.Number("value"))
		}
		if strings.HasPrefix(q, "contact surface of 2 g/L chips") {
			surfaces = append(surfaces, r.Number("value")/2) // of a gram
		}
	}
	number := func(quantity string) float64 {
		t.Helper()
		x, err := strconv.ParseFloat(printed[quantity], 64)
		if err != nil {
			t.Fatalf("%s: %v", quantity, err)
		}
		return x
	}
	row{2, 5, "g/L"}.is(t, "wood_chips_dose", "the study used "+printed["usual chip doses used in the study"])
	row{slices.Min(doses), slices.Max(doses), "g/L"}.is(t, "wood_chips_barrel_dose", "the five chips")
	row{slices.Min(surfaces), slices.Max(surfaces), "cm2/g"}.is(t, "wood_chips_surface", "the five chips")
	row{80, 100, "cm2/L"}.is(t, "wood_barrel_surface", printed["usual barrel surface to volume, 225 L"])
	oxygen := number("oxygen transfer of a new oak barrel")
	row{oxygen, oxygen, "mg/L per year"}.is(t, "wood_oxygen", "Junqua, Zeng and Pons")
	juice := number("pitch rate, juice") / 100 // hL to L
	row{juice, juice, "g/L"}.is(t, "pitch_juice", "AWRI")
	solids := number("pitch rate, high-solids must") / 100
	row{solids, solids, "g/L"}.is(t, "pitch_solids", "AWRI")
	row{juice, number("pitch rate for difficult juice, up to") / 100, "g/L"}.is(t, "pitch_difficult", "AWRI")
	row{120, 140, "mg N/L"}.is(t, "nitrogen_least", printed["minimum YAN reported for grape musts"])
	percent := math.Round(number("1 % addition") / 3.785411784)
	row{percent, percent, "g/L"}.is(t, "one_percent", "37.85 g to the US gallon of 3.785 L")
	for key, f := range map[string]float64{"ferment_slow_below": 50, "ferment_red_above": 65, "ferment_dies_at": 100} {
		c := math.Round((f - 32) / 1.8)
		row{c, c, "C"}.is(t, key, "Ough and Amerine, in whole degrees")
	}
	row{29.4, 29.4, "C"}.is(t, "ferment_tired_above", "85 F are 29.44 C")
	row{100 * freeOfAdditionLow, 100 * freeOfAdditionHigh, "%"}.is(t, "free_share", "Henderson")
	row{135, 400, "mg/L"}.is(t, "sorbate_taste", "University of Minnesota")
	row{0.7, 0.7, "mg SO2 per kg body weight per day"}.is(t, "sulfite_daily_intake", "JECFA: 0 to 0.7 mg/kg")
	// Two months, and six to nine months of 365.25/12 days.
	week := 365.25 / 12 / 7
	row{math.Floor(2 * week), math.Ceil(2 * week), "weeks"}.is(t, "wood_cubes_time", "Wynboer, about two months")
	row{math.Round(6 * week), math.Round(9 * week), "weeks"}.is(t, "wood_staves_time", "Wynboer, six to nine months")
	// OIML R 22: 976.68 kg/m3 at 10 C and 971.65 at 25; ten degrees of it.
	swells := 100 * (976.68/971.65 - 1) / 15 * 10
	row{math.Floor(10*swells) / 10, math.Ceil(10*swells) / 10, "% of volume"}.is(t, "warming", "OIML R 22, Table II")
	for _, key := range []string{"wood_barrel_surface_50", "wood_barrel_surface_20", "wood_barrel_surface_5"} {
		if p := known(key); p.Low != p.High { // TestASmallBarrelShowsMoreWood computes the first
			t.Errorf("%s is %v to %v", key, p.Low, p.High)
		}
	}
}

// What cellars do, for which no source can be named: written a second time, so
// that a slip of a digit in the table is seen.
func TestCommonPracticeIsWrittenTwice(t *testing.T) {
	for key, want := range map[string]row{
		"wood_dose_vessel":         {1, 1, "times"},
		"wood_chips_time":          {1, 4, "weeks"},
		"wood_first_tasting":       {3, 7, "days"},
		"wood_first_tasting_cubes": {2, 3, "weeks"},
		"wood_loss_per_gram":       {0.5, 1.2, "mL/g"},
		"wood_water":               {6, 12, "% of weight"},
		"clear_after_chill":        {3, 14, "days"},
		"clear_after_spirit":       {1, 6, "weeks"},
		"pectic_enzyme_dose":       {0.01, 0.04, "g/L"},
		"bentonite_dose":           {0.25, 1, "g/L"},
		"gelatin_dose":             {0.02, 0.1, "g/L"},
		"silica_dose":              {0.25, 1, "g/L"},
		"carbon_dose":              {0.1, 1, "g/L"},
		"bench_trial":              {3, 5, "samples"},
		"test_pectin":              {3, 4, "volumes of spirit"},
		"headspace_ferment":        {15, 30, "% of volume"},
		"headspace_still":          {1, 3, "cm"},
		"headspace_bottle":         {1, 2, "cm"},
		"top_up":                   {2, 4, "weeks"},
		"racking_first":            {1, 3, "weeks"},
		"racking_next":             {4, 12, "weeks"},
		"racking_loss":             {2, 5, "% of volume"},
		"ullage_most":              {5, 5, "% of volume"},
		"stir_after_spirit":        {5, 10, "minutes"},
		"rest_after_spirit":        {4, 12, "weeks"},
		"read_after_spirit":        {1, 3, "days"},
		"pour_in_parts":            {80, 95, "% of the amount"},
		"rehydrate_water":          {5, 10, "mL/g"},
		"rehydrate_temperature":    {35, 40, "C"},
		"pitch_step":               {5, 10, "C"},
		"pitch_temperature":        {15, 25, "C"},
		"arrest_chill":             {-4, 0, "C"},
		"sorbate_age":              {6, 12, "months"},
		"sulfite_age":              {6, 12, "months"},
	} {
		want.is(t, key, "common practice")
	}
}

// No source was read in a time to come, none was written after it was read. Two
// works whose rows do not name the year: bulletin 827 is of 1966, OIML R 22 of
// 1975.
func TestPracticeIsDated(t *testing.T) {
	for _, r := range table.Parse(practiceTable) {
		handbook.Dated(t, r["key"], r["source"], r["text_date"], r["looked_up"])
		for work, year := range map[string]string{"Bulletin 827": "1966", "OIML R 22": "1975"} {
			if strings.Contains(r["source"], work) && r["text_date"] != year {
				t.Errorf("%s: %s is dated %s", r["key"], work, r["text_date"])
			}
		}
	}
}

// Minutes, days, weeks and months of 30 days, in hours.
func TestTimesOfPractice(t *testing.T) {
	for key, hours := range map[string][2]float64{
		"stir_after_spirit": {5. / 60, 10. / 60}, "wood_first_tasting": {3 * 24, 7 * 24}, "top_up": {2 * 168, 4 * 168}, "sulfite_age": {6 * 720, 12 * 720},
	} {
		low, high, err := known(key).Time()
		if err != nil || math.Abs(low.Hours()-hours[0]) > 1e-9 || math.Abs(high.Hours()-hours[1]) > 1e-9 {
			t.Errorf("%s: %v to %v, %v; want %v h", key, low, high, err, hours)
		}
	}
	if low, high, err := (Practice{Low: 0.5, High: 1.5, Unit: "days"}).Time(); err != nil || low != 12*time.Hour || high != 36*time.Hour {
		t.Errorf("half a day: %v to %v, %v", low, high, err)
	}
}

// The ends of what is taken, and a little beyond each.
func TestEndsOfInputs(t *testing.T) {
	handbook.Domains(t, []handbook.Domain{
		{Name: "SO2 in the salt", Of: func(x float64) (float64, error) {
			m, err := Sulfite{Name: "own", SO2: x}.Dose(0.1, 1, 1)
			return float64(m), err
		}, Good: []float64{0.1, 0.7}, Bad: []float64{0.0999, 0.701}},
		{Name: "mass of a block", Of: func(x float64) (float64, error) {
			w, err := Block("b", units.Mass(x), 1, 1, 1)
			return w.Surface, err
		}, Good: []float64{1e-3, 1e6}, Bad: []float64{0.999e-3, 1.001e6}},
		{Name: "barrel", Of: func(x float64) (float64, error) {
			s, _, err := Barrel(units.Volume(x))
			return s, err
		}, Good: []float64{1, 1000}, Bad: []float64{0.99, 1001}},
		{Name: "surface of the wood", Of: func(x float64) (float64, error) {
			d, err := Wooded(1, 1, 12, Wood{"own", x})
			return d.Surface, err
		}, Good: []float64{0.1, 500}, Bad: []float64{0.099, 501}},
		{Name: "strength of the wine on wood", Of: func(x float64) (float64, error) {
			d, err := Wooded(1, 1, units.Strength(x), OakChips)
			return float64(d.ThinnedBy), err
		}, Good: []float64{0, 100}, Bad: []float64{-0.1, 100.1}},
		{Name: "packets", Of: func(x float64) (float64, error) {
			m, err := Packet{"t", 0.4, 0.5}.Holds(x)
			return float64(m), err
		}, Good: []float64{1e6}, Bad: []float64{1.001e6}},
		{Name: "mass of a packet", Of: func(x float64) (float64, error) {
			m, err := Packet{"t", units.Mass(x), 0.5}.Holds(1)
			return float64(m), err
		}, Good: []float64{1e-6, 1e10}, Bad: []float64{0.999e-6, 1.001e10}},
		{Name: "share of a packet", Of: func(x float64) (float64, error) {
			m, err := Packet{"t", 1, x}.Holds(1)
			return float64(m), err
		}, Good: []float64{1e-6, 1}, Bad: []float64{0.999e-6, 1.001}},
		{Name: "dose beside the usual", Of: func(x float64) (float64, error) {
			o, _, err := FarAboveUsual(AddedAcid, units.Concentration(x))
			return float64(o.Level), err
		}, Good: []float64{0, 1e6}, Bad: []float64{-0.1, 1.001e6}},
	})
}
