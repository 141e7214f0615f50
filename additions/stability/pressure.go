package stability

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/molar"
	"example.org/mutage/internal/solve"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A Bottle is closed at 20 C under air.
type Closed struct {
	Volume    units.Volume        // brimful
	Headspace units.Volume        // at closing
	CO2       units.Concentration // dissolved at closing; see DissolvedCO2
	Rated     units.Pressure      // overpressure that bottle and closure are made for; 0: not known
}

// Sealed is what a bottle comes to when its wine ferments on.
type Sealed struct {
	Strength     units.Strength
	Sugar        units.Concentration
	CO2          units.Concentration // formed, per litre of the wine bottled
	Headspace    units.Volume        // at the temperature asked
	Overpressure units.Pressure      // what a gauge shows: CO2 and the air
	Limits       []PressureLimit
	Warning      string
}

// PressureLimit is what a kind of bottle or closure is held to.
type PressureLimit struct {
	Name     string
	Limit    units.Pressure
	Exceeded bool
	Source   string
}

var pressureLimits = []PressureLimit{
	{"still wine under straight natural cork, at 20 C", 1 * units.Bar, false, "CETIE Guide No. 1 (2008), Still wines bottling"},
	{"semi-sparkling wine, at 20 C", 2.5 * units.Bar, false, "Reg. (EC) 1493/99"},
	{"sparkling wine by the traditional method, near 12 C", 6 * units.Atmosphere, false, "Oxford Companion to Wine, 3rd ed. (2006), second fermentation: 5 to 6 atm from 24 g/L"},
}

// BurstWarning stands with every pressure.
const BurstWarning = "Wine that ferments in a closed bottle can burst it; flying glass blinds and cuts. An ordinary wine bottle, a jar or any bottle with a flaw is not made for pressure. Do not close wine that may ferment."

// Solubility of CO2 in wine at 20 C in g/L per bar of CO2: Commission
// Regulation (EEC) 2676/90, ch. 37. Strength in % vol, sugar in g/L. The domain
// is ours: where both brackets stay well above 0.
func solubility20(strength, sugar float64) (float64, error) {
	if err := check.First(units.Check("strength", strength, 0, 25, "% vol", sourceCO2), units.Check("sugar", sugar, 0, 400, "g/L", sourceCO2)); err != nil {
		return 0, err
	}
	return 1.951 * (0.86 - 0.01*strength) * (1 - 0.00144*sugar), nil
}

const sourceCO2 = "solubility of CO2 in wine, Regulation (EEC) 2676/90 ch. 37"

// Overpressure at 20 C over that at another temperature, from memory
// (OIV-MA-AS314-02); the logarithm is taken straight between the rows.
var overpressureFactor = [][2]float64{{0, 1.85}, {10, 1.36}, {15, 1.16}, {20, 1}, {25, 0.88}}

// solubility in g/L per bar at t C: that at 20 C times the factor.
func solubility(strength, sugar, t float64) (float64, error) {
	k, err := solubility20(strength, sugar)
	if err := check.First(err, units.Check("temperature", t, 0, 25, "C", "conversion factors of OIV-MA-AS314-02, from memory")); err != nil {
		return 0, err
	}
	i, part := table.Between(overpressureFactor, t)
	from, to := overpressureFactor[i][1], overpressureFactor[i+1][1]
	return k * from * math.Pow(to/from, part), nil
}

// DissolvedCO2 is the CO2 that wine holds under so much absolute CO2 pressure:
// under an airlock, 1.013 bar. Domain: strength 0 to 25 % vol, sugar 0 to 400
// g/L, 0 to 25 C, pressure 0 to 15 bar. At 20 C by Regulation (EEC) 2676/90;
// elsewhere with factors from memory, 9 % below a printed Henry constant of
// champagne at 10 C. Error: *units.RangeError.
func DissolvedCO2(s units.Strength, sugar units.Concentration, t units.Temperature, p units.Pressure) (units.Concentration, error) {
	k, err := solubility(float64(s), float64(sugar), t.Celsius())
	if err := check.First(err, units.Check("pressure", float64(p), 0, 1500, "kPa", check.Bound)); err != nil {
		return 0, err
	}
	return units.Concentration(k * p.In(units.Bar)), nil
}

