package batch

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/mutage/abv/label"
	"example.org/mutage/additions"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// limits holds the blend, and the part kept, against the law of the jurisdiction.
func (j *job) limits() error {
	b := j.b
	if b.Jurisdiction == "" {
		return nil
	}
	for _, key := range []string{"reachable", "kept"} {
		l, ok := j.plan.Liquid(key)
		if !ok {
			continue
		}
		r, err := law.Check(b.Jurisdiction, j.product(&l))
		if err != nil {
			return inField("jurisdiction", err)
		}
		for _, f := range r.Findings {
			severity := map[law.Severity]Severity{law.Stop: Stop, law.Warn: Warn, law.Note: Note}[f.Severity()]
			name := f.Key
			if key == "kept" {
				name = "kept_" + name
			}
			if severity == Note && (key == "kept" || f.Parameter != law.SulfiteStatement && (f.Status == law.NotKnown || f.Outcome == law.Kept)) {
				continue // what is kept, or not known, is for who asks: law.Check
			}
			j.find(name, severity, "%s: %s", b.Jurisdiction, f.String())
		}
	}
	return nil
}

// product is a liquid as the law looks at it. The texts of the table divide fruit
// wine by the spirit in it, not by its strength: 15 % vol is a limit of liqueur wine,
// which is of grapes.
func (j *job) product(l *Liquid) law.Product {
	so2, sorbate := j.dosed(l, 1)
	p := law.Product{Category: law.FruitWine, SugarLow: l.Sugar.Low, SugarHigh: l.Sugar.High, Density: units.Density(float64(l.Mass) / float64(l.Volume)),
		Levels: law.Levels{law.TotalSO2: so2.InAll(), law.SorbicAcid: sorbate}, Uncertainty: j.doseUncertainty(l, so2, sorbate)}
	if so2.FreeMeasured {
		p.Levels[law.FreeSO2] = so2.Free
		p.Uncertainty[law.FreeSO2] = so2.FreeLimit / twoSided
	}
	if l.Key != "kept" && j.c.spirit.Volume > 0 {
		p.Category = law.FortifiedFruitWine
	}
	return p
}

// doseUncertainty is how far the levels may be from what was meant: a dose is a mass,
// and the volume it went into is not exact, nor may be the levels stated.
func (j *job) doseUncertainty(l *Liquid, so2 additions.SO2, sorbate units.Concentration) law.Levels {
	volume := float64(l.VolumeUncertainty / l.Volume)
	relative := func(x Stated[units.Concentration]) float64 {
		if x.Value <= 0 {
			return 0
		}
		return x.Limit / twoSided / float64(x.Value)
	}
	b := j.b
	sulfite, sorbic := b.Sulfite, b.Sorbate
	if l.Key == "kept" && b.KeptSulfite.Known {
		sulfite = b.KeptSulfite
	}
	if l.Key == "kept" && b.KeptSorbate.Known {
		sorbic = b.KeptSorbate
	}
	return law.Levels{
		law.TotalSO2:   units.Concentration(math.Hypot(float64(so2.Added)*math.Hypot(volume, relative(sulfite)), float64(so2.Total)*relative(b.SulfiteTotal))),
		law.SorbicAcid: sorbate * units.Concentration(math.Hypot(volume, relative(sorbic))),
	}
}

// what is the batch as far as a caution depends on it.
func (j *job) what() law.What {
	b, c := j.b, &j.c
	reachable, _ := j.plan.Liquid("reachable")
	so2 := b.so2()
	return law.What{Jurisdiction: b.Jurisdiction, Must: b.Must.Known(), StoneFruit: j.stones(), Fermenting: b.Must.Known() && !b.notFermented(),
		Sulfite: so2.InAll() > 0, Sorbate: b.Sorbate.Value > 0, Acid: b.Acid.Value > 0, Wood: b.wood(c.blend.Volume) > 0, Fortified: c.spirit.Volume > 0,
		Bottled: len(b.Bottles) > 0, SugarLeft: reachable.Sugar.High, Spirit: spiritStrength(c.spirit.Volume, c.spirit.Strength)}
}

func spiritStrength(v units.Volume, s units.Strength) units.Strength {
	if v <= 0 {
		return 0
	}
	return s
}

// stones says whether the fruit has some.
func (j *job) stones() bool {
	words := strings.ToLower(j.b.Fruit + " " + j.b.Name)
	return slices.ContainsFunc([]string{"cherry", "plum", "peach", "apricot", "damson", "sloe"}, func(f string) bool { return strings.Contains(words, f) })
}

// caution puts every sentence to the step that it belongs to, and what has none
// to the last.
func (j *job) caution() {
	at := map[law.Step]string{law.StepMust: "sugar", law.StepFerment: "watch", law.StepStop: "stop", law.StepDose: "dose", law.StepPour: "pour",
		law.StepRest: "rest", law.StepWood: "rest", law.StepBottle: "bottle"}
	for _, c := range law.Cautions(j.what()) {
		i := slices.IndexFunc(j.plan.Steps, func(s Step) bool { return s.Key == at[c.Step] })
		if i < 0 {
			i = len(j.plan.Steps) - 1
		}
		j.plan.Steps[i].Cautions = append(j.plan.Steps[i].Cautions, c.Text)
	}
}

// glass is the serving of which the alcohol is stated.
const glass = 75 * units.Millilitre

var servings = figure.Method{Method: "strength times volume times the density of ethanol", Source: "OIML R 22 (1975)"}

// drinkStep is what to know before it is drunk or given away.
func (j *job) drinkStep() (*Step, error) {
	reachable, _ := j.plan.Liquid("reachable")
	grams, err := label.AlcoholMass(glass, reachable.Strength)
	if err != nil {
		return nil, err
	}
	s := &Step{Key: "drink", Title: "Before you drink or give it away"}
	s.Figures = append(s.Figures, servings.Of("alcohol_in_75_ml", "alcohol in a glass of 75 mL", float64(grams), 0, "g"))
	serving := map[say.System]units.Volume{say.US: 2.5 * units.USFluidOunce, say.Imperial: 2.5 * units.ImperialFluidOunce}[j.b.Units]
	size := "2.5 fl oz"
	if serving == 0 {
		serving, size = glass, j.b.Units.Volume(glass)
	}
	held, err := label.AlcoholMass(serving, reachable.Strength)
	if err != nil {
		return nil, err
	}
	text := fmt.Sprintf("A glass of %s holds %s g of alcohol. None for children, in pregnancy, with medicines that forbid it, or before driving. Local law comes first.",
		size, units.Round(float64(held), 0))
	if grams < 0.5 {
		text = "Local law comes first."
	}
	if j.what().Sulfite {
		text = "Contains sulfites: say so (asthma). " + text
	}
	s.Lines = append(s.Lines, text)
	if reachable.Verdict.Outlook != stability.Still && len(j.b.Bottles) == 0 {
		s.Lines = append(s.Lines, stability.BurstWarning)
	}
	return s, nil
}
