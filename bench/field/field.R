# gstat's side of bench/field (called by field.py): kriging and 100 conditional simulations on the
# same points and grid; processor time, median of three. nmax is set: with all points gstat's
# simulation on 4096 nodes does not finish in minutes.
suppressPackageStartupMessages({library(sp); library(gstat)})
folder <- commandArgs(TRUE)[1]
d <- read.csv(file.path(folder, "points.csv")); coordinates(d) <- ~x + y
g <- expand.grid(x = seq(1, 127, 2), y = seq(1, 127, 2)); coordinates(g) <- ~x + y
err <- vgm(1.44, "Mat", 20 / sqrt(3), kappa = 1.5, add.to = vgm(0.09, "Err", 0))
sim <- vgm(1.44, "Mat", 20 / sqrt(3), kappa = 1.5, nugget = 0.09)
cpu <- function(n, f) median(sapply(1:n, function(i) sum(system.time(f())[c(1, 2)]))) * 1000
k <- cpu(3, function() krige(v ~ 1, d, g, err, beta = 0, debug.level = 0))
s <- cpu(1, function() krige(v ~ 1, d, g, sim, beta = 0, nsim = 100, nmax = 60, debug.level = 0))
cat(sprintf('{"krige_ms":%.1f,"draws100_nmax60_ms":%.1f,"versions":"R %s, gstat %s"}\n', k, s, getRversion(), packageVersion("gstat")))
