package blend_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

var (
	cherry = blend.Component{Name: "cherry", Volume: 1, Strength: 6.094, Extract: 141.88, Acid: 7}
	vodka  = blend.Component{Name: "spirit 40", Strength: 40}
	strong = blend.Component{Name: "spirit 75", Strength: 75}
)

// Check values that another program computed from the same models, given before
// this one was written; digits as given.
func TestCheckValues(t *testing.T) {
	c := handbook.NewCheck(t, "Blends of must SG 1.092 fermented to 1.046 (check values of another program)", handbook.Mixed)
	f, err := abv.MassBalance(1.092, 1.046, abv.Wort)
	if err != nil {
		t.Fatal(err)
	}
	cherry := blend.Component{Name: "cherry", Volume: 1, Strength: f.Strength, Extract: f.Extract}
	poured := vodka
	poured.Volume = 0.150
	m, err := blend.Mix(cherry, poured)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(float64(m.Strength), "10.516", "% vol with 0.150 L of 40 % vol")
	c.Printed(float64(m.Extract), "123.4", "g/L")
	c.Printed(float64(m.Gravity), "1.03346", "SG")
	c.Printed(float64(m.Volume), "1.14999", "L")

	for _, f := range []struct {
		spirit                                 blend.Component
		litres, extract, sg, volume, contracts string
	}{
		{vodka, "0.6933", "83.9", "1.00778", "1.6913", "2.0"},
		{strong, "0.2494", "114.4", "1.01955", "1.2398", "9.6"},
	} {
		got, err := blend.Fortify(cherry, f.spirit, 20)
		if err != nil {
			t.Fatal(err)
		}
		c.Printed(float64(got.Spirit), f.litres, "L of "+f.spirit.Name)
		c.Printed(float64(got.Result.Extract), f.extract, "g/L")
		c.Printed(float64(got.Result.Gravity), f.sg, "SG")
		c.Printed(float64(got.Result.Volume), f.volume, "L")
		c.Printed(got.Result.Contraction.In(units.Millilitre), f.contracts, "mL contraction")
		if math.Abs(float64(got.Result.Strength)-20) > 1e-9 {
			t.Errorf("Fortify to 20 gives %v", got.Result.Strength)
		}
	}
	m, err = blend.Mix(blend.Component{Name: "water", Volume: 0.050}, blend.Component{Name: "ethanol", Volume: 0.050, Strength: 100})
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(m.Volume.In(units.Millilitre), "96.463", "mL from 50 and 50")
	// 5000/96.4628 = 51.83346; the print looks rounded twice, by way of 51.8335.
	c.Except(float64(m.Strength), "51.834", "% vol from 50 and 50", "rounded twice: 50 mL in 96.4628 mL is 51.8335")
}

// Printed examples of contraction, each with what the OIML formula gives.
func TestContraction(t *testing.T) {
	c := handbook.NewCheck(t, "Contraction: 90 % mass spirit; British proof spirit", handbook.Mixed)
	// 1 L of 90 % mass (0.81797): 736.17 g ethanol = 932.6 mL, 81.80 g water = 81.9 mL, sum 1014.6 mL.
	q := density.ByVolume(0.90)
	e := q / 100
	w := density.WaterIn(e*density.PureEthanol, 0) / density.Water20
	m, err := blend.Mix(blend.Component{Name: "ethanol", Volume: units.Volume(e), Strength: 100}, blend.Component{Name: "water", Volume: units.Volume(w)})
	if err != nil {
		t.Fatal(err)
	}
	// 932.6 and 81.9 mL are rounded, the example's density is 0.03 kg/m3 from OIML's
	// and its ethanol 789.37 where OIML has 789.24.
	c.Differs(1000*(e+w), 1014.6, 2*0.05+932.6*(789.37-789.24)/789.24+1014.6*0.03/817.97, "other densities", "mL before mixing")
	if d := math.Abs(float64(m.Volume) - 1); d > 1e-5 {
		t.Errorf("the two make %v", m.Volume)
	}
	// 57.06 of alcohol and 46.68 of water make 100.00, all at 60 F: the model at that temperature.
	sixty := units.Fahrenheit(60).Celsius()
	e, w = 57.06*density.Ethanol(1, sixty), 46.68*density.Ethanol(0, sixty)
	c.Rounded(density.VolumeAt(e, 0, w, sixty), 100.00, 0.005+0.005, "L of proof spirit") // half a digit of the alcohol and of the water
	// 50 and 50 mL: printed 96.26 mL, a value that no formula for 20 C gives (OIML 96.46).
	m, _ = blend.Mix(blend.Component{Volume: 50}, blend.Component{Volume: 50, Strength: 100})
	c.Except(float64(m.Volume), "96.26", "50 + 50 mL", "0.2 mL below OIML at 20 and 25 C; the printed origin is not stated")
	// 15 mL of ethanol (0.792) and 15 mL of water: printed 3.03 % from a mixture of 0.924.
	c.Except(float64(m.Contraction), "3.03", "15 + 15 mL, %", "its mixture of 0.924 is a classroom reading; OIML gives 0.9265")
}

