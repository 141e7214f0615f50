package additions

import (
	"encoding/json"
	"testing"
)

func TestSubstancesAndEvidenceAreWrittenAsCodes(t *testing.T) {
	for _, s := range append(Substances(), "") {
		text, err := json.Marshal(s)
		back := Substance("other")
		if err != nil || json.Unmarshal(text, &back) != nil || back != s {
			t.Errorf("%q is written as %s, %v, and comes back as %q", s, text, err, back)
		}
	}
	for e, want := range map[Evidence]string{Published: `"published"`, CommonPractice: `"common_practice_no_source"`, FromMemory: `"from_memory"`, Computed: `"computed"`, "": `""`} {
		text, err := json.Marshal(e)
		var back Evidence
		if err != nil || string(text) != want || json.Unmarshal(text, &back) != nil || back != e {
			t.Errorf("%q is written as %s, %v, and comes back as %q", e, text, err, back)
		}
	}
	if text, err := json.Marshal([]any{Substance("gravel")}); err == nil {
		t.Errorf("gravel is written as %s", text)
	}
	for _, s := range Substances() {
		if json.Unmarshal([]byte(`"gravel"`), &s) == nil || s == "gravel" {
			t.Error("gravel was read")
		}
	}
}
