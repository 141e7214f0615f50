package handbook

// Must is x of a call that cannot fail in a test.
func Must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}
