package batch

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// outside are the quantities that a batch is refused for.
func outside(err error) (names []string) {
	var r *units.RangeError
	switch e := err.(type) {
	case nil:
	case *units.RangeError:
		names = append(names, e.Of)
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			names = append(names, outside(one)...)
		}
	default:
		if errors.As(err, &r) {
			names = append(names, r.Of)
		}
	}
	return names
}

// What no cellar has is refused, and what lies just within is not.
func TestWhatNoCellarHasIsRefused(t *testing.T) {
	var b Batch
	warm := func(at *Stated[units.Temperature]) func(float64) {
		return func(x float64) { *at = Is(units.Celsius(x)) }
	}
	litres := func(a *Amount) func(float64) { return func(x float64) { *a = Litres(units.Volume(x)) } }
	grams := func(a *Amount) func(float64) { return func(x float64) { *a = Grams(units.Mass(x)) } }
	for _, c := range []struct {
		name                     string
		set                      func(float64)
		below, least, most, over float64
	}{
		{"must_temperature", warm(&b.MustTemperature), -0.1, 0.1, 49.9, 50.4},
		{"hydrometer", warm(&b.Hydrometer), 3.95, 4.02, 29.9, 30.3},
		{"cellar_temperature", warm(&b.CellarTemperature), -0.1, 0.1, 39.9, 40.3},
		{"wine_temperature", warm(&b.WineTemperature), -0.1, 0.1, 39.9, 40.3},
		{"stop_temperature", warm(&b.StopTemperature), -0.1, 0.1, 39.9, 40.3},
		{"racked_temperature", warm(&b.RackedTemperature), -0.1, 0.1, 39.9, 40.3},
		{"blend_temperature", warm(&b.BlendTemperature), -0.1, 0.1, 39.9, 40.3},
		{"kept_temperature", warm(&b.KeptTemperature), -20.1, -19.9, 39.9, 40.3},
		{"must", litres(&b.Must), 0.99e-3, 1.01e-3, 0.99e9, 1.01e9},
		{"wine", litres(&b.Wine), 0.99e-3, 1.01e-3, 0.99e9, 1.01e9},
		{"racked", litres(&b.Racked), 0.99e-3, 1.01e-3, 0.99e9, 1.01e9},
		{"wine_poured", litres(&b.PouredWine), 0.99e-3, 1.01e-3, 0.99e9, 1.01e9},
		{"spirit_planned", grams(&b.SpiritPlanned), -1e-9, 0, 0.99e9, 1.01e9},
		{"spirit_stock", litres(&b.SpiritStock), -1e-9, 0, 0.99e9, 1.01e9},
		{"spirit_poured", grams(&b.PouredSpirit), -1e-9, 0, 0.99e9, 1.01e9},
		{"limits of must", func(x float64) { b.Must = Amount{Volume: Within(units.Volume(3), x)} }, -1e9, 0, 1.49, 1.51},
		{"limits of racked", func(x float64) { b.Racked = Amount{Mass: Within(units.Mass(3000), x)} }, -1e9, 0, 1490, 1510},
		{"start", func(x float64) { b.Start = time.Date(int(x), 10, 1, 0, 0, 0, 0, time.UTC) }, 1899, 1900, 2200, 2201},
		{"ph", func(x float64) { b.PH = Is(x) }, 2.49, 2.51, 4.49, 4.51},
		{"yeast_limit", func(x float64) { b.YeastLimit = Is(units.Strength(x)) }, 0.99, 1, 24.9, 25.1},
		{"spirit_price", func(x float64) { b.SpiritPrice = Is(x) }, -0.01, 0, 0.99e6, 1.01e6},
	} {
		for _, at := range []struct {
			x       float64
			refused bool
		}{{c.below, c.below > -1e9}, {c.least, false}, {c.most, false}, {c.over, true}} {
			b = Batch{}
			c.set(at.x)
			if got := strings.Contains(strings.Join(outside(b.check()), " "), c.name); got != at.refused {
				t.Errorf("%s of %v is refused: %v", c.name, at.x, got)
			}
		}
	}
	for n, refused := range map[int]bool{0: false, 20: false, 21: true} {
		b = Batch{Bottles: make([]units.Volume, n)}
		if err := b.check(); strings.Contains(fmt.Sprint(err), "20 at the most") != refused {
			t.Errorf("%d sizes of bottles: %v", n, err)
		}
	}
}

