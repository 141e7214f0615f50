package batch

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/mutage/units"
	"github.com/google/go-cmp/cmp"
)

func read(t *testing.T, text string) (Batch, error) {
	t.Helper()
	return Read("b.json", strings.NewReader(text))
}

func TestTheTemplateIsTheDemonstration(t *testing.T) {
	b, err := Read("template", bytes.NewReader(Template()))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(Demo(), b); diff != "" {
		t.Errorf("the template is another batch than the demonstration:\n%s", diff)
	}
	for _, f := range Fields() {
		if !bytes.Contains(Template(), []byte(`"`+f.Name+`":`)) {
			t.Errorf("the template does not name %q", f.Name)
		}
	}
}

// Every example of a field can be read, and what was read is written so that it
// reads the same.
func TestEveryFieldComesBackFromWhatItWrote(t *testing.T) {
	for _, f := range fields {
		var b, back Batch
		examples := []string{f.Example}
		if strings.HasPrefix(f.Example, "[") {
			if err := json.Unmarshal([]byte(f.Example), &examples); err != nil {
				t.Fatal(err)
			}
		}
		for _, e := range examples {
			if err := f.set(&b, e); err != nil {
				t.Errorf("%s: its own example %q: %v", f.Name, e, err)
			}
		}
		for _, e := range f.get(&b) {
			if err := f.set(&back, e); err != nil {
				t.Errorf("%s: %q written as %q: %v", f.Name, f.Example, e, err)
			}
		}
		if !reflect.DeepEqual(b, back) {
			t.Errorf("%s: %q came back otherwise: %s", f.Name, f.Example, cmp.Diff(b, back))
		}
	}
}

func TestABatchComesBackFromJSON(t *testing.T) {
	in := Demo()
	in.Start = time.Date(2026, 11, 25, 18, 0, 0, 0, time.UTC)
	in.Sugar = append(in.Sugar, Portion{Sweetener: honey, Mass: Within(200*units.Gram, 5), Days: 3.5})
	text, err := json.Marshal(in)
	var out Batch
	if err != nil || json.Unmarshal(text, &out) != nil {
		t.Fatalf("%s: %v", text, err)
	}
	if diff := cmp.Diff(in, out); diff != "" {
		t.Errorf("%s\n%s", text, diff)
	}
}

func TestQuantitiesAreReadAsPeopleWriteThem(t *testing.T) {
	b, err := read(t, `{
// a comment, and "quotes" in it
  "must": "3 L ± 2 %", "must_reading": "1,057 ± 0,001", "must_temperature": "79 F",
  "sugar": ["1 3/4 cups", "1,5 kg honey after 4 days"], "spirit_strength": "94 % mass", "stop_at": "5,5 %",
  "spirit_planned": "2 kg", "juice_label": "26 g per 240 mL", "must_reading": "1.057"}`)
	var twice *FileError
	if !errors.As(err, &twice) || twice.Field != "must_reading" || twice.Line != 5 {
		t.Errorf("a field that stands twice: %+v, %v", b, err)
	}
	b, err = read(t, `{"must": "3 L ± 2 %", "must_reading": "1,057 ± 0,001", "must_temperature": "79 F", "sugar": ["350 g ± 5 g", "1,5 kg honey after 4 days"],
		"spirit_strength": "70 British proof", "stop_at": "5,5 %", "spirit_planned": "2 kg"}`)
	if err != nil {
		t.Fatal(err)
	}
	if b.Must.Volume.Value != 3 || !near(b.Must.Volume.Limit, 0.06, 1e-9) || b.MustReading.Value != 1.057 || !near(b.MustReading.Limit, 0.001, 1e-6) {
		t.Errorf("must %+v, reading %+v", b.Must, b.MustReading)
	}
	if len(b.Sugar) != 2 || b.Sugar[0].Mass != Within(350*units.Gram, 5) || b.Sugar[1].Mass.Value != 1500 || b.Sugar[1].Days != 4 || b.Sugar[1].Sweetener.Name != honey.Name {
		t.Errorf("sugar %+v", b.Sugar)
	}
	// 100 British proof is 57.15 % vol at 60 F: 70 are 40.0, and 0.05 to 0.1 more at 20 C.
	if s := float64(b.SpiritStrength.Value); s < 40.0 || s > 40.2 {
		t.Errorf("70 British proof is read as %v %% vol", s)
	}
	if b.SpiritPlanned.Mass.Value != 2000 || b.SpiritPlanned.Volume.Known {
		t.Errorf("2 kg of spirit: %+v", b.SpiritPlanned)
	}
}

func near(got, want, tolerance float64) bool {
	return got-want <= tolerance && want-got <= tolerance
}

