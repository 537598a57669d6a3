// Package publish puts a finished folder, or a finished file, in the place of
// the previous one.
//
// It takes the name of a folder and gives a fresh one to write into, hidden
// beside it; at the end the fresh one takes the name. It never knows what is
// written.
//
// What it promises, whatever ends the process:
//
//   - The previous edition is neither changed nor removed before the new one
//     stands: every file and folder of that is on the disk by then.
//   - Where the kernel can exchange two names at once (Linux and macOS on
//     their common file systems) the name holds an edition at every moment.
//     Elsewhere the previous one goes aside first. A process that ends just
//     then leaves it hidden: Begin puts it back, and Standing finds it for
//     those who only read.
//   - One process at a time writes to a name; a second one is told which. The
//     kernel lets go when a process ends. Where no locks are kept there is a
//     note instead.
//   - The next Begin of a name removes what killed processes left beside it.
//   - A folder that has other things in it, a file, a mount point and a folder
//     that one stands in are refused before anything is written. A link to a
//     folder stays, and the folder that it names is replaced.
//
// The disk is asked for each file by itself (fsync), sixteen at a time. Asking
// once for the whole file system (syncfs) takes half as long, 3 s and not 6 to
// 8 s for 25,000 files of 20 kB (BenchmarkCommit, on a virtual disk in use),
// but waits for whatever other programs write there, and kernels before Linux
// 5.8 keep its errors to themselves. One after the other would take 38 s.
package publish
