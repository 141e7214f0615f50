package watch

import (
	"errors"
	"math"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// must is the must that is followed. Its progress is counted as the share of the
// extract that is used, which is linear in the alcohol made and in the gas that
// has left.
type must struct {
	balance.Must
	setup Setup
	og    gravity.SG
	start units.Mass // of the vessel, zero where it was not weighed
	drop  float64    // of the gravity when all extract is used
	gas   float64    // g that have left the vessel then
	brix  float64    // that the refractometer shows in it, by its factor
	fall  float64    // of the refractometer when all extract is used
	limit float64    // share used where the yeast gives up, at most 1
}

// thinnest is the least original gravity: the drop of thinner must is lost in the
// uncertainty of the readings.
const thinnest = 1.01

// read is a reading in terms of the must. used may lie a little outside 0 to 1
// until it is sifted.
type read struct {
	index             int
	time              time.Time
	at                units.Temperature
	used, uncertainty float64
}

func newMust(first Reading, setup Setup) (must, error) {
	m := must{setup: setup, start: first.Mass, limit: 1}
	var err error
	if m.og, err = originalGravity(first, setup); err != nil {
		return m, err
	}
	if err := units.Check("original gravity", float64(m.og), thinnest, density.HeaviestGravity, "", density.SourceSucrose); err != nil {
		return m, err
	}
	if m.Must, err = balance.Of(float64(m.og), balance.Yield(setup.Yield)); err != nil {
		return m, err
	}
	dry := m.at(1)
	m.drop, m.gas = float64(m.og-dry.Gravity), float64(dry.CarbonDioxide)*float64(setup.Must)
	m.brix = m.Extract * setup.Factor
	// Fermented out, a must of 10 to 30 Brix shows about a third of what it showed.
	m.fall = m.brix * 2 / 3
	if setup.YeastLimit < dry.Strength {
		a, err := m.ForStrength(setup.YeastLimit)
		if err != nil {
			return m, err
		}
		m.limit = a / m.Most()
	}
	return m, nil
}

// originalGravity is what was stated, or what the first reading says.
func originalGravity(first Reading, setup Setup) (gravity.SG, error) {
	switch {
	case setup.Original != 0:
		return setup.Original, nil
	case first.Reading == 0 && first.Refractometer != 0:
		return (first.Refractometer / gravity.Brix(setup.Factor)).SG()
	case first.Reading == 0:
		return 0, errNoOriginal
	}
	return setup.Hydrometer.Correct(first.Reading, sample(first.Temperature))
}

var (
	errNoOriginal  = errors.New("no original gravity: the earliest reading needs one, or Setup.Original")
	errNothingRead = errors.New("neither a gravity nor a refractometer reading nor a mass of the vessel")
)

// sample is the temperature of a sample; 20 C where it was not stated.
func sample(at units.Temperature) units.Temperature {
	if at.Stated() {
		return at
	}
	return units.Celsius(20)
}

// at is the wine when this share of the extract is used.
func (m *must) at(used float64) abv.Fermented {
	return abv.Fermented(balance.Ferment[gravity.SG](&m.Must, used*m.Most()))
}

// steepness is the fall of the gravity per share used, about this share.
func (m *must) steepness(used float64) float64 {
	lo, hi := max(used-0.005, 0), min(used+0.005, 1)
	return float64(m.at(lo).Gravity-m.at(hi).Gravity) / (hi - lo)
}

// read turns a line of the log into a share used.
func (m *must) read(index int, l Reading) (read, error) {
	r := read{index: index, time: l.Time, at: l.Temperature}
	var err error
	switch {
	case l.Reading != 0:
		r.uncertainty = float64(m.setup.Uncertainty) / m.drop
		r.used, err = m.fromHydrometer(l.Reading, l.Temperature)
	case l.Refractometer != 0:
		r.uncertainty = float64(m.setup.RefractometerUncertainty) / m.fall
		r.used, err = m.fromRefractometer(l.Refractometer)
	case l.Mass != 0:
		r.used, r.uncertainty, err = m.fromScale(l.Mass, l.Temperature)
	default:
		err = errNothingRead
	}
	return r, err
}

// fromHydrometer solves for the share used at which the hydrometer shows this
// reading at this temperature: alcohol makes the must expand more than sugar
// alone.
func (m *must) fromHydrometer(reading gravity.SG, s units.Temperature) (float64, error) {
	const lightest, heaviest = 0.95, 1.36 // of any must or wine, 0 to 40 C
	if err := units.Check("hydrometer reading", float64(reading), lightest, heaviest, "", "must and wine"); err != nil {
		return 0, err
	}
	t := sample(s)
	shows := func(used float64) (float64, error) {
		wine := m.at(used)
		g, err := m.setup.Hydrometer.Shows(wine.Strength, wine.Extract, t)
		return float64(g), err
	}
	top, err := shows(0)
	if err != nil {
		return 0, err
	}
	bottom, err := shows(1)
	if err != nil {
		return 0, err
	}
	fallen := (top - float64(reading)) / (top - bottom)
	if fallen <= 0 || fallen >= 1 {
		return fallen, nil
	}
	return solve.Rising(func(used float64) (float64, float64) {
		g, _ := shows(used) // its ends were good
		return float64(reading) - g, top - bottom
	}, fallen, 0, 1, 1e-9, 0)
}

// fromRefractometer is the share used at which a refractometer shows so much. A
// reading above that of the must lies as far before the start.
func (m *must) fromRefractometer(shown gravity.Brix) (float64, error) {
	if err := units.Check("refractometer reading", float64(shown), 0, 70, "Brix", "must and wine"); err != nil {
		return 0, err
	}
	if float64(shown) >= m.brix {
		return (m.brix - float64(shown)) / m.fall, nil
	}
	wine, err := abv.FromRefractometer(gravity.Brix(m.brix), shown, m.setup.Factor, m.setup.Yield)
	var outside *units.RangeError
	if errors.As(err, &outside) && float64(shown) < outside.Min {
		return 1 + (outside.Min-float64(shown))/m.fall, nil // below fermented out: sifted
	}
	return float64(wine.SugarUsed) / m.ExtractPerLitre(), err
}

// fromScale is the share used when the vessel has come to this mass.
func (m *must) fromScale(mass units.Mass, s units.Temperature) (used, uncertainty float64, err error) {
	if s.Stated() {
		if err := units.Check("temperature of the must", s.Celsius(), 0, 40, "C", ""); err != nil {
			return 0, 0, err
		}
	}
	for _, c := range [...]struct {
		quantity string
		x, lo    float64
		unit     string
	}{
		{"mass of the vessel at the start", float64(m.start), 1e-6, "g"},
		{"mass of the vessel", float64(mass), 1e-6, "g"},
	} {
		if err := units.Check(c.quantity, c.x, c.lo, check.MostVolume, c.unit, ""); err != nil {
			return 0, 0, err
		}
	}
	return float64(m.start-mass) / m.gas, math.Max(float64(m.setup.WeighingUncertainty)/m.gas, 1e-6), nil
}
