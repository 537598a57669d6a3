// Package survey works out all cells of an edition and what regions make of them:
// held as a whole, as a stream of blocks of rows, or from parts that were worked
// out apart.
//
// It takes an Order and opened inputs and gives Findings; of grids that are too
// large to hold it writes what holds every cell as rows go by. It never knows
// pictures or pages.
package survey
