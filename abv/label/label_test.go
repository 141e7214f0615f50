package label_test

import (
	"fmt"
	"testing"

	"example.org/mutage/abv/label"
	"example.org/mutage/units"
)

// HMRC: 7.59 % vol becomes 7.5.
func ExampleRule_State() {
	duty, _ := label.UKDuty.State(7.59)
	fmt.Println(duty.Stated)
	wine, _ := label.USWine.State(20.44)
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
		straddles         int
	}{
		{label.EUWine, 12.24, "12", "11.5", "12.5", 0},
		{label.EUWine, 12.25, "12.5", "12", "13", 0},
		{label.EUWine, 14.9, "15", "14.5", "15.5", 1},
		{label.EUWine, 0.1, "0", "0", "0.5", 0},
		{label.EUFruitWine, 20.04, "20", "19", "21", 0},
		{label.EUFruitWine, 21.97, "22", "21", "23", 1},
		{label.EUMacerated, 20.05, "20.1", "18.6", "21.6", 0},
		{label.EUSpirit, 40.049, "40", "39.7", "40.3", 0},
		{label.USWine, 14, "14", "12.5", "14", 1},
		{label.USWine, 14.04, "14", "12.5", "14", 1},
		{label.USWine, 14.06, "14.1", "14", "15.1", 1},
		{label.USWine, 20.5, "20.5", "19.5", "21", 2},
		{label.USWine, 12, "12", "10.5", "13.5", 0},
		{label.USSpirit, 40, "40", "39.7", "40.3", 0},
		{label.UKDuty, 7.6, "7.6", "7.6", "7.6", 0},
		{label.UKDuty, 7.5999999999999996, "7.6", "7.6", "7.6", 0}, // the noise of float64
		{label.UKDuty, 7.69, "7.6", "7.6", "7.6", 0},
		{label.UKDuty, 100, "100", "100", "100", 0},
	} {
		l, err := row.rule.State(row.s)
		if err != nil {
			t.Fatal(err)
		}
		if l.Stated.String() != row.stated || l.Low.String() != row.low || l.High.String() != row.high || len(l.Straddles) != row.straddles {
			t.Errorf("%s %s, %v: %v (%v to %v), straddles %+v", row.rule.Jurisdiction, row.rule.Product, float64(row.s), l.Stated, l.Low, l.High, l.Straddles)
		}
	}
}

// Whatever the strength, the statement covers it (save duty, which cuts), and
// the interval stays between 0 and the rule's reach.
func TestLabelCovers(t *testing.T) {
	for _, rule := range []label.Rule{label.EUWine, label.EUFruitWine, label.EUMacerated, label.EUSpirit, label.USWine, label.USSpirit} {
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
			if actual.Sub(l.High).GreaterThan(half) || l.Low.Sub(actual).GreaterThan(half) || l.Low.IsNegative() {
				t.Errorf("%s %s: %v is stated %v, %v to %v", rule.Jurisdiction, rule.Product, s, l.Stated, l.Low, l.High)
			}
		}
	}
}
