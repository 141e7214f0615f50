package watch_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// watchKinetics are the parameters of the Engasser model at one temperature, with
// the names of the table: uptake of glucose G, maltose M and maltotriose N.
type kinetics struct {
	t                                float64
	vG, vM, vN, kG, kM, kN, kiG, kiM float64
}

// watchKineticsAt interpolates the published rows in the logarithm.
func kineticsAt(rows []kinetics, t float64) kinetics {
	i := 0
	for i < len(rows)-2 && t > rows[i+1].t {
		i++
	}
	a, b := rows[i], rows[i+1]
	share := (t - a.t) / (b.t - a.t)
	mix := func(x, y float64) float64 { return math.Exp((1-share)*math.Log(x) + share*math.Log(y)) }
	return kinetics{t, mix(a.vG, b.vG), mix(a.vM, b.vM), mix(a.vN, b.vN), mix(a.kG, b.kG), mix(a.kM, b.kM), mix(a.kN, b.kN), mix(a.kiG, b.kiG), mix(a.kiM, b.kiM)}
}

// Grams per mole of glucose, maltose and maltotriose.
var molar = [3]float64{180.16, 342.30, 504.44}

// watchTank is the state G, M, N, X in mol/m3.
type tank [4]float64

func (k kinetics) slope(s tank) (d tank) {
	g, m, n, x := max(s[0], 0), max(s[1], 0), max(s[2], 0), s[3]
	byG := k.kiG / (k.kiG + g)
	mu1, mu2 := k.vG*g/(k.kG+g), k.vM*m/(k.kM+m)*byG
	mu3 := k.vN * n / (k.kN + n) * byG * k.kiM / (k.kiM + m)
	return tank{-mu1 * x, -mu2 * x, -mu3 * x, (0.134*mu1 + 0.268*mu2 + 0.402*mu3) * x}
}

func (k kinetics) step(s tank, h float64) tank {
	plus := func(d tank, h float64) (to tank) {
		for i := range s {
			to[i] = s[i] + h*d[i]
		}
		return to
	}
	k1 := k.slope(s)
	k2 := k.slope(plus(k1, h/2))
	k3 := k.slope(plus(k2, h/2))
	k4 := k.slope(plus(k3, h))
	for i := range s {
		s[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
	}
	return s
}

func (s tank) sugar() (gramsPerLitre float64) {
	for i, m := range molar {
		gramsPerLitre += s[i] * m / 1000
	}
	return gramsPerLitre
}

// watchSimulation is a must with its course: the share of the sugar that is
// used, hour by hour, until all but 3 % is.
type simulation struct {
	sugar, other float64 // g/L
	used         []float64
}

func (s simulation) when(used float64) float64 {
	i := sort.SearchFloat64s(s.used, used)
	if i == 0 {
		return 0
	}
	return float64(i-1) + (used-s.used[i-1])/(s.used[i]-s.used[i-1])
}

func (s simulation) at(hour float64) float64 {
	i := min(int(hour), len(s.used)-2)
	return s.used[i] + (hour-float64(i))*(s.used[i+1]-s.used[i])
}

// watchSimulate draws a must and lets it ferment: 5 to 16 C, rates scattering by 20 %
// about the published ones, 180 to 260 g/L of sugar and 5 to 25 of other extract,
// glucose from its share in the published wort to half, and half to all of the
// yeast there. A Runge-Kutta step of the fourth order is half an hour.
func simulate(rows []kinetics, r *rand.Rand) simulation {
	k := kineticsAt(rows, 5+11*r.Float64())
	for _, v := range []*float64{&k.vG, &k.vM, &k.vN} {
		*v *= math.Exp(0.2 * r.NormFloat64())
	}
	wort := tank{70, 40, 230, 200}
	s := simulation{sugar: 180 + 80*r.Float64(), other: 5 + 20*r.Float64(), used: []float64{0}}
	least := wort[0] * molar[0] / 1000 / wort.sugar()
	glucose := least + (0.5-least)*r.Float64()
	rest := wort.sugar() - wort[0]*molar[0]/1000
	tank := tank{
		glucose * s.sugar / molar[0] * 1000,
		(1 - glucose) * s.sugar / rest * wort[1],
		(1 - glucose) * s.sugar / rest * wort[2],
		wort[3] * (0.5 + 0.5*r.Float64()),
	}
	for s.used[len(s.used)-1] < 0.97 && len(s.used) < 5000 {
		tank = k.step(k.step(tank, 0.5), 0.5)
		s.used = append(s.used, 1-tank.sugar()/s.sugar)
	}
	return s
}

// must of this batch, and what a spindle shows in it at 20 C when this share
// of the sugar is used: the balance by the weight of the gas.
func (s simulation) gravity(t *testing.T, used float64) (og, now gravity.SG) {
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

// The readings of each simulated batch, one to eight spread over the time to half
// of the sugar, carry noise of the default doubt. Two gravities are awaited: at 60
// and at 75 of 100 of the sugar.
func TestWatchSimulated(t *testing.T) {
	var rows []kinetics
	for _, r := range handbook.Load(t, "testdata/fermentation_kinetics.csv").Rows {
		rows = append(rows, kinetics{r.Number("temperature_C"), r.Number("V_G"), r.Number("V_M"), r.Number("V_N"),
			r.Number("K_G"), r.Number("K_M"), r.Number("K_N"), r.Number("K_iG"), r.Number("K_iM")})
	}
	const batches, noise = 1200, 0.0007
	r := rand.New(rand.NewPCG(8, 1))
	awaited := []float64{0.60, 0.75}
	scores := make([][]score, len(awaited))
	few := make([][]score, len(awaited))
	for range batches {
		s := simulate(rows, r)
		half, n := s.when(0.5), 1+r.IntN(8)
		og, _ := s.gravity(t, 0)
		log := []watch.Reading{{Time: start, Reading: og, Temperature: units.Celsius(20)}}
		for i := range n {
			hour := half * (float64(i+1) - 0.3*r.Float64()) / float64(n)
			_, now := s.gravity(t, s.at(hour))
			log = append(log, watch.Reading{Time: after(hour), Reading: now + gravity.SG(noise*r.NormFloat64()), Temperature: units.Celsius(20)})
		}
		c, err := watch.Follow(log, watch.Setup{Horizon: 100 * 24 * time.Hour})
		if err != nil {
			t.Fatal(err)
		}
		if c.Method == watch.NoForecast {
			t.Errorf("%d readings: %s, set apart %v", n, c.Why, c.Apart)
			continue
		}
		for k, used := range awaited {
			_, level := s.gravity(t, used)
			f, err := c.Reaches(level)
			if err != nil {
				t.Fatal(err)
			}
			score := score{s.when(used), f}
			scores[k] = append(scores[k], score)
			if n <= 2 {
				few[k] = append(few[k], score)
			}
		}
	}
	for k, used := range awaited {
		report(t, fmt.Sprintf("Fermentation watch half-way, simulated fermentations, to %.0f %% of the sugar", 100*used), most, scores[k])
		report(t, fmt.Sprintf("Fermentation watch half-way, simulated, from one or two readings, to %.0f %% of the sugar", 100*used), mostFew, few[k])
	}
}
