package batch

import (
	"fmt"
	"slices"
	"strings"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/fault"
	"example.org/mutage/units"
)

// A ConflictError says that fields of a batch contradict each other, or that one of
// them is needed.
type ConflictError struct {
	Fields []string
	Why    string
}

// Error names the fields, then says why.
func (e *ConflictError) Error() string {
	names := e.Fields
	if last := len(names) - 1; last > 1 {
		names = []string{strings.Join(names[:last], ", "), names[last]}
	}
	return strings.Join(names, " and ") + ": " + e.Why
}

// contradictions names every pair of fields that cannot both be so, and every
// field that would say nothing without another: none is left out in silence.
func (b *Batch) contradictions() error {
	var faults []error
	conflict := func(is bool, why string, names ...string) {
		if is {
			faults = append(faults, &ConflictError{names, why})
		}
	}
	b.startConflicts(conflict)
	b.stopConflicts(conflict)
	b.pourConflicts(conflict)
	stated := map[string]bool{}
	for _, f := range fields {
		stated[f.Name] = len(f.get(b)) > 0
	}
	for _, n := range needs {
		beside := slices.ContainsFunc(n.one, func(other string) bool { return stated[other] })
		conflict(stated[n.field] && !beside, n.why, append([]string{n.field}, n.one...)...)
	}
	for _, r := range rivals {
		for _, name := range r.names {
			conflict(stated[r.field] && stated[name], r.why, r.field, name)
		}
	}
	return fault.Join(faults...)
}

// needs are the fields that say something only beside one of others.
var needs = []struct {
	field, why string
	one        []string
}{
	{"target", "how strong is the spirit?", []string{"spirit_strength"}},
	{"spirit_planned", "how strong is the spirit?", []string{"spirit_strength"}},
	{"spirit_poured", "how strong is the spirit?", []string{"spirit_strength"}},
	{"spirit_stock", "what is the spirit at hand to make?", []string{"target"}},
	{"spirit_price", "how strong is the spirit?", []string{"spirit_strength"}},
	{"spirit_sugar", "how strong is the spirit?", []string{"spirit_strength"}},
	{"target_sugar", "to which strength? sweetener and spirit are found together", []string{"target"}},
	{"sweetener", "how sweet is the blend to be?", []string{"target_sugar"}},
	{"blend_volume", "a blend of which strength?", []string{"target"}},
	{"headspace", "the head space of which vessel?", []string{"vessel"}},
	{"blend_reading", "how much spirit went in?", []string{"spirit_poured"}},
	{"stop_temperature", "the temperature of which reading?", []string{"stop_reading"}},
	{"racked_temperature", "the temperature of which reading or volume?", []string{"racked_reading", "racked"}},
	{"blend_temperature", "the temperature of which reading?", []string{"blend_reading"}},
}

// rivals are the fields of which one leaves no room for the others.
var rivals = []struct {
	field, why string
	names      []string
}{
	{"wine", "a batch starts from must or from a finished wine; leave one out", []string{"must"}},
	{"wine", "a finished wine has its must, its ferment and its racking behind it; leave one out", []string{"must_reading", "must_temperature", "original_reading", "juice_label",
		"sugar", "gravity_wanted", "stop_at", "stop_from", "stop_to", "stop_least_sugar", "lees", "stop_reading", "racked_reading", "racked", "readings"}},
	{"must", "this one is of a finished wine; leave one out", []string{"wine_strength", "wine_reading", "wine_refractometer", "wine_boiled", "wine_temperature"}},
	{"wine_strength", "one of them says how strong the wine is; leave one out", []string{"wine_refractometer", "wine_boiled"}},
	{"wine_refractometer", "one of them says how strong the wine is; leave one out", []string{"wine_boiled"}},
	{"fruit", "one of them says how much is not sugar; leave one out", []string{"not_sugar"}},
	{"must_reading", "one of them says how sweet the juice is; leave one out", []string{"juice_label"}},
	{"original_reading", "the reading with the sugar in is what it is; leave one out", []string{"gravity_wanted", "juice_label"}},
	{"sugar", "one says how much sugar, the other how much to reach; leave one out", []string{"gravity_wanted"}},
}

type conflicts func(is bool, why string, names ...string)

func (b *Batch) startConflicts(conflict conflicts) {
	conflict(!b.Must.Known() && !b.Wine.Known(), "one of them is needed: how much is there?", "must", "wine")
	label := b.JuiceLabel != (Label{})
	if b.Must.Known() {
		conflict(!b.MustReading.Known && !b.OriginalReading.Known && !label, "one of them is needed: how much sugar does the must hold?", "must_reading", "original_reading", "juice_label")
		conflict(b.OriginalReading.Known && b.MustReading.Known && b.OriginalReading.Value < b.MustReading.Value, "the reading with the sugar in is below the one without", "original_reading", "must_reading")
		window := b.StopFrom.Known && b.StopTo.Known
		conflict(!b.StopAt.Known && !window && !b.StopReading.Known && !b.RackedReading.Known && !b.LeastSugar.Known,
			"one of them is needed, or stop_from and stop_to: where does the fermentation stop?", "stop_at", "stop_reading", "least_sugar")
	}
	if b.Wine.Known() {
		conflict(!b.WineStrength.Known && !b.WineRefractometer.Known && !b.WineBoiled.Known, "one of them is needed: how strong is the wine?", "wine_strength", "wine_refractometer", "wine_boiled")
		conflict(!b.WineReading.Known, "how dense is the wine? without it its extract is not known", "wine_reading")
	}
	for i := 1; i < len(b.Readings); i++ {
		conflict(!b.Readings[i].Time.After(b.Readings[i-1].Time), fmt.Sprintf("reading %d is not after reading %d", i+1, i), "readings")
	}
}