// Each contradiction and what lies just beside it.
func TestFieldsContradictEachOtherOrDoNot(t *testing.T) {
	const must, wine = `{"must": "3 L", "must_reading": "1.085", "stop_at": "5 % vol", `, `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", `
	const blend = wine + `"spirit_strength": "40 % vol", "target": "20 % vol", `
	for text, why := range map[string]string{
		must + `"original_reading": "1.085"}`:                                                                 "",
		must + `"original_reading": "1.0851"}`:                                                                "",
		must + `"original_reading": "1.0849"}`:                                                                "below the one without",
		must + `"stop_from": "5 % vol", "stop_to": "5 % vol"}`:                                                "",
		must + `"stop_from": "4.9 % vol", "stop_to": "5.1 % vol"}`:                                            "",
		must + `"stop_from": "5.1 % vol", "stop_to": "6 % vol"}`:                                              "before the window",
		must + `"stop_from": "4 % vol", "stop_to": "4.9 % vol"}`:                                              "behind the window",
		must + `"stop_from": "6 % vol", "stop_to": "5.9 % vol"}`:                                              "ends before it begins",
		must + `"readings": ["2026-11-25 18:00 1.08", "2026-11-25 18:01 1.08"]}`:                              "",
		must + `"readings": ["2026-11-25 18:00 1.08", "2026-11-25 18:00 1.07"]}`:                              "reading 2 is not after reading 1",
		`{"must": "3 L", "must_reading": "1.085", "stop_at": "0 % vol"}`:                                      "",
		`{"must": "3 L", "must_reading": "1.085", "stop_at": "0 % vol", "readings": "2026-11-25 18:00 1.08"}`: "no readings to follow",
		blend + `"fortify": "all"}`:                                                                           "",
		blend + `"fortify": "fill the vessel", "vessel": "2 L"}`:                                              "",
		blend + `"fortify": "fill the vessel"}`:                                                               "which vessel?",
		wine + `"fortify": "fill the vessel", "vessel": "2 L"}`:                                               "to which strength?",
		wine + `"fortify": "all"}`:                                                                            "",
		blend + `"fortify": "all", "blend_volume": "1 L"}`:                                                    "",
		blend + `"fortify": "fill the vessel", "vessel": "2 L", "blend_volume": "1 L"}`:                       "fill the vessel or make this volume",
		blend + `"vessel": "2 L", "headspace": "1.999 L"}`:                                                    "",
		blend + `"vessel": "2 L", "headspace": "2 L"}`:                                                        "takes the whole vessel",
		blend + `"target_sugar": "90 g/L", "least_sugar": "90 g/L"}`:                                          "",
		blend + `"target_sugar": "90 g/L", "least_sugar": "80 g/L"}`:                                          "",
		blend + `"target_sugar": "90 g/L", "least_sugar": "91 g/L"}`:                                          "below the least",
	} {
		_, err := read(t, text)
		var c *ConflictError
		if why == "" && err != nil || why != "" && (!errors.As(err, &c) || !strings.Contains(err.Error(), why)) {
			t.Errorf("%s: %v, want %q", text, err, why)
		}
	}
}

// Scaling goes from a thousandth to a thousand times.
func TestABatchIsScaledWithinBounds(t *testing.T) {
	b := Batch{Must: Amount{Volume: Within(units.Volume(3), 0.06)}, Sugar: []Portion{{Mass: Within(units.Mass(300), 5)}}, Wood: Is(units.Mass(10))}
	for by, refused := range map[float64]bool{0.00099: true, 0.001: false, 0.00101: false, 999: false, 1000: false, 1010: true} {
		s, err := b.Scale(by)
		if refused != (err != nil) {
			t.Errorf("times %v: %v", by, err)
		}
		if err == nil && (!near(float64(s.Must.Volume.Value), 3*by, 1e-9*by) || !near(s.Must.Volume.Limit, 0.06*by, 1e-9*by) || !near(float64(s.Sugar[0].Mass.Value), 300*by, 1e-9*by) ||
			!near(s.Sugar[0].Mass.Limit, 5*by, 1e-9*by) || !near(float64(s.Wood.Value), 10*by, 1e-9*by)) {
			t.Errorf("times %v: %+v", by, s)
		}
	}
	var r *units.RangeError
	b.Sugar[0].Mass.Value = 1e307
	if _, err := b.Scale(1000); !errors.As(err, &r) || r.Min > 0 || r.Max < 0 {
		t.Errorf("1e307 g a thousand times: %v", err)
	}
	b = Batch{Start: time.Now()}
	if _, err := b.Scale(2); err != nil {
		t.Errorf("a time is no number: %v", err)
	}
}

