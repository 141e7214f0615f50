package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
)

// drawn is a batch as somebody might write it: fields beside each other, each with
// a value of its own.
func drawn(r *rand.Rand) string {
	one := func(values ...string) string { return values[r.IntN(len(values))] }
	number := func(lo, hi float64, places int) string { return fmt.Sprintf("%.*f", places, lo+(hi-lo)*r.Float64()) }
	set := map[string]string{"units": one("metric", "us", "imperial")}
	maybe := func(chance float64, name string, value string) {
		if r.Float64() < chance {
			set[name] = value
		}
	}
	if r.Float64() < 0.7 {
		set["must"] = one(number(0.3, 60, 1)+" L", number(0.5, 40, 1)+" kg", number(1, 9, 0)+" quart ± 3 %")
		set[one("must_reading", "original_reading")] = number(1.03, 1.12, 3)
		if r.Float64() < 0.2 {
			delete(set, "must_reading")
			delete(set, "original_reading")
			set["juice_label"] = number(15, 40, 0) + " g per 240 mL"
		}
		maybe(0.8, "must_temperature", number(10, 30, 0)+" C")
		maybe(0.4, "sugar", one(number(50, 900, 0)+" g", "1 1/2 cups honey", "2 cups brown sugar"))
		set["stop_at"] = number(0, 14, 1) + " % vol"
		maybe(0.1, "stop_at", "0 % vol")
		maybe(0.3, "lees", number(20, 200, 0)+" mL")
		maybe(0.2, "stop_reading", number(1.0, 1.07, 3))
		maybe(0.2, "start", "2026-11-25 18:00")
	} else {
		set["wine"] = number(0.5, 30, 1) + " L"
		set["wine_reading"] = number(0.99, 1.03, 3)
		set["wine_strength"] = number(8, 15, 1) + " % vol"
		maybe(0.3, "target_sugar", number(20, 150, 0)+" g/L")
		maybe(0.3, "sulfite_total", number(20, 150, 0)+" mg/L")
	}
	maybe(0.6, "ph", number(2.9, 3.9, 2))
	maybe(0.5, "yeast_limit", number(8, 18, 0)+" % vol")
	maybe(0.6, "cellar_temperature", number(2, 28, 0)+" C")
	maybe(0.6, "sulfite", number(10, 120, 0)+" mg/L")
	maybe(0.4, "sorbate", number(50, 250, 0)+" mg/L")
	maybe(0.3, "acid", number(0.2, 3, 1)+" g/L")
	if r.Float64() < 0.85 {
		set["spirit_strength"] = one(number(30, 96, 0)+" % vol", "80 proof", "50 % mass")
		maybe(0.8, "target", number(12, 24, 1)+" % vol")
		maybe(0.3, "spirit_planned", number(0.1, 3, 2)+" L")
		if _, is := set["target"]; is {
			maybe(0.2, "spirit_stock", number(0.05, 4, 2)+" L")
		} else {
			delete(set, "target_sugar")
		}
		maybe(0.15, "spirit_poured", number(0.1, 4, 2)+" L")
	} else {
		delete(set, "target_sugar")
	}
	maybe(0.4, "vessel", number(1, 30, 1)+" L")
	if _, is := set["vessel"]; is && set["target"] != "" {
		maybe(0.4, "fortify", "fill the vessel")
	}
	maybe(0.3, "wood", one("2 g/L", "5 g"))
	maybe(0.5, "bottles", "750 mL")
	maybe(0.4, "jurisdiction", one("US", "EU", "UK"))
	text, _ := json.MarshalIndent(set, "", "  ")
	return string(text)
}

// absurd is what no page says: figures below nothing, none of something, or no
// figures at all. A cold cellar and the cold that holds yeast may be below zero.
var absurd = regexp.MustCompile(`NaN|Inf|%!|[^0-9a-zA-Z]-[0-9.]+ (L|mL|g|kg|% vol|g/L|fl oz)\b|[^0-9.,]0(\.0+)? ((mL|L|fl oz)\b|g([^/]|$))|no fall|\(\)|  ;|\.\.`)

func TestRandomBatchesMakeSense(t *testing.T) {
	if testing.Short() {
		t.Skip("300 random batches: nine seconds without -short")
	}
	r := rand.New(rand.NewPCG(7, 2026))
	plans, kinds := 0, map[string]int{}
	for range 300 {
		text := drawn(r)
		b, err := batch.Read("b.json", strings.NewReader(text))
		var p batch.Plan
		if err == nil {
			p, err = b.Work()
		}
		if err != nil {
			named := false
			for _, f := range batch.Fields() {
				named = named || strings.Contains(err.Error(), f.Name)
			}
			if !named || absurd.MatchString(err.Error()) {
				t.Errorf("%s\nerror names no field: %v", text, err)
			}
			kinds[strings.SplitN(err.Error(), ":", 3)[0]]++
			continue
		}
		plans++
		sensible(t, text, b, p)
	}
	if plans < 150 {
		t.Errorf("%d plans only: %v", plans, kinds)
	}
}

func sensible(t *testing.T, text string, b batch.Batch, p batch.Plan) {
	t.Helper()
	form := sheet.Form{}
	form.Flags(flag.NewFlagSet("plan", flag.PanicOnError))
	form.System = b.Units
	page := planText(p, &form, b)
	form.Details = true
	for _, sheet := range []string{page, planText(p, &form, b)} {
		if found := absurd.FindString(sheet); found != "" {
			t.Errorf("%s\nsays %q:\n%s", text, found, sheet)
		}
		for _, line := range strings.Split(sheet, "\n") {
			if len([]rune(line)) > 80 {
				t.Errorf("%s\n%d wide: %s", text, len([]rune(line)), line)
			}
		}
	}
	for _, g := range p.Figures() {
		if g.Value.IsNegative() && g.Key != "room_left" || g.Value.IsZero() && slices.Contains([]string{"sugar", "potassium_sorbate", "spirit_to_pour"}, g.Key) {
			t.Errorf("%s\n%s is %v", text, g.Key, g.Value)
		}
	}
	for _, s := range p.Steps {
		if b.Wine.Known() && slices.Contains([]string{"sugar", "watch", "stop", "rack"}, s.Key) {
			t.Errorf("%s\na finished wine is told to %s", text, s.Title)
		}
	}
	for _, f := range p.Findings {
		if f.Severity == batch.Stop && !slices.Contains(p.Answer, f.Text) {
			t.Errorf("%s\nthe answer does not hold %q", text, f.Text)
		}
	}
	conserved(t, text, p)
}

// conserved: what is poured into a liquid weighs what the liquid weighs.
func conserved(t *testing.T, text string, p batch.Plan) {
	t.Helper()
	for _, l := range p.Liquids {
		var sum float64
		for _, q := range p.Pours {
			if q.Into == l.Key {
				sum += float64(q.Mass)
			}
		}
		if sum > 0 && math.Abs(sum-float64(l.Mass)) > 1e-6*sum {
			t.Errorf("%s\n%s weighs %v g, poured were %v g", text, l.Key, float64(l.Mass), sum)
		}
	}
	out, err := json.Marshal(p)
	if err != nil || bytes.Contains(out, []byte("null")) {
		t.Error(errors.Join(err, fmt.Errorf("%s\n%s", text, out)))
	}
}
