package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// A hot function is measured by run, which calls it so many times. limit is a
// multiple of the floor for each of parts (of one, where that is zero); zero promises
// nothing. allocates is how often a call may; negative promises nothing.
type hot struct {
	shown     string
	run       func(calls int)
	limit     float64
	allocates float64
	parts     float64
}

// missed is the first error of a function that should give none, Kept what they
// return: exported, so that no compiler leaves a call out.
var (
	missed error
	Kept   float64
)

func keep(x float64, err error) {
	Kept = x
	if err != nil && missed == nil {
		missed = err
	}
}

// wander are 4,096 values between two, in no order.
func wander(lo, hi float64) *[4096]float64 {
	r := rand.New(rand.NewPCG(uint64(1e6*lo), uint64(1e6*hi)))
	var x [4096]float64
	for i := range x {
		x[i] = lo + (hi-lo)*r.Float64()
	}
	return &x
}

// each calls f with one place of the wandering values after the other.
func each(f func(i int)) func(int) {
	at := 0
	return func(calls int) {
		for range calls {
			f(at)
			at = (at + 1) & 4095
		}
	}
}

func hotFunctions() []hot {
	var all []hot
	for _, room := range []func() []hot{cheapOnes, ofGravity, ofABV, ofBlend, solverOnes, ofAdditions, slowOnes} {
		all = append(all, room()...)
	}
	return all
}

// cheapOnes are written out: a call through a variable would count.
func cheapOnes() []hot {
	p, q, g, plato, fg := wander(0, 0.6), wander(1, 96), wander(1, 1.12), wander(0, 28), wander(0.99, 1.05)
	return []hot{
		{"the floor: a polynomial of 12 coefficients", func(n int) {
			for i := range n {
				Kept += density.Ethanol20(p[i&4095])
			}
		}, 0, 0, 0},
		{"the floor, each waiting for the last", func(n int) {
			x := 0.3
			for range n {
				x = 0.3 + 1e-9*density.Ethanol20(x)
			}
			Kept = x
		}, 0, 0, 0},
		{"density.ByMass", func(n int) {
			for i := range n {
				Kept += density.ByMass(q[i&4095])
			}
		}, 15, 0, 0},
		{"gravity.Plato.SG", func(n int) {
			for i := range n {
				x, _ := gravity.Plato(plato[i&4095]).SG()
				Kept += float64(x)
			}
		}, 6, 0, 0},
		{"gravity.SG.Plato", func(n int) {
			for i := range n {
				x, _ := gravity.SG(g[i&4095]).Plato()
				Kept += float64(x)
			}
		}, 10, 0, 0},
		{"abv.Simple", func(n int) {
			for i := range n {
				x, _ := abv.Simple(gravity.SG(1.05+fg[i&4095]-0.99), gravity.SG(fg[i&4095]))
				Kept += float64(x)
			}
		}, 2, 0, 0},
	}
}

func ofGravity() []hot {
	h := gravity.NewHydrometer(units.Celsius(15))
	g, low, t, s := wander(1, 1.12), wander(1, 1.05), wander(5, 35), wander(2, 22)
	return []hot{
		{"gravity.Hydrometer.Correct", each(func(i int) {
			x, err := h.Correct(gravity.SG(g[i]), units.Celsius(t[i]))
			keep(float64(x), err)
		}), 40, 0, 0},
		{"gravity.Hydrometer.CorrectIn", each(func(i int) {
			x, err := h.CorrectIn(units.Strength(s[i]), gravity.SG(low[i]), units.Celsius(t[i]))
			keep(float64(x), err)
		}), 100, 0, 0},
	}
}

func ofABV() []hot {
	q, t, og, fg, target := wander(1, 96), wander(2, 38), wander(1.06, 1.12), wander(0.995, 1.05), wander(3, 7)
	var pairs [4096]struct {
		hydrometer gravity.SG
		brix       gravity.Brix
		residue    gravity.SG
	}
	strength, extract := wander(2, 22), wander(10, 200)
	for i := range pairs {
		c, err := abv.Compose(units.Strength(strength[i]), units.Concentration(extract[i]))
		keep(0, err)
		pairs[i].hydrometer, pairs[i].residue = c.Gravity, gravity.SG(1+0.00039*extract[i])
		pairs[i].brix = gravity.Brix(extract[i]/11 + 0.4*strength[i])
	}
	return []hot{
		{"abv.ByMass", each(func(i int) { x, err := abv.ByMass(units.Strength(q[i])); keep(float64(x), err) }), 15, 0, 0},
		{"abv.Density at 20 C", each(func(i int) { x, err := abv.Density(units.Strength(q[i]), units.Celsius(20)); keep(float64(x), err) }), 20, 0, 0},
		{"abv.Density at any temperature", each(func(i int) { x, err := abv.Density(units.Strength(q[i]), units.Celsius(t[i])); keep(float64(x), err) }), 32, 0, 0},
		{"abv.MassBalance", each(func(i int) {
			x, err := abv.MassBalance(gravity.SG(og[i]), gravity.SG(fg[i]), abv.Must)
			keep(float64(x.Strength), err)
		}), 60, 0, 0},
		{"abv.StopAt", each(func(i int) {
			x, err := abv.StopAt(gravity.SG(og[i]), units.Strength(target[i]), abv.Must)
			keep(float64(x.Gravity), err)
		}), 80, 0, 0},
		{"abv.TwoInstruments", each(func(i int) {
			x, err := abv.TwoInstruments(pairs[i].hydrometer, pairs[i].brix)
			keep(float64(x.Strength), err)
		}), 250, 0, 0},
		{"abv.TwoInstrumentsIn", each(func(i int) {
			x, err := abv.TwoInstrumentsIn(pairs[i].hydrometer, pairs[i].brix, abv.Solutes{Invert: 1, Glycerol: 6, Acid: 7})
			keep(float64(x.Strength), err)
		}), 1300, 0, 0},
		{"abv.BoilOff", each(func(i int) {
			x, err := abv.BoilOff(pairs[i].hydrometer, pairs[i].residue)
			keep(float64(x.Strength), err)
		}), 120, 0, 0},
	}
}

