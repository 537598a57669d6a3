// Package comparison tells what moved from one edition to the next, or from one
// window to another, and why.
//
// It takes the folders of editions, and gives a Comparison for people or programs,
// and a folder of maps, tables and a paragraph. It reads what editions hold, and
// never works anything out of normals again.
package comparison
