package watch_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// A tank is what a kinetic model follows; what its places hold is the model's.
type tank [5]float64

// A kinetics is a must and a yeast of a published model: where it starts, how
// fast its state changes in an hour, and how much sugar in g/L is left.
type kinetics struct {
	start tank
	slope func(tank) tank
	sugar func(tank) float64
}

// runge is one step of the Runge-Kutta method of the fourth order.
func (k kinetics) runge(s tank, h float64) tank {
	plus := func(d tank, h float64) (to tank) {
		for i := range s {
			to[i] = max(s[i]+h*d[i], 0)
		}
		return to
	}
	k1 := k.slope(s)
	k2 := k.slope(plus(k1, h/2))
	k3 := k.slope(plus(k2, h/2))
	k4 := k.slope(plus(k3, h))
	for i := range s {
		s[i] = max(s[i]+h/6*(k1[i]+2*k2[i]+2*k3[i]+k4[i]), 0)
	}
	return s
}

// scatter is a factor about 1: yeasts of one kind differ.
func scatter(r *rand.Rand, standard float64) float64 { return math.Exp(standard * r.NormFloat64()) }

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// grapeMust is grape must limited by its nitrogen: M. C. Coleman, R. Fish, D. E.
// Block, Appl. Environ. Microbiol. 73:5875 (2007), fermentations of 11 to 35 C,
// 265 to 300 g/L of sugar and 70 to 350 mg/L of nitrogen. Temperatures in C,
// concentrations in g/L; state: sugar, nitrogen, active yeast, alcohol. The three
// constants of saturation and yield are from memory.
func grapeMust(r *rand.Rand) kinetics {
	return grape(r, between(r, 12, 28), between(r, 0.08, 0.35))
}

// poorMust is grape must that is cool and short of nitrogen.
func poorMust(r *rand.Rand) kinetics { return grape(r, between(r, 11, 18), between(r, 0.07, 0.14)) }

func grape(r *rand.Rand, t, nitrogen float64) kinetics {
	sugar := between(r, 180, 280)
	growth := math.Exp(-3.92+0.0782*t) * scatter(r, 0.2)
	rate := math.Exp(-2.98+0.0771*t) * scatter(r, 0.2) // g of alcohol per g of yeast
	death := math.Exp(-9.81-0.108*t+0.00478*t*t) * weakness(r)
	yeastOfNitrogen := math.Exp(3.50 - 3.61*nitrogen)
	const (
		halfNitrogen = 0.0088
		halfSugar    = 10.3
		alcohol      = 0.55 // of sugar
	)
	pitch := math.Exp(between(r, math.Log(0.04), math.Log(0.25)))
	return kinetics{tank{sugar, nitrogen, pitch}, func(s tank) tank {
		mu := growth * s[1] / (halfNitrogen + s[1])
		beta := rate * s[0] / (halfSugar + s[0])
		return tank{-beta * s[2] / alcohol, -mu * s[2] / yeastOfNitrogen, (mu - death*s[3]) * s[2], beta * s[2]}
	}, func(s tank) float64 { return s[0] }}
}

// pilotWort is wort with a lager yeast, laboratory and pilot scale, 8 to 24 C: B. de
// Andres-Toro et al., Math. Comput. Simul. 48:65 (1998), constants as printed in
// several later papers. State: sugar, resting, active yeast, alcohol, in g/L.
func pilotWort(r *rand.Rand) kinetics {
	kelvin, sugar := 273.15+between(r, 8, 20), between(r, 110, 200)
	of := func(a, b float64) float64 { return math.Exp(a + b/kelvin) }
	grow, eat, wake := of(108.31, -31934.09)*scatter(r, 0.2), of(-41.92, 11654.64)*scatter(r, 0.2), of(30.72, -9501.54)*scatter(r, 0.2)
	settle, make, half := of(130.16, -38313), of(3.27, -1267.24), of(-119.63, 34203.95)
	pitch := between(r, 1, 4)
	return kinetics{tank{sugar, pitch}, func(s tank) tank {
		saturation := s[0] / (half + s[0])
		return tank{
			-eat * saturation * s[2],
			-wake * s[1],
			(grow*s[0]/(sugar/2+s[3])-settle)*s[2] + wake*s[1],
			make * saturation * max(1-s[3]/(sugar/2), 0) * s[2],
		}
	}, func(s tank) float64 { return s[0] }}
}

// caneJuice is sugar cane juice with a flocculating yeast at 32 C, slowed by its
// alcohol: S. C. Oliveira et al., Kinetic Modeling of 1-G Ethanol Fermentations, in
// Fermentation Processes (2017). State: sugar, yeast, alcohol, in g/L. Home
// pitches, and rates down to those of a cellar.
func caneJuice(r *rand.Rand) kinetics {
	cool := math.Exp(-0.0771 * between(r, 4, 20)) // colder by so much, at the slope of grapeMust
	sugar, pitch := between(r, 150, 230), math.Exp(between(r, math.Log(0.1), math.Log(1)))
	growth, rate := 0.31*cool*scatter(r, 0.2), 1.01*cool*scatter(r, 0.2)
	return kinetics{tank{sugar, pitch}, func(s tank) tank {
		mu := growth * s[0] / (1.88 + s[0]) * math.Pow(max(1-s[2]/82.8, 0), 0.18) * (1 - s[1]/113.4)
		made := rate * s[0] / (2.81 + s[0]) * max(1-s[2]/108.2, 0)
		return tank{-made / 0.45 * s[1], mu * s[1], made * s[1]}
	}, func(s tank) float64 { return s[0] }}
}

