package watch

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Format says of a log what its text does not. The zero Format is common. It is a
// setting, not data.
type Format struct {
	// Place is where times without a zone were noted; nil: UTC.
	Place *time.Location
	// Order of dates such as 3/4/2026; zero: told by a number above 12 in any of
	// them, else refused.
	Order DateOrder
	// Temperature is the unit of bare temperatures, CelsiusScale or
	// FahrenheitScale; zero: the header says it, as in "temperature (F)".
	Temperature TemperatureScale
	// Refractometer: a column "brix" is of a refractometer.
	Refractometer bool
	// Hydrometer: it is of a hydrometer with that scale. With neither it counts as one,
	// and Reading.Brix says that nobody said so.
	Hydrometer bool
	// Sensor: readings come by the minute or so and are averaged by the hour. Set
	// Setup.Uncertainty to SensorUncertainty then.
	Sensor bool
}

// DateOrder is how dates with slashes are written.
type DateOrder int

// The orders.
const (
	OrderNotStated DateOrder = iota
	DayFirst
	MonthFirst
)

var orderCodes = []string{"", "day_first", "month_first"}

// MarshalText is the code of the order: "day_first"; nothing where it is not stated.
func (o DateOrder) MarshalText() ([]byte, error) { return encode("order of dates", int(o), orderCodes) }

// UnmarshalText reads what MarshalText wrote.
func (o *DateOrder) UnmarshalText(text []byte) error {
	return decode("order of dates", o, text, orderCodes)
}

// TemperatureScale is the unit of bare temperatures.
type TemperatureScale int

// The scales.
const (
	ScaleNotStated TemperatureScale = iota
	CelsiusScale
	FahrenheitScale
)

var scaleCodes = []string{"", "C", "F"}

// MarshalText is the code of the scale: "C"; nothing where it is not stated.
func (s TemperatureScale) MarshalText() ([]byte, error) {
	return encode("temperature scale", int(s), scaleCodes)
}

// UnmarshalText reads what MarshalText wrote.
func (s *TemperatureScale) UnmarshalText(text []byte) error {
	return decode("temperature scale", s, text, scaleCodes)
}

// ErrTemperatureUnit says that a temperature is a bare number: its header, as in
// temperature (C), or Format.Temperature says the unit.
var ErrTemperatureUnit = errors.New("degrees C or F? write it in the header, as in temperature (C)")

var errMassUnit = errors.New("write the unit in the header, as in weight (kg)")

// MaxRows is the most rows of a file: more than a year by the minute.
const MaxRows = 600_000

// ReadLog is ReadLogAs with the place alone. Errors as ReadLogAs.
func ReadLog(in io.Reader, place *time.Location) ([]Reading, error) {
	return ReadLogAs(in, Format{Place: place})
}

// ReadLogAs reads a fermentation log as spreadsheets and sensors write it: a
// header and a line for every reading, as in
//
//	time,reading,temperature
//	2026-10-01 08:00,1.0790,21 C
//
// Columns are found by their names, in any order, others are passed over: time (or
// date, with or without a time column beside it), reading (or gravity, sg,
// hydrometer, plato, brix, oechsle, baume), refractometer, temperature, mass (or
// weight, of the vessel). A unit may stand in the header, as in "temp (F)", or behind
// the number. Columns are parted by commas, semicolons or tabs; decimal commas are
// read where the columns are not parted by commas, or in quotes. A cell with a dash,
// a question mark or n/a is empty. The text is UTF-8, UTF-16 or Windows-1252. Lines
// that begin with # are passed over.
//
// Times are 2026-10-01 08:00 with or without a zone, 20.11.2026 (day first),
// 11/20/2026 8:00 AM, 20 Nov 2026, or seconds or milliseconds since 1970 (ten or
// thirteen digits); a date alone is its midnight. Error: *LogError, with all faults
// and their lines.
func ReadLogAs(in io.Reader, format Format) ([]Reading, error) {
	var f faults
	if in == nil {
		f.add(0, -1, errors.New("no log was given to read"))
		return nil, f.err()
	}
	if format.Place == nil {
		format.Place = time.UTC
	}
	text, err := readText(in)
	if err != nil {
		f.add(0, -1, err)
		return nil, f.err()
	}
	t, err := openTable(text)
	if err != nil {
		f.add(1, -1, err)
		return nil, f.err()
	}
	rows, err := t.rows(&f)
	if err != nil {
		return nil, f.err()
	}
	dates := dateReader{place: format.Place, order: format.Order}
	for _, r := range rows {
		dates.look(t.when(r))
	}
	log := make([]Reading, 0, len(rows))
	for _, r := range rows {
		l, err := t.reading(r, format, &dates)
		l.Line = r.line
		f.add(r.line, len(log), err)
		log = append(log, l)
	}
	if err := f.err(); err != nil {
		return nil, err
	}
	if format.Sensor {
		log = byTheHour(log)
	}
	if len(log) > MaxLog {
		f.add(log[MaxLog].Line, -1, fmt.Errorf("%w; readings of a sensor can be averaged by the hour", units.Check("number of readings", float64(len(log)), 1, MaxLog, "", "")))
	}
	return log, f.err()
}

