// Package looks says how ground looks: the colours and patterns of weeks, of
// statuses, of quantities and of changes.
//
// It takes how many classes there are and whether they come out in grey, and
// gives a look for each: colours that fall in lightness in the order of the
// classes and keep apart for any sight, and patterns where greys do not.
//
// It never knows what weeks the classes are of, nor maps or pages.
package looks
