package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// dosing is what "dose" was asked, and what comes of it.
type dosing struct {
	form                                         sheet.Form
	is                                           map[string]bool
	volume                                       units.Volume
	liquid, salt, acidName, carbonate, sweetener string
	sulfite, sorbate, raise, lower, sugar        measure
	tablet                                       units.Mass
	solution, soIn, sorbicIn, free, freeTo       units.Concentration
	molecular, extractTo                         units.Concentration
	purity, pH                                   number
	from, to                                     gravity.SG
	tasted, jurisdiction, category               string

	wine   blend.Poured // of -wine
	sheet  sheet.Sheet
	weigh  []string // of the first line
	pour   []string
	comes  []string
	stops  []batch.Finding
	levels law.Levels
	unsure law.Levels                   // standard uncertainties of levels
	spoon  map[law.Parameter]units.Mass // standard uncertainty of what a spoon holds
}

// The flags that ask for something, and those that go with each.
var doses = []struct {
	name string
	with []string
	do   func(*dosing) error
}{
	{"sulfite", []string{"salt", "purity", "tablet", "solution", "ph"}, (*dosing).doseSulfite},
	{"free-to", []string{"salt", "purity", "tablet", "solution", "ph", "free"}, (*dosing).doseFree},
	{"molecular", []string{"salt", "purity", "tablet", "solution", "ph", "free"}, (*dosing).doseFree},
	{"sorbate", nil, (*dosing).doseSorbate},
	{"raise-acid", []string{"acid"}, (*dosing).raiseAcid},
	{"lower-acid", []string{"carbonate"}, (*dosing).lowerAcid},
	{"to", []string{"from", "sweetener"}, (*dosing).raiseGravity},
	{"extract-to", []string{"sweetener"}, (*dosing).raiseExtract},
	{"sugar", []string{"from", "sweetener"}, (*dosing).addSugar},
	{"tasted", nil, (*dosing).scaleTrial},
}

func (d *dosing) flags(set *flag.FlagSet) {
	set.Var(&d.volume, "volume", "of the must or wine")
	set.StringVar(&d.liquid, "wine", "", `what is in it, where that counts: "at 13 % vol with 20 g/L"`)
	set.Var(&d.sulfite, "sulfite", `SO2 to add, "50 mg/L"; or what went in: "0.5 g", "1/4 tsp", "2 tablets", "5 mL" of a -solution`)
	set.StringVar(&d.salt, "salt", "", "potassium metabisulfite, sodium metabisulfite or potassium bisulfite; unless stated the first")
	set.Var(numberWithin(&d.purity, 0.5, 1), "purity", "of the salt, 0.5 to 1: an old or damp one is less")
	set.Var(&d.tablet, "tablet", `salt in one tablet, by its label: "0.44 g"`)
	set.Var(&d.solution, "solution", `SO2 in a litre of your solution, "50 g/L" for 5 %`)
	set.Var(&d.freeTo, "free-to", `free SO2 wanted: "30 mg/L" (with -free)`)
	set.Var(&d.free, "free", `free SO2 measured now: "10 mg/L"`)
	set.Var(&d.molecular, "molecular", `molecular SO2 wanted: "0.6 mg/L" (with -ph)`)
	set.Var(numberWithin(&d.pH, 2.5, 4.5), "ph", "of the wine: what part of the SO2 then works")
	set.Var(&d.soIn, "so2-in", `total SO2 that is in it already: "60 mg/L"`)
	set.Var(&d.sorbate, "sorbate", `sorbic acid to add, "200 mg/L"; or what went in: "0.8 g", "1/4 tsp"`)
	set.Var(&d.sorbicIn, "sorbic-in", `sorbic acid that is in it already: "100 mg/L"`)
	set.Var(&d.raise, "raise-acid", `titratable acidity to add, "1 g/L" as tartaric; or what went in: "4 g" (with -acid)`)
	set.StringVar(&d.acidName, "acid", "", `tartaric, malic, citric, lactic, or a blend: "50 % tartaric, 30 % malic, 20 % citric"`)
	set.Var(&d.lower, "lower-acid", `titratable acidity to take away, "1 g/L"; or what went in: "3 g" (with -carbonate)`)
	set.StringVar(&d.carbonate, "carbonate", "", "potassium bicarbonate, potassium carbonate or calcium carbonate")
	set.Var(&d.from, "from", "gravity of the must")
	set.Var(&d.to, "to", "gravity wanted (with -from)")
	set.Var(&d.extractTo, "extract-to", `extract wanted in a wine: "100 g/L" (with -wine)`)
	set.Var(&d.sugar, "sugar", `what went in: "500 g", "2 cups" (with -from or -wine)`)
	set.StringVar(&d.sweetener, "sweetener", "", "sugar, honey, dextrose, syrup of 65 Bx; unless stated sugar")
	set.StringVar(&d.tasted, "tasted", "", `a trial that tasted right: "0.2 g tartaric acid in 100 mL"`)
	set.StringVar(&d.jurisdiction, "jurisdiction", "", "whose limits count: "+strings.Join(law.Jurisdictions(), ", ")+"; unless stated all are looked at")
	set.StringVar(&d.category, "category", "", "of the product; unless stated fruit wine")
}

