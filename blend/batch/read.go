package batch

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/mutage/internal/fault"
	"example.org/mutage/internal/say"
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
	return Batch{}, fault.Join(d.faults...)
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
