package density

// SucroseOfDensity is the mass fraction of sucrose-water of density rho at t, 0
// to 100 C, from lo (not below -0.06) to MaxSucrose; ok is false outside. The
// rows of sucroseTable are gathered once into an isotherm, water + w (c0 + c1 w + ...), and the first guess is that of
// SucroseOfGravity.
func SucroseOfDensity(rho, t, lo float64) (w float64, ok bool) {
	x := (t - 20) / 100
	a, b, d, e, f := &sucroseTable[0], &sucroseTable[1], &sucroseTable[2], &sucroseTable[3], &sucroseTable[4]
	c0 := a[0] + x*(b[0]+x*(d[0]+x*(e[0]+x*f[0])))
	c1 := a[1] + x*(b[1]+x*(d[1]+x*(e[1]+x*f[1])))
	c2 := a[2] + x*(b[2]+x*(d[2]+x*e[2]))
	c3 := a[3] + x*(b[3]+x*d[3])
	c4 := a[4] + x*b[4]
	c5 := a[5]
	excess := rho - Water(t)
	// The gravity at 20 C, but for the curve of the isotherm.
	g, k := excess/c0*(a[0]/Water20), &inverseSucrose
	if !(g > -0.04 && g < 0.4) {
		return 0, false
	}
	g2 := g * g
	w = g * ((k[0] + g*k[1]) + g2*((k[2]+g*k[3])+g2*k[4]))
	for range 4 {
		w2 := w * w // summed in pairs: each step waits for the last
		y := w * ((c0 + w*c1) + w2*((c2+w*c3)+w2*(c4+w*c5)))
		slope := (c0 + w*2*c1) + w2*((3*c2+w*4*c3)+w2*(5*c4+w*6*c5))
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
