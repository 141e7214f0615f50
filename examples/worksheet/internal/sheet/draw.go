package sheet

import (
	"fmt"
	"html/template"
	"strings"

	"example.org/mutage/internal/say"
)

// A Drawing is a picture inside the page.
type Drawing = template.HTML

// A Layer is what fills a part of a jar, and how it is called there.
type Layer struct {
	Name   string
	Volume float64
	Shade  string // a colour that prints
}

// Jar draws a jar with its layers from the bottom up, to scale. size is its volume
// to the brim; what the layers leave of it stays white.
func Jar(layers []Layer, size float64) template.HTML {
	const width, height, left, top = 150.0, 105.0, 4.0, 6.0
	total := size
	var filled float64
	for _, l := range layers {
		filled += l.Volume
	}
	total = max(total, filled)
	if total <= 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="the jar" width="%.0f" height="%.0f" viewBox="0 0 %.0f %.0f">`, width, height+14, width, height+14)
	y := top + height
	for _, l := range layers {
		h := height * l.Volume / total
		y -= h
		fmt.Fprintf(&b, `<rect x="%.1f" y="%.1f" width="60" height="%.1f" fill="%s"/>`, left, y, h, l.Shade)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" font-size="8">%s</text>`, left+64, y+h/2+3, template.HTMLEscapeString(l.Name))
	}
	if size > filled {
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" font-size="8">room</text>`, left+64, min(y-1, top+(y-top)/2+3))
	}
	brim := top + height*(1-size/total)
	if size <= 0 {
		brim = y
	}
	fmt.Fprintf(&b, `<path d="M%.1f %.1f V%.1f H%.1f V%.1f" fill="none" stroke="#000" stroke-width="1.2"/></svg>`, left, brim, top+height, left+60, brim)
	return template.HTML(b.String())
}

// A Stand is a reading of the hydrometer on its way down.
type Stand struct {
	Name    string
	Reading float64
	Band    bool // an end of the window to stop in
}

// Fall draws the readings in order, from the must to the blend: where the
// hydrometer stands at each, on one scale. It is no forecast.
func Fall(marks []Stand) template.HTML {
	const width, height, left, top = 160.0, 100.0, 72.0, 8.0
	if len(marks) < 2 {
		return ""
	}
	high, low := marks[0].Reading, marks[0].Reading
	for _, m := range marks {
		high, low = max(high, m.Reading), min(low, m.Reading)
	}
	if high-low < 1e-6 {
		return ""
	}
	at := func(g float64) float64 { return top + height*(high-g)/(high-low) }
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="the readings" width="%.0f" height="%.0f" viewBox="0 0 %.0f %.0f">`, width, height+20, width, height+20)
	var window, path []string
	step := (width - left - 6) / float64(len(marks)-1)
	last := top - 8
	for i, m := range marks {
		y := at(m.Reading)
		path = append(path, fmt.Sprintf("%.1f,%.1f", left+step*float64(i), y))
		if m.Band {
			window = append(window, fmt.Sprintf("%.1f", y))
		}
		label := max(y+3, last+8)
		last = label
		fmt.Fprintf(&b, `<text x="0" y="%.1f" font-size="8">%s %s</text>`, label, say.Gravity(m.Reading), template.HTMLEscapeString(m.Name))
		fmt.Fprintf(&b, `<circle cx="%.1f" cy="%.1f" r="1.8"/>`, left+step*float64(i), y)
	}
	if len(window) == 2 {
		fmt.Fprintf(&b, `<path d="M%.1f %sH%.1fM%.1f %sH%.1f" stroke="#777" stroke-dasharray="2 2" fill="none"/>`, left-4, window[0], width, left-4, window[1], width)
	}
	fmt.Fprintf(&b, `<polyline points="%s" fill="none" stroke="#000"/></svg>`, strings.Join(path, " "))
	return template.HTML(b.String())
}
