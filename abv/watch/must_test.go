package watch

import (
	"math"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// The zero Setup stands for what its fields say.
func TestWhatAZeroSetupStandsFor(t *testing.T) {
	s, err := Setup{Must: 25}.settled()
	if err != nil || s.YeastLimit != 17.5 || s.Uncertainty != 0.0007 || s.RefractometerUncertainty != 0.2 || s.Factor != 1 || s.Yield != abv.Must ||
		s.Still != 48*time.Hour || s.Horizon != 14*24*time.Hour || s.WeighingUncertainty != 25 || SensorUncertainty != 0.002 {
		t.Errorf("%+v, %v", s, err)
	}
	if s, err := (Setup{Must: 25, WeighingUncertainty: 3, YeastLimit: 12}).settled(); err != nil || s.WeighingUncertainty != 3 || s.YeastLimit != 12 {
		t.Errorf("what was stated is %+v, %v", s, err)
	}
}

// The ends of each domain are good, and a hundredth beyond them is refused.
func TestTheDomainsOfASetup(t *testing.T) {
	const years = 5 * 365 * 24
	hours := func(x float64) time.Duration { return time.Duration(x * float64(time.Hour)) }
	for name, c := range map[string]struct {
		lo, hi float64
		of     func(x float64) Setup
	}{
		"yeast limit":      {1, 30, func(x float64) Setup { return Setup{YeastLimit: units.Strength(x)} }},
		"uncertainty":      {0.00001, 0.01, func(x float64) Setup { return Setup{Uncertainty: gravity.SG(x)} }},
		"of refractometer": {0.01, 2, func(x float64) Setup { return Setup{RefractometerUncertainty: gravity.Brix(x)} }},
		"factor":           {0.9, 1.15, func(x float64) Setup { return Setup{Factor: x} }},
		"still":            {1, years, func(x float64) Setup { return Setup{Still: hours(x)} }},
		"cooling":          {0, 5 * 24, func(x float64) Setup { return Setup{Cooling: hours(x)} }},
		"horizon":          {1, years, func(x float64) Setup { return Setup{Horizon: hours(x)} }},
	} {
		for x, good := range map[float64]bool{c.lo: true, c.hi: true, c.hi * 1.01: false, 0.99*c.lo - 1e-9: false} {
			if _, err := c.of(x).settled(); (err == nil) != good {
				t.Errorf("%s of %v: %v", name, x, err)
			}
		}
	}
}

// What a must is made from, by the balance of the package abv, and both ends of its domain.
func TestAMustIsMeasuredByItsBalance(t *testing.T) {
	m, setup := one(t, Setup{Must: 20, Factor: 1.04, YeastLimit: 10})
	dry := m.at(1)
	if w, err := abv.MassBalance(1.095, dry.Gravity, abv.Must); err != nil || math.Abs(float64(w.Extract)) > 1e-6 {
		t.Errorf("fermented out it has %v left, %v", w.Extract, err)
	}
	if !near(m.drop, float64(1.095-dry.Gravity), 1e-12) || !near(m.gas, 20*float64(dry.CarbonDioxide), 1e-12) {
		t.Errorf("the gravity falls by %v, %v g of gas leave", m.drop, m.gas)
	}
	if got := m.at(m.limit).Strength; math.Abs(float64(got-10)) > 1e-6 {
		t.Errorf("the yeast gives up at %v, stated 10", got)
	}
	if m, _ := one(t, Setup{YeastLimit: 30}); m.limit != 1 {
		t.Errorf("a yeast that ferments all has the limit %v", m.limit)
	}
	// The refractometer shows the factor times the extract, and falls by two thirds of it.
	plato, err := gravity.SG(1.095).Plato()
	if err != nil || !near(m.brix, 1.04*float64(plato), 1e-9) || !near(m.fall, 2*m.brix/3, 1e-12) {
		t.Errorf("it shows %v and falls by %v, %v", m.brix, m.fall, err)
	}
	for og, good := range map[gravity.SG]bool{1.0099: false, 1.0101: true, 1.349: true, 1.351: false} {
		if _, err := newMust(Reading{Reading: og, Time: noon}, setup); (err == nil) != good {
			t.Errorf("a must of %v: %v", og, err)
		}
	}
}

// Where the earliest reading is a refractometer's the must is its reading over the
// factor; a hydrometer's counts as made at 20 C where no temperature was noted.
func TestTheMustOfTheEarliestReading(t *testing.T) {
	setup, err := Setup{Factor: 1.1}.settled()
	if err != nil {
		t.Fatal(err)
	}
	want, _ := gravity.Brix(20).SG()
	if m, err := newMust(Reading{Refractometer: 22}, setup); err != nil || math.Abs(float64(m.og-want)) > 1e-9 {
		t.Errorf("22 Brix at 1.1: %v, want %v, %v", m.og, want, err)
	}
	warm, err := newMust(Reading{Reading: 1.09, Temperature: units.Celsius(30)}, setup)
	if err != nil || warm.og < 1.0915 {
		t.Errorf("1.090 at 30 C: %v, %v", warm.og, err)
	}
	if m, err := newMust(Reading{Reading: 1.09}, setup); err != nil || !near(float64(m.og), 1.09, 1e-9) {
		t.Errorf("1.090: %v, %v", m.og, err)
	}
	m, _ := one(t, Setup{})
	bare, err1 := m.read(0, Reading{Reading: 1.05})
	at20, err2 := m.read(0, Reading{Reading: 1.05, Temperature: units.Celsius(20)})
	if err1 != nil || err2 != nil || bare.used != at20.used {
		t.Errorf("1.050: %v, at 20 C %v, %v, %v", bare.used, at20.used, err1, err2)
	}
}

// Each instrument gives the share used that makes the wine which it shows, as uncertain
// as it is.
func TestWhatEachInstrumentMeans(t *testing.T) {
	m, _ := one(t, Setup{Must: 20})
	m.start = 30000
	for used := 0.05; used < 1; used += 0.1 {
		wine := m.at(used)
		for name, l := range map[string]Reading{
			"hydrometer": {Reading: wine.Gravity},
			"scale":      {Mass: units.Mass(30000 - 20*float64(wine.CarbonDioxide))},
		} {
			if r, err := m.read(3, l); err != nil || math.Abs(r.used-used) > 1e-6 || r.index != 3 {
				t.Errorf("%s: %v used, made of %v, %v", name, r.used, used, err)
			}
		}
		h := 1e-4
		if want := float64(m.at(used-h).Gravity-m.at(used+h).Gravity) / (2 * h); !near(m.steepness(used), want, 1e-3) {
			t.Errorf("falls by %v per share at %v, by differences %v", m.steepness(used), used, want)
		}
	}
	for used, inside := range map[float64]float64{0: 0.003, 1: 0.997} {
		const h = 1e-3
		if want := float64(m.at(inside-h).Gravity-m.at(inside+h).Gravity) / (2 * h); !near(m.steepness(used), want, 2e-3) {
			t.Errorf("falls by %v per share at %v, by differences %v", m.steepness(used), used, want)
		}
	}
	hydrometer, _ := m.read(0, Reading{Reading: 1.05})
	refractometer, _ := m.read(0, Reading{Refractometer: 15})
	scale, _ := m.read(0, Reading{Mass: 29000})
	if !near(hydrometer.uncertainty, 0.0007/m.drop, 1e-9) || !near(refractometer.uncertainty, 0.2/(m.brix*2/3), 1e-9) || !near(scale.uncertainty, 20/m.gas, 1e-9) {
		t.Errorf("uncertain by %v, %v, %v", hydrometer.uncertainty, refractometer.uncertainty, scale.uncertainty)
	}
	m.setup.WeighingUncertainty = 1e-9 // so well no scale knows it
	if _, uncertainty, _ := m.fromScale(29000, 0); uncertainty != 1e-6 {
		t.Errorf("uncertain by %v of the whole", uncertainty)
	}
	// Beyond its ends a refractometer goes on at its whole fall: 3 Brix above the must, and
	// below the least that it shows in any wine of it.
	if got, err := m.fromRefractometer(gravity.Brix(m.brix + 3)); err != nil || !near(got, -3/m.fall, 1e-9) {
		t.Errorf("3 Brix above the must: %v, %v", got, err)
	}
	one, err1 := m.fromRefractometer(2)
	two, err2 := m.fromRefractometer(1)
	if err1 != nil || err2 != nil || one <= 1 || !near(two-one, 1/m.fall, 1e-9) {
		t.Errorf("at 2 Brix %v, at 1 %v, %v, %v", one, two, err1, err2)
	}
	edge := 2 + (one-1)*m.fall // the least
	if got, err := m.fromRefractometer(gravity.Brix(edge + 1e-6)); err != nil || math.Abs(got-1) > 1e-4 {
		t.Errorf("at the least that it shows: %v, %v", got, err)
	}
}

// Readings that no must and no wine shows are refused, each at its own end.
func TestTheDomainsOfReadings(t *testing.T) {
	m, _ := one(t, Setup{Must: 20})
	for name, c := range map[string]struct {
		lo, hi float64
		least  bool // below the lower end it is refused
		read   func(x float64) error
	}{
		"hydrometer":    {0.95, 1.36, true, func(x float64) error { _, err := m.fromHydrometer(gravity.SG(x), 0); return err }},
		"refractometer": {1, 70, false, func(x float64) error { _, err := m.fromRefractometer(gravity.Brix(x)); return err }},
		"mass":          {1e-6, 1e6, true, func(x float64) error { m.start = 1e6; _, _, err := m.fromScale(units.Mass(x), 0); return err }},
		"mass at first": {1e-6, 1e6, true, func(x float64) error { m.start = units.Mass(x); _, _, err := m.fromScale(1e6, 0); return err }},
		"temperature":   {0, 40, true, func(x float64) error { m.start = 1e6; _, _, err := m.fromScale(1e6, units.Celsius(x)); return err }},
	} {
		for x, good := range map[float64]bool{c.lo: true, c.hi: true, c.lo - max(c.lo, 1e-4)/100: !c.least} {
			if err := c.read(x); (err == nil) != good {
				t.Errorf("%s of %v: %v", name, x, err)
			}
		}
		if err := c.read(c.hi * 1.01); err == nil && c.hi < 100 {
			t.Errorf("%s of %v is read", name, c.hi*1.01)
		}
	}
}
