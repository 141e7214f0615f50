package stability

import (
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// Every threshold: just below, at it, just above, and a last bit to either side,
// where the word is that of the threshold itself.
func TestEveryThresholdIgnoresTheLastBit(t *testing.T) {
	type conc = units.Concentration
	strength := func(w Wine) func(float64) Wine {
		return func(x float64) Wine { w.Strength = units.Strength(x); return w }
	}
	free := func(x float64, w Wine) Wine { // free SO2 low of x mg/L
		w.SO2 = additions.SO2{Added: conc(x) / 0.35 * mg}
		return w
	}
	// Free SO2 in mg/L for 0.5 and 0.8 mg/L molecular at pH 3.3 and pK 1.81.
	share := 1 + math.Pow(10, 3.3-1.81)
	for _, x := range []struct {
		name       string
		of         func(float64) Wine
		at         float64
		key        string
		less, from Hold // below the threshold, and from it on
	}{
		{"alcohol, no limit, weak", strength(Wine{Sugar: exactly(20)}), 17, "alcohol", None, Weak},
		{"alcohol, no limit, holds", strength(Wine{Sugar: exactly(20)}), 20, "alcohol", Weak, Holds},
		{"alcohol, limit 14, weak", strength(Wine{Sugar: exactly(20), YeastLimit: 14}), 14, "alcohol", None, Weak},
		{"alcohol, limit 14, holds", strength(Wine{Sugar: exactly(20), YeastLimit: 14}), 17.5, "alcohol", Weak, Holds},
		{"alcohol, limit 16.5, holds", strength(Wine{Sugar: exactly(20), YeastLimit: 16.5}), 17.5, "alcohol", Weak, Holds},
		{"alcohol, limit 18, holds", strength(Wine{Sugar: exactly(20), YeastLimit: 18}), 19, "alcohol", Weak, Holds},
		{"alcohol, u 0.2, holds", strength(Wine{Sugar: exactly(20), StrengthUncertainty: 0.2}), 20 + 1.645*0.2, "alcohol", Weak, Holds},
		{"Delle, weak, 100 g/L", strength(Wine{Sugar: exactly(100)}), 65 / 4.5, "alcohol_and_sugar", None, Weak},
		{"Delle, holds, 100 g/L", strength(Wine{Sugar: exactly(100)}), 75 / 4.5, "alcohol_and_sugar", Weak, Holds},
		{"Delle, holds, 30 g/L", strength(Wine{Sugar: exactly(30)}), (88.3 - 30.0/15 - 3) / 4.5, "alcohol_and_sugar", None, Holds},
		{"Delle, sugar, 15 % vol, holds", func(x float64) Wine { return Wine{Strength: 15, Sugar: exactly(conc(x))} }, 175, "alcohol_and_sugar", Weak, Holds},
		{"Delle, sugar, 17 % vol, weak", func(x float64) Wine { return Wine{Strength: 17, Sugar: exactly(conc(x))} }, 50, "alcohol_and_sugar", None, Weak},
		{"Delle, sugar, 18.5 % vol, below 50", func(x float64) Wine { return Wine{Strength: 18.5, Sugar: exactly(conc(x))} }, (88.3 - 83.25) / (0.1 + 1/15.0), "alcohol_and_sugar", None, Holds},
		{"Delle, at least 10 % vol", strength(Wine{Sugar: exactly(500)}), 10, "alcohol_and_sugar", Weak, Holds},
		{"Delle, at least the limit", strength(Wine{Sugar: exactly(300), YeastLimit: 16}), 16, "alcohol_and_sugar", Weak, Holds},
		{"sorbate, weak from the usual dose", func(x float64) Wine { return free(20, Wine{Strength: 6, PH: 3.4, Sorbate: conc(x) * mg}) }, 150, "sorbate_with_sulfite", None, Weak},
		{"sorbate, the table's row of 12 % vol and pH 3.3", func(x float64) Wine { return free(20, Wine{Strength: 12, PH: 3.3, Sorbate: conc(x) * mg}) }, 4 * 30 * 112.13 / 150.22, "sorbate_with_sulfite", None, Holds},
		{"sorbate, the table's row of 10 % vol and pH 3.5", func(x float64) Wine { return free(40, Wine{Strength: 10, PH: 3.5, Sorbate: conc(x) * mg}) }, 9 * 30 * 112.13 / 150.22, "sorbate_with_sulfite", Weak, Holds},
		{"sorbate, from 10 % vol", strength(free(20, Wine{PH: 3.3, Sorbate: 160 * mg})), 10, "sorbate_with_sulfite", Weak, Holds},
		{"sorbate, above 14 % vol", func(x float64) Wine { return free(20, Wine{Strength: 16, PH: 3.1, Sorbate: conc(x) * mg}) }, 2 * 30 * 112.13 / 150.22, "sorbate_with_sulfite", None, Holds},
		{"sorbate, molecular SO2", func(x float64) Wine { return free(x, Wine{Strength: 12, PH: 3.3, Sorbate: 160 * mg}) }, 0.5 * share, "sorbate_with_sulfite", Weak, Holds},
		{"sulfite helps", func(x float64) Wine { return free(x, Wine{Strength: 12, PH: 3.3}) }, 0.5 * share, "sulfite", None, Helps},
	} {
		for _, p := range []struct {
			by   float64
			want Hold
		}{{-1e-6, x.less}, {-1e-7, x.less}, {-1e-10, x.from}, {0, x.from}, {1e-10, x.from}, {1e-6, x.from}} {
			w := x.of(x.at * (1 + p.by))
			w.Sugar = fill(w.Sugar)
			v, err := Judge(w)
			if got := v.Barrier(x.key); err != nil || got.Hold != p.want {
				t.Errorf("%s, %g of it: %v (%v, needs %v), want %v; %v", x.name, 1+p.by, got.Hold, got.Value, got.Needed, p.want, err)
			}
		}
	}
}

// fill puts sugar in where a case has none.
func fill(s abv.Sugars) abv.Sugars {
	if s == (abv.Sugars{}) {
		return exactly(40)
	}
	return s
}

// Thresholds that are reached from above.
func TestEveryUpperThresholdIgnoresTheLastBit(t *testing.T) {
	enough := additions.SO2{Free: 200 * mg, FreeMeasured: true}
	for _, x := range []struct {
		name        string
		of          func(float64) Wine
		at          float64
		key         string
		upTo, above Hold
	}{
		{"dry", func(x float64) Wine { return Wine{Strength: 12, Sugar: exactly(units.Concentration(x))} }, 2, "no_sugar", Holds, None},
		{"pH of the sorbate table", func(x float64) Wine {
			return Wine{Strength: 12, Sugar: exactly(40), PH: x, SO2: enough, Sorbate: 180 * mg}
		}, 3.5, "sorbate_with_sulfite", Holds, Weak},
		{"pH with its uncertainty", func(x float64) Wine {
			return Wine{Strength: 12, Sugar: exactly(40), PH: x, PHUncertainty: 0.1, SO2: enough, Sorbate: 180 * mg}
		}, 3.5 - 0.1645, "sorbate_with_sulfite", Holds, Weak},
		{"cold slows", func(x float64) Wine { return Wine{Strength: 12, Sugar: exactly(40), Temperature: units.Celsius(x)} }, 10, "cold", Helps, None},
		{"cold rests", func(x float64) Wine { return Wine{Strength: 12, Sugar: exactly(40), Temperature: units.Celsius(-x)} }, 1, "cold", Helps, Weak},
	} {
		for _, p := range []struct {
			by   float64
			want Hold
		}{{-1e-6, x.upTo}, {-1e-10, x.upTo}, {0, x.upTo}, {1e-10, x.upTo}, {1e-6, x.above}} {
			if x.name == "cold rests" { // the threshold is below zero
				switch p.by {
				case -1e-10, 0, 1e-10:
					p.want = Weak
				case -1e-6:
					p.want = Helps
				default:
					p.want = Weak
				}
			}
			v, err := Judge(x.of(x.at * (1 + p.by)))
			if got := v.Barrier(x.key); err != nil || got.Hold != p.want {
				t.Errorf("%s, %g of it: %v (%v, needs %v), want %v; %v", x.name, 1+p.by, got.Hold, got.Value, got.Needed, p.want, err)
			}
		}
	}
}
