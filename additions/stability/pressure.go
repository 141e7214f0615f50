package stability

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/molar"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// Closed is a bottle that was closed at 20 C under air.
type Closed struct {
	Volume    units.Volume        // brimful
	Headspace units.Volume        // at closing
	CO2       units.Concentration // dissolved at closing; see DissolvedCO2
	Rated     units.Pressure      // overpressure that bottle and closure are made for; 0: not known
}

// Sealed is what a bottle comes to when its wine ferments on.
type Sealed struct {
	Strength     units.Strength
	Sugar        units.Concentration // left, of the high end
	CO2          units.Concentration // formed, per litre of the wine bottled
	Headspace    units.Volume        // at the temperature asked
	Overpressure units.Pressure      // what a gauge shows: CO2 and the air
	Limits       []PressureLimit
	Warning      string
}

// PressureLimit is what a bottle or a closure is made for.
type PressureLimit struct {
	Name     string
	Limit    units.Pressure
	Exceeded bool
	Source   string
}

var pressureLimits = []PressureLimit{
	{"straight natural cork in still wine, at 20 C", 1 * units.Bar, false, "CETIE Guide No. 1 (2008), Still wines bottling"},
	{"bottle and cork for the traditional method, near 12 C, in sound condition", 6 * units.Atmosphere, false, "Oxford Companion to Wine, 3rd ed. (2006), second fermentation: 5 to 6 atm from 24 g/L"},
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

const (
	sourceCarroll   = "Carroll, Slupsky & Mather, J. Phys. Chem. Ref. Data 20:1201 (1991)"
	mostGasCelsius  = 40.0
	gasReference    = 293.15 // K, the temperature of the regulation
	sourceGasHotter = "temperature dependence of CO2 in water, " + sourceCarroll
)

// henry is the logarithm of Henry's constant of CO2 in water in MPa per mole
// fraction at a temperature in kelvin: Carroll, Slupsky & Mather (1991), for 0 to
// 160 C.
func henry(kelvin float64) float64 {
	x := 1 / kelvin
	return -6.8346 + x*(1.2817e4+x*(-3.7668e6+x*2.997e8))
}

// solubility in g/L per bar at t C: the regulation's at 20 C, with the temperature
// dependence of water.
func solubility(strength, sugar, t float64) (float64, error) {
	k, err := solubility20(strength, sugar)
	if err := check.First(err, units.Check("temperature", t, 0, mostGasCelsius, "C", sourceGasHotter)); err != nil {
		return 0, err
	}
	return k * math.Exp(henry(gasReference)-henry(t+273.15)), nil
}

// DissolvedCO2 is the CO2 that wine holds under so much absolute CO2 pressure:
// under an airlock, 1.013 bar. Domain: strength 0 to 25 % vol, fermentable sugar 0
// to 400 g/L, 0 to 40 C, pressure 0 to 15 bar. At 20 C by Regulation (EEC) 2676/90
// ch. 37; elsewhere with the temperature dependence of water (Carroll, Slupsky &
// Mather 1991). Beer tables have 5 to 10 % more CO2 at the same pressure. Error:
// *units.RangeError.
func DissolvedCO2(s units.Strength, sugar units.Concentration, t units.Temperature, p units.Pressure) (units.Concentration, error) {
	k, err := solubility(float64(s), float64(sugar), t.Celsius())
	if err := check.First(err, units.Check("pressure", float64(p), 0, 1500, "kPa", check.Bound)); err != nil {
		return 0, err
	}
	return units.Concentration(k * p.In(units.Bar)), nil
}

// fermentsTo is the strength in % vol to which a wine may ferment on: where
// alcohol alone is a barrier that holds. A stated limit is that of one yeast.
func (w Wine) fermentsTo() float64 {
	_, holds := holdingStrength(float64(w.YeastLimit))
	return holds
}

// SealedPressure is the pressure in a closed bottle at a temperature, once yeast
// has taken the sugar or come to where alcohol alone holds it: 20 % vol where the
// wine's YeastLimit is not stated, else that limit and 1, and 17.5 at least. It is
// taken at the unfavourable ends: the high end of the sugar, the low end of the
// strength. The volumes are those of the three-component liquid; CO2 divides
// between wine and headspace (ideal gas), the air that was there stays. Glass is
// rigid, nothing leaks. Domain: strength 0 to 25 % vol and sugar 0 to 400 g/L before
// and after, 0 to 40 C, headspace above 0. Error: *units.RangeError. CO2 as
// DissolvedCO2: against beer tables the pressure is 5 to 10 % high, which is the
// safe side. Above 10 bar or so the figure only says that any bottle bursts. A warmer
// bottle is worse.
func SealedPressure(w Wine, b Closed, t units.Temperature) (Sealed, error) {
	if err := check.First(w.check(), b.check(), units.Check("temperature", t.Celsius(), 0, mostGasCelsius, "C", sourceGasHotter),
		units.Check("limit of the yeast", float64(w.YeastLimit), 0, 24, "% vol", sourceCO2)); err != nil {
		return Sealed{}, err
	}
	strength := max(0, w.Strength-oneSided*w.StrengthUncertainty)
	if _, err := solubility20(float64(strength), float64(w.Sugar.High)); err != nil {
		return Sealed{}, err
	}
	before, err := liquid.PerLitre(strength, w.Sugar.High)
	if err != nil {
		return Sealed{}, err
	}
	x := 0.0
	if limit := w.fermentsTo(); float64(strength) < limit {
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
	if err := out.fill(b, t, k, made.Volume, after.VolumeAt(t.Celsius())); err != nil {
		return Sealed{}, err
	}
	out.compare(b.Rated)
	return out, nil
}

func (b Closed) check() error {
	return check.First(units.Check("bottle", float64(b.Volume), 1e-3, 1e4, "L", check.Bound),
		units.Check("headspace", float64(b.Headspace), 1e-3*float64(b.Volume), 0.95*float64(b.Volume), "L", check.Bound),
		check.Level("dissolved CO2", b.CO2, 20), units.Check("rated overpressure", float64(b.Rated), 0, 2000, "kPa", check.Bound))
}

// fill divides the gas between the wine and the headspace: k is the solubility in
// g/L per bar, at20 and now are the litres that a litre bottled has become.
func (s *Sealed) fill(b Closed, t units.Temperature, k, at20, now float64) error {
	fill := b.Volume - b.Headspace
	s.Headspace = b.Volume - fill*units.Volume(now)
	if err := units.Check("headspace left by the liquid", float64(s.Headspace), 1e-4*float64(b.Volume), float64(b.Volume), "L", "the liquid alone would burst the bottle"); err != nil {
		return err
	}
	kelvin := t.Celsius() + 273.15
	gas := 100 * molar.CarbonDioxide / (molar.Gas * kelvin) // g/L per bar, ideal
	co2 := float64(fill) * float64(s.CO2+b.CO2) / (k*float64(fill)*at20 + gas*float64(s.Headspace))
	air := units.Atmosphere.In(units.Bar) * kelvin / gasReference * float64(b.Headspace/s.Headspace)
	s.Overpressure = units.Pressure(co2+air)*units.Bar - units.Atmosphere
	return nil
}

// compare puts the pressure beside what bottles and closures are made for.
func (s *Sealed) compare(rated units.Pressure) {
	s.Limits = append(s.Limits, pressureLimits...)
	if rated > 0 {
		s.Limits = append(s.Limits, PressureLimit{Name: "this bottle", Limit: rated, Source: "as stated"})
	}
	for i := range s.Limits {
		s.Limits[i].Exceeded = s.Overpressure > s.Limits[i].Limit
	}
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
