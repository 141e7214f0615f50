package watch

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"example.org/mutage/units"
)

// mostText is the most bytes of a log: MaxRows of a hundred characters.
const mostText = 100 * MaxRows

// readText reads a text file as office programs write it: UTF-8 with or without a
// byte order mark, UTF-16, or Windows-1252, with any ends of line.
func readText(in io.Reader) (string, error) {
	data, err := io.ReadAll(io.LimitReader(in, mostText+1))
	if err != nil {
		return "", err
	}
	if err := units.Check("size of the log", float64(len(data)), 0, mostText, "bytes", ""); err != nil {
		return "", err
	}
	text := ""
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		text = fromUTF16(data[2:], 0, 1)
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		text = fromUTF16(data[2:], 1, 0)
	case len(data) > 3 && data[1] == 0 && data[3] == 0:
		text = fromUTF16(data, 0, 1)
	case utf8.Valid(data):
		text = strings.TrimPrefix(string(data), "\ufeff")
	default: // of Windows-1252 a log needs the degree sign, which is the same in Latin-1
		runes := make([]rune, len(data))
		for i, b := range data {
			runes[i] = rune(b)
		}
		text = string(runes)
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), nil
}

func fromUTF16(data []byte, low, high int) string {
	code := make([]uint16, len(data)/2)
	for i := range code {
		code[i] = uint16(data[2*i+low]) | uint16(data[2*i+high])<<8
	}
	return string(utf16.Decode(code))
}

// table is a log with its columns found.
type table struct {
	text    string
	comma   rune
	header  int // the line of it, from 1
	wide    int // columns of the header
	columns map[string]int
	units   map[string]string // of columns that name one, as the parsers read it
	named   bool              // the header says that the readings are of a hydrometer
}

// row is a line of it.
type row struct {
	line  int
	cells []string
}

// headings are the words that people write over a column, and the unit that the
// word itself says.
var headings = map[string]struct{ column, unit string }{
	"time": {"time", ""}, "timestamp": {"time", ""}, "datetime": {"time", ""}, "date time": {"time", ""}, "date/time": {"time", ""},
	"when": {"time", ""}, "date and time": {"time", ""}, "created at": {"time", ""}, "date": {"date", ""}, "day": {"date", ""},
	"reading": {"reading", ""}, "gravity": {"reading", ""}, "sg": {"reading", ""}, "s.g.": {"reading", ""}, "specific gravity": {"reading", ""},
	"hydrometer": {"reading", ""}, "hydrometer brix": {"reading", "brix"}, "density": {"reading", ""}, "brix": {"reading", "brix"}, "bx": {"reading", "brix"}, "°bx": {"reading", "brix"}, "°brix": {"reading", "brix"},
	"plato": {"reading", "P"}, "°p": {"reading", "P"}, "oechsle": {"reading", "Oe"}, "°oe": {"reading", "Oe"}, "oe": {"reading", "Oe"}, "baume": {"reading", "Be"}, "baumé": {"reading", "Be"},
	"refractometer": {"refractometer", ""}, "refractometer brix": {"refractometer", ""}, "brix refractometer": {"refractometer", ""},
	"temperature": {"temperature", ""}, "temp": {"temperature", ""}, "temp.": {"temperature", ""}, "t": {"temperature", ""},
	"°c": {"temperature", "C"}, "°f": {"temperature", "F"}, "celsius": {"temperature", "C"}, "fahrenheit": {"temperature", "F"},
	"must temperature": {"temperature", ""}, "must temp": {"temperature", ""}, "sample temperature": {"temperature", ""}, "sample temp": {"temperature", ""},
	"mass": {"mass", ""}, "weight": {"mass", ""},
}

// foreign are headings in German, French, Italian and Spanish: they count where no
// other names their column.
var foreign = map[string]struct{ column, unit string }{
	"datum": {"date", ""}, "fecha": {"date", ""}, "jour": {"date", ""},
	"zeit": {"time", ""}, "uhrzeit": {"time", ""}, "zeitpunkt": {"time", ""}, "heure": {"time", ""}, "ora": {"time", ""}, "hora": {"time", ""},
	"dichte": {"reading", ""}, "densité": {"reading", ""}, "densite": {"reading", ""}, "densità": {"reading", ""}, "densidad": {"reading", ""}, "spindel": {"reading", ""},
	"refraktometer": {"refractometer", ""}, "réfractomètre": {"refractometer", ""}, "rifrattometro": {"refractometer", ""}, "refractómetro": {"refractometer", ""},
	"temperatur": {"temperature", ""}, "température": {"temperature", ""}, "temperatura": {"temperature", ""},
	"gewicht": {"mass", ""}, "masse": {"mass", ""}, "poids": {"mass", ""}, "peso": {"mass", ""},
}

// headingUnits are units that stand behind the word of a heading, as the parsers
// read them.
var headingUnits = map[string]string{
	"c": "C", "°c": "C", "degc": "C", "deg c": "C", "celsius": "C", "f": "F", "°f": "F", "degf": "F", "deg f": "F", "fahrenheit": "F",
	"g": "g", "kg": "kg", "lb": "lb", "oz": "oz", "brix": "brix", "bx": "brix", "°bx": "brix", "p": "P", "°p": "P", "plato": "P", "oe": "Oe", "°oe": "Oe", "sg": "", "kg/m3": "kg/m3", "g/l": "g/L",
}

var headingForm = regexp.MustCompile(`^(.*?)[\s_]*(?:\(([^)]*)\)|\[([^\]]*)\]|_([^_]*))?$`)

