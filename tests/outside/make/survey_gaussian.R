# Makes ../survey_gaussian.json: the Gaussian limit of the survey's field (meter marks only) and
# conditional simulation, by gstat on open data. Run: Rscript tests/outside/make/survey_gaussian.R
# Data: meuse, of R package sp (GPL >= 2); M. Rikken and R. Van Rijn (1993), Soil pollution with heavy
# metals, Utrecht University; as described in P. Burrough and R. McDonnell (1998).
# Conventions: gstat "Mat" with kappa 1.5 and range a is (1 + h/a) exp(-h/a), so a = length / sqrt(3)
# of the usual Matern 3/2; "Err" is measurement error: the predicted value is the noise-free field.
suppressPackageStartupMessages({library(sp); library(gstat)})
data(meuse); data(meuse.grid)
out <- "tests/outside/survey_gaussian.json"
num <- function(v) paste0("[", paste(formatC(v, digits = 15, format = "g", flag = "#"), collapse = ","), "]")
version <- paste0("R ", getRversion(), ", gstat ", packageVersion("gstat"), ", sp ", packageVersion("sp"))

# 1. Simple kriging of log zinc, Matern 3/2 of length 600 m, sill 0.55, error 0.05, mean 5.9.
pick <- round(seq(1, nrow(meuse.grid), length.out = 120))
grid <- meuse.grid[pick, c("x", "y")]
points <- meuse[, c("x", "y", "zinc")]
d <- points; coordinates(d) <- ~x + y
g <- grid; coordinates(g) <- ~x + y
model <- vgm(0.55, "Mat", 600 / sqrt(3), kappa = 1.5, add.to = vgm(0.05, "Err", 0))
k <- krige(log(zinc) ~ 1, d, g, model, beta = 5.9, debug.level = 0)

# 2. Conditional simulation on a transect, where a product of Materns over two axes is one Matern.
set.seed(1954)
at <- c(4, 10, 19, 33, 36, 52, 71, 90)
value <- c(0.4, 0.9, 1.3, 0.2, 0.1, -1.1, -0.6, 0.3)
to <- seq(1.5, 106.5, by = 3)
line <- data.frame(x = at, y = 0, v = value); coordinates(line) <- ~x + y
nodes <- data.frame(x = to, y = 0); coordinates(nodes) <- ~x + y
m2 <- vgm(1.44, "Mat", 18 / sqrt(3), kappa = 1.5, add.to = vgm(0.09, "Err", 0))
kt <- krige(v ~ 1, line, nodes, m2, beta = 0, debug.level = 0)
# Simulation does not take "Err": the field is simulated noise-free, conditioned on values that
# are themselves noisy, by drawing the noise first (Matheron: exact for the same joint law).
nsim <- 4000
m3 <- vgm(1.44, "Mat", 18 / sqrt(3), kappa = 1.5)
both <- data.frame(x = c(at, to), y = 0); coordinates(both) <- ~x + y
prior <- krige(v ~ 1, NULL, both, m3, beta = 0, nsim = nsim, dummy = TRUE, nmax = 60, debug.level = 0)
p <- t(as.matrix(as.data.frame(prior)[, paste0("sim", 1:nsim)]))
cov32 <- function(a, b) { h <- abs(outer(a, b, "-")) * sqrt(3) / 18; 1.44 * (1 + h) * exp(-h) }
w <- solve(cov32(at, at) + 0.09 * diag(length(at)), cov32(at, to))
noise <- matrix(rnorm(nsim * length(at), sd = 0.3), nsim)
resid <- sweep(-(p[, seq_along(at)] + noise), 2, value, "+")
sims <- p[, -seq_along(at)] + resid %*% w
lag1 <- sapply(seq_len(length(to) - 1), function(i) cor(sims[, i], sims[, i + 1]))

cat("{\n", file = out)
put <- function(...) cat(..., file = out, append = TRUE, sep = "")
put('"made_by":"tests/outside/make/survey_gaussian.R",\n"versions":"', version, '",\n')
put('"meuse":{"source":"R package sp, data set meuse; Rikken and Van Rijn 1993","licence":"GPL >= 2 (package sp)","status":"read",\n')
put('"length":600,"sill":0.55,"error_variance":0.05,"mean":5.9,\n')
put('"x":', num(points$x), ',\n"y":', num(points$y), ',\n"log_zinc":', num(log(points$zinc)), ',\n')
put('"at_x":', num(grid$x), ',\n"at_y":', num(grid$y), ',\n"pred":', num(k$var1.pred), ',\n"variance":', num(k$var1.var), '},\n')
put('"transect":{"source":"invented numbers, kriged by gstat","length":18,"sill":1.44,"error_variance":0.09,"draws":', nsim, ',\n')
put('"x":', num(at), ',\n"value":', num(value), ',\n"at_x":', num(to), ',\n"pred":', num(kt$var1.pred), ',\n"variance":', num(kt$var1.var), ',\n')
put('"sim_mean":', num(colMeans(sims)), ',\n"sim_sd":', num(apply(sims, 2, sd)), ',\n"sim_next_correlation":', num(lag1), '}\n}\n')
cat("simulated sd over kriging sd:", range(apply(sims, 2, sd) / sqrt(kt$var1.var)), "\n")