// A batch file is of a megabyte at most, to the byte.
func TestALongFileIsRefused(t *testing.T) {
	for n, refused := range map[int]bool{MostBytes: false, MostBytes + 1: true} {
		text := demo
		text = append(append([]byte{}, text...), []byte(strings.Repeat(" ", n-len(text)))...)
		_, err := Read("long", strings.NewReader(string(text)))
		if refused != (err != nil) || refused && !strings.Contains(err.Error(), "1048576 bytes") {
			t.Errorf("%d bytes: %v", n, err)
		}
	}
}

// A fault has the line and the column that it begins at, comments or not.
func TestAFaultIsWhereItBegins(t *testing.T) {
	for text, want := range map[string]string{
		"{\"muts\": \"3 L\"}":                                     `b.json:1:2: no field`,
		"{\n\"must\": \"3 L\",\n  \"muts\": \"3 L\"}":             `b.json:3:3: no field`,
		"{\n // a comment\r\n\"must\": \"3 furlongs\"}":           `b.json:3:9: field "must"`,
		"{\"must\": \"3 L\", \"name\": \"x\", \"must\": \"3 L\"}": `b.json:1:30: field "must": stands twice`,
		"{\"must\": 12345678}":                                    `b.json:1:10: field "must": found 12345678`,
	} {
		_, err := read(t, text)
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if got := string(bare([]byte(" // a\r\nb // c\n"))); got != "     \r\nb // c\n" {
		t.Errorf("%q", got)
	}
	if got := (&FileError{File: "b", Line: 1, Column: 2, Err: errors.New("x")}).Error(); got != "b:1:2: x" {
		t.Errorf("%q", got)
	}
}

// What is written in a batch: labels, portions, readings, numbers; what stands at the
// place of a unit is named where it is none.
func TestTextsAreReadToTheLetter(t *testing.T) {
	for text, want := range map[string]Label{
		"26 g per 240 mL": {26, 0.24}, "130 g/L": {130, 1}, "130 g per L": {130, 1}, "90 g in 9 L": {90, 9}, "5 g in 0.5 L": {5, 0.5}, "1 g per 0.00101 L": {1, 0.00101}, "1 kg in 10 L": {1000, 10},
	} {
		if got, err := parseLabel(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"26 g per 0.00099 L", "26 g per 10.1 L", "26 g per -3 L", "26 g per "} {
		if got, err := parseLabel(text); err == nil {
			t.Errorf("%q is %v", text, got)
		}
	}
	for text, want := range map[string]string{
		"7.2 furlongs": `refractometer "7.2 furlongs" at "furlongs"`,
	} {
		if _, err := parseBrix(text); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if _, err := parseNumber("3.4 mL"); err == nil || !strings.HasPrefix(err.Error(), `number "3.4 mL" at "mL"`) {
		t.Errorf("%v", err)
	}
	for text, days := range map[string]float64{"1 kg after 4 days": 4, "1 kg after 1 day": 1, "1 kg after 2.5 d": 2.5, "1 kg": 0} {
		if p, err := parsePortion(text); err != nil || p.Days != days || p.Mass.Value != 1000 {
			t.Errorf("%q: %+v, %v", text, p, err)
		}
	}
	if _, err := parsePortion("1 kg after 4 weeks"); err == nil || !strings.Contains(err.Error(), `at "weeks"`) {
		t.Errorf("%v", err)
	}
	for text, want := range map[string]string{
		"300 g ± 5 g honey": "300 g ± 5 g honey", "300 g honey ± 5 g": "300 g ± 5 g honey", "1 kg syrup of 65 Bx": "1000 g syrup of 65 Bx", "1 kg concentrate of 65 Bx after 2 days": "1000 g concentrate of 65 Bx after 2 days",
		"100 g dextrose": "100 g dextrose", "100 g of brown sugar": "100 g brown sugar", "100 g": "100 g",
	} {
		p, err := parsePortion(text)
		if err != nil || strings.Replace(p.String(), "brown sugar, packed", "brown sugar", 1) != want {
			t.Errorf("%q: %q, %v", text, p.String(), err)
		}
	}
	for _, text := range []string{"2026-11-25T18:00:00Z 1.092 22 C", "2026-11-25 18:00 1.092", "2026-11-25 1.092 22 C"} {
		n := handbook.Must(parseNoted(text))
		if n.Reading != 1.092 || n.Time.Day() != 25 || n.Temperature.Stated() != strings.Contains(text, "22 C") {
			t.Errorf("%q: %+v", text, n)
		}
		if again := handbook.Must(parseNoted(n.String())); !again.Time.Equal(n.Time) || again.Reading != n.Reading || again.Temperature != n.Temperature {
			t.Errorf("%q came back as %q", text, n)
		}
	}
	for _, text := range []string{"", "1.092", "2026-11-25", "2026-11-25 18:00", "2026-11-25 18:00 1.092 hot"} {
		if n, err := parseNoted(text); err == nil {
			t.Errorf("%q is %+v", text, n)
		}
	}
}

// What is written comes back to the last bit.
func TestNumbersAreWrittenWhole(t *testing.T) {
	for _, x := range []float64{1.0 / 3, 1.0921234567890123, 1e-9, 123456789.123456} {
		if got := handbook.Must(parseNumber(digits(x))); got != x {
			t.Errorf("%v came back as %v", x, got)
		}
	}
	if got := temperatureText(units.Celsius(21.5)); got != "21.5 C" {
		t.Errorf("%q", got)
	}
	if got := temperatureText(units.Celsius(100. / 3)); got != "33.3333333333 C" { // twelve digits
		t.Errorf("%q", got)
	}
	n := Noted{Time: time.Date(2026, 11, 25, 18, 0, 0, 0, time.UTC), Reading: gravity.SG(1.0921234567890123)}
	if got := n.String(); got != "2026-11-25T18:00:00Z 1.0921234567890123" {
		t.Errorf("%q", got)
	}
}

// The units of the words come back, and metric ones need not be written.
func TestTheUnitsOfTheWordsComeBack(t *testing.T) {
	for system, written := range map[System]bool{Metric: false, US: true, Imperial: true} {
		b := Demo()
		b.Units = system
		text := handbook.JSON(t, b)
		var back Batch
		if err := back.UnmarshalJSON(text); err != nil || back.Units != system || strings.Contains(string(text), `"units"`) != written {
			t.Errorf("%v: %s, came back as %v, %v", system, text, back.Units, err)
		}
	}
}

// The template has a heading over every group of fields, once.
func TestTheTemplateHasItsHeadings(t *testing.T) {
	var want []string
	for _, f := range Fields() {
		if h := "  // " + strings.ToUpper(f.Group); len(want) == 0 || want[len(want)-1] != h {
			want = append(want, h)
		}
	}
	var got []string
	for _, l := range strings.Split(string(Template()), "\n") {
		if strings.HasPrefix(l, "  // ") && l == strings.ToUpper(l) && !strings.Contains(l, ":") {
			got = append(got, l)
		}
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("%q, want %q", got, want)
	}
}

// A reading below water is of a wine; one that no must has is refused for what it is.
func TestAMustThatIsNoneIsRefusedForWhatItIs(t *testing.T) {
	for reading, below := range map[gravity.SG]bool{0.5: true, 0.99: true, 2: false} {
		b := Batch{Must: Litres(3), MustReading: Is(reading), StopAt: Is(units.Strength(5))}
		_, err := b.Work()
		if err == nil || strings.Contains(err.Error(), "already fermented?") != below || !strings.Contains(err.Error(), "must_reading") {
			t.Errorf("%v: %v", reading, err)
		}
	}
}
