package main

const liquidWords = `A liquid is "cherry: 3 L at 6.1 % vol with 142 g/L": a name if you like, its amount (or weight: "3 kg"), its strength, and its extract, the sugar and all else dissolved. "measured at 8 C" may follow. "2 L water", "500 g sugar" and "200 g honey" go in too.`

var commands []command

func init() { // not a literal: the commands' help lists the commands
	commands = []command{
		{name: "plan", answers: "What do I pour, weigh and watch for, from must to bottle?", run: plan, more: listed,
			examples: [2]string{"worksheet plan -batch cherry.json", "worksheet plan -template > cherry.json"},
			groups: []group{
				{"the batch", []string{"batch", "template", "fields"}},
				{"another size", []string{"scale", "scale-to"}},
				{"to print", []string{"html"}}}},
		{name: "gravity", answers: "What does this reading mean, at 20 C and on other scales?", run: readGravity,
			arguments: `gravity READING: a hydrometer ("1.057", "17 Bx", "57 Oe", "7.8 Be"), or the sugar of a juice by its label ("26 g per 240 mL", "150 g/L").`,
			examples:  [2]string{`worksheet gravity 1.057 -at "26 C"`, `worksheet gravity "26 g per 240 mL" -fruit juice`},
			groups: []group{
				{"the reading", []string{"at", "hydrometer"}},
				{"what is in it", []string{"strength", "fruit", "yeast-limit"}}}},
		{name: "strength", answers: "How strong is it?", run: strengthOf,
			arguments: "One of five ways: two gravities, two instruments, boiling off, an alcoholometer in spirit, or a label.",
			examples:  [2]string{"worksheet strength -og 1.092 -fg 1.046", `worksheet strength -label "70 degrees UK proof"`},
			groups: []group{
				{"two gravities", []string{"og", "fg", "og-at"}},
				{"two instruments in one wine", []string{"hydrometer", "refractometer"}},
				{"boiling off", []string{"wine", "residue"}},
				{"spirit", []string{"alcoholometer", "extract", "label"}},
				{"the readings", []string{"at", "made-for", "fruit"}}}},
	}
	commands = append(commands, pouringCommands()...)
	commands = append(commands, logCommands()...)
}

// pouringCommands are those about liquids and what goes into them.
func pouringCommands() []command {
	return []command{
		{name: "blend", answers: "What will these liquids make when poured together?", run: blendCommand, arguments: liquidWords,
			examples: [2]string{`worksheet blend "3 L at 6.1 % vol with 142 g/L" "26 fl oz at 40 % vol"`, `worksheet blend "3 kg at 6.1 % vol with 142 g/L" "fill 4 L at 40 % vol" "200 g honey"`},
			groups:   []group{{"the reading", []string{"at", "hydrometer"}}}},
		{name: "fortify", answers: "How much spirit brings my wine to the strength I want?", run: fortify,
			arguments: "fortify WINE SPIRIT, or more spirits to choose from. \"fill 1 quart\" says how much it shall be in all.\n" + liquidWords,
			examples:  [2]string{`worksheet fortify -to "20 % vol" "3 L at 6.1 % vol with 142 g/L" "at 75 % vol"`, `worksheet fortify -to "20 % vol" "fill 1 quart" "at 6.1 % vol with 142 g/L" "at 40 % vol"`},
			groups: []group{
				{"what is wanted", []string{"to", "extract"}},
				{"the jar", []string{"vessel", "headspace"}},
				{"the wine", []string{"fruit"}}}},
		{name: "explain", answers: "It reads something else than what I poured: why?", run: explain, arguments: "explain WINE SPIRIT, each with the amount that was poured.\n" + liquidWords,
			examples: [2]string{`worksheet explain -reads 1.030 "3 L at 6.1 % vol with 142 g/L" "0.7 L at 75 % vol"`, `worksheet explain -reads 1.030 -at "26 C" -to "20 % vol" "3 L at 6.1 % vol with 142 g/L" "0.7 L at 75 % vol"`},
			groups: []group{
				{"the reading", []string{"reads", "at", "hydrometer"}},
				{"to mend it", []string{"to"}}}},
		{name: "dose", answers: "What do I weigh or spoon, and what does it come to?", run: dose,
			arguments: "A level asks what to weigh (-sulfite \"50 mg/L\"); an amount asks what that is (-sulfite \"1/4 tsp\").",
			examples:  [2]string{`worksheet dose -volume "3 L" -sulfite "50 mg/L" -sorbate "200 mg/L"`, `worksheet dose -volume "5.2 L" -tasted "0.2 g tartaric acid in 100 mL"`},
			groups: []group{
				{"what it goes into", []string{"volume", "wine"}},
				{"sulfite", []string{"sulfite", "free-to", "free", "molecular", "ph", "so2-in", "salt", "purity", "tablet", "solution"}},
				{"sorbate", []string{"sorbate", "sorbic-in"}},
				{"acid", []string{"raise-acid", "acid", "lower-acid", "carbonate"}},
				{"sugar", []string{"from", "to", "extract-to", "sugar", "sweetener"}},
				{"a tasting trial", []string{"tasted"}},
				{"the law", []string{"jurisdiction", "category"}}}},
	}
}

// logCommands are those that read tables.
func logCommands() []command {
	return []command{
		{name: "watch", answers: "When do I come back to stop it?", run: watchCommand, arguments: "watch [FILE]: the log as CSV with time and reading; - or nothing is standard input.",
			examples: [2]string{`worksheet watch -from "5 % vol" -to "6 % vol" cherry.csv`, "worksheet watch -json - < cherry.csv"},
			groups: []group{
				{"what is wanted", []string{"from", "to", "least-sugar"}},
				{"the must and its yeast", []string{"og", "started", "must", "yeast-limit"}},
				{"the log", []string{"hydrometer", "refractometer", "factor", "sensor", "zone", "dates", "degrees"}},
				{"stopping", []string{"now", "cooling", "arrested"}},
				{"to draw", []string{"svg"}}}},
		{name: "column", answers: "What do these rows of a spreadsheet come to?", run: column,
			examples: [2]string{"worksheet column fortify wines.csv > done.csv", "worksheet column ferment -decimal comma - < trials.csv"}},
	}
}
