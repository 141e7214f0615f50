package batch

import (
	"bytes"
	"fmt"
	"os"
	"testing"
)

func show(p Plan) {
	for _, l := range p.Answer {
		fmt.Println("  ", l)
	}
	for _, s := range p.Steps {
		fmt.Println("==", s.Title, s.From, s.To)
		for _, f := range s.Figures {
			fmt.Printf("   %-60s %10s %-6s ±%s  %s\n", f.Name, f.Fixed(), f.Unit, f.FixedUncertainty(), f.Note)
		}
		for _, l := range s.Lines {
			fmt.Println("     ", l)
		}
	}
	for _, l := range p.Liquids {
		fmt.Printf("%-10s %8.4f L u %.4f %8.3f %% vol u %.3f extract %.1f sugar %.1f-%.1f %v DU %.2f bact %v remedy %s\n", l.Key, float64(l.Volume), float64(l.VolumeUncertainty), float64(l.Strength), float64(l.StrengthUncertainty), float64(l.Extract), float64(l.Sugar.Low), float64(l.Sugar.High), l.Verdict.Outlook, l.Verdict.DelleUnits, l.Verdict.Bacteria, l.Remedy)
	}
	for _, f := range p.Findings {
		fmt.Println(f)
	}
}

func TestTry(t *testing.T) {
	content := demo
	if f := os.Getenv("BATCH"); f != "" {
		content, _ = os.ReadFile(f)
	}
	b, err := Read("x", bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	p, err := b.Work()
	if err != nil {
		t.Fatal(err)
	}
	show(p)
}
