package watch

import (
	"math"
	"strconv"
	"testing"
)

// somewhere are parameters of curves: log of the end, log of the days to the mark, logit
// of the part before the start.
var somewhere = []vector{{math.Log(0.95), math.Log(4), -3}, {math.Log(0.6), math.Log(1.5), -5}, {0, math.Log(9), 0.5}, {0.1, 0, -1}}

// near says whether two numbers agree to so much of the second, or of 1e-3.
func near(got, want, part float64) bool {
	return math.Abs(got-want) <= part*max(math.Abs(want), 1e-3)
}

// A sigmoid rises from 0 to 1, its inverse is its inverse, and no bend of it breaks.
func TestSigmoids(t *testing.T) {
	for _, s := range shapes {
		was := 0.0
		for z := -6.0; z < 12; z += 0.13 {
			y := s.rise(z)
			if y <= was || y >= 1 || !near(s.inverse(y), z, 1e-6) {
				t.Errorf("%v: %v at %v, behind %v; back to %v", s.method, y, z, was, s.inverse(y))
			}
			was = y
		}
		const h = 1e-6
		before, behind := (s.rise(0)-s.rise(-h))/h, (s.rise(h)-s.rise(0))/h
		if !near(before, behind, 1e-4) || s.rise(1e4) < 0.999 || s.rise(-700) > 1e-9 {
			t.Errorf("%v: slope %v before the middle, %v behind it; ends at %v and %v", s.method, before, behind, s.rise(-700), s.rise(1e4))
		}
	}
	// Logistic and Gompertz by their differential equations, y' = y (1 - y) and
	// y' = -y log y; the long tail ends as a reaction of the second order, y' = (1 - y)^2.
	slopes := map[Method]func(y float64) float64{
		ByLogistic: func(y float64) float64 { return y * (1 - y) },
		ByGompertz: func(y float64) float64 { return -y * math.Log(y) },
		ByLongTail: func(y float64) float64 {
			if y < 0.5 {
				return y * (1 - y)
			}
			return (1 - y) * (1 - y)
		},
	}
	for _, s := range shapes {
		for z := -4.05; z < 6; z += 0.5 {
			const h = 1e-5
			if got, want := (s.rise(z+h)-s.rise(z-h))/(2*h), slopes[s.method](s.rise(z)); !near(got, want, 1e-5) {
				t.Errorf("%v: slope %v at %v, want %v", s.method, got, z, want)
			}
		}
	}
}

// A curve begins with nothing, has come to its mark on the day of its parameter, ends
// where its parameter says, and is at half of that when the prior is told so.
func TestACurveIsWhatItsParametersSay(t *testing.T) {
	for i := range shapes {
		s := &shapes[i]
		for _, p := range somewhere {
			const reading = 0.4
			end := math.Exp(p[0])
			c := newCurve(s, p, reading, 1, 5)
			if got := c.fitted(0); math.Abs(got) > 1e-9 {
				t.Errorf("%v %v: begins with %v", s.method, p, got)
			}
			if got, want := c.fitted(math.Exp(p[1])), end*(1-math.Exp(-reading/end)); !near(got, want, 1e-9) {
				t.Errorf("%v %v: %v at the mark, want %v", s.method, p, got, want)
			}
			if got := c.fitted(1e9); !near(got, end, 1e-6) {
				t.Errorf("%v %v: ends at %v, want %v", s.method, p, got, end)
			}
			if got := math.Log(s.rise(c.z0) / (1 - s.rise(c.z0))); !near(got, p[2], 1e-9) {
				t.Errorf("%v %v: logit of the part before the start %v", s.method, p, got)
			}
			known := c.known(p)
			if got := c.fitted(math.Exp(known[1])); known[0] != p[0] || known[2] != p[2] || !near(got, end/2, 1e-9) {
				t.Errorf("%v %v: %v on the day of half, want %v", s.method, p, got, end/2)
			}
			for _, day := range []float64{0.3, 1, 4, 11} {
				const h = 1e-4
				if got, want := slope(day)(&c), (c.fitted(day+h)-c.fitted(day-h))/(2*h); !near(got, want, 2e-3) {
					t.Errorf("%v %v: slope %v on day %v, want %v", s.method, p, got, day, want)
				}
			}
		}
	}
}

