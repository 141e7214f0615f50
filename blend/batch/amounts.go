package batch

import (
	"errors"
	"fmt"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// pour settles how much of wine, sweetener and spirit go together.
func (b *Batch) pour(d *decision) error {
	if b.PouredSpirit.Known() {
		return nil
	}
	if !b.Target.Known {
		d.v[qSpirit] = d.v[qPlanned]
		return nil
	}
	if b.TargetSugar.Known {
		if err := b.sugarToReach(&d.v, func(v *values) error { return b.amounts(d, v) }); err != nil {
			return err
		}
	}
	return b.amounts(d, &d.v)
}

// amounts sets the wine and the spirit that reach the target, or come nearest to
// it, and notes in d what keeps them from it.
func (b *Batch) amounts(d *decision, v *values) error {
	if !b.PouredWine.Known() {
		v[qWinePoured] = 0
	}
	v[qSpirit], d.limit, d.wanted = 0, nil, nil
	c, err := b.run(v)
	if err != nil {
		return err
	}
	grown := float64(c.poured.Volume / c.unsweet) // by its sweetener
	base, other := c.poured, c.spirit
	other.Volume = 0
	if err := b.fit(d, base, other); err != nil {
		return err
	}
	total := b.BlendVolume.Value
	if b.Fortify == fillVessel || d.fits > 0 && base.Volume > d.fits {
		total = d.fits
	}
	pour := func(other blend.Component) (blend.Fortification, error) {
		if total > 0 {
			return blend.FortifyTo(total, base, other, b.Target.Value)
		}
		return blend.Fortify(base, other, b.Target.Value)
	}
	set := func(v *values, wine, spirit units.Volume) error {
		return b.set(v, c.base, total, wine/units.Volume(grown), spirit)
	}
	free, err := pour(other)
	var lacks *blend.UnreachableError
	switch {
	case errors.As(err, &lacks) && total > 0 && lacks.Limit == blend.LimitStock:
		// Too little wine to fill it: all of it goes in.
		total = 0
		if free, err = pour(other); err != nil {
			break
		}
		fallthrough
	case err == nil:
		wanted := *v
		if err := set(&wanted, free.Base, free.Spirit); err != nil {
			return err
		}
		d.wanted = &wanted
	}
	if err != nil && !errors.As(err, &d.limit) {
		return inField("target", err)
	}
	if d.limit != nil {
		spirit, err := b.meant(c.spirit, base, v)
		if err != nil {
			return err
		}
		if total == 0 && d.fits > 0 && base.Volume+spirit > d.fits {
			total = d.fits
		}
		if total == 0 {
			return set(v, base.Volume, spirit)
		}
		spirit = min(spirit, total)
		wine := min(base.Volume, total)
		if spirit > 0 { // what the warmth of the cellar does to the two is not that of either
			wine = min(wine, max(0, total*(1-1e-3)-spirit))
		}
		return set(v, wine, spirit)
	}
	return b.withinLimits(d, v, base, c.spirit, free, total, set)
}

// meant is the spirit that is poured where nothing reaches the target: what was
// meant, as far as there is any, and none on a wine that is too strong without it.
func (b *Batch) meant(spirit, base blend.Component, v *values) (units.Volume, error) {
	meant := units.Volume(v[qPlanned])
	if base.Strength > b.Target.Value {
		return 0, nil
	}
	if b.SpiritStock.Known() {
		stock, err := b.stock(spirit)
		return min(meant, stock), inField("spirit_stock", err)
	}
	return meant, nil
}

// set notes the spirit, and the wine as the cellar measures it where not all of it
// is poured.
func (b *Batch) set(v *values, plain blend.Component, total, wine, spirit units.Volume) error {
	v[qSpirit] = float64(spirit)
	if total == 0 {
		return nil
	}
	plain.Volume = wine
	measured, err := atTemperature(plain, b.cellar())
	v[qWinePoured] = float64(measured)
	return err
}

// fit is what the vessel takes of the blend, at 20 C: the blend fills it at the
// temperature of the cellar.
func (b *Batch) fit(d *decision, base, other blend.Component) error {
	if d.room <= 0 {
		return nil
	}
	like := base
	if f, err := blend.Fortify(base, other, b.Target.Value); err == nil {
		like.Strength, like.Extract = f.Result.Strength, f.Result.Extract
	}
	like.Volume = d.room
	measured, err := atTemperature(like, b.cellar())
	if err != nil {
		return inField("cellar_temperature", err)
	}
	d.fits = d.room * d.room / measured
	return nil
}

// noSpirit is the part of what is needed that stands for none: the solver takes a
// stock of nothing for one that is not limited.
const noSpirit = 1e-9

// stock is the stated stock of the spirit at 20 C.
func (b *Batch) stock(spirit blend.Component) (units.Volume, error) {
	x := float64(b.SpiritStock.Volume.Value)
	if b.SpiritStock.Mass.Known {
		x = float64(b.SpiritStock.Mass.Value)
	}
	return at20(spirit, b.SpiritStock, x, b.cellar())
}

// withinLimits pours what the target takes, or what stock and vessel leave of it.
func (b *Batch) withinLimits(d *decision, v *values, base, spirit blend.Component, free blend.Fortification, total units.Volume,
	set func(*values, units.Volume, units.Volume) error) error {
	if b.SpiritStock.Known() {
		stock, err := b.stock(spirit)
		if err != nil {
			return inField("spirit_stock", err)
		}
		spirit.Volume = stock
		if stock == 0 { // none at hand, which is not the same as not stated
			none := spirit
			none.Volume = noSpirit * free.Spirit
			if total > 0 {
				_, err = blend.FortifyTo(total, base, none, b.Target.Value)
			} else {
				_, err = blend.Fortify(base, none, b.Target.Value)
			}
			if errors.As(err, &d.limit) {
				wine := base.Volume
				if total > 0 {
					wine = min(wine, total)
				}
				return set(v, wine, 0)
			}
		}
	}
	f, err := free, error(nil)
	switch {
	case total > 0 && spirit.Volume > 0 && free.Spirit > spirit.Volume:
		// Too little spirit to fill it: all of it on the wine that it strengthens.
		f, err = blend.FortifyTo(total, base, spirit, b.Target.Value)
	case total == 0 && d.fits > 0:
		f, err = blend.FortifyIn(blend.Vessel{Size: d.fits}, base, spirit, b.Target.Value)
	case total == 0 && spirit.Volume > 0:
		f, err = blend.Fortify(base, spirit, b.Target.Value)
	}
	if errors.As(err, &d.limit) {
		if len(d.limit.Volumes) != 2 {
			return fmt.Errorf("target: %w", err)
		}
		return set(v, d.limit.Volumes[0], d.limit.Volumes[1])
	}
	if err != nil {
		return inField("target", err)
	}
	return set(v, f.Base, f.Spirit)
}

// atTemperature is the volume at t of what has c.Volume at 20 C.
func atTemperature(c blend.Component, t units.Temperature) (units.Volume, error) {
	litre := c
	litre.Volume = 1
	at, err := litre.MeasuredAt(t)
	if err != nil {
		return 0, err
	}
	return c.Volume / at.Volume, nil
}
