// Package oracle finds what tests compare weekband with: general-purpose
// tools of other makers, and real data beside the repository.
//
// It takes the test it is called in and the name of a tool or file, and gives
// what the tool wrote or where the file lies. Without it the test is skipped;
// with WEEKBAND_ORACLES=required in the environment, as in .ci/run, a missing
// tool fails the test instead. It never knows what is compared. Only tests
// import it.
package oracle
