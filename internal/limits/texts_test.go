package limits

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// printed holds the limits of the table in a second form, by jurisdiction and
// parameter: those of a category in the order of its rows, and in brackets the sugar
// (s, g/L) or the strength (v, % vol) where a row ends or begins. It was typed with
// the table at hand and not from the texts: a cell that changes by accident shows
// here, an error that both share does not.
var printed = map[string]string{
	// 27 CFR 4.21, 4.22, 4.36 and 24.177 to 24.246; 26 USC 5041 and 5381 to 5383.
	"US strength_min":                   "any wine 7; grape dessert wine 14; fruit dessert wine 14; still wine, second tax class 16; still wine, third tax class 21",
	"US strength_max":                   "any wine 24; grape table wine 14; grape dessert wine 24; fruit table wine 14; fruit dessert wine 24; still wine, first tax class 16; still wine, second tax class 21; still wine, third tax class 24; natural fruit wine, sweetened 14; specially sweetened natural wine 14",
	"US strength_before_fortifying_max": "grape wine 14",
	"US total_solids_max":               "natural wine 21; natural grape wine, sweetened 17 [v14-], 21 [-v14]; natural fruit wine, sweetened 21; specially sweetened natural wine 35",
	"US total_solids_min":               "specially sweetened natural wine 17",
	"US must_density_max":               "chaptalised juice 25",
	"US label_strength_from":            "any wine 14",
	"US label_tolerance":                "any wine 1.5 [-v14], 1.0 [v14-]; spirit 0.3",
	"US fixed_acid_after_acidifying":    "grape wine 9.0 [-s80], 11.0 [s80-]; fruit wine 9.0 [-s80], 11.0 [s80-]",
	"US volatile_acidity":               "grape wine 1.4, 1.2; fruit wine 1.4; fortified fruit wine 1.2",
	"US carbon_dioxide":                 "any wine 3.92",
	"US copper":                         "any wine 0.5",
	"US tannin":                         "grape wine 3.0, 0.8",
	"US water_with_additives":           "any wine 1.0",
	"US home_volume":                    "home-made 200",
	"US home_volume_one_adult":          "home-made 100",
	// Regulations (EU) 2019/934, 1308/2013, 1169/2011, (EC) 1333/2008, 203/2012.
	"EU so2_total": "grape wine 150 [-s5], 200 [-s5], 200 [s5-], 250 [s5-]; liqueur or fortified wine 150 [-s5], 200 [s5-]; special sweet wine 300; quality sparkling wine 185; sparkling wine 235; " +
		"fruit wine 200; made wine 260; alcohol-free wine 200; aromatised wine 200; organic wine 100 [-s2], 150 [-s2]",
	"EU sorbic_acid":                      "grape wine 200; liqueur or fortified wine 200; fruit wine 200; made wine 200; alcohol-free wine 200",
	"EU volatile_acidity":                 "grape wine 1.081, 1.201",
	"EU acid_added":                       "grape must 1.5; grape wine 2.5, 4.0",
	"EU deacidification":                  "grape wine 1.0",
	"EU copper":                           "grape wine 1",
	"EU tartaric_acid_after_deacidifying": "grape wine 1.0",
	"EU lysozyme":                         "grape wine 500",
	"EU dimethyl_dicarbonate":             "grape wine 200",
	"EU diammonium_phosphate_added":       "grape wine 1.0",
	"EU thiamine_added":                   "grape wine 0.6",
	"EU yeast_hulls_added":                "grape wine 0.4",
	"EU pvpp_added":                       "grape wine 0.8",
	"EU activated_carbon_added":           "grape wine 1.0",
	"EU strength_min":                     "grape wine 8.5; liqueur or fortified wine 15",
	"EU strength_max":                     "liqueur or fortified wine 22",
	"EU total_strength_min":               "liqueur or fortified wine 17.5",
	"EU natural_strength_min":             "liqueur or fortified wine 12",
	"EU spirit_strength_min":              "liqueur or fortified wine 96",
	"EU wine_distillate_strength_min":     "liqueur or fortified wine 52",
	"EU wine_distillate_strength_max":     "liqueur or fortified wine 86",
	"EU label_strength_from":              "any wine 1.2",
	"UK declare_sulfites":                 "any wine 10",
	"UK so2_total":                        "aromatised wine 200",
	// Food and Drug Regulations, B.02.100, B.02.105.
	"Canada so2_free":                         "grape wine 70; fruit wine 70",
	"Canada so2_combined":                     "grape wine 350; fruit wine 350",
	"Canada sorbic_acid":                      "grape wine 500; fruit wine 500",
	"Canada volatile_acidity":                 "grape wine 2.4; fruit wine 2.4",
	"Canada metatartaric_acid":                "grape wine 0.1; fruit wine 0.1",
	"Canada potassium_bitartrate_added":       "grape wine 4.2; fruit wine 4.2",
	"Canada tartaric_acid_after_deacidifying": "grape wine 1.5; fruit wine 1.5",
	"Canada spirit_strength_min":              "grape wine 94; fruit wine 94",
	"Canada declare_sulfites":                 "any wine 10",
	"Canada label_strength_from":              "any wine 1.1",
	// Standards 1.2.7, 2.7.1, 2.7.4 and 4.5.1; Schedule 15.
	"Australia/New Zealand so2_total":           "grape wine 250 [-s35], 300 [s35-]; liqueur or fortified wine 250 [-s35], 300 [s35-]; fruit wine 200 [-s5], 300 [s5-]",
	"Australia/New Zealand sorbic_acid":         "grape wine 200; liqueur or fortified wine 200; fruit wine 400",
	"Australia/New Zealand declare_sulfites":    "any wine 10",
	"Australia/New Zealand label_tolerance":     "grape wine 1.5; fortified fruit wine 0.5",
	"Australia/New Zealand label_strength_from": "any wine 1.15",
	"Australia/New Zealand strength_min":        "grape wine 4.5; liqueur or fortified wine 15",
	"Australia/New Zealand strength_max":        "liqueur or fortified wine 22",
	// CXS 192, categories 14.2.3, 14.2.3.3 and 14.2.4; CXS 1.
	"Codex so2_total":            "grape wine 350; liqueur or fortified wine 350; fruit wine 200; special white wine 400",
	"Codex sorbic_acid":          "grape wine 200; liqueur or fortified wine 200; fruit wine 500",
	"Codex dimethyl_dicarbonate": "grape wine 200; liqueur or fortified wine 200; fruit wine 250",
	"Codex lysozyme":             "grape wine 500; liqueur or fortified wine 500",
	"Codex carbon_dioxide":       "grape wine 4000",
	"Codex declare_sulfites":     "any wine 10",
	// Code of Oenological Practices; 54 meq/L are 4.052 g/L of tartaric acid.
	"OIV acid_added":             "must 4.052; grape wine 4.052",
	"OIV copper":                 "grape wine 1; liqueur or fortified wine 2",
	"OIV lead":                   "grape wine 0.10; liqueur or fortified wine 0.15",
	"OIV ascorbic_acid":          "grape wine 300",
	"OIV lysozyme":               "grape wine 500",
	"OIV activated_carbon_added": "grape wine 1.0",
	"OIV strength_min":           "grape wine 8.5; liqueur or fortified wine 15; flor wine 15; wine for distillation 18",
	"OIV strength_max":           "liqueur or fortified wine 22; wine for distillation 24",
	// IVDP, article 41-A; Portaria 379/75.
	"Portugal strength_min": "Port 19; Port, tawny, ruby, white or rose outside the special categories 18; Port, light dry white 16.5",
	"Portugal strength_max": "Port 22; Port, tawny, ruby, white or rose outside the special categories 22; Port, light dry white 22",
	"Portugal density_min":  "Port, sweet 1018; Port, half-dry 1008",
	"Portugal density_max":  "Port, half-dry 1018.5; Port, dry 1008",
}

