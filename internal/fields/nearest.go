package fields

import "slices"

// Nearest is the word with the fewest letters to change.
func Nearest(word string, among []string) string {
	return slices.MinFunc(among, func(a, b string) int { return distance(word, a) - distance(word, b) })
}

func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		last := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := last
			if a[i] != b[j] {
				change++
			}
			last = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
