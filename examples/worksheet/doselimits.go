package main

import (
	"errors"
	"fmt"
	"strings"

	"example.org/mutage/additions/law"
	"example.org/mutage/blend/batch"
	"example.org/mutage/units"
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
	var told func(string, law.Finding)
	if d.is["jurisdiction"] {
		told = d.found
	}
	exceeded, err := exceeding(p, where, told)
	if unread := (*units.ParseError)(nil); errors.As(err, &unread) {
		return misread("jurisdiction", err)
	}
	if err != nil {
		return err
	}
	if len(exceeded) > 0 && !d.is["jurisdiction"] {
		d.stops = append(d.stops, batch.Finding{Key: "limit", Severity: batch.Warn, Text: aboveLimits(exceeded, category) + "; -jurisdiction says which limit and which text."})
	}
	return nil
}

// exceeding are those of the jurisdictions whose limits a product is above, or may
// be; each hears of every finding.
func exceeding(p law.Product, where []string, each func(where string, f law.Finding)) ([]string, error) {
	var exceeded []string
	for _, j := range where {
		r, err := law.Check(j, p)
		if err != nil {
			return nil, err
		}
		for _, f := range r.Findings {
			if each != nil {
				each(j, f)
			}
		}
		if len(r.Having(law.Exceeded, law.MayExceed)) > 0 {
			exceeded = append(exceeded, j)
		}
	}
	return exceeded, nil
}

// aboveLimits says whose limits are exceeded.
func aboveLimits(where []string, c law.Category) string {
	return "Above the limit for " + c.String() + " in: " + strings.Join(where, ", ") + ", or it may be"
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
