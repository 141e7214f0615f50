package acid

import (
	"encoding/json"
	"testing"
)

func TestALiquidComesBackFromJSONWithItsPH(t *testing.T) {
	b, err := NewBuffer(Acids{Tartaric: 4, Malic: 3, Acetic: 0.4}, 1.2, 12)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(b)
	var back Buffer
	if err != nil || json.Unmarshal(text, &back) != nil || back != b {
		t.Fatalf("%s, %v, came back as %+v", text, err, back)
	}
	if text, err = json.Marshal(Buffer{}); err != nil || json.Unmarshal(text, &back) != nil || back != (Buffer{}) {
		t.Errorf("%s, %v, came back as %+v", text, err, back)
	}
	for _, bad := range []string{`3`, `{"strength":90}`, `{"acids_mol_per_l":[-1]}`, `{"alkali_mol_per_l":1e9}`} {
		if json.Unmarshal([]byte(bad), &back) == nil {
			t.Errorf("%s was read as %+v", bad, back)
		}
	}
}
