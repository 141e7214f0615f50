package spirit_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// 27 CFR 30.66. A10's printed 1.84 rests on 95.5/94.0 taken as 1.01; the table
// without that rounding gives 1.89.
func TestReductionUS(t *testing.T) {
	c := handbook.NewCheck(t, "27 CFR 30.66, water to reduce 100 gal", "gal")
	hundred := 100 * units.USGallon
	r, err := spirit.ReduceUSProof(hundred, 112, 100)
	if err != nil {
		t.Fatal(err)
	}
	c.Rounded(r.Water.In(units.USGallon), 12.42+0.005, 1.12*0.005+0.005+0.005, "112 to 100 proof, from two printed parts, the print cut off")
	r, err = spirit.ReduceUSProof(hundred, 191, 188)
	if err != nil {
		t.Fatal(err)
	}
	c.Rounded(r.Water.In(units.USGallon), 1.89, 191.0/188*0.005+0.005+0.005, "191 to 188 proof, from two printed parts")
	from, _ := spirit.Gauge(191)
	to, _ := spirit.Gauge(188)
	c.Printed(units.Round(units.Round(to.Water, 2).InexactFloat64()*1.01, 2).InexactFloat64()-units.Round(from.Water, 2).InexactFloat64(),
		"1.84", "191 to 188 proof with the printed rounding")
}

// C1: the measured contraction of 50 mL with 50 mL is 96.463 mL by OIML R 22;
// 96.26 is printed elsewhere. Reducing pure alcohol to 51.834 % vol is it.
func ExampleReduce() {
	r, _ := spirit.Reduce(50*units.Millilitre, 100, 51.834)
	fmt.Printf("%s mL of water make %s mL, contraction %s mL\n", r.Water.Decimal(units.Millilitre, 2),
		r.Result.Decimal(units.Millilitre, 2), r.Contraction.Decimal(units.Millilitre, 2))
	// Output: 50 mL of water make 96.46 mL, contraction 3.54 mL
}

// By volume and by weight are one balance; alcohol is neither made nor lost.
func TestReductionBalances(t *testing.T) {
	for _, from := range []units.Strength{100, 75, 40, 5} {
		for to := units.Strength(1); to <= from; to += 3 {
			r, err := spirit.Reduce(2, from, to)
			if err != nil {
				t.Fatal(err)
			}
			if before, after := 2*float64(from), float64(r.Result)*float64(to); math.Abs(before-after) > 1e-9 {
				t.Errorf("%v to %v: alcohol %v, then %v", from, to, before, after)
			}
			d, _ := abv.Density(from, units.Celsius(20))
			water, err := spirit.ReduceByMass(units.Mass(2*float64(d)), from, to)
			if err != nil || math.Abs(float64(water-r.WaterMass)) > 1e-6 {
				t.Errorf("%v to %v: %v g of water by weight, %v by volume, %v", from, to, water, r.WaterMass, err)
			}
			// By way of a strength between, it is the same water and contraction.
			first, _ := spirit.Reduce(2, from, (from+to)/2)
			second, _ := spirit.Reduce(first.Result, (from+to)/2, to)
			if d := first.Contraction + second.Contraction - r.Contraction; math.Abs(float64(d)) > 1e-9 {
				t.Errorf("%v to %v: %v L of contraction more in two steps", from, to, d)
			}
		}
	}
}

// What a scale shows of a litre is a litre.
func TestVolumeOfWeight(t *testing.T) {
	for s := units.Strength(0); s <= 100; s += 10 {
		d, _ := abv.Density(s, units.Celsius(20))
		weight, err := spirit.WeightInAir(units.Mass(d), d)
		if err != nil {
			t.Fatal(err)
		}
		v, err := spirit.VolumeOfWeight(weight, s)
		if err != nil || math.Abs(float64(v)-1) > 1e-12 {
			t.Errorf("a litre of %v weighs %v and comes back as %v, %v", s, weight, v, err)
		}
	}
}
