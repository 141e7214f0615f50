package law_test

import (
	"fmt"
	"time"

	"example.org/mutage/additions"
	"example.org/mutage/additions/law"
	"example.org/mutage/units"
)

// A second dose counts the first.
func ExampleLog() {
	day := time.Date(2031, 9, 1, 0, 0, 0, 0, time.UTC)
	dose, _ := additions.Metabisulfite(200*units.MilligramPerLitre, 4*units.Litre)
	log := law.Log{
		{When: day, Additive: law.LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
		{When: day.AddDate(0, 1, 0), Additive: law.LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
	}
	levels, _ := log.Levels()
	report, _ := law.Check("US", law.Product{Levels: levels, Fruit: true})
	for _, f := range report.Exceeded {
		fmt.Printf("%s %.0f %s, limit %.0f, %s\n", f.Parameter, f.Value, f.Unit, f.Limit, f.Source)
	}
	fmt.Println("label:", report.Declare[0].Note)
	// Output:
	// total SO2 400 mg/L, limit 350, 27 CFR 4.22(b)(1), 2015 edition
	// label: at 10 ppm or more the label must declare sulfites
}

// A spirit of 40 % vol takes fire from 28 C, fortified wine of 20 % vol from 41.
func ExampleFlashPoint() {
	for _, s := range []units.Strength{40, 20} {
		t, _ := law.FlashPoint(s)
		fmt.Println(units.Round(t.Celsius(), 0))
	}
	// Output:
	// 28
	// 41
}
