package batch

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// MostBytes is how long a batch file may be.
const MostBytes = 1 << 20

// A FileError is one fault of a batch file, with its place. Read joins them all.
type FileError struct {
	File         string
	Line, Column int
	Field        string // empty where the fault is in the file itself
	Err          error
}

// Error says where, which field, and what is wrong.
func (e *FileError) Error() string {
	at := fmt.Sprintf("%s:%d:%d: ", e.File, e.Line, e.Column)
	if e.Field != "" {
		at += fmt.Sprintf("field %q: ", e.Field)
	}
	if e.Err == nil {
		return at + "a fault without words"
	}
	return at + e.Err.Error()
}

// Unwrap is the fault without its place.
func (e *FileError) Unwrap() error { return e.Err }

// Read reads a batch from a file, which errors call name: a strict JSON object of
// texts as people write them ("3 L ± 2 %"), see Fields. Lines that begin with //
// are left out. Errors: every fault at once, each a *FileError with line, column
// and field; fields that contradict each other are named together.
func Read(name string, r io.Reader) (Batch, error) {
	content, err := io.ReadAll(io.LimitReader(r, MostBytes+1))
	if err != nil {
		return Batch{}, fmt.Errorf("%s: %w", name, err)
	}
	if len(content) > MostBytes {
		return Batch{}, &FileError{File: name, Line: 1, Column: 1, Err: fmt.Errorf("longer than %d bytes: no batch file", MostBytes)}
	}
	d := reader{file: name, content: bare(content)}
	b := d.read()
	if len(d.faults) == 0 {
		if err := b.contradictions(); err != nil {
			return Batch{}, fmt.Errorf("%s: %w", name, err)
		}
		return b, nil
	}
	return Batch{}, errors.Join(d.faults...)
}

// bare is content with its comment lines blanked, so that places stay.
func bare(content []byte) []byte {
	content = bytes.TrimPrefix(bytes.Clone(content), []byte("\ufeff"))
	lines := bytes.SplitAfter(content, []byte("\n"))
	for _, line := range lines {
		if bytes.HasPrefix(bytes.TrimLeft(line, " \t"), []byte("//")) {
			for i := range line {
				if line[i] != '\n' && line[i] != '\r' {
					line[i] = ' '
				}
			}
		}
	}
	return bytes.Join(lines, nil)
}

type reader struct {
	file    string
	content []byte
	faults  []error
}

// fault notes what is wrong at an offset.
func (d *reader) fault(offset int64, field string, err error) {
	before := d.content[:min(int(offset), len(d.content))]
	d.faults = append(d.faults, &FileError{File: d.file, Field: field, Err: err,
		Line: bytes.Count(before, []byte("\n")) + 1, Column: len(before) - (bytes.LastIndexByte(before, '\n') + 1) + 1})
}

func (d *reader) read() (b Batch) {
	dec := json.NewDecoder(bytes.NewReader(d.content))
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		d.fault(dec.InputOffset(), "", errors.New(`expected a JSON object { "name": ..., }`))
		return b
	}
	seen := map[string]bool{}
	for dec.More() {
		key, err := dec.Token()
		at := begins(d.content, dec.InputOffset(), key)
		if err != nil {
			d.fault(dec.InputOffset(), "", plain(err))
			return b
		}
		var raw json.RawMessage
		name := key.(string)
		if err := dec.Decode(&raw); err != nil {
			d.fault(dec.InputOffset(), name, plain(err))
			return b
		}
		d.one(&b, seen, name, raw, at, dec.InputOffset()-int64(len(raw)))
	}
	if _, err := dec.Token(); err != nil {
		d.fault(dec.InputOffset(), "", plain(err))
	} else if _, err := dec.Token(); err != io.EOF {
		d.fault(dec.InputOffset(), "", errors.New("something follows the closing brace"))
	}
	return b
}

// one sets a field; at is where its name stands, and value where its value does.
func (d *reader) one(b *Batch, seen map[string]bool, name string, raw json.RawMessage, at, value int64) {
	i := slices.IndexFunc(fields, func(f field) bool { return strings.EqualFold(f.Name, name) })
	if i < 0 {
		d.fault(at, "", unknown(name))
		return
	}
	f := fields[i]
	if seen[f.Name] {
		d.fault(at, name, errors.New("stands twice"))
		return
	}
	seen[f.Name] = true
	texts, err := f.texts(raw)
	if err != nil {
		d.fault(value, name, err)
		return
	}
	for _, t := range texts {
		if err := f.set(b, t); err != nil {
			d.fault(value, name, fmt.Errorf("%w; write it as %q (%s)", err, f.Example, f.Help))
		}
	}
}

