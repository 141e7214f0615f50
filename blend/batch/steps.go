package batch

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/mutage/blend"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

var (
	fermentation = figure.Method{Method: "mass balance of the fermentation, must yield", Source: "C. J. N. Balling, Die Gaerungschemie (1865); " + density.SourceMixture}
	hydrometry   = figure.Method{Method: "density at the temperature of the sample, glass expansion", Source: density.SourceSucrose + "; ISO 1768"}
	sugaring     = figure.Method{Method: "balance of masses; cups by published weights", Source: "USDA National Nutrient Database; " + density.SourceSucrose}
	sulfiting    = figure.Method{Method: byFormula(molar.SO2OfMetabisulfite, "SO2"), Source: "FAO/WHO JECFA (53rd, 1999)"}
	sorbating    = figure.Method{Method: byFormula(molar.SorbicOfSorbate, "sorbic acid"), Source: "OIV Codex COEI-1-POTSOR"}
	acidifying   = figure.Method{Method: "titratable acidity by equivalents", Source: "molar masses"}
	guardBand    = figure.Method{Method: "the amount that makes the target 95 times in 100, by drawing the whole course", Source: "JCGM 101:2008; JCGM 106:2012, 8.3"}
	asStated     = figure.Method{Method: "as stated", Source: "the batch"}
	practice     = figure.Method{Method: "practice of the trade", Source: figure.CommonPractice}
	handRule     = figure.Method{Method: "alligation, volumes simply added", Source: figure.CommonPractice}
)

// byFormula is how a salt is weighed.
func byFormula(share float64, of string) string {
	return fmt.Sprintf("%.1f %% %s by formula, on the racked wine", 100*share, of)
}

// steps are what is to be done, in order of time.
func (j *job) steps() error {
	checked := j.plan.Steps // where a rested blend was read
	j.plan.Steps = nil
	for _, step := range []func() (*Step, error){j.sugarStep, j.watchStep, j.stopStep, j.rackStep, j.doseStep, j.pourStep, j.handStep, j.sureStep, j.keepStep, j.restStep, j.bottleStep, j.drinkStep} {
		s, err := step()
		if err != nil {
			return err
		}
		if s != nil {
			if s.Figures == nil {
				s.Figures = []units.Figure{}
			}
			if s.Lines == nil {
				s.Lines = []string{}
			}
			j.plan.Steps = append(j.plan.Steps, *s)
		}
	}
	if i := slices.IndexFunc(j.plan.Steps, func(s Step) bool { return s.Key == "watch" }); i >= 0 {
		if err := j.followed(j.plan.Steps[i:]); err != nil {
			return err
		}
	}
	i := slices.IndexFunc(j.plan.Steps, func(s Step) bool { return s.Key == "rest" || s.Key == "bottle" || s.Key == "drink" })
	j.plan.Steps = slices.Insert(j.plan.Steps, i, checked...)
	j.caution()
	return nil
}

// days after the start, where one is stated.
func (j *job) days(from, to float64) (a, z time.Time) {
	if j.b.Start.IsZero() {
		return a, z
	}
	at := func(d float64) time.Time {
		return j.b.Start.Add(time.Duration(d * 24 * float64(time.Hour))).Round(time.Hour)
	}
	return at(from), at(to)
}

func (j *job) step(key, title string, from, to float64) *Step {
	s := &Step{Key: key, Title: title}
	s.From, s.To = j.days(from, to)
	s.Usual = to > from && !s.From.IsZero()
	return s
}

// Days after the start by which a sweet fruit wine is usually at each step, common
// practice, no source: the log decides, not the calendar.
const (
	stopDays, stopDaysLate   = 3.0, 14.0
	clearDays, clearDaysLate = 5.0, 21.0
	restDaysLate             = 28.0
	woodFirst, woodLate      = 7.0, 90.0
)

// cellared is a volume figure as the cellar measures it, as sure as the volume at
// 20 C.
func (j *job) cellared(key, name string, c blend.Component, at20 uncertainty.Result) (units.Figure, error) {
	v, err := atTemperature(c, j.b.cellar())
	return atCellar.Like(at20, key, name, float64(v), 4, "L"), inField("cellar_temperature", err)
}

// roomLeft is what a volume leaves of the vessel to its brim, the wood taken off,
// and whether there is a vessel. Below nothing it overflows.
func (j *job) roomLeft(v units.Volume) (units.Volume, bool) {
	return j.d.room + j.b.Headspace.Value - v, j.d.room > 0
}

// leaves says it, for a note.
func (j *job) leaves(v units.Volume) string {
	left, is := j.roomLeft(v)
	switch {
	case !is:
		return ""
	case math.Abs(float64(left)) < 1e-3*float64(v):
		return "the jar is full"
	case left < 0:
		return j.b.Units.Volume(-left) + " too much for the jar"
	}
	return j.b.Units.Volume(left) + " left of " + j.b.Units.Volume(j.b.Vessel.Value) + " jar"
}
