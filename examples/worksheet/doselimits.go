package main

import (
	"fmt"
	"slices"
	"strings"

	"example.org/mutage/additions/law"
	"example.org/mutage/blend/batch"
)

// theCategory is the product as the law divides them.
func (d *dosing) theCategory() (law.Category, error) {
	if d.category == "" {
		return law.FruitWine, nil
	}
	var known []string
	for _, c := range law.Categories() {
		if strings.EqualFold(strings.ReplaceAll(strings.TrimSpace(d.category), "_", " "), c.String()) {
			return c, nil
		}
		known = append(known, c.String())
	}
	return "", fmt.Errorf("%w: -category %q%s; there are: %s", errUsage, d.category, perhaps(d.category, known, "%q"), strings.Join(known, ", "))
}

// limits holds what is in the wine then against the law: of the jurisdiction that
// is stated, or of all, of which those are named that it does not keep.
func (d *dosing) limits() error {
	if len(d.levels) == 0 {
		if d.is["jurisdiction"] {
			return fmt.Errorf("%w: -jurisdiction does nothing here: the limits are of sulfite, sorbate and acid", errUsage)
		}
		return nil
	}
	category, err := d.theCategory()
	if err != nil {
		return err
	}
	where := law.Jurisdictions()
	if d.is["jurisdiction"] {
		where = []string{d.jurisdiction}
	}
	p := law.Product{Category: category, Levels: d.levels, Uncertainty: d.unsure, SugarHigh: d.wine.Extract}
	var exceeded []string
	for _, j := range where {
		r, err := law.Check(j, p)
		if err != nil {
			return fmt.Errorf("-jurisdiction: %w", err)
		}
		for _, f := range r.Findings {
			if d.is["jurisdiction"] {
				d.found(j, f)
			} else if (f.Outcome == law.Exceeded || f.Outcome == law.MayExceed) && !slices.Contains(exceeded, j) {
				exceeded = append(exceeded, j)
			}
		}
	}
	if len(exceeded) > 0 {
		d.stops = append(d.stops, batch.Finding{Key: "limit", Severity: batch.Warn, Text: "Above the limit for " + category.String() + " in: " + strings.Join(exceeded, ", ") + ", or it may be; -jurisdiction says which limit and which text."})
	}
	return nil
}

// found puts a finding of the law down, the grave ones first.
func (d *dosing) found(where string, f law.Finding) {
	g := batch.Finding{Key: f.Key, Severity: batch.Note, Text: strings.ToUpper(where) + ": " + f.String()}
	switch f.Severity() {
	case law.Stop:
		g.Severity = batch.Stop
	case law.Warn:
		g.Severity = batch.Warn
	}
	if f.Outcome == law.Exceeded || f.Outcome == law.MayExceed {
		d.stops = append(d.stops, g)
		return
	}
	d.sheet.Findings = append(d.sheet.Findings, g)
}
