package label_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/mutage/abv/label"
)

// Each limit says whose it is, where it stands, from when and how it is known.
// The numbers are compared with the table before in package limits.
func TestEveryLimitIsCited(t *testing.T) {
	all := label.Limits()
	for _, l := range all {
		if l.Source == "" || l.Article == "" || l.Date == "" || l.Evidence == "" || l.Unit == "" || l.Value <= 0 {
			t.Errorf("%+v", l)
		}
	}
	if len(all) < 40 {
		t.Errorf("%d limits", len(all))
	}
}

func classNames(c label.Classification) string {
	var names []string
	for _, class := range c.Classes {
		name := class.Jurisdiction + " " + class.Product
		if class.Fit == label.MayMeet {
			name += " (" + string(class.Fit) + ")"
		}
		names = append(names, name)
	}
	return strings.Join(names, "; ")
}

func TestClasses(t *testing.T) {
	for _, row := range []struct {
		l           label.Liquid
		in, outside []string
	}{
		{label.Liquid{Strength: 20, Extract: 96, SugarLow: 60, SugarHigh: 85, MadeFrom: "fruit"}, // the morello wine, fortified
			[]string{"US fruit dessert wine", "US still wine, second tax class", "US any wine"},
			[]string{"liqueur", "Port", "grape", "specially sweetened", "natural fruit wine", "fruit table wine"}},
		{label.Liquid{Strength: 20, Extract: 84, SugarLow: 84, SugarHigh: 84},
			[]string{"OIV liqueur or fortified wine", "EU liqueur or fortified wine", "UK liqueur or fortified wine", "Portugal Port;", "US grape dessert wine"},
			[]string{"EU grape wine", "specially sweetened"}},
		{label.Liquid{Strength: 6.235, Extract: 142.4, SugarLow: 120, SugarHigh: 130}, // before the spirit
			[]string{"US natural fruit wine, sweetened", "Portugal Port, sweet"}, []string{"liqueur", "US any wine", "dessert"}},
		{label.Liquid{Strength: 12, Extract: 19}, []string{"EU grape wine", "US any wine", "OIV grape wine"}, []string{"liqueur", "dessert"}},
		{label.Liquid{Strength: 12, Extract: 250, SugarLow: 230, SugarHigh: 240}, []string{"US specially sweetened natural wine"}, []string{"EU grape wine", "US natural wine"}},
		{label.Liquid{Strength: 14}, nil, []string{"dessert"}},
		{label.Liquid{Strength: 14.001}, []string{"US grape dessert wine", "US fruit dessert wine"}, nil},
		{label.Liquid{Strength: 40}, nil, []string{"EU ", "dessert", "US any wine", "US still"}},
		// Solids of 19 %: 21 are allowed up to 14 % vol, 17 above (27 CFR 24.179(b)).
		{label.Liquid{Strength: 13, Extract: 203}, []string{"US natural grape wine, sweetened;"}, nil},
		{label.Liquid{Strength: 14, StrengthUncertainty: 0.1, Extract: 203}, []string{"US natural grape wine, sweetened (may_meet)"}, nil},
		{label.Liquid{Strength: 15, Extract: 203}, nil, []string{"US natural grape wine, sweetened"}},
		// Total alcohol counts sugar, not extract: 15.5 % vol with 10 g/L has 16.1.
		{label.Liquid{Strength: 15.5, Extract: 10, SugarLow: 10, SugarHigh: 10}, nil, []string{"EU liqueur"}},
		{label.Liquid{Strength: 15.5, Extract: 60, SugarLow: 20, SugarHigh: 20}, nil, []string{"EU liqueur"}},
		{label.Liquid{Strength: 15.5, Extract: 60, SugarLow: 40, SugarHigh: 40}, []string{"EU liqueur or fortified wine;"}, nil},
		// What the uncertainty leaves open is said to be open.
		{label.Liquid{Strength: 15.5, Extract: 60, SugarLow: 20, SugarHigh: 40}, []string{"EU liqueur or fortified wine (may_meet)"}, nil},
		{label.Liquid{Strength: 13.9, StrengthUncertainty: 0.1}, []string{"US fruit dessert wine (may_meet)", "US fruit table wine (may_meet)"}, nil},
		{label.Liquid{Strength: 13.7, StrengthUncertainty: 0.1}, []string{"US fruit table wine;"}, []string{"fruit dessert"}},
	} {
		c, err := label.Classes(row.l)
		if err != nil {
			t.Fatal(err)
		}
		names := classNames(c) + ";"
		for _, want := range row.in {
			if !strings.Contains(names, want) {
				t.Errorf("%+v: no %q in %s", row.l, want, names)
			}
		}
		for _, not := range row.outside {
			if strings.Contains(names, not) {
				t.Errorf("%+v: %q in %s", row.l, not, names)
			}
		}
		if !strings.Contains(c.Advice, "Check your own law") || len(c.Figures()) != 5 {
			t.Errorf("%+v", c)
		}
	}
	for _, bad := range []label.Liquid{
		{Strength: 20, Extract: 50, SugarLow: 60, SugarHigh: 60}, {Strength: 20, Extract: 90, SugarLow: 60, SugarHigh: 50},
		{Strength: 20, MadeFrom: "moonlight"}, {Strength: 101}, {Strength: 20, StrengthUncertainty: -1},
	} {
		if c, err := label.Classes(bad); err == nil {
			t.Errorf("%+v is %s", bad, classNames(c))
		}
	}
}

func ExampleClasses() {
	c, _ := label.Classes(label.Liquid{Strength: 20, StrengthUncertainty: 0.2, Extract: 96, SugarLow: 60, SugarHigh: 85, MadeFrom: "fruit"})
	for _, class := range c.Classes {
		fmt.Println(class.Jurisdiction, class.Product, class.Fit)
	}
	// Output:
	// US any wine met
	// US fruit dessert wine met
	// US still wine, second tax class met
	// US natural wine met
	// Canada flavoured fruit wine may_meet
}
