package watch

import (
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// byTheHour is the means of the readings of each hour, at their mean time.
func byTheHour(log []Reading) []Reading {
	type sums struct {
		first                           Reading
		span                            time.Duration
		n, reading, refractive, mass    float64
		withReading, withIndex, weighed float64
		temperature, withTemperature    float64
	}
	var order []time.Time
	hours := map[time.Time]*sums{}
	for _, l := range log {
		hour := l.Time.UTC().Truncate(time.Hour)
		s := hours[hour]
		if s == nil {
			s = &sums{first: l}
			hours[hour], order = s, append(order, hour)
		}
		s.n, s.span = s.n+1, s.span+l.Time.Sub(s.first.Time)
		add := func(sum, count *float64, x float64) {
			if x != 0 {
				*sum, *count = *sum+x, *count+1
			}
		}
		add(&s.reading, &s.withReading, float64(l.Reading))
		add(&s.refractive, &s.withIndex, float64(l.Refractometer))
		add(&s.mass, &s.weighed, float64(l.Mass))
		add(&s.temperature, &s.withTemperature, float64(l.Temperature))
	}
	mean := func(sum, count float64) float64 { return sum / max(count, 1) }
	out := make([]Reading, 0, len(order))
	for _, hour := range order {
		s := hours[hour]
		out = append(out, Reading{
			Time:          s.first.Time.Add(time.Duration(float64(s.span) / s.n)).Round(time.Second),
			Reading:       gravity.SG(mean(s.reading, s.withReading)),
			Refractometer: gravity.Brix(mean(s.refractive, s.withIndex)),
			Mass:          units.Mass(mean(s.mass, s.weighed)),
			Temperature:   units.Temperature(mean(s.temperature, s.withTemperature)),
			Brix:          s.first.Brix,
			Line:          s.first.Line,
		})
	}
	return out
}