// dose is what to weigh and spoon for the levels wanted, and what an amount that
// went in comes to.
func dose(set *flag.FlagSet, args []string, out io.Writer) error {
	d := dosing{purity: 1, levels: law.Levels{}, unsure: law.Levels{}, spoon: map[law.Parameter]units.Mass{}, sheet: sheet.Sheet{Title: "Dose"}}
	d.flags(set)
	rest, is, err := parseSheet(&d.form, set, args)
	if err != nil {
		return err
	}
	d.is = is
	if len(rest) > 0 {
		return fmt.Errorf("%w: dose takes flags only, found %q", errUsage, rest[0])
	}
	if err := d.understood(); err != nil {
		return err
	}
	for _, k := range doses {
		if !is[k.name] {
			continue
		}
		if err := k.do(&d); err != nil {
			return d.form.System.Error(err)
		}
	}
	if err := d.limits(); err != nil {
		return err
	}
	d.answer()
	return d.form.Print(d.sheet, out)
}

// understood refuses what is not asked, asked twice, or does not go together.
func (d *dosing) understood() error {
	var asked []string
	with := map[string][]string{}
	for _, k := range doses {
		if d.is[k.name] {
			asked = append(asked, k.name)
		}
		for _, w := range k.with {
			with[w] = append(with[w], k.name)
		}
	}
	if d.volume == 0 || len(asked) == 0 {
		return fmt.Errorf("%w: dose -volume \"3 L\" and what is wanted: -sulfite, -free-to, -molecular, -sorbate, -raise-acid, -lower-acid, -to, -extract-to, -sugar or -tasted", errUsage)
	}
	checks := []error{oneOf(d.is, "sulfite", "free-to", "molecular"), oneOf(d.is, "raise-acid", "lower-acid"), oneOf(d.is, "to", "extract-to", "sugar"), oneOf(d.is, "from", "extract-to"), oneOf(d.is, "from", "wine"),
		oneOf(d.is, "tablet", "solution"), oneOf(d.is, "solution", "salt"), oneOf(d.is, "solution", "purity"),
		goesWith(d.is, "to", "from"), goesWith(d.is, "extract-to", "wine"), goesWith(d.is, "sugar", "from", "wine"), goesWith(d.is, "molecular", "ph"), goesWith(d.is, "free-to", "free"),
		goesWith(d.is, "wine", "extract-to", "sugar", "tasted"), goesWith(d.is, "so2-in", "sulfite", "free-to", "molecular"), goesWith(d.is, "sorbic-in", "sorbate"),
		goesWith(d.is, "category", "jurisdiction"), goesWith(d.is, "jurisdiction", "sulfite", "free-to", "molecular", "sorbate", "raise-acid", "lower-acid", "tasted")}
	for w, names := range with {
		checks = append(checks, goesWith(d.is, w, names...))
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return d.named()
}

// named reads what is named: the wine and the sweetener.
func (d *dosing) named() error {
	if d.is["wine"] {
		text := d.liquid
		if !strings.Contains(" "+text, " at ") && !strings.HasPrefix(strings.TrimSpace(text), "with ") {
			text = "at " + text
		}
		w, err := blend.ParsePoured(text)
		if err != nil {
			return misread("wine", err)
		}
		if w.ExtractNotKnown {
			return fmt.Errorf("%w: -wine %q: its extract is not stated: \"at 13 %% vol with 20 g/L\"", errUsage, d.liquid)
		}
		w.Volume = d.volume
		d.wine = w
	}
	if d.is["acid"] {
		if _, err := acid.ParseBlend(d.acidName); err != nil {
			return misread("acid", err)
		}
	}
	_, err := sugar.ParseSweetener(d.sweetener)
	return misread("sweetener", err)
}

// answer is the first lines: what must not be, then what to weigh.
func (d *dosing) answer() {
	for _, f := range d.stops {
		d.sheet.Answer = append(d.sheet.Answer, f.Text)
		d.sheet.Findings = append(d.sheet.Findings, f)
	}
	if len(d.weigh) > 0 {
		d.sheet.Answer = append(d.sheet.Answer, "For "+d.form.System.Volume(d.volume)+" weigh "+strings.Join(d.weigh, " and ")+".")
	}
	if len(d.pour) > 0 {
		d.sheet.Answer = append(d.sheet.Answer, "For "+d.form.System.Volume(d.volume)+" measure "+strings.Join(d.pour, " and ")+".")
	}
	for _, c := range d.comes {
		d.sheet.Answer = append(d.sheet.Answer, "In "+d.form.System.Volume(d.volume)+" "+c+".")
	}
}

// slip puts a stop down where a dose is a slip of the unit, and a warning where
// it is more acid or carbonate than is dosed at once: of the others the limits tell.
func (d *dosing) slip(what additions.Addition, level units.Concentration) error {
	o, far, err := additions.FarAboveUsual(what, level)
	severity := batch.Stop
	if err == nil && !far && (what == additions.AddedAcid || what == additions.AddedCarbonate) {
		severity = batch.Warn
		o, far, err = what.AboveUsual(level)
	}
	if err == nil && far {
		d.stops = append(d.stops, batch.Finding{Key: o.Key, Severity: severity, Text: o.Text})
	}
	return err
}

// cautions of a dose, the leading ones unless all are asked for.
func (d *dosing) cautions(w law.What) (lines []string) {
	for _, c := range law.At(law.Cautions(w), law.StepDose, law.StepGive) {
		if (c.Lead || d.form.Details) && c.Key != "unknown_law" {
			lines = append(lines, c.String())
		}
	}
	return lines
}

// spoons are the lines on how to measure a powder.
func (d *dosing) spoons(name string, what additions.Substance, m units.Mass) []string {
	s, err := additions.Spoons(what, m)
	if err != nil {
		return nil
	}
	line := strings.ToUpper(name[:1]) + name[1:] + ": " + s.String() + "."
	if s.Printed > 0 {
		line = fmt.Sprintf("%s%s: level %s, which may hold %s to %s.", strings.ToUpper(name[:1]), name[1:], s, d.form.System.Mass(s.Low), d.form.System.Mass(s.High))
		if s.UseScale {
			line += " Use a scale."
		}
	}
	return []string{line}
}

// ofSpoon is what a level spoon holds by the published weights, between its ends,
// within which the level of q is known.
func (d *dosing) ofSpoon(what additions.Substance, q law.Parameter, v units.Volume) (m units.Mass, between string, err error) {
	if m, err = additions.Weigh(what, v); err != nil {
		return 0, "", err
	}
	if s, err := additions.Spoons(what, m); err == nil && s.Printed > 0 {
		d.spoon[q] = units.Mass(uncertainty.LimitInput("", float64(m), float64(max(s.High-m, m-s.Low))).Standard)
		between = fmt.Sprintf(" (a spoon may hold %s to %s)", d.form.System.Mass(s.Low), d.form.System.Mass(s.High))
	}
	return m, between, nil
}