// Volumes simply added, as the printed examples reckon.
func TestHandCheckExamples(t *testing.T) {
	c := handbook.NewCheck(t, "Fortification by hand: vin doux naturel, concentrate, port pipe", handbook.Mixed)
	must1 := blend.Component{Name: "must 1", Volume: 100, Strength: 15.5}
	must2 := blend.Component{Name: "must 2", Volume: 120, Strength: 17}
	h, err := blend.Additive(must1, must2)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(h.Strength.InexactFloat64(), "16.32", "two musts, % vol")
	// The printed spirit rests on the rounded 16.32.
	sq, err := blend.Alligation(blend.Component{Name: "must", Volume: 220, Strength: 16.32}, blend.Component{Name: "spirit", Strength: 96.5}, 21.5)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(sq.SpiritParts.InexactFloat64(), "5.18", "parts of spirit")
	c.Printed(sq.BaseParts.InexactFloat64(), "75", "parts of must")
	c.Printed(sq.Spirit.InexactFloat64(), "15.19", "hL of spirit")
	// Concentrate: (12 - 10.5) x 50 / (52 - 12), printed "about 1.9 hL", final 51.9.
	sq, err = blend.Alligation(blend.Component{Name: "must", Volume: 50, Strength: 10.5}, blend.Component{Name: "concentrate", Strength: 52}, 12)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(sq.Spirit.InexactFloat64(), "1.9", "hL of concentrate")
	c.Printed(50+sq.Spirit.InexactFloat64(), "51.9", "hL in all")
	// Port pipe: 435 L at 5 to 6 % vol with 115 L of spirit (77 % vol, from memory): printed 550 L, 19 to 22 % vol.
	for _, base := range []units.Strength{5, 6} {
		h, err := blend.Additive(blend.Component{Name: "wine", Volume: 435, Strength: base}, blend.Component{Name: "spirit", Volume: 115, Strength: 77})
		if err != nil {
			t.Fatal(err)
		}
		c.Printed(h.Volume.InexactFloat64(), "550", "L in the pipe")
		c.Differs(h.Strength.InexactFloat64(), 20.5, 1.5, "the print is a range", "port pipe, % vol")
	}
}

func TestHandCheckIsExact(t *testing.T) {
	h, err := blend.Additive(blend.Component{Name: "a", Volume: 0.1, Strength: 10}, blend.Component{Name: "b", Volume: 0.2, Strength: 40, Extract: 30})
	if err != nil {
		t.Fatal(err)
	}
	if h.Volume.String() != "0.3" || h.Strength.String() != "30" || h.Extract.String() != "20" {
		t.Errorf("%s L, %s %% vol, %s g/L; want 0.3, 30, 20", h.Volume, h.Strength, h.Extract)
	}
	if last := h.Working[len(h.Working)-1]; !strings.HasPrefix(last, "with contraction: ") {
		t.Errorf("last line of the working: %q", last)
	}
}

