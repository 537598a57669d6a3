// Package plain turns text as programs save it into UTF-8 whose lines end in
// line feeds.
//
// It takes bytes and gives plain text and words on what was changed: a byte
// order mark, UTF-16 that begins with one, carriage returns. Other encodings
// cannot be told from each other and are refused, as are NUL bytes. It never
// knows what the text says.
package plain
