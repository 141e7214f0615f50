package label_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/abv/label"
	"example.org/mutage/units"
)

// HMRC: 7.59 % vol becomes 7.5.
func ExampleRule_State() {
	duty, _ := label.UKDuty().State(7.59)
	fmt.Println(duty.Stated)
	wine, _ := label.USWine().State(20.44)
	fmt.Println(wine.Stated, wine.Low, wine.High, wine.Straddles[0].Product)
	// Output:
	// 7.5
	// 20.4 19.4 21 still wine, second tax class
}

func TestLabelRounding(t *testing.T) {
	for _, row := range []struct {
		rule              label.Rule
		s                 units.Strength
		stated, low, high string
		straddles         string // the class limits within its reach
	}{
		{label.EUWine(), 12.24, "12", "11.5", "12.5", ""},
		{label.EUWine(), 12.25, "12.5", "12", "13", ""},
		{label.EUWine(), 14.9, "15", "14.5", "15.5", "15"},
		{label.EUWine(), 0.1, "0", "0", "0.5", ""},
		{label.EULiqueurWine(), 19.8, "20", "19.2", "20.8", ""},
		{label.EUFruitWine(), 20.04, "20", "19", "21", ""},
		{label.EUFruitWine(), 21.97, "22", "21", "23", ""}, // 22 ends liqueur wine, which is of grapes
		{label.EUMacerated(), 20.05, "20.1", "18.6", "21.6", ""},
		{label.EUSpirit(), 40.049, "40", "39.7", "40.3", ""},
		{label.USWine(), 14, "14", "12.5", "14", "14"},
		{label.USWine(), 14.04, "14.1", "14", "15.1", "14"}, // 14.0 would state the class below
		{label.USWine(), 14.06, "14.1", "14", "15.1", "14"},
		{label.USWine(), 13.96, "14", "12.5", "14", "14"},
		{label.USWine(), 6.97, "6.9", "5.4", "7", "7"}, // 7.0 would state a wine
		{label.USWine(), 20.5, "20.5", "19.5", "21", "21"},
		{label.USWine(), 12, "12", "10.5", "13.5", ""},
		{label.USSpirit(), 40, "40", "39.7", "40.3", ""},
		{label.UKWine(), 12.24, "12.2", "11.7", "12.7", ""},
		{label.UKDuty(), 7.6, "7.6", "7.6", "7.6", ""},
		{label.UKDuty(), 7.5999999999999996, "7.6", "7.6", "7.6", ""}, // the noise of float64
		{label.UKDuty(), 7.69, "7.6", "7.6", "7.6", ""},
		{label.UKDuty(), 100, "100", "100", "100", ""},
	} {
		l, err := row.rule.State(row.s)
		if err != nil {
			t.Fatal(err)
		}
		var bounds []string
		for _, b := range l.Straddles {
			bounds = append(bounds, fmt.Sprint(b.Value))
		}
		slices.Sort(bounds)
		if l.Stated.String() != row.stated || l.Low.String() != row.low || l.High.String() != row.high || strings.Join(slices.Compact(bounds), " ") != row.straddles {
			t.Errorf("%s %s, %v: %v (%v to %v), straddles %v", row.rule.Jurisdiction, row.rule.Product, float64(row.s), l.Stated, l.Low, l.High, bounds)
		}
		if f := l.Figures(); len(f) != 3 || f[0].Value.String() != row.stated || f[0].Source == "" {
			t.Errorf("%v: figures %v", row.s, f)
		}
	}
}

