package batch

import (
	"strings"
	"testing"

	"example.org/mutage/units"
)

// Where the spirit at hand does not make the part kept stay still, its remedy says
// how much is left: 850 mL less the 835 mL or so that fill 2 L.
func TestARemedyCountsTheSpiritAtHand(t *testing.T) {
	b := Demo()
	b.SpiritPlanned, b.Fortify, b.Headspace = Amount{}, fillVessel, Stated[units.Volume]{}
	b.Vessel = Is(2 * units.Litre)
	for stock, want := range map[units.Volume]bool{850 * units.Millilitre: true, 5 * units.Litre: false} {
		b.SpiritStock = Amount{Volume: Is(stock)}
		p, err := b.Work()
		if err != nil {
			t.Fatal(err)
		}
		kept, ok := p.Liquid("kept")
		if !ok {
			t.Fatal("nothing is kept")
		}
		if got := strings.Contains(kept.Remedy, "of it is left"); got != want {
			t.Errorf("stock of %v: %q", stock, kept.Remedy)
		}
	}
}
