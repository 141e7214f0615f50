package law

import (
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// flashPoints are % of ethanol in water and C; 96 % is printed with 17 and with
// 13 C, and the lower stands. The table says % by mass; the same figures stand
// elsewhere as % by volume, which is the safe way to read them.
var flashPoints = [...][2]float64{{5, 62}, {10, 49}, {20, 36}, {30, 29}, {40, 26}, {50, 24}, {60, 22}, {70, 21}, {80, 20}, {90, 17}, {96, 13}}

const sourceFlash = "The Engineering ToolBox (name of the site from memory), Ethanol freeze protected water solutions, flash points"

// FlashPoint is the temperature from which a flame can light the vapour over a
// spirit, straight between the rows of a table of ethanol and water; sugar is
// not in it. The table can be read in two ways: safe takes its figures for
// % vol and is the one to go by; other takes them for % mass, as its heading
// says, and is 1 to 5 C higher. Domain: 6.3 to 96 % vol, where both readings lie
// in the table. Error: *units.RangeError. Warm glass, spray and wet cloths burn
// well below: keep flames away at any figure.
func FlashPoint(s units.Strength) (safe, other units.Temperature, err error) {
	least, most := flashPoints[0][0], flashPoints[len(flashPoints)-1][0]
	if err := units.Check("strength", float64(s), density.ByVolume(least/100), most, "% vol", sourceFlash); err != nil {
		return 0, 0, err
	}
	at := func(percent float64) units.Temperature { return units.Celsius(table.Linear(flashPoints[:], percent)) }
	return at(float64(s)), at(100 * density.ByMass(float64(s))), nil
}
