# Makes reference.json: Rscript reference.R > reference.json
# Needs R 4 with psych (Debian: r-base-core, r-cran-psych). The tests need
# reference.json only.
suppressPackageStartupMessages(library(psych))

number <- function(x) if (is.finite(x)) sprintf("%.12g", x) else "null"
numbers <- function(x) paste0("[", paste(vapply(x, number, ""), collapse = ", "), "]")
field <- function(name, value) sprintf('"%s": %s', name, value)
object <- function(...) paste0("{", paste(c(...), collapse = ", "), "}")

table_of <- function(name) {
  x <- as.matrix(read.csv(paste0(name, ".csv"), header = FALSE))
  # Rounded: cor() takes means that differ by rounding errors for no tie.
  others <- function(j) round(rowMeans(x[, -j, drop = FALSE]), 10)
  against <- function(method) vapply(seq_len(ncol(x)), function(j) cor(x[, j], others(j), method = method), 0)
  icc <- ICC(x, lmer = FALSE)$results
  # The judges are the blocks of Friedman's test: W = chi² / (m (n - 1)).
  chi <- unname(friedman.test(t(x))$statistic)
  alpha <- suppressWarnings(alpha(as.data.frame(x), check.keys = FALSE))$total$raw_alpha
  # The spread at each level, as a parabola in the object's mean.
  level <- rep(rowMeans(x), ncol(x))
  off2 <- (as.vector(x) - level)^2
  spread2 <- unname(fitted(lm(off2 ~ level + I(level^2))))
  field(name, object(
    field("pearson", numbers(against("pearson"))),
    field("spearman", numbers(against("spearman"))),
    field("kendall", numbers(against("kendall"))),
    field("deviation", numbers(apply(x, 2, sd))),
    field("icc_2_1", number(icc["Single_random_raters", "ICC"])),
    field("icc_2_k", number(icc["Average_random_raters", "ICC"])),
    field("kendall_w", number(chi / (ncol(x) * (nrow(x) - 1)))),
    field("cronbach_alpha", number(alpha)),
    field("parabola", numbers(spread2))))
}

# Every way of choosing the own ones out of all: the permutation test's exact p.
exact_p <- function(own, others) {
  all <- c(own, others)
  difference <- mean(own) - mean(others)
  dealt <- combn(length(all), length(own), function(i) mean(all[i]) - mean(all[-i]))
  mean(abs(dealt) >= abs(difference) - 1e-12)
}
own <- c(0.9, 0.4, 0.7)
others <- c(-0.3, 0.2, 0.1, -0.5, 0.6, -0.1, 0.0)

cat("{\n", paste(c(
  field("made_by", sprintf('"%s, psych %s"', R.version.string, packageVersion("psych"))),
  vapply(c("shrout-fleiss", "kendall-ties", "rounding-times"), table_of, ""),
  field("permutation", object(field("own", numbers(own)), field("others", numbers(others)),
    field("difference", number(mean(own) - mean(others))), field("p", number(exact_p(own, others)))))), collapse = ",\n"), "\n}\n", sep = "")
