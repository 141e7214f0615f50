package stability

// Free SO2 in mg/L that held bacteria, and that only delayed them, in a sweet
// fortified wine. The summary does not say whether it is free or total SO2: free
// is the cautious reading. fortified is from where it counts as such a wine.
const (
	bacteriaHeldBy   = 40.0
	bacteriaSlowedBy = 20.0
	bacteriaMostPH   = 3.8 // from memory; that the pH decides: Fornachon (1943)
	fortified        = 15.0

	sourceBacteria = "Gini & Vaughn, Am. J. Enol. Vitic. 13:20 (1962): lactic bacteria of dessert wine resist 20 % vol; " +
		"CORDIS project 21334: 40 to 60 mg/L of SO2 held their onset in a sweet fortified wine, 20 mg/L delayed it; " +
		"0.8 mg/L molecular: A. L. Waterhouse, G. L. Sacks and D. W. Jeffery, Understanding Wine Chemistry (2016), Table 17.1; pH 3.8 from memory"
)

// bacteria is the word on lactic and acetic bacteria. Alcohol is not a barrier to
// them, sorbate does not act on them; sulfite does, the more the lower the pH.
func (j judged) bacteria() (word Bacteria, because, source string) {
	switch {
	case reaches(j.molecular, molecularTarget):
		return BacteriaHeld, "0.8 mg/L of molecular SO2 and more holds most; keep it topped up and clean", sourceBacteria
	case reaches(j.free, bacteriaHeldBy) && reaches(j.strength, fortified) && j.pH > 0 && within(j.pH, bacteriaMostPH):
		return BacteriaHeld, "40 to 60 mg/L of SO2 held them in a sweet fortified wine; keep it topped up and clean", sourceBacteria
	case reaches(j.free, bacteriaSlowedBy) || reaches(j.molecular, molecularLeast):
		return BacteriaSlowed, "some lactic bacteria grow at 20 % vol, more above pH 3.8; so much sulfite only delays them", sourceBacteria
	case j.pH == 0 && j.free > 0:
		return BacteriaNotKnown, "the pH decides how much of the sulfite acts, and is not stated", sourceBacteria
	case j.free > 0:
		return BacteriaOpen, "perhaps less than 20 mg/L of SO2 is free: some lactic bacteria grow at 20 % vol, more above pH 3.8", sourceBacteria
	}
	return BacteriaOpen, "no sulfite is stated, and some lactic bacteria grow at 20 % vol, more above pH 3.8; sorbate does not act on them", sourceBacteria
}
