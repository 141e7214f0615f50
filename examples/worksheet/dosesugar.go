package main

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// theSweetener is the one that -sweetener names.
func (d *dosing) theSweetener() (sugar.Sweetener, error) { return sugar.ParseSweetener(d.sweetener) }

// mustOrWine is what is sweetened.
func (d *dosing) mustOrWine() (abv.Composition, error) {
	if d.is["wine"] {
		return abv.Compose(d.wine.Strength, d.wine.Extract)
	}
	if d.from < 1 {
		return abv.Composition{}, fmt.Errorf("-from %v: below 1 it holds alcohol, and the gravity alone does not say how sweet it is: use -wine \"at 13 %% vol with 20 g/L\" with -extract-to or -sugar", d.from)
	}
	extract, err := d.from.Extract()
	if err != nil {
		return abv.Composition{}, err
	}
	return abv.Compose(0, extract)
}

func (d *dosing) raiseGravity() error {
	s, err := d.theSweetener()
	if err != nil {
		return err
	}
	if _, err := d.mustOrWine(); err != nil {
		return err
	}
	if d.to < d.from {
		return fmt.Errorf("-to %v is below -from %v: swapped? Sugar only raises the gravity", d.to, d.from)
	}
	a, err := sugar.RaiseGravityWith(s, d.from, d.to, d.volume)
	if err != nil {
		return err
	}
	return d.sweetened(a, s, true)
}

// sweetenerAndWine are what is added, and what to.
func (d *dosing) sweetenerAndWine() (s sugar.Sweetener, w abv.Composition, err error) {
	if s, err = d.theSweetener(); err == nil {
		w, err = d.mustOrWine()
	}
	return s, w, err
}

func (d *dosing) raiseExtract() error {
	s, w, err := d.sweetenerAndWine()
	if err != nil {
		return err
	}
	a, err := sugar.RaiseExtract(w, d.extractTo, d.volume, s)
	if err != nil {
		return err
	}
	return d.sweetened(a, s, true)
}

func (d *dosing) addSugar() error {
	s, w, err := d.sweetenerAndWine()
	if err != nil {
		return err
	}
	m := d.sugar.mass
	if m == 0 {
		if m, err = s.ParseMass(d.sugar.text); err != nil {
			return misread("sugar", err)
		}
	}
	a, err := sugar.Sweeten(w, d.volume, s, m)
	if err != nil {
		return err
	}
	return d.sweetened(a, s, false)
}

// sweetened is what is the same for every sweetening.
func (d *dosing) sweetened(a sugar.Addition, s sugar.Sweetener, weigh bool) error {
	all := a.Figures()
	figures := []units.Figure{as(one(all, "sugar_dose"), "sugar", s.Name), as(one(all, "volume"), "volume_after", "it then fills, at 20 C"),
		as(one(all, "gravity"), "gravity_after", "gravity then"), as(one(all, "extract"), "extract_after", "extract then")}
	if a.After.Strength > 0 {
		figures = append(figures, as(one(all, "strength"), "strength_after", "strength then"))
	}
	var lines []string
	if of, known := s.Household(); known {
		lines = d.spoons(s.Name, of, a.Sugar)
	}
	if a.After.Strength > 0 {
		lines = append(lines, "Sweetened wine ferments again unless something holds it: worksheet plan judges that.")
	}
	if weigh {
		d.weigh = append(d.weigh, d.form.System.Mass(a.Sugar)+" of "+s.Name)
	} else {
		d.comes = append(d.comes, fmt.Sprintf("%s of %s makes %s of gravity %s with %s of extract", d.sugar.text, s.Name, d.form.System.Volume(a.Volume), say.Gravity(float64(a.After.Gravity)), say.Concentration(a.After.Extract)))
	}
	d.sheet.Add("sugar", "Sugar", figures, lines...)
	return nil
}
