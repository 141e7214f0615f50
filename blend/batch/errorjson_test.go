package batch

import (
	"encoding/json"
	"testing"

	"example.org/mutage/units"
)

func TestAFaultOfAFileComesBackFromJSON(t *testing.T) {
	e := FileError{"cherry.json", 3, 14, "must", units.Check("volume", -1, 0, 10, "L", "")}
	text, err := json.Marshal(&e)
	var back FileError
	if err != nil || json.Unmarshal(text, &back) != nil || back.Error() != e.Error() {
		t.Errorf("%s, %v, came back as %v", text, err, &back)
	}
}
