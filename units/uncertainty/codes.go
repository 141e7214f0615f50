package uncertainty

import "example.org/mutage/internal/codes"

// Codes in the order of the constants; they do not change between versions.
var distributionCodes = []string{"normal", "rectangular", "triangular", "arcsine"}

// MarshalText is the code of the distribution: "normal".
func (d Distribution) MarshalText() ([]byte, error) {
	return codes.Text("distribution", distributionCodes, d)
}

// UnmarshalText reads what MarshalText wrote. Error: *units.ParseError.
func (d *Distribution) UnmarshalText(text []byte) error {
	return codes.Read("distribution", distributionCodes, text, d)
}
