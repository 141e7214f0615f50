package batch

import (
	"fmt"
	"slices"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/say"
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
	b.Sugar = slices.Clone(b.Sugar)
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
	if l.Sugar, err = b.sugars(&j.c, extract, wine, volume); err != nil {
		return l, err
	}
	if l.Sugar, err = l.Sugar.Within(l.ExtractUncertainty); err != nil {
		return l, err
	}
	if l.Reading, err = m.Shows(b.hydrometer(), b.cellar()); err != nil {
		return l, inField("cellar_temperature", err)
	}
	l.Verdict, err = stability.Judge(j.wine(&l, store, so2, sorbate))
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

// remedies says of every liquid that is not still what would make it so, or how
// to keep it.
func (j *job) remedies() error {
	for i := range j.plan.Liquids {
		l := &j.plan.Liquids[i]
		if l.Verdict.Outlook == stability.Still {
			continue
		}
		remedy, err := j.remedy(l)
		if err != nil {
			return err
		}
		l.Remedy = remedy
	}
	return nil
}

func (j *job) keepIt() string {
	return fmt.Sprintf("keep it cold (below %s) under an airlock and drink it within two weeks (common practice, no source); do not bottle it", j.b.Units.Temperature(units.Celsius(5)))
}

func (j *job) remedy(l *Liquid) (string, error) {
	b := j.b
	if sharper := j.judgedSharper(l); sharper {
		return fmt.Sprintf("measured exactly, %s would do: %s", say.Strength(l.Strength), j.weakest()), nil
	}
	if l.Key == "planned" && j.wanted != nil {
		return fmt.Sprintf("pour the amount that makes %s instead; otherwise %s", say.Strength(b.Target.Value), j.keepIt()), nil
	}
	spirit := j.c.spirit
	if !b.SpiritStrength.Known {
		spirit = shopSpirit
	}
	more, made, ok := j.spiritToStill(l, spirit)
	if !ok && spirit.Strength < shopSpirit.Strength {
		spirit = shopSpirit
		more, made, ok = j.spiritToStill(l, spirit)
	}
	if !ok {
		return j.otherwise(l)
	}
	word := ""
	if (l.Key == "planned" || l.Key == "reachable") && j.c.spirit.Volume > 0 {
		word = " more"
	}
	room := ""
	if l.Key != "kept" && j.d.fits > 0 && l.Volume+more > j.d.fits {
		room = " (the jar has no room for it)"
	}
	return fmt.Sprintf("%s%s of %s make it %s, at which it should stay still%s; otherwise %s", b.Units.Volume(more), word, spirit.Name, say.Strength(made), room, j.keepIt()), nil
}

// otherwise is what would do where no spirit does: a change of the wine itself,
// judged again, or none.
func (j *job) otherwise(l *Liquid) (string, error) {
	so2, sorbate := j.dosed(l, 1)
	all, err := stability.Remedies(j.wine(l, Stated[units.Temperature]{}, so2, sorbate))
	if err != nil {
		return "", err
	}
	var texts []string
	for _, c := range all {
		if c.Key != "strength" { // which counts no dilution: spiritToStill does
			texts = append(texts, c.Text)
		}
	}
	if len(texts) == 0 {
		return "none: " + j.keepIt(), nil
	}
	return strings.Join(texts[:min(2, len(texts))], ", or ") + "; otherwise " + j.keepIt(), nil
}

// shopSpirit is what a remedy goes by where the spirit of the batch is not known
// or does not do.
var shopSpirit = blend.Component{Name: "spirit of 40 % vol", Strength: 40}

// judgedSharper says whether the liquid would be still if its strength were
// measured exactly.
func (j *job) judgedSharper(l *Liquid) bool {
	sharp := *l
	sharp.StrengthUncertainty = 0
	so2, sorbate := j.dosed(l, 1)
	v, err := stability.Judge(j.wine(&sharp, Stated[units.Temperature]{}, so2, sorbate))
	return err == nil && v.Outlook == stability.Still
}

// dosed is the SO2 and sorbic acid of a liquid of which so much is left in a
// litre.
func (j *job) dosed(l *Liquid, left float64) (additions.SO2, units.Concentration) {
	share := 1.0
	switch l.Key {
	case "planned":
		share = float64(j.c.unsweet / j.c.planned.Volume)
	case "fortified":
		share = float64(j.wanted.unsweet / j.wanted.blend.Volume)
	case "reachable":
		share = float64(j.c.unsweet / j.c.blend.Volume)
	}
	so2, sorbate := j.b.so2(), j.b.Sorbate.Value
	if l.Key == "kept" {
		so2.Added, sorbate = j.b.KeptSulfite.Or(so2.Added), j.b.KeptSorbate.Or(sorbate)
	}
	return so2.Times(share * left), sorbate * units.Concentration(share*left)
}

// spiritToStill is the least spirit at 20 C that makes a liquid still, found by
// judging again, and the strength it makes.
func (j *job) spiritToStill(l *Liquid, spirit blend.Component) (units.Volume, units.Strength, bool) {
	there := blend.Component{Name: l.Key, Volume: l.Volume, Strength: l.Strength, Extract: l.Extract}
	still := func(v units.Volume) (units.Strength, bool) {
		s := spirit
		s.Volume = v
		m, err := blend.Mix(there, s)
		if err != nil {
			return 0, false
		}
		left := float64(l.Volume / m.Volume)
		more := *l
		more.Strength, more.Extract, more.Sugar = m.Strength, m.Extract, l.Sugar.Times(left)
		so2, sorbate := j.dosed(l, left)
		verdict, err := stability.Judge(j.wine(&more, Stated[units.Temperature]{}, so2, sorbate))
		return m.Strength, err == nil && verdict.Outlook == stability.Still
	}
	lo, hi := units.Volume(0), 20*l.Volume
	if _, ok := still(hi); !ok {
		return 0, 0, false
	}
	for range 50 {
		mid := (lo + hi) / 2
		if _, ok := still(mid); ok {
			hi = mid
		} else {
			lo = mid
		}
	}
	made, ok := still(hi)
	return hi, made, ok
}

// weakest is what to measure better first.
func (j *job) weakest() string {
	r := j.f.strength.Ranked()
	for _, k := range j.f.knows {
		if len(r) > 0 && k.name == r[0].Name {
			return fmt.Sprintf("the %s; %s", k.name, k.better)
		}
	}
	return "measure it"
}

// looks finds what is wrong with the batch itself.
func (j *job) looks() error {
	b, c := j.b, &j.c
	u := b.Units
	if b.YeastLimit.Known && b.Must.Known() && !b.notFermented() && float64(c.wine.Strength) > float64(b.YeastLimit.Value)+1 {
		text := "The stop at %s is more than 1 %% vol above the %s at which this yeast gives up: it will not get there."
		if b.StopReading.Known || b.RackedReading.Known {
			text = "By its reading it has fermented to %s, more than 1 %% vol above the %s at which this yeast is said to give up: a reading or the limit is wrong."
		}
		j.find("yeast_limit", Stop, text, say.Strength(c.wine.Strength), say.Strength(b.YeastLimit.Value))
	} else if b.YeastLimit.Known && b.StopAt.Known && b.StopAt.Value > b.YeastLimit.Value {
		j.find("yeast_limit", Warn, "The stop at %s is above the %s at which this yeast is said to give up.", say.Strength(b.StopAt.Value), say.Strength(b.YeastLimit.Value))
	}
	if l := j.d.limit; l != nil {
		j.limited(l)
	}
	if b.Fortify == fillVessel && j.d.limit == nil && c.blend.Volume < 0.99*j.d.fits && !b.PouredSpirit.Known() {
		j.find("vessel_not_full", Warn, "There is too little %s to fill the vessel of %s: it makes %s.", c.base.Name, u.Volume(b.Vessel.Value), u.Volume(c.blend.Volume))
	}
	for _, look := range []func() error{j.beyond, j.order} {
		if err := look(); err != nil {
			return err
		}
	}
	for _, liquid := range []struct {
		key  string
		v    units.Volume
		what string
	}{{"overflow", c.blend.Volume, "What is poured"}, {"overflow_planned", c.planned.Volume, "The amount you planned"}} {
		if j.d.room > 0 && float64(liquid.v) > float64(j.d.fits)*(1+1e-6) {
			j.find(liquid.key, Stop, "%s makes %s, and the vessel of %s takes %s: it overflows.", liquid.what, u.Volume(liquid.v), u.Volume(b.Vessel.Value), u.Volume(j.d.room))
		}
	}
	if j.d.room > 0 && b.Fortify != fillVessel && !b.BlendVolume.Known && c.base.Volume > j.d.fits && !b.PouredSpirit.Known() {
		j.find("vessel", Warn, "The vessel of %s does not hold all of the %s with its spirit: it is filled.", u.Volume(b.Vessel.Value), c.base.Name)
	}
	reachable, _ := j.plan.Liquid("reachable")
	for _, want := range []struct {
		name string
		of   Stated[units.Concentration]
	}{{"least_sugar", b.LeastSugar}} {
		if want.of.Known && reachable.Sugar.Low < want.of.Value-1e-6 {
			j.find(want.name, Warn, "The blend holds %s to %s of sugar, and you want at least %s: stop earlier, add sugar, or use stronger spirit.",
				units.Round(float64(reachable.Sugar.Low), 0), say.Concentration(reachable.Sugar.High), say.Concentration(want.of.Value))
		}
	}
	if planned, ok := j.plan.Liquid("planned"); ok && planned.Verdict.Outlook != stability.Still {
		j.find("planned_not_still", Warn, "The amount you planned makes %s, which %s: do not bottle that.", say.Strength(planned.Strength), ferment(planned.Verdict.Outlook))
	}
	if reachable.Verdict.Outlook != stability.Still {
		j.find("not_still", Warn, "%s %s: do not bottle it. %s.", fmt.Sprintf("At %s yeast", say.Strength(reachable.Strength)), reachable.Verdict.Outlook, capital(reachable.Remedy))
	}
	if l, ok := j.plan.Liquid("kept"); ok && l.Verdict.Outlook != stability.Still {
		j.find("kept_not_still", Warn, "The %s kept at %s %s. %s.", u.Volume(l.Volume), say.Strength(l.Strength), l.Verdict.Outlook, capital(l.Remedy))
	}
	if c.spirit.Volume > 0 && b.SpiritStrength.Value < 30 && !b.SpiritExtract.Known {
		j.find("spirit_extract", Note, "No sugar is stated for the spirit of %s: it counts as none. A liqueur has much.", say.Strength(b.SpiritStrength.Value))
	}
	agrees, err := j.explained()
	if err != nil {
		return err
	}
	j.missed(agrees)
	return nil
}

// beyond finds a stop that the sugar does not reach.
func (j *job) beyond() error {
	b, c := j.b, &j.c
	if !b.ferments() {
		return nil
	}
	n, err := b.notSugar()
	if err != nil {
		return err
	}
	_, _, high, err := abv.PotentialRange(c.og, mustYield, abv.WithNotSugar(n))
	if err == nil && c.wine.Strength > high.Strength+1e-6 {
		j.find("stop_beyond_sugar", Warn, "The stop at %s is more than the sugar gives: %s at most.", say.Strength(c.wine.Strength), say.Strength(high.Strength))
	}
	return err
}

// order finds an aim outside the window to stop in, and a reading after racking
// that is above the one at the stop.
func (j *job) order() error {
	b, c := j.b, &j.c
	if w := j.d.window; w != nil && b.ferments() && (c.wine.Gravity > w.From.Gravity+1e-6 || c.wine.Gravity < w.To.Gravity-1e-6) {
		j.find("stop_outside_window", Stop, "The aim of %s is outside of what is wanted of the stop: %s to %s.", say.Strength(c.wine.Strength), say.Strength(w.From.Strength), say.Strength(w.To.Strength))
	}
	if !b.StopReading.Known || !b.RackedReading.Known {
		return nil
	}
	y := abv.Yield{CarbonDioxide: mustYield.CarbonDioxide, Yeast: j.d.v[qYeast]}
	stop, err := b.truly(c.og, b.StopReading.Value, b.StopTemperature.Or(b.cellar()), y)
	if err != nil {
		return inField("stop_reading", err)
	}
	racked, err := b.truly(c.og, b.RackedReading.Value, b.RackedTemperature.Or(b.cellar()), y)
	if err == nil && racked > stop+readsAlike {
		j.find("reading_order", Warn, "The reading after racking (%s) is above the one at the stop (%s), which nothing but sugar can do: read both again.", say.Gravity(float64(racked)), say.Gravity(float64(stop)))
	}
	return inField("racked_reading", err)
}

// missed says what mends a blend that was poured beside its target, where its
// reading agrees with what was poured.
func (j *job) missed(agrees bool) {
	b, c := j.b, &j.c
	if !b.PouredSpirit.Known() || !b.Target.Known || float64(c.blend.Strength) > float64(b.Target.Value)-0.05 {
		return
	}
	text := fmt.Sprintf("As poured it has %s, not %s.", say.Strength(c.blend.Strength), say.Strength(b.Target.Value))
	spirit := c.spirit
	spirit.Volume = 0
	if !agrees {
		text += " The hydrometer says otherwise: find out which is right before you pour more."
	} else if f, err := blend.Repair(c.blend, spirit, c.base, b.Target.Value); err == nil {
		measured := spirit
		measured.Volume = f.Spirit
		if v, err := atTemperature(measured, b.cellar()); err == nil {
			text += fmt.Sprintf(" Pour %s more of %s.", b.Units.Volume(v), spirit.Name)
		}
	}
	j.find("target_missed", Stop, "%s", text)
}

// limited says what keeps the target from being reached, and what would do.
func (j *job) limited(l *blend.UnreachableError) {
	u := j.b.Units
	why := "no amount of this spirit makes it"
	switch stronger := j.c.base.Strength > j.b.Target.Value; {
	case stronger:
		why = "the " + j.c.base.Name + " is stronger than that without spirit"
	case l.Limit == blend.LimitStock:
		why = "there is not enough spirit"
	case l.Limit == blend.LimitVessel:
		why = "the vessel is too small for all of the wine and its spirit"
	}
	text := fmt.Sprintf("%s cannot be reached: %s; it comes to %s.", say.Strength(j.b.Target.Value), why, say.Strength(j.c.blend.Strength))
	var ways []string
	for _, c := range l.Changes {
		switch c.Quantity {
		case "volume":
			ways = append(ways, fmt.Sprintf("%s of %s instead of %s", u.Volume(units.Volume(c.To)), c.Component, u.Volume(units.Volume(c.From))))
		case "vessel":
			ways = append(ways, fmt.Sprintf("a vessel with room for %s", u.Volume(units.Volume(c.To))))
		case "strength":
			ways = append(ways, fmt.Sprintf("%s of %s", c.Component, say.Strength(units.Strength(c.To))))
		}
	}
	for i, w := range ways {
		text += [2]string{" It would do with ", ", or "}[min(i, 1)] + w
	}
	if len(ways) > 0 {
		text += "."
	}
	if l.Limit == blend.LimitVessel {
		text += ` Or fill the vessel and keep the rest: "fortify": "fill the vessel".`
	}
	j.find("target_missed", Stop, "%s", text)
}

// explained holds the reading of the rested blend against what was poured, and says
// whether they agree; where there is no reading, they do.
func (j *job) explained() (agrees bool, err error) {
	b, c := j.b, &j.c
	if !b.BlendReading.Known {
		return true, nil
	}
	h, t := b.hydrometer(), b.BlendTemperature.Or(b.cellar())
	is, err := h.CorrectIn(c.blend.Strength, b.BlendReading.Value, t)
	if err != nil {
		return false, inField("blend_reading", err)
	}
	of := func(q quantity) float64 {
		for _, k := range j.f.knows {
			if k.q == q {
				return k.standard
			}
		}
		return 0
	}
	reading := known(qStop, "", 0, b.BlendReading.Limit, ofHydrometer, "").standard
	e, err := blend.Explain(c.poured, c.spirit, is,
		blend.Uncertainty{Volume: units.Volume(j.f.wineVolume.Standard), Strength: units.Strength(j.f.wineStrength.Standard), Extract: units.Concentration(j.f.wineExtract.Standard)},
		blend.Uncertainty{Volume: units.Volume(of(qSpirit)), Strength: units.Strength(of(qSpiritStrength))}, gravity.SG(reading))
	if err != nil {
		return false, inField("blend_reading", err)
	}
	step := Step{Key: "check", Title: "Check the blend"}
	step.Figures = append(step.Figures, shown.Within("blend_gravity", "true gravity of the blend", float64(is), reading, 4, "SG"),
		mixed.Within("blend_gravity_expected", "gravity expected of what was poured", float64(c.blend.Gravity), j.f.gravity.Standard, 4, "SG"))
	if e.Agrees {
		step.Lines = append(step.Lines, "The reading agrees with what was poured, within their uncertainty. A hydrometer tells 1 % vol of the spirit by one to three points only: it cannot find a weak spirit.")
	} else {
		j.find("blend_reading", Warn, "The blend reads %s where %s was expected of what was poured: more than their uncertainty. Step \"%s\" says what would explain it.", say.Gravity(float64(is)), say.Gravity(float64(c.blend.Gravity)), step.Title)
		step.Lines = append(step.Lines, "Any one of these alone would explain the reading, the likeliest first:")
		for _, x := range e.Explanations[:min(3, len(e.Explanations))] {
			step.Lines = append(step.Lines, j.explain(x))
		}
		step.Lines = append(step.Lines, "A hydrometer tells 1 % vol of the spirit by one to three points only. Measure the blend itself before you trust one of them.")
	}
	j.plan.Steps = append(j.plan.Steps, step)
	return e.Agrees, nil
}

func (j *job) explain(x blend.Explanation) string {
	u := j.b.Units
	say2 := func(v float64) string {
		switch x.Quantity {
		case "volume":
			return u.Volume(units.Volume(v))
		case "strength":
			return say.Strength(units.Strength(v))
		}
		return say.Concentration(units.Concentration(v))
	}
	text := fmt.Sprintf("%s of %s %s instead of %s: the blend would have %s", x.Quantity, x.Component, say2(x.To), say2(x.From), say.Strength(x.Result.Strength))
	if j.b.Target.Known && j.b.SpiritStrength.Known {
		spirit := j.c.spirit
		spirit.Volume = 0
		weaker := j.c.base
		weaker.Volume = 0
		if f, err := blend.Repair(x.Result, spirit, weaker, j.b.Target.Value); err == nil && f.Spirit > 0.001*x.Result.Volume {
			what := spirit.Name
			if x.Result.Strength > j.b.Target.Value {
				what = "wine"
			}
			text += fmt.Sprintf("; %s of %s mend it", u.Volume(f.Spirit), what)
		}
	}
	return text + "."
}

func ferment(o stability.Outlook) string {
	if o == stability.Doubtful {
		return "yeast may ferment"
	}
	return "yeast will ferment"
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