// unreachable says that a wish that must not be met was met, or failed otherwise.
func unreachable(err error) error {
	if errors.Is(err, blend.ErrUnreachable) {
		return nil
	}
	return fmt.Errorf("reachable, or no wish: %v", err)
}

func ofBlend() []hot {
	volume, strong, target := wander(0.2, 2), wander(60, 96), wander(16, 22)
	cherry := blend.Component{Name: "wine", Volume: 3, Strength: 6.2, Extract: 142}
	spirit := func(i int) blend.Component {
		return blend.Component{Name: "spirit", Strength: units.Strength(strong[i])}
	}
	return []hot{
		{"blend.Mix of two", each(func(i int) {
			s := spirit(i)
			s.Volume = units.Volume(volume[i])
			x, err := blend.Mix(cherry, s)
			keep(float64(x.Strength), err)
		}), 85, 0, 0},
		{"blend.Fortify", each(func(i int) {
			x, err := blend.Fortify(cherry, spirit(i), units.Strength(target[i]))
			keep(float64(x.Spirit), err)
		}), 150, 0, 0},
		{"blend.Fortify, spirit too weak", each(func(i int) {
			_, err := blend.Fortify(cherry, blend.Component{Name: "liqueur", Strength: units.Strength(strong[i] / 6.5)}, units.Strength(target[i]))
			keep(0, unreachable(err))
		}), 300, 1, 0},
		{"blend.Fortify, spirit too little", each(func(i int) {
			_, err := blend.Fortify(cherry, blend.Component{Name: "spirit", Strength: units.Strength(strong[i]), Volume: 0.1}, units.Strength(target[i]))
			keep(0, unreachable(err))
		}), 300, 1, 0},
	}
}

func solverOnes() []hot {
	jars := []blend.Component{{Strength: 13, Extract: 22}, {Strength: 6, Extract: 150}, {Strength: 60}}
	few := []blend.Component{{Name: "wine", Strength: 6, Extract: 142}, {Name: "spirit", Strength: 75}, {Name: "juice", Extract: 200}}
	ten := make([]blend.Component, 10)
	for i := range ten {
		ten[i] = blend.Component{Volume: 1.5, Strength: units.Strength(6 + i), Extract: units.Concentration(150 - 12*i), Acid: units.Concentration(8 - 0.3*float64(i)), Cost: float64(1 + i*7%5)}
	}
	ten[8], ten[9] = blend.Component{Volume: 1.5, Strength: 75, Cost: 9}, blend.Component{Volume: 1.5, Strength: 40, Cost: 6}
	x, y := wander(0, 1), wander(1, 2)
	solve := func(total units.Volume, cs []blend.Component, strength, extract [2]float64, met bool) func(int) {
		return each(func(i int) {
			wants := [2]blend.Want{blend.WantStrength(units.Strength(strength[0] + x[i]*(strength[1]-strength[0])))}
			n := 1
			if extract[1] > 0 {
				n, wants[1] = 2, blend.WantExtract(units.Concentration(extract[0]+(y[i]-1)*(extract[1]-extract[0])))
			}
			_, err := blend.Solve(total, cs, wants[:n]...)
			if !met {
				err = unreachable(err)
			}
			keep(0, err)
		})
	}
	return []hot{
		{"blend.Solve, three liquids and two wants", solve(5, jars, [2]float64{18, 22}, [2]float64{70, 90}, true), 400, 10, 0},
		{"blend.Solve, ten with stocks, two wants", solve(5, ten, [2]float64{18, 22}, [2]float64{70, 90}, true), 2000, 10, 0},
		{"blend.Solve, ten with stocks, one want", solve(5, ten, [2]float64{18, 22}, [2]float64{}, true), 3500, 10, 0},
		{"blend.Solve, three liquids, not reachable", solve(5, few, [2]float64{68, 72}, [2]float64{100, 120}, false), 12000, 200, 0},
		{"blend.Solve, ten with stocks, not reachable", solve(14, ten, [2]float64{25, 28}, [2]float64{80, 90}, false), 0, 200, 0},
	}
}

