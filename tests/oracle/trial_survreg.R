# Maximum likelihood of log-normal times known to an interval, with an effect of each feed and each
# block, by survreg of the R package survival: six invented sets, drawn here, then six published
# ones.
# Prints one JSON object a line; tests/oracle/trial_survreg.json holds what it printed.
# Run: Rscript trial_survreg.R
suppressPackageStartupMessages({library(survival); library(MASS); library(nlme)})
set.seed(20260314)
number <- function(x) ifelse(is.finite(x), format(x, digits = 15), "null")
# plots: feed and block of each, numbered from 1; low and high: the days it lies between.
print_fit <- function(plots, low, high) {
  feeds <- max(plots$feed)
  blocks <- max(plots$block)
  time <- Surv(ifelse(low > 0, low, NA), ifelse(is.finite(high), high, NA), type = "interval2")
  fit <- survreg(if (blocks > 1) time ~ factor(feed) + factor(block) else time ~ factor(feed),
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
# Ease of getting up from four stools, nine people (Pinheiro & Bates 2000, section 1.2; nlme::ergoStool): the
# marks stand for log times, known to a thousandth, so that the effects are the printed ones.
print_fit(data.frame(feed = as.integer(ergoStool$Type), block = as.integer(as.character(ergoStool$Subject))),
          exp(ergoStool$effort - 0.0005), exp(ergoStool$effort + 0.0005))
# Months to hardened breasts after radiotherapy alone or with chemotherapy, known to the visits on both
# sides, nobody paired (Finkelstein & Wolfe 1985; npsurv::cancer).
data(cancer, package = "npsurv")
print_fit(data.frame(feed = ifelse(cancer$group == "RT", 1, 2), block = 1), cancer$L, cancer$R)
# Years of diabetes until the kidneys leak, women and men, known to the examinations (Borch-Johnsen,
# Andersen & Deckert 1985; load_diabetes of the Python package lifelines 0.30.3, under the MIT licence). Where both
# ends are one year it happened within the year before.
script <- sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))
kidneys <- read.csv(file.path(dirname(script), "interval_diabetes.csv"))
print_fit(data.frame(feed = ifelse(kidneys$gender == "female", 1, 2), block = 1),
          kidneys$left - (kidneys$left == kidneys$right), kidneys$right)
# The pairs of KMsurv::drug6mp (Klein & Moeschberger 1997, table 1.1) are Gehan's once more.
data(drug6mp, package = "KMsurv")
stopifnot(gehan$time == as.vector(t(drug6mp[c("t1", "t2")])),
          gehan$cens == as.vector(t(cbind(1, drug6mp$relapse))))
