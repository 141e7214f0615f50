package importer_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Other software: from readings to an amount, and what to tell its user where
// the amount cannot be.
func Example_software() {
	og, err := gravity.NewHydrometer(units.Celsius(20)).Correct(1.0905, units.Celsius(26))
	if err != nil {
		fmt.Println(err)
		return
	}
	wine, err := abv.MassBalance(og, 1.046, abv.Must)
	if err != nil {
		fmt.Println(err)
		return
	}
	base, err := blend.FromMust("morello cherry", 3*units.Litre, wine, 100*units.Millilitre)
	if err != nil {
		fmt.Println(err)
		return
	}
	pour, err := blend.Fortify(base, blend.Component{Name: "spirit", Strength: 75}, 20)
	fmt.Printf("%.3f L of spirit, %.0f g/L of sugar left, %v\n", float64(pour.Spirit), float64(pour.Result.Extract), err)

	_, err = blend.Fortify(base, blend.Component{Name: "liqueur", Strength: 18}, 20)
	var unreachable *blend.UnreachableError
	if errors.As(err, &unreachable) {
		fmt.Printf("reachable: %.1f to %.1f %% vol\n", unreachable.Low, unreachable.High)
	}
	// Output:
	// 0.711 L of spirit, 115 g/L of sugar left, <nil>
	// reachable: 6.3 to 18.0 % vol
}

// A person with paper and pencil: the same blend, volumes simply added, and how
// far that is from the balance.
func Example_handCheck() {
	square, err := blend.Alligation(
		blend.Component{Name: "wine", Volume: 220, Strength: 16.32},
		blend.Component{Name: "spirit", Strength: 96.5}, 21.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, line := range square.Working {
		fmt.Println(line)
	}
	// Output:
	// wine      16.32                    75 parts
	//                 21.5 % vol wanted
	// spirit     96.5                  5.18 parts
	// 220 L x 5.18 / 75 = 15.1947 L of spirit
	// with contraction: 14.8283 L
}

// An exporter of spreadsheets: figures as rows. The cell's number format keeps
// the places that are meant.
func Example_spreadsheet() {
	m, err := blend.Mix(
		blend.Component{Name: "wine", Volume: 3, Strength: 6.1, Extract: 142},
		blend.Component{Name: "spirit", Volume: 0.75, Strength: 75})
	if err != nil {
		fmt.Println(err)
		return
	}
	w := csv.NewWriter(os.Stdout)
	for _, f := range []units.Figure{
		{Key: "strength", Name: "strength", Value: m.Strength.Decimal(units.PercentVol, 1), Unit: "% vol"},
		{Key: "volume", Name: "volume", Value: m.Volume.Decimal(units.Litre, 3), Unit: "L"},
	} {
		if err := w.Write(append(f.Cells(), f.NumberFormat())); err != nil {
			fmt.Println(err)
		}
	}
	w.Flush()
	// Output:
	// strength,strength,20.0,% vol,,,,,0.0
	// volume,volume,3.721,L,,,,,0.000
}

// The whole job: a US quart of sugared store juice, read at 75 F with a hydrometer
// for 60 F; the jar of a quart is filled at 20 % vol, the rest is kept.
func Example_wholeBatch() {
	b := batch.Batch{Units: batch.US, Must: batch.Litres(units.USQuart), OriginalReading: batch.Is(gravity.SG(1.094)),
		MustTemperature: batch.Is(units.Fahrenheit(75)), Hydrometer: batch.Is(units.Fahrenheit(60)),
		StopAt: batch.Is(units.Strength(5)), SpiritStrength: batch.Is(units.Strength(40)), Target: batch.Is(units.Strength(20)),
		Vessel: batch.Is(units.Volume(units.USQuart)), Headspace: batch.Is(units.Volume(units.USFluidOunce)), Fortify: "fill the vessel"}
	p, err := b.Work()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Join(p.Answer, "\n"))
	reachable, _ := p.Liquid("reachable")
	fmt.Println(reachable.Verdict.Outlook, len(p.Figures()) > 50)
	// By hand, volumes simply added: 31 fl oz at 20 % vol of 5 and 40 % vol are
	// 17.7 fl oz and 13.3 fl oz.

	// Output:
	// Pour 13.3 fl oz of spirit on 17.8 fl oz of wine: it makes 20.0 % vol.
	// Keep 14.1 fl oz of the wine without spirit, at 5.0 % vol, which yeast will ferment (closed, it could reach 62 bar; a still-wine cork is made for 1): cold, under an airlock, for two weeks at most.
	// At 20.0 % vol yeast should stay still. Bacteria can still spoil it.
	// should stay still true
}
