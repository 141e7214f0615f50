package density

// SucroseOfDensity is the mass fraction of sucrose-water of density rho at t, 0
// to 100 C, from lo (not below -0.06) to MaxSucrose; ok is false outside. The
// rows of sucroseTable are gathered once into an isotherm, water + w (c0 + c1 w + ...), and the first guess is that of
// SucroseOfGravity.
func SucroseOfDensity(rho, t, lo float64) (w float64, ok bool) {
	c := sucroseIsotherm(t)
	excess := rho - Water(t)
	// The gravity at 20 C, but for the curve of the isotherm.
	g, k := excess/c[0]*(sucroseTable[0][0]/Water20), &inverseSucrose
	if !(g > -0.04 && g < 0.4) {
		return 0, false
	}
	g2 := g * g
	w = g * ((k[0] + g*k[1]) + g2*((k[2]+g*k[3])+g2*k[4]))
	for range 4 {
		y, slope := sucroseExcess(&c, w)
		step := (y - excess) / slope
		w -= step
		if step < 4e-6 && step > -4e-6 { // a third of its square is the error left
			break
		}
	}
	const rounding = 1e-12
	if w < lo-rounding || w > MaxSucrose+rounding {
		return 0, false
	}
	return min(max(w, lo), MaxSucrose), true
}

// sucroseIsotherm are the coefficients of sucrose-water less water at t, of w to w^6.
func sucroseIsotherm(t float64) [6]float64 {
	x := (t - 20) / 100
	a, b, d, e, f := &sucroseTable[0], &sucroseTable[1], &sucroseTable[2], &sucroseTable[3], &sucroseTable[4]
	return [6]float64{
		a[0] + x*(b[0]+x*(d[0]+x*(e[0]+x*f[0]))),
		a[1] + x*(b[1]+x*(d[1]+x*(e[1]+x*f[1]))),
		a[2] + x*(b[2]+x*(d[2]+x*e[2])),
		a[3] + x*(b[3]+x*d[3]),
		a[4] + x*b[4],
		a[5],
	}
}

// sucroseExcess is that polynomial and its slope, summed in pairs: each step of a
// solver waits for the last.
func sucroseExcess(c *[6]float64, w float64) (y, slope float64) {
	w2 := w * w
	y = w * ((c[0] + w*c[1]) + w2*((c[2]+w*c[3])+w2*(c[4]+w*c[5])))
	slope = (c[0] + w*2*c[1]) + w2*((3*c[2]+w*4*c[3])+w2*(5*c[4]+w*6*c[5]))
	return y, slope
}

// A mixture is the density of the three components at one temperature, its
// polynomials gathered once.
type mixture struct {
	ethanol [12]float64
	sucrose [6]float64
	water   float64
}

func mixtureAt(t float64) mixture { return mixture{isotherm(t), sucroseIsotherm(t), Water(t)} }

// partials are those of VolumeAt.
func (m *mixture) partials(e, s, w float64) Partials {
	p, q := fraction(e, w), fraction(s, w)
	excess, ds := sucroseExcess(&m.sucrose, q)
	vw := (e/m.water + s/m.ethanol[0]) / (e + s)
	return partials(e, s, w, sum(&m.ethanol, p), slope(&m.ethanol, p), m.water+excess, ds, vw)
}
