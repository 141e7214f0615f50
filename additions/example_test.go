package additions_test

import (
	"fmt"
	"time"

	"example.org/mutage/additions"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Balling: 1500 lb of solution from 9 to 15 % take 105.88 lb of sugar.
func ExampleRaiseGravity() {
	from, _ := gravity.Plato(9).SG()
	to, _ := gravity.Plato(15).SG()
	density, _ := from.Density()
	a, err := additions.RaiseGravity(from, to, units.Volume(1500*units.Pound/units.Mass(density)))
	fmt.Println(a.Sugar.Decimal(units.Pound, 2), "lb", err)
	// Output: 105.88 lb <nil>
}

// Two and a quarter cups of sugar in a gallon of cherry juice. By hand: 4013 g
// at 15.18 % hold 609 g; 1059 g in 4463 g are 23.73 %, SG 1.0999.
func ExampleAddSugar() {
	sugar, _ := additions.Weigh(additions.GranulatedSugar, 2.25*units.USCup)
	g, v, err := additions.AddSugar(1.062, units.USGallon, sugar)
	fmt.Println(sugar, g, v.Decimal(units.Litre, 2), err)
	// Output: 450 g 1.09991 4.06 <nil>
}

// UC Cooperative Extension 1982: at pH 3.4, 32 mg/L of free SO2 for 0.8 mg/L
// molecular, 20 for 0.5; 2.5 % is molecular.
func ExampleFreeSO2For() {
	for _, molecular := range []units.Concentration{0.8, 0.5} {
		free, _ := additions.FreeSO2For(molecular*units.MilligramPerLitre, 3.4, additions.UsualPK)
		fmt.Println(free.Decimal(units.MilligramPerLitre, 0))
	}
	share, _ := additions.MolecularSO2(100*units.MilligramPerLitre, 3.4, additions.UsualPK)
	fmt.Println(share.Decimal(units.MilligramPerLitre, 1), "%")
	// Output:
	// 32
	// 20
	// 2.5 %
}

// A leaflet reckons half of the salt as SO2: 757 g per 1000 gallons for 100
// mg/L. By formula it is 57.6 %.
func ExampleMetabisulfite() {
	allowance := additions.Sulfite{Name: "old salt", SO2: 0.5, Source: "practical allowance"}
	half, _ := allowance.Dose(100*units.MilligramPerLitre, 1000*units.USGallon, 1)
	pure, _ := additions.Metabisulfite(100*units.MilligramPerLitre, 1000*units.USGallon)
	fmt.Println(half.Decimal(units.Gram, 0), pure.Decimal(units.Gram, 0))
	// Output: 757 657
}

// One gram per US gallon, as the trade rounds it.
func ExampleSorbate() {
	salt, _ := additions.Sorbate(additions.UsualSorbicAcid, units.USGallon)
	spoon, _ := additions.Spoons(additions.SorbatePowder, salt)
	fmt.Println(salt.Decimal(units.Gram, 0), "g,", spoon)
	fmt.Println("weigh it:", spoon.UseScale, additions.SorbateCautions(50 * units.MilligramPerLitre)[0].Text)
	// Output:
	// 1 g, 1/2 tsp
	// weigh it: true Sorbate does not stop a running fermentation. Let the wine fall clear, and dose what little yeast is left.
}

// 3.8 g of tartaric acid per US gallon raise the TA by 1 g/L, 2.5 g of calcium
// carbonate lower it by as much.
func ExampleRaiseTA() {
	up, _ := additions.RaiseTA(1, units.USGallon, additions.Tartaric)
	down, _ := additions.LowerTA(1, units.USGallon, additions.CalciumCarbonate)
	fmt.Println(up.Decimal(units.Gram, 1), down.Decimal(units.Gram, 1))
	// Output: 3.8 2.5
}

// One gram of citric acid is 1.047 g of malic and 1.172 g of tartaric acid.
func ExampleExpress() {
	malic, _ := additions.Express(1, additions.Citric, additions.Malic)
	tartaric, _ := additions.Express(1, additions.Citric, additions.Tartaric)
	fmt.Println(malic.Decimal(units.GramPerLitre, 3), tartaric.Decimal(units.GramPerLitre, 3))
	// Output: 1.047 1.172
}

// 2.5 g/L of tartar take 1 g/L of TA and 2 g/L of tartaric acid.
func ExampleTartarFallen() {
	t, _ := additions.TartarFallen(2.5)
	fmt.Println(t.TA.Decimal(units.GramPerLitre, 0), t.TartaricAcid.Decimal(units.GramPerLitre, 0))
	// Output: 1 2
}

// 25 g/hL are five million cells per mL.
func ExamplePitch() {
	p, _ := additions.Pitch(1.090, 0, units.Hectolitre)
	fmt.Printf("%v, %.0e cells/mL\n", p.Yeast, p.Cells)
	// Output: 25 g, 5e+06 cells/mL
}

// 100 mg/L of diammonium phosphate add 21 mg/L of nitrogen.
func ExampleNitrogenAdded() {
	n, _ := additions.NitrogenAdded(0.1, units.Litre, additions.DiammoniumPhosphate)
	fmt.Println(n.Decimal(units.MilligramPerLitre, 0))
	// Output: 21
}

// A trade magazine's stable fortified wine: 92.66 Delle units.
func ExampleJudge() {
	v, _ := additions.Judge(additions.Wine{Strength: 19.28, Sugar: 59})
	fmt.Println(v.Outlook, units.Round(v.DelleUnits, 2))
	for _, b := range v.Barriers[:3] {
		fmt.Println(b.Name+":", b.Hold)
	}
	// Output:
	// should stay still 92.66
	// no sugar left: no barrier
	// alcohol: weak
	// alcohol and sugar together: holds
}

// What a cherry wine stopped at 6 % vol would do in a wine bottle. By hand: 142
// g/L make 69.4 g/L of CO2; at 14.9 % vol a litre holds 1.39 g per bar and its
// headspace 0.05: 48 bar.
func ExampleSealedPressure() {
	s, err := additions.SealedPressure(additions.Wine{Strength: 6.1, Sugar: 142},
		additions.Bottle{Volume: 0.77, Headspace: 0.02}, units.Celsius(20))
	fmt.Println(s.Overpressure.Decimal(units.Bar, 0), "bar", err)
	fmt.Println(s.Limits[0].Name, s.Limits[0].Exceeded)
	// Output:
	// 48 bar <nil>
	// still wine under straight natural cork, at 20 C true
}

// Two grams of malic acid per litre in a cherry wine of pH 3.4. By hand: 14.9
// mmol/L, each giving 0.46 of its protons, over a buffer capacity of 52: -0.13.
func ExamplePredict() {
	m := additions.Measurement{PH: 3.4, TA: 9, Strength: 6, StandardPH: 0.02,
		Profile: additions.Acids{Malic: 9, Citric: 0.3, Succinic: 0.4}}
	p, err := additions.Predict(m, func(b additions.Buffer) (additions.Buffer, error) {
		return b.With(additions.Malic, 2)
	})
	fmt.Printf("pH %.2f, u %.2f, %v\n", p.PH, p.Standard, err)
	// Output: pH 3.27, u 0.02, <nil>
}

// A second dose counts the first.
func ExampleLog() {
	day := time.Date(2031, 9, 1, 0, 0, 0, 0, time.UTC)
	dose, _ := additions.Metabisulfite(200*units.MilligramPerLitre, 4*units.Litre)
	log := additions.Log{
		{When: day, Additive: additions.LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
		{When: day.AddDate(0, 1, 0), Additive: additions.LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
	}
	levels, _ := log.Levels()
	report, _ := additions.CheckLimits("US", additions.Batch{Levels: levels, Fruit: true})
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
		t, _ := additions.FlashPoint(s)
		fmt.Println(t.Decimal(units.DegreeCelsius, 0))
	}
	// Output:
	// 28
	// 41
}
