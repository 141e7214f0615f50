package batch

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// A liquid that may ferment has the pressure of a closed bottle, one that is still
// has none; the answer says it once for each that it speaks of, and once what a
// cork is made for.
func TestALiquidThatMayFermentHasAPressure(t *testing.T) {
	kept := handbook.Must(Read("kept", strings.NewReader(`{"must": "3 L", "must_reading": "1.057", "fruit": "juice", "sugar": "300 g", "stop_at": "5 % vol",
		"spirit_strength": "40 % vol", "spirit_planned": "100 mL", "target": "20 % vol", "vessel": "1 quart", "fortify": "fill the vessel"}`)))
	for _, b := range []Batch{Demo(), kept} {
		p := work(t, b)
		answer := strings.Join(p.Answer, " ")
		said := 0
		for _, l := range p.Liquids {
			still := l.Verdict.Outlook == stability.Still
			if (l.Closed.Overpressure > 0) == still {
				t.Errorf("%s: %s, %v", l.Key, l.Verdict.Outlook, l.Closed.Overpressure)
			}
			found := false
			for _, f := range l.Figures() {
				found = found || f.Key == "overpressure" && f.Unit == "bar" && strings.Contains(f.Note, "1 bar (CETIE")
			}
			if found == still {
				t.Errorf("%s: figure of the pressure: %v", l.Key, found)
			}
			if !still && l.Key != "wine" {
				said++
				if bar := units.Round(l.Closed.Overpressure.In(units.Bar), 0).String() + " bar"; strings.Count(answer, bar) != 1 {
					t.Errorf("%s: %s is not said once: %s", l.Key, bar, answer)
				}
			}
		}
		if said == 0 || strings.Count(answer, "cork is made for 1") != 1 {
			t.Errorf("%d liquids, %s", said, answer)
		}
	}
}

// The pressure by hand: what ferments of the demonstration's planned blend, dissolved
// by the regulation's formula (less by a tenth at 25 C, see the test of Henry's
// constants) and in 25 of 775 mL.
func TestThePressureIsThatOfTheBlendPlanned(t *testing.T) {
	p := work(t, Demo())
	l, _ := p.Liquid("planned")
	low := float64(l.Strength - 1.645*l.StrengthUncertainty)
	// To 17.5 % vol: 0.789 kg/L, 0.511 g of ethanol and 0.489 g of CO2 from a gram of
	// hexose; the growth of the volume by a tenth of the sugar is left out.
	co2 := (17.5-low)*7.89/0.511*0.489 + 1.5
	k := 1.951 * (0.86 - 0.175) * 0.95 * 0.87
	bar := co2*0.75/(k*0.75+1.78*0.02) + 0.9 - 1
	if got := l.Closed.Overpressure.In(units.Bar); math.Abs(got/bar-1) > 0.1 {
		t.Errorf("%.1f bar, by hand %.1f", got, bar)
	}
}

// A pressure comes back from JSON to its digits.
func TestThePressureComesBackFromJSON(t *testing.T) {
	p := work(t, Demo())
	text, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	var back Plan
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	again, err := json.Marshal(back)
	if err != nil || string(again) != string(text) {
		t.Errorf("%v\n%s\n%s", err, text, again)
	}
}

// Beyond what the formula covers nothing is said, and no plan fails for it.
func TestSyrupHasNoPressure(t *testing.T) {
	p := work(t, handbook.Must(Read("syrup", strings.NewReader(`{"wine": "2 L", "wine_strength": "5 % vol", "wine_reading": "1.190", "fruit": "juice"}`))))
	if l, _ := p.Liquid("reachable"); l.Closed.Overpressure != 0 || l.Sugar.High < 400 {
		t.Errorf("%v g/L of sugar, %v", l.Sugar.High, l.Closed.Overpressure)
	}
}
