package batch

import (
	"fmt"
	"slices"

	"example.org/mutage/additions"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// job is a batch on its way to a plan.
type job struct {
	b        *Batch
	d        decision
	c        course       // as poured
	wanted   *course      // as the target takes
	f        figured      // of c
	fw       *figured     // of wanted, where it is another
	sure     units.Volume // spirit at 20 C, 95 % sure; 0 where it is not known
	keeps    units.Volume // kept without spirit, as the cellar measures it
	plan     Plan
	findings []Finding
}

// Work goes through the whole batch, from the must to the bottle. It is a pure
// function: for the same batch it gives the same plan. A target that cannot be
// reached is no error but a finding of the plan with severity Stop. Errors:
// *ConflictError for fields that contradict each other, *units.RangeError for what
// no cellar has or a formula does not cover, each behind the name of its field.
func (b Batch) Work() (Plan, error) {
	b.Sugar = slices.DeleteFunc(slices.Clone(b.Sugar), func(p Portion) bool { return p.Mass.Known && p.Mass.Value == 0 })
	if err := b.check(); err != nil {
		return Plan{}, err
	}
	j := &job{b: &b}
	var err error
	if j.d, err = b.decide(); err != nil {
		return Plan{}, err
	}
	if j.c, err = b.run(&j.d.v); err != nil {
		return Plan{}, err
	}
	if j.f, err = b.within(&j.d.v, &j.c); err != nil {
		return Plan{}, err
	}
	if err = j.asWanted(); err != nil {
		return Plan{}, err
	}
	for _, part := range []func() error{j.liquids, j.pours, j.looks, j.limits, j.steps} {
		if err := part(); err != nil {
			return Plan{}, err
		}
	}
	j.plan.Schema, j.plan.Title = 1, b.Name
	j.plan.Answer = j.answer()
	slices.SortStableFunc(j.findings, func(a, b Finding) int { return a.Severity.rank() - b.Severity.rank() })
	j.plan.Findings = append([]Finding{}, j.findings...)
	return j.plan, nil
}

func (s Severity) rank() int { return slices.Index([]Severity{Stop, Warn, Note}, s) }

func (j *job) find(key string, s Severity, format string, values ...any) {
	j.findings = append(j.findings, Finding{key, s, fmt.Sprintf(format, values...)})
}

// asWanted is the course with as much spirit as the target takes.
func (j *job) asWanted() error {
	b, d := j.b, &j.d
	if d.wanted != nil {
		if *d.wanted == d.v {
			j.wanted, j.fw = &j.c, &j.f
		} else {
			c, err := b.run(d.wanted)
			if err != nil {
				return err
			}
			f, err := b.within(d.wanted, &c)
			if err != nil {
				return err
			}
			j.wanted, j.fw = &c, &f
		}
		j.sure, _ = b.sure(d.wanted, j.fw)
	}
	return nil
}

// liquid fills in a liquid and judges it.
func (j *job) liquid(key string, volume units.Volume, strength units.Strength, extract units.Concentration, wine units.Volume,
	uv, us, ux uncertainty.Result, store Stated[units.Temperature], so2 additions.SO2, sorbate units.Concentration) (Liquid, error) {
	b := j.b
	m, err := blend.Mix(blend.Component{Volume: volume, Strength: strength, Extract: extract})
	if err != nil {
		return Liquid{}, err
	}
	l := Liquid{Key: key, Volume: volume, Mass: m.Mass, Strength: strength, Extract: extract, Gravity: m.Gravity,
		VolumeUncertainty: units.Volume(uv.Standard), StrengthUncertainty: units.Strength(us.Standard), ExtractUncertainty: units.Concentration(ux.Standard)}
	l.Coverage.Volume, l.Coverage.Strength, l.Coverage.Extract = figure.Coverage(uv), figure.Coverage(us), figure.Coverage(ux)
	if l.Sugar, err = b.sugars(&j.c, extract, wine, volume); err != nil {
		return l, err
	}
	if l.Sugar, err = l.Sugar.Within(l.ExtractUncertainty); err != nil {
		return l, err
	}
	if l.Reading, err = m.Shows(b.hydrometer(), b.cellar()); err != nil {
		return l, inField("cellar_temperature", err)
	}
	if l.Verdict, err = stability.Judge(j.wine(&l, store, so2, sorbate)); err == nil {
		l.Closed = j.closed(&l)
	}
	return l, err
}

// wine is a liquid as the verdict looks at it.
func (j *job) wine(l *Liquid, store Stated[units.Temperature], so2 additions.SO2, sorbate units.Concentration) stability.Wine {
	return stability.Wine{Strength: l.Strength, StrengthUncertainty: l.StrengthUncertainty, Sugar: l.Sugar, Extract: l.Extract + 1.645*l.ExtractUncertainty,
		PH: j.b.PH.Value, PHUncertainty: j.b.PH.Limit / twoSided, SO2: so2, Sorbate: sorbate, YeastLimit: j.yeastLimit(),
		Temperature: store.Value, Held: j.b.Wine.Known()}
}

// mostYeastLimit in % vol is the most that a verdict takes; no yeast goes there.
const mostYeastLimit = 30

// yeastLimit is the limit as stated or, where the must has fermented past it, the
// strength that this yeast has reached.
func (j *job) yeastLimit() units.Strength {
	limit := j.b.YeastLimit
	if limit.Known && j.b.Must.Known() && !j.b.notFermented() {
		return max(limit.Value, min(mostYeastLimit, j.c.wine.Strength))
	}
	return limit.Value
}

// so2 is that of the racked and dosed wine.
func (b *Batch) so2() additions.SO2 {
	return additions.SO2{Added: b.Sulfite.Value, Total: b.SulfiteTotal.Value, Free: b.FreeSulfite.Value, FreeMeasured: b.FreeSulfite.Known,
		FreeLimit: units.Concentration(b.FreeSulfite.Limit)}
}

func (j *job) liquids() error {
	b, c := j.b, &j.c
	none := Stated[units.Temperature]{}
	add := func(l Liquid, err error) error {
		if err == nil {
			j.plan.Liquids = append(j.plan.Liquids, l)
		}
		return err
	}
	if err := add(j.liquid("wine", c.base.Volume, c.base.Strength, c.base.Extract, c.base.Volume,
		j.f.wineVolume, j.f.wineStrength, j.f.wineExtract, none, b.so2(), b.Sorbate.Value)); err != nil {
		return err
	}
	if c.planned.Volume > 0 {
		share := float64(c.unsweet / c.planned.Volume)
		if err := add(j.liquid("planned", c.planned.Volume, c.planned.Strength, c.planned.Extract, c.unsweet,
			j.f.plannedVolume, j.f.plannedStrength, j.f.plannedExtract, none, b.so2().Times(share), b.Sorbate.Value*units.Concentration(share))); err != nil {
			return err
		}
	}
	blended := func(key string, c *course, f *figured) error {
		share := float64(c.unsweet / c.blend.Volume)
		return add(j.liquid(key, c.blend.Volume, c.blend.Strength, c.blend.Extract, c.unsweet,
			f.volume, f.strength, f.extract, none, b.so2().Times(share), b.Sorbate.Value*units.Concentration(share)))
	}
	if j.wanted != nil {
		if err := blended("fortified", j.wanted, j.fw); err != nil {
			return err
		}
	}
	if err := blended("reachable", c, &j.f); err != nil {
		return err
	}
	if c.kept.Volume > 1e-3*c.base.Volume && c.kept.Volume > 0.005 {
		if err := add(j.keptLiquid()); err != nil {
			return err
		}
	}
	return j.remedies()
}

// keptLiquid is the wine that is kept without spirit.
func (j *job) keptLiquid() (Liquid, error) {
	b, c := j.b, &j.c
	so2 := b.so2()
	so2.Added = b.KeptSulfite.Or(so2.Added)
	return j.liquid("kept", c.kept.Volume, c.base.Strength, c.base.Extract, c.kept.Volume,
		j.f.keptVolume, j.f.wineStrength, j.f.wineExtract, b.KeptTemperature, so2, b.KeptSorbate.Or(b.Sorbate.Value))
}

// pours lists what goes into what.
func (j *job) pours() error {
	if c := &j.c; c.planned.Volume > 0 {
		if err := j.pour("planned", c, units.Volume(j.d.v[qPlanned])); err != nil {
			return err
		}
	}
	if j.wanted != nil {
		if err := j.pour("fortified", j.wanted, j.wanted.spirit.Volume); err != nil {
			return err
		}
	}
	return j.pour("reachable", &j.c, j.c.spirit.Volume)
}

func (j *job) pour(into string, c *course, spirit units.Volume) error {
	plain, poured := c.base, c.spirit
	plain.Volume, poured.Volume = c.unsweet, spirit
	for _, l := range []struct {
		key string
		of  blend.Component
	}{{"wine", plain}, {"spirit", poured}} {
		if l.of.Volume <= 0 {
			continue
		}
		p := Pour{Into: into, Key: l.key, Name: l.of.Name, Volume: l.of.Volume, Strength: l.of.Strength, Extract: l.of.Extract}
		var err error
		if p.Measured, err = atTemperature(l.of, j.b.cellar()); err != nil {
			return inField("cellar_temperature", err)
		}
		m, err := blend.Mix(l.of)
		if err != nil {
			return err
		}
		p.Mass = m.Mass
		j.plan.Pours = append(j.plan.Pours, p)
	}
	if c.sweetenG > 0 && into != "planned" {
		s, _ := sugar.ParseSweetener(j.b.Sweetener)
		j.plan.Pours = append(j.plan.Pours, Pour{Into: into, Key: "sweetener", Name: s.Name, Mass: c.sweetenG})
	}
	return nil
}

// pourOf is the pour of this key.
func (p *Plan) pourOf(into, key string) Pour {
	for _, q := range p.Pours {
		if q.Into == into && q.Key == key {
			return q
		}
	}
	return Pour{}
}
