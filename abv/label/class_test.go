package label_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/label"
	"example.org/mutage/internal/handbook"
)

// The Go table is the cited table, row by row; rows beyond it are from memory.
func TestClassTableIsTheCitedTable(t *testing.T) {
	limits := label.Limits()
	found := map[string]bool{}
	number := func(r handbook.Row, column string) float64 {
		if r.Text(column) == "" {
			return 0
		}
		return r.Number(column)
	}
	key := func(jurisdiction, product, quantity, unit string, lo, hi float64) string {
		return fmt.Sprintf("%s|%s|%s|%g|%g|%s", jurisdiction, product, quantity, lo, hi, unit)
	}
	rows := handbook.Load(t, "testdata/legal_strength_limits.csv").Rows
	for _, r := range rows {
		found[key(r.Text("jurisdiction"), r.Text("product"), r.Text("quantity"), r.Text("unit"), number(r, "minimum"), number(r, "maximum"))+
			"|"+r.Text("remark")+"|"+r.Text("source")+"|"+r.Text("kind")] = false
	}
	last := map[string]int{}
	for i, l := range limits {
		kind := "published"
		if l.FromMemory {
			kind = "from memory"
		}
		k := key(l.Jurisdiction, l.Product, l.Quantity, l.Unit, l.Min, l.Max) + "|" + l.Remark + "|" + l.Source + "|" + kind
		if _, ok := found[k]; ok {
			found[k] = true
		} else if !l.FromMemory {
			t.Errorf("not in the cited table: %s", k)
		}
		product := l.Jurisdiction + "|" + l.Product
		if at, ok := last[product]; ok && at != i-1 {
			t.Errorf("rows of %s do not stand together", product)
		}
		last[product] = i
	}
	for k, ok := range found {
		if !ok {
			t.Errorf("missing: %s", k)
		}
	}
	t.Logf("%d rows of %d are the cited ones", len(rows), len(limits))
}

func classNames(c label.Classification) string {
	var names []string
	for _, class := range c.Classes {
		names = append(names, class.Jurisdiction+" "+class.Product)
	}
	return strings.Join(names, "; ")
}

func TestClasses(t *testing.T) {
	for _, row := range []struct {
		c           abv.Composition
		in, outside []string
	}{
		{abv.Composition{Strength: 20, Extract: 84}, // the morello wine, fortified
			[]string{"OIV liqueur wine", "EU liqueur wine", "Portugal Port;", "US dessert wine", "US still wine, second tax class"},
			[]string{"EU wine", "specially sweetened", "historical unfortified", "fruit wine sweetened"}},
		{abv.Composition{Strength: 6.235, Extract: 142.4}, // before the spirit
			[]string{"US natural fruit wine sweetened", "Portugal Port, sweet"}, []string{"liqueur wine", "US wine (FAA Act)", "dessert"}},
		{abv.Composition{Strength: 12, Extract: 19}, []string{"EU wine", "US wine (FAA Act)", "OIV wine"}, []string{"liqueur", "dessert"}},
		{abv.Composition{Strength: 12, Extract: 250}, []string{"US specially sweetened natural wine"}, []string{"EU wine", "US natural wine"}},
		{abv.Composition{Strength: 14, Extract: 0}, nil, []string{"US dessert wine"}},
		{abv.Composition{Strength: 14.001, Extract: 0}, []string{"US dessert wine"}, nil},
		{abv.Composition{Strength: 40, Extract: 0}, nil, []string{"EU ", "US dessert", "US wine", "US still"}},
	} {
		c, err := label.Classes(row.c)
		if err != nil {
			t.Fatal(err)
		}
		names := classNames(c) + ";"
		for _, want := range row.in {
			if !strings.Contains(names, want) {
				t.Errorf("%v, %v: no %q in %s", row.c.Strength, row.c.Extract, want, names)
			}
		}
		for _, not := range row.outside {
			if strings.Contains(names, not) {
				t.Errorf("%v, %v: %q in %s", row.c.Strength, row.c.Extract, not, names)
			}
		}
		if !strings.Contains(c.Advice, "Check your own law") {
			t.Error(c.Advice)
		}
	}
}

func ExampleClasses() {
	c, _ := label.Classes(abv.Composition{Strength: 20, Extract: 84})
	for _, class := range c.Classes {
		if class.Jurisdiction == "OIV" {
			fmt.Println(class.Product, class.Met[0].Min, class.Met[0].Max)
		}
	}
	// Output:
	// liqueur wine 15 22
	// wine for distillation 18 24
	// flor wine 15 0
	// wine 8.5 0
}
