module example.org/mutage

go 1.25.0

require (
	github.com/google/go-cmp v0.7.0
	github.com/shopspring/decimal v1.4.0
	gonum.org/v1/gonum v0.17.0
)

require golang.org/x/tools v0.30.0 // indirect
