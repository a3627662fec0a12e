# Maximum likelihood of log-normal times known to an interval, with an effect of each feed and each
# block, by survreg of the R package survival: six invented sets, drawn here, then three
# published ones.
# Prints one JSON object a line; tests/oracle/trial_survreg.json holds what it printed.
# Run: Rscript trial_survreg.R
suppressPackageStartupMessages({library(survival); library(MASS)})
set.seed(20260314)
number <- function(x) ifelse(is.finite(x), format(x, digits = 15), "null")
# plots: feed and block of each, numbered from 1; low and high: the days it lies between.
print_fit <- function(plots, low, high) {
  feeds <- max(plots$feed)
  blocks <- max(plots$block)
  fit <- survreg(Surv(ifelse(low > 0, low, NA), ifelse(is.finite(high), high, NA),
                      type = "interval2") ~ factor(feed) + factor(block),
                 data = plots, dist = "lognormal",
                 control = survreg.control(rel.tolerance = 1e-12, maxiter = 200))
  effects <- coef(fit)[2:feeds]
  cat(sprintf('{"feeds": %d, "blocks": %d, "plots": [%s], "effects": [%s], "scale": %s}\n',
              feeds, blocks,
              paste(sprintf("[%s, %s, %d, %d]", number(low), number(high), plots$feed - 1,
                            plots$block - 1), collapse = ", "),
              paste(format(effects, digits = 12), collapse = ", "),
              format(fit$scale, digits = 12)))
}
for (set in 1:6) {
  feeds <- c(2, 3, 4, 2, 3, 2)[set]
  blocks <- c(6, 5, 4, 10, 8, 3)[set]
  each <- c(2, 2, 2, 1, 1, 4)[set]
  step <- c(3, 2, 4, 1, 3, 5)[set]
  plots <- expand.grid(copy = 1:each, feed = 1:feeds, block = 1:blocks)
  level <- rnorm(blocks, sd = 0.35)
  time <- 12 * exp(0.3 * (plots$feed - 1) + level[plots$block] + rnorm(nrow(plots), sd = 0.4))
  end <- 24
  low <- floor(time / step) * step
  high <- low + step
  low[time > end] <- end
  high[time > end] <- Inf
  print_fit(plots, low, high)
}
# Weeks of remission on 6-MP or not, in 21 pairs (Gehan 1965; MASS::gehan); of an event within a week
# only the week is used.
print_fit(data.frame(feed = ifelse(gehan$treat == "control", 1, 2), block = gehan$pair),
          ifelse(gehan$cens == 1, gehan$time - 1, gehan$time),
          ifelse(gehan$cens == 1, gehan$time, Inf))
# Weeks to a tumour in litters of three female rats, one of them treated (Mantel, Bohidar & Ciminera
# 1977; survival::rats). A litter without a tumour has no finite effect of its own and is left out.
seen <- subset(rats, sex == "f" & litter %in% litter[sex == "f" & status == 1])
print_fit(data.frame(feed = seen$rx + 1, block = match(seen$litter, unique(seen$litter))),
          ifelse(seen$status == 1, seen$time - 1, seen$time),
          ifelse(seen$status == 1, seen$time, Inf))
# Months to loss of sight in both eyes of a patient, one of them treated (Huster, Brookmeyer & Self 1989;
# survival::diabetic). Of a loss within a month only the month is used; a patient without a loss has
# no finite effect of its own and is left out.
lost <- subset(diabetic, id %in% id[status == 1])
print_fit(data.frame(feed = lost$trt + 1, block = match(lost$id, unique(lost$id))),
          ifelse(lost$status == 1, floor(lost$time), lost$time),
          ifelse(lost$status == 1, floor(lost$time) + 1, Inf))
