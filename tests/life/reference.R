# The same lives by R's `survival`.   usage: Rscript reference.R FOLDER
# Reads FOLDER/*.csv (lower,upper,count,entry) and prints one line each: its name, then loglik, shape, scale, the errors
# of log shape and log scale, and the loglik and parameters of the lognormal; for those without gaps and entries, or
# with entries only, the Kaplan-Meier steps: age/at risk/survival/error/lower/upper (log-log).
suppressPackageStartupMessages(library(survival))

number <- function(x) format(x, digits = 17, scientific = TRUE, trim = TRUE)

times <- function(lives) {
  lower <- ifelse(lives$lower > 0, lives$lower, NA)
  Surv(lower, lives$upper, type = "interval2")
}

fit <- function(lives, dist) {
  control <- survreg.control(maxiter = 200, rel.tolerance = 1e-14, outer.max = 10)
  survreg(times(lives) ~ 1, weights = lives$count, dist = dist, control = control)
}

# survreg takes exact and interval lives in one; its loglik is on the scale of time.
parametric <- function(lives) {
  weibull <- fit(lives, "weibull")
  lognormal <- fit(lives, "lognormal")
  c(weibull$loglik[1], 1 / weibull$scale, exp(coef(weibull)), sqrt(diag(vcov(weibull)))[2:1],
    lognormal$loglik[1], coef(lognormal), lognormal$scale)
}

steps <- function(lives) {
  failed <- as.numeric(!is.na(lives$upper))
  response <- if (any(lives$entry > 0)) Surv(lives$entry, lives$lower, failed) else Surv(lives$lower, failed)
  km <- survfit(response ~ 1, weights = lives$count, conf.type = "log-log", robust = FALSE)
  at <- km$n.event > 0
  surv <- km$surv[at]
  rbind(km$time[at], km$n.risk[at], surv, km$std.err[at] * surv, km$lower[at], km$upper[at])
}

for (path in sort(list.files(commandArgs(TRUE)[1], "csv$", full.names = TRUE))) {
  lives <- read.csv(path)
  exact <- is.na(lives$upper) | lives$upper == lives$lower
  figures <- if (any(lives$entry > 0)) rep(NA, 8) else parametric(lives)
  table <- if (all(exact)) apply(steps(lives), 2, function(step) paste(number(step), collapse = "/")) else character(0)
  cat(basename(path), number(unname(figures)), table, "\n")
}