// heading is the column that a heading names, and its unit.
func heading(headings map[string]struct{ column, unit string }, text string) (column, unit string) {
	text = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(text)), " & ", " and ")
	if h, ok := headings[strings.ReplaceAll(text, "_", " ")]; ok {
		return h.column, h.unit
	}
	parts := headingForm.FindStringSubmatch(text)
	if parts == nil {
		return "", ""
	}
	h, ok := headings[strings.ReplaceAll(parts[1], "_", " ")]
	said := strings.TrimSpace(strings.Join(parts[2:], ""))
	if !ok {
		if i := strings.LastIndex(text, " "); i > 0 { // "temp °c"
			h, ok = headings[text[:i]]
			said = text[i+1:]
		}
	}
	if !ok {
		return "", ""
	}
	switch u := headingUnits[said]; {
	case h.column == "reading" && said == "refractometer":
		return "refractometer", ""
	case u != "":
		return h.column, u
	}
	return h.column, h.unit
}

// openTable finds the header, on one of the first ten lines: a title may stand
// above it.
func openTable(text string) (*table, error) {
	lines := strings.SplitN(text, "\n", 11)
	for i, line := range lines[:min(10, len(lines))] {
		for _, comma := range []rune{';', '\t', ','} {
			cells, err := csvReader(line, comma).Read()
			if err != nil || len(cells) < 2 {
				continue
			}
			t := &table{text: text, comma: comma, header: i + 1, wide: len(cells), columns: map[string]int{}, units: map[string]string{}}
			t.find(headings, cells, false)
			t.find(foreign, cells, t.has("time"))
			if t.has("time") || t.has("date") {
				if t.has("reading") || t.has("refractometer") || t.has("mass") {
					return t, nil
				}
				return nil, fmt.Errorf("the header %q has no column reading (or gravity, sg, brix, refractometer, mass)", clip(line))
			}
		}
	}
	if strings.TrimSpace(text) == "" {
		return nil, errors.New("the log is empty: expected a header such as time,reading,temperature")
	}
	return nil, fmt.Errorf("no header with a column time or date: the first line is %q, expected one such as time,reading,temperature", clip(strings.TrimSpace(lines[0])))
}

// find finds the columns that these headings name; whole says that a column with
// the whole time was found, so that no date is missing.
func (t *table) find(headings map[string]struct{ column, unit string }, cells []string, whole bool) {
	for j, cell := range cells {
		column, unit := heading(headings, cell)
		if _, taken := t.columns[column]; column == "" || taken || column == "date" && whole {
			continue
		}
		t.columns[column], t.units[column] = j, unit
		t.named = t.named || column == "reading" && strings.Contains(strings.ToLower(cell), "hydrometer")
	}
}

// clip keeps an error short that quotes a line of a file.
func clip(line string) string {
	const most = 120
	if len(line) <= most {
		return line
	}
	return strings.ToValidUTF8(line[:most], "") + "..."
}

func (t *table) has(column string) bool { _, ok := t.columns[column]; return ok }

var errQuote = errors.New("a quote mark stands alone: take it out, or double it within a cell that begins and ends with one; the lines below were not read")

var errStop = errors.New("unreadable")

// rows are the lines below the header that are not blank.
func (t *table) rows(f *faults) ([]row, error) {
	body := t.text
	for range t.header {
		_, body, _ = strings.Cut(body, "\n")
	}
	var out []row
	for r := csvReader(body, t.comma); ; {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		line := t.header
		if quote := (*csv.ParseError)(nil); errors.As(err, &quote) {
			line, err = line+quote.StartLine, errQuote
		} else if err == nil {
			at, _ := r.FieldPos(0)
			line += at
			err = units.Check("number of rows", float64(len(out)+1), 1, MaxRows, "", "")
		}
		if err != nil {
			f.add(line, -1, err)
			return nil, errStop
		}
		if strings.TrimSpace(strings.Join(cells, "")) != "" {
			out = append(out, row{line, cells})
		}
	}
	if len(out) == 0 {
		f.add(t.header+1, -1, errors.New("no readings: the first line behind the header is the original gravity"))
		return nil, errStop
	}
	return out, nil
}

var decimalComma = regexp.MustCompile(`^([-+]?\d+),(\d+)(\D.*)?$`)

// cell is the text of a column, with a decimal point.
func (t *table) cell(r row, column string) string {
	i, ok := t.columns[column]
	if !ok || i >= len(r.cells) {
		return ""
	}
	text := decimalComma.ReplaceAllString(strings.TrimSpace(r.cells[i]), "$1.$2$3")
	switch strings.ToLower(text) {
	case "-", "--", "–", "—", "?", "n/a", "na":
		return "" // as people write that there is none
	}
	return text
}

// more is what a row has beyond the columns of the header.
func (t *table) more(r row) string {
	if len(r.cells) <= t.wide {
		return ""
	}
	return strings.TrimSpace(strings.Join(r.cells[t.wide:], ""))
}

// when is the text of the time: of one column, or of a date and a time beside it.
func (t *table) when(r row) string {
	raw := func(column string) string {
		if i, ok := t.columns[column]; ok && i < len(r.cells) {
			return strings.TrimSpace(r.cells[i])
		}
		return ""
	}
	return strings.TrimSpace(raw("date") + " " + raw("time"))
}

var bareNumber = regexp.MustCompile(`^[-+]?\d*\.?\d+$`)

func isNumber(text string) bool { return bareNumber.MatchString(text) }
