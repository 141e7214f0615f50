package abv_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// The table of cherry juices, in % by mass.
func TestCherriesHoldMoreThanGrapes(t *testing.T) {
	c := handbook.NewCheck(t, "What is not sugar in cherry juice, Swisher & Poe 1935", "g/L")
	for _, r := range []struct {
		fruit                 string
		solids, sugars, acids float64 // % by mass
		density               float64 // kg/L at 20 C of sucrose of so many solids: CRC Handbook, straight between its rows
	}{
		{"morello cherry", 18.00, 10.17, 1.86, 1.0722},
		{"montmorency cherry", 15.23, 9.70, 1.32, 1.0602},
		{"early richmond cherry", 13.37, 7.88, 1.51, 1.0523},
		{"bing cherry", 14.84, 10.56, 0.47, 1.0585},
	} {
		n, err := abv.NotSugarOf(r.fruit)
		if err != nil {
			t.Fatal(err)
		}
		// The densities above come of two rows, each printed to 0.0001 kg/L.
		c.Rounded(float64(n.Low), 10*r.acids*r.density, 10*r.acids*0.0001, r.fruit+", acids alone")
		c.Rounded(float64(n.High), 10*(r.solids-r.sugars)*r.density+8.8, 10*(r.solids-r.sugars)*0.0001, r.fruit+", all but reducing sugars, and glycerol")
		if !n.PerMust || !strings.Contains(n.Source, "reducing") || n.Likely <= n.Low || n.Likely >= n.High {
			t.Errorf("%s: %+v", r.fruit, n)
		}
	}
}

// Every row of the printed table, all but the fibre that is not pectin in the
// juice. Its density is straight between the rows of the CRC Handbook for sucrose,
// which are printed to 0.0001 kg/L. By hand for sour cherries: 99.3 g of juice hold
// 14.0 g of solids, 9.9 of sugar and 1.8 of acids.
func TestFruitGoesIntoTheJuiceButForItsFibre(t *testing.T) {
	crc := [][2]float64{{8, 1.0299}, {10, 1.0381}, {11, 1.0423}, {13, 1.0507}, {14, 1.0549}, {16, 1.0635}, {17, 1.0678}}
	density := func(percent float64) float64 {
		for i := range crc[1:] {
			if a, b := crc[i], crc[i+1]; percent <= b[0] {
				return a[1] + (percent-a[0])*(b[1]-a[1])/(b[0]-a[0])
			}
		}
		t.Fatalf("%v %%", percent)
		return 0
	}
	c := handbook.NewCheck(t, "What is not sugar in fruit juice, Food Chemistry Table 18.3", "g/L")
	rows := handbook.Load(t, "testdata/fruit_composition.csv").Rows
	for _, r := range rows {
		n, err := abv.NotSugarOf(r.Text("fruit"))
		if err != nil {
			t.Fatal(err)
		}
		pulp := r.Number("dietary_fibre") - r.Number("pectin")
		juice := 100 - pulp
		perLitre := 1000 * density(100*(r.Number("dry_matter")-pulp)/juice) / juice
		low, high := r.Number("acidity")*perLitre, (r.Number("dry_matter")-pulp-r.Number("total_sugar"))*perLitre+8.8
		c.Rounded(float64(n.Low), low, 1e-4*low, r.Text("fruit")+", low end")
		c.Rounded(float64(n.High), high, 1e-4*high, r.Text("fruit")+", high end")
	}
	for _, kind := range kinds(t) {
		n, err := abv.NotSugarOf(kind)
		if err != nil || !(0 < n.Low && n.Low < n.Likely && n.Likely < n.High && n.High < 110) || n.Source == "" || n.Name != kind {
			t.Errorf("%s: %+v, %v", kind, n, err)
		}
	}
	if want := len(rows) + 4 + 2; len(kinds(t)) != want { // four cherries of the other table, juice and skins
		t.Errorf("%d kinds, want %d", len(kinds(t)), want)
	}
	if n := (abv.NotSugar{Low: 10, Likely: 20, High: 30}).Times(0.5); n != (abv.NotSugar{Low: 5, Likely: 10, High: 15}) {
		t.Errorf("half a must of juice: %+v", n)
	}
}

