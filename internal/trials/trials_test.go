package trials

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Cases of each function, and draws of each case: the standard deviation of as
// many draws is known to 1.1 %, a coverage of 95 % to 0.34 % of the draws.
const cases, draws = 50, 4000

// A cellar draws what the inputs may have been.
type cellar struct{ *rand.Rand }

func (c cellar) between(lo, hi float64) float64 { return lo + (hi-lo)*c.Float64() }

// one draws an input as it is stated.
func (c cellar) one(in uncertainty.Input) float64 {
	if in.Distribution == uncertainty.Rectangular {
		return in.Value + in.Standard*math.Sqrt(3)*c.between(-1, 1)
	}
	return in.Value + in.Standard*c.NormFloat64()
}

// reading is a value with a standard uncertainty up to most.
func (c cellar) reading(value, most float64) uncertainty.Input {
	return uncertainty.Input{Value: value, Standard: most * c.between(0.3, 1)}
}

// A tried is one stated result and a draw of what it may be.
type tried struct {
	name   string
	stated uncertainty.Result
	draw   func() (float64, error)
}

// holds asks of each case that the standard uncertainty is that of the draws
// within 5 %, and of all together that 94 to 96 % of the draws lie in the 95 %
// interval. Of a single case that is 93.5 to 96.5 %, four times what chance does.
func holds(t *testing.T, one func(c cellar) []tried) {
	t.Helper()
	if testing.Short() {
		t.Skip("millions of draws: they take half a minute")
	}
	in, of, widest := map[string]int{}, map[string]int{}, map[string]float64{}
	for k := range cases {
		c := cellar{rand.New(rand.NewPCG(uint64(k), 1862))}
		for _, x := range one(c) {
			sum, squares, inside := 0.0, 0.0, 0
			for range draws {
				y, err := x.draw()
				if err != nil {
					t.Fatalf("%s, case %d: %v", x.name, k, err)
				}
				d := y - x.stated.Value
				sum, squares = sum+d, squares+d*d
				if y >= x.stated.Low && y <= x.stated.High {
					inside++
				}
			}
			sd := math.Sqrt(squares/draws - sum/draws*sum/draws)
			ratio := x.stated.Standard / sd
			if math.Abs(ratio-1) > math.Abs(widest[x.name]-1) || widest[x.name] == 0 {
				widest[x.name] = ratio
			}
			if math.Abs(ratio-1) > 0.05 {
				t.Errorf("%s, case %d: %.4g states a standard uncertainty of %.3g, trials give %.3g", x.name, k, x.stated.Value, x.stated.Standard, sd)
			}
			if share := float64(inside) / draws; share < 0.935 || share > 0.965 {
				t.Errorf("%s, case %d: %.4g to %.4g holds %.1f %% of the trials", x.name, k, x.stated.Low, x.stated.High, 100*share)
			}
			in[x.name] += inside
			of[x.name] += draws
		}
	}
	for name, n := range of {
		share := float64(in[name]) / float64(n)
		t.Logf("coverage | %s | %d | %.2f %% | stated over found, furthest: %.3f", name, n/draws, 100*share, widest[name])
		if share < 0.94 || share > 0.96 {
			t.Errorf("%s: the intervals hold %.2f %% of the trials", name, 100*share)
		}
	}
}

