package batch

import (
	"encoding/json"
	"strings"
	"testing"
)

// The faults of a batch, joined, are written each with its own fields.
func TestFaultsOfABatchAreWrittenEach(t *testing.T) {
	_, err := Read("cherry.json", strings.NewReader(`{"must": "3 litres of it", "ph": "sour"}`))
	text, failed := json.Marshal(struct {
		Error error `json:"error"`
	}{err})
	var back struct {
		Error struct {
			Message string
			Causes  []struct{ File, Field, Message string }
		}
	}
	if failed != nil || json.Unmarshal(text, &back) != nil || back.Error.Message != err.Error() || len(back.Error.Causes) != 2 ||
		back.Error.Causes[0].Field != "must" || back.Error.Causes[1].Field != "ph" || back.Error.Causes[1].Message == "" {
		t.Errorf("%s, %v", text, failed)
	}
}