// row writes a row as printed has it.
func (r Row) row() string {
	end := func(sign string, from, to float64) string {
		switch {
		case from > 0:
			return fmt.Sprintf(" [%s%g-]", sign, from)
		case !math.IsInf(to, 1):
			return fmt.Sprintf(" [-%s%g]", sign, to)
		}
		return ""
	}
	return strconv.FormatFloat(r.Limit, 'g', -1, 64) + end("s", r.SugarFrom, r.SugarTo) + end("v", r.StrengthFrom, r.StrengthTo)
}

// splitNumbers parts "grape wine 1.4, 1.2" into the category and its rows.
func splitNumbers(entry string) (category string, rows []string) {
	at := strings.IndexFunc(entry, func(c rune) bool { return c >= '0' && c <= '9' })
	for _, n := range strings.Split(entry[at:], ", ") {
		number, band, _ := strings.Cut(n, " ")
		x, err := strconv.ParseFloat(number, 64)
		if err != nil {
			panic(err)
		}
		rows = append(rows, strings.TrimSpace(strconv.FormatFloat(x, 'g', -1, 64)+" "+band))
	}
	return Code(entry[:at]), rows
}

func TestTheNumbersAreThoseOfTheTexts(t *testing.T) {
	for of, entries := range printed {
		space := strings.LastIndexByte(of, ' ')
		jurisdiction, parameter := of[:space], of[space+1:]
		for _, entry := range strings.Split(entries, "; ") {
			category, want := splitNumbers(entry)
			var got []string
			for _, r := range Own(jurisdiction, category, parameter) {
				got = append(got, r.row())
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s, %s, %s: the table has %q, the text %q", jurisdiction, category, parameter, got, want)
			}
		}
	}
}