// ok is for values that the trial itself has made.
func ok[T any](t *testing.T) func(x T, err error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

func TestHydrometerCorrections(t *testing.T) {
	holds(t, func(c cellar) []tried {
		made := []float64{15, 15.5556, 20}[c.IntN(3)]
		h := gravity.NewHydrometer(units.Celsius(made))
		reading, at := c.reading(c.between(1.0, 1.12), 0.001), c.reading(c.between(8, 30), 1)
		strength := c.reading(c.between(4, 20), 0.5)
		model := func() float64 { return 0.00005 * c.NormFloat64() }
		return []tried{
			{"hydrometer in must", ok[uncertainty.Result](t)(h.CorrectWithin(reading, at)), func() (float64, error) {
				g, err := h.Correct(gravity.SG(c.one(reading)), units.Celsius(c.one(at)))
				return float64(g) + model(), err
			}},
			{"hydrometer in wine", ok[uncertainty.Result](t)(h.CorrectInWithin(strength, reading, at)), func() (float64, error) {
				g, err := h.CorrectIn(units.Strength(c.one(strength)), gravity.SG(c.one(reading)), units.Celsius(c.one(at)))
				return float64(g) + model(), err
			}},
		}
	})
}

func TestRefractometerCorrection(t *testing.T) {
	holds(t, func(c cellar) []tried {
		reading, at := c.reading(c.between(8, 30), 0.2), c.reading(c.between(12, 26), 1)
		return []tried{{"refractometer in must", ok[uncertainty.Result](t)(gravity.NewRefractometer().CorrectWithin(reading, at)), func() (float64, error) {
			b, err := gravity.NewRefractometer().Correct(gravity.Brix(c.one(reading)), units.Celsius(c.one(at)))
			return float64(b) + 0.01*c.NormFloat64(), err
		}}}
	})
}

func TestFermentationBalance(t *testing.T) {
	holds(t, func(c cellar) []tried {
		y := []abv.Yield{abv.Fruit, abv.Wort}[c.IntN(2)]
		og, fg := c.reading(c.between(1.06, 1.12), 0.001), c.reading(c.between(1.0, 1.05), 0.001)
		yeast := uncertainty.Input{Value: y.Yeast, Standard: math.Hypot(0.05/1.96, y.Yeast-0.09)}
		return []tried{{"fermentation balance", ok[uncertainty.Result](t)(abv.MassBalanceWithin(og, fg, y)), func() (float64, error) {
			f, err := abv.MassBalance(gravity.SG(c.one(og)), gravity.SG(c.one(fg)), abv.Yield{CarbonDioxide: y.CarbonDioxide, Yeast: max(0, c.one(yeast))})
			return float64(f.Strength) + 0.17*c.NormFloat64(), err
		}}}
	})
}

func TestTwoInstruments(t *testing.T) {
	holds(t, func(c cellar) []tried {
		wine := ok[abv.Composition](t)(abv.Compose(units.Strength(c.between(8, 22)), units.Concentration(c.between(20, 140))))
		b := brixOf(t, wine)
		h, r := c.reading(float64(wine.Gravity), 0.0005), c.reading(b, 0.1)
		var in abv.Solutes
		find := func(h gravity.SG, b gravity.Brix) (units.Strength, error) {
			got, err := abv.TwoInstruments(h, b)
			return got.Strength, err
		}
		if c.IntN(10) == 0 { // these cost more
			in = abv.Solutes{Invert: 1, Glycerol: 6, Acid: 6}
			find = func(h gravity.SG, b gravity.Brix) (units.Strength, error) {
				got, err := abv.TwoInstrumentsIn(h, b, in)
				return got.Strength, err
			}
		}
		d := ok[abv.Determination](t)(abv.TwoInstrumentsIn(wine.Gravity, gravity.Brix(b), in))
		return []tried{{"two instruments", ok[uncertainty.Result](t)(abv.TwoInstrumentsWithin(h, r, in)), func() (float64, error) {
			got, err := find(gravity.SG(c.one(h)), gravity.Brix(c.one(r)))
			return float64(got) + float64(d.Model)*c.NormFloat64(), err
		}}}
	})
}

// brixOf is what a refractometer shows in a wine, found by halving.
func brixOf(t *testing.T, wine abv.Composition) float64 {
	t.Helper()
	lo, hi := 0.0, 60.0
	for range 60 {
		b := (lo + hi) / 2
		got, err := abv.TwoInstruments(wine.Gravity, gravity.Brix(b))
		if err == nil && got.Strength > wine.Strength || err != nil && b > 40 {
			hi = b
		} else {
			lo = b
		}
	}
	return lo
}

func TestBoilOff(t *testing.T) {
	holds(t, func(c cellar) []tried {
		wine := ok[abv.Composition](t)(abv.Compose(units.Strength(c.between(8, 22)), units.Concentration(c.between(20, 140))))
		residue := ok[abv.Composition](t)(abv.Compose(0, wine.Extract))
		w, r := c.reading(float64(wine.Gravity), 0.0005), c.reading(float64(residue.Gravity), 0.0005)
		classic := ok[abv.Evaporation](t)(abv.BoilOffInFull(wine.Gravity, residue.Gravity, abv.Must))
		model := math.Abs(float64(classic.Tabarie - wine.Strength))
		return []tried{{"boil-off", ok[uncertainty.Result](t)(abv.BoilOffWithin(w, r)), func() (float64, error) {
			got, err := abv.BoilOff(gravity.SG(c.one(w)), gravity.SG(c.one(r)))
			return float64(got.Strength) + model*c.NormFloat64(), err
		}}}
	})
}

func TestSugaredMust(t *testing.T) {
	holds(t, func(c cellar) []tried {
		var h gravity.Hydrometer
		reading, at := c.reading(c.between(1.03, 1.07), 0.001), c.reading(c.between(12, 28), 1)
		grams, must := c.reading(c.between(100, 400), 10), c.reading(c.between(2, 4), 0.06)
		return []tried{{"sugared must", ok[uncertainty.Result](t)(sugar.AddWithin(h, reading, at, grams, must)), func() (float64, error) {
			before, err := h.Correct(gravity.SG(c.one(reading)), units.Celsius(c.one(at)))
			if err != nil {
				return 0, err
			}
			after, _, err := sugar.Add(before, units.Volume(c.one(must)), units.Mass(c.one(grams)))
			return float64(after), err
		}}}
	})
}

// apart is the relative distance of a blend's gravity from Tabarie's sum.
func apart(m blend.Mixture) float64 {
	return math.Abs(density.Tabarie20(float64(m.Strength), float64(m.Extract))/(density.Water20*float64(m.Gravity)) - 1)
}

func (c cellar) component(x blend.Component, u blend.Uncertainty) blend.Component {
	x.Volume += u.Volume * units.Volume(c.NormFloat64())
	x.Strength += u.Strength * units.Strength(c.NormFloat64())
	x.Extract += u.Extract * units.Concentration(c.NormFloat64())
	return x
}

func TestMixture(t *testing.T) {
	holds(t, func(c cellar) []tried {
		cs := []blend.Component{
			{Name: "wine", Volume: 3, Strength: units.Strength(c.between(5, 15)), Extract: units.Concentration(c.between(40, 150))},
			{Name: "spirit", Volume: units.Volume(c.between(0.3, 2)), Strength: units.Strength(c.between(38, 80))},
		}
		us := []blend.Uncertainty{
			{Volume: units.Volume(c.between(0.01, 0.06)), Strength: units.Strength(c.between(0.1, 0.4)), Extract: units.Concentration(c.between(0.5, 4))},
			{Volume: units.Volume(c.between(0.005, 0.02)), Strength: units.Strength(c.between(0.05, 0.2))},
		}
		m := ok[blend.Mixture](t)(blend.Mix(cs...))
		s := ok[blend.Uncertain](t)(blend.MixWithin(cs, us))
		model := apart(m)
		figure := func(name string, stated uncertainty.Result, of func(m blend.Mixture, off float64) float64) tried {
			return tried{name, stated, func() (float64, error) {
				m, err := blend.Mix(c.component(cs[0], us[0]), c.component(cs[1], us[1]))
				return of(m, 1+model*c.NormFloat64()), err
			}}
		}
		return []tried{
			figure("blend, strength", s.Strength, func(m blend.Mixture, off float64) float64 { return float64(m.Strength) * off }),
			figure("blend, extract", s.Extract, func(m blend.Mixture, off float64) float64 { return float64(m.Extract) * off }),
			figure("blend, volume", s.Volume, func(m blend.Mixture, off float64) float64 { return float64(m.Volume) / off }),
			figure("blend, gravity", s.Gravity, func(m blend.Mixture, off float64) float64 { return float64(m.Gravity) * off }),
		}
	})
}

func TestSpiritToPour(t *testing.T) {
	holds(t, func(c cellar) []tried {
		base := blend.Component{Name: "wine", Volume: 3, Strength: units.Strength(c.between(5, 14)), Extract: units.Concentration(c.between(40, 150))}
		spirit := blend.Component{Name: "spirit", Strength: units.Strength(c.between(38, 80))}
		ofBase := blend.Uncertainty{Volume: 0.03, Strength: units.Strength(c.between(0.1, 0.3)), Extract: 2}
		ofSpirit := blend.Uncertainty{Strength: units.Strength(c.between(0.05, 0.2))}
		target := units.Strength(c.between(16, 20))
		f, stated, err := blend.FortifyWithin(base, spirit, target, ofBase, ofSpirit)
		if err != nil {
			t.Fatal(err)
		}
		model := apart(f.Result)
		return []tried{{"spirit to pour", stated, func() (float64, error) {
			got, err := blend.Fortify(c.component(base, ofBase), c.component(spirit, ofSpirit), target/units.Strength(1+model*c.NormFloat64()))
			return float64(got.Spirit), err
		}}}
	})
}

// The whole chain of a batch: must, stop, rack, pour. The yield lies anywhere
// within its limits; a gram of alcohol more by the balance came from its extract.
func TestArrest(t *testing.T) {
	holds(t, func(c cellar) []tried {
		a := blend.Arrest{OG: gravity.SG(c.between(1.08, 1.11)), Stop: gravity.SG(c.between(1.03, 1.06)), Yield: abv.Fruit, Must: 3, Lees: 0.15,
			Spirit: blend.Component{Name: "spirit", Volume: units.Volume(c.between(0.5, 2.5)), Strength: units.Strength(c.between(38, 60))}}
		u := blend.ArrestUncertainty{OG: 0.0006, Stop: 0.0006, Yeast: 0.05 / 1.96, Must: units.Volume(c.between(0.01, 0.05)), Lees: 0.02, SpiritVolume: 0.01, SpiritStrength: 0.15, Balance: 0.17}
		s := ok[blend.ArrestUncertain](t)(a.Within(u))
		model := apart(s.Blend)
		normal := c.NormFloat64
		run := func() (blend.Component, blend.Mixture, error) {
			b := a
			b.OG += u.OG * gravity.SG(normal())
			b.Stop += u.Stop * gravity.SG(normal())
			b.Yield.Yeast += u.Yeast * math.Sqrt(3) * c.between(-1, 1)
			b.Must += u.Must * units.Volume(normal())
			b.Lees += u.Lees * units.Volume(normal())
			b.Spirit.Volume += u.SpiritVolume * units.Volume(normal())
			b.Spirit.Strength += u.SpiritStrength * units.Strength(normal())
			f, err := abv.MassBalance(b.OG, b.Stop, b.Yield)
			if err != nil {
				return blend.Component{}, blend.Mixture{}, err
			}
			more := u.Balance * normal()
			f.Extract -= units.Concentration(more * b.Yield.PerPercent())
			f.Strength += units.Strength(more)
			base, err := blend.FromMust("wine", b.Must, f, b.Lees)
			if err != nil {
				return blend.Component{}, blend.Mixture{}, err
			}
			m, err := blend.Mix(base, b.Spirit)
			return base, m, err
		}
		ofBase := func(name string, stated uncertainty.Result, of func(blend.Component) float64) tried {
			return tried{"arrest, " + name, stated, func() (float64, error) { b, _, err := run(); return of(b), err }}
		}
		ofBlend := func(name string, stated uncertainty.Result, of func(m blend.Mixture, off float64) float64) tried {
			return tried{"arrest, " + name, stated, func() (float64, error) {
				_, m, err := run()
				return of(m, 1+model*normal()), err
			}}
		}
		return []tried{
			ofBase("strength of the wine", s.BaseStrength, func(b blend.Component) float64 { return float64(b.Strength) }),
			ofBase("extract of the wine", s.BaseExtract, func(b blend.Component) float64 { return float64(b.Extract) }),
			ofBase("volume of the wine", s.BaseVolume, func(b blend.Component) float64 { return float64(b.Volume) }),
			ofBlend("strength of the blend", s.BlendStrength, func(m blend.Mixture, off float64) float64 { return float64(m.Strength) * off }),
			ofBlend("extract of the blend", s.BlendExtract, func(m blend.Mixture, off float64) float64 { return float64(m.Extract) * off }),
			ofBlend("volume of the blend", s.BlendVolume, func(m blend.Mixture, off float64) float64 { return float64(m.Volume) / off }),
			ofBlend("gravity of the blend", s.BlendGravity, func(m blend.Mixture, off float64) float64 { return float64(m.Gravity) * off }),
		}
	})
}

// The library's own trials of the same chain, and with them the sugar of the blend.
func TestArrestByTrials(t *testing.T) {
	if testing.Short() {
		t.Skip("a million courses")
	}
	for k := range 20 {
		c := cellar{rand.New(rand.NewPCG(uint64(k), 1907))}
		a := blend.Arrest{OG: gravity.SG(c.between(1.08, 1.11)), Stop: gravity.SG(c.between(1.03, 1.06)), Yield: abv.Fruit, Must: 3, Lees: 0.15,
			Spirit: blend.Component{Name: "spirit", Volume: units.Volume(c.between(0.5, 2.5)), Strength: units.Strength(c.between(38, 60))}}
		u := blend.ArrestUncertainty{OG: 0.0006, Stop: 0.0006, Yeast: 0.05 / 1.96, Must: units.Volume(c.between(0.01, 0.05)), Lees: 0.02, SpiritVolume: 0.01, SpiritStrength: 0.15, Balance: 0.17}
		stated := ok[blend.ArrestUncertain](t)(a.Within(u))
		drawn := ok[blend.ArrestUncertain](t)(a.WithinByTrials(u, 10_000, uint64(k)))
		for name, x := range map[string][2]uncertainty.Result{
			"strength of the wine":  {stated.BaseStrength, drawn.BaseStrength},
			"volume of the wine":    {stated.BaseVolume, drawn.BaseVolume},
			"strength of the blend": {stated.BlendStrength, drawn.BlendStrength},
			"volume of the blend":   {stated.BlendVolume, drawn.BlendVolume},
			"sugar of the blend":    {stated.BlendSugar, drawn.BlendSugar},
		} {
			below, err := x[1].AtLeast(x[0].Low)
			above, err2 := x[1].AtLeast(x[0].High)
			// 10,000 draws know a deviation to 0.7 %, a share to 0.2 %.
			if ratio, share := x[0].Standard/x[1].Standard, below-above; err != nil || err2 != nil || math.Abs(ratio-1) > 0.05 || share < 0.935 || share > 0.965 {
				t.Errorf("%s, case %d: %.4g ± %.3g, trials %.4g ± %.3g; %.1f %% in the interval", name, k, x[0].Value, x[0].Standard, x[1].Value, x[1].Standard, 100*share)
			}
		}
	}
}

// Sugar found from an extract that is itself uncertain: 10 in 100 lie beyond its
// ends. What is not sugar lies on either side of the likely half of the time.
func TestSugarFromAnUncertainExtract(t *testing.T) {
	c := cellar{rand.New(rand.NewPCG(7, 1935))}
	for range 20 {
		s := abv.Sugars{Likely: 80}
		s.Low, s.High = s.Likely-units.Concentration(c.between(3, 20)), s.Likely+units.Concentration(c.between(3, 20))
		u := units.Concentration(c.between(1, 8))
		wider := ok[abv.Sugars](t)(s.Within(u))
		below, above := 0, 0
		const many = 20_000 // know a share of 5 % to 0.15 %
		for range many {
			x := units.Concentration(c.NormFloat64() / 1.645)
			y := s.Likely + x*(s.High-s.Likely)
			if x < 0 {
				y = s.Likely + x*(s.Likely-s.Low)
			}
			y += u * units.Concentration(c.NormFloat64())
			if y < wider.Low {
				below++
			}
			if y > wider.High {
				above++
			}
		}
		// 5 % in the width, as elsewhere, are 8.4 to 11.8 in 100, and 5.9 beyond one end.
		low, high := float64(below)/many, float64(above)/many
		if all := low + high; all < 0.082 || all > 0.120 || max(low, high) > 0.0625 {
			t.Errorf("%+v, extract ± %v: %+v leaves %.1f and %.1f %% beyond its ends", s, u, wider, 100*low, 100*high)
		}
	}
}
