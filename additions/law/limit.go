package law

import (
	"math"
	"strconv"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/internal/limits"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// A Parameter is what a limit speaks of: a stable code. Parameters lists all.
type Parameter string

// The parameters that a wine of this library has.
const (
	TotalSO2                 Parameter = "so2_total"
	FreeSO2                  Parameter = "so2_free"
	CombinedSO2              Parameter = "so2_combined"
	SulfiteStatement         Parameter = "declare_sulfites" // what the label must state
	SorbicAcid               Parameter = "sorbic_acid"
	AcidAdded                Parameter = "acid_added"      // as tartaric acid
	AcidRemoved              Parameter = "deacidification" // taken out, as tartaric acid
	CitricAcidAdded          Parameter = "citric_acid_added"
	FixedAcidRaised          Parameter = "fixed_acid_after_acidifying"
	FixedAcidLowered         Parameter = "fixed_acid_after_deacidifying"
	PHAfterAcid              Parameter = "ph_after_acidifying"
	DiammoniumPhosphateAdded Parameter = "diammonium_phosphate_added"
	AmmoniumSulfateAdded     Parameter = "ammonium_sulfate_added"
	VolatileAcidity          Parameter = "volatile_acidity" // as acetic acid
)

// String is the parameter in words: "total SO2".
func (p Parameter) String() string {
	switch p {
	case TotalSO2, FreeSO2, CombinedSO2:
		return strings.TrimPrefix(string(p), "so2_") + " SO2"
	case SulfiteStatement:
		return "sulfite statement"
	case PHAfterAcid:
		return "pH after acidifying"
	case AcidRemoved:
		return "acid removed"
	}
	return strings.ReplaceAll(string(p), "_", " ")
}

// A Category is a kind of product as the laws divide them: a stable code.
// Categories lists all.
type Category string

// The categories that a wine of this library can be. HomeMade has rows of its
// own: what may be made at home, and that it may not be sold.
const (
	GrapeWine          Category = "grape_wine"
	LiqueurWine        Category = "liqueur_or_fortified_wine" // of grapes
	FruitWine          Category = "fruit_wine"                // of other fruit
	FortifiedFruitWine Category = "fortified_fruit_wine"
	HomeMade           Category = limits.HomeMade
)

// String is the category in words: "fortified fruit wine".
func (c Category) String() string { return strings.ReplaceAll(string(c), "_", " ") }

// A Comparison says how a value is held against a limit: a stable code.
type Comparison string

// The comparisons. The last six have no value that is held against the limit:
// a step of rounding, an equivalence, or words.
const (
	AtMost        = Comparison(limits.AtMost)
	LessThan      = Comparison(limits.LessThan)
	AtLeast       = Comparison(limits.AtLeast)
	MoreThan      = Comparison(limits.MoreThan)
	OrMore        = Comparison(limits.OrMore)
	InStepsOf     = Comparison(limits.InStepsOf)
	RoundedDownTo = Comparison(limits.RoundedDownTo)
	CountsAs      = Comparison(limits.CountsAs)
	NotAllowed    = Comparison(limits.NotAllowed)
	NeedsApproval = Comparison(limits.NeedsApproval)
	NoneInText    = Comparison(limits.NoneInText)
)

// String is the comparison in words: "at most".
func (c Comparison) String() string { return strings.ReplaceAll(string(c), "_", " ") }

// A Limit is a row of the table, as its text had it at its date.
type Limit struct {
	Jurisdiction string
	Category     Category
	Parameter    Parameter
	Comparison   Comparison
	Value        float64 // in Unit; 0 where the comparison has no number
	Unit         string
	// Basis says what is counted: "total", "free", "combined", "added".
	Basis string
	// Scope is "all", "sale" (labels, duty) or "home".
	Scope string
	// Colour is "red", "white" (with rosé), or empty for any.
	Colour string
	// The row is for sugar from SugarFrom to below SugarTo, and above StrengthFrom
	// up to StrengthTo; zero is open.
	SugarFrom, SugarTo       units.Concentration
	StrengthFrom, StrengthTo units.Strength
	// Alternative is a word that rows share of which keeping one is enough.
	Alternative string
	// Date is that of the text. Superseded: it has been amended or repealed since,
	// and the text in force was not reached.
	Source, Article, Date string
	Superseded            bool
	Evidence              additions.Evidence
	Note                  string
}

// String is the limit in words: "at most 350 mg/L".
func (l Limit) String() string {
	if l.Unit == "" {
		return l.Comparison.String()
	}
	s := number(l.Value) + " " + l.Unit
	if l.Comparison == OrMore {
		return s + " or more"
	}
	return l.Comparison.String() + " " + s
}

// Citation is source, article and date, and how far the row can be relied on:
// "as of ..., amended since", "from memory".
func (l Limit) Citation() string {
	return limits.Cite(l.Source, l.Article, l.Date, l.Superseded, table.Evidence(l.Evidence))
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', 5, 64) }

func limitOf(r limits.Row) Limit {
	l := Limit{
		Jurisdiction: r.Jurisdiction, Category: Category(r.Category), Parameter: Parameter(r.Parameter),
		Comparison: Comparison(r.Comparison), Value: r.Limit, Unit: r.Unit, Basis: r.Basis, Scope: r.Scope, Colour: r.Colour,
		SugarFrom: units.Concentration(r.SugarFrom), StrengthFrom: units.Strength(r.StrengthFrom), Alternative: r.Alternative,
		Source: r.Source, Article: r.Article, Date: r.Date, Superseded: r.Superseded, Evidence: additions.Evidence(r.Evidence), Note: r.Note,
	}
	if !math.IsInf(r.SugarTo, 1) {
		l.SugarTo = units.Concentration(r.SugarTo)
	}
	if !math.IsInf(r.StrengthTo, 1) {
		l.StrengthTo = units.Strength(r.StrengthTo)
	}
	return l
}

// A Status is one of the three answers: a stable code.
type Status string

// The answers. NotKnown does not mean that there is no limit.
const (
	Limited    Status = "limit"
	NoneStated Status = "none_in_text" // the text that was read sets none
	NotKnown   Status = "not_known"    // no text of it was read
)

// String is the answer in words.
func (s Status) String() string {
	switch s {
	case Limited:
		return "a limit"
	case NoneStated:
		return "none in this text"
	}
	return "not known here"
}

// An Answer is what the table has of a jurisdiction, a category and a parameter.
type Answer struct {
	Jurisdiction string
	Category     Category
	Parameter    Parameter
	Status       Status
	// Limits are the rows: several where colour, sugar or strength divide them, or
	// where they are alternatives. With NoneStated the row names the text. With
	// NotKnown they are those of the nearest category, which is another one, or
	// none.
	Limits  []Limit
	Nearest Category
}

// Jurisdictions lists the names that Check and Find know, whatever their case;
// each part of a name with a stroke is one as well.
func Jurisdictions() []string { return limits.Jurisdictions() }

// Categories lists the codes that Find knows.
func Categories() []Category { return typed[Category](limits.Categories()) }

// Parameters lists the codes that Find knows.
func Parameters() []Parameter { return typed[Parameter](limits.Parameters()) }

func typed[T ~string](codes []string) []T {
	out := make([]T, len(codes))
	for i, c := range codes {
		out[i] = T(c)
	}
	return out
}

// known is x, or an error that lists what is known.
func known[T ~string](quantity string, x T, all []T) error {
	expected := make([]string, len(all))
	for i, k := range all {
		if expected[i] = string(k); x == k {
			return nil
		}
	}
	return &units.ParseError{Text: string(x), Quantity: quantity, Expected: expected}
}

func jurisdiction(written string) (string, error) {
	j, ok := limits.Jurisdiction(written)
	if !ok {
		return "", &units.ParseError{Text: written, Quantity: "jurisdiction", Expected: Jurisdictions()}
	}
	return j, nil
}

// Find is the answer for a jurisdiction, a category and a parameter: a limit,
// "none in this text", or "not known here". Rows of any wine are a wine's own.
// Errors: *units.ParseError for a name that the table does not have.
func Find(where string, c Category, p Parameter) (Answer, error) {
	j, err := jurisdiction(where)
	if err == nil {
		err = known("category of product", c, Categories())
	}
	if err == nil {
		err = known("parameter", p, Parameters())
	}
	if err != nil {
		return Answer{}, err
	}
	a, _ := find(j, c, p)
	return a, nil
}

func find(j string, c Category, p Parameter) (Answer, []limits.Row) {
	rows, near := limits.Find(j, string(c), string(p))
	a := Answer{Jurisdiction: j, Category: c, Parameter: p, Status: Limited, Nearest: Category(near)}
	for _, r := range rows {
		a.Limits = append(a.Limits, limitOf(r))
	}
	switch {
	case rows == nil || near != "":
		a.Status = NotKnown
	case rows[0].Comparison == limits.NoneInText:
		a.Status = NoneStated
	}
	return a, rows
}
