module example.org/brew

go 1.25