// coldWort is wort with a lager yeast, 4 to 16 C: the table.
func coldWort(t testing.TB) func(*rand.Rand) kinetics {
	var rows [][9]float64
	for _, r := range handbook.Load(t, "testdata/fermentation_kinetics.csv").Rows {
		rows = append(rows, [9]float64{r.Number("temperature_C"), r.Number("V_G"), r.Number("V_M"), r.Number("V_N"),
			r.Number("K_G"), r.Number("K_M"), r.Number("K_N"), r.Number("K_iG"), r.Number("K_iM")})
	}
	const glucose, maltose, maltotriose = 0.18016, 0.34230, 0.50444 // g/mmol
	wort := tank{70, 40, 230, 200}                                  // mol/m3, the last is yeast
	return func(r *rand.Rand) kinetics {
		at := between(r, 5, 16)
		i := 0
		for i < len(rows)-2 && at > rows[i+1][0] {
			i++
		}
		a, b := rows[i], rows[i+1]
		share := (at - a[0]) / (b[0] - a[0])
		var p [9]float64
		for j := range p[1:] {
			p[j+1] = math.Exp((1-share)*math.Log(a[j+1]) + share*math.Log(b[j+1]))
		}
		for j := 1; j <= 3; j++ {
			p[j] *= scatter(r, 0.2)
		}
		left := func(s tank) float64 { return s[0]*glucose + s[1]*maltose + s[2]*maltotriose }
		sugar, least := between(r, 180, 260), wort[0]*glucose/left(wort)
		part := between(r, least, 0.5) // glucose
		rest := (1 - part) * sugar / (left(wort) - wort[0]*glucose)
		return kinetics{tank{part * sugar / glucose, rest * wort[1], rest * wort[2], wort[3] * between(r, 0.5, 1)}, func(s tank) tank {
			byGlucose := p[7] / (p[7] + s[0])
			mu1, mu2 := p[1]*s[0]/(p[4]+s[0]), p[2]*s[1]/(p[5]+s[1])*byGlucose
			mu3 := p[3] * s[2] / (p[6] + s[2]) * byGlucose * p[8] / (p[8] + s[1])
			x := s[3]
			return tank{-mu1 * x, -mu2 * x, -mu3 * x, (0.134*mu1 + 0.268*mu2 + 0.402*mu3) * x}
		}, left}
	}
}

// simulation is a must with its course: the share of the sugar that is used,
// hour by hour, for 80 days or until it ends or rests.
type simulation struct {
	sugar, other float64 // g/L
	used         []float64
}

func simulate(k kinetics, r *rand.Rand) simulation {
	s := simulation{sugar: k.sugar(k.start), other: between(r, 5, 25), used: []float64{0}}
	const longest = 80 * 24
	for now := k.start; len(s.used) < longest; {
		now = k.runge(now, 1)
		next, last := 1-k.sugar(now)/s.sugar, s.used[len(s.used)-1]
		if next > 0.985 || next > 0.1 && next-last < 1e-5 {
			break
		}
		s.used = append(s.used, max(next, last))
	}
	return s
}

// when is the hour at which this share is used; infinite where it never is.
func (s simulation) when(used float64) float64 {
	i := sort.SearchFloat64s(s.used, used)
	switch {
	case i == 0:
		return 0
	case i == len(s.used):
		return math.Inf(1)
	}
	return float64(i-1) + (used-s.used[i-1])/(s.used[i]-s.used[i-1])
}

func (s simulation) at(hour float64) float64 {
	hour = min(hour, float64(len(s.used)-1))
	i := min(int(hour), len(s.used)-2)
	return s.used[i] + (hour-float64(i))*(s.used[i+1]-s.used[i])
}

// gravity of the must, and what a hydrometer shows in it at 20 C when this share
// of the sugar is used: the balance by the weight of the gas.
func (s simulation) gravity(t testing.TB, used float64) (og, now gravity.SG) {
	t.Helper()
	og, err := gravity.OfExtract(units.Concentration(s.sugar + s.other))
	if err != nil {
		t.Fatal(err)
	}
	y := abv.Must
	gas := used * s.sugar * y.CarbonDioxide / (1 + y.CarbonDioxide + y.Yeast)
	w, err := abv.FromWeightLoss(og, 1, units.Mass(gas), y)
	if err != nil {
		t.Fatal(err)
	}
	return og, w.Gravity
}

// fixedMust is grape must limited by its nitrogen with the constants of one
// temperature: A. C. Cramer, S. Vlassides, D. E. Block, Biotechnol. Bioeng. 77:49
// (2002), as quoted in public code.
func fixedMust(r *rand.Rand) kinetics {
	nitrogen, sugar := between(r, 0.06, 0.35), between(r, 190, 270)
	growth, rate, death := 0.16*scatter(r, 0.2), 0.3*scatter(r, 0.2), 0.0001*weakness(r)
	pitch := math.Exp(between(r, math.Log(0.04), math.Log(0.25)))
	return kinetics{tank{sugar, nitrogen, pitch}, func(s tank) tank {
		mu := growth * s[1] / (0.010 + s[1])
		beta := rate * s[0] / (10 + s[0])
		return tank{-beta * s[2] / 0.47, -mu * s[2] / 31, (mu - death*s[3]) * s[2], beta * s[2]}
	}, func(s tank) float64 { return s[0] }}
}

// weakness is how much sooner than the published yeast this one is spent by its
// alcohol: half of the batches have a wine yeast, the others one that is spent 2 to 20
// times as soon. Of the measured synthetic musts half had no wine yeast.
func weakness(r *rand.Rand) float64 {
	w := scatter(r, 0.2)
	if r.IntN(2) == 0 {
		w *= math.Exp(between(r, math.Log(2), math.Log(20)))
	}
	return w
}
