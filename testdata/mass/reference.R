# Makes reference.json: Rscript reference.R > reference.json
# Needs R 4 with MASS (Debian: r-base-core, r-cran-mass). The tests need
# reference.json only.
suppressPackageStartupMessages(library(MASS))

numbers <- function(x) paste0("[", paste(sprintf("%.12g", x), collapse = ", "), "]")
field <- function(name, value) sprintf('"%s": %s', name, value)

# The cells of a table that are not gaps, one a line.
cells_of <- function(name) {
  y <- as.matrix(read.csv(paste0(name, ".csv"), header = FALSE))
  cells <- data.frame(row = factor(row(y)), seat = factor(col(y)), y = as.vector(y))
  cells[!is.na(cells$y), ]
}

# rlm from each row's median and no shifts, with the scales of the cells fixed:
# rlm divides residuals by the scale that it estimates, which is undone here.
fit_at <- function(cells, scales) {
  fixed <- function(u, deriv = 0) psi.bisquare(u * get("scale", parent.frame()) / scales, c = 6, deriv)
  medians <- tapply(cells$y, cells$row, median)
  start <- c(medians[1], medians[-1] - medians[1], rep(0, nlevels(cells$seat) - 1))
  rlm(y ~ row + seat, data = cells, psi = fixed, init = start, acc = 1e-14, maxit = 10000)
}

# The panel's shifts add up to 0; the rows take what is left.
report <- function(name, cells, scales) {
  fit <- fit_at(cells, scales)
  stopifnot(fit$converged)
  first <- coef(fit)[1]
  rows <- c(0, coef(fit)[grep("^row", names(coef(fit)))])
  seats <- c(0, coef(fit)[grep("^seat", names(coef(fit)))])
  field(name, paste0("{", paste(c(
    field("values", numbers(first + rows + mean(seats))),
    field("shifts", numbers(seats - mean(seats))),
    field("trust", numbers(fit$w)), # seat after seat, gaps left out
    field("variances", numbers(tapply(scales, cells$seat, mean)^2))), collapse = ",\n"), "}"))
}

# The scales that the method measures, each seat its own, found by fitting and
# measuring in turn.
measured <- function(cells) {
  seats <- nlevels(cells$seat)
  scales <- rep(0.25, nrow(cells))
  repeat {
    e <- residuals(fit_at(cells, scales))
    far <- 3 * max(0.25, median(abs(e)) / 0.6745)
    sums <- tapply(pmin(abs(e), far)^2, cells$seat, sum)
    v <- sums / (tapply(e, cells$seat, length) - 1) / (1 - 1 / seats)
    v <- pmax(v, 0.25^2, 0.15 * median(v))
    moved <- max(abs(sqrt(v)[cells$seat] - scales))
    scales <- as.vector(sqrt(v)[cells$seat])
    if (moved < 1e-13) return(scales)
  }
}

exact <- cells_of("exact")
inexact <- cells_of("inexact")
cat("{\n", paste(c(
  field("made_by", sprintf('"%s, MASS %s"', R.version.string, packageVersion("MASS"))),
  report("exact", exact, rep(0.25, nrow(exact))),
  report("inexact", inexact, measured(inexact))), collapse = ",\n"), "\n}\n", sep = "")
