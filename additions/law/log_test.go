package law

import (
	"strings"
	"testing"
	"time"

	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func TestLog(t *testing.T) {
	day := time.Date(2031, 9, 1, 12, 0, 0, 0, time.UTC)
	at := func(d int) time.Time { return day.AddDate(0, 0, d) }
	malic, err := AcidAdditive(acid.Malic)
	if err != nil {
		t.Fatal(err)
	}
	dose := handbook.Must(additions.Metabisulfite(50*units.MilligramPerLitre, 4))
	l := Log{
		{When: at(0), Additive: LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
		{When: at(0), Additive: malic, Mass: handbook.Must(acid.RaiseTA(2, 4, acid.Malic)), Volume: 4},
		{When: at(9), Volume: 3.8, Note: "off the lees"},
		{When: at(10), Additive: LogPotassiumMetabisulfite, Mass: dose, Volume: 3.8},
		{When: at(11), Additive: LogPotassiumSorbate, Mass: handbook.Must(additions.Sorbate(additions.UsualSorbicAcid, 3.8)), Volume: 3.8},
		{When: at(20), Volume: 7.6, Note: "spirit"},
	}
	got, err := l.Levels()
	if err != nil {
		t.Fatal(err)
	}
	for p, want := range map[Parameter]float64{
		TotalSO2:   (50 + 50*4/3.8) / 2,
		SorbicAcid: 100,
		AcidAdded:  1000,
	} {
		if !handbook.Near(got[p].In(units.MilligramPerLitre), want, 1e-12) {
			t.Errorf("%s: %v, want %v", p, got[p].In(units.MilligramPerLitre), want)
		}
	}
	l[3].When = at(-1)
	if _, err := l.Levels(); err == nil || !strings.Contains(err.Error(), "order of time") {
		t.Errorf("out of order: %v", err)
	}
	if _, err := (Log{{When: day}}).Levels(); err == nil {
		t.Error("a vessel without volume was accepted")
	}
	if levels, err := (Log)(nil).Levels(); err != nil || len(levels) != 0 {
		t.Errorf("empty log: %v, %v", levels, err)
	}
}

// From a billionth to ten times the weight counts; a mass of nothing does not.
func TestTheShareOfAnAdditive(t *testing.T) {
	share := func(x float64) (float64, error) {
		l, err := Log{{Additive: Additive{"chalk", AcidAdded, x}, Mass: 1, Volume: 1}}.Levels()
		return float64(l[AcidAdded]), err
	}
	handbook.Domains(t, []handbook.Domain{{Name: "share", Of: share, Good: []float64{1e-9, 10}, Bad: []float64{0, 0.99e-9, 10.1}}})
	if _, err := (Log{{Mass: 1, Volume: 1}}).Levels(); err == nil {
		t.Error("a gram of what has no name counts as nothing")
	}
}
