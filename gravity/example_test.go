package gravity_test

import (
	"fmt"
	"log"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

func value[T any](x T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return x
}

// Junk & Pancoast print 11.10 Baume for 20 Brix.
func ExampleSG_Baume() {
	g := value(gravity.Brix(20).SG())
	fmt.Printf("%.2f", value(g.Baume()))
	// Output: 11.10
}

// NBS Circular 440 prints, for 20 % sucrose, specific gravity 1.08287 and 11.04
// Baume of modulus 144.3.
func ExampleSG_Baume1443() {
	fmt.Printf("%.2f", value(gravity.SG(1.08287).Baume1443()))
	// Output: 11.04
}

// The German official table for wine, at 15 C, prints 2.58 and 3.87 g per 100 mL
// for the first two gravities of the dealcoholised wine, and 5.04 for the third.
func ExampleBasis_Extract() {
	for _, dr := range []float64{1.0100, 1.0150, 1.0195} {
		extract := value(gravity.Basis15C.Extract(dr))
		fmt.Printf("%.2f ", extract.In(10*units.GramPerLitre))
	}
	// Output: 2.58 3.87 5.03
}

// A recipe gives the gravity of the juice as 1.0590 at 60 F.
func ExampleBasis_SG() {
	fmt.Printf("%.4f", value(gravity.Basis60F.SG(1.0590)))
	// Output: 1.0587
}

// The cane-sugar laboratory table adds 0.31 to a reading of 13 Brix at 25 C.
func ExampleHydrometer_CorrectBrix() {
	h := gravity.NewHydrometer(units.Celsius(20))
	fmt.Printf("%.2f", value(h.CorrectBrix(13, units.Celsius(25))))
	// Output: 13.31
}

// Warm juice of morello cherries in a hydrometer made for 20 C.
func ExampleHydrometer_Correct() {
	h := gravity.NewHydrometer(units.Celsius(20))
	fmt.Printf("%.4f", value(h.Correct(1.0700, units.Celsius(27))))
	// Output: 1.0720
}

// The same hydrometer in the fortified wine, 19 % vol, and what it would have
// seemed as sugar water.
func ExampleHydrometer_CorrectIn() {
	h := gravity.NewHydrometer(units.Celsius(20))
	fmt.Printf("%.4f, not %.4f",
		value(h.CorrectIn(19, 1.0200, units.Celsius(27))), value(h.Correct(1.0200, units.Celsius(27))))
	// Output: 1.0229, not 1.0217
}

// A hydrometer that shows 1.002 in water and 1.083 in sugar water of 20.7 Brix.
func ExampleHydrometer_WithTests() {
	h := gravity.NewHydrometer(units.Celsius(20)).WithTests(
		gravity.TestReading{Shown: 1.002, True: 1.000},
		gravity.TestReading{Shown: 1.083, True: value(gravity.Brix(20.7).SG())})
	fmt.Printf("%.4f", value(h.Correct(1.0425, units.Celsius(20))))
	// Output: 1.0430
}

// OIV-MA-AS2-02 Table I takes 0.35 from a reading of 25 % at 15 C.
func ExampleRefractometer_Correct() {
	r := gravity.NewRefractometer()
	fmt.Printf("%.2f", value(r.Correct(25, units.Celsius(15))))
	// Output: 24.65
}

// The French order of 2011 prints 22.0 % for the index 1.36720.
func ExampleOfIndex() {
	fmt.Printf("%.1f, %.5f", value(gravity.OfIndex(1.36720)), value(gravity.Brix(22).Index()))
	// Output: 22.0, 1.36720
}

// A hydrometer divided to 0.002, read to half of that, in juice of 27 C give or
// take a degree.
func ExampleHydrometer_CorrectWithin() {
	h := gravity.NewHydrometer(units.Celsius(20))
	r := value(h.CorrectWithin(
		uncertainty.RectangularInput("reading", 1.0700, 0.001),
		uncertainty.Input{Name: "temperature", Value: 27, Standard: 0.5}))
	fmt.Println(r, "-", r.Ranked()[0].Name)
	// Output: 1.07204, u 0.00061 - reading
}

func ExampleParse() {
	for _, text := range []string{"1.070", "1070", "17.1 P", "17.1 Bx", "70 Oe", "9.5 Be"} {
		fmt.Println(value(gravity.Parse(text)))
	}
	// Output:
	// 1.07
	// 1.07
	// 1.07015
	// 1.07015
	// 1.07
	// 1.07011
}
