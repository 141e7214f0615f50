package limits

import (
	"strings"
	"testing"

	"example.org/mutage/internal/handbook"
)

// gone are the rows of the tables before that this one leaves out or has
// changed, and why. The words, each between two strokes, are all in the row.
//
// Rows that were kept changed their names: the US dessert wine is that of grapes
// (4.21(a)(6)), and a fruit wine of this strength a fruit dessert wine
// (4.21(e)(7)); Port goes by the regulation of 2025 in place of a press report;
// dry Port is below 1008 kg/m3, not at most; the EU declares sulfites above 10
// mg/L, not from 10.
var gone = []struct{ words, why string }{
	{"austria", "national text of 1992, overtaken by Regulation (EC) No 1333/2008"},
	{"jecfa", "an intake, no limit of a wine: it stands in the table of practice"},
	{"canada|wine|free so2|70|mg/l", "70 mg/kg free is one of two alternatives, with 350 mg/kg combined: B.02.100(b)(vii)"},
	{"eu (pre-2013 text)", "1493/1999 is repealed; 1308/2013 asks for 96 where it had 95, and allows 86 where it had 80"},
	{"us 1906", "of history alone"},
	{"historical", "of history alone"},
}

// words are how the tables before named what is now a code.
var words = []struct{ before, parameter string }{
	{"label statement", "declare_sulfites"}, {"total so2", "so2_total"}, {"free so2", "so2_free"}, {"so2 (e 220", "so2_total"}, {"sulfites", "so2_total"},
	{"sorb", "sorbic_acid"}, {"fixed acid in finished", "fixed_acid_after_acidifying"}, {"ph after", "ph_after_acidifying"}, {"fixed acid after deac", "fixed_acid_after_deacidifying"},
	{"calcium carbonate", "calcium_carbonate_added"}, {"citric acid to stab", "citric_acid_added"}, {"citric acid", "citric_acid"}, {"fumaric", "fumaric_acid"},
	{"metatartaric", "metatartaric_acid"}, {"potassium bitartrate", "potassium_bitartrate_added"}, {"ammonium phosphate", "diammonium_phosphate_added"},
	{"diammonium", "diammonium_phosphate_added"}, {"ammonium sulfate", "ammonium_sulfate_added"}, {"thiamine", "thiamine_added"}, {"yeast hulls", "yeast_hulls_added"},
	{"lysozyme", "lysozyme"}, {"dimethyl", "dimethyl_dicarbonate"}, {"pvpp", "pvpp_added"}, {"activated carbon", "activated_carbon_added"}, {"gum arabic", "gum_arabic"},
	{"granular cork", "granular_cork_added"}, {"copper added", "copper_added"}, {"copper", "copper"}, {"lead", "lead"}, {"colloidal", "colloidal_silica_added"},
	{"tannin", "tannin"}, {"natural acid after amel", "fixed_acid_after_amelioration"}, {"ameliorating", "amelioration_share"}, {"total solids after", "total_solids_max"},
	{"acid addition", "acid_added"}, {"acid added", "acid_added"}, {"tartaric acid left", "tartaric_acid_after_deacidifying"}, {"volatile", "volatile_acidity"},
	{"methanol", "methanol"}, {"ascorbic acid content", "ascorbic_acid"}, {"ascorbic", "ascorbic_acid_added"}, {"benzo", "benzoic_acid"}, {"tartrates", "tartrates"},
	{"home wine", "home_volume"}, {"home distill", "home_distilling"},
}

func parameterOf(substance string) string {
	for _, w := range words {
		if strings.Contains(strings.ToLower(substance), w.before) {
			return w.parameter
		}
	}
	return ""
}

