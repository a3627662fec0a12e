// What goes into a bin (invented) today, from Go by the one door of the C library.
//
//	CGO_CFLAGS=-IFOLDER_OF_HEADERS CGO_LDFLAGS=-LFOLDER_OF_LIBFEED go run today.go
package main

/*
#cgo LDFLAGS: -lfeed
#include <feed/feed.h>
#include <stdlib.h>
*/
import "C"

import (
	"encoding/json"
	"fmt"
	"os"
	"unsafe"
)

type problem struct {
	Field   string `json:"field"`
	Message string `json:"message"`
}

type answer struct {
	Text   []string  `json:"text"`
	Errors []problem `json:"errors"`
}

// call gives the answer to a request; what is wrong comes in its Errors, all at once.
func call(request any) (answer, error) {
	asked, err := json.Marshal(request)
	if err != nil {
		return answer{}, err
	}
	words := C.CString(string(asked))
	defer C.free(unsafe.Pointer(words))
	var text *C.feed_text
	C.feed_call(words, nil, &text, nil)
	defer C.feed_text_free(text)
	var data *C.char
	var length C.size_t
	C.feed_text_get(text, &data, &length, nil)
	var given answer
	err = json.Unmarshal(C.GoBytes(unsafe.Pointer(data), C.int(length)), &given)
	return given, err
}

func main() {
	today, err := call(map[string]any{
		"verb": "ration", "date": "2026-03-14", "things": []string{"300 g carrot", "50 g bacon"},
		"bin": "60 L tote", "worms": "1 lb", "temperature": "20 C",
	})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	for _, line := range today.Text {
		fmt.Println(line)
	}
	refused, err := call(map[string]any{"verb": "ration", "things": "2 furlongs carrot"})
	fmt.Printf("refused: %v\n", err == nil && len(refused.Errors) > 0)
}
