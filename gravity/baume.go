package gravity

// Baume is the Baume scale for liquids heavier than water with the modulus 145:
// Be = 145 - 145/SG. It is the one of the American sugar trade (Junk &
// Pancoast, Handbook of Sugars, 1973).
type Baume float64

// Baume1443 is the same scale with the modulus 144.3, in which sugar tables
// print it beside the densities of NBS Circular 440. That the must and wine
// hydrometers of Europe are divided so is common practice, no source; their basis
// is often 15 C, see [Basis.SG].
type Baume1443 float64

// Modulus of either scale: the degrees of an infinitely dense liquid.
const (
	modulus     = 145
	modulus1443 = 144.3
)

// Baume is 145 - 145/SG. Domain 1 to 1.3499; *units.RangeError outside. Against
// Junk & Pancoast it holds to 0.007 up to 40 % and 0.016 at 45 %, where their
// densities are the older ones of NBS Circular 440.
func (g SG) Baume() (Baume, error) { return checked(g, Baume(modulus-modulus/g)) }

// Baume1443 is 144.3 - 144.3/SG. Domain 1 to 1.3499; *units.RangeError outside.
func (g SG) Baume1443() (Baume1443, error) { return checked(g, Baume1443(modulus1443-modulus1443/g)) }

// SG is 145/(145 - Be). Domain 0 to 37.58; *units.RangeError outside.
func (b Baume) SG() (SG, error) { return baumeGravity("Baume, modulus 145", float64(b), modulus) }

// SG is 144.3/(144.3 - Be). Domain 0 to 37.40; *units.RangeError outside.
func (b Baume1443) SG() (SG, error) {
	return baumeGravity("Baume, modulus 144.3", float64(b), modulus1443)
}

func baumeGravity(quantity string, degrees, m float64) (SG, error) {
	return arithmetic(quantity, degrees, 0, m-m/heaviest, m/(m-degrees))
}