// kinds are those that the error for an unknown one lists.
func kinds(t *testing.T) []string {
	t.Helper()
	_, err := abv.NotSugarOf("quince")
	var p *units.ParseError
	if !errors.As(err, &p) {
		t.Fatal(err)
	}
	return p.Expected
}

func TestGrapesAsCounted(t *testing.T) {
	for kind, want := range map[string][3]units.Concentration{"": {16, 20, 37}, "juice": {16.3, 19.0, 23.6}, "skins": {24.7, 29.3, 36.9}} {
		n, err := abv.NotSugarOf(kind)
		if err != nil || [3]units.Concentration{n.Low, n.Likely, n.High} != want || n.PerMust {
			t.Errorf("%q: %+v, %v", kind, n, err)
		}
	}
	if n, _ := abv.NotSugarOf("juice"); !strings.Contains(n.Source, "3,961 white") {
		t.Errorf("the 19.0 g/L are those of the white wines alone: %s", n.Source)
	}
	if !slices.Contains(kinds(t), "morello cherry") {
		t.Errorf("an unknown fruit does not list the known: %v", kinds(t))
	}
}

// A batch of the demonstration: 95.9 g/L of extract in 5.255 L, of which 3.054 L
// were wine.
func TestSugarIsExtractLessTheWine(t *testing.T) {
	all, _ := abv.NotSugarOf("")
	s, err := all.Sugars(95.9, 3.054/5.255)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		got  units.Concentration
		want float64
	}{{s.Low, 95.9 - 37*3.054/5.255}, {s.Likely, 95.9 - 20*3.054/5.255}, {s.High, 95.9 - 16*3.054/5.255}} {
		if math.Abs(float64(x.got)-x.want) > 1e-12 {
			t.Errorf("%v, want %v", x.got, x.want)
		}
	}
	// Never more than the extract, never less than none.
	dry, err := all.Sugars(18, 1)
	if err != nil || dry.Low != 0 || dry.Likely != 0 || math.Abs(float64(dry.High)-2) > 1e-12 {
		t.Errorf("a dry wine: %+v, %v", dry, err)
	}
	sucrose, err := all.Sugars(300, 0)
	if err != nil || sucrose != (abv.Sugars{300, 300, 300}) {
		t.Errorf("syrup: %+v, %v", sucrose, err)
	}
}

func TestStatedNotSugar(t *testing.T) {
	n, err := abv.StatedNotSugar(50, 19.6)
	if err != nil || !n.PerMust || math.Abs(float64(n.Low)-33.55) > 1e-9 || math.Abs(float64(n.High)-66.45) > 1e-9 {
		t.Errorf("%+v, %v", n, err) // 10 standard, 16.45 to either side
	}
	if n, err := abv.StatedNotSugar(5, 20); err != nil || n.Low != 0 {
		t.Errorf("less than nothing is not sugar: %+v, %v", n, err)
	}
	if s, err := abv.Measured(100, 19.6); err != nil || math.Abs(float64(s.Standard())-10) > 1e-9 {
		t.Errorf("%+v, %v", s, err)
	}
	for _, bad := range []units.Concentration{-1, 501, units.Concentration(math.NaN()), units.Concentration(math.Inf(1))} {
		if n, err := abv.StatedNotSugar(bad, 0); err == nil || n != (abv.NotSugar{}) {
			t.Errorf("%v: %+v", bad, n)
		}
		if _, err := abv.StatedNotSugar(10, bad); err == nil {
			t.Errorf("limit %v: no error", bad)
		}
		if _, err := n.Sugars(bad*3, 1); err == nil {
			t.Errorf("extract %v: no error", bad*3)
		}
	}
	for _, share := range []float64{-0.1, 2.1, math.NaN()} {
		if _, err := n.Sugars(100, share); err == nil {
			t.Errorf("share %v: no error", share)
		}
	}
}

func TestSugarAboveExtractNamesBoth(t *testing.T) {
	err := abv.Sugars{Low: 100, Likely: 110, High: 120}.Check(95)
	var r *units.RangeError
	if !errors.As(err, &r) || !strings.Contains(err.Error(), "120") || !strings.Contains(err.Error(), "95") {
		t.Errorf("%v", err)
	}
	if err := (abv.Sugars{Low: 100, Likely: 110, High: 120}).Check(0); err != nil {
		t.Errorf("no extract stated: %v", err)
	}
	if err := (abv.Sugars{Low: 5, Likely: 4, High: 6}).Check(0); err == nil {
		t.Error("ends out of order pass")
	}
}

