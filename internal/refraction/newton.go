package refraction

import (
	"math"

	"example.org/mutage/internal/density"
)

// Of the index and the density at 20 C by ethanol and by sugar, per g/L in a wine:
// where newton starts.
const (
	densityByEthanol, densityBySugar = -0.155, 0.385
	indexByEthanol, indexBySugar     = 6.6e-5, 1.43e-4
)

// newton is Solve for a liquid well inside its ends: Newton's method on ethanol and
// sugar together, from volume and refraction; the water is what is left of the
// mass. ok is false near the ends and beyond them, which Solve looks at with care.
func (x Others) newton(rho, n float64) (m Solution, ok bool) {
	rest := rho - x.Glycerol - x.Citric
	l := (n*n - 1) / (n*n + 2)
	by := densityByEthanol*indexBySugar - densityBySugar*indexByEthanol
	a, b := rho-density.Water20, n-math.Sqrt((1+2*sucroseTable[0]*density.Water20)/(1-sucroseTable[0]*density.Water20))
	e, s := (a*indexBySugar-b*densityBySugar)/by, (b*densityByEthanol-a*indexByEthanol)/by
	for range 12 {
		m = x.with(e, rest-e-s, s)
		v, r := m.slopes()
		miss, lack := v.V-1, r.V-l
		ve, vs := v.E-v.W, v.S-v.W // sugar or ethanol in place of water
		re, rs := r.E-r.W, r.S-r.W
		det := ve*rs - vs*re
		de, ds := (miss*rs-lack*vs)/det, (lack*ve-miss*re)/det
		e, s = e-de, s-ds
		if !(math.Abs(e) < 1000 && math.Abs(s) < 1500) {
			return m, false
		}
		if math.Abs(de)+math.Abs(ds) < lastMove {
			m = x.with(e, rest-e-s, s)
			return m, e > inside && s > inside && m.Water > 0 &&
				e < (MaxEthanol-inside)*(e+m.Water) && m.Solutes() < (density.MaxSucrose-inside)*(m.Solutes()+m.Water)
		}
	}
	return m, false
}

const (
	lastMove = 1e-7 // g/L: with slopes to a per cent the next is 1e-9
	inside   = 1e-3 // g/L, and of the mass fractions
)

// slopes are volume and refraction with their derivatives in ethanol, sugar and
// water. What the other solutes add to the derivatives by their share of sugar and
// water is left out: a per cent of them at most.
func (m *Solution) slopes() (volume, refraction density.Partials) {
	e, s, w := m.Ethanol, m.Solutes(), m.Water
	volume = density.VolumePartials20(e, s, w)
	p, q := e/(e+w), s/(s+w)
	re, de := specificEthanol(p), slopeEthanol(p)
	rs, ds := specificSucrose(q), slopeSucrose(q)
	refraction = density.Partials{
		V: (e+w)*re + (s+w)*rs - w*sucroseTable[0],
		E: re + (1-p)*de,
		S: rs + (1-q)*ds,
		W: re - p*de + rs - q*ds - sucroseTable[0],
	}
	if s == m.Sucrose {
		return volume, refraction
	}
	for i, mass := range m.others() {
		volume.V += mass * (other[i].v0 + other[i].v1*q)
		refraction.V += mass * (other[i].r0 + other[i].r1*q)
	}
	return volume, refraction
}

func slopeSucrose(w float64) float64 {
	c := &sucroseTable
	return c[1] + w*(2*c[2]+w*(3*c[3]+w*(4*c[4]+w*5*c[5])))
}

func slopeEthanol(p float64) float64 {
	c := &ethanolTable
	return c[1] + p*(2*c[2]+p*(3*c[3]+p*4*c[4]))
}
