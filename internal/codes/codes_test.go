package codes_test

import (
	"errors"
	"testing"

	"example.org/mutage/internal/codes"
	"example.org/mutage/units"
)

type level int

type name string

func TestCodesComeBackAndStrangersAreRefused(t *testing.T) {
	all := []string{"", "low", "high"}
	for i := range all {
		var back level = -1
		text, err := codes.Text("level", all, level(i))
		if err != nil || codes.Read("level", all, text, &back) != nil || back != level(i) {
			t.Errorf("%d is written as %q, %v, and comes back as %d", i, text, err, back)
		}
	}
	for _, bad := range []level{-1, 3} {
		if text, err := codes.Text("level", all, bad); err == nil {
			t.Errorf("%d is written as %q", bad, text)
		}
	}
	kept := level(1)
	var unread *units.ParseError
	if err := codes.Read("level", all, []byte("higher"), &kept); !errors.As(err, &unread) || kept != 1 || len(unread.Expected) != 2 {
		t.Errorf("%v, %v", kept, err)
	}
	names := []name{"Cream of tartar (spoon)", "sugar"}
	for _, n := range append(names, "") {
		text, err := codes.NameText("name", names, n)
		back := name("none")
		if err != nil || codes.ReadName("name", names, text, &back) != nil || back != n {
			t.Errorf("%q is written as %q, %v, and comes back as %q", n, text, err, back)
		}
	}
	if text, err := codes.NameText("name", names, "salt"); err == nil {
		t.Errorf("salt is written as %q", text)
	}
	var n name
	if err := codes.ReadName("name", names, []byte("cream_of_tartar_spoon"), &n); err != nil || n != names[0] {
		t.Errorf("%q, %v", n, err)
	}
	if err := codes.ReadName("name", names, []byte("salt"), &n); err == nil {
		t.Error("salt was read")
	}
}
