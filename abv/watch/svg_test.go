package watch_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"example.org/mutage/abv"
	"example.org/mutage/abv/watch"
	"example.org/mutage/gravity"
)

// A drawing is a picture as it stands on paper: lengths from its upper left corner, and
// the scales that its own ticks and numbers make.
type drawing struct {
	text                     string
	wide, high               float64
	left, top, bottom, right float64 // of the frame of the axes
	days, gravities          []tick
	perDay, perSG            float64 // along x and y, down
}

// A tick is a number of an axis, where its tick is and where the number begins.
type tick struct{ value, at, x, y float64 }

func numbers(t *testing.T, groups []string) (out []float64) {
	t.Helper()
	for _, g := range groups {
		x, err := strconv.ParseFloat(g, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, x)
	}
	return out
}

var (
	viewForm    = regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)" width="(\d+)" height="(\d+)"`)
	frameForm   = regexp.MustCompile(`<path d="M(\d+) (\d+)V(\d+)H(\d+)" fill="none"`)
	dayForm     = regexp.MustCompile(`<path d="M([\d.]+) ([\d.]+)v5" stroke="#111"/><text x="([\d.]+)" y="([\d.]+)" text-anchor="middle">([\d.]+)</text><text x="([\d.]+)" y="([\d.]+)" text-anchor="middle" font-size="11">([^<]*)</text>`)
	gravityForm = regexp.MustCompile(`<path d="M([\d.]+) (-?[\d.]+)h-5" stroke="#111"/><text x="([\d.]+)" y="(-?[\d.]+)" text-anchor="end">([\d.]+)</text>`)
	ringForm    = regexp.MustCompile(`<circle cx="([-\d.]+)" cy="([-\d.]+)"`)
	crossForm   = regexp.MustCompile(`<path d="M([-\d.]+) ([-\d.]+)m-4 -4l8 8m0 -8l-8 8"`)
	pointsForm  = regexp.MustCompile(`<(polygon|polyline) ([^>]*)points="([^"]*)"`)
	windowForm  = regexp.MustCompile(`<path d="M(\d+) ([\d.]+)H(\d+)" stroke="#444" stroke-dasharray="2 4"/><text x="(\d+)" y="([\d.]+)" font-size="11">window (opens|closes) ([\d.]+)</text>`)
	nowForm     = regexp.MustCompile(`<path d="M([\d.]+) (\d+)V(\d+)" stroke="#111" stroke-dasharray="1 3"/><text x="([\d.]+)" y="(\d+)" font-size="11">now</text>`)
	aboveForm   = regexp.MustCompile(`<text x="([\d.]+)" y="([\d.]+)">SG</text>`)
	belowForm   = regexp.MustCompile(`<text x="[\d.]+" y="([\d.]+)"[^>]*>(?:days|rings:[^<]*)</text>`)
	textForm    = regexp.MustCompile(`<text x="([\d.]+)" y="(-?[\d.]+)"`)
)