// Every fault comes at once, each with its place and what would do.
func TestFaultsOfAFile(t *testing.T) {
	for text, parts := range map[string][]string{
		"":                     {"b.json:1:1", "JSON object"},
		"[]":                   {"JSON object"},
		`{"must": "3 L",}`:     {"comma too many"},
		`{"must": "3 L"`:       {"ends too soon"},
		`{"must": "3 L"} more`: {"something follows"},
		"{\n \"muts\": \"3 L\",\n \"stop_at\": 5,\n \"target\": \"20 furlongs\"\n}": {`b.json:2:2: no field "muts"; did you mean "must"?`,
			`b.json:3:13: field "stop_at": found 5, expected a text in quotation marks`, `b.json:4:12: field "target"`},
		`{"cups": "3"}`:                           {`no field "cups" (the fields are`},
		`{"name": "a\u202eb"}`:                    {"control characters"},
		`{"start": "soon"}`:                       {"2026-11-25 18:00"},
		`{"sugar": "much"}`:                       {"sugar"},
		`{"sugar": "1 kg after tea"}`:             {"days"},
		`{"juice_label": "26 g"}`:                 {"26 g per 240 mL"},
		`{"fortify": "some"}`:                     {"fill the vessel"},
		`{"readings": ["2026-11-25 18:00 12"]}`:   {"gravity"},
		`{"wine_refractometer": "7 furlongs"}`:    {"Brix"},
		`{"spirit_strength": "40 % vol at noon"}`: {"temperature"},
	} {
		_, err := read(t, text)
		if err == nil {
			t.Errorf("%q was read", text)
			continue
		}
		for _, part := range parts {
			if !strings.Contains(err.Error(), part) {
				t.Errorf("%q: %v\nwant %q in it", text, err, part)
			}
		}
	}
	if _, err := Read("zero", endless{}); err == nil || !strings.Contains(err.Error(), "longer than") {
		t.Errorf("an endless file: %v", err)
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }

// Fields that contradict each other are named together.
func TestContradictionsNameBothFields(t *testing.T) {
	demo := string(demo)
	for change, names := range map[[2]string][]string{
		{`"must": "3 L ± 3 %",`, ``}:                                                       {"must", "wine"},
		{`"must": "3 L ± 3 %",`, `"must": "3 L", "wine": "3 L",`}:                          {"must", "wine"},
		{`"must_reading": "1.057 ± 0.001",`, ``}:                                           {"must_reading", "original_reading", "juice_label"},
		{`"sugar": "1 3/4 cups",`, `"sugar": "1 kg", "gravity_wanted": "1.09",`}:           {"sugar", "gravity_wanted"},
		{`"stop_at": "5.5 % vol",`, `"stop_at": "8 % vol",`}:                               {"stop_at", "stop_to"},
		{`"stop_from": "5 % vol",`, `"stop_from": "7 % vol",`}:                             {"stop_at", "stop_from"},
		{`"spirit_strength": "40 % vol",`, ``}:                                             {"target", "spirit_strength"},
		{`"vessel": "1 1/2 gal",`, ``}:                                                     {"headspace", "vessel"},
		{`"headspace": "200 mL",`, `"headspace": "2 gal",`}:                                {"headspace", "vessel"},
		{`"stop_at": "5.5 % vol",`, `"original_reading": "1.01", "stop_at": "5.5 % vol",`}: {"original_reading", "must_reading"},
		{`"jurisdiction": "US"`, `"blend_reading": "1.01"`}:                                {"blend_reading", "spirit_poured"},
		{`"jurisdiction": "US"`, `"readings": ["2026-11-26 1.09", "2026-11-25 1.08"]`}:     {"readings"},
	} {
		_, err := read(t, strings.Replace(demo, change[0], change[1], 1))
		var c *ConflictError
		if !errors.As(err, &c) {
			t.Errorf("%q: %v, want a conflict of %v", change[1], err, names)
			continue
		}
		for _, n := range names {
			if !strings.Contains(err.Error(), n) {
				t.Errorf("%q: %v does not name %s", change[1], err, n)
			}
		}
	}
}

// FuzzRead: whatever the file, a batch or an error, and a plan or an error.
func FuzzRead(f *testing.F) {
	f.Add(demo)
	f.Add(Template())
	f.Add([]byte(`{"wine": "5 L", "wine_reading": "0.994", "wine_refractometer": "7.2 Bx", "target": "19 % vol", "target_sugar": "90 g/L", "spirit_strength": "60 % vol"}`))
	f.Add([]byte(`{"must": "1 quart", "juice_label": "26 g per 240 mL", "stop_at": "0 % vol", "spirit_strength": "94 % mass", "target": "17 % vol", "fortify": "fill the vessel", "vessel": "1 quart"}`))
	f.Fuzz(func(t *testing.T, content []byte) {
		b, err := Read("fuzz", bytes.NewReader(content))
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		p, err := b.Work()
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		finitePlan(t, p)
	})
}
