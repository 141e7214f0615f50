package abv

import "testing"

// Raspberry: 4.5 % of sugar in the fruit; without the 4.3 % of it that is fibre and no
// pectin 4.70 %, in a juice of 11.7 % of solids and so 1.045 kg/L: 49.1 g/L.
func TestThePoorestJuiceIsRaspberry(t *testing.T) {
	fruit, sugar, poorer := NotSugar{}.Poorer(49.3)
	if fruit != "raspberry" || sugar < 49 || sugar > 49.2 || poorer {
		t.Errorf("%s, %v, %v", fruit, sugar, poorer)
	}
	if _, _, poorer := (NotSugar{}).Poorer(48.9); !poorer {
		t.Error("48.9 g/L are not poorer")
	}
}