func ofAdditions() []hot {
	ph, strength, sulfite, ta, level := wander(3, 3.9), wander(10, 21), wander(0.01, 0.05), wander(4, 12), wander(20, 180)
	must := acid.Measurement{PH: 3.4, TA: 14, Strength: 6, StandardPH: 0.02, StandardTA: 0.2,
		Profile: acid.Acids{Malic: 14, Citric: 0.3, Succinic: 0.4, Lactic: 0.1, Acetic: 0.2}}
	measured := func(i int) acid.Measurement {
		m := must
		m.PH, m.TA = ph[i], units.Concentration(ta[i])
		return m
	}
	buffer, err := acid.Fit(must)
	keep(0, err)
	const entries = 1000
	var log law.Log
	for i := range entries {
		log = append(log, law.Entry{When: time.Date(2026, 7, 1, i, 0, 0, 0, time.UTC), Additive: law.LogPotassiumMetabisulfite, Mass: 0.01, Volume: units.Volume(3 + 0.001*float64(i))})
	}
	return []hot{
		{"additions.MolecularSO2", each(func(i int) {
			x, err := additions.MolecularSO2(units.Concentration(sulfite[i]), ph[i], 1.8)
			keep(float64(x), err)
		}), 15, 0, 0},
		{"acid.Buffer.PH after an addition", each(func(i int) {
			b, err := buffer.With(acid.Malic, units.Concentration(ta[i]/4))
			keep(0, err)
			x, err := b.PH()
			keep(x, err)
		}), 300, 0, 0},
		{"acid.Fit", each(func(i int) { x, err := acid.Fit(measured(i)); keep(float64(x.Potassium()), err) }), 550, 0, 0},
		{"acid.Predict", each(func(i int) {
			x, err := acid.Predict(must, func(b acid.Buffer) (acid.Buffer, error) { return b.With(acid.Malic, units.Concentration(ta[i]/4)) })
			keep(x.PH, err)
		}), 12000, 80, 0}, // 40 us of a floor of 3.3 ns
		{"sugar.RaiseGravity", each(func(i int) {
			x, err := sugar.RaiseGravity(1.05, gravity.SG(1.06+ph[i]/100), 3)
			keep(float64(x.Sugar), err)
		}), 45, 0, 0},
		{"stability.DelleUnits", each(func(i int) {
			x, err := stability.DelleUnits(units.Strength(strength[i]), units.Concentration(level[i]))
			keep(x, err)
		}), 10, 0, 0},
		{"stability.Judge", each(func(i int) {
			sugar := units.Concentration(level[i])
			x, err := stability.Judge(stability.Wine{Strength: units.Strength(strength[i]), StrengthUncertainty: 0.2, Sugar: abv.Sugars{Low: sugar, Likely: sugar, High: sugar}, PH: ph[i]})
			keep(float64(len(x.Barriers)), err)
		}), 0, -1, 0},
		{"law.Log.Levels, each of 1,000 entries", each(func(int) { x, err := log.Levels(); keep(float64(len(x)), err) }), 40, 4, entries},
	}
}

// course is a log of so many readings over six days.
func course(readings int) []watch.Reading {
	log := make([]watch.Reading, readings)
	for i := range log {
		part := float64(i) / float64(readings-1)
		log[i] = watch.Reading{Time: time.Date(2026, 7, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(part * float64(6*24*time.Hour))),
			Reading: gravity.SG(1.092 - 0.05*part*part*(3-2*part)), Temperature: units.Celsius(21 + 2*part)}
	}
	return log
}

func slowOnes() []hot {
	var out []hot
	for _, n := range []int{10, 100, 1000, 5000} {
		limit, log := 0.0, course(n)
		if n >= 1000 {
			limit = 4500 // 15 us of a floor of 3.3 ns: linear from one to the other
		}
		out = append(out, hot{fmt.Sprintf("watch.Follow, each of %d readings", n), each(func(int) {
			x, err := watch.Follow(log, watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}})
			keep(float64(len(x.Apart)), err)
		}), limit, -1, float64(n)})
	}
	v := wander(1, 4)
	blended := func(x []float64) (float64, error) { return (x[0]*x[2]+x[1]*x[3])/(x[0]+x[1]) + x[4], nil }
	in := func(i int) []uncertainty.Input {
		return []uncertainty.Input{{Value: v[i], Standard: 0.02}, {Value: 1, Standard: 0.01}, {Value: 12, Standard: 0.3}, {Value: 40, Standard: 0.2}, {Standard: 0.1}}
	}
	demo := batch.Demo()
	return append(out,
		hot{"uncertainty.Propagate, five inputs", each(func(i int) { x, err := uncertainty.Propagate(blended, in(i), nil); keep(x.Standard, err) }), 0, -1, 0},
		hot{"uncertainty.MonteCarlo, each of 10,000 trials", each(func(i int) {
			x, err := uncertainty.MonteCarlo(blended, in(i), nil, 10000, uint64(i))
			keep(x.Standard, err)
		}), 0, -1, 10000},
		hot{"batch.Batch.Work, the demonstration", each(func(int) { x, err := demo.Work(); keep(float64(len(x.Steps)), err) }), 0, -1, 0},
	)
}
