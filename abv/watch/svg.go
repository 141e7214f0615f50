package watch

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// The picture, in pixels.
const (
	svgWide, svgHigh           = 760, 440
	svgLeft, svgRight          = 64, 20
	svgTop, svgBottom          = 44, 64
	svgPlotWide, svgPlotHigh   = svgWide - svgLeft - svgRight, svgHigh - svgTop - svgBottom
	svgInk, svgBand, svgWindow = "#111", "#d4d4d4", "#444"
)

// SVG draws the course as one self-contained picture, readable in grey: the
// readings (rings; crosses were set apart), the smoothed course (a line), the
// forecast (a broken line) with its 80 % interval (a grey band), and the window
// (between two dotted lines). The axes are days since the start, with dates at the
// clock of place, and specific gravity. Errors: that of the
// writer; *units.RangeError for a course that Follow did not make.
func (c Course) SVG(w io.Writer, place *time.Location) error {
	if place == nil {
		place = time.UTC
	}
	p := picture{course: c, place: place, begin: c.Begins}
	p.frame()
	// A course that Follow did not make may hold anything: it has no picture.
	if err := units.Check("gravity of a course", p.top, 0.9, 1.5, "", "as Follow makes it"); err != nil {
		return err
	}
	if err := units.Check("gravity of a course", p.bottom, 0.7, p.top, "", "as Follow makes it"); err != nil {
		return err
	}
	if err := units.Check("days of a course", p.end.Sub(p.begin).Hours()/24, 0.01, 3700, "d", "as Follow makes it"); err != nil {
		return err
	}
	p.head()
	p.axes()
	p.lines()
	p.marks()
	p.put("</svg>\n")
	_, err := w.Write(p.Bytes())
	return err
}

// picture is the picture in the making, with its scales.
type picture struct {
	bytes.Buffer
	course      Course
	place       *time.Location
	begin, end  time.Time
	bottom, top float64 // SG
}

func (p *picture) put(format string, values ...any) { fmt.Fprintf(p, format, values...) }

func (p *picture) x(t time.Time) float64 {
	return svgLeft + svgPlotWide*float64(t.Sub(p.begin))/float64(p.end.Sub(p.begin))
}

func (p *picture) y(g float64) float64 {
	return svgTop + svgPlotHigh*(p.top-g)/(p.top-p.bottom)
}

// frame finds what the axes span: to the end of the window, or half as far again
// as the readings go.
func (p *picture) frame() {
	c := p.course
	last := c.last()
	p.end = last.Add(max(last.Sub(p.begin)/2, day))
	for _, t := range []time.Time{c.Asked, c.Window.Opens.Late, c.Window.Closes.Likely, c.Window.Closes.Late} {
		if t.After(p.end) {
			p.end = t
		}
	}
	if c.Method == NoForecast {
		p.end = last.Add(max(last.Sub(p.begin)/20, day/2))
	} else if p.end.After(c.Horizon) {
		p.end = c.Horizon
	}
	low := float64(c.Original)
	for _, q := range c.Points {
		low = min(low, float64(q.Gravity))
	}
	for _, o := range c.Path {
		if !o.Time.After(p.end) {
			low = min(low, float64(o.More.Gravity))
		}
	}
	if c.Window.State != NoWindow {
		low = min(low, float64(c.Window.To.Gravity))
	}
	high := float64(c.Original)
	const near = 0.03 // a reading that was set apart stretches the picture no further
	for _, a := range c.Apart {
		if g := float64(a.Reading); g > high && g < float64(c.Original)+near {
			high = g
		}
	}
	p.bottom, p.top = math.Floor((low-0.002)*200)/200, math.Ceil((high+0.002)*200)/200
}

func (p *picture) head() {
	p.put(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" font-family="sans-serif" font-size="13" fill="%s" role="img">`+"\n",
		svgWide, svgHigh, svgWide, svgHigh, svgInk)
	p.put("<title>Course of the fermentation</title>\n<desc>%s</desc>\n<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>\n", escape(p.course.Why))
	p.put(`<text x="%d" y="24">%s</text>`+"\n", svgLeft, escape(cut(p.course.Why, 100)))
}

