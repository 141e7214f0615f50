package units

import "github.com/shopspring/decimal"

// Volume is a volume in litres. Volumes of liquids are at 20 C unless a function says otherwise.
type Volume float64

// ParseVolume reads text such as "26 fl oz, 750ml, 1 1/2 cups, ¾ gal".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParseVolume(text string) (Volume, error) { x, err := volume.parse(text); return Volume(x), err }

// In gives the number of units in v.
func (v Volume) In(unit Volume) float64 { return float64(v / unit) }

// Decimal gives the number of units in v, rounded as Round does.
func (v Volume) Decimal(unit Volume, places int32) decimal.Decimal { return Round(v.In(unit), places) }

// String prints six significant digits in the base unit; ParseVolume reads it.
func (v Volume) String() string { return volume.format(float64(v)) }

// MarshalText prints all digits of any finite number in the base unit.
func (v Volume) MarshalText() ([]byte, error) { return volume.marshal(float64(v)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseVolume reads.
func (v *Volume) UnmarshalText(text []byte) error { return unmarshal(v, volume, text) }

// Set is ParseVolume, for flags. On an error v keeps its value.
func (v *Volume) Set(text string) error { return set(v, volume, text) }

// Mass is a mass in grams.
type Mass float64

// ParseMass reads text such as "1 lb, 250 g, 1 1/2 oz".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParseMass(text string) (Mass, error) { x, err := mass.parse(text); return Mass(x), err }

// In gives the number of units in m.
func (m Mass) In(unit Mass) float64 { return float64(m / unit) }

// Decimal gives the number of units in m, rounded as Round does.
func (m Mass) Decimal(unit Mass, places int32) decimal.Decimal { return Round(m.In(unit), places) }

// String prints six significant digits in the base unit; ParseMass reads it.
func (m Mass) String() string { return mass.format(float64(m)) }

// MarshalText prints all digits of any finite number in the base unit.
func (m Mass) MarshalText() ([]byte, error) { return mass.marshal(float64(m)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseMass reads.
func (m *Mass) UnmarshalText(text []byte) error { return unmarshal(m, mass, text) }

// Set is ParseMass, for flags. On an error m keeps its value.
func (m *Mass) Set(text string) error { return set(m, mass, text) }

// Density is a density in kg/m3.
type Density float64

// ParseDensity reads text such as "1.046 g/mL, 1046 kg/m3".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParseDensity(text string) (Density, error) {
	x, err := density.parse(text)
	return Density(x), err
}

// In gives the number of units in d.
func (d Density) In(unit Density) float64 { return float64(d / unit) }

// Decimal gives the number of units in d, rounded as Round does.
func (d Density) Decimal(unit Density, places int32) decimal.Decimal {
	return Round(d.In(unit), places)
}

// String prints six significant digits in the base unit; ParseDensity reads it.
func (d Density) String() string { return density.format(float64(d)) }

// MarshalText prints all digits of any finite number in the base unit.
func (d Density) MarshalText() ([]byte, error) { return density.marshal(float64(d)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseDensity reads.
func (d *Density) UnmarshalText(text []byte) error { return unmarshal(d, density, text) }

// Set is ParseDensity, for flags. On an error d keeps its value.
func (d *Density) Set(text string) error { return set(d, density, text) }

// Concentration is a mass of something per volume of liquid at 20 C, in g/L.
type Concentration float64

// ParseConcentration reads text such as "142 g/L, 50 mg/L, 200 ppm", and a mass
// in a volume as labels state it: "26 g per 240 mL", "0.2 g in 100 mL".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParseConcentration(text string) (Concentration, error) {
	x, err := concentration.parse(text)
	return Concentration(x), err
}

// In gives the number of units in c.
func (c Concentration) In(unit Concentration) float64 { return float64(c / unit) }

// Decimal gives the number of units in c, rounded as Round does.
func (c Concentration) Decimal(unit Concentration, places int32) decimal.Decimal {
	return Round(c.In(unit), places)
}

// String prints six significant digits in the base unit; ParseConcentration reads it.
func (c Concentration) String() string { return concentration.format(float64(c)) }

// MarshalText prints all digits of any finite number in the base unit.
func (c Concentration) MarshalText() ([]byte, error) { return concentration.marshal(float64(c)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseConcentration reads.
func (c *Concentration) UnmarshalText(text []byte) error { return unmarshal(c, concentration, text) }

// Set is ParseConcentration, for flags. On an error c keeps its value.
func (c *Concentration) Set(text string) error { return set(c, concentration, text) }

// Strength is alcoholic strength by volume at 20 C, in % vol (OIML R 22).
type Strength float64

// ParseStrength reads text such as "40 % vol, 40%, 100 proof".
// Errors: *ParseError for text, *RangeError for a value that cannot be. US proof is read as the label states it, twice the per cent by volume;
// abv.FromUSProof also changes the basis from 60 F to 20 C.
func ParseStrength(text string) (Strength, error) {
	x, err := strength.parse(text)
	return Strength(x), err
}

// In gives the number of units in s.
func (s Strength) In(unit Strength) float64 { return float64(s / unit) }

// Decimal gives the number of units in s, rounded as Round does.
func (s Strength) Decimal(unit Strength, places int32) decimal.Decimal {
	return Round(s.In(unit), places)
}

// String prints six significant digits in the base unit; ParseStrength reads it.
func (s Strength) String() string { return strength.format(float64(s)) }

// MarshalText prints all digits of any finite number in the base unit.
func (s Strength) MarshalText() ([]byte, error) { return strength.marshal(float64(s)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseStrength reads.
func (s *Strength) UnmarshalText(text []byte) error { return unmarshal(s, strength, text) }

// Set is ParseStrength, for flags. On an error s keeps its value.
func (s *Strength) Set(text string) error { return set(s, strength, text) }

// MassPercent is a share of mass in per cent: alcoholic strength by mass, or sugar by mass.
type MassPercent float64

// ParseMassPercent reads text such as "33.3 % mass".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParseMassPercent(text string) (MassPercent, error) {
	x, err := massPercent.parse(text)
	return MassPercent(x), err
}

// In gives the number of units in m.
func (m MassPercent) In(unit MassPercent) float64 { return float64(m / unit) }

// Decimal gives the number of units in m, rounded as Round does.
func (m MassPercent) Decimal(unit MassPercent, places int32) decimal.Decimal {
	return Round(m.In(unit), places)
}

// String prints six significant digits in the base unit; ParseMassPercent reads it.
func (m MassPercent) String() string { return massPercent.format(float64(m)) }

// MarshalText prints all digits of any finite number in the base unit.
func (m MassPercent) MarshalText() ([]byte, error) { return massPercent.marshal(float64(m)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseMassPercent reads.
func (m *MassPercent) UnmarshalText(text []byte) error { return unmarshal(m, massPercent, text) }

// Set is ParseMassPercent, for flags. On an error m keeps its value.
func (m *MassPercent) Set(text string) error { return set(m, massPercent, text) }

// Pressure is a pressure in kilopascals.
type Pressure float64

// ParsePressure reads text such as "2.5 bar, 30 psi".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParsePressure(text string) (Pressure, error) {
	x, err := pressure.parse(text)
	return Pressure(x), err
}

// In gives the number of units in p.
func (p Pressure) In(unit Pressure) float64 { return float64(p / unit) }

// Decimal gives the number of units in p, rounded as Round does.
func (p Pressure) Decimal(unit Pressure, places int32) decimal.Decimal {
	return Round(p.In(unit), places)
}

// String prints six significant digits in the base unit; ParsePressure reads it.
func (p Pressure) String() string { return pressure.format(float64(p)) }

// MarshalText prints all digits of any finite number in the base unit.
func (p Pressure) MarshalText() ([]byte, error) { return pressure.marshal(float64(p)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParsePressure reads.
func (p *Pressure) UnmarshalText(text []byte) error { return unmarshal(p, pressure, text) }

// Set is ParsePressure, for flags. On an error p keeps its value.
func (p *Pressure) Set(text string) error { return set(p, pressure, text) }

func set[T ~float64](to *T, d *dimension, text string) error {
	x, err := d.parse(text)
	if err == nil {
		*to = T(x)
	}
	return err
}

func unmarshal[T ~float64](to *T, d *dimension, text []byte) error {
	x, err := d.unmarshal(text)
	if err == nil {
		*to = T(x)
	}
	return err
}
