package mutants

import (
	"crypto/sha256"
	"math/rand/v2"
)

// Draw is n of the mutants in an order that the seed decides, all of them for
// n <= 0 or n too large.
func Draw(all []Mutant, n int, seed string) []Mutant {
	drawn := append([]Mutant(nil), all...)
	r := rand.New(rand.NewChaCha8(sha256.Sum256([]byte(seed))))
	r.Shuffle(len(drawn), func(i, j int) { drawn[i], drawn[j] = drawn[j], drawn[i] })
	if n > 0 && n < len(drawn) {
		drawn = drawn[:n]
	}
	return drawn
}