// "left alone it falls on to 16.1 % vol": by hand, OG 1.0962 holds 251 g/L of
// extract; 251 - 20, at 15.8 g per % vol and the wine's own volume, is 14.8.
func TestLeftAloneStopsAtTheSugarAndAtTheYeast(t *testing.T) {
	p, err := abv.Potential(1.0962, abv.Must)
	if err != nil || math.Abs(float64(p.Strength)-14.8) > 0.1 || math.Abs(float64(p.Extract)-20) > 1e-6 {
		t.Errorf("%+v, %v", p, err)
	}
	stopped, err := abv.Potential(1.0962, abv.Must, abv.End{Limit: 12})
	if err != nil || math.Abs(float64(stopped.Strength)-12) > 1e-9 {
		t.Errorf("the yeast's limit of 12 %% vol is ignored: %+v, %v", stopped, err)
	}
	beyond, err := abv.Potential(1.0962, abv.Must, abv.End{Limit: 16})
	if err != nil || beyond != p {
		t.Errorf("a limit that is not reached changes it: %+v, %v", beyond, err)
	}
	cherry, _ := abv.NotSugarOf("morello cherry")
	low, likely, high, err := abv.PotentialRange(1.0962, abv.Must, abv.End{NotSugar: cherry})
	if err != nil || !(low.Strength < likely.Strength && likely.Strength < high.Strength && high.Strength < p.Strength+0.1) {
		t.Errorf("cherries: %v, %v, %v, %v", low, likely, high, err)
	}
	// Per litre of the must, as it was at the start: extract is conserved.
	plato, _ := gravity.SG(1.0962).Plato()
	extract := 1.0962 * 998.2 * float64(plato) / 100
	if left := extract - float64(likely.SugarUsed); math.Abs(left-float64(cherry.Likely)) > 0.01 {
		t.Errorf("left of the must %v g/L, want %v", left, cherry.Likely)
	}
	if thin, err := abv.Potential(1.004, abv.Must); err != nil || thin.Strength != 0 {
		t.Errorf("a must of 10 g/L of extract: %+v, %v", thin, err)
	}
	for _, bad := range []abv.End{abv.End{Limit: -1}, abv.End{Limit: 31}, abv.End{Limit: units.Strength(math.NaN())},
		abv.End{NotSugar: abv.NotSugar{Low: 3, Likely: 2, High: 1}}} {
		if p, err := abv.Potential(1.09, abv.Must, bad); err == nil || p != (abv.Fermented{}) {
			t.Errorf("%+v: %+v", bad, p)
		}
	}
}

// What is left alone has no sugar left, by the wine and by the must; on the way it
// has what is to come.
func TestSugarOnTheWayIsWhatFermentationStillTakes(t *testing.T) {
	for _, kind := range append(kinds(t), "") {
		n, err := abv.NotSugarOf(kind)
		if err != nil {
			t.Fatal(err)
		}
		n = n.Times(0.8) // a fifth of the must is added sugar
		out, err := abv.Potential(1.12, abv.Must, abv.End{NotSugar: n})
		left, err2 := out.Sugars(n)
		if err != nil || err2 != nil || left.Likely > 1e-6 || left.High <= 0 || left.Low != 0 {
			t.Errorf("%q: %+v, %v, %v", kind, left, err, err2)
		}
		on, err := abv.StopAt(1.12, 6, abv.Must)
		sugar, err2 := on.Sugars(n)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		// Extract is conserved per litre of the must.
		if took := float64(out.SugarUsed - on.SugarUsed); n.PerMust && math.Abs(float64(sugar.Likely)*on.VolumeRatio-took) > 1e-6 {
			t.Errorf("%q: %v g/L at %v, and fermentation takes %v", kind, sugar.Likely, on.Strength, took)
		}
	}
	perMust, _ := abv.NotSugarOf("morello cherry")
	if s, err := (abv.Fermented{Extract: 100}).Sugars(perMust); err == nil {
		t.Errorf("a wine of no must: %+v", s)
	}
}

