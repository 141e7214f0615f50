package units

// Scale multiplies amounts, for a batch of another size. by is 0.001 to 1000;
// *RangeError outside, or for an amount that is no finite number or becomes none, and
// then nothing is changed.
func Scale(by float64, amounts ...*float64) error {
	if err := Check("scale", by, 0.001, 1000, "", "a bound against mistyping"); err != nil {
		return err
	}
	for _, a := range amounts {
		if err := Check("scaled amount", *a*by, -inf, inf, "", ""); err != nil {
			return err
		}
	}
	for _, a := range amounts {
		*a *= by
	}
	return nil
}
