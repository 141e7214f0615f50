package watch

import "math"

// A shape is a sigmoid from 0 to 1 and its inverse.
type shape struct {
	method  Method
	prior   [3]property
	rise    func(z float64) float64
	inverse func(y float64) float64
}

// The three sigmoids: fermentation slowed by what is left (logistic), one whose
// growth itself dies away (B. Gompertz, Phil. Trans. 115 (1825) 513), and one that
// rises as the logistic does and ends as a reaction of the second order: its yeast
// tires, so that the last part takes very long.
var shapes = [...]shape{
	{ByLogistic, [...]property{end, half, {-3, 1.3}},
		func(z float64) float64 { return 1 / (1 + math.Exp(-z)) },
		func(y float64) float64 { return math.Log(y / (1 - y)) }},
	{ByGompertz, [...]property{end, half, {-5, 2.5}},
		func(z float64) float64 { return math.Exp(-math.Exp(-z)) },
		func(y float64) float64 { return -math.Log(-math.Log(y)) }},
	{ByLongTail, [...]property{end, half, {-3, 1.3}},
		func(z float64) float64 {
			if z < 0 {
				return 1 / (1 + math.Exp(-z))
			}
			return 1 - 1/(2+z)
		},
		func(y float64) float64 {
			if y < 0.5 {
				return math.Log(y / (1 - y))
			}
			return 1/(1-y) - 2
		}},
}

// A property of a course has a mean and a standard deviation before it is read: a
// shape's prior. Few readings lean on it, many do not. It was set in round numbers:
// end and half against published kinetics of two musts and a measured series, the
// part of the sigmoid that lies before the start (its logit, from a long lag to none)
// as the mean of each shape's fits to the same, with the deviation among five published
// kinetics. The tests try it on others.
type property struct{ mean, standard float64 }

var (
	end  = property{math.Log(0.95), 0.2} // log of the share where the sigmoid ends: wines keep a little extract, or stop early
	half = property{math.Log(4), 1}      // log of the days to half of that: 1 to 14 days in 80 of 100 musts
)

// The model's own error, set with the prior. No fermentation is a sigmoid: its readings
// lie off the nearest one by about this share of the extract, whatever the hydrometer
// can tell (off). And a fitted sigmoid says how much time is left; the fermentation
// takes that time times a factor. The logarithm of the factor has this median (delay)
// and these standard deviations below and above it (sooner, later): fermentations slow
// down for reasons that no early reading shows (nitrogen spent, yeast worn by
// alcohol), and seldom speed up.
const (
	off    = 0.02
	delay  = 0.08
	sooner = 0.18
	later  = 0.35
)

// vector holds the parameters by which a curve is sought: those of the prior, but the days
// to a mark below the last reading instead of those to half, because the last
// reading fixes them whatever the others are. At given others the two logarithms
// differ by a constant, so that the prior needs no correction for it.
type vector = [len(shape{}.prior)]float64

// curve is one possible course: the share of the extract used against days since
// the fermentation began, a sigmoid moved so that it begins with nothing. It ends
// at the share that the yeast's limit allows.
type curve struct {
	shape             *shape
	end, rate, z0, q0 float64
	limit             float64
	last, stretch     float64 // beyond the last reading time is stretched
	left              float64 // of the fitted way that was left at the last reading, this part really is
}

func newCurve(s *shape, p vector, reading, limit, last float64) curve {
	c := curve{shape: s, end: math.Exp(p[0]), q0: 1 / (1 + math.Exp(-p[2])), limit: limit, last: last, stretch: 1}
	c.z0 = s.inverse(c.q0)
	mark := 1 - math.Exp(-reading/c.end) // of the end: near the reading while that is far from it
	c.rate = (s.inverse(c.q0+(1-c.q0)*mark) - c.z0) / math.Exp(p[1])
	return c
}

// from lets the forecast begin where the last reading is, off the sigmoid as it may
// be: the way that is left is that of the sigmoid, in proportion.
func (c *curve) from(reading float64) {
	c.left = max(c.end-reading, 0) / max(c.end-c.fitted(c.last), 1e-6)
}

// known are the properties of which the prior speaks.
func (c *curve) known(p vector) vector {
	return vector{p[0], math.Log((c.shape.inverse((1+c.q0)/2) - c.z0) / c.rate), p[2]}
}

// fitted is the sigmoid itself, without limit and stretch.
func (c *curve) fitted(day float64) float64 {
	return c.end * (c.shape.rise(c.rate*day+c.z0) - c.q0) / (1 - c.q0)
}

// at is the share used on a day, zero or later.
func (c *curve) at(day float64) float64 {
	if day <= c.last {
		return min(c.fitted(day), c.limit)
	}
	return min(c.end-c.left*(c.end-c.fitted(c.last+(day-c.last)/c.stretch)), c.limit)
}
