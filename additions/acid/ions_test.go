package acid

import (
	"math"
	"strings"
	"testing"

	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// What ions add up to: alkali and the sum of squares change with the pH as their
// slopes say, for acids of one, two and three protons.
func TestSlopesOfIonsByDifferences(t *testing.T) {
	const h = 1e-4
	for _, acids := range []Acids{{Tartaric: 6}, {Citric: 5}, {Lactic: 3}, {Tartaric: 4, Malic: 3, Citric: 2, Lactic: 1, Acetic: 0.5}} {
		b, err := NewBuffer(acids, 1, 12)
		if err != nil {
			t.Fatal(err)
		}
		for _, pH := range []float64{1, 2.5, 3.4, 4.4, 5.6, 7, 9.5} {
			for _, g := range []float64{1, 1.2, 1.5} {
				here, above, below := b.ions(pH, g), b.ions(pH+h, g), b.ions(pH-h, g)
				slope := (above.alkali - below.alkali) / (2 * h * math.Ln10)
				rise := (above.squares - below.squares) / (2 * h * math.Ln10)
				if math.Abs(here.slope-slope) > 1e-7*slope+1e-12 || math.Abs(here.rise-rise) > 1e-7*math.Abs(rise)+1e-9 {
					t.Errorf("%+v, pH %v: slope %.9g and rise %.9g, by differences %.9g and %.9g", acids, pH, here.slope, here.rise, slope, rise)
				}
			}
		}
	}
}

// The sum of squares is that of the charges: 1, 4 and 9 for one mole of citric acid
// far above its first, second and third pK, and the alkali its charge.
func TestIonsFarFromTheirPK(t *testing.T) {
	b, err := NewBuffer(Acids{Citric: 192.124}, 0, 0) // one mole in a litre
	if err != nil {
		t.Fatal(err)
	}
	n := b.ions(9.9, 1)
	oh := molar.Pow10(9.9) * 1e-14
	if math.Abs(n.alkali-oh-3) > 1e-3 || math.Abs(n.squares-oh-9) > 1e-2 {
		t.Errorf("a mole of citric acid at pH 9.9: %v of charge, %v of its square", n.alkali-oh, n.squares-oh)
	}
	if none := b.ions(0.2, 1); math.Abs(none.alkali+molar.Pow10(-0.2)) > 2e-3 || math.Abs(none.squares-molar.Pow10(-0.2)) > 2e-3 {
		t.Errorf("at pH 0.2: %v, %v; the hydrogen is %v", none.alkali, none.squares, molar.Pow10(-0.2))
	}
}

// The pH that is found balances its ions at the activity that it is found with.
func TestThePHBalances(t *testing.T) {
	for _, potassium := range []units.Concentration{0, 0.5, 1, 2.5} {
		b, err := NewBuffer(Acids{Tartaric: 4, Malic: 3, Citric: 1}, potassium, 10)
		if err != nil {
			t.Fatal(err)
		}
		for _, guess := range []float64{2, 3.4, 6} {
			pH, g, err := b.solve(guess, 0, settled)
			if err != nil {
				t.Fatal(err)
			}
			n := b.ions(pH, g)
			if off := (n.alkali - b.alkali) / n.slope / math.Ln10; math.Abs(off) > 1e-8 || math.Abs(g-activity(n.squares, b.alkali)) > 1e-8 {
				t.Errorf("%v g/L of potassium from pH %v: pH %v is off by %.2g, the activity by %.2g", potassium, guess, pH, off, g-activity(n.squares, b.alkali))
			}
		}
	}
}

// A mole of potassium bitartrate, 188.18 g, takes half of a mole of tartaric acid's
// titratable acidity with it, 75.04 g, and lowers the pH of a wine below its turning
// point of 3.65 or so.
func TestFallenTartarTakesItsAcid(t *testing.T) {
	b, err := NewBuffer(Acids{Tartaric: 5, Malic: 3}, 1, 10)
	if err != nil {
		t.Fatal(err)
	}
	after, err := b.LessTartar(2)
	if err != nil {
		t.Fatal(err)
	}
	before, err := b.TA(8.2)
	left, err2 := after.TA(8.2)
	if fall := float64(before - left); err != nil || err2 != nil || math.Abs(fall-2/188.18*75.04) > 0.01*fall {
		t.Errorf("2 g/L take %.4f g/L of TA, expected %.4f; %v, %v", fall, 2/188.18*75.04, err, err2)
	}
	pH, err := b.PH()
	lower, err2 := after.PH()
	if err != nil || err2 != nil || !(pH < 3.5 && lower < pH) {
		t.Errorf("pH %v becomes %v; %v, %v", pH, lower, err, err2)
	}
}

// Both sides of what a blend may be.
func TestEndsOfABlend(t *testing.T) {
	for text, good := range map[string]bool{
		"0.001 tartaric, 5 malic": true, "0.00099 tartaric, 5 malic": false, "1000000 tartaric, 5 malic": true, "1000001 tartaric, 5 malic": false,
		"51 % tartaric, 50 % malic": true, "51.1 % tartaric, 50 % malic": false, // half of the last digit of each
		"49 % tartaric, 50 % malic": true, "48.9 % tartaric, 50 % malic": false,
		"51 % tartaric, 51 % malic": false, "51.005 % tartaric, 5e1 % malic": false, "50.0505 % tartaric, 50.0 % malic": false, // half a per cent each is the most
	} {
		if _, err := ParseBlend(text); (err == nil) != good {
			t.Errorf("%q: %v", text, err)
		}
	}
	for parts, good := range map[int]bool{20: true, 21: false} {
		b, err := ParseBlend(strings.TrimSuffix(strings.Repeat("1 malic,", parts), ","))
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := b.Raised(5, 10); (err == nil) != good {
			t.Errorf("%d acids: %v", parts, err)
		}
	}
	for parts, good := range map[float64]bool{1e6: true, 1.01e6: false, 1e-3: true, 0.99e-3: false} {
		if _, _, err := (Blend{{Malic, parts}, {Tartaric, 1}}).Raised(5, 10); (err == nil) != good {
			t.Errorf("%v parts: %v", parts, err)
		}
	}
}
