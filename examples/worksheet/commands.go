package main

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
			examples: [2]string{`worksheet gravity 1.057 -at "26 C"`, `worksheet gravity 17P -csv`}},
		{name: "strength", answers: "How strong is it?", run: strengthOf,
			examples: [2]string{"worksheet strength -og 1.092 -fg 1.046", "worksheet strength -hydrometer 1.020 -refractometer 15.9"}},
		{name: "blend", answers: "What will these liquids make when poured together?", run: blendCommand,
			examples: [2]string{`worksheet blend "3 L at 6.1 % vol with 142 g/L" "26 fl oz at 40 % vol"`, `worksheet blend "cherry: 3 L at 6.1 % vol with 142 g/L" "1 L at 96 % vol" -units us`}},
		{name: "fortify", answers: "How much spirit brings my wine to the strength I want?", run: fortify,
			examples: [2]string{`worksheet fortify -to "20 % vol" "3 L at 6.1 % vol with 142 g/L" "at 75 % vol"`, `worksheet fortify "3 L at 6.1 % vol with 142 g/L" "at 40 % vol" "at 75 % vol"`}},
		{name: "dose", answers: "What do I weigh or spoon?", run: dose,
			examples: [2]string{`worksheet dose -volume "3 L" -sulfite "50 mg/L" -sorbate "200 mg/L"`, `worksheet dose -volume "3 L" -from 1.050 -to 1.090`}},
		{name: "watch", answers: "When do I come back to stop it?", run: watchCommand,
			examples: [2]string{`worksheet watch -from "5 % vol" -to "6 % vol" cherry.csv`, "worksheet watch -json - < cherry.csv"}},
		{name: "column", answers: "What do these rows of a spreadsheet come to?", run: column,
			examples: [2]string{"worksheet column fortify wines.csv > done.csv", "worksheet column ferment -decimal comma - < trials.csv"}},
	}
}
