package blend_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

func TestArrest(t *testing.T) {
	spirit := strong
	spirit.Volume = 0.75
	a := blend.Arrest{OG: 1.092, Stop: 1.046, Yield: abv.Must, Must: 3, Lees: 0.1, Spirit: spirit}
	base, m, err := a.Result()
	if err != nil {
		t.Fatal(err)
	}
	again, _ := blend.Mix(base, spirit)
	if m != again || math.Abs(float64(base.Strength)-6.235) > 5e-4 {
		t.Errorf("%+v, %+v", base, m)
	}
	d := blend.ArrestUncertainty{OG: 0.0006, Stop: 0.0006, Yeast: abv.YeastUncertainty / math.Sqrt(3), Must: 0.05, SpiritVolume: 0.01, SpiritStrength: 0.17, Balance: abv.BalanceUncertainty}
	s, err := a.Within(d)
	if err != nil {
		t.Fatal(err)
	}
	if s.Blend != m || math.Abs(s.BlendStrength.Value-float64(m.Strength)) > 1e-12 {
		t.Errorf("value %v, without uncertainties %v", s.BlendStrength, m.Strength)
	}
	shares := 0.0
	for _, c := range s.BlendStrength.Budget {
		shares += c.Share
	}
	if math.Abs(shares-1) > 1e-9 || s.BaseStrength.Standard < abv.BalanceUncertainty {
		t.Errorf("shares add to %v, base %v", shares, s.BaseStrength)
	}
	// Where the balance has made too much alcohol of the sugar it has left too little extract.
	for _, c := range s.BaseExtract.Budget[7:8] {
		if c.Name != "fermentation balance" || math.Abs(c.Sensitivity+abv.Must.PerPercent()) > 1e-6 {
			t.Errorf("%s: extract moves by %v g/L per %% vol, want %v", c.Name, c.Sensitivity, -abv.Must.PerPercent())
		}
	}
	if _, err := a.WithinByTrials(d, 10, 1); err == nil {
		t.Error("ten trials: no error")
	}
	bad := a
	bad.Stop = 1.2
	if _, err := bad.Within(d); err == nil {
		t.Error("a stop above the start: no error")
	}
	bad = a
	bad.Lees = 9
	if _, _, err := bad.Result(); err == nil {
		t.Error("more lees than wine: no error")
	}
}

