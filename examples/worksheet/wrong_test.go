package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A wrong is an input that somebody typed, and the reaction it gets: the exit code
// and words of the message. @ in a command is a file with the content given.
type wrong struct {
	args []string
	code int
	says string
	file string
}

func w(code int, says string, args ...string) wrong { return wrong{args: args, code: code, says: says} }

// batchOf is the batch of a wrong field: good but for it.
func batchOf(code int, says, field, value string) wrong {
	fields := map[string]string{"must": `"3 L"`, "must_reading": `"1.092"`, "stop_at": `"6 % vol"`, "spirit_strength": `"75 % vol"`, "target": `"20 % vol"`}
	fields[field] = value
	var lines []string
	for _, k := range []string{"must", "must_reading", "stop_at", "spirit_strength", "target"} {
		lines = append(lines, `"`+k+`": `+fields[k])
		delete(fields, k)
	}
	for k, v := range fields {
		lines = append(lines, `"`+k+`": `+v)
	}
	return wrong{args: []string{"plan", "-batch", "@"}, code: code, says: says, file: "{" + strings.Join(lines, ",\n") + "}"}
}

func file(code int, says, content string, args ...string) wrong {
	return wrong{args: args, code: code, says: says, file: content}
}

var wrongs = []wrong{
	// The command and its flags.
	w(2, "one of: plan"),
	w(2, `did you mean "plan"?`, "plam"),
	w(2, `did you mean "fortify"?`, "fortifi"),
	w(2, "there are: plan", "marmalade"),
	w(2, `no command "versoin"`, "versoin"),
	w(2, "no command", "plan.json"),
	w(2, `no command ""`, ""),
	w(2, "did you mean -batch?", "plan", "-bach", "x"),
	w(2, "did you mean -json?", "plan", "-jsn"),
	w(2, "did you mean -units?", "blend", "-unit", "us", "1 L at 40 % vol"),
	w(2, "not defined: -marmalade", "plan", "-marmalade"),
	w(2, "behind -batch", "plan", "cherry.json"),
	w(2, "metric, us or imperial", "plan", "-units", "metrics"),
	w(2, "metric, us or imperial", "gravity", "1.05", "-units", "old"),
	w(2, "one of them", "plan", "-json", "-csv"),
	w(2, "one of them", "gravity", "1.05", "-json", "-csv"),
	w(2, "0 to 9", "plan", "-places", "99"),
	w(2, "0 to 9", "gravity", "1.05", "-places", "-2"),
	w(2, "many", "plan", "-places", "many"),
	w(2, "details", "plan", "-show", "all"),
	w(2, "details", "gravity", "1.05", "-show", "working"),
	w(2, "working or details", "blend", "1 L at 40 % vol", "-show", "all"),
	w(2, "-show goes with", "blend", "1 L at 40 % vol", "-show", "working", "-json"),
	w(2, "-places goes with", "gravity", "1.05", "-places", "2", "-csv"),
	w(2, "more than nothing", "plan", "-scale", "0"),
	w(2, "more than nothing", "plan", "-scale", "-1"),
	w(2, "-scale", "plan", "-scale", "2", "-scale-to", "10 L"),
	w(2, "needs an argument", "gravity", "1.05", "-at"),
	w(2, "help takes one", "help", "plan", "watch"),
	w(2, "words", "help", "wrds"),
	w(2, "stands alone", "-version", "please"),
	w(2, "stand alone", "plan", "-template", "-json"),

	// gravity
	w(2, "gravity READING", "gravity"),
	w(2, "gravity READING", "gravity", "1.05", "1.06"),
	w(1, `"1.057.0"`, "gravity", "1.057.0"),
	w(1, "Oe", "gravity", "14"),
	w(1, `"sweet"`, "gravity", "sweet"),
	w(1, `"105 7"`, "gravity", "105 7"),
	w(1, "out of range", "gravity", "90 P"),
	w(1, "90 C is out of range", "gravity", "0.99", "-strength", "12 % vol", "-at", "90 C"),
	w(1, "101 C", "gravity", "1.057", "-at", "101 C"),
	w(1, "-40 C", "gravity", "1.057", "-at", "-40 C"),
	w(2, `"26"`, "gravity", "1.057", "-at", "26"),
	w(2, `strength "strong"`, "gravity", "1.057", "-strength", "strong"),
	w(2, "hydrometer's reading", "gravity", "150 g/L", "-at", "26 C"),
	w(1, "g/L", "gravity", "950 g/L of sugar"),
	w(1, "label cup of tea", "gravity", "26 g per label cup of tea"),
	w(1, "volume 0 L", "gravity", "26 g per 0 mL"),
	w(2, "-fruit", "gravity", "1.057", "-fruit", "quince of the moon"),
	w(2, "-yeast-limit does nothing", "gravity", "1.02", "-strength", "6 % vol", "-yeast-limit", "9 % vol"),
	w(1, "strength", "gravity", "0.9", "-strength", "6 % vol"),

	// strength
	w(2, "strength wants -og and -fg", "strength"),
	w(2, "flags only", "strength", "1.092", "1.046"),
	w(2, "-fg is missing", "strength", "-og", "1.092"),
	w(2, "-og is missing", "strength", "-fg", "1.046"),
	w(2, "-refractometer is missing", "strength", "-hydrometer", "1.02"),
	w(1, "swapped?", "strength", "-og", "1.046", "-fg", "1.092"),
	w(2, "1.9", "strength", "-og", "1.9", "-fg", "1.0"),
	w(2, "dense", "strength", "-og", "dense", "-fg", "1.0"),
	w(1, "final gravity", "strength", "-og", "1.05", "-fg", "0.9"),
	w(2, "expected one of them", "strength", "-og", "1.09", "-fg", "1.0", "-hydrometer", "1.0", "-refractometer", "8"),
	w(2, "expected one of them", "strength", "-og", "1.09", "-fg", "1.0", "-residue", "1.02"),
	w(2, "expected one of them", "strength", "-label", "80 proof", "-alcoholometer", "40 % vol"),
	w(2, "-extract does nothing", "strength", "-og", "1.09", "-fg", "1.0", "-extract", "5 g/L"),
	w(2, "-og-at does nothing", "strength", "-label", "80 proof", "-og-at", "20 C"),
	w(2, "-at does nothing", "strength", "-label", "80 proof", "-at", "30 C"),
	w(2, "-label", "strength", "-label", "very strong"),
	w(2, "-label", "strength", "-label", "40 degrees"),
	w(2, "200", "strength", "-label", "250 proof"),
	w(2, "60 C", "strength", "-label", "40 % vol at 60 C"),
	w(1, "refractometer", "strength", "-hydrometer", "1.10", "-refractometer", "2"),
	w(1, "residue", "strength", "-wine", "1.03", "-residue", "1.01"),
	w(2, "120", "strength", "-alcoholometer", "120 % vol"),
	w(1, "95 C", "strength", "-alcoholometer", "40 % vol", "-at", "95 C"),
	w(1, "95 C", "strength", "-og", "1.09", "-fg", "1.01", "-at", "95 C"),

	// blend
	w(2, "blend \"3 L", "blend"),
	w(1, `"cherry"`, "blend", "cherry"),
	w(1, `liquid ""`, "blend", ""),
	w(1, `"3 Lx`, "blend", "3 Lx at 6.1 % vol", "1 L at 40 % vol"),
	w(1, "vool", "blend", "3 L at 6.1 % vol with 142 g/L", "1 L at 40 % vool"),
	w(1, "140", "blend", "3 L at 140 % vol"),
	w(1, "volume -3 L is out of range", "blend", "-3 L at 14 % vol"),
	w(1, "without the comma", "blend", "3,000 mL at 14 % vol with 20 g/L"),
	w(1, "expected its strength and extract", "blend", "3 L", "1 L at 40 % vol"),
	w(1, "expected its strength and extract", "blend", "0.5 L vodka", "3 L at 6 % vol with 100 g/L"),
	w(2, "how much of spirit?", "blend", "3 L at 6 % vol with 140 g/L", "at 40 % vol"),
	w(2, "how much of spirit?", "blend", "at 40 % vol"),
	w(1, "fl oz", "blend", "26 ounces of weight at 40 % vol"),
	w(1, "much sugar", "blend", "3 L at 6 % vol with much sugar"),
	w(1, "g/l", "blend", "3 L at 6 % vol with 142"),
	w(1, "1200", "blend", "3 L at 6 % vol with 1200 g/L"),
	w(1, "60 C", "blend", "3 L at 6 % vol with 100 g/L measured at 60 C"),
	w(2, "extract is stated", "blend", "3 L at 6 % vol", "1 L at 40 % vol", "-at", "26 C"),
	w(1, "50 C", "blend", "3 L at 6 % vol with 100 g/L", "-at", "50 C"),
	w(2, "fills up", "blend", "3 L at 6 % vol with 100 g/L", "fill 4 L"),
	w(2, "one liquid fills up", "blend", "3 L at 6 % vol with 100 g/L", "fill 4 L at 40 % vol", "fill 5 L with 150 g/L"),
	w(1, "4 L", "blend", "5 L at 6 % vol with 100 g/L", "fill 4 L at 40 % vol"),
	w(1, "fill 1 quart at", "blend", "fill 3 kg at 40 % vol"),
	w(1, "500 g salt", "blend", "3 L at 6 % vol with 100 g/L", "500 g salt"),

	// fortify
	w(2, "fortify -to", "fortify"),
	w(2, "fortify -to", "fortify", "3 L at 6 % vol with 142 g/L"),
	w(2, "fortify -to", "fortify", "-to", "20 % vol", "3 L at 6 % vol with 142 g/L"),
	w(2, "strong", "fortify", "-to", "strong", "3 L at 6 % vol with 142 g/L", "at 75 % vol"),
	w(2, "120", "fortify", "-to", "120 % vol", "3 L at 6 % vol with 142 g/L", "at 75 % vol"),
	w(1, "with spirit of at least 20", "fortify", "-to", "20 % vol", "3 L at 6.1 % vol with 142 g/L", "at 15 % vol with 2 g/L"),
	w(1, "not reachable", "fortify", "-to", "40 % vol", "3 L at 6.1 % vol with 142 g/L", "at 40 % vol"),
	w(1, "not reachable", "fortify", "-to", "20 % vol", "-vessel", "3.2 L", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(1, "not reachable", "fortify", "-to", "20 % vol", "3 L at 6.1 % vol with 142 g/L", "0.1 L at 75 % vol"),
	w(1, "not reachable", "fortify", "-to", "20 % vol", "fill 1 gal", "1 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "-headspace goes with -vessel", "fortify", "-to", "20 % vol", "-headspace", "1 fl oz", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(1, "headspace", "fortify", "-to", "20 % vol", "-vessel", "1 L", "-headspace", "2 L", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "how much wine?", "fortify", "-to", "20 % vol", "at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "-vessel and", "fortify", "-to", "20 % vol", "-vessel", "4 L", "fill 1 quart", "at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "goes with -to", "fortify", "fill 1 quart", "at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "three liquids", "fortify", "-to", "20 % vol", "-extract", "100 g/L", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "-extract goes with -to", "fortify", "-extract", "100 g/L", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol", "syrup: with 800 g/L"),
	w(1, "not reachable", "fortify", "-to", "20 % vol", "-extract", "500 g/L", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol", "syrup: with 200 g/L"),
	w(2, "-fruit goes with", "fortify", "-to", "20 % vol", "-fruit", "juice", "3 L at 6.1 % vol", "at 75 % vol"),
	w(2, "-fruit", "fortify", "-to", "20 % vol", "-fruit", "moon", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(1, "much wine", "fortify", "-to", "20 % vol", "much wine", "at 75 % vol"),
	w(2, "-show working goes with -to", "fortify", "-show", "working", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),

	// explain
	w(2, "explain -reads", "explain"),
	w(2, "explain -reads", "explain", "3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"),
	w(2, "explain -reads", "explain", "-reads", "1.03", "3 L at 6.1 % vol with 142 g/L"),
	w(2, "how much of spirit", "explain", "-reads", "1.03", "3 L at 6.1 % vol with 142 g/L", "at 75 % vol"),
	w(2, "extract of wine is not stated", "explain", "-reads", "1.03", "3 L at 6.1 % vol", "0.7 L at 75 % vol"),
	w(2, "odd", "explain", "-reads", "odd", "3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"),
	w(1, "70 C", "explain", "-reads", "1.03", "-at", "70 C", "3 L at 6.1 % vol with 142 g/L", "0.7 L at 75 % vol"),

	// dose
	w(2, "dose -volume", "dose"),
	w(2, "dose -volume", "dose", "-volume", "3 L"),
	w(2, "dose -volume", "dose", "-sulfite", "50 mg/L"),
	w(2, "3 gallons of juice", "dose", "-volume", "3 gallons of juice", "-sulfite", "50 mg/L"),
	w(2, "about 3 L", "dose", "-volume", "about 3 L", "-sulfite", "50 mg/L"),
	w(2, "-sulfite", "dose", "-volume", "3 L", "-sulfit", "50 mg/L"),
	w(2, "a pinch", "dose", "-volume", "3 L", "-sulfite", "a pinch"),
	w(2, "-50 mg/L", "dose", "-volume", "3 L", "-sulfite", "-50 mg/L"),
	w(2, "2.5 to 4.5", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-ph", "9"),
	w(2, "more than nothing", "dose", "-volume", "3 L", "-sulfite", "0 mg/L"),
	w(2, "-jurisdiction does nothing", "dose", "-volume", "3 L", "-tasted", "2 g sugar in 100 mL", "-jurisdiction", "eu"),
	w(2, "-ph goes with", "dose", "-volume", "3 L", "-from", "1.05", "-to", "1.09", "-ph", "3.4"),
	w(2, "-to goes with -from", "dose", "-volume", "3 L", "-to", "1.09"),
	w(2, "-from goes with", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-from", "1.05"),
	w(1, "swapped?", "dose", "-volume", "3 L", "-from", "1.09", "-to", "1.05"),
	w(1, "-extract-to", "dose", "-volume", "3 L", "-from", "0.994", "-to", "1.02"),
	w(2, "-extract-to goes with -wine", "dose", "-volume", "3 L", "-extract-to", "100 g/L"),
	w(1, "100 g/L", "dose", "-volume", "3 L", "-wine", "13 % vol with 150 g/L", "-extract-to", "100 g/L"),
	w(2, "its extract is not stated", "dose", "-volume", "3 L", "-wine", "13 % vol", "-extract-to", "100 g/L"),
	w(2, "-wine", "dose", "-volume", "3 L", "-wine", "dry and strong", "-extract-to", "100 g/L"),
	w(2, "-free-to goes with -free", "dose", "-volume", "3 L", "-free-to", "30 mg/L"),
	w(1, "free SO2", "dose", "-volume", "3 L", "-free-to", "30 mg/L", "-free", "50 mg/L"),
	w(2, "-molecular goes with -ph", "dose", "-volume", "3 L", "-molecular", "0.6 mg/L"),
	w(2, "expected one of them", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-free-to", "30 mg/L", "-free", "0 mg/L"),
	w(2, "expected one of them", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-tablet", "0.44 g", "-solution", "50 g/L"),
	w(2, "in one?", "dose", "-volume", "3 L", "-sulfite", "2 tablets"),
	w(2, "tablets", "dose", "-volume", "3 L", "-sulfite", "0.5 g", "-tablet", "0.44 g"),
	w(2, "sorbate are not known", "dose", "-volume", "3 L", "-sorbate", "2 tablets"),
	w(2, "potassium metabisulfite", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-salt", "table salt"),
	w(2, "0.5 to 1", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-purity", "2"),
	w(1, "10", "dose", "-volume", "3 L", "-sulfite", "50 g/L"),
	w(2, "tartaric", "dose", "-volume", "3 L", "-raise-acid", "1 g/L", "-acid", "vinegar"),
	w(2, "of which?", "dose", "-volume", "3 L", "-raise-acid", "3 g"),
	w(2, "weigh it", "dose", "-volume", "3 L", "-raise-acid", "1 tsp", "-acid", "tartaric"),
	w(2, "of which?", "dose", "-volume", "3 L", "-lower-acid", "3 g"),
	w(2, "potassium bicarbonate", "dose", "-volume", "3 L", "-lower-acid", "1 g/L", "-carbonate", "baking soda"),
	w(2, "sum of the parts 110 %", "dose", "-volume", "3 L", "-raise-acid", "1 g/L", "-acid", "60 % tartaric, 50 % malic"),
	w(2, "expected one of them", "dose", "-volume", "3 L", "-raise-acid", "1 g/L", "-lower-acid", "1 g/L"),
	w(2, "-acid goes with", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-acid", "malic"),
	w(2, "sugar", "dose", "-volume", "3 L", "-from", "1.05", "-to", "1.09", "-sweetener", "treacle"),
	w(2, "-sugar goes with", "dose", "-volume", "3 L", "-sugar", "500 g"),
	w(2, "EU", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-jurisdiction", "atlantis"),
	w(2, "fruit wine", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-jurisdiction", "eu", "-category", "lemonade"),
	w(2, "-category goes with", "dose", "-volume", "3 L", "-sulfite", "50 mg/L", "-category", "fruit wine"),
	w(2, "flags only", "dose", "3 L", "-sulfite", "50 mg/L"),
	w(2, "-tasted", "dose", "-volume", "3 L", "-tasted", "a bit of sugar"),
	w(2, "-tasted", "dose", "-volume", "3 L", "-tasted", "0.2 g in 100 mL"),
	w(2, "-tasted", "dose", "-volume", "3 L", "-tasted", "0.2 g malic acid in a glass"),
	w(2, "-tasted", "dose", "-volume", "3 L", "-tasted", "0.2 g malic acid in 0 mL"),

	// plan: the file
	w(1, "no such file", "plan", "-batch", "no-such-file.json"),
	w(1, "directory", "plan", "-batch", "."),
	file(1, "JSON object", "", "plan", "-batch", "@"),
	file(1, "JSON object", "[1, 2]", "plan", "-batch", "@"),
	file(1, "1:", "must: 3 L\n", "plan", "-batch", "@"),
	file(1, "comma", "{\"must\": \"3 L\",}", "plan", "-batch", "@"),
	batchOf(1, "twice", "target", `"20 % vol", "target": "18 % vol"`),
	batchOf(1, `did you mean "sugar"?`, "suger", `"1 kg"`),
	batchOf(1, `"cups"`, "cups", `"3"`),
	batchOf(1, "without the comma", "must", `"3,000 mL"`),
	batchOf(1, "must", "must", `3`),
	batchOf(1, `"3"`, "must", `"3"`),
	batchOf(1, "3 gallons of juice", "must", `"3 gallons of juice"`),
	batchOf(1, "1 quart jar", "must", `"1 quart jar"`),
	batchOf(1, "about 3 L", "must", `"about 3 L"`),
	batchOf(1, "-3 L", "must", `"-3 L"`),
	batchOf(1, "already fermented", "must_reading", `"0.995"`),
	batchOf(1, "1.057.0", "must_reading", `"1.057.0"`),
	batchOf(1, "spirit_strength", "spirit_strength", `"very strong"`),
	batchOf(1, "120", "spirit_strength", `"120 % vol"`),
	batchOf(1, "target", "target", `"half"`),
	batchOf(1, "cellar_temperature", "cellar_temperature", `"cold"`),
	batchOf(1, "units", "units", `"metrics"`),
	batchOf(1, "jurisdiction", "jurisdiction", `"atlantis"`),
	batchOf(1, "sugar", "sugar", `"2 lbs treacle"`),
	batchOf(1, "bottles", "bottles", `"some"`),
	batchOf(1, "start", "start", `"tomorrow"`),

	// watch
	w(1, "no such file", "watch", "no-such-file.csv"),
	w(2, "one log", "watch", "a.csv", "b.csv"),
	w(2, "-zone", "watch", "-zone", "Nowhere/Land", "-"),
	file(1, "line 1", "", "watch", "@"),
	file(1, "line 2", "time,reading\nnoon,1.09\n", "watch", "@"),
	file(1, "line 3", "time,reading\n2026-10-01 08:00,1.09\n2026-10-01 20:00,twelve\n", "watch", "@"),

	file(2, "no column brix", cherryLog, "watch", "@", "-refractometer"),
	file(2, "-factor does nothing", cherryLog, "watch", "@", "-factor", "1.04"),
	file(2, "a log of weights", cherryLog, "watch", "@", "-must", "5 L"),
	file(2, "read in two ways", cherryLog, "watch", "@", "-dates", "day"),
	file(2, "has its unit", cherryLog, "watch", "@", "-degrees", "F"),

	// column
	w(2, "FUNCTION", "column"),
	w(2, "fortify", "column", "fortfy"),
	w(2, "no -json", "column", "-json", "fortify", "x.csv"),
	w(2, "no -csv", "column", "-csv", "fortify", "x.csv"),
	w(2, "no -units", "column", "fortify", "-units", "us", "x.csv"),
	w(1, "no such file", "column", "fortify", "no-such-file.csv"),
	w(2, "point or comma", "column", "fortify", "-decimal", "dot", "x.csv"),
	w(2, "comma, semicolon, tab", "column", "fortify", "-sep", "5", "x.csv"),
	file(1, "base_volume", "wine,spirit\n1,2\n", "column", "fortify", "@"),
	file(1, "both named", "strength,extract,Strength\n20,84,19\n", "column", "stability", "@"),
}

func TestWrongInputs(t *testing.T) {
	if len(wrongs) < 150 {
		t.Errorf("%d wrong inputs, at least 150 are meant", len(wrongs))
	}
	dir := t.TempDir()
	for _, c := range wrongs {
		args := append([]string{}, c.args...)
		for i, a := range args {
			if a == "@" {
				args[i] = filepath.Join(dir, "wrong")
				if err := os.WriteFile(args[i], []byte(c.file), 0o600); err != nil {
					t.Fatal(err)
				}
			}
		}
		var out, errs bytes.Buffer
		code := execute(args, &out, &errs)
		message := strings.Join(strings.Fields(errs.String()), " ")
		switch {
		case code != c.code || !strings.Contains(message, c.says):
			t.Errorf("%q %.200s: exit %d, %q; want %d and %q", c.args, c.file, code, message, c.code, c.says)
		case out.Len() > 0:
			t.Errorf("%q: an error, and printed %q", c.args, out.String())
		case !strings.Contains(message, "see: worksheet") && !strings.Contains(message, `"see": "worksheet`):
			t.Errorf("%q: %q does not say where to look", c.args, message)
		case strings.Contains(message, "%!") || strings.Contains(message, "goroutine"):
			t.Errorf("%q: %q", c.args, message)
		}
		if len(c.args) == 0 || c.args[0] == "column" {
			continue
		}
		errs.Reset()
		if code := execute(append(args, "-json"), &out, &errs); code != 0 && !json.Valid(errs.Bytes()) {
			t.Errorf("%q -json: exit %d, the error is no JSON: %s", c.args, code, errs.String())
		}
	}
}
