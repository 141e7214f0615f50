package watch_test

import (
	"fmt"
	"time"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
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
	fmt.Printf("the window, %.3f to %.3f, opens %s\n", float64(c.Window.From.Gravity), float64(c.Window.To.Gravity), c.Window.Opens.Text(c.Asked, nil))
	fmt.Printf("and closes %s\n", c.Window.Closes.Text(c.Asked, nil))
	fmt.Printf("come back %s; chance that it is open then %.0f %%\n", c.Window.ComeBack.Likely.Format(day), 100*c.Window.ComeBack.Chance)
	fmt.Printf("read again by %s\n", c.ReadAgainBy.Format(day))
	// Output:
	// fermenting, 13 +- 5 points a day, 3.3 % vol now; fitted Gompertz course
	// the window, 1.055 to 1.046, opens Sun 4 Oct 21 h to Mon 5 Oct 20 h
	// and closes Mon 5 Oct 07 h to Tue 6 Oct 20 h
	// come back Mon 10:49; chance that it is open then 54 %
	// read again by Sun 14:40
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
	// Fri  1.088  1.090 to 1.087
	// Sat  1.081  1.082 to 1.079
	// Sun  1.068  1.069 to 1.067
	// Mon  1.053  1.060 to 1.045
	// Tue  1.039  1.051 to 1.023
}