func (b *Batch) stopConflicts(conflict conflicts) {
	conflict(b.StopAt.Known && b.StopFrom.Known && b.StopAt.Value < b.StopFrom.Value, "the aim lies before the window", "stop_at", "stop_from")
	conflict(b.StopAt.Known && b.StopTo.Known && b.StopAt.Value > b.StopTo.Value, "the aim lies behind the window", "stop_at", "stop_to")
	conflict(b.StopFrom.Known && b.StopTo.Known && b.StopFrom.Value > b.StopTo.Value, "the window ends before it begins", "stop_from", "stop_to")
	conflict(b.notFermented() && len(b.Readings) > 0, "juice that never ferments (0 % vol) has no readings to follow; leave one out", "stop_at", "readings")
	for _, r := range []struct {
		name string
		of   Stated[gravity.SG]
	}{{"stop_reading", b.StopReading}, {"racked_reading", b.RackedReading}} {
		conflict(b.notFermented() && r.of.Known, "juice that never ferments (0 % vol) is not stopped; leave one out", "stop_at", r.name)
	}
}

func (b *Batch) pourConflicts(conflict conflicts) {
	conflict(b.Fortify == fillVessel && !b.Vessel.Known, "which vessel?", "fortify", "vessel")
	conflict(b.Fortify == fillVessel && !b.Target.Known, "fill it to which strength?", "fortify", "target")
	conflict(b.Fortify == fillVessel && b.BlendVolume.Known, "fill the vessel or make this volume; leave one out", "fortify", "blend_volume")
	conflict(b.Vessel.Known && b.Headspace.Known && b.Headspace.Value >= b.Vessel.Value, "the head space takes the whole vessel", "headspace", "vessel")
	conflict(b.TargetSugar.Known && b.LeastSugar.Known && b.TargetSugar.Value < b.LeastSugar.Value, "the sugar wanted is below the least", "target_sugar", "least_sugar")
}

// check refuses what no cellar has, naming the field.
func (b *Batch) check() error {
	var faults []error
	within := func(name string, known bool, x, lo, hi float64, unit string) {
		if known {
			if err := units.CheckOf(name, strings.ReplaceAll(name, "_", " "), x, lo, hi, unit, "a bound against mistyping"); err != nil {
				faults = append(faults, err)
			}
		}
	}
	for _, t := range []struct {
		name string
		at   Stated[units.Temperature]
		lo   float64
		hi   float64
	}{{"must_temperature", b.MustTemperature, 0, 50}, {"hydrometer", b.Hydrometer, 4, 30}, {"cellar_temperature", b.CellarTemperature, 0, 40},
		{"wine_temperature", b.WineTemperature, 0, 40}, {"stop_temperature", b.StopTemperature, 0, 40}, {"racked_temperature", b.RackedTemperature, 0, 40},
		{"blend_temperature", b.BlendTemperature, 0, 40}, {"kept_temperature", b.KeptTemperature, -20, 40}} {
		within(t.name, t.at.Known, t.at.Value.Celsius(), t.lo, t.hi, "C")
	}
	for _, a := range []struct {
		name  string
		of    Amount
		least float64
	}{{"must", b.Must, 1e-3}, {"wine", b.Wine, 1e-3}, {"racked", b.Racked, 1e-3}, {"wine_poured", b.PouredWine, 1e-3},
		{"spirit_planned", b.SpiritPlanned, 0}, {"spirit_stock", b.SpiritStock, 0}, {"spirit_poured", b.PouredSpirit, 0}} {
		x, limit, unit := float64(a.of.Volume.Value), a.of.Volume.Limit, "L"
		if a.of.Mass.Known {
			x, limit, unit = float64(a.of.Mass.Value), a.of.Mass.Limit, "g"
		}
		within(a.name, a.of.Known(), x, a.least, 1e9, unit)
		within("limits of "+a.name, a.of.Known() && limit > 0, limit, 0, x/2, unit)
	}
	within("start", !b.Start.IsZero(), float64(b.Start.Year()), 1900, 2200, "")
	within("ph", b.PH.Known, b.PH.Value, 2.5, 4.5, "")
	within("yeast_limit", b.YeastLimit.Known, float64(b.YeastLimit.Value), 1, 25, "% vol")
	within("spirit_price", b.SpiritPrice.Known, b.SpiritPrice.Value, 0, 1e6, "a litre")
	if len(b.Bottles) > 20 {
		faults = append(faults, fmt.Errorf("bottles: %d sizes, 20 at the most", len(b.Bottles)))
	}
	return fault.Join(append([]error{b.contradictions()}, faults...)...)
}
