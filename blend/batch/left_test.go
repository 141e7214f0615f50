package batch

import (
	"strings"
	"testing"

	"example.org/mutage/internal/handbook"
)

// What would mend a blend says how much is left where it takes more: of the wine what
// was not poured, of the spirit what is left of the stock.
func TestWhatMendsABlendCountsWhatIsLeft(t *testing.T) {
	const start = `{"must": "3 L", "must_reading": "1.057", "fruit": "juice", "sugar": "300 g", "stop_at": "5.5 % vol", "spirit_strength": "75 % vol", "target": "20 % vol", `
	for more, want := range map[string]struct{ says, never string }{
		// Too strong by every explanation; of the wine 3 L were poured, or 2 L.
		`"wine_poured": "3 L", "spirit_poured": "1.2 L", "blend_reading": "0.985"`:   {"of wine mend it (", " of wine mend it."},
		`"wine_poured": "0.5 L", "spirit_poured": "0.2 L", "blend_reading": "0.985"`: {"of wine mend it.", ""},
		// Too weak by most.
		`"wine_poured": "3 L", "spirit_poured": "0.5 L", "blend_reading": "1.045", "spirit_stock": "0.5 L"`: {"mend it (none of it is left)", "of spirit mend it."},
		`"wine_poured": "3 L", "spirit_poured": "0.5 L", "blend_reading": "1.045", "spirit_stock": "9 L"`:   {"of spirit mend it.", "is left)"},
		// As poured it is too weak.
		`"spirit_poured": "0.5 L", "spirit_stock": "0.6 L"`: {"more of spirit (100 mL of it is left).", ""},
		`"spirit_poured": "0.5 L", "spirit_stock": "2 L"`:   {"more of spirit.", "is left"},
	} {
		p := work(t, handbook.Must(Read("poured", strings.NewReader(start+more+`}`))))
		text := strings.Join(p.Answer, " ")
		for _, s := range p.Steps {
			if s.Key == "check" {
				text += strings.Join(s.Lines, " ")
			}
		}
		if !strings.Contains(text, want.says) || want.never != "" && strings.Contains(text, want.never) {
			t.Errorf("%s: want %q, never %q: %s", more, want.says, want.never, text)
		}
	}
}
