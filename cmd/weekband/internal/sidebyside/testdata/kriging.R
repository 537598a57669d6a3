# Twelve months by universal kriging in local neighbourhoods, with gstat.
#
# usage: kriging.R FOLDER STATIONS CELLS PROCESSES NEIGHBOURS RANGE_KM NUGGET
#
# FOLDER holds stations.f32, x and y in km and twelve columns of °C, and
# cells.f32, x and y; kriged.f32 is written there, twelve columns of °C.
suppressMessages({library(sp); library(gstat); library(parallel)})
arg <- commandArgs(trailingOnly = TRUE)
folder <- arg[1]
number <- as.numeric(arg[-1])
columns <- function(name, rows, n) {
  matrix(readBin(file.path(folder, name), "numeric", rows * n, size = 4, endian = "little"), rows, n)
}
stations <- as.data.frame(columns("stations.f32", number[1], 14))
cells <- as.data.frame(columns("cells.f32", number[2], 2))
names(stations) <- c("x", "y", paste0("m", 1:12))
names(cells) <- c("x", "y")
coordinates(stations) <- ~x + y
coordinates(cells) <- ~x + y
model <- vgm(psill = 1, model = "Exp", range = number[5], nugget = number[6])
month <- function(m) {
  krige(as.formula(paste0("m", m, " ~ x + y")), stations, cells, model, nmax = number[4], debug.level = 0)$var1.pred
}
before <- proc.time()
kriged <- mclapply(1:12, month, mc.cores = number[3])
took <- proc.time() - before
out <- file(file.path(folder, "kriged.f32"), "wb")
writeBin(unlist(kriged), out, size = 4, endian = "little")
close(out)
cat(sprintf('{"wall": %f, "cpu": %f, "tools": "gstat %s, R %s"}', took[["elapsed"]],
  sum(took[c("user.self", "sys.self", "user.child", "sys.child")]), packageVersion("gstat"), getRversion()))