// jurisdictionsOf are today's names for one of before.
func jurisdictionsOf(before string) []string {
	switch before {
	case "EU/UK":
		return []string{"EU", "UK"}
	case "Codex GSFA":
		return []string{"Codex"}
	case "Australia":
		return []string{"Australia/New Zealand"}
	case "EU organic", "France/EU", "EU and Switzerland", "EU (2006 text)", "EU (pre-2013 text)":
		return []string{"EU"}
	}
	return []string{before}
}

// inUnit are the units in which a number of before may stand now: the law's
// milliequivalents are in g/L of acetic and of tartaric acid.
func inUnit(number float64, unit, parameter string) float64 {
	switch {
	case strings.HasPrefix(unit, "meq/L") && parameter == "volatile_acidity":
		return number * 60.052 / 1000
	case strings.HasPrefix(unit, "meq/L"):
		return number * 75.044 / 1000
	case unit == "g/hL":
		return number / 100
	}
	return number
}

func has(jurisdiction string, number float64, parameters ...string) bool {
	for _, r := range parsed().rows {
		for _, p := range parameters {
			if r.Jurisdiction == jurisdiction && r.Parameter == p && (number == 0 && r.Unit == "" || near(r.Limit, number)) {
				return true
			}
		}
	}
	return false
}

func near(a, b float64) bool { return a-b < 6e-4*b && b-a < 6e-4*b }

// isGone tells whether a row is among gone, and counts it there.
func isGone(line string, used map[string]int) bool {
	for _, g := range gone {
		if all(line, strings.Split(g.words, "|")) {
			used[g.words]++
			return true
		}
	}
	return false
}

func all(line string, parts []string) bool {
	for _, p := range parts {
		if !strings.Contains(line, p) {
			return false
		}
	}
	return true
}

// No number of the tables before was lost on the way, or it is said why.
func TestNoLimitWasLost(t *testing.T) {
	kept, used := 0, map[string]int{}
	for _, r := range handbook.Load(t, "testdata/limits_before.csv").Rows {
		line := strings.ToLower(strings.Join([]string{r.Text("jurisdiction"), r.Text("product_class"), r.Text("substance"), r.Text("limit"), r.Text("unit"), r.Text("source")}, "|"))
		if isGone(line, used) {
			continue
		}
		parameter := parameterOf(r.Text("substance"))
		number := 0.0
		if r.Text("limit") != "prohibited" {
			number = inUnit(r.Number("limit"), r.Text("unit"), parameter)
		}
		for _, j := range jurisdictionsOf(r.Text("jurisdiction")) {
			if !has(j, number, parameter) {
				t.Errorf("%s: %s of %v is not in the table", j, parameter, number)
			}
			kept++
		}
	}
	for _, r := range handbook.Load(t, "testdata/strength_limits_before.csv").Rows {
		line := strings.ToLower(strings.Join([]string{r.Text("jurisdiction"), r.Text("product"), r.Text("quantity"), r.Text("minimum"), r.Text("maximum"), r.Text("source")}, "|"))
		if isGone(line, used) {
			continue
		}
		parameter := map[string]string{
			"actual alcohol": "strength", "alcohol": "strength", "total alcohol": "total_strength", "total solids": "total_solids", "density": "must_density",
			"density at 20 C": "density", "actual alcohol before fortifying": "strength_before_fortifying", "natural sugar as invert": "must_sugar", "volume displaced": "sugar_displacement",
		}[r.Text("quantity")]
		for column, end := range map[string]string{"minimum": "_min", "maximum": "_max"} {
			if r.Text(column) == "" {
				continue
			}
			if !has(r.Text("jurisdiction"), r.Number(column), parameter+end, parameter) {
				t.Errorf("%s, %s: %s%s of %s is not in the table", r.Text("jurisdiction"), r.Text("product"), parameter, end, r.Text(column))
			}
			kept++
		}
	}
	for _, g := range gone {
		if used[g.words] == 0 || g.why == "" {
			t.Errorf("%q excuses nothing", g.words)
		}
	}
	t.Logf("%d numbers of the tables before are in this one", kept)
}