// reading reads one row.
func (t *table) reading(r row, format Format, dates *dateReader) (l Reading, err error) {
	if more := t.more(r); more != "" {
		return l, fmt.Errorf("more cells than the header has: %q. With decimal commas part the columns by semicolons", more)
	}
	if l.Time, err = dates.read(t.when(r)); err != nil {
		return l, err
	}
	if text := t.cell(r, "reading"); text != "" {
		if err = t.gravity(&l, text, format); err != nil {
			return l, err
		}
	}
	if text := t.cell(r, "refractometer"); text != "" {
		if l.Refractometer, err = brix(text); err != nil {
			return l, err
		}
	}
	if text := t.cell(r, "temperature"); text != "" {
		if l.Temperature, err = t.temperature(text, format.Temperature); err != nil {
			return l, err
		}
	}
	if text := t.cell(r, "mass"); text != "" {
		if isNumber(text) {
			if t.units["mass"] == "" {
				return l, fmt.Errorf("mass %q has no unit: %w", text, errMassUnit)
			}
			text += " " + t.units["mass"]
		}
		if l.Mass, err = units.ParseMass(text); err != nil {
			return l, err
		}
	}
	if l.Reading == 0 && l.Refractometer == 0 && l.Mass == 0 {
		return l, &units.ParseError{Quantity: "reading", Expected: []string{"a gravity such as 1.0790", "Brix of a refractometer", "a mass; where none was taken, put # before the line"}}
	}
	return l, nil
}

// gravity reads a cell of the column of readings, in the scale of its header.
func (t *table) gravity(l *Reading, text string, format Format) (err error) {
	unit, bare := t.units["reading"], isNumber(text)
	if unit == "brix" && format.Refractometer {
		l.Refractometer, err = brix(text)
		return err
	}
	l.Brix = (bare && unit == "brix" || inBrix.MatchString(text)) && !t.named && !format.Hydrometer
	if bare && unit != "" {
		text += " " + unit
	}
	l.Reading, err = gravity.Parse(text)
	return err
}

var inBrix = regexp.MustCompile(`(?i)\d\s*°?\s*(bx|brix)\.?$`)

// brix reads what a refractometer shows.
func brix(text string) (gravity.Brix, error) {
	number, unit, err := units.Scan("refractometer reading", text)
	if err != nil {
		return 0, err
	}
	switch strings.Trim(strings.ToLower(unit), " °.") {
	case "", "bx", "brix", "% mass", "%":
		b := gravity.Brix(number.InexactFloat64())
		return b, units.Check("refractometer reading", float64(b), 0.01, 70, "Brix", "")
	}
	return 0, &units.ParseError{Text: text, Quantity: "refractometer reading", Expected: []string{"14.2", "14.2 Bx"}}
}

// temperature reads a cell of that column. A bare number is refused where nothing
// says its unit.
func (t *table) temperature(text string, scale TemperatureScale) (units.Temperature, error) {
	if bare := strings.TrimSuffix(text, "°"); isNumber(bare) {
		text = bare
		unit := t.units["temperature"]
		switch {
		case unit != "":
		case scale == CelsiusScale:
			unit = "C"
		case scale == FahrenheitScale:
			unit = "F"
		default:
			return 0, fmt.Errorf("temperature %q has no unit: %w", text, ErrTemperatureUnit)
		}
		text += " " + unit
	}
	return units.ParseTemperature(text)
}

// csvReader reads cells parted by comma.
func csvReader(text string, comma rune) *csv.Reader {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.Comment, r.Comma = -1, true, '#', comma
	return r
}