func unknown(name string) error {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	hint := ""
	if near, ok := say.Nearest(name, names); ok {
		hint = fmt.Sprintf("; did you mean %q?", near)
	}
	return fmt.Errorf("no field %q%s (the fields are %s)", name, hint, strings.Join(names, ", "))
}

// texts are the values of a field: one text, or a list of them.
func (f field) texts(raw json.RawMessage) ([]string, error) {
	var one string
	if json.Unmarshal(raw, &one) == nil {
		return []string{one}, nil
	}
	var many []string
	if f.list && json.Unmarshal(raw, &many) == nil {
		return many, nil
	}
	expected := "a text in quotation marks"
	if f.list {
		expected = "a text in quotation marks, or a list of them in brackets"
	}
	return nil, fmt.Errorf("found %.40s, expected %s such as %q", raw, expected, f.Example)
}

// begins is where a token that ends at end begins.
func begins(content []byte, end int64, token json.Token) int64 {
	if s, ok := token.(string); ok {
		if quoted, err := json.Marshal(s); err == nil {
			return max(0, end-int64(len(quoted)))
		}
	}
	return end
}

// plain says what the JSON reader means.
func plain(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("the file ends too soon: a closing brace } is missing")
	}
	if strings.Contains(err.Error(), "beginning of object key string") {
		return errors.New("a field name in quotation marks must follow a comma: is there one comma too many?")
	}
	return err
}

