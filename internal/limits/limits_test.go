package limits

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/mutage/internal/table"
)

// A row without the law it belongs to, the place in it, its date or how it is
// known is refused, whichever of them is missing.
func TestARowWithoutSourceArticleDateOrEvidenceIsRefused(t *testing.T) {
	for _, r := range table.Parse(text) {
		if err := complete(r); err != nil {
			t.Error(err)
		}
	}
	whole := table.Parse(text)[0]
	for _, column := range []string{"source", "article", "text_date", "kind", "jurisdiction", "category", "parameter", "comparison", "status", "scope", "looked_up"} {
		bare := maps.Clone(whole)
		bare[column] = " "
		if complete(bare) == nil {
			t.Errorf("a limit without %s would be shown", column)
		}
	}
}

// Every cell is one of the codes that the code reads, and every date a date.
func TestEveryRowCanBeUsed(t *testing.T) {
	comparisons := []Comparison{AtMost, LessThan, AtLeast, MoreThan, OrMore, InStepsOf, RoundedDownTo, CountsAs, NotAllowed, NeedsApproval, NoneInText}
	seen := map[key]int{}
	for _, r := range Rows() {
		at := r.Jurisdiction + ", " + r.Product + ", " + r.Parameter
		for cell, known := range map[string][]string{
			r.MadeFrom: {"", "grapes", "fruit", "spirit"}, r.Scope: {"all", "sale", "home"}, r.Colour: {"", "red", "white"},
			string(r.Evidence): {"published", "computed", "from memory"},
		} {
			if !slices.Contains(known, cell) {
				t.Errorf("%s: %q is none of %q", at, cell, known)
			}
		}
		if !slices.Contains(comparisons, r.Comparison) {
			t.Errorf("%s: comparison %q", at, r.Comparison)
		}
		number := r.Comparison != NotAllowed && r.Comparison != NeedsApproval && r.Comparison != NoneInText
		if number != (r.Unit != "") || number != (r.Limit > 0) {
			t.Errorf("%s: %s %v %q", at, r.Comparison, r.Limit, r.Unit)
		}
		if r.SugarFrom >= r.SugarTo || r.StrengthFrom >= r.StrengthTo {
			t.Errorf("%s: an empty band", at)
		}
		if !date(r.Date) || !date(r.LookedUp) {
			t.Errorf("%s: text of %q, looked up %q", at, r.Date, r.LookedUp)
		}
		seen[key{r.Jurisdiction, r.Category, r.Parameter}]++
	}
	if len(seen) < 200 {
		t.Errorf("%d answers are known; the table was cut", len(seen))
	}
}

// What is from memory was not read, and nothing else.
func TestOnlyWhatWasReadSaysSo(t *testing.T) {
	for _, r := range table.Parse(text) {
		if s := r["status"]; s != "as_read" && s != "superseded" && s != "not_read" || (s == "not_read") != (r.Evidence() == table.FromMemory) {
			t.Errorf("%s, and %s: %v", s, r.Evidence(), r)
		}
	}
}

func date(s string) bool {
	for _, layout := range []string{"2006", "2006-01", time.DateOnly} {
		if _, err := time.Parse(layout, s); err == nil {
			return true
		}
	}
	return false
}

// Two categories never share a code, or one would hide the other's rows.
func TestACodeIsOneCategory(t *testing.T) {
	names := map[string]string{}
	for _, r := range Rows() {
		if was, ok := names[r.Category]; ok && was != r.Product {
			t.Errorf("%q and %q are both %s", was, r.Product, r.Category)
		}
		names[r.Category] = r.Product
	}
	for from, to := range nearest {
		if names[from] == "" || names[to] == "" {
			t.Errorf("nearest to %s is %s: not in the table", from, to)
		}
	}
	for _, c := range append(noWine, AnyWine, HomeMade) {
		if names[c] == "" {
			t.Errorf("%s is no category of the table", c)
		}
	}
}

// The bands of sugar of one answer meet without a gap and without an overlap, so
// that every sugar has one limit.
func TestEverySugarHasOneRow(t *testing.T) {
	for _, rows := range parsed().byKey {
		for _, colour := range []string{"red", "white"} {
			for _, sugar := range []float64{0, 2, 3.999, 4, 4.001, 4.999, 5, 34.9, 35, 79, 80, 300} {
				n := 0
				for _, r := range rows {
					if (r.SugarFrom > 0 || !math.IsInf(r.SugarTo, 1)) && r.Applies(colour, Range{sugar, sugar}, Range{12, 12}) == Yes {
						n++
					}
				}
				banded := slices.ContainsFunc(rows, func(r Row) bool { return r.SugarFrom > 0 })
				if r := rows[0]; banded && n != 1 {
					t.Errorf("%s %s %s, %s, %v g/L of sugar: %d rows", r.Jurisdiction, r.Category, r.Parameter, colour, sugar, n)
				}
			}
		}
	}
}

