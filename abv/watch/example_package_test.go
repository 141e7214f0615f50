package watch_test

import (
	"fmt"
	"strings"

	"example.org/mutage/abv/watch"
)

// A log as it is written down. By hand: the hydrometer fell from 1.092 to 1.046, 46
// points at 0.135 % vol a point, of which a must by the balance has made 6.2 % vol.
func Example() {
	const notes = `time,reading,temperature
2031-10-01 08:00,1.0920,20 C
2031-10-03 08:00,1.0680,20 C
2031-10-05 08:00,1.0460,20 C
`
	log, err := watch.ReadLog(strings.NewReader(notes), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	course, err := watch.Follow(log, watch.Setup{})
	fmt.Printf("%v at %.1f %% vol, %.0f points a day, %v\n", course.State, float64(course.Now.Likely.Strength), course.Rate, err)
	// Output:
	// fermenting at 6.2 % vol, 11 points a day, <nil>
}
