package watch

import (
	"encoding/json"
	"errors"
	"testing"
)

func TestALogErrorComesBackFromJSON(t *testing.T) {
	log := LogError{Index: 3, Err: errors.New("no time")}
	text, err := json.Marshal(&log)
	var back LogError
	if err != nil || json.Unmarshal(text, &back) != nil || back.Error() != log.Error() {
		t.Errorf("%s, %v, came back as %v", text, err, &back)
	}
}
