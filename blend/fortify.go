package blend

import (
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// A Fortification is how much of the base and of the spirit to pour, and what
// they make.
type Fortification struct {
	Base, Spirit units.Volume
	Result       Mixture
}

// Share is the spirit as a share of the final volume, 0 to 1: the trade's way
// of saying it. Zero where nothing was mixed.
func (f Fortification) Share() float64 {
	if f.Result.Volume == 0 {
		return 0
	}
	return float64(f.Spirit / f.Result.Volume)
}

// Fortify is how much spirit brings all of the base to the target strength.
// The spirit's Volume is the stock at hand; zero means as much as is needed.
// The amount is exact for the model: mixed by Mix it gives the target to 1e-9 of
// it, which is verified, and in Result the target stands to the last digit, so that
// what is judged by it does not turn on rounding. Domain: target 0 to 100 % vol,
// base above 0 L. Errors: *units.RangeError; *UnreachableError (wraps
// ErrUnreachable) with the strength that is reached and what would do.
func Fortify(base, spirit Component, target units.Strength) (Fortification, error) {
	return addTo(base, spirit, WantStrength(target), math.Inf(1))
}

// FortifyTo fills a volume with base and spirit at the target strength. Each
// Volume is the stock at hand; zero means as much as is needed. Domain: total
// above 0 to 1e12 L. Errors as Fortify.
func FortifyTo(total units.Volume, base, spirit Component, target units.Strength) (Fortification, error) {
	if err := units.Check("volume to fill", float64(total), 1e-9, check.MostVolume, "L", ""); err != nil {
		return Fortification{}, err
	}
	return meet(duo{base: base, other: spirit, want: WantStrength(target), total: float64(total)})
}

// SweetenTo is how much sweetener (syrup, juice, sweet reserve) brings all of
// the wine to the target extract; Spirit in the result is the sweetener. For
// dry sugar see package additions. Domain: target 0 to 943 g/L (70 % sucrose by
// mass). Errors as Fortify.
func SweetenTo(wine, sweetener Component, target units.Concentration) (Fortification, error) {
	return addTo(wine, sweetener, WantExtract(target), math.Inf(1))
}

// DiluteTo is Fortify the other way: how much of a weaker liquid brings all of
// the base down to the target strength; Spirit in the result is that liquid.
// Domain and errors as Fortify.
func DiluteTo(base, weaker Component, target units.Strength) (Fortification, error) {
	return Fortify(base, weaker, target)
}

func addTo(base, other Component, want Want, room float64) (Fortification, error) {
	if base.Volume == 0 {
		return Fortification{}, units.OutOfRange(base.label(), "volume", 0, 1e-9, check.MostVolume, "L", "")
	}
	return meet(duo{base: base, other: other, want: want, room: room})
}