// More must, more alcohol; a richer rest, less. Sugars within 0 and the extract.
func FuzzPotential(f *testing.F) {
	f.Add(1.09, 16.0, 20.0, 30.0, 0.5)
	f.Add(1.0, 0.0, 0.0, 0.0, 1.0)
	f.Add(1.3499, 30.0, 1000.0, 1000.0, 2.0)
	f.Fuzz(func(t *testing.T, og, limit, rest, more, share float64) {
		n := abv.NotSugar{Low: units.Concentration(rest), Likely: units.Concentration(rest), High: units.Concentration(rest + more), PerMust: og > 1.1}
		low, likely, high, err := abv.PotentialRange(gravity.SG(og), abv.Must, abv.End{Limit: units.Strength(limit), NotSugar: n})
		if err != nil {
			return
		}
		if !(low.Strength >= 0 && low.Strength <= likely.Strength+1e-9 && likely.Strength <= high.Strength+1e-9) || limit > 0 && float64(high.Strength) > limit+1e-9 {
			t.Errorf("%v, limit %v, %+v: %v, %v, %v", og, limit, n, low.Strength, likely.Strength, high.Strength)
		}
		s, err := n.Sugars(likely.Extract, share)
		if err == nil && !(s.Low >= 0 && s.Low <= s.Likely && s.Likely <= s.High && s.High <= likely.Extract) {
			t.Errorf("%+v of %v, %v: %+v", n, likely.Extract, share, s)
		}
	})
}

func ExamplePotential() {
	// A morello must of 1.092 that nobody stops.
	cherry, _ := abv.NotSugarOf("morello cherry")
	low, likely, high, _ := abv.PotentialRange(1.092, abv.Fruit, abv.End{NotSugar: cherry}, abv.End{Limit: 16})
	fmt.Printf("%.0f %% vol, from %.0f to %.0f\n", float64(likely.Strength), float64(low.Strength), float64(high.Strength))
	// Output: 11 % vol, from 9 to 14
}

// 5 and 95 % points lie 1.645 standard uncertainties out.
func TestTheStandardUncertaintyOfWhatIsNotSugar(t *testing.T) {
	n, err := abv.NotSugarOf("")
	if want := (37 - 16) / 3.29; err != nil || math.Abs(float64(n.Standard())-want) > 1e-9 {
		t.Errorf("%v, by hand %v", n.Standard(), want)
	}
}

// By hand: 60 less 10 and plus 5, of an extract of standard uncertainty 4: 1.645 x
// 4 = 6.58; the roots of 100 + 43.30 and of 25 + 43.30 are 11.97 and 8.264.
func TestTheExtractsUncertaintyWidensTheSugar(t *testing.T) {
	s, err := abv.Sugars{50, 60, 65}.Within(4)
	if err != nil || math.Abs(float64(s.Low)-48.0294) > 1e-3 || s.Likely != 60 || math.Abs(float64(s.High)-68.2644) > 1e-3 {
		t.Errorf("%+v, %v", s, err)
	}
	if s, err := (abv.Sugars{50, 60, 65}).Within(0); err != nil || s != (abv.Sugars{50, 60, 65}) {
		t.Errorf("of a known extract: %+v, %v", s, err)
	}
	if s, err := (abv.Sugars{0, 1, 2}).Within(4); err != nil || s.Low != 0 {
		t.Errorf("less than none: %+v, %v", s, err)
	}
	if s, err := (abv.Sugars{990, 995, 999}).Within(4); err != nil || s.High != 1000 {
		t.Errorf("past the domain: %+v, %v", s, err)
	}
	for _, u := range []units.Concentration{-1, units.Concentration(math.NaN()), units.Concentration(math.Inf(1))} {
		if s, err := (abv.Sugars{50, 60, 65}).Within(u); err == nil || s != (abv.Sugars{}) {
			t.Errorf("u of %v: %+v", u, s)
		}
	}
	if _, err := (abv.Sugars{5, 4, 3}).Within(1); err == nil {
		t.Error("ends out of order pass")
	}
}

// allSugar is the end of a fermentation that leaves no extract, which no fruit has.
func allSugar() abv.NotSugar {
	n, err := abv.StatedNotSugar(0, 0)
	if err != nil {
		panic(err)
	}
	return n
}
