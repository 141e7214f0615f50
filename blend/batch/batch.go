package batch

import (
	"time"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// A Stated is a quantity as somebody wrote it down. The zero Stated is not
// stated, which is not zero: Is(0) is.
type Stated[T ~float64] struct {
	Value T
	// Limit is how far the truth may be from Value, 19 times in 20, in the base
	// unit; zero where no limits were stated.
	Limit float64
	Known bool
}

// Is is a quantity without limits.
func Is[T ~float64](x T) Stated[T] { return Stated[T]{Value: x, Known: true} }

// Within is a quantity that lies within limit of x 19 times in 20, in its base
// unit.
func Within[T ~float64](x T, limit float64) Stated[T] { return Stated[T]{x, limit, true} }

// Or is the value, or another where it was not stated.
func (s Stated[T]) Or(other T) T {
	if s.Known {
		return s.Value
	}
	return other
}

// An Amount is a liquid by volume, as measured at its temperature, or by weight.
type Amount struct {
	Volume Stated[units.Volume]
	Mass   Stated[units.Mass]
}

// Litres is an amount by volume.
func Litres(v units.Volume) Amount { return Amount{Volume: Is(v)} }

// Grams is an amount by weight.
func Grams(m units.Mass) Amount { return Amount{Mass: Is(m)} }

// Known says whether an amount was stated.
func (a Amount) Known() bool { return a.Volume.Known || a.Mass.Known }

// A Portion is a sweetener that goes into the must, and when. Days after the
// start; zero is at the start.
type Portion struct {
	Sweetener sugar.Sweetener
	Mass      Stated[units.Mass]
	Days      float64
}

// A Label is the sugar that a juice's label states: so much in so much.
type Label struct {
	Sugar units.Mass
	In    units.Volume
}

// System is the units of a cellar in words: Metric, US or Imperial.
type System = say.System

// The systems.
const (
	Metric   = say.Metric
	US       = say.US
	Imperial = say.Imperial
)

// A Batch is a whole batch, from the must or a finished wine to the bottle: what
// the cellar hand writes down. What is not stated is its zero value. Fields says
// what each is, and how it is written in a file.
type Batch struct {
	Name  string
	Units System // of the words of the plan
	Start time.Time

	// Where it starts.
	Must            Amount
	MustReading     Stated[gravity.SG]
	MustTemperature Stated[units.Temperature]
	Hydrometer      Stated[units.Temperature]
	OriginalReading Stated[gravity.SG] // with the sugar in
	JuiceLabel      Label
	Fruit           string
	NotSugar        Stated[units.Concentration]
	Sugar           []Portion
	GravityWanted   Stated[gravity.SG]

	// Or a finished wine.
	Wine              Amount
	WineStrength      Stated[units.Strength]
	WineReading       Stated[gravity.SG]
	WineRefractometer Stated[gravity.Brix]
	WineBoiled        Stated[gravity.SG]
	WineTemperature   Stated[units.Temperature]
	SulfiteTotal      Stated[units.Concentration]

	// What is wanted.
	StopAt, StopFrom, StopTo Stated[units.Strength]
	StopLeastSugar           Stated[units.Concentration]
	YeastLimit               Stated[units.Strength]
	Lees                     Stated[units.Volume]
	CellarTemperature        Stated[units.Temperature]
	PH                       Stated[float64]
	Sulfite, Sorbate         Stated[units.Concentration]
	Acid                     Stated[units.Concentration]
	Spirit                   string
	SpiritStrength           Stated[units.Strength]
	SpiritExtract            Stated[units.Concentration]
	SpiritPlanned            Amount
	SpiritStock              Amount
	SpiritPrice              Stated[float64]
	Target                   Stated[units.Strength]
	TargetSugar, LeastSugar  Stated[units.Concentration]
	Sweetener                string
	Vessel, Headspace        Stated[units.Volume]
	Fortify                  string // "all", "fill the vessel"
	BlendVolume              Stated[units.Volume]
	Wood                     Stated[units.Mass]
	WoodPerLitre             Stated[units.Concentration]
	Bottles                  []units.Volume
	Jurisdiction             string
	KeptSulfite, KeptSorbate Stated[units.Concentration]
	KeptTemperature          Stated[units.Temperature]

	// What has happened.
	Readings          []Noted
	StopReading       Stated[gravity.SG]
	StopTemperature   Stated[units.Temperature]
	RackedReading     Stated[gravity.SG]
	RackedTemperature Stated[units.Temperature]
	Racked            Amount
	FreeSulfite       Stated[units.Concentration]
	PouredWine        Amount
	PouredSpirit      Amount
	BlendReading      Stated[gravity.SG]
	BlendTemperature  Stated[units.Temperature]
}

// A Noted is a reading of the fermentation, see package watch.
type Noted struct {
	Time        time.Time
	Reading     gravity.SG
	Temperature units.Temperature
}

// Cellar is the temperature at which the cellar measures: 20 C where it was not
// stated.
func (b Batch) Cellar() units.Temperature { return b.cellar() }