// Behind the last reading a curve goes on from what was read to its end, by the sigmoid's
// way in proportion, its time stretched; nowhere beyond the yeast's limit.
func TestACurveGoesOnFromTheReading(t *testing.T) {
	for i := range shapes {
		c := newCurve(&shapes[i], somewhere[0], 0.4, 1, 3)
		fitted := c.fitted(3)
		for _, reading := range []float64{fitted - 0.1, fitted, fitted + 0.1} {
			c.stretch = 1.5
			c.from(reading)
			if got := c.at(3 + 1e-9); !near(got, reading, 1e-6) || c.at(3) != fitted || c.at(1) != c.fitted(1) {
				t.Errorf("%v: goes on from %v, read %v", c.shape.method, got, reading)
			}
			if got := c.at(1e9); !near(got, c.end, 1e-6) {
				t.Errorf("%v: ends at %v", c.shape.method, got)
			}
			for _, days := range []float64{0.5, 2, 7} {
				// Of the way from the reading to the end this part is left.
				want := (c.end - c.fitted(3+days)) / (c.end - fitted)
				if got := (c.end - c.at(3+1.5*days)) / (c.end - reading); !near(got, want, 1e-9) {
					t.Errorf("%v: %v of the way left after %v days, want %v", c.shape.method, got, days, want)
				}
			}
		}
		if c.from(c.end + 0.01); c.at(3.1) != c.end || c.at(50) != c.end {
			t.Errorf("%v: read beyond its end, goes on to %v", c.shape.method, c.at(50))
		}
		if c.limit = 0.3; c.at(2.9) > 0.3 || c.at(50) != 0.3 {
			t.Errorf("%v: %v, limit 0.3", c.shape.method, c.at(50))
		}
	}
}

// The forecast's settings are round numbers, of two digits at the most: who fits them to
// a table digit by digit fits its noise. Whoever changes one measures anew.
func TestSettingsAreRound(t *testing.T) {
	settings := map[string]float64{"end": math.Exp(end.mean), "spread of the end": end.standard, "days to half": math.Exp(half.mean), "spread of half": half.standard,
		"off": off, "delay": delay, "sooner": sooner, "later": later, "trust": trust, "of a sensor": float64(SensorUncertainty)}
	for _, s := range shapes {
		settings[s.method.String()], settings[s.method.String()+", spread"] = s.prior[2].mean, s.prior[2].standard
		if s.prior[0] != end || s.prior[1] != half {
			t.Errorf("%v has an end and a half of its own", s.method)
		}
	}
	for name, x := range settings {
		x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64) // exp(log(x))
		if two, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 1, 64), 64); err != nil || two != x {
			t.Errorf("%s: %v", name, x)
		}
	}
}

// 1 to 14 days to half in 80 of 100 musts; the end is log-normal about 95 of 100.
func TestThePriorIsWhatItsWordsSay(t *testing.T) {
	lo, hi := math.Exp(half.mean-1.2816*half.standard), math.Exp(half.mean+1.2816*half.standard)
	if math.Round(lo) != 1 || math.Round(hi) != 14 {
		t.Errorf("%v to %v days to half", lo, hi)
	}
	for _, s := range shapes { // from a long lag to none: most of the sigmoid lies behind the start
		if part := 1 / (1 + math.Exp(-s.prior[2].mean)); part > 0.1 {
			t.Errorf("%v: %v before the start", s.method, part)
		}
	}
}

// What is left of the time is longer by 8 % in the median, and with 16 of 100 shorter
// than by a standard deviation below, longer than by one above.
func TestTheFactorOfTheTimeLeft(t *testing.T) {
	const one = 0.15865525393145707 // of a normal distribution lies beyond one standard deviation
	for chance, want := range map[float64]float64{one: delay - sooner, 0.5: delay, 1 - one: delay + later} {
		if got := math.Log(stretch(chance)); math.Abs(got-want) > 1e-9 {
			t.Errorf("chance %v: log %v, want %v", chance, got, want)
		}
	}
}
