package density

// SucrosePolynomial are the coefficients of Sucrose at t in powers of the mass
// fraction, lowest first: for who writes the formula out.
func SucrosePolynomial(t float64) []float64 {
	x := (t - 20) / 100
	c := make([]float64, 7)
	c[0] = Water(t)
	for j := len(sucroseTable) - 1; j >= 0; j-- {
		for i, a := range sucroseTable[j] {
			c[i+1] = c[i+1]*x + a
		}
	}
	return c
}

// EthanolPolynomial are the coefficients of Ethanol at t likewise.
func EthanolPolynomial(t float64) []float64 {
	c := isotherm(t)
	return c[:]
}