// MarshalJSON writes the batch as Read reads it: the fields that are stated.
func (b Batch) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	out.WriteByte('{')
	first := true
	for _, f := range fields {
		texts := f.get(&b)
		if len(texts) == 0 {
			continue
		}
		var value any = texts[0]
		if f.list {
			value = texts
		}
		v, err := json.Marshal(value)
		if err != nil {
			return nil, err
		}
		if !first {
			out.WriteByte(',')
		}
		first = false
		fmt.Fprintf(&out, "%q:%s", f.Name, v)
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

// UnmarshalJSON is Read.
func (b *Batch) UnmarshalJSON(text []byte) error {
	read, err := Read("batch", bytes.NewReader(text))
	if err == nil {
		*b = read
	}
	return err
}

// A ConflictError says that fields of a batch contradict each other.
type ConflictError struct {
	Fields []string
	Why    string
}

// Error names the fields, then says why.
func (e *ConflictError) Error() string {
	return strings.Join(e.Fields, " and ") + ": " + e.Why
}

// contradictions names every pair of fields that cannot both be so.
func (b *Batch) contradictions() error {
	var faults []error
	conflict := func(is bool, why string, names ...string) {
		if is {
			faults = append(faults, &ConflictError{names, why})
		}
	}
	label := b.JuiceLabel != (Label{})
	conflict(b.Must.Known() && b.Wine.Known(), "a batch starts from must or from a finished wine; leave one out", "must", "wine")
	conflict(!b.Must.Known() && !b.Wine.Known(), "one of them is needed: how much is there?", "must", "wine")
	if b.Must.Known() {
		ways := 0
		for _, known := range []bool{b.MustReading.Known, b.OriginalReading.Known, label} {
			if known {
				ways++
			}
		}
		conflict(ways == 0, "one of them is needed: how much sugar does the must hold?", "must_reading", "original_reading", "juice_label")
		conflict(b.MustReading.Known && label, "one of them says how sweet the juice is; leave one out", "must_reading", "juice_label")
		conflict(b.OriginalReading.Known && b.GravityWanted.Known, "the reading with the sugar in is what it is; leave one out", "original_reading", "gravity_wanted")
		conflict(b.OriginalReading.Known && b.MustReading.Known && b.OriginalReading.Value < b.MustReading.Value, "the reading with the sugar in is below the one without", "original_reading", "must_reading")
		conflict(len(b.Sugar) > 0 && b.GravityWanted.Known, "one says how much sugar, the other how much to reach; leave one out", "sugar", "gravity_wanted")
		conflict(!b.StopAt.Known && !b.StopReading.Known && !b.RackedReading.Known && !b.LeastSugar.Known, "one of them is needed: where does the fermentation stop?", "stop_at", "stop_reading", "least_sugar")
	}
	if b.Wine.Known() {
		ways := b.WineStrength.Known || b.WineRefractometer.Known || b.WineBoiled.Known
		conflict(!ways, "one of them is needed: how strong is the wine?", "wine_strength", "wine_refractometer", "wine_boiled")
		conflict(!b.WineReading.Known, "how dense is the wine? without it its extract is not known", "wine_reading")
		conflict(b.StopAt.Known, "a finished wine does not ferment; leave it out", "wine", "stop_at")
	}
	conflict(b.StopAt.Known && b.StopFrom.Known && b.StopAt.Value < b.StopFrom.Value, "the aim lies before the window", "stop_at", "stop_from")
	conflict(b.StopAt.Known && b.StopTo.Known && b.StopAt.Value > b.StopTo.Value, "the aim lies behind the window", "stop_at", "stop_to")
	conflict(b.StopFrom.Known && b.StopTo.Known && b.StopFrom.Value > b.StopTo.Value, "the window ends before it begins", "stop_from", "stop_to")
	conflict(b.Target.Known && !b.SpiritStrength.Known, "how strong is the spirit?", "target", "spirit_strength")
	conflict(b.SpiritPlanned.Known() && !b.SpiritStrength.Known, "how strong is the spirit?", "spirit_planned", "spirit_strength")
	conflict(b.Fortify == fillVessel && !b.Vessel.Known, "which vessel?", "fortify", "vessel")
	conflict(b.Fortify == fillVessel && b.BlendVolume.Known, "fill the vessel or make this volume; leave one out", "fortify", "blend_volume")
	conflict(b.Headspace.Known && !b.Vessel.Known, "the head space of which vessel?", "headspace", "vessel")
	conflict(b.Vessel.Known && b.Headspace.Known && b.Headspace.Value >= b.Vessel.Value, "the head space takes the whole vessel", "headspace", "vessel")
	conflict(b.TargetSugar.Known && b.LeastSugar.Known && b.TargetSugar.Value < b.LeastSugar.Value, "the sugar wanted is below the least", "target_sugar", "least_sugar")
	conflict(b.PouredSpirit.Known() && !b.SpiritStrength.Known, "how strong is the spirit?", "spirit_poured", "spirit_strength")
	conflict(b.BlendReading.Known && !b.PouredSpirit.Known(), "how much spirit went in?", "blend_reading", "spirit_poured")
	for i := 1; i < len(b.Readings); i++ {
		if !b.Readings[i].Time.After(b.Readings[i-1].Time) {
			conflict(true, fmt.Sprintf("reading %d is not after reading %d", i+1, i), "readings")
		}
	}
	return errors.Join(faults...)
}

// check refuses what no cellar has, naming the field.
func (b *Batch) check() error {
	var faults []error
	within := func(name string, known bool, x, lo, hi float64, unit string) {
		if known {
			if err := units.CheckOf(name, strings.ReplaceAll(name, "_", " "), x, lo, hi, unit, "a bound against mistyping"); err != nil {
				faults = append(faults, err)
			}
		}
	}
	for _, t := range []struct {
		name string
		at   Stated[units.Temperature]
		lo   float64
		hi   float64
	}{{"must_temperature", b.MustTemperature, 0, 50}, {"hydrometer", b.Hydrometer, 4, 30}, {"cellar_temperature", b.CellarTemperature, 0, 40},
		{"wine_temperature", b.WineTemperature, 0, 40}, {"stop_temperature", b.StopTemperature, 0, 40}, {"racked_temperature", b.RackedTemperature, 0, 40},
		{"blend_temperature", b.BlendTemperature, 0, 40}, {"kept_temperature", b.KeptTemperature, -20, 40}} {
		within(t.name, t.at.Known, t.at.Value.Celsius(), t.lo, t.hi, "C")
	}
	within("ph", b.PH.Known, b.PH.Value, 2.5, 4.5, "")
	within("yeast_limit", b.YeastLimit.Known, float64(b.YeastLimit.Value), 1, 25, "% vol")
	within("spirit_price", b.SpiritPrice.Known, b.SpiritPrice.Value, 0, 1e6, "a litre")
	if len(b.Bottles) > 20 {
		faults = append(faults, fmt.Errorf("bottles: %d sizes, 20 at the most", len(b.Bottles)))
	}
	return errors.Join(append([]error{b.contradictions()}, faults...)...)
}
