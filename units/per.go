package units

import "strings"

// words between a mass and the volume that holds it.
var perWords = []string{" per ", " in ", "/"}

// parsePer reads a mass in a volume: "26 g per 240 mL", "0.2 g in 100 mL", "36 g
// per label cup". It says whether text is of that form at all.
func parsePer(text string) (c Concentration, is bool, err error) {
	for _, word := range perWords {
		so, in, found := strings.Cut(text, word)
		if !found {
			continue
		}
		m, err := ParseMass(so)
		if err != nil {
			return 0, false, nil
		}
		if in = strings.TrimSpace(in); in != "" && !strings.ContainsAny(in[:1], "0123456789.,") {
			in = "1 " + in
		}
		v, err := ParseVolume(in)
		if err != nil {
			return 0, true, err
		}
		c, err := m.Per(v)
		return c, true, err
	}
	return 0, false, nil
}

// Mass is what a volume of this concentration holds. Domain and errors are those
// of multiplication: none.
func (c Concentration) Mass(v Volume) Mass { return Mass(float64(c) * float64(v)) }

// Per is the concentration of a mass in a volume. Domain: v from 1e-9 L, m zero or
// more. Error: *RangeError.
func (m Mass) Per(v Volume) (Concentration, error) {
	if err := Check("volume", float64(v), 1e-9, inf, "L", "a mass in a volume"); err != nil {
		return 0, err
	}
	c := float64(m) / float64(v)
	if err := Check("concentration", c, 0, inf, "g/L", "a mass in a volume"); err != nil {
		return 0, err
	}
	return Concentration(c), nil
}
