package watch_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// A log of our own invention: a morello cherry must, read morning and evening.
func morello() []watch.Reading {
	at := func(day, hour int) time.Time { return time.Date(2026, 10, day, hour, 0, 0, 0, time.UTC) }
	return []watch.Reading{
		{Time: at(1, 8), Reading: 1.0920, Temperature: units.Celsius(21)},
		{Time: at(2, 8), Reading: 1.0890, Temperature: units.Celsius(21)},
		{Time: at(2, 20), Reading: 1.0850, Temperature: units.Celsius(22)},
		{Time: at(3, 8), Reading: 1.0795, Temperature: units.Celsius(22)},
		{Time: at(3, 20), Reading: 1.0735, Temperature: units.Celsius(23)},
		{Time: at(4, 8), Reading: 1.0670, Temperature: units.Celsius(23)},
	}
}

func ExampleFollow() {
	c, err := watch.Follow(morello(), watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}})
	if err != nil {
		fmt.Println(err)
		return
	}
	const day = "Mon 15:04"
	fmt.Printf("%v, %.0f +- %.0f points a day, %.1f %% vol now; %v\n", c.State, c.Rate, c.RateUncertainty, float64(c.Now.Likely.Strength), c.Method)
	fmt.Printf("the window, %.3f to %.3f, opens %s to %s\n", float64(c.Window.From.Gravity), float64(c.Window.To.Gravity), c.Window.Opens.Early.Format(day), c.Window.Opens.Late.Format(day))
	fmt.Printf("and closes %s to %s\n", c.Window.Closes.Early.Format(day), c.Window.Closes.Late.Format(day))
	fmt.Printf("come back %s to %s\n", c.Window.Opens.Likely.Format(day), c.Window.Closes.Likely.Format(day))
	fmt.Printf("read again by %s\n", c.ReadAgainBy.Format(day))
	// Output:
	// fermenting, 15 +- 4 points a day, 3.3 % vol now; fitted Gompertz course
	// the window, 1.055 to 1.046, opens Sun 20:59 to Mon 11:58
	// and closes Mon 06:41 to Tue 09:44
	// come back Mon 02:39 to Mon 16:43
	// read again by Sun 14:29
}

// The course as a chart draws it: what is likely, and the 80 % interval.
func ExampleCourse_At() {
	c, err := watch.Follow(morello(), watch.Setup{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for at := c.Points[0].Time; at.Before(c.Points[0].Time.AddDate(0, 0, 6)); at = at.AddDate(0, 0, 1) {
		if o, ok := c.At(at); ok {
			fmt.Printf("%s  %.3f  %.3f to %.3f\n", at.Format("Mon"), float64(o.Likely.Gravity), float64(o.Less.Gravity), float64(o.More.Gravity))
		}
	}
	// Output:
	// Thu  1.092  1.092 to 1.092
	// Fri  1.089  1.089 to 1.088
	// Sat  1.081  1.081 to 1.080
	// Sun  1.068  1.068 to 1.067
	// Mon  1.052  1.057 to 1.044
	// Tue  1.035  1.047 to 1.022
}

func BenchmarkWatch(b *testing.B) {
	log := morello()
	for i := range 5 { // ten readings after the must
		log = append(log, watch.Reading{Time: log[5].Time.Add(time.Duration(i+1) * 12 * time.Hour), Reading: log[5].Reading - 0.005*gravity.SG(i+1), Temperature: units.Celsius(23)})
	}
	plan := watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}}
	c, err := watch.Follow(log, plan)
	if err != nil || len(c.Points) != 11 {
		b.Fatal(err, c.Apart)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := watch.Follow(log, plan); err != nil {
			b.Fatal(err)
		}
	}
}