// draw draws a course and reads the picture.
func draw(t *testing.T, c watch.Course) (d drawing) {
	t.Helper()
	var b strings.Builder
	if err := c.SVG(&b, nil); err != nil {
		t.Fatal(err)
	}
	d.text = b.String()
	view := numbers(t, viewForm.FindStringSubmatch(d.text)[1:])
	frame := numbers(t, frameForm.FindStringSubmatch(d.text)[1:])
	d.wide, d.high = view[0], view[1]
	d.left, d.top, d.bottom, d.right = frame[0], frame[1], frame[2], frame[3]
	if view[2] != d.wide || view[3] != d.high || d.left < 30 || d.top < 20 || d.wide-d.right < 10 || d.high-d.bottom < 50 || d.right-d.left < d.wide/2 || d.bottom-d.top < d.high/2 {
		t.Fatalf("view %v, frame %v", view, frame)
	}
	for _, m := range dayForm.FindAllStringSubmatch(d.text, -1) {
		n := numbers(t, m[1:8])
		d.days = append(d.days, tick{n[4], n[0], n[2], n[3]})
		if n[1] != d.bottom || n[2] != n[0] || n[5] != n[0] || n[3] < d.bottom+10 || n[6] < n[3]+10 || n[6] > d.high {
			t.Errorf("a day's tick, number and date at %v, frame %v", n, frame)
		}
	}
	for _, m := range gravityForm.FindAllStringSubmatch(d.text, -1) {
		n := numbers(t, m[1:])
		d.gravities = append(d.gravities, tick{n[4], n[1], n[2], n[3]})
		if n[0] != d.left || n[2] > d.left-5 || n[3] < n[1]+2 || n[3] > n[1]+6 { // centred: half the height of a figure below
			t.Errorf("a gravity's tick and number at %v, frame %v", n, frame)
		}
	}
	if n := numbers(t, aboveForm.FindStringSubmatch(d.text)[1:]); n[1] > d.top-5 || n[0] > d.left {
		t.Errorf("SG stands at %v, not above its axis", n)
	}
	below := belowForm.FindAllStringSubmatch(d.text, -1)
	for _, m := range below {
		if n := numbers(t, m[1:2]); n[0] < d.bottom+40 {
			t.Errorf("%s: at %v, above the dates", m[0], n)
		}
	}
	if len(below) != 2 {
		t.Errorf("%q is below the axis", below)
	}
	if len(d.days) < 2 || len(d.gravities) < 2 {
		t.Fatalf("%d days and %d gravities are marked", len(d.days), len(d.gravities))
	}
	d.perDay = slope(d.days)
	d.perSG = slope(d.gravities)
	for _, m := range textForm.FindAllStringSubmatch(d.text, -1) {
		if n := numbers(t, m[1:]); n[0] > d.wide || n[1] < 8 || n[1] > d.high {
			t.Errorf("words at %v, outside of the picture", n)
		}
	}
	return d
}

// slope is the length per unit between the first and the last tick.
func slope(ticks []tick) float64 {
	a, b := ticks[0], ticks[len(ticks)-1]
	return (b.at - a.at) / (b.value - a.value)
}

func (d drawing) x(days float64) float64 { return d.left + days*d.perDay }
func (d drawing) y(g float64) float64 {
	return d.gravities[0].at + (g-d.gravities[0].value)*d.perSG
}

// end and the ends of the gravities are what the frame spans, by its own scales.
func (d drawing) end() float64         { return (d.right - d.left) / d.perDay }
func (d drawing) of(y float64) float64 { return d.gravities[0].value + (y-d.gravities[0].at)/d.perSG }

func (d drawing) inside(x, y float64) bool {
	return x >= d.left-0.06 && x <= d.right+0.06 && y >= d.top-0.06 && y <= d.bottom+0.06
}

const pixel = 0.11 // numbers have one place, and so have the ticks that scale them

// Axes have round numbers that increase, each where its value is.
func (d drawing) axes(t *testing.T, days, original, lowest float64) {
	t.Helper()
	if math.Abs(d.end()/days-1) > 0.001 {
		t.Errorf("the axis spans %.3f days, want %.3f", d.end(), days)
	}
	step := d.days[1].value
	want := 364.0
	for _, s := range []float64{0.25, 0.5, 1, 2, 5, 7, 14, 28, 56, 182} {
		if days <= 10*s {
			want = s
			break
		}
	}
	if step != want || len(d.days) != int(days/step+1e-9)+1 {
		t.Errorf("%d days %v apart for %v, want %v", len(d.days), step, days, want)
	}
	for i, k := range d.days {
		if k.value != float64(i)*step || math.Abs(k.at-d.x(k.value)) > pixel || !d.inside(k.at, d.bottom) {
			t.Errorf("day %v at %v, want day %v at %v", k.value, k.at, float64(i)*step, d.x(k.value))
		}
	}
	n := len(d.gravities)
	step = math.Round(1000*(d.gravities[1].value-d.gravities[0].value)) / 1000
	if n < 5 && step > 0.005 || n > 10 || step != 0.005 && step != 0.01 && step != 0.02 && step != 0.04 {
		t.Errorf("%d gravities %v apart", n, step)
	}
	for i, k := range d.gravities {
		if math.Abs(k.value-d.gravities[0].value-float64(i)*step) > 1e-9 || math.Abs(k.value/step-math.Round(k.value/step)) > 1e-6 || math.Abs(k.at-d.y(k.value)) > pixel || !d.inside(d.left, k.at) {
			t.Errorf("gravity %v at %v, want %v", k.value, k.at, d.y(k.value))
		}
	}
	top, bottom := d.of(d.top), d.of(d.bottom)
	// Ends are whole 0.005, with 0.002 to 0.007 of room.
	for name, x := range map[string]struct{ end, room float64 }{"top": {top, top - original}, "bottom": {bottom, lowest - bottom}} {
		if whole := x.end * 200; math.Abs(whole-math.Round(whole)) > 0.05 || x.room < 0.002-2e-4 || x.room > 0.007+1e-5 {
			t.Errorf("the %s is %.5f, with %.5f of room", name, x.end, x.room)
		}
	}
	for _, end := range []float64{top, bottom} { // whole steps at the ends have a number
		if k := math.Round(end*1000) / 1000; math.Abs(k/step-math.Round(k/step)) < 1e-6 && math.Abs(d.gravities[0].value-k) > 1e-9 && math.Abs(d.gravities[n-1].value-k) > 1e-9 {
			t.Errorf("no number at the end %v", k)
		}
	}
}

