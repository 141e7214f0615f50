package handbook

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/mutage/units"
)

// A fake notes what a test is told instead of failing.
type fake struct {
	testing.TB
	logs, errors []string
	cleanups     []func()
}

func (f *fake) Helper()                   {}
func (f *fake) Cleanup(end func())        { f.cleanups = append(f.cleanups, end) }
func (f *fake) Logf(s string, a ...any)   { f.logs = append(f.logs, fmt.Sprintf(s, a...)) }
func (f *fake) Errorf(s string, a ...any) { f.errors = append(f.errors, fmt.Sprintf(s, a...)) }
func (f *fake) Fatalf(s string, a ...any) { f.Errorf(s, a...); panic(f) }
func (f *fake) Fatal(a ...any)            { f.Errorf("%s", fmt.Sprint(a...)); panic(f) }

// ends runs a test to its end, through Fatal too.
func (f *fake) ends(test func()) {
	defer func() {
		if r := recover(); r != nil && r != any(f) {
			panic(r)
		}
		for _, end := range f.cleanups {
			end()
		}
	}()
	test()
}

// told is what a check of one comparison makes of it.
func told(compare func(c *Check)) *fake {
	f := &fake{}
	f.ends(func() { compare(NewCheck(f, "table", "g/L")) })
	return f
}

func TestEveryComparisonFailsWhenOffAndPassesWhenIn(t *testing.T) {
	for name, compare := range map[string]func(c *Check, off float64){
		"Printed":                 func(c *Check, off float64) { c.Printed(17.25+off*0.005, "17.25", "row") },
		"Printed in a large unit": func(c *Check, off float64) { c.Printed(3e5+off*5e3, "3.0e5", "row") },
		"Printed whole":           func(c *Check, off float64) { c.Printed(-40+off*0.5, "-40", "row") },
		"Rounded":                 func(c *Check, off float64) { c.Rounded(1.5+off*0.02, 1.5, 0.02, "row") },
		"Differs":                 func(c *Check, off float64) { c.Differs(1.5+off*0.3, 1.5, 0.3, "older densities", "row") },
	} {
		for _, off := range []float64{0, 0.99, -0.99, 1, -1} {
			if f := told(func(c *Check) { compare(c, off) }); len(f.errors) > 0 || len(f.logs) != 1 {
				t.Errorf("%s, off by %g of what is allowed: %q, %q", name, off, f.errors, f.logs)
			}
		}
		for _, off := range []float64{1.01, -1.01, 40, math.Inf(1), math.NaN()} {
			f := told(func(c *Check) { compare(c, off) })
			if len(f.errors) != 1 || !strings.Contains(f.errors[0], "table, row: computed") {
				t.Errorf("%s, off by %g of what is allowed, passes: %q", name, off, f.errors)
			}
		}
	}
}

func TestAToleranceThatComparesNothingFails(t *testing.T) {
	for _, tolerance := range []float64{0, -1, math.Inf(1), math.NaN()} {
		for name, f := range map[string]*fake{
			"Rounded": told(func(c *Check) { c.Rounded(1, 1, tolerance, "row") }),
			"Differs": told(func(c *Check) { c.Differs(1, 1, tolerance, "older densities", "row") }),
		} {
			if len(f.errors) != 1 {
				t.Errorf("%s takes a tolerance of %g: %q", name, tolerance, f.errors)
			}
		}
	}
	if f := told(func(c *Check) { c.Differs(1, 1, 0.1, "", "row") }); len(f.errors) != 1 {
		t.Errorf("Differs takes a bound without a reason: %q", f.errors)
	}
}

func TestACheckWithoutRowsFails(t *testing.T) {
	if f := told(func(*Check) {}); len(f.errors) != 1 || !strings.Contains(f.errors[0], "nothing was compared") {
		t.Errorf("nothing was compared, and the test says %q", f.errors)
	}
	if f := told(func(c *Check) { c.Except(2, "3", "row", "a misprint") }); len(f.errors) != 1 {
		t.Errorf("an exception alone counts as a comparison: %q", f.errors)
	}
}

func TestANumberThatCannotBeReadStopsTheTest(t *testing.T) {
	f := told(func(c *Check) { c.Printed(1, "5 to 6", "row"); c.Printed(1, "1", "next row") })
	if len(f.errors) != 2 || !strings.Contains(f.errors[0], "5 to 6") {
		t.Errorf("\"5 to 6\" was compared: %q", f.errors)
	}
}