func TestUnknownIsNotZero(t *testing.T) {
	wine := cherry
	wine.Sulfite = 0.05
	bottle := vodka
	bottle.Volume, bottle.Unknown = 0.5, blend.Set(blend.Sulfite, blend.Potassium)
	m, err := blend.Mix(wine, bottle)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := m.Known(blend.Sulfite); !errors.Is(err, blend.ErrUnknown) || !strings.Contains(err.Error(), "spirit 40") {
		t.Errorf("sulfite: %v", err)
	}
	if got, err := m.Known(blend.Acid); err != nil || math.Abs(float64(got)*float64(m.Volume)-7) > 1e-12 {
		t.Errorf("acid: %v, %v", got, err)
	}
	if _, err := m.Known(blend.Solute(99)); err == nil {
		t.Error("solute 99 is known")
	}
	again, _ := blend.Mix(m.Component("blend"), wine)
	if _, err := again.Known(blend.Potassium); err == nil {
		t.Error("a blend with the unknown knows")
	}
}

func random(r *rand.Rand) blend.Component {
	return blend.Component{Name: "x", Volume: units.Volume(0.01 + 3*r.Float64()), Strength: units.Strength(70 * r.Float64() * r.Float64()),
		Extract: units.Concentration(250 * r.Float64() * r.Float64()), Acid: units.Concentration(10 * r.Float64())}
}

func TestMixProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		a, b, c := random(r), random(r), random(r)
		abc, err := blend.Mix(a, b, c)
		if err != nil {
			t.Fatal(err)
		}
		cba, _ := blend.Mix(c, b, a)
		ab, _ := blend.Mix(a, b)
		grouped, _ := blend.Mix(ab.Component("ab"), c)
		half := a
		half.Volume /= 2
		split, _ := blend.Mix(half, b, c, half)
		for name, other := range map[string]blend.Mixture{"order": cba, "grouping": grouped, "splitting": split} {
			for i, pair := range [][2]float64{
				{float64(abc.Mass), float64(other.Mass)}, {float64(abc.Volume), float64(other.Volume)},
				{float64(abc.Strength), float64(other.Strength)}, {float64(abc.Extract), float64(other.Extract)}, {float64(abc.Acid), float64(other.Acid)},
			} {
				// Grouping passes through per-litre contents and solves the water
				// again; it and the shared water's weight cost the last digits.
				if d := math.Abs(pair[0] - pair[1]); d > 1e-11*(1+math.Abs(pair[0])) {
					t.Fatalf("%s changes value %d from %v to %v: %+v %+v %+v", name, i, pair[0], pair[1], a, b, c)
				}
			}
		}
		ethanol := 0.0
		for _, x := range []blend.Component{a, b, c} {
			ethanol += float64(x.Volume) * float64(x.Strength)
		}
		if got := float64(abc.Volume) * float64(abc.Strength); math.Abs(got-ethanol) > 1e-12*ethanol {
			t.Fatalf("ethanol %v becomes %v", ethanol, got)
		}
	}
	for p := 0.02; p < 1; p += 0.02 { // ethanol and water always contract
		m, _ := blend.Mix(blend.Component{Volume: units.Volume(p), Strength: 100}, blend.Component{Volume: units.Volume(1 - p)})
		if m.Contraction <= 0 {
			t.Errorf("%v of ethanol: contraction %v", p, m.Contraction)
		}
	}
}

func TestFortifyProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		base, spirit := random(r), random(r)
		base.Strength, spirit.Strength, spirit.Extract, spirit.Volume = base.Strength/8, 40+spirit.Strength/2, spirit.Extract/10, 0
		target := units.Strength(13 + 20*r.Float64())
		f, err := blend.Fortify(base, spirit, target)
		if err != nil {
			t.Fatal(err)
		}
		spirit.Volume = f.Spirit
		m, _ := blend.Mix(base, spirit)
		if math.Abs(float64(m.Strength-target)) > 1e-9 {
			t.Fatalf("mixed again: %v, wanted %v", float64(m.Strength), float64(target))
		}
		spirit.Volume *= 1.01
		if more, _ := blend.Mix(base, spirit); more.Strength <= m.Strength {
			t.Fatalf("more spirit, less strength: %+v %+v", base, spirit)
		}
		base.Volume, spirit.Volume = 0, 0 // as much as is needed
		to, err := blend.FortifyTo(2, base, spirit, target)
		if err != nil || (math.Abs(float64(to.Result.Volume)-2) > 1e-11 || math.Abs(float64(to.Result.Strength-target)) > 1e-9) {
			t.Fatalf("FortifyTo 2 L at %v: %+v, %v", target, to.Result, err)
		}
	}
}
