package abv

import "testing"

// Raspberry: 4.5 % of sugar in the fruit; without the 4.3 % of it that is fibre and no
// pectin 4.702 %, in a juice of 11.70 % of solids, which as sucrose has 1.0452 kg/L
// (ICUMSA): 49.15 g/L.
func TestThePoorestJuiceIsRaspberry(t *testing.T) {
	fruit, sugar, poorer := NotSugar{}.Poorer(49.3)
	if fruit != "raspberry" || sugar < 49.13 || sugar > 49.16 || poorer {
		t.Errorf("%s, %v, %v", fruit, sugar, poorer)
	}
	if _, _, poorer := (NotSugar{}).Poorer(48.9); !poorer {
		t.Error("48.9 g/L are not poorer")
	}
}