// Whatever the strength, the statement covers it (save duty, which cuts), and
// the interval stays between 0 and the rule's reach.
func TestLabelCovers(t *testing.T) {
	for _, rule := range []label.Rule{label.EUWine(), label.EULiqueurWine(), label.EUFruitWine(), label.EUMacerated(), label.EUSpirit(), label.USWine(), label.USSpirit(), label.UKWine()} {
		if rule.StepSource == "" || rule.ToleranceSource == "" {
			t.Errorf("%s %s has no source", rule.Jurisdiction, rule.Product)
		}
		for s := units.Strength(0); s <= 100; s += 0.07 {
			l, err := rule.State(s)
			if err != nil {
				t.Fatal(err)
			}
			actual := s.Decimal(units.PercentVol, 6)
			half := rule.Step.Div(units.Round(2, 0))
			if rule.Bound {
				half = half.Add(half) // a step aside at a class limit
			}
			if actual.Sub(l.High).GreaterThan(half) || l.Low.Sub(actual).GreaterThan(half) || l.Low.IsNegative() {
				t.Errorf("%s %s: %v is stated %v, %v to %v", rule.Jurisdiction, rule.Product, s, l.Stated, l.Low, l.High)
			}
		}
	}
}

// The tolerances as the texts that were read have them.
func TestRuleFor(t *testing.T) {
	for _, x := range []struct{ where, product, step, tolerance string }{
		{"eu", "liqueur or fortified wine", "0.5", "0.8"},
		{"EU", "fruit wine", "0.1", "1"},
		{"EU", "fortified_fruit_wine", "0.1", "0.3"},
		{"EU", "drink with macerated fruit", "0.1", "1.5"},
		{"UK", "liqueur or fortified wine", "0.1", "0.8"},
		{"US", "fruit wine", "0.1", "1"},
		{"australia", "fruit wine", "0.1", "1.5"},
		{"New Zealand", "liqueur or fortified wine", "0.1", "0.5"},
	} {
		r, err := label.RuleFor(x.where, x.product)
		if err != nil || r.Step.String() != x.step || r.Tolerance.String() != x.tolerance || r.StepSource == "" || r.ToleranceSource == "" || len(r.Figures()) < 2 {
			t.Errorf("%s, %s: %+v, %v", x.where, x.product, r, err)
		}
	}
	for _, x := range [][2]string{{"Canada", "fruit wine"}, {"Codex", "fruit wine"}, {"Atlantis", "fruit wine"}, {"EU", "moonshine"}} {
		if r, err := label.RuleFor(x[0], x[1]); err == nil {
			t.Errorf("%v: a rule nobody has read: %+v", x, r)
		}
	}
}

// The error lists the products whose tolerance is known there, and no others.
func TestTheErrorListsTheProductsOfTheJurisdiction(t *testing.T) {
	_, err := label.RuleFor("EU", "moonshine")
	var p *units.ParseError
	if !errors.As(err, &p) || !slices.Contains(p.Expected, "fruit wine") || !slices.Contains(p.Expected, "spirit") {
		t.Fatalf("%v", err)
	}
	for _, product := range p.Expected {
		if _, err := label.RuleFor("EU", product); err != nil {
			t.Errorf("%q is offered: %v", product, err)
		}
	}
}

// Every figure has a key, a method and a source, for a value that nothing was
// filled into as well.
func TestLabelFiguresAreCited(t *testing.T) {
	stated, err := label.USWine().State(20)
	if err != nil {
		t.Fatal(err)
	}
	classes, err := label.Classes(label.Liquid{Strength: 20, Extract: 96, SugarLow: 60, SugarHigh: 85})
	if err != nil {
		t.Fatal(err)
	}
	for name, all := range map[string][]units.Figure{
		"no rule": label.Rule{}.Figures(), "rule": label.USWine().Figures(), "no label": label.Label{}.Figures(), "label": stated.Figures(),
		"no classes": label.Classification{}.Figures(), "classes": classes.Figures(), "energies": label.Energies{}.Figures(),
	} {
		seen := map[string]bool{}
		for _, f := range all {
			if f.Key == "" || f.Name == "" || f.Method == "" || f.Source == "" || seen[f.Key] {
				t.Errorf("%s: %+v", name, f)
			}
			seen[f.Key] = true
		}
		if len(all) == 0 {
			t.Errorf("%s has no figures", name)
		}
	}
}
