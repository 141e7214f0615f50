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

// watchMust is the must that is watched. Its progress is counted as the share of
// the extract that is used, which is linear in the alcohol made and in the gas
// that has left.
type must struct {
	balance.Must
	plan  Setup
	og    gravity.SG
	start units.Mass // of the vessel, zero where it was not weighed
	drop  float64    // of the gravity when all extract is used
	gas   float64    // g that have left the vessel then
	limit float64    // share used where the yeast gives up, at most 1
}

// watchThinnest is the least original gravity: the drop of thinner must is lost
// in the doubt of the readings.
const thinnest = 1.01

// watchRead is a reading that can be read, in terms of the must. used may lie
// a little outside 0 to 1 until it is sifted.
type read struct {
	index       int
	time        time.Time
	at          units.Temperature
	used, doubt float64
}

func newWatchMust(first Reading, plan Setup) (must, error) {
	m := must{plan: plan, start: first.Mass, limit: 1}
	at := orUsual(first.Temperature)
	var err error
	if m.og, err = plan.Hydrometer.Correct(first.Reading, at); err != nil {
		return m, err
	}
	if err := units.Check("original gravity", float64(m.og), thinnest, density.HeaviestGravity, "", density.SourceSucrose); err != nil {
		return m, err
	}
	if m.Must, err = balance.Of(float64(m.og), balance.Yield(plan.Yield)); err != nil {
		return m, err
	}
	dry := m.at(1)
	m.drop, m.gas = float64(m.og-dry.Gravity), float64(dry.CarbonDioxide)*float64(plan.Must)
	if plan.YeastLimit < dry.Strength {
		a, err := m.ForStrength(plan.YeastLimit)
		if err != nil {
			return m, err
		}
		m.limit = a / m.Most()
	}
	return m, nil
}

// orUsual is the temperature of a sample; 20 C where it was not stated.
func orUsual(s units.Temperature) units.Temperature {
	if s.Stated() {
		return s
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

// usedAt is the share that is used at a true gravity.
func (m *must) usedAt(g gravity.SG) (float64, error) {
	f, err := abv.MassBalance(m.og, g, m.plan.Yield)
	return float64(f.SugarUsed) / m.ExtractPerLitre(), err
}

// read turns a line of the log into a share used.
func (m *must) read(index int, l Reading) (read, error) {
	r := read{index: index, time: l.Time, at: l.Temperature}
	var err error
	switch {
	case l.Reading != 0:
		r.doubt = float64(m.plan.Doubt) / m.drop
		r.used, err = m.fromSpindle(l.Reading, l.Temperature)
	case l.Mass != 0:
		r.used, r.doubt, err = m.fromScale(l.Mass, l.Temperature)
	default:
		err = errNothingRead
	}
	return r, err
}

var errNothingRead = errors.New("neither a gravity nor a mass of the vessel")

// fromSpindle solves for the share used at which the spindle shows this reading
// at this temperature: alcohol makes the must expand more than sugar alone.
func (m *must) fromSpindle(reading gravity.SG, s units.Temperature) (float64, error) {
	const lightest, heaviest = 0.95, 1.36 // of any must or wine, 0 to 40 C
	if err := units.Check("hydrometer reading", float64(reading), lightest, heaviest, "", "must and wine"); err != nil {
		return 0, err
	}
	t := orUsual(s)
	shows := func(used float64) (float64, error) {
		wine := m.at(used)
		g, err := m.plan.Hydrometer.Shows(wine.Strength, wine.Extract, t)
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

// fromScale is the share used when the vessel has come to this mass.
func (m *must) fromScale(mass units.Mass, s units.Temperature) (used, doubt float64, err error) {
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
		{"volume of must, which a weighed log needs,", float64(m.plan.Must), 1e-6, "L"},
		{"mass of the vessel at the start", float64(m.start), 1e-6, "g"},
		{"mass of the vessel", float64(mass), 1e-6, "g"},
	} {
		if err := units.Check(c.quantity, c.x, c.lo, check.MostVolume, c.unit, ""); err != nil {
			return 0, 0, err
		}
	}
	return float64(m.start-mass) / m.gas, math.Max(float64(m.plan.WeighingDoubt)/m.gas, 1e-6), nil
}
