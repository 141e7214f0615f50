package acid

import (
	"encoding/json"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// bufferJSON is a Buffer in JSON: its acids in the order of Acids, and its alkali,
// in mol/L; its strength in % vol.
type bufferJSON struct {
	Acids    [acids]float64 `json:"acids_mol_per_l"`
	Alkali   float64        `json:"alkali_mol_per_l"`
	Strength float64        `json:"strength"`
}

// MarshalJSON writes acids and alkali in mol/L and the strength in % vol.
func (b Buffer) MarshalJSON() ([]byte, error) {
	return json.Marshal(bufferJSON{b.moles, b.alkali, b.strength})
}

// UnmarshalJSON reads what MarshalJSON wrote. Error: *units.RangeError for what
// NewBuffer refuses.
func (b *Buffer) UnmarshalJSON(text []byte) error {
	var in bufferJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	out := Buffer{moles: in.Acids, alkali: in.Alkali, strength: in.Strength}
	err := check.First(units.Check("alkali", out.alkali, -float64(maxAcid), float64(maxAcid), "mol/L", check.Bound),
		units.Check("strength", out.strength, 0, maxPHStrength, "% vol", sourceStrength))
	for _, x := range out.moles {
		err = check.First(err, units.Check("acid", x, 0, float64(maxAcid), "mol/L", check.Bound))
	}
	if err != nil {
		return err
	}
	if out.k = constantsAt(out.strength); out == (Buffer{k: out.k}) {
		out = Buffer{} // the zero value
	}
	*b = out
	return nil
}
