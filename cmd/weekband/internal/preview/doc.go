// Package preview serves a built edition to the browsers of this machine, as
// a host of static files would.
//
// It takes the name of a folder and answers requests with files that lie in
// it. It writes nothing, and never knows what the files say.
package preview
