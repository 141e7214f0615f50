package batch

import "testing"

// BenchmarkWork is a whole plan: the propagation and the drawing of courses are
// most of it.
func BenchmarkWork(b *testing.B) {
	b.ReportAllocs()
	d := Demo()
	for b.Loop() {
		if _, err := d.Work(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRun is one course from must to blend.
func BenchmarkRun(b *testing.B) {
	b.ReportAllocs()
	d := Demo()
	at, err := d.decide()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := d.run(&at.v); err != nil {
			b.Fatal(err)
		}
	}
}