func TestAnExceptionThatAgreesFails(t *testing.T) {
	for _, c := range []struct {
		got          float64
		text, reason string
		fails        bool
	}{
		{898.82501, "898.82", "a tie", false},
		{898.825, "898.82", "a tie", true},
		{898.82, "898.82", "a misprint", true},
		{6.3, "5 to 6", "printed after disgorging", false},
		{6.3, "5", "", true},
		{math.NaN(), "5", "a misprint", true},
	} {
		f := told(func(k *Check) { k.Printed(1, "1", "row"); k.Except(c.got, c.text, "other row", c.reason) })
		if failed := len(f.errors) > 0; failed != c.fails {
			t.Errorf("computed %v, printed %s, reason %q: %q", c.got, c.text, c.reason, f.errors)
		}
	}
}

func TestTheReportNamesTheRowNearestToItsOwnTolerance(t *testing.T) {
	f := told(func(c *Check) {
		c.Printed(100.4, "100", "wide") // 0.8 of what is allowed
		c.Printed(2.0045, "2.00", "near")
		c.Printed(3, "3.00", "exact")
		c.Rounded(5.01, 5, 0.02, "half")
		c.Differs(6.5, 7, 2, "older densities", "old")
		c.Differs(6, 7, 2, "other sugar", "sugar")
		c.Differs(7, 7, 2, "older densities", "exact")
		c.Except(8, "9", "last row", "a misprint; see the row before")
		c.Except(8, "7.0", "cold", "uneven")
		c.Except(5, "7.0", "colder", "uneven")
		c.Except(6, "7.0", "coldest", "uneven")
	})
	want := []string{
		"accuracy | table | printed | 3 | +0.0045 | 0.005 | g/L | near | ",
		"accuracy | table | rounded | 1 | +0.01 | 0.02 | g/L | half | ",
		"accuracy | table | differs | 3 | -1 | 2 | g/L | sugar | older densities; other sugar",
		"excepted | table | last row: printed 9, computed 8 (a misprint; see the row before)",
		"excepted | table | 3 rows, most colder: printed 7.0, computed 5 (uneven)",
	}
	if len(f.errors) > 0 || !slices.Equal(f.logs, want) {
		t.Errorf("%q\n%s\nexpected\n%s", f.errors, strings.Join(f.logs, "\n"), strings.Join(want, "\n"))
	}
}

func TestAComparisonThatFailsIsTheOneReported(t *testing.T) {
	f := told(func(c *Check) { c.Printed(math.NaN(), "1", "bad"); c.Printed(1.4, "1", "good") })
	if len(f.logs) != 1 || !strings.Contains(f.logs[0], "NaN | 0.5 | g/L | bad") {
		t.Errorf("a NaN in the row \"bad\" is reported as %q", f.logs)
	}
}

func TestATableNeedsACitation(t *testing.T) {
	for content, fails := range map[string]bool{
		"# Document\n# Table 1\na,b\n1, 2\n": false,
		"a,b\n1,2\n":                         true,
		"# Document\na,b\n":                  true,
		"# Document\na,b\n1,2,3\n":           true,
	} {
		path := filepath.Join(t.TempDir(), "table.csv")
		if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
		var table Table
		f := &fake{}
		f.ends(func() { table = Load(f, path) })
		if failed := len(f.errors) > 0; failed != fails {
			t.Errorf("%q: %q", content, f.errors)
		}
		if fails {
			continue
		}
		row := table.Rows[0]
		if table.Citation != "Document Table 1" || len(table.Rows) != 1 || row.Number("b") != 2 || row.Text("a") != "1" {
			t.Errorf("%q is read as %+v", content, table)
		}
		f.ends(func() { row.Text("c") })
		if len(f.errors) != 1 {
			t.Errorf("column c is not there, and the test says %q", f.errors)
		}
	}
	f := &fake{}
	if f.ends(func() { Load(f, "no such file") }); len(f.errors) != 1 {
		t.Errorf("a missing file: %q", f.errors)
	}
}

func TestOnlyARangeErrorIsOne(t *testing.T) {
	if IsRange(nil) || IsRange(errors.New("other")) {
		t.Error("an error of another type is taken as a range error")
	}
	if !IsRange(fmt.Errorf("wrapped: %w", units.Check("strength", 120, 0, 100, "% vol", ""))) {
		t.Error("a wrapped range error is not recognised")
	}
}

func TestOtherKeysAreFoundAtAnyDepth(t *testing.T) {
	got := OtherKeys(t, []byte(`{"a_b2": [{"Big": 1, "ok": {"camelCase": null}}], "__": 0}`))
	slices.Sort(got)
	if !slices.Equal(got, []string{"Big", "__", "camelCase"}) {
		t.Errorf("%q", got)
	}
}