// plain is a course without a forecast, made by hand, read on these days.
func plain(last float64, gravities ...gravity.SG) watch.Course {
	c := watch.Course{Original: gravities[0], Begins: start, Why: "made by hand"}
	for i, g := range gravities {
		at := after(24 * last * float64(i) / float64(len(gravities)-1))
		c.Points = append(c.Points, watch.Point{Index: i, Time: at, Gravity: g})
		c.Asked, c.Horizon = at, at
	}
	return c
}

// However long a log is, its days are marked in round numbers at their place, at most
// ten steps of them, and its rings stand where their readings are.
func TestAxesAreRoundAndTrue(t *testing.T) {
	for _, step := range []float64{0.25, 0.5, 1, 2, 5, 7, 14, 28, 56, 182} {
		for _, days := range []float64{9.93 * step, 10.1 * step} {
			last := days / 1.05 // a twentieth more is shown, half a day at the least
			if last/20 < 0.5 {
				last = days - 0.5
			}
			c := plain(last, 1.092, 1.08, 1.07, 1.0601)
			d := draw(t, c)
			d.axes(t, days, 1.092, 1.0601)
			d.rings(t, c)
			if crosses := crossForm.FindAllString(d.text, -1); len(crosses) != 0 || strings.Contains(d.text, "polygon") || strings.Contains(d.text, "set apart") || strings.Contains(d.text, "broken") {
				t.Errorf("%v days: more than readings is drawn", days)
			}
		}
	}
	for _, lowest := range []gravity.SG{1.0885, 1.0702, 1.05702, 1.0449, 1.03, 1.0001, 0.9912} {
		c := plain(5, 1.09298, lowest)
		d := draw(t, c)
		d.axes(t, 5.5, 1.09298, float64(lowest))
		d.rings(t, c)
	}
}

func (d drawing) rings(t *testing.T, c watch.Course) {
	t.Helper()
	rings := ringForm.FindAllStringSubmatch(d.text, -1)
	if len(rings) != len(c.Points) {
		t.Fatalf("%d rings for %d readings", len(rings), len(c.Points))
	}
	for i, p := range c.Points {
		n := numbers(t, rings[i][1:])
		x, y := d.x(p.Time.Sub(c.Begins).Hours()/24), d.y(float64(p.Gravity))
		if math.Abs(n[0]-x) > 2*pixel || math.Abs(n[1]-y) > 2*pixel || !d.inside(n[0], n[1]) {
			t.Errorf("reading %d stands at %v, want %.1f, %.1f", i, n, x, y)
		}
	}
}