// axes draws ticks of round numbers: at most ten of days, at most nine of gravity.
func (p *picture) axes() {
	p.put(`<path d="M%d %dV%dH%d" fill="none" stroke="%s"/>`+"\n", svgLeft, svgTop, svgHigh-svgBottom, svgWide-svgRight, svgInk)
	days := p.end.Sub(p.begin).Hours() / 24
	var step float64
	for _, s := range []float64{0.25, 0.5, 1, 2, 5, 7, 14, 28, 56, 182, 364} {
		if step = s; days/s <= 10 {
			break
		}
	}
	before := ""
	for d := 0.0; d <= days; d += step {
		at := p.begin.Add(time.Duration(d * float64(day)))
		date := at.In(p.place).Format("2 Jan")
		if date == before {
			date = ""
		} else {
			before = date
		}
		p.put(`<path d="M%.1f %dv5" stroke="%s"/><text x="%.1f" y="%d" text-anchor="middle">%.4g</text><text x="%.1f" y="%d" text-anchor="middle" font-size="11">%s</text>`+"\n",
			p.x(at), svgHigh-svgBottom, svgInk, p.x(at), svgHigh-svgBottom+19, d, p.x(at), svgHigh-svgBottom+34, date)
	}
	p.put(`<text x="%d" y="%d" text-anchor="end">days</text>`+"\n", svgWide-svgRight, svgHigh-svgBottom+52)
	key := "rings: readings; line: smoothed"
	if n := len(p.course.Apart); n > 0 {
		for _, a := range p.course.Apart {
			if p.shows(a) {
				n--
			}
		}
		key = "rings: readings; crosses: set apart; line: smoothed"
		if n > 0 {
			key = fmt.Sprintf("rings: readings; crosses: set apart (%d not in the picture); line: smoothed", n)
		}
	}
	if p.course.Method != NoForecast {
		key += "; broken: forecast, in the grey band 8 times in 10"
	}
	p.put(`<text x="%d" y="%d" font-size="11">%s</text>`+"\n", svgLeft, svgHigh-svgBottom+52, key)
	step = 0.005
	for (p.top-p.bottom)/step > 9 {
		step *= 2
	}
	for i := math.Ceil(p.bottom/step - 1e-9); i*step <= p.top+1e-9; i++ {
		p.put(`<path d="M%d %.1fh-5" stroke="%s"/><text x="%d" y="%.1f" text-anchor="end">%.3f</text>`+"\n", svgLeft, p.y(i*step), svgInk, svgLeft-8, p.y(i*step)+4, i*step)
	}
	p.put(`<text x="8" y="%d">SG</text>`+"\n", svgTop-14)
}

func (p *picture) window() {
	w := p.course.Window
	if w.State == NoWindow {
		return
	}
	for _, end := range []struct {
		g    gravity.SG
		name string
	}{{w.From.Gravity, "window opens"}, {w.To.Gravity, "window closes"}} {
		y := p.y(float64(end.g))
		p.put(`<path d="M%d %.1fH%d" stroke="%s" stroke-dasharray="2 4"/><text x="%d" y="%.1f" font-size="11">%s %.4f</text>`+"\n",
			svgLeft, y, svgWide-svgRight, svgWindow, svgLeft+6, y-4, end.name, float64(end.g))
	}
}

// lines draws the band, the window, the smoothed course and the forecast.
func (p *picture) lines() {
	c := p.course
	last := c.last()
	var past, ahead []Outlook
	for _, o := range c.Path {
		if !o.Time.After(last) {
			past = append(past, o)
		}
		if !o.Time.Before(last) && !o.Time.After(p.end) {
			ahead = append(ahead, o)
		}
	}
	if o, ok := c.At(p.end); ok && len(ahead) > 0 {
		ahead = append(ahead, o)
	}
	points := func(path []Outlook, line func(Outlook) gravity.SG) {
		for _, o := range path {
			p.put("%.1f,%.1f ", p.x(o.Time), p.y(float64(line(o))))
		}
	}
	likely := func(o Outlook) gravity.SG { return o.Likely.Gravity }
	if len(ahead) > 1 {
		p.put(`<polygon fill="%s" points="`, svgBand)
		points(ahead, func(o Outlook) gravity.SG { return o.Less.Gravity })
		for i := len(ahead) - 1; i >= 0; i-- {
			points(ahead[i:i+1], func(o Outlook) gravity.SG { return o.More.Gravity })
		}
		p.put(`"/>` + "\n")
	}
	p.window() // on the band, which would hide it
	if len(ahead) > 1 {
		p.put(`<polyline fill="none" stroke="` + svgInk + `" stroke-width="2" stroke-dasharray="7 4" points="`)
		points(ahead, likely)
		p.put(`"/>` + "\n")
	}
	if len(past) > 1 {
		p.put(`<polyline fill="none" stroke="%s" stroke-width="1.5" points="`, svgInk)
		points(past, likely)
		p.put(`"/>` + "\n")
	}
}

// marks draws the readings, those set apart where they are in the picture, and the
// time of asking.
func (p *picture) marks() {
	c := p.course
	for _, q := range c.Points {
		p.put(`<circle cx="%.1f" cy="%.1f" r="4" fill="#fff" stroke="%s" stroke-width="1.5"/>`+"\n", p.x(q.Time), p.y(float64(q.Gravity)), svgInk)
	}
	for _, a := range c.Apart {
		if p.shows(a) {
			p.put(`<path d="M%.1f %.1fm-4 -4l8 8m0 -8l-8 8" stroke="%s" stroke-width="1.5"/>`+"\n", p.x(a.Time), p.y(float64(a.Reading)), svgInk)
		}
	}
	if c.Asked.After(c.last()) && !c.Asked.After(p.end) {
		p.put(`<path d="M%.1f %dV%d" stroke="%s" stroke-dasharray="1 3"/><text x="%.1f" y="%d" font-size="11">now</text>`+"\n", p.x(c.Asked), svgTop, svgHigh-svgBottom, svgInk, p.x(c.Asked)+4, svgTop+12)
	}
}

// shows says whether a reading that was set apart lies in the picture.
func (p *picture) shows(a SetApart) bool {
	g := float64(a.Reading)
	return g >= p.bottom && g <= p.top && !a.Time.Before(p.begin) && !a.Time.After(p.end)
}

func escape(text string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(text)) // a buffer takes all
	return b.String()
}

// cut shortens a text to so many letters.
func cut(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}
