package main

import (
	"fmt"
	"strings"

	"example.org/mutage/examples/worksheet/internal/sheet"
)

// glossary is the words of the trade that pages and flags use.
var glossary = [][2]string{
	{"arrest, stop", "end the fermentation while sugar is left: by spirit, cold, or sulfite with sorbate"},
	{"Balling, Brix, Plato", "extract in % of the mass, as sucrose; one scale under three names"},
	{"barrier", "one thing that keeps yeast from fermenting again: alcohol, alcohol and sugar together, sorbate with sulfite"},
	{"base, wine", "what is there before the spirit is poured"},
	{"Baume", "a scale for liquids heavier than water, with one modulus in sugar tables and another on must hydrometers"},
	{"contraction", "the volume that is lost when alcohol and water mix"},
	{"Delle units", "one number for alcohol and sugar together: the higher, the less yeast can do"},
	{"extract (real)", "all that is dissolved and does not boil away: sugar, acids, glycerol, salts. It is more than the sugar"},
	{"free, total SO2", "what of the sulfite still acts, and all that is in the wine with what is bound; laws limit the total"},
	{"fortify", "bring wine to a strength by pouring spirit"},
	{"gravity, SG", "the density over that of water, both at 20 C unless another basis is said"},
	{"headspace", "the room that stays free below the brim"},
	{"hydrometer", "the floating instrument that shows the gravity; alcohol makes it read low"},
	{"hand rule", "volumes simply added, as on paper; it leaves out the contraction"},
	{"jurisdiction", "whose law the limits are taken from; your own comes first"},
	{"lees", "what settles: yeast and pulp"},
	{"molecular SO2", "the part of the free SO2 that acts on yeast; the lower the pH, the more"},
	{"must", "juice with what was added, before it ferments"},
	{"obscuration", "sugar in a spirit makes its alcoholometer read low"},
	{"Oechsle", "the gravity's thousandths above 1: 1.057 is 57"},
	{"og, fg", "the gravity before the fermentation and that now"},
	{"proof (US)", "twice the % vol, its volumes at 60 F; UK proof is another, older scale"},
	{"rack", "draw the wine off its lees"},
	{"sorbic acid", "what of potassium sorbate acts; it keeps yeast from growing, and only together with sulfite"},
	{"SO2, sulfite", "sulfur dioxide and the salt that gives it, potassium metabisulfite; it can bring on asthma"},
	{"stable, still", "does not ferment again. No figure makes a closed bottle safe: fermenting wine bursts glass"},
	{"strength", "alcohol in % of the volume at 20 C"},
	{"titratable acidity", "all acid that alkali finds, in g/L as tartaric acid"},
	{"yeast limit", "the strength at which this yeast is said to give up"},
	{"yield", "g of extract that ferment to one g of alcohol; must and wort differ"},
	{"±", "the value lies within it 19 times in 20; in -json and -csv the standard uncertainty, about half of that"},
}

func words() string {
	var b strings.Builder
	for _, w := range glossary {
		const indent = 24
		sheet.Wrap(&b, w[1], fmt.Sprintf("%-*s", indent, w[0]), strings.Repeat(" ", indent))
	}
	return b.String()
}