func TestParseComponent(t *testing.T) {
	for text, want := range map[string]blend.Component{
		"cherry: 3 L at 6.1 % vol with 142 g/L": {Name: "cherry", Volume: 3, Strength: 6.1, Extract: 142},
		"at 75 % vol":                           {Strength: 75},
		"26 fl oz at 80 proof":                  {Volume: 26 * units.USFluidOunce, Strength: 40},
		"syrup: 200 mL with 850 g/L":            {Name: "syrup", Volume: 0.2, Extract: 850},
		"water: 1 L":                            {Name: "water", Volume: 1},
	} {
		got, err := blend.ParseComponent(text)
		if err != nil || got.Name != want.Name || math.Abs(float64(got.Volume-want.Volume)) > 1e-12 || got.Strength != want.Strength || got.Extract != want.Extract {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
	warm, err := blend.ParseComponent("spirit: 1 L at 40 % vol measured at 30 C")
	if err != nil || warm.Volume >= 1 || warm.Name != "spirit" {
		t.Errorf("%+v, %v", warm, err)
	}
	for _, text := range []string{"", "much", "3 L at much", "3 L at 6 % vol with much", "3 L measured at noon", "3 L at 120 % vol", "3 L at 6 % vol measured at 99 C"} {
		if got, err := blend.ParseComponent(text); err == nil {
			t.Errorf("%q: %+v", text, got)
		}
	}
}

func TestAlligationBounds(t *testing.T) {
	if _, err := blend.Alligation(cherry, blend.Component{Name: "weak", Strength: 15}, 20); err == nil {
		t.Error("alligation with a weak spirit: no error")
	}
	if f, err := blend.Fortify(cherry, strong, cherry.Strength); err != nil || f.Spirit != 0 {
		t.Errorf("to its own strength: %v, %v", f.Spirit, err)
	}
	if f, err := blend.DiluteTo(blend.Component{Name: "wine", Volume: 1, Strength: 20, Extract: 84}, blend.Component{Name: "water"}, 15); err != nil || math.Abs(float64(f.Result.Strength)-15) > 1e-9 {
		t.Errorf("%+v, %v", f, err)
	}
	if f, err := blend.SweetenTo(blend.Component{Name: "wine", Volume: 1, Strength: 20, Extract: 20}, blend.Component{Name: "syrup", Extract: 850}, 84); err != nil || math.Abs(float64(f.Result.Extract)-84) > 1e-8 {
		t.Errorf("%+v, %v", f, err)
	}
	for s := blend.Acid; s <= blend.Potassium; s++ {
		if s.String() == "" || !blend.Set(s).Has(s) || blend.Set().Has(s) {
			t.Errorf("solute %d", s)
		}
	}
	if blend.WantStrength(20).String() != "strength 20 % vol" || blend.LimitVessel.String() != "vessel" || blend.Limit(9).String() == "" {
		t.Error("names")
	}
}

func TestShowsRoomWanted(t *testing.T) {
	m, err := blend.Mix(cherry)
	if err != nil {
		t.Fatal(err)
	}
	h := gravity.NewHydrometer(units.Celsius(20))
	if g, err := m.Shows(h, units.Celsius(20)); err != nil || math.Abs(float64(g-m.Gravity)) > 1e-9 {
		t.Errorf("at 20 C it shows %v, its gravity is %v, %v", g, m.Gravity, err)
	}
	if g, err := m.Shows(h, units.Celsius(30)); err != nil || g >= m.Gravity {
		t.Errorf("warm it shows %v, %v", g, err)
	}
	if _, err := m.Shows(h, units.Celsius(60)); err == nil {
		t.Error("at 60 C: no error")
	}
	if room, err := (blend.Vessel{Size: 5, Headspace: 0.2, Displaced: 0.1}).Room(); err != nil || math.Abs(float64(room)-4.7) > 1e-12 {
		t.Errorf("%v, %v", room, err)
	}
	_, err = blend.Fortify(cherry, blend.Component{Strength: 10}, 20)
	var u *blend.UnreachableError
	if !errors.As(err, &u) {
		t.Fatal(err)
	}
	if q, x, unit := u.Wanted(); q != "strength" || x != 20 || unit != "% vol" {
		t.Errorf("%s %v %s", q, x, unit)
	}
}

// A spirit is a spirit, whatever it is called.
func TestAdviceDoesNotHangOnAName(t *testing.T) {
	for _, name := range []string{"lees brandy", "must brandy", "lees", "must", ""} {
		a := blend.Arrest{OG: 1.092, Stop: 1.046, Yield: abv.Must, Must: 3, Spirit: blend.Component{Name: name, Volume: 1.2, Strength: 55}}
		s, err := a.Within(blend.ArrestUncertainty{SpiritVolume: 0.05})
		if err != nil {
			t.Fatal(err)
		}
		if advice := blend.Better(s.BlendStrength.Ranked()[0]); !strings.Contains(advice, "weigh the spirit") {
			t.Errorf("a doubtful volume of %q: %s", name, advice)
		}
	}
}

func TestBetter(t *testing.T) {
	better := func(key string) string { return blend.Better(uncertainty.Contribution{Key: key}) }
	model := better(blend.CauseDensity)
	said := map[string]string{}
	for _, input := range []string{blend.CauseMustVolume, blend.CauseLeesVolume, blend.CauseSpiritVolume, blend.CauseSpiritStrength, blend.CauseStopGravity, blend.CauseOriginalGravity, blend.CauseBalance, blend.CauseNotSugar} {
		advice := better(input)
		if other, twice := said[advice]; twice || advice == model {
			t.Errorf("%s: %q, as for %q", input, advice, other)
		}
		said[advice] = input
	}
}
