package acid_test

import (
	"testing"

	"example.org/mutage/additions/acid"
	"example.org/mutage/internal/handbook"
)

// FuzzParse: acids and carbonates by name; the parts of a blend are above nothing.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"tartaric", "50 % tartaric, 30 % malic, 20 % citric", "5 tartaric; 3 malic + 2 citric", "0 tartaric", "1e308 tartaric, 1e308 malic", "1e-320 malic", "-1 citric", "potassium bicarbonate", "NaN tartaric", ",", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		b, err := acid.ParseBlend(text)
		handbook.Parsed(t, "blend", text, b, err)
		c, err := acid.ParseCarbonate(text)
		handbook.Parsed(t, "carbonate", text, c, err)
	})
}

// FuzzReads: acids, blends and buffers as JSON.
func FuzzReads(f *testing.F) {
	b, err := acid.NewBuffer(acid.Acids{Tartaric: 3, Malic: 2}, 1, 12)
	if err != nil {
		f.Fatal(err)
	}
	for _, x := range []any{b, acid.Tartaric, acid.PotassiumBicarbonate} {
		f.Add(handbook.JSON(f, x))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		handbook.ReadsJSON(t, data, acid.Buffer{}, acid.Acid{}, acid.Carbonate{}, acid.Acids{})
	})
}
