# Whether groups of lives differ, by R's `survival`.   usage: Rscript difference.R FOLDER
# Reads FOLDER/*.csv (group,lower,upper,count,entry; exact or taken out good) and prints one line each: its name, then
# the chi-squared and degrees of the log-rank test, and of the likelihood-ratio test of Weibull distributions over the
# groups with five failures or more (NA where fewer than two have so many).
# survdiff knows no entries; of tables with entries, which have no ties, the score test of coxph is the log-rank test.
suppressPackageStartupMessages(library(survival))

number <- function(x) format(x, digits = 17, scientific = TRUE, trim = TRUE)

each_alone <- function(lives) lives[rep(seq_len(nrow(lives)), lives$count), ]

log_rank <- function(lives) {
  failed <- as.numeric(!is.na(lives$upper))
  if (any(lives$entry > 0)) {
    cox <- coxph(Surv(lives$entry, lives$lower, failed) ~ factor(lives$group))
    return(c(cox$score, sum(!is.na(cox$coefficients))))
  }
  test <- survdiff(Surv(lives$lower, failed) ~ lives$group)
  c(test$chisq, sum(test$exp > 0) - 1)
}

loglik <- function(lives) {
  control <- survreg.control(maxiter = 200, rel.tolerance = 1e-14, outer.max = 10)
  survreg(Surv(lives$lower, !is.na(lives$upper)) ~ 1, dist = "weibull", control = control)$loglik[1]
}

weibull <- function(lives) {
  failures <- tapply(!is.na(lives$upper), lives$group, sum)
  lives <- lives[lives$group %in% names(failures)[failures >= 5], ]
  groups <- split(lives, lives$group)
  if (length(groups) < 2 || any(lives$entry > 0)) return(c(NA, NA))
  c(2 * (sum(sapply(groups, loglik)) - loglik(lives)), 2 * (length(groups) - 1))
}

for (path in sort(list.files(commandArgs(TRUE)[1], "csv$", full.names = TRUE))) {
  lives <- each_alone(read.csv(path, colClasses = c(group = "character")))
  cat(basename(path), number(c(log_rank(lives), weibull(lives))), "\n")
}