// A sum that is exactly at the limit on paper is at the limit for the computer;
// a thousandth beyond it is beyond.
func TestTheLastBitTurnsNothing(t *testing.T) {
	for _, limit := range []float64{0.3, 10, 200, 350, 1018.5} {
		for _, x := range []float64{limit, math.Nextafter(limit, 0), math.Nextafter(limit, 1e9), limit * (1 + 5e-10), limit * (1 - 5e-10)} {
			r := Range{x, x}
			for c, want := range map[Comparison]Answer{AtMost: Yes, AtLeast: Yes, OrMore: Yes, LessThan: No, MoreThan: No} {
				if got := c.Judge(r, limit); got != want {
					t.Errorf("%.17g %s %v: %v, want %v", x, c, limit, got, want)
				}
			}
		}
		for c, want := range map[Comparison]Answer{AtMost: No, LessThan: No, AtLeast: Yes, OrMore: Yes, MoreThan: Yes} {
			x := limit * 1.001
			if got := c.Judge(Range{x, x}, limit); got != want {
				t.Errorf("%v %s %v: %v, want %v", x, c, limit, got, want)
			}
		}
	}
	if Compare(5, math.Inf(1)) != -1 || Compare(math.Inf(1), 5) != 1 {
		t.Error("an open bound is at a number")
	}
}

// 345 mg/L known to within 10 may be above 350; known to within 2 it is not.
func TestAnUncertaintyAcrossTheLimitIsPerhaps(t *testing.T) {
	for _, x := range []struct {
		value, u float64
		want     Answer
	}{{345, 0, Yes}, {345, 1, Yes}, {345, 5, Perhaps}, {352, 5, Perhaps}, {362, 5, No}, {350, 0, Yes}, {350, 0.1, Perhaps}} {
		if got := AtMost.Judge(Around(x.value, x.u), 350); got != x.want {
			t.Errorf("%v with standard uncertainty %v against 350: %v, want %v", x.value, x.u, got, x.want)
		}
	}
}

// A fortified fruit wine has no SO2 limit of its own in the EU: the fruit wine's
// is the nearest, and no more than that.
func TestFindSaysWhoseRowsTheyAre(t *testing.T) {
	for _, x := range []struct {
		jurisdiction, category, parameter, near string
		rows                                    int
	}{
		{"EU", "fortified_fruit_wine", "so2_total", "fruit_wine", 1},
		{"EU", "fruit_wine", "so2_total", "", 1},
		{"US", "fortified_fruit_wine", "so2_total", "", 1},
		{"US", "home_made", "declare_sulfites", "", 1},
		{"US", "spirit", "so2_total", "", 0},
		{"Portugal", "fruit_wine", "so2_total", "", 0},
	} {
		rows, near := Find(x.jurisdiction, x.category, x.parameter)
		if len(rows) != x.rows || near != x.near {
			t.Errorf("%+v: %d rows, nearest %q", x, len(rows), near)
		}
	}
	for _, written := range []string{"us", "US", " eu", "australia", "New Zealand", "AUSTRALIA/NEW ZEALAND", "oiv"} {
		if _, ok := Jurisdiction(written); !ok {
			t.Errorf("%q is not known", written)
		}
	}
	if j, ok := Jurisdiction("Atlantis"); ok {
		t.Errorf("Atlantis is %q", j)
	}
}

func TestASupersededRowSaysSo(t *testing.T) {
	old, memory := false, false
	for _, r := range Rows() {
		c := r.Citation()
		if r.Superseded {
			old = true
			if want := ", as of " + r.Date + ", amended since"; !strings.Contains(c, want) {
				t.Errorf("%q does not say %q", c, want)
			}
		}
		if r.Evidence == table.FromMemory {
			memory = true
			if !strings.Contains(c, "from memory") {
				t.Errorf("%q does not say that it is from memory", c)
			}
		}
	}
	if !old || !memory {
		t.Error("nothing was compared")
	}
}

// 19 times in 20 are 1.96 standard uncertainties either way, and no level is below
// nothing.
func TestAroundIsNineteenTimesInTwenty(t *testing.T) {
	if r := Around(10, 1); math.Abs(r.Low-8.04) > 1e-12 || math.Abs(r.High-11.96) > 1e-12 {
		t.Errorf("10 with standard uncertainty 1: %v", r)
	}
	if r := Around(1, 1); r.Low != 0 {
		t.Errorf("1 with standard uncertainty 1 begins at %v", r.Low)
	}
}

// Letters and figures are kept, from the first to the last of each.
func TestACodeKeepsLettersAndFigures(t *testing.T) {
	if got := Code("A wine, of 09/Z"); got != "a_wine_of_09_z" {
		t.Errorf("%q", got)
	}
}

// Nothing is as large as what has no end.
func TestCompareWithoutEnd(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		x, limit float64
		want     int
	}{{inf, 5, 1}, {5, inf, -1}, {inf, -inf, 1}, {-inf, inf, -1}, {inf, inf, 0}} {
		if got := Compare(c.x, c.limit); got != c.want {
			t.Errorf("%v against %v: %d, expected %d", c.x, c.limit, got, c.want)
		}
	}
}

// Alternatives are the rows of one category that share a word: of no word every row
// that has none.
func TestAlternativesShareTheirWord(t *testing.T) {
	some := 0
	for _, r := range parsed().rows {
		found := false
		for _, a := range Alternatives(r.Jurisdiction, r.Category, r.Alternative) {
			if a.Jurisdiction != r.Jurisdiction || a.Category != r.Category || a.Alternative != r.Alternative {
				t.Errorf("%s, %s, %q has the row %+v", r.Jurisdiction, r.Category, r.Alternative, a)
			}
			found = found || a == r
		}
		if !found {
			t.Errorf("%+v is none of its own alternatives", r)
		}
		if r.Alternative != "" {
			some++
		}
	}
	if some == 0 {
		t.Error("no row has an alternative")
	}
}
