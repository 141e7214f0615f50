package watch

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/mutage/units"
)

// The forms of dates that have one reading, of the time behind them and of its zone. One
// without a zone is in the log's own.
var (
	dateForms = []string{"2006-01-02", "2006/1/2", "2-Jan-2006", "2-Jan-06", "2 Jan 2006", "2 January 2006", "Jan 2 2006", "January 2 2006", "20060102"}
	timeForms = []string{" 15:04", " 15:04:05", " 3:04PM", " 3:04:05PM", " 150405"}
	zoneForms = []string{"", "Z07:00", "Z0700", "Z07"}
)

// plain is a time as the forms have it: no weekday, no commas, one space.
func plain(text string) string {
	text = weekday.ReplaceAllString(hourMark.ReplaceAllString(text, "$1:$2"), "")
	text = strings.TrimSuffix(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' }), " "), " Uhr")
	text = beforeTime.ReplaceAllString(text, "$1 $2")
	text = pointTime.ReplaceAllString(text, "$1 $2:$3")
	text = monthPoint.ReplaceAllString(text, "$1")
	text = halfDay.ReplaceAllStringFunc(text, func(half string) string { return strings.ToUpper(strings.TrimSpace(half)) })
	for _, zone := range []string{" UTC", " GMT"} { // other letters are not one zone
		text = strings.Replace(text, zone, "Z", 1)
	}
	return zoneSpace.ReplaceAllString(text, "$1$2")
}

// one reads a time that has one reading, and keeps its form.
func (d *dateReader) one(text string) (time.Time, bool) {
	for _, date := range dateForms {
		if t, err := time.ParseInLocation(date, text, d.place); err == nil {
			d.form = date
			return t, true
		}
		for _, clock := range timeForms {
			for _, zone := range zoneForms {
				if t, err := time.ParseInLocation(date+clock+zone, text, d.place); err == nil {
					d.form = date + clock + zone
					return t, true
				}
			}
		}
	}
	return time.Time{}, false
}

// ErrDateOrder says that a date such as 3/4/2026 has two readings: Format.Order
// settles it.
var ErrDateOrder = errors.New("say whether the day or the month stands first")

// numericDate is 20.11.2026, 11/20/2026 or 20-11-26, with or without a time.
var numericDate = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})[./-](\d{4}|\d{2})(?:[ T,]+(\d{1,2})[:.](\d{2})(?:[:.](\d{2}))?\s*([AaPp][Mm])?)?$`)

var (
	unixTime    = regexp.MustCompile(`^(\d{10}|\d{13})$`) // seconds or milliseconds since 1970 (IEEE Std 1003.1), 2001 to 2286
	dayNumber   = regexp.MustCompile(`^\d{5}([.,]\d+)?$`) // which day 0 was, the text does not say
	zoneLetters = regexp.MustCompile(`\d( [A-Z]{3,5})$`)  // not AM and PM
	dayCount    = regexp.MustCompile(`^\d{1,3}([.,]\d+)?$`)
	yearFirst   = regexp.MustCompile(`^\d{4}`)
	weekday     = regexp.MustCompile(`^(?i)(mon|tue|wed|thu|fri|sat|sun)[a-z]*[.,]? `)
	beforeTime  = regexp.MustCompile(`(\d)T(\d)`)
	pointTime   = regexp.MustCompile(`^(\d{4}-\d\d-\d\d) (\d{1,2})\.(\d\d)$`)
	monthPoint  = regexp.MustCompile(`(\b[A-Z][a-z]{2})\.`)
	halfDay     = regexp.MustCompile(`(?i)\s?[ap]m\b`)
	zoneSpace   = regexp.MustCompile(`([\dM]) ([-+]\d\d:?(?:\d\d)?$)`)
	hourMark    = regexp.MustCompile(`\b(\d{1,2})\s?[hH]\s?(\d{2})$`) // 8h30
)

// ParseTime reads one time as ReadLogAs reads those of a log. Error:
// *units.ParseError, or a sentence with both readings of a date that has two.
func (f Format) ParseTime(text string) (time.Time, error) {
	if f.Place == nil {
		f.Place = time.UTC
	}
	text = strings.TrimSpace(text)
	d := dateReader{place: f.Place, order: f.Order}
	d.look(text)
	return d.read(text)
}

// dateReader reads the times of one log. Whether the day or the month stands first
// in dates with slashes is one question for the whole log.
type dateReader struct {
	place                *time.Location
	order                DateOrder
	dayFirst, monthFirst string // a date that shows it
	form                 string // the last that fitted
}

// look remembers what a date shows of the order.
func (d *dateReader) look(text string) {
	if yearFirst.MatchString(text) {
		return
	}
	parts := numericDate.FindStringSubmatch(plain(text))
	if parts == nil || parts[2] == "." {
		return
	}
	first, _ := strconv.Atoi(parts[1])
	second, _ := strconv.Atoi(parts[3])
	switch {
	case first > 12 && second <= 12:
		d.dayFirst = text
	case second > 12 && first <= 12:
		d.monthFirst = text
	}
}

func (d *dateReader) read(text string) (time.Time, error) {
	if t, err := time.ParseInLocation(d.form, text, d.place); err == nil && d.form != "" {
		return t, nil // as the line before: a log of a sensor is long
	}
	switch {
	case unixTime.MatchString(text):
		n, _ := strconv.ParseInt(text, 10, 64) // thirteen digits at the most
		if len(text) == 10 {
			n *= 1000
		}
		return time.UnixMilli(n).In(d.place), nil
	case dayCount.MatchString(text):
		return time.Time{}, fmt.Errorf("time %q may be a count of days: write dates, such as 2026-10-01 08:00", text)
	case dayNumber.MatchString(text):
		return time.Time{}, fmt.Errorf("time %q may be a day number of a spreadsheet: format that column as a date, such as 2026-10-01 08:00", text)
	}
	if t, is := d.one(plain(text)); is {
		return t, nil
	}
	if zone := zoneLetters.FindStringSubmatch(text); zone != nil {
		return time.Time{}, fmt.Errorf("time %q: letters such as%s are more than one zone: write it as +01:00, or leave it out and say at which place the times were noted", text, zone[1])
	}
	parts := numericDate.FindStringSubmatch(plain(text))
	if parts == nil {
		return time.Time{}, &units.ParseError{Text: text, Quantity: "time", Expected: []string{"2026-10-01 08:00", "2026-10-01T08:00:00+02:00", "1.10.2026 8:00", "10/1/2026 8:00 AM"}}
	}
	day, _ := strconv.Atoi(parts[1])
	month, _ := strconv.Atoi(parts[3])
	order, err := d.orderOf(text, parts, day, month)
	if err != nil {
		return time.Time{}, err
	}
	if order == MonthFirst {
		day, month = month, day
	}
	return d.make(text, parts, day, month)
}

// orderOf is the order of one date: with points the day stands first.
func (d *dateReader) orderOf(text string, parts []string, first, second int) (DateOrder, error) {
	switch {
	case parts[2] == ".":
		return DayFirst, nil
	case d.order != OrderNotStated:
		return d.order, nil
	case d.dayFirst != "" && d.monthFirst != "":
		return 0, fmt.Errorf("time %q: the log has the day first in %q and the month first in %q", text, d.dayFirst, d.monthFirst)
	case d.dayFirst != "":
		return DayFirst, nil
	case d.monthFirst != "":
		return MonthFirst, nil
	case first == second:
		return DayFirst, nil
	}
	asDay, err := d.make(text, parts, first, second)
	if err != nil {
		return 0, err
	}
	asMonth, err := d.make(text, parts, second, first)
	if err != nil {
		return 0, err
	}
	const form = "2 January 2006"
	return 0, fmt.Errorf("time %q is %s or %s: %w", text, asDay.Format(form), asMonth.Format(form), ErrDateOrder)
}

// make is the time of these numbers.
func (d *dateReader) make(text string, parts []string, day, month int) (time.Time, error) {
	year, _ := strconv.Atoi(parts[4])
	if year < 100 {
		year += 2000
	}
	hour, _ := strconv.Atoi("0" + parts[5])
	minute, _ := strconv.Atoi("0" + parts[6])
	second, _ := strconv.Atoi("0" + parts[7])
	half := strings.ToLower(parts[8])
	noon := half != "" && hour%12 == 0
	bad := month < 1 || month > 12 || minute > 59 || second > 59 || half != "" && (hour < 1 || hour > 12)
	if noon {
		hour = 0
	}
	if half == "pm" {
		hour += 12
	}
	t := time.Date(year, time.Month(month), day, hour, minute, second, 0, d.place)
	if bad || t.Day() != day { // from hour 24 on it is another day
		return time.Time{}, &units.ParseError{Text: text, Quantity: "time", Expected: []string{"a day and an hour that exist"}}
	}
	return t, nil
}