// SealedPressure is the pressure in a closed bottle at a temperature, once the
// yeast has taken the sugar or reached its limit (20 % vol where the wine's
// Tolerance is not known). The volumes are those of the three-component
// liquid; CO2 divides between wine and headspace (ideal gas), the air that was
// there stays. Glass is rigid, nothing leaks. Domain: strength 0 to 25 % vol and
// sugar 0 to 400 g/L before and after, 0 to 25 C, headspace above 0. Error:
// *units.RangeError. At 20 C by Regulation (EEC) 2676/90 ch. 37; the other
// temperatures by factors from memory. Above 10 bar or so the figure only says
// that any bottle bursts. A warmer bottle is worse.
func SealedPressure(w Wine, b Closed, t units.Temperature) (Sealed, error) {
	fill := b.Volume - b.Headspace
	_, err := solubility20(float64(w.Strength), float64(w.Sugar))
	if err := check.First(err, units.Check("bottle", float64(b.Volume), 1e-3, 1e4, "L", check.Bound),
		units.Check("headspace", float64(b.Headspace), 1e-3*float64(b.Volume), 0.95*float64(b.Volume), "L", check.Bound),
		units.Check("temperature", t.Celsius(), 0, 25, "C", "conversion factors of OIV-MA-AS314-02, from memory"),
		units.Check("tolerance of the yeast", float64(w.Tolerance), 0, 25, "% vol", sourceCO2),
		check.Level("dissolved CO2", b.CO2, 20), units.Check("rated overpressure", float64(b.Rated), 0, 2000, "kPa", check.Bound)); err != nil {
		return Sealed{}, err
	}
	limit := float64(w.Tolerance)
	if limit == 0 {
		limit = toleranceHigh
	}
	before, err := liquid.PerLitre(w.Strength, w.Sugar)
	if err != nil {
		return Sealed{}, err
	}
	x := 0.0
	if float64(w.Strength) < limit {
		if x, err = fermented(before, limit); err != nil {
			return Sealed{}, err
		}
	}
	after := before.Plus(fermentation, x)
	made := after.Properties() // of what a litre has become
	out := Sealed{Strength: made.Strength, Sugar: made.Extract, CO2: units.Concentration(molar.CarbonDioxideOfHexose * x), Warning: BurstWarning}
	k, err := solubility(float64(out.Strength), float64(out.Sugar), t.Celsius())
	if err != nil {
		return Sealed{}, err
	}
	out.Headspace = b.Volume - fill*units.Volume(after.VolumeAt(t.Celsius()))
	if err := units.Check("headspace left by the liquid", float64(out.Headspace), 1e-4*float64(b.Volume), float64(b.Volume), "L", "the liquid alone would burst the bottle"); err != nil {
		return Sealed{}, err
	}
	kelvin := t.Celsius() + 273.15
	gas := 100 * molar.CarbonDioxide / (molar.Gas * kelvin) // g/L per bar, ideal
	co2 := float64(fill) * float64(out.CO2+b.CO2) / (k*float64(fill)*made.Volume + gas*float64(out.Headspace))
	air := units.Atmosphere.In(units.Bar) * kelvin / 293.15 * float64(b.Headspace/out.Headspace)
	out.Overpressure = units.Pressure(co2+air)*units.Bar - units.Atmosphere
	out.Limits = append(out.Limits, pressureLimits...)
	if b.Rated > 0 {
		out.Limits = append(out.Limits, PressureLimit{Name: "this bottle", Limit: b.Rated, Source: "as stated"})
	}
	for i := range out.Limits {
		out.Limits[i].Exceeded = out.Overpressure > out.Limits[i].Limit
	}
	return out, nil
}

// fermentation is what a gram of fermented sugar changes in the wine.
var fermentation = liquid.Masses{Ethanol: molar.EthanolOfHexose, Sucrose: -1}

// fermented is the sugar, g from a litre, that goes until none is left or the
// strength is the limit.
func fermented(litre liquid.Masses, limit float64) (float64, error) {
	want := limit / 100 * density.PureEthanol
	over := func(x float64) (float64, float64) {
		m := litre.Plus(fermentation, x)
		p := m.Partials()
		return m.Ethanol - want*p.V, molar.EthanolOfHexose - want*fermentation.In(p)
	}
	if y, _ := over(litre.Sucrose); y <= 0 {
		return litre.Sucrose, nil
	}
	x, err := solve.Rising(over, litre.Sucrose/2, 0, litre.Sucrose, 1e-9, 1e-9)
	if err != nil {
		return 0, fmt.Errorf("sugar that ferments to %.4g %% vol: %w", limit, err)
	}
	return x, nil
}
