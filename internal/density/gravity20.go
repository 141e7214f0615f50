package density

// inverseSucrose[k] multiplies x^(k+1), x = SG - 1: our own least-squares fit to
// the inverse of Sucrose20, within 1e-6 from SG 0.98 to MaxSucrose and 1e-5 from 0.966.
var inverseSucrose = [5]float64{2.59151, -2.36082, 2.51003, -2.07572, 1.11516}

// SucroseOfGravity is the mass fraction of the sucrose-water whose density at
// 20 C is sg times that of water, from sg 0.966 (a negative, apparent fraction)
// to MaxSucrose: the fit and one Newton step, to 1e-12 (1e-11 below 0.98).
func SucroseOfGravity(sg float64) float64 {
	x, c := sg-1, &inverseSucrose
	w := x * (c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*c[4]))))
	rho, slope := sucroseSlope20(w)
	return w + (sg*Water20-rho)/slope
}
