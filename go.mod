module example.org/mutage

go 1.25.0

require (
	github.com/shopspring/decimal v1.4.0
	gonum.org/v1/gonum v0.17.0
)