// What the UK kept of the law of the Union it kept with its numbers.
func TestTheUnitedKingdomKeptTheNumbers(t *testing.T) {
	kept := 0
	for _, r := range Rows() {
		if r.Jurisdiction != "UK" || !strings.Contains(r.Source, "as kept in UK law") || r.Unit == "" {
			continue
		}
		kept++
		if !slices.ContainsFunc(Own("EU", r.Category, r.Parameter), func(eu Row) bool { return eu.row() == r.row() && eu.Colour == r.Colour }) {
			t.Errorf("%s, %s %s: %s is not in the law of the EU", r.Category, r.Parameter, r.Colour, r.row())
		}
	}
	if kept < 20 {
		t.Errorf("%d rows were compared", kept)
	}
}

// No text is of a day to come or older than the first law in the table, and none
// was read before it was written or on a day to come: 2026 and no other year.
func TestNoTextIsOfADayToCome(t *testing.T) {
	now := time.Now()
	for _, r := range Rows() {
		of, _ := strconv.Atoi(r.Date[:4])
		read, _ := strconv.Atoi(r.LookedUp[:4])
		if of < 1975 || of > now.Year() || read < of || read > now.Year() {
			t.Errorf("%s, %s: a text of %s, read %s", r.Category, r.Parameter, r.Date, r.LookedUp)
		}
	}
}

// The sections that are cited by their number alone, with what they are about.
func TestSectionsAreThoseOfTheCode(t *testing.T) {
	sections := map[string]string{
		"1.10": "meaning of terms: wine", "24.177": "chaptalization", "24.181": "use of sugar", "24.182": "use of acid",
		"24.246": "materials authorized for the treatment of wine and juice", "5381": "natural wine",
	}
	seen := map[string]bool{}
	for _, r := range Rows() {
		if _, err := strconv.ParseFloat(r.Article, 64); err != nil {
			continue
		}
		if seen[r.Article] = true; sections[r.Article] == "" {
			t.Errorf("%s, %s: %s is no section that was read", r.Category, r.Parameter, r.Article)
		}
	}
	if len(seen) != len(sections) {
		t.Errorf("cited are %v", seen)
	}
}