// Of a fermentation that falls the lines lie in the frame, the band goes from the last
// reading to the end about the broken line, the smoothed line passes the readings, the
// window lies at its gravities, and now is now.
func TestThePictureOfAForecast(t *testing.T) {
	setup := watch.Setup{Goal: abv.Goal{MinStrength: 5, MinExtract: 142}}
	log := morello()
	setup.Now = log[len(log)-1].Time.Add(10 * time.Hour)
	c, err := watch.Follow(log, setup)
	if err != nil {
		t.Fatal(err)
	}
	d := draw(t, c)
	last := c.Points[len(c.Points)-1].Time
	days := func(at time.Time) float64 { return at.Sub(c.Begins).Hours() / 24 }
	end := max(days(last)*1.5, days(last)+1, days(c.Window.Opens.Late), days(c.Window.Closes.Likely), days(c.Window.Closes.Late))
	o, _ := c.At(c.Begins.Add(time.Duration(end * 24 * float64(time.Hour))))
	if low := float64(o.More.Gravity); math.Abs(d.end()-end) > 0.02 || d.of(d.bottom) > low-0.001 || d.of(d.bottom) < low-0.008 {
		t.Errorf("spans %.2f days, want %.2f; down to %.4f, the band to %.4f", d.end(), end, d.of(d.bottom), low)
	}
	d.rings(t, c)
	lines := map[string][][]float64{}
	for _, m := range pointsForm.FindAllStringSubmatch(d.text, -1) {
		name := "smoothed"
		if m[1] == "polygon" {
			name = "band"
		} else if strings.Contains(m[2], "dasharray") {
			name = "forecast"
		}
		for _, p := range strings.Fields(m[3]) {
			x, y, _ := strings.Cut(p, ",")
			n := numbers(t, []string{x, y})
			lines[name] = append(lines[name], n)
			if !d.inside(n[0], n[1]) {
				t.Errorf("%s: %v lies outside of the frame", name, n)
			}
			on := c.Begins.Add(time.Duration((n[0] - d.left) / d.perDay * 24 * float64(time.Hour)))
			if o, ok := c.At(on); ok && name != "band" && math.Abs(n[1]-d.y(float64(o.Likely.Gravity))) > 1 {
				t.Errorf("%s: %v, likely is %.1f", name, n, d.y(float64(o.Likely.Gravity)))
			}
		}
	}
	band, broken, past := lines["band"], lines["forecast"], lines["smoothed"]
	n := len(broken)
	if n < 10 || len(band) != 2*n || len(past) < 10 {
		t.Fatalf("%d points of the forecast, %d of its band, %d of the smoothed course", n, len(band), len(past))
	}
	for i, p := range broken {
		less, more := band[i], band[2*n-1-i]
		if less[0] != p[0] || more[0] != p[0] || less[1] > p[1] || more[1] < p[1] {
			t.Errorf("the band is %v to %v about %v", less, more, p)
		}
	}
	if math.Abs(broken[0][0]-d.x(days(last))) > pixel || math.Abs(broken[n-1][0]-d.right) > pixel || math.Abs(past[0][0]-d.left) > pixel || math.Abs(past[len(past)-1][0]-broken[0][0]) > pixel {
		t.Errorf("the forecast goes from %v to %v, the past from %v to %v", broken[0], broken[n-1], past[0], past[len(past)-1])
	}
	window := windowForm.FindAllStringSubmatch(d.text, -1)
	if len(window) != 2 {
		t.Fatalf("%d ends of the window", len(window))
	}
	for i, g := range []gravity.SG{c.Window.From.Gravity, c.Window.To.Gravity} {
		w := numbers(t, append(window[i][1:6:6], window[i][7]))
		if w[0] != d.left || w[2] != d.right || math.Abs(w[1]-d.y(float64(g))) > 2*pixel || w[3] < d.left || w[4] > w[1]-2 || w[4] < w[1]-8 || math.Abs(w[5]-float64(g)) > 5.1e-5 {
			t.Errorf("window %s %v, want %.4f", window[i][6], w, float64(g))
		}
	}
	now := nowForm.FindAllStringSubmatch(d.text, -1)
	if len(now) != 1 {
		t.Fatalf("now is drawn %d times", len(now))
	}
	if n := numbers(t, now[0][1:]); math.Abs(n[0]-d.x(days(setup.Now))) > pixel || n[1] != d.top || n[2] != d.bottom || n[3] < n[0]+2 || n[3] > n[0]+8 || n[4] < d.top+8 || n[4] > d.top+20 {
		t.Errorf("now: %v", n)
	}
	if !strings.Contains(d.text, "broken: forecast") {
		t.Error("the key does not say what is forecast")
	}
	setup.Now, setup.Horizon = time.Time{}, 12*time.Hour
	if c, err = watch.Follow(log, setup); err != nil {
		t.Fatal(err)
	}
	if d = draw(t, c); math.Abs(d.end()-days(c.Horizon)) > 0.02 || nowForm.MatchString(d.text) {
		t.Errorf("spans %.2f days to a horizon of %.2f", d.end(), days(c.Horizon))
	}
	setup.Goal = abv.Goal{}
	setup.Horizon = 0
	if c, err = watch.Follow(log, setup); err != nil {
		t.Fatal(err)
	}
	if d = draw(t, c); math.Abs(d.end()-1.5*days(last)) > 0.02 || windowForm.MatchString(d.text) {
		t.Errorf("without a window it spans %.2f days, want half as far again as %.2f", d.end(), days(last))
	}
}

// A reading that was set apart stands in the picture where it is near, up to 0.03 above
// the must; else the key counts it.
func TestCrossesAreReadingsSetApart(t *testing.T) {
	for g, there := range map[gravity.SG]bool{1.1247: true, 1.1253: false, 1.085: true, 1.02: false} {
		c := plain(10, 1.095, 1.08, 1.07)
		c.Apart = []watch.SetApart{{Index: 3, Time: after(120), Reading: g, Reason: watch.Rising}}
		d := draw(t, c)
		crosses := crossForm.FindAllStringSubmatch(d.text, -1)
		if (len(crosses) == 1) != there || strings.Contains(d.text, "(1 not in the picture)") == there || !strings.Contains(d.text, "crosses: set apart") {
			t.Errorf("%v: %d crosses", g, len(crosses))
			continue
		}
		if there {
			if n := numbers(t, crosses[0][1:]); math.Abs(n[0]-d.x(5)) > 2*pixel || math.Abs(n[1]-d.y(float64(g))) > 2*pixel || !d.inside(n[0], n[1]) {
				t.Errorf("%v stands at %v, want %.1f, %.1f", g, n, d.x(5), d.y(float64(g)))
			}
		}
	}
	for hours, there := range map[float64]bool{-1: false, 0: true, 252: true, 253: false} { // half a day more is shown
		c := plain(10, 1.095, 1.08, 1.07)
		c.Apart = []watch.SetApart{{Index: 3, Time: after(hours), Reading: 1.08, Reason: watch.Rising}}
		if d := draw(t, c); crossForm.MatchString(d.text) != there {
			t.Errorf("after %v h: a cross %v", hours, !there)
		}
	}
}

// The title has a hundred letters at the most; the whole sentence is in the description.
func TestTheTitleIsShort(t *testing.T) {
	title := regexp.MustCompile(`y="24">([^<]*)</text>`)
	for n, want := range map[int]int{99: 99, 100: 100, 101: 100, 300: 100} {
		c := plain(3, 1.09, 1.08)
		c.Why = strings.Repeat("ä", n)
		d := draw(t, c)
		if got := title.FindStringSubmatch(d.text)[1]; utf8.RuneCountInString(got) != want || strings.HasSuffix(got, "…") != (n > 100) || !strings.Contains(d.text, "<desc>"+c.Why+"</desc>") {
			t.Errorf("%d letters: %q", n, got)
		}
	}
}

// Dates stand once under the days that have them.
func TestDatesStandOnce(t *testing.T) {
	d := draw(t, plain(1.9, 1.09, 1.08)) // in steps of a quarter of a day, from 08:00
	var dates []string
	for _, m := range dayForm.FindAllStringSubmatch(d.text, -1) {
		dates = append(dates, m[8])
	}
	if got := strings.Join(dates, ","); got != "1 Oct,,,2 Oct,,,,3 Oct,," {
		t.Errorf("%q", got)
	}
}

// A course that Follow did not make is drawn within what it makes, and refused beyond.
func TestWhatIsDrawn(t *testing.T) {
	short := func(days float64) watch.Course {
		c := plain(0.001, 1.09, 1.089)
		c.Method, c.Horizon = watch.ByTwo, after(24*days)
		return c
	}
	for name, c := range map[string]struct {
		course watch.Course
		good   bool
	}{
		"up to 1.5":          {plain(3, 1.497, 1.1), true},
		"above":              {plain(3, 1.503, 1.1), false},
		"from 0.9":           {plain(3, 0.897, 0.8), true},
		"below":              {plain(3, 0.887, 0.8), false},
		"down to 0.7":        {plain(3, 1, 0.7025), true},
		"deeper":             {plain(3, 1, 0.6975), false},
		"ten years":          {plain(3690/1.05, 1.09, 1.08), true},
		"more":               {plain(3710/1.05, 1.09, 1.08), false},
		"a quarter hour":     {short(0.0101), true},
		"less than 0.01 day": {short(0.0099), false},
		"nothing":            {watch.Course{}, false},
	} {
		var b strings.Builder
		if err := c.course.SVG(&b, nil); (err == nil) != c.good || (b.Len() > 0) != c.good {
			t.Errorf("%s: %v, %d letters", name, err, b.Len())
		}
	}
}
